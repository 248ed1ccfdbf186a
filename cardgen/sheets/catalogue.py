"""The picture library on paper: by sound, with cautions; and sheets to have the pictures named. Lengths in mm."""

from collections.abc import Sequence

from cardgen.games.pieces import CatalogueEntry, CataloguePart
from cardgen.sheets import signs
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Panel, Picture, Role
from cardgen.sheets.style import HAIR_PT, HEAD_PT, INK, PAGE_MARGIN, RUNNING_PT, SMALL_PT, TEXT, TITLE_PT, Style, wrap
from cardgen.units import Box, Size, Typeface, Widths

COLUMNS, PICTURE, CELL_AIR, LINE_PITCH = 5, 25.0, 3.0, 3.9
TOP, BOTTOM = 19.0, 15.0
NAMING_COLUMNS, NAMING_PITCH = 5, 35.0
TALLY_ROW, TALLY_BOXES, TALLY_BOX = 7.0, 5, 4.5


def catalogue_pages(parts: Sequence[CataloguePart], paper: Size, widths: Widths) -> tuple[Page, ...]:
    """Return the pictures of every sound, five in a row, 25 mm wide, each with its word and its cautions."""
    width = (paper.w - 2 * PAGE_MARGIN) / COLUMNS
    bottom = paper.h - BOTTOM
    bodies: list[list[Item]] = [[_title("Picture words by sound")]]
    y = TOP + 12
    for part in parts:
        rows = [part.entries[start : start + COLUMNS] for start in range(0, len(part.entries), COLUMNS)]
        cells = [[_Cell(entry, width - CELL_AIR, widths) for entry in row] for row in rows]
        if y + 14 + max(cell.height for cell in cells[0]) > bottom:
            bodies.append([])
            y = TOP
        bodies[-1] += _head(part, y, paper, widths)
        y += 6
        for row in cells:
            height = max(cell.height for cell in row)
            if y + height > bottom:
                bodies.append([])
                y = TOP - 8
            for column, cell in enumerate(row):
                bodies[-1] += cell.draw(PAGE_MARGIN + column * width, y)
            y += height + 4
        y += 6
    return signs.bound(
        bodies, paper, "picture words · the name a teacher uses, and what to look out for", 1, with_bar=False
    )


def _title(text: str) -> Group:
    return Group(Role.TITLE, (Label(PAGE_MARGIN, TOP, text, TITLE_PT, Typeface.BOLD, INK),))


def _head(part: CataloguePart, y: float, paper: Size, widths: Widths) -> list[Item]:
    good = sum(not entry.cautions for entry in part.entries)
    count = f"{len(part.entries)} words, {good} of them without a caution"
    letters = Label(PAGE_MARGIN, y, part.letters, 18.0, Typeface.LEARNING, INK)
    at = max(26.0, widths.mm(part.letters, 18.0, Typeface.LEARNING) + 4)
    say = Label(PAGE_MARGIN + at, y, f"{part.key}: {part.say}", HEAD_PT, Typeface.BOLD, INK)
    return [
        Group(Role.HEADING, (letters, say)),
        Label(paper.w - PAGE_MARGIN, y, count, SMALL_PT, Typeface.TEXT, TEXT, Align.RIGHT),
        Line(PAGE_MARGIN, y + 2.5, paper.w - PAGE_MARGIN, y + 2.5, HAIR_PT, INK),
    ]


class _Cell:
    """One picture with its word and cautions below, broken into lines."""

    def __init__(self, entry: CatalogueEntry, width: float, widths: Widths) -> None:
        self.entry = entry
        remarks = (["key picture"] if entry.is_key_picture else []) + list(entry.cautions)
        self.remarks = [line for remark in remarks for line in wrap(remark, width, SMALL_PT, widths)]
        self.height = PICTURE + 5 + LINE_PITCH * len(self.remarks)

    def draw(self, x: float, y: float) -> list[Item]:
        drawn: list[Item] = [Picture(self.entry.picture, Box(x, y, PICTURE, PICTURE), self.entry.alt)]
        y += PICTURE + 4
        lines = [Label(x, y, self.entry.word, RUNNING_PT, Typeface.BOLD, INK)]
        for text in self.remarks:
            y += LINE_PITCH
            lines.append(Label(x, y, text, SMALL_PT, Typeface.TEXT, TEXT))
        drawn.append(Group(Role.TEXT, tuple(lines)))
        return drawn


def naming_pages(entries: Sequence[CatalogueEntry], paper: Size, style: Style, first_page: int) -> tuple[Page, ...]:
    """Return numbered pictures without names, to show to children, then the list to write down what they say."""
    rows = int((paper.h - TOP - BOTTOM - 8) / NAMING_PITCH)
    bodies: list[list[Item]] = []
    for start in range(0, len(entries), rows * NAMING_COLUMNS):
        drawn: list[Item] = [_title("What is this?")]
        for place, entry in enumerate(entries[start : start + rows * NAMING_COLUMNS]):
            row, column = divmod(place, NAMING_COLUMNS)
            x = PAGE_MARGIN + column * (paper.w - 2 * PAGE_MARGIN) / NAMING_COLUMNS
            y = TOP + 6 + row * NAMING_PITCH
            number = str(start + place + 1)
            # The alt text must not give the answer away.
            drawn.append(Label(x, y + 4, number, SMALL_PT, Typeface.TEXT, TEXT))
            drawn.append(Picture(entry.picture, Box(x + 8, y, PICTURE, PICTURE), f"picture {number}"))
        bodies.append(drawn)
    pages = signs.bound(bodies, paper, "naming test · show the pictures, say nothing", first_page, with_bar=False)
    return pages + _tally_pages(entries, paper, style, first_page + len(pages))


def _tally_pages(entries: Sequence[CatalogueEntry], paper: Size, style: Style, first_page: int) -> tuple[Page, ...]:
    a_page = int((paper.h - TOP - BOTTOM - 18) / TALLY_ROW)
    bodies: list[list[Item]] = []
    for start in range(0, len(entries), a_page):
        help_ = (
            "Tick a box for each child who says the word by itself; write down what others say. No names of children."
        )
        drawn: list[Item] = [
            _title("What the children said"),
            Label(PAGE_MARGIN, TOP + 7, help_, RUNNING_PT, Typeface.TEXT, TEXT),
        ]
        for place, entry in enumerate(entries[start : start + a_page]):
            y = TOP + 16 + place * TALLY_ROW
            drawn.append(
                Label(PAGE_MARGIN + 8, y, str(start + place + 1), RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT)
            )
            drawn.append(Label(PAGE_MARGIN + 12, y, entry.word, RUNNING_PT, Typeface.BOLD, INK))
            for box in range(TALLY_BOXES):
                left = PAGE_MARGIN + 52 + box * 7.0
                drawn.append(Panel(Box(left, y - 3.8, TALLY_BOX, TALLY_BOX), 0.8, None, INK, HAIR_PT))
            drawn.append(Line(PAGE_MARGIN + 92, y + 0.8, paper.w - PAGE_MARGIN, y + 0.8, style.thin_pt, style.line))
        bodies.append(drawn)
    return signs.bound(
        bodies, paper, "naming test · five children or more; 80 % right keeps a picture", first_page, with_bar=False
    )
