"""From what the teacher asks to the finished file: six steps, one way. Read `build` first.

1 request · 2 words · 3 games · 4 sheets · 5 paper · 6 proof. Each step is a room of the same name and hands plain data
to the next. How one command goes through steps 2 to 4 is its recipe, in `recipes/`.
"""

import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cardgen import plan
from cardgen.errors import TeacherError
from cardgen.paper import pdf
from cardgen.paper.preview import preview
from cardgen.paper.proof import prove
from cardgen.paper.whole_file import whole_file
from cardgen.recipes.bingo import bingo
from cardgen.recipes.catalogue import catalogue
from cardgen.recipes.check import check
from cardgen.recipes.clips import clips
from cardgen.recipes.flashcards import flashcard_sheets
from cardgen.recipes.layouts import layout_sheets
from cardgen.recipes.library import Library, open_library
from cardgen.recipes.match import match
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
    MatchRequest,
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
    SortRequest: sort,
    TraceRequest: trace,
    RulerRequest: ruler,
}
Proof = Callable[[Path, Document], None]
Agree = Callable[[Sequence[str], Sequence[str]], bool]


@dataclass(frozen=True, slots=True)
class Output:
    """Where the sheets go: one file, or (`split`) a folder of that name with one file a piece."""

    path: Path
    split: bool = False
    plan: Path | None = None
    preview: bool = False


def build(
    request: SheetRequest, output: Output, agree: Agree | None = None, proof: Proof | None = prove
) -> tuple[Path, ...]:
    """Return the files written for a request, whole and proven; none if `agree` says no.

    `agree` is told the summary and the warnings before anything is written. TeacherError where the request cannot be
    met or a file cannot be written; what stood there before still stands then.
    """
    # 1 request: it was checked when it was made.
    library = open_library(request.pictures, request.accent, open_pictures=request.open_pictures)
    rng = random.Random(request.seed)
    # 2 words, 3 games, 4 sheets: the recipe's way from sounds to marks on pages.
    sheets = library.credited(RECIPES[type(request)](request, library, rng, output.split), request.ink)
    if request.punch:
        moved = tuple((name, punched(document, library.widths)) for name, document in sheets.documents)
        sheets = replace(sheets, documents=moved)
    # The pictures are read before anything is promised: one of the teacher's own may be damaged.
    drawings = library.drawings(sheets.documents, request.ink)
    if agree and not agree(sheets.summary, (*sheets.warnings, *library.look_out(drawings, request))):
        return ()
    # 5 paper and 6 proof: a file gets its name only when it has been read back and found right.
    written = [_print(document, path, drawings, library, proof) for path, document in _goals(sheets, output)]
    if output.plan:
        with whole_file(output.plan) as part:
            part.write_bytes(plan.to_json(sheets.plan))
        written.append(output.plan)
    if output.preview:
        written += [picture for path in tuple(written) if path.suffix == ".pdf" for picture in preview(path)]
    return tuple(written)


def _goals(sheets: Sheets, output: Output) -> Iterator[tuple[Path, Document]]:
    """Yield each document with the file it goes to; the folder of a split set is made when it is needed."""
    if not output.split:
        ((_, document),) = sheets.documents
        yield output.path, document
        return
    folder = output.path.with_suffix("")
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise TeacherError(
            f"The folder {folder} cannot be made.", "Choose another with --out, in a folder you may write to."
        ) from error
    for name, document in sheets.documents:
        yield folder / f"{name}.pdf", document


def _print(
    document: Document, path: Path, drawings: Mapping[str, Drawing | Photo], library: Library, proof: Proof | None
) -> Path:
    with whole_file(path) as part:
        pdf.write(document, drawings.__getitem__, codes.matrix, library.fonts, part)
        if proof:
            proof(part, document)
    return path
