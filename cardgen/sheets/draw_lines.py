"""Pages to draw lines on: two columns with dots, an example above, and the same pages with the lines drawn. All in mm.

The example joins two plain squares: a pair of the lesson would give an answer away.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.games.pieces import CardFace, Imprint, Ink, LinePage, Paper
from cardgen.sheets import faces, signs
from cardgen.sheets.marks import Group, Item, Label, Line, Outline, Page, Panel, Picture, Place, Role
from cardgen.sheets.style import (
    FRAME_PT,
    HAIR_PT,
    INK,
    LEAST_WORD_PT,
    PAGE_MARGIN,
    SMALL_PT,
    TEXT,
    WORD_PT,
    Style,
    word_size_pt,
)
from cardgen.units import Box, Typeface, Widths, mm_of_points

NAME_Y, NAME_LENGTH, KEY_PT = 17.0, 95.0, 14.0
TOP, EXAMPLE_TOP, EXAMPLE_HIGH, BELOW = 26.0, 24.0, 26.0, 16.0
COLUMN, DOT_AT, DOT = 45.0, 72.0, 3.2
EXAMPLE_SIDE, FEW_EXAMPLE_SIDE, EXAMPLE_PT, EXAMPLE_DOTS = 20.0, 16.0, 1.6, mm_of_points(5.0)
LETTER_EM, LETTER_SHARE, FEW_LETTER_EM = 34.0, 0.74, 40.0
PICTURE, PICTURE_AIR, OFF_DOT = 34.0, 3.0, 4.0
COLUMN_ROOM = 2 * (DOT_AT - DOT / 2 - 4.5 - COLUMN)  # what stands in a column ends 4.5 mm before its dot


@dataclass(frozen=True, slots=True)
class LineSheets:
    """Pages to draw lines on, and what their feet say of them."""

    pages: tuple[LinePage, ...]
    paper: Paper
    ink: Ink
    imprint: Imprint
    what: str


def line_sheets(sheets: LineSheets, widths: Widths, first_page: int) -> tuple[tuple[Page, ...], tuple[Page, ...]]:
    """Return the children's pages and their keys; TeacherError for a word too wide to be read by a child."""
    count = len(sheets.pages)
    painter = _Painter(sheets, widths, _Sizes.of(sheets.pages, sheets.paper, widths))
    children = tuple(painter.page(page, first_page + at, solved=False) for at, page in enumerate(sheets.pages))
    keys = tuple(painter.page(page, first_page + count + at, solved=True) for at, page in enumerate(sheets.pages))
    return children, keys


def pitch_of(page: LinePage, paper: Paper) -> float:
    """Return the height of a row in mm."""
    height = paper.size.h
    if page.few:
        return (height - EXAMPLE_TOP - EXAMPLE_HIGH - BELOW) / len(page.right)
    return (height - TOP - BELOW) / len(page.right)


@dataclass(frozen=True, slots=True)
class _Sizes:
    """The one size of letters (em in mm), words (points) and pictures (mm) on all pages of a game."""

    em: float
    word_pt: float
    picture: float

    @classmethod
    def of(cls, pages: Sequence[LinePage], paper: Paper, widths: Widths) -> "_Sizes":
        pitch = min(pitch_of(page, paper) for page in pages)
        shown = [card.front for page in pages for card in (*page.left, *page.right) if card]
        inks = [widths.ink(face.letter, Typeface.LEARNING) for face in shown if face.letter]
        widest = max((right - left for left, right in inks), default=1.0)
        wanted = FEW_LETTER_EM if pages[0].few else min(LETTER_EM, LETTER_SHARE * pitch)
        words = sorted({face.word for face in shown if face.word})
        word_pt = word_size_pt(words, COLUMN_ROOM, WORD_PT * 1.2, widths)
        if words and word_pt < LEAST_WORD_PT:
            long = max(words, key=lambda word: widths.em(word, Typeface.LEARNING))
            raise TeacherError(
                f'"{long}" is too wide for a page to draw lines on.', "Choose pictures: --pairs pictures"
            )
        return cls(min(wanted, COLUMN_ROOM / widest), word_pt, min(PICTURE, pitch - PICTURE_AIR))


@dataclass(frozen=True, slots=True)
class _Painter:
    sheets: LineSheets
    widths: Widths
    sizes: _Sizes

    def page(self, page: LinePage, number: int, *, solved: bool) -> Page:
        """Return one page, for a child or with its lines drawn."""
        size, style = self.sheets.paper.size, Style.of(self.sheets.ink)
        left_x, right_x = COLUMN, size.w - COLUMN
        pitch = pitch_of(page, self.sheets.paper)
        top = EXAMPLE_TOP + EXAMPLE_HIGH if page.few else TOP
        left = [top + (row + 0.5) * pitch for row in page.left_rows]
        right = [top + (row + 0.5) * pitch for row in range(len(page.right))]
        items: list[Item] = [*(_key_head() if solved else _name_line(style)), *self._example(page, left, right, style)]
        places: list[Place] = []
        for side, x, cards, rows in (("left", left_x, page.left, left), ("right", right_x, page.right, right)):
            for card, y in zip(cards, rows, strict=True):
                if card is None:
                    continue
                mark, box = self._thing(card.front, x, y)
                items += [mark, _dot(self._dot_x(side), y)]
                places.append(Place(card.id, side, box))
        if solved:
            answers = tuple(self._answer(left[a], right[b]) for a, b in page.lines)
            items.append(Group(Role.FIGURE, answers, _in_words(page)))
        items += self._foot(page, solved=solved)
        return Page(number, size, tuple(items), places=tuple(places))

    def _dot_x(self, side: str) -> float:
        return DOT_AT if side == "left" else self.sheets.paper.size.w - DOT_AT

    def _thing(self, face: CardFace, x: float, y: float) -> tuple[Item, Box]:
        """Return a letter, word or picture in the middle of its row, and the box it has to itself."""
        side = self.sizes.picture
        if face.picture:
            box = Box.around(x, y, side, side)
            return Picture(face.picture, box, face.alt), box
        box = Box.around(x, y, COLUMN_ROOM, side)
        if face.word:
            return faces.word(box, face.word, self.sizes.word_pt), box
        letter = face.letter or ""
        share = faces.SMALL_BASE if letter.islower() else faces.CAPITAL_BASE
        return faces.letter(x, y + share * self.sizes.em, letter, self.sizes.em, self.widths), box

    def _example(self, page: LinePage, left: Sequence[float], right: Sequence[float], style: Style) -> list[Item]:
        """Return two plain squares joined by dots, with a row of their own or where the columns are left free."""
        if page.few:
            ys, side = (EXAMPLE_TOP + EXAMPLE_HIGH / 2,) * 2, FEW_EXAMPLE_SIDE
        else:
            ys, side = (left[page.left.index(None)], right[page.right.index(None)]), EXAMPLE_SIDE
        centres = (COLUMN, self.sheets.paper.size.w - COLUMN)
        squares = [
            Panel(Box.around(x, y, side, side), 1.0, None, INK, EXAMPLE_PT) for x, y in zip(centres, ys, strict=True)
        ]
        dots = [_dot(self._dot_x(end), y) for end, y in zip(("left", "right"), ys, strict=True)]
        start, stop = self._ends(*ys)
        line = Line(*start, *stop, EXAMPLE_PT, style.line, (0.0, EXAMPLE_DOTS))
        return [Group(Role.FIGURE, (*squares, *dots, line), "example: two squares joined by a dotted line")]

    def _answer(self, left: float, right: float) -> Item:
        start, stop = self._ends(left, right)
        return Line(*start, *stop, FRAME_PT, INK)

    def _ends(self, left: float, right: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return where a line between two dots begins and ends, a little off both."""
        x1, x2 = self._dot_x("left"), self._dot_x("right")
        length = math.hypot(x2 - x1, right - left)
        dx, dy = (x2 - x1) / length * OFF_DOT, (right - left) / length * OFF_DOT
        return (x1 + dx, left + dy), (x2 - dx, right - dy)

    def _foot(self, page: LinePage, *, solved: bool) -> tuple[Item, ...]:
        size = self.sheets.paper.size
        which = f"{'key to ' if solved else ''}page {page.number} of {len(self.sheets.pages)}"
        room = size.w - 2 * PAGE_MARGIN - 45
        text = signs.imprint_text(self.sheets.imprint, room, self.widths, self.sheets.what)
        return signs.foot(text, which, PAGE_MARGIN, size.w - PAGE_MARGIN, size.h - 8)


def _in_words(page: LinePage) -> str:
    """Return the answers for a reader who does not see the lines."""
    named = [(page.left[a], page.right[b]) for a, b in page.lines]
    return "; ".join(f"{_name(one.front)} – {_name(other.front)}" for one, other in named if one and other)


def _name(face: CardFace) -> str:
    return face.letter or face.word or face.alt


def _dot(x: float, y: float) -> Item:
    return Outline(signs.circle(x, y, DOT / 2), INK)


def _name_line(style: Style) -> tuple[Item, ...]:
    y = NAME_Y + 0.8
    return (
        Label(PAGE_MARGIN, NAME_Y, "Name", SMALL_PT, Typeface.TEXT, TEXT),
        Line(PAGE_MARGIN + 11, y, PAGE_MARGIN + NAME_LENGTH, y, HAIR_PT, style.line),
    )


def _key_head() -> tuple[Item, ...]:
    return (Group(Role.TITLE, (Label(PAGE_MARGIN, NAME_Y, "Key", KEY_PT, Typeface.BOLD, INK),)),)
