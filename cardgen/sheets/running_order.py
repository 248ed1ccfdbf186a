"""The running order: what happens when in a lesson, which file that is, and how it is printed. All in mm."""

from collections.abc import Sequence

from cardgen.games.pieces import ContentsLine, Imprint, OrderLine, SayLine
from cardgen.sheets import signs
from cardgen.sheets.marks import Group, Item, Label, Line, Page, Role
from cardgen.sheets.say_head import say_head
from cardgen.sheets.style import HAIR_PT, HEAD_PT, INK, PAGE_MARGIN, RUNNING_PT, SMALL_PT, TEXT, TITLE_PT, wrap
from cardgen.units import Size, Typeface, Widths

PITCH, AIR = 4.8, 3.4
DO_AT, FILE_AT, PAPER_AT = 22.0, 90.0, 134.0
TITLE_AT, PAGES_AT = 72.0, 160.0
ROW, BOTTOM, CONTENTS_HEAD = 7.0, 24.0, 17.0


def running_order_pages(
    title: str,
    right: str,
    says: tuple[SayLine, ...],
    lines: Sequence[OrderLine],
    notes: Sequence[str],
    contents: Sequence[ContentsLine],
    paper: Size,
    *,
    imprint: Imprint,
    widths: Widths,
) -> tuple[Page, ...]:
    """Return the pages: title, how the sounds are said, one row a sheet, the notes; then what every file is."""
    left, end = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn: list[Item] = [
        Group(Role.TITLE, (Label(left, 19, title, TITLE_PT, Typeface.BOLD, INK),)),
        Label(left, 26, right, RUNNING_PT, Typeface.TEXT, TEXT),
    ]
    head, y = say_head(says, left, 36, end - left)
    drawn += head
    y += 5
    bodies: list[list[Item]] = []
    rows: list[Group] = [_heads(left, y)]
    drawn.append(Line(left, y + 2, end, y + 2, 1.0, INK))
    y += 2
    for line in lines:
        row, height = _row(line, left, end, y + AIR, widths)
        if y + height + AIR > paper.h - BOTTOM:
            bodies.append([*drawn, Group(Role.TABLE, tuple(rows))])
            drawn, y, rows = [Line(left, 21, end, 21, 1.0, INK)], 21.0, [_heads(left, 19)]
            row, height = _row(line, left, end, y + AIR, widths)
        rows.append(row)
        y += height + AIR
        drawn.append(Line(left, y, end, y, HAIR_PT, INK))
    drawn.append(Group(Role.TABLE, tuple(rows)))
    y += 8
    for note in notes:
        broken = wrap(note, end - left, RUNNING_PT, widths)
        if y + PITCH * len(broken) > paper.h - BOTTOM:
            bodies.append(drawn)
            drawn, y = [], 24.0
        labels = [Label(left, y + PITCH * i, text, RUNNING_PT, Typeface.TEXT, INK) for i, text in enumerate(broken)]
        drawn.append(Group(Role.TEXT, tuple(labels)))
        y += PITCH * len(broken) + 1.5
    if y + CONTENTS_HEAD + ROW * len(contents) > paper.h - BOTTOM:
        bodies.append(drawn)
        drawn, y = [], 18.0
    bodies.append([*drawn, *_contents(contents, left, end, y + 6)])
    return signs.bound(bodies, paper, f"{signs.imprint_text(imprint, 110, widths)} · running order", 1)


def _contents(lines: Sequence[ContentsLine], left: float, end: float, y: float) -> list[Item]:
    """Return the table that says what every file of the folder is, its heading on `y`."""
    drawn: list[Item] = [
        Group(Role.HEADING, (Label(left, y, "In this folder", HEAD_PT, Typeface.BOLD, INK),)),
        Line(left, y + 11, end, y + 11, 1.0, INK),
    ]
    heads = ((left, "file"), (left + TITLE_AT, "what it is"), (left + PAGES_AT, "pages"))
    rows = [Group(Role.ROW, tuple(Group(Role.HEAD, (_small(x, y + 9, text),)) for x, text in heads))]
    y += 11
    for line in lines:
        y += ROW
        cells = ((left, line.file), (left + TITLE_AT, line.title), (left + PAGES_AT, str(line.pages)))
        labels = (Label(x, y - 2.2, text, RUNNING_PT, Typeface.TEXT, INK) for x, text in cells)
        rows.append(Group(Role.ROW, tuple(Group(Role.CELL, (label,)) for label in labels)))
        drawn.append(Line(left, y, end, y, HAIR_PT, INK))
    return [*drawn, Group(Role.TABLE, tuple(rows))]


def _small(x: float, y: float, text: str) -> Label:
    return Label(x, y, text, SMALL_PT, Typeface.TEXT, TEXT)


def _heads(left: float, y: float) -> Group:
    texts = ((left, "when"), (left + DO_AT, "what you do"), (left + FILE_AT, "file"), (left + PAPER_AT, "print"))
    cells = [Group(Role.HEAD, (_small(x, y, text),)) for x, text in texts]
    return Group(Role.ROW, tuple(cells))


def _row(line: OrderLine, left: float, end: float, y: float, widths: Widths) -> tuple[Group, float]:
    """Return one row whose first baseline is near `y`, and its height."""
    base = y + PITCH - 1.4
    practises = "; ".join(part for part in (line.practises, line.standards) if part)
    columns = (
        (left, DO_AT - 3, [line.when, line.head]),
        (left + DO_AT, FILE_AT - DO_AT - 4, [line.do, practises]),
        (left + FILE_AT, PAPER_AT - FILE_AT - 3, [line.file]),
        (left + PAPER_AT, end - left - PAPER_AT, [line.times, line.paper]),
    )
    cells, tallest = [], 0
    for number, (x, width, texts) in enumerate(columns):
        labels: list[Item] = []
        row = 0
        for place, text in enumerate(texts):
            bold = number == 0 and place == 1
            small = number in (1, 3) and place == 1
            for part in wrap(text, width, RUNNING_PT, widths) if text else []:
                face, colour = (Typeface.BOLD if bold else Typeface.TEXT), (TEXT if small else INK)
                labels.append(Label(x, base + PITCH * row, part, RUNNING_PT, face, colour))
                row += 1
        tallest = max(tallest, row)
        cells.append(Group(Role.CELL, tuple(labels)))
    return Group(Role.ROW, tuple(cells)), PITCH * tallest
