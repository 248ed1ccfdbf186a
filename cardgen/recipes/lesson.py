"""A lesson in one folder: the running order, and what every file in the folder is called."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from pathlib import Path

from cardgen import __version__
from cardgen.games import lesson_text as text
from cardgen.games.paper_text import count
from cardgen.games.pieces import ContentsLine, Imprint, OrderLine
from cardgen.games.saying import say_lines
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import Accent, Cut, LessonPart, LessonRequest, Paper
from cardgen.sheets.cuts import minutes
from cardgen.sheets.marks import Document, Side
from cardgen.sheets.running_order import running_order_pages

CONTENTS = "contents.json"
ORDER = "01-running-order.pdf"
PAPERS = {Paper.A4: "A4", Paper.LETTER: "Letter paper"}
LARGEST_CONTENTS = 100_000  # bytes


@dataclass(frozen=True, slots=True)
class RunningOrder:
    """The first page of a lesson, and the files of its folder: `parts` are the PDF and the plan of every sheet."""

    document: Document
    summary: tuple[str, ...]
    parts: tuple[tuple[str, str], ...]

    @property
    def pdfs(self) -> tuple[str, ...]:
        """The sheets to print, the running order first."""
        return (ORDER, *(name for name, _ in self.parts))

    def files(self, *, preview: bool) -> tuple[str, ...]:
        """Return every file of the folder, those to print first, with `preview` a picture of each."""
        pictures = [f"{name.removesuffix('.pdf')}.png" for name in self.pdfs] if preview else []
        return (*self.pdfs, *(name for _, name in self.parts), *pictures, CONTENTS)

    def contents(self, *, preview: bool) -> bytes:
        """Return what the folder says of itself: which files are ours, so that a new run may replace them."""
        files = list(self.files(preview=preview))
        return f"{json.dumps({'made by': 'cardgen', 'files': files}, indent=1, ensure_ascii=False)}\n".encode()


def running_order(lesson: LessonRequest, made: Sequence[tuple[LessonPart, Sheets]], library: Library) -> RunningOrder:
    """Return the running order of a lesson whose sheets are made."""
    names = _names([part for part, _ in made])
    lines = [_line(part, sheets, name, lesson.children) for (part, sheets), (name, _) in zip(made, names, strict=True)]
    first = made[0][0].request
    keys = tuple(dict.fromkeys(key for part, _ in made for key in part.request.all_keys))
    sheets, cuts = sum(line.sheets for line in lines), sum(line.cuts for line in lines)
    told = f"{count(lesson.children, 'child').replace('childs', 'children')}: {count(sheets, 'sheet')} of paper, "
    told += f"{count(cuts, 'guillotine cut')}, about {count(minutes(cuts), 'minute')} of cutting"
    notes = [
        f"Print every file at 100 % on {PAPERS[first.paper]}. Days are a proposal: move on when the children have it.",
        text.ENGLAND if first.accent is Accent.GB else text.US,
        f"Plans (.json) say what was decided. Made with cardgen {__version__}; the seed {first.seed} makes it again.",
        "Your school's own rules and local law come first: blades, laminator, small parts, photos and voices.",
    ]
    pages = running_order_pages(
        lesson.title,
        f"{told} (a rule of thumb).",
        say_lines(library.sounds.several(keys)),
        lines,
        notes,
        [_what(name, sheets) for (_, sheets), (name, _) in zip(made, names, strict=True)],
        first.paper.size,
        imprint=Imprint("lesson", keys, first.seed),
        widths=library.widths,
    )
    summary = [f"{lesson.title}. {told}."]
    summary += [f"  {line.when:7} {line.head:10} {line.file}: {line.times}, {line.paper}" for line in lines]
    document = Document(lesson.title, LANGUAGES[first.accent], pages)
    return RunningOrder(document, tuple(summary), names)


def in_order(parts: Sequence[LessonPart]) -> list[LessonPart]:
    """Return the parts of a lesson in the order in which they are used."""
    return sorted(parts, key=lambda part: text.STEPS[part.command].day)


def _names(parts: Sequence[LessonPart]) -> tuple[tuple[str, str], ...]:
    """Return the PDF and the plan of every part: number, command and sounds, so that a folder lists them in order."""
    found = []
    for number, part in enumerate(parts, 2):
        name = f"{number:02}-{part.command.replace(' ', '-')}-{'-'.join(part.request.keys)}"
        found.append((f"{name[:100]}.pdf", f"{name[:100]}.json"))
    return tuple(found)


def _line(part: LessonPart, sheets: Sheets, name: str, children: int) -> OrderLine:
    step = text.STEPS[part.command]
    copies = copies_of(part.command, sheets, children)
    paper = int(sheets.plan.get("sheets", 1)) * copies
    # Packs are cut by children or families, with scissors, unless they are to be cut otherwise.
    at_home = part.command == "pack" and part.request.cut is not Cut.GUILLOTINE
    cuts = 0 if at_home else int(sheets.plan.get("cuts", 0)) * ceil(copies / 10)
    ((_, document),) = sheets.documents
    mine, theirs = _span(1, sheets.for_you), _span(sheets.for_you + 1, len(document.pages))
    times = "once" if copies == 1 else f"{mine} once, {copies} copies of {theirs}"
    return OrderLine(
        text.day(step.day),
        step.head,
        step.do,
        step.practises,
        step.standards,
        name,
        times,
        f"{_sides(sheets)}; {count(paper, 'sheet')}" + (f", {count(cuts, 'cut')}" if cuts else ""),
        paper,
        cuts,
        minutes(cuts),
    )


def _span(first: int, last: int) -> str:
    return f"page {first}" if first == last else f"pages {first} to {last}"


def _sides(sheets: Sheets) -> str:
    """Return on which sides of the paper a file is printed."""
    edge = sheets.plan.get("flip")
    ((_, document),) = sheets.documents
    if edge in ("long", "short") and any(page.side is Side.BACK for page in document.pages):
        return f"both sides, turned on the {edge} edge"
    return "one side"


def _what(name: str, sheets: Sheets) -> ContentsLine:
    ((_, document),) = sheets.documents
    return ContentsLine(name, document.title, len(document.pages))


def copies_of(command: str, sheets: Sheets, children: int) -> int:
    """Return how often the children's pages of a sheet are printed for the class.

    Writing sheets are one a child, checks half a sheet; everything else holds the whole class already.
    """
    if command == "trace":
        return children
    if command == "check":
        return ceil(children / 2)
    return int(sheets.plan.get("copies", 1))


def own_files(folder: Path) -> tuple[str, ...]:
    """Return the files of an older run in a folder, which a new one may replace; none if there was none."""
    try:
        if not (folder / CONTENTS).is_file() or (folder / CONTENTS).stat().st_size > LARGEST_CONTENTS:
            return ()
        found = json.loads((folder / CONTENTS).read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return ()
    files = found.get("files") if isinstance(found, dict) and found.get("made by") == "cardgen" else None
    return tuple(name for name in files if isinstance(name, str)) if isinstance(files, list) else ()
