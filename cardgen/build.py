"""From what the teacher asks to the finished file: six steps, one way. Read `build` first.

1 request · 2 words · 3 games · 4 sheets · 5 paper · 6 proof. Each step is a room of the same name and hands plain data
to the next. How one command goes through steps 2 to 4 is its recipe, in `recipes/`.
"""

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path

from cardgen import plan
from cardgen.errors import TeacherError
from cardgen.paper import pdf
from cardgen.paper.preview import contact
from cardgen.paper.preview import preview as previews
from cardgen.paper.proof import prove
from cardgen.paper.whole_file import whole_file
from cardgen.paper.whole_folder import whole_folder
from cardgen.recipes.bingo import bingo
from cardgen.recipes.catalogue import catalogue
from cardgen.recipes.check import check
from cardgen.recipes.clips import clips
from cardgen.recipes.flashcards import flashcard_sheets
from cardgen.recipes.layouts import layout_sheets
from cardgen.recipes.lesson import CONTENTS, in_order, own_files, running_order
from cardgen.recipes.library import Library, library_for, not_used
from cardgen.recipes.match import match
from cardgen.recipes.pack import pack_sheets
from cardgen.recipes.punch import punched
from cardgen.recipes.ruler import ruler
from cardgen.recipes.sheets import Sheets
from cardgen.recipes.sort import sort
from cardgen.recipes.trace import trace
from cardgen.request import (
    BingoRequest,
    CatalogueRequest,
    CheckRequest,
    ClipListRequest,
    FlashcardsRequest,
    LayoutsRequest,
    LessonPart,
    LessonRequest,
    MatchRequest,
    PackRequest,
    RulerRequest,
    SheetRequest,
    SortRequest,
    TraceRequest,
)
from cardgen.sheets.marks import Document, Drawing, Photo
from cardgen.sources import codes

# What goes through steps 2 to 4 for a request: one a command.
RECIPES: Mapping[type[SheetRequest], Callable[..., Sheets]] = {
    BingoRequest: bingo,
    FlashcardsRequest: flashcard_sheets,
    LayoutsRequest: layout_sheets,
    CatalogueRequest: catalogue,
    CheckRequest: check,
    ClipListRequest: clips,
    MatchRequest: match,
    PackRequest: pack_sheets,
    SortRequest: sort,
    TraceRequest: trace,
    RulerRequest: ruler,
}
Progress = Callable[[int, int], object]
PageDone = Callable[[], object]
Proof = Callable[[Path, Document, PageDone], None]
Agree = Callable[[Sequence[str], Sequence[str]], bool]


@dataclass(frozen=True, slots=True)
class Output:
    """Where the sheets go: one file, or (`split`) a folder of that name with one file a piece."""

    path: Path
    split: bool = False
    plan: Path | None = None
    preview: bool = False


@dataclass(frozen=True, slots=True)
class Prepared:
    """Everything decided of a request, before anything is written: its pages, and the pictures that stand on them."""

    request: SheetRequest
    library: Library
    sheets: Sheets
    drawings: Mapping[str, Drawing | Photo]

    @property
    def _not_used(self) -> tuple[str, ...]:
        """What is told of words that stand on no page; where words are not chosen there is nothing to tell."""
        if not {"words", "items", "pairs", "tasks", "cards"} & set(self.sheets.plan):
            return ()
        return not_used(self.request, self.library, self.sheets.documents)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What the teacher should know."""
        return (
            *self.sheets.warnings,
            *self.library.look_out(self.drawings, self.request),
            *self._not_used,
        )


def prepare(request: SheetRequest, *, split: bool = False) -> Prepared:
    """Return what would be printed for a request; TeacherError where it cannot be met, saying what can."""
    # 1 request: it was checked when it was made.
    library = library_for(request)
    rng = random.Random(request.seed)
    # 2 words, 3 games, 4 sheets: the recipe's way from sounds to marks on pages.
    sheets = library.credited(RECIPES[type(request)](request, library, rng, split), request.ink)
    if request.punch:
        moved = tuple((name, punched(document, library.widths)) for name, document in sheets.documents)
        sheets = replace(sheets, documents=moved)
    # The pictures are read before anything is promised: one of the teacher's own may be damaged.
    return Prepared(request, library, sheets, library.drawings(sheets.documents, request.ink))


def build(
    request: SheetRequest,
    output: Output,
    agree: Agree | None = None,
    proof: Proof | None = prove,
    progress: Progress | None = None,
) -> tuple[Path, ...]:
    """Return the files written for a request, whole and proven; none if `agree` says no.

    `agree` is told the summary and the warnings before anything is written, `progress` after every page how many of
    how many are done. TeacherError where the request cannot be met or a file cannot be written; what stood there before
    still stands then.
    """
    made = prepare(request, split=output.split)
    if agree and not agree(made.sheets.summary, made.warnings):
        return ()
    # 5 paper and 6 proof: a file gets its name only when it has been read back and found right.
    documents = made.sheets.documents
    page_done = _counter(progress, [document for _, document in documents], proof)
    if output.split:
        folder = output.path.with_suffix("")
        names = [f"{name}.pdf" for name, _ in documents]
        with whole_folder(folder, names, may_replace=names) as part:
            for name, (_, document) in zip(names, documents, strict=True):
                _print(document, made, part / name, proof, page_done)
        written = [folder / name for name in names]
    else:
        ((_, document),) = documents
        with whole_file(output.path) as part:
            _print(document, made, part, proof, page_done)
        written = [output.path]
    if output.plan:
        with whole_file(output.plan) as part:
            part.write_bytes(plan.to_json(made.sheets.plan))
        written.append(output.plan)
    if output.preview:
        written += [picture for path in tuple(written) if path.suffix == ".pdf" for picture in previews(path)]
    return tuple(written)


def build_lesson(
    lesson: LessonRequest,
    folder: Path,
    agree: Agree | None = None,
    proof: Proof | None = prove,
    progress: Progress | None = None,
    *,
    preview: bool = False,
) -> tuple[Path, ...]:
    """Return the files of a lesson in one folder: the running order, then the sheets with their plans; all or none.

    With `preview` also a picture of each, all its pages at a glance. Files of an older run of the same lesson are
    replaced; TeacherError where anything else is in the way.
    """
    made, left_out = _parts(lesson)
    order = running_order(lesson, [(part, one.sheets) for part, one in made], made[0][1].library)
    warnings = dict.fromkeys(text for _, one in made for text in one.warnings)
    if agree and not agree((*order.summary, *left_out), tuple(warnings)):
        return ()
    names = order.files(preview=preview)
    documents = [order.document, *(document for _, one in made for _, document in one.sheets.documents)]
    page_done = _counter(progress, documents, proof)
    # The list of our files comes first: should the run be killed, the next one still knows what it may replace.
    first_list = sorted(names, key=lambda name: name != CONTENTS)
    with whole_folder(folder, first_list, may_replace=own_files(folder)) as part:
        _print(order.document, made[0][1], part / order.pdfs[0], proof, page_done)
        for (name, plan_name), (_, one) in zip(order.parts, made, strict=True):
            ((_, document),) = one.sheets.documents
            _print(document, one, part / name, proof, page_done)
            (part / plan_name).write_bytes(plan.to_json(one.sheets.plan))
        for name in order.pdfs if preview else ():
            contact(part / name)
        (part / CONTENTS).write_bytes(order.contents(preview=preview))
    return tuple(folder / name for name in names)


def write_text(text: str, path: Path) -> None:
    """Write a text, whole or not at all; TeacherError where the folder or the disk cannot take it."""
    with whole_file(path) as part:
        part.write_bytes(text.encode("utf-8"))


def _parts(lesson: LessonRequest) -> tuple[list[tuple[LessonPart, Prepared]], list[str]]:
    """Return every part of a lesson made ready, and what is told of those that are left out."""
    made, left_out = [], []
    for number, part in enumerate(in_order(lesson.parts), 1):
        try:
            made.append((part, prepare(part.request)))
        except TeacherError as error:
            if not lesson.where_possible or (number == len(lesson.parts) and not made):
                raise TeacherError(f"{part.command}: {error.message}", error.hint) from error
            left_out.append(f"Without {part.command}: {error.message}")
    return made, left_out


def _counter(progress: Progress | None, documents: Sequence[Document], proof: Proof | None) -> PageDone:
    """Return what is to be called after every page that is written or proven."""
    total = sum(len(document.pages) for document in documents) * (2 if proof else 1)
    done = count(1)

    def page_done() -> None:
        if progress:
            progress(next(done), total)

    return page_done


def _print(document: Document, made: Prepared, path: Path, proof: Proof | None, page_done: PageDone) -> None:
    pdf.write(document, made.drawings.__getitem__, codes.matrix, made.library.fonts, path, page_done)
    if proof:
        proof(path, document, page_done)
