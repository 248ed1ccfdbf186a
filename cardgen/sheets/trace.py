"""Writing sheets: the big letter with its key picture, rows of letters to write, words on the back. Lengths in mm."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games.pieces import (
    BIG_ROAD_PEN,
    DISC,
    ROAD_PEN,
    DottedLetters,
    Fill,
    Imprint,
    Ink,
    Paper,
    RoadLetters,
    WritingRow,
    WritingSheet,
    WritingWord,
)
from cardgen.sheets import signs
from cardgen.sheets import trace_letters as drawing
from cardgen.sheets.marks import Group, Item, Label, Line, Page, Picture, Place, Role, Side
from cardgen.sheets.style import HAIR_PT, PAGE_MARGIN, SMALL_PT, TEXT, Style
from cardgen.sheets.trace_letters import ASCENDER, DESCENDER, ROW_UNITS, X_LINE, Spot
from cardgen.units import Box, Typeface, Widths

NAME_Y, NAME_LENGTH, BELOW_NAME = 17.0, 95.0, 3.5
LEAST_GAP = 4.0  # between the guides of two rows
# How many rows and places are wanted at each x-height; paper and wide letters may take fewer.
ROWS = {20: 3, 15: 4, 12: 5, 10: 6, 8: 8, 6: 10}
PLACES = {20: 4, 15: 4, 12: 5, 10: 6, 8: 7, 6: 8}
BETWEEN_PLACES = 6.0
FROM_MIDDLE = 32.0  # a big letter and its capital, from the middle of their row
WIDEST_BESIDE = 56.0
BETWEEN_ROADS, BESIDE_ROADS = 320.0, 4.0  # between `sh` and `Sh` in units; beside them in mm
LEAST_DOT_GAP, DOT_GAP_UNITS = 0.816, 34.0  # between tracing dots: in mm, but never closer than in units
WORDS_TOP, MOST_PICTURE, LEAST_PICTURE, BETWEEN_WORDS = 26.0, 40.0, 24.0, 8.0
WORD_GAP = 9.0  # above a row of words, if there is room


@dataclass(frozen=True, slots=True)
class WritingForm:
    """The format of writing sheets: paper, ink, x-height of the rows in mm, the big road, the models' end."""

    paper: Paper
    ink: Ink
    x_height: float
    big: bool
    left_handed: bool

    @property
    def k(self) -> float:
        """The scale of the rows, in mm a unit."""
        return self.x_height / X_LINE

    @property
    def row_room(self) -> float:
        """How wide a row is."""
        return self.paper.size.w - 2 * PAGE_MARGIN

    @property
    def road_k(self) -> float:
        """The scale of the big letters, in mm a unit."""
        return 0.088 if self.big else 0.056

    @property
    def road_line(self) -> float:
        """The writing line of the big letters."""
        return 96.9 if self.big else 76.6

    @property
    def road_pen(self) -> float:
        """How wide the road is, in units."""
        return BIG_ROAD_PEN if self.big else ROAD_PEN

    @property
    def picture_side(self) -> float:
        """The key picture's side."""
        return 38.0 if self.big else 40.0

    @property
    def road_span(self) -> tuple[float, float]:
        """Where the guides of the big letters begin and end."""
        taken = self.picture_side + 8
        left, right = PAGE_MARGIN, self.paper.size.w - PAGE_MARGIN
        return (left + taken, right) if self.left_handed else (left, right - taken)

    @property
    def rows_top(self) -> float:
        """The highest guide of the first row."""
        return self.road_line - DESCENDER * self.road_k + (10 if self.big else 9)

    @property
    def bottom(self) -> float:
        """The lowest guide of the last row."""
        return self.paper.size.h - 15

    def row_count(self) -> int:
        """Return how many rows of letters stand on the sheet."""
        high = ROW_UNITS * self.k
        fitting = int((self.bottom - self.rows_top + LEAST_GAP) // (high + LEAST_GAP))
        return min(fitting, ROWS[round(self.x_height)])

    def place_count(self, widest: float, *, several: bool = False) -> int:
        """Return how many places a row has if what is written there is up to `widest` units wide.

        Several letters together (`sh`) need more white between the places, or they run into one long word.
        """
        between = BETWEEN_PLACES + (0.6 * self.x_height if several else 0.0)
        fitting = int(self.row_room // (widest * self.k + between))
        return max(2, min(fitting, PLACES[round(self.x_height)]))

    def dot_gap(self) -> float:
        """Return how far the dots of tracing letters lie apart, in units."""
        return max(DOT_GAP_UNITS, LEAST_DOT_GAP / self.k)

    def times(self, word_em: float) -> int:
        """Return how often a word (its width in em) fits into a row; 0 if it does not fit at all."""
        width, between = word_em * 1000 * self.k, max(10.0, self.x_height)
        return int((self.row_room + between) // (width + between))

    def word_row_count(self, words: int) -> int:
        """Return how many rows each of some words has on the back."""
        room = self._word_room(words) - LEAST_PICTURE
        return max(1, min(4 if words == 1 else 3, int(room // (ROW_UNITS * self.k + LEAST_GAP))))

    def _word_room(self, words: int) -> float:
        return (self.bottom - WORDS_TOP - BETWEEN_WORDS * (words - 1)) / words

    def word_boxes(self, words: int) -> list[Box]:
        """Return where each word has its picture and rows, from the top."""
        high = self._word_room(words)
        step = high + BETWEEN_WORDS
        return [Box(PAGE_MARGIN, WORDS_TOP + step * i, self.row_room, high) for i in range(words)]


def sheet_pages(
    sheet: WritingSheet,
    form: WritingForm,
    word_form: WritingForm,
    imprint: Imprint,
    which: str,
    widths: Widths,
    number: int,
) -> tuple[Page, ...]:
    """Return one child's sheet for a sound, page `number`, and its back if it has words.

    `which` says in the foot which sheet of how many it is; the words' rows may be smaller than those of the letters.
    """
    pages = [_front(sheet, form, imprint, which, widths, number)]
    if sheet.words:
        pages.append(_back(sheet, word_form, imprint, which, widths, number + 1))
    return tuple(pages)


def _front(sheet: WritingSheet, form: WritingForm, imprint: Imprint, which: str, widths: Widths, number: int) -> Page:
    items = [*_name_line(form), *_big_letters(sheet, form, widths), _key_picture(sheet, form)]
    high, count = ROW_UNITS * form.k, len(sheet.rows)
    gap = (form.bottom - form.rows_top - count * high) / max(1, count - 1)
    for index, row in enumerate(sheet.rows):
        y = form.rows_top + index * (high + gap) + ASCENDER * form.k
        items += _row(row, y, form, widths)
    return _page(sheet.key, form, items, _foot(form, imprint, sheet.key, which, widths), number, Side.FRONT)


def _back(sheet: WritingSheet, form: WritingForm, imprint: Imprint, which: str, widths: Widths, number: int) -> Page:
    items = [*_name_line(form)]
    for word, box in zip(sheet.words, form.word_boxes(len(sheet.words)), strict=True):
        items += _word(word, box, form, widths)
    foot = _foot(form, imprint, sheet.key, f"{which}, back", widths)
    return _page(f"{sheet.key}-words", form, items, foot, number, Side.BACK)


def _page(name: str, form: WritingForm, items: list[Item], foot: tuple[Item, ...], number: int, side: Side) -> Page:
    size = form.paper.size
    area = Box(PAGE_MARGIN, NAME_Y, form.row_room, form.bottom - NAME_Y)
    return Page(number, size, (*items, *foot), side, (Place(name, side.value, area),))


def _foot(form: WritingForm, imprint: Imprint, key: str, which: str, widths: Widths) -> tuple[Item, ...]:
    text = signs.imprint_text(Imprint(imprint.game, (key,), imprint.seed), 110, widths)
    return signs.foot(text, which, PAGE_MARGIN, form.paper.size.w - PAGE_MARGIN, form.paper.size.h - 8)


def _name_line(form: WritingForm) -> tuple[Item, ...]:
    end = PAGE_MARGIN + NAME_LENGTH
    return (
        Label(PAGE_MARGIN, NAME_Y, "Name", SMALL_PT, Typeface.TEXT, TEXT),
        Line(PAGE_MARGIN + 11, NAME_Y + 0.8, end, NAME_Y + 0.8, HAIR_PT, Style.of(form.ink).line),
    )


def _key_picture(sheet: WritingSheet, form: WritingForm) -> Item:
    side = form.picture_side
    x = PAGE_MARGIN if form.left_handed else form.paper.size.w - PAGE_MARGIN - side
    box = Box.around(x + side / 2, form.road_line - ASCENDER / 2 * form.road_k, side, side)
    return _picture(sheet.picture, sheet.alt, box)


def _picture(name: str | None, alt: str, box: Box) -> Item:
    """Return the picture, or a dotted square to draw one in."""
    if name is None:
        return signs.dotted_square(Box.around(box.cx, box.cy, box.w * 0.9, box.h * 0.9), "a place to draw")
    return Picture(name, box, alt)


def _big_letters(sheet: WritingSheet, form: WritingForm, widths: Widths) -> list[Item]:
    """Return the big letters on their guides; letters that are too wide (`sh Sh`) make all of them smaller."""
    x1, x2 = form.road_span
    k, centres = _big_places(sheet.roads, form)
    items: list[Item] = [*drawing.guides(x1, x2, form.road_line, k, form.ink, band=False)]
    for letters, centre in zip(sheet.roads, centres, strict=True):
        spot = Spot(centre - (letters.left + letters.right) / 2 * k, form.road_line, k)
        alt = f"the letter {letters.text}, big, with numbered starts and arrows"
        items.append(Group(Role.FIGURE, drawing.road(letters, spot, form.road_pen, form.ink, widths), alt))
    return items


def _big_places(roads: Sequence[RoadLetters], form: WritingForm) -> tuple[float, list[float]]:
    """Return the scale of the big letters, and the middle of each."""
    x1, x2 = form.road_span
    wide = [_reach(letters, form.road_pen) for letters in roads]
    between = BETWEEN_ROADS * (len(roads) - 1)
    # A number above a capital of the big form must not reach the name line.
    highest = max(start.disc[1] for letters in roads for start in letters.starts) + DISC
    k = min(
        form.road_k,
        (x2 - x1 - 2 * BESIDE_ROADS) / (sum(wide) + between),
        (form.road_line - NAME_Y - BELOW_NAME) / highest,
    )
    middle = (x1 + x2) / 2
    if len(roads) == 1:
        return k, [middle]
    if max(wide) * k <= WIDEST_BESIDE:
        return k, [middle - FROM_MIDDLE, middle + FROM_MIDDLE]
    half = (sum(wide) + between) / 2 * k
    return k, [middle - half + wide[0] / 2 * k, middle + half - wide[1] / 2 * k]


def _reach(letters: RoadLetters, pen: float) -> float:
    """Return twice how far a road with its numbers reaches from the middle of the letter, in units."""
    middle = (letters.left + letters.right) / 2
    discs = [abs(start.disc[0] - middle) + DISC for start in letters.starts]
    return 2 * max((letters.right - letters.left + pen) / 2, *discs)


def _row(row: WritingRow, y: float, form: WritingForm, widths: Widths) -> list[Item]:
    """Return one row: guides, then every place with what stands in it; models at the end for a left hand."""
    left, right = PAGE_MARGIN, form.paper.size.w - PAGE_MARGIN
    count = len(row.fills)
    order = [*range(1, count), 0] if form.left_handed else range(count)
    pitch = (right - left) / count
    marks: list[Item] = []
    for place, index in enumerate(order):
        marks += _filled(row.letters, row.fills[index], left + pitch * (place + 0.5), y, form, widths)
    items: list[Item] = [*drawing.guides(left, right, y, form.k, form.ink, band=True)]
    return [*items, Group(Role.FIGURE, tuple(marks), _row_alt(row))]


def _filled(letters: DottedLetters, fill: Fill, cx: float, y: float, form: WritingForm, widths: Widths) -> list[Item]:
    if fill is Fill.MODEL:
        return [drawing.model(cx, y, letters.text, form.k, widths)]
    spot = Spot(cx - (letters.left + letters.right) / 2 * form.k, y, form.k)
    marks: list[Item] = []
    if fill is Fill.DOTS:
        marks.append(drawing.dotted(letters, spot, form.ink))
    if fill in (Fill.DOTS, Fill.STARTS):
        marks.append(drawing.start_dots(letters, spot))
    return marks


def _row_alt(row: WritingRow) -> str:
    said = {Fill.MODEL: "as a model", Fill.DOTS: "in dots", Fill.STARTS: "as starts only"}
    parts = [f"{row.fills.count(fill)} times {how}" for fill, how in said.items() if fill in row.fills]
    return f"a row to write {row.letters.text}: " + ", ".join(part.replace("1 times", "once") for part in parts)


def _word(word: WritingWord, box: Box, form: WritingForm, widths: Widths) -> list[Item]:
    """Return a word's picture with its rows below."""
    high, count = ROW_UNITS * form.k, len(word.rows)
    room = box.h - count * high
    side = min(MOST_PICTURE, max(LEAST_PICTURE, room - WORD_GAP * count))
    items: list[Item] = [_picture(word.picture, word.alt, Box(box.x, box.y, side, side))]
    gap = (room - side) / count
    for index, fills in enumerate(word.rows):
        top = box.y + side + gap + index * (high + gap)
        y = top + ASCENDER * form.k
        items += drawing.guides(box.x, box.right, y, form.k, form.ink, band=True)
        marks = _word_marks(word.letters, fills, y, form, widths)
        if marks:
            alt = _row_alt(WritingRow(word.letters, fills))
            items.append(Group(Role.FIGURE, tuple(marks), alt))
    return items


def _word_marks(
    letters: DottedLetters, fills: tuple[Fill, ...], y: float, form: WritingForm, widths: Widths
) -> list[Item]:
    """Return a word in the places of its row: from the left edge on, as a line of writing runs."""
    left, right = PAGE_MARGIN, form.paper.size.w - PAGE_MARGIN
    width = (letters.right - letters.left) * form.k
    order = [*range(1, len(fills)), 0] if form.left_handed else range(len(fills))
    pitch = (right - left) / len(fills)
    marks: list[Item] = []
    for place, index in enumerate(order):
        lone = len(fills) == 1  # a word that fills the row begins at its left edge
        cx = left + width / 2 + 3 if lone else left + pitch * (place + 0.5)
        if fills[index] is Fill.MODEL:
            marks.append(drawing.model(cx, y, letters.text, form.k, widths))
        elif fills[index] is Fill.DOTS:
            spot = Spot(cx - (letters.left + letters.right) / 2 * form.k, y, form.k)
            marks.append(drawing.dotted(letters, spot, form.ink))
    return marks
