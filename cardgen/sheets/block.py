"""How many cards of a format go on a sheet, and where: exact arithmetic, the way of turning that takes the most."""

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from cardgen.errors import TeacherError
from cardgen.games.pieces import Paper
from cardgen.sheets.layout import CardFormat
from cardgen.units import Box, Size

LAMINATE_GAP = 6.0  # leaves 2 to 3 mm of sealed film round each card
FOLD_AIR = 3.0  # between the fold and the cards beside it


@dataclass(frozen=True, slots=True)
class CardBlock:
    """Cards in rows and columns on a sheet, `x` and `y` the left and upper edge of the first, all in mm.

    With `fold` they fill the left half only, and their backs lie mirrored across the middle; `rounded` cards are cut
    one by one, with round corners.
    """

    sheet: Size
    columns: int
    rows: int
    card: Size
    gap: float
    x: float
    y: float
    fold: bool = False
    rounded: bool = False

    @property
    def places(self) -> int:
        """How many cards go on a sheet."""
        return self.columns * self.rows

    def box(self, slot: int) -> Box:
        """Return the place of a card, counted row by row from 0."""
        row, column = divmod(slot, self.columns)
        return Box(
            self.x + column * (self.card.w + self.gap),
            self.y + row * (self.card.h + self.gap),
            self.card.w,
            self.card.h,
        )

    def back_box(self, slot: int) -> Box:
        """Return the place of a card's back: mirrored from left to right, upright."""
        front = self.box(slot)
        return Box(self.sheet.w - front.right, front.y, front.w, front.h)

    @property
    def xs(self) -> list[float]:
        """The upright cuts, left to right, in mm; where there is a gap, two between two cards."""
        return self._cuts(self.x, self.columns, self.card.w, self.sheet.w)

    @property
    def ys(self) -> list[float]:
        """The level cuts, top to bottom, in mm."""
        return self._cuts(self.y, self.rows, self.card.h, self.sheet.h)

    def _cuts(self, start: float, count: int, side: float, sheet: float) -> list[float]:
        edges = [start + i * (side + self.gap) for i in range(count)]
        if self.gap:
            edges = [edge for left in edges for edge in (left, left + side)]
        else:
            edges.append(start + count * side)
        return [edge for edge in edges if 0.01 < edge < sheet - 0.01]  # no cut where the sheet ends anyway

    @property
    def cuts(self) -> int:
        """How many straight cuts part all cards of a sheet."""
        return len(self.xs) + len(self.ys)


def card_block(
    form: CardFormat,
    paper: Paper,
    *,
    fold: bool = False,
    margin: float | None = None,
    gap: float | None = None,
    laminate: bool = False,
) -> CardBlock:
    """Return the block of cards that takes the most of them; upright where both ways take as many.

    `margin` and `gap` in mm go before the format's own. TeacherError where not one card fits, saying what would.
    """
    margin = form.margin_mm if margin is None else margin
    gap = LAMINATE_GAP if laminate else form.gap_mm if gap is None else gap
    if form.shares:
        return _shares(form.shares, paper, fold=fold)
    card = (form.card_on_letter_mm if paper is Paper.LETTER else None) or form.card_mm
    if card is None:
        raise AssertionError("a card format has a card or shares")
    sheets = [
        size
        for name, size in (("portrait", paper.size), ("landscape", paper.size.turned))
        if form.sheet in (None, name)
    ]
    found = [block for sheet in sheets if (block := _block(form, card, sheet, margin, gap, fold, laminate))]
    if not found:
        sheet = sheets[0]
        width = sheet.w / 2 - FOLD_AIR - margin if fold else sheet.w - 2 * margin
        half = " in half of it, for --backs fold" if fold else ""
        raise TeacherError(
            f"{form.name}: a card of {card.w:g} × {card.h:g} mm (card_mm) does not fit on {paper.value} "
            f"with margins of {margin:g} mm{half}.",
            f"At most {max(0.0, width):.1f} × {max(0.0, sheet.h - 2 * margin):.1f} mm would.",
        )
    return max(found, key=lambda block: block.places)


def _block(
    form: CardFormat, card: Size, sheet: Size, margin: float, gap: float, fold: bool, rounded: bool
) -> CardBlock | None:
    edge, air = _exact(margin), _exact(FOLD_AIR) if fold else _exact(margin)
    width = (_exact(sheet.w) / 2 if fold else _exact(sheet.w)) - edge - air
    height = _exact(sheet.h) - 2 * edge
    columns, rows = _fitting(width, card.w, gap, form.columns), _fitting(height, card.h, gap, form.rows)
    if columns < 1 or rows < 1:
        return None
    used_w = columns * _exact(card.w) + (columns - 1) * _exact(gap)
    used_h = rows * _exact(card.h) + (rows - 1) * _exact(gap)
    x, y = edge + (width - used_w) / 2, (_exact(sheet.h) - used_h) / 2
    return CardBlock(sheet, columns, rows, card, gap, float(x), float(y), fold, rounded)


def _fitting(room: Fraction, side: float, gap: float, most: int | None) -> int:
    """Return how many fit: n cards and n − 1 gaps. A plain floor of floats would lose an exact fit."""
    count = floor((room + _exact(gap)) / (_exact(side) + _exact(gap)))
    return count if most is None else min(count, most)


def _exact(mm: float) -> Fraction:
    """Return a length as it was written: 6.35 is 127/20, not the float nearest to it."""
    return Fraction(repr(mm))


def _shares(shares: int, paper: Paper, *, fold: bool) -> CardBlock:
    """Return the sheet itself whole, cut into halves (of a landscape sheet) or quarters (of a portrait one)."""
    sheet = paper.size.turned if shares == 2 else paper.size
    columns, rows = {1: (1, 1), 2: (2, 1), 4: (2, 2)}[shares]
    if fold and shares == 1:
        raise TeacherError("A card as large as the sheet leaves no room to fold its back.", "Choose other --backs.")
    card = Size(sheet.w / columns, sheet.h / rows)
    return CardBlock(sheet, 1 if fold else columns, rows, card, 0.0, 0.0, 0.0, fold)
