"""Sheets of halves: two things that belong together on one piece, and between them a cut that only they share.

Every sheet of one part carries the same pairs in the same places, set after set, so that pieces of three sheets can be
clipped together and cut at once. All in mm; the pattern is a pair of 88 × 63.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.games.pieces import Card, CardFace, Cut, Imprint, Ink, Pair, PaperUse
from cardgen.sheets import faces, signs
from cardgen.sheets.block import CardBlock
from cardgen.sheets.cards import FOOT_AIR, foot
from cardgen.sheets.cuts import LENGTH, cut_lines, mark_span, may_be_lost, minutes, stacks
from cardgen.sheets.impose import Layer, sets_apart
from cardgen.sheets.ink_use import ink_share
from cardgen.sheets.marks import Align, Item, Label, Line, Outline, Page, Picture, Place
from cardgen.sheets.style import CUT_MARK_PT, EDGE, INK, LEAST_WORD_PT, SMALL_PT, TEXT, Style, word_size_pt
from cardgen.sheets.wave import DASH, PAIR, wave
from cardgen.units import Box, Typeface, Widths

# On the pattern, from the left upper corner of the pair.
CENTRES, LETTER_BASE, LETTER_EM, FOOT_LINE = (20.5, 67.5), 43.0, 36.0, 27.0
PICTURE, PICTURE_STRAIGHT, MIDDLE, LEAST_PICTURE = 31.0, 33.0, 31.5, 25.0
NUMBER_AT, NUMBER_BASE = (41.0, 85.0), 60.0
WORD_ROOM, WORD_PT = 34.0, 30.0
LETTER_ROOM = 32.0
STRAIGHT_GAP = 2.5


@dataclass(frozen=True, slots=True)
class HalfSheets:
    """Pairs to be printed `sets` times as two halves each: where they lie, how the straight cuts are made.

    `apart` gives every set sheets of its own; `what` is said in the foot line.
    """

    pairs: tuple[Pair, ...]
    sets: int
    block: CardBlock
    cut: Cut
    imprint: Imprint
    style: Style
    what: str
    apart: bool = False

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Which pair of which set lies where: the same pair in the same place of every sheet of a part."""
        places, count = self.block.places, len(self.pairs)
        abreast = 1 if self.apart else max(1, places // count)
        if self.apart or abreast == 1:
            parts = -(-count // places)
            by_set = sets_apart(self.sets, count, places)
            if self.apart:
                return by_set
            return tuple(by_set[number * parts + part] for part in range(parts) for number in range(self.sets))
        sheets = []
        for first in range(0, self.sets, abreast):
            there = [(first + slot // count, slot % count) for slot in range(abreast * count)]
            layer = [at if at[0] < self.sets else None for at in there]
            sheets.append(tuple(layer + [None] * (places - len(layer))))
        return tuple(sheets)

    @property
    def waves(self) -> int:
        """How many curved cuts there are in all."""
        return sum(bool(self.pairs[at[1]].curve) for layer in self.layers for at in layer if at)


def half_pages(sheets: HalfSheets, widths: Widths, first_page: int, only: Collection[str] = ()) -> tuple[Page, ...]:
    """Return the sheets of all sets; TeacherError where something gets too small.

    With `only` just the sheets on which those halves (by id) or sets (by number) stand, all other places empty.
    """
    painter = _Painter(sheets, _Sizes.of(sheets, widths), widths)
    numbers = {name for name in only if name.isdecimal()}
    ids = set(only) - numbers
    pages = []
    layers = sheets.layers
    for index, layer in enumerate(layers):
        there = [
            (slot, at[0], sheets.pairs[at[1]])
            for slot, at in enumerate(layer)
            if at and (not numbers or str(at[0] + 1) in numbers)
        ]
        shown = [
            (slot, number, pair) for slot, number, pair in there if not ids or ids & {card.id for card in pair.cards}
        ]
        if shown:
            pages.append(painter.page(first_page + index, shown, ids, f"page {index + 1} of {len(layers)}"))
    return tuple(pages)


def paper_use(sheets: HalfSheets, pages: Sequence[Page], widths: Widths, ink: Ink) -> PaperUse:
    """Return what the sheets take in paper, straight cuts and minutes, given all their pages."""
    count = len(sheets.layers)
    each = sheets.block.cuts + len(_middles(sheets))
    cuts = stacks(count) * each
    return PaperUse(
        ((sheets.what, count),),
        cuts,
        minutes(cuts),
        count * each,
        ink_share(pages, ink, widths),
        marks_at_edge=sheets.cut is Cut.GUILLOTINE and may_be_lost(sheets.block),
    )


def word_room(block: CardBlock) -> float:
    """Return how many mm a word may be wide on one half."""
    return WORD_ROOM * _scale(block)


def _scale(block: CardBlock) -> float:
    return min(block.card.w / PAIR.w, block.card.h / PAIR.h)


def _middles(sheets: HalfSheets) -> list[float]:
    """Return the upright cuts through the middle of the pairs, where these are cut straight and by guillotine."""
    if sheets.cut is Cut.SCISSORS or any(pair.curve for pair in sheets.pairs):
        return []
    return [sheets.block.box(column).cx for column in range(sheets.block.columns)]


@dataclass(frozen=True, slots=True)
class _Sizes:
    """The one size of pictures (mm), letters (em in mm) and words (points) on all halves."""

    scale: float
    picture: float
    em: float
    word_pt: float

    @classmethod
    def of(cls, sheets: HalfSheets, widths: Widths) -> "_Sizes":
        card, scale = sheets.block.card, _scale(sheets.block)
        if card.w < card.h:
            raise TeacherError(
                f"Halves lie side by side; a piece of {card.w:g} × {card.h:g} mm is too narrow for two.",
                f"Choose a layout that is wider than high; without --layout it is {PAIR.w:.0f} × {PAIR.h:.0f} mm.",
            )
        shown = [half.front for pair in sheets.pairs for half in pair.cards]
        picture = (PICTURE if any(pair.curve for pair in sheets.pairs) else PICTURE_STRAIGHT) * scale
        if picture < LEAST_PICTURE - 0.01 and any(face.picture for face in shown):
            raise TeacherError(
                f"On halves of {card.w:g} × {card.h:g} mm a picture would be only {picture:.0f} mm wide; a child needs "
                f"{LEAST_PICTURE:.0f}.",
                "Choose a larger layout, or leave --layout out.",
            )
        inks = [widths.ink(face.letter, Typeface.LEARNING) for face in shown if face.letter]
        widest = max((right - left for left, right in inks), default=0.1)
        words = sorted({face.word for face in shown if face.word})
        word_pt = word_size_pt(words, WORD_ROOM * scale, WORD_PT * scale, widths)
        if words and word_pt < LEAST_WORD_PT:
            long = max(words, key=lambda word: widths.em(word, Typeface.LEARNING))
            raise TeacherError(
                f'"{long}" is too wide for a half of {card.w / 2:g} mm: it could not be read.',
                "Choose a larger layout, or loose cards: --form cards",
            )
        return cls(scale, picture, min(LETTER_EM, LETTER_ROOM / widest) * scale, word_pt)


@dataclass(frozen=True, slots=True)
class _Painter:
    sheets: HalfSheets
    sizes: _Sizes
    widths: Widths

    def page(self, number: int, shown: Sequence[tuple[int, int, Pair]], ids: set[str], which: str) -> Page:
        """Return one sheet with the pairs in their slots; with `ids` only those halves, and their cut."""
        sheets, block = self.sheets, self.sheets.block
        drawn: list[Item] = []
        places = []
        for slot, set_number, pair in shown:
            box = block.box(slot)
            for side, half in enumerate(pair.cards):
                if ids and half.id not in ids:
                    continue
                trim = Box(box.x + side * box.w / 2, box.y, box.w / 2, box.h)
                drawn += self._half(half, box, side)
                if sheets.sets > 1:
                    drawn.append(self._number(box, side, set_number + 1))
                pack = set_number + 1 if sheets.sets > 1 else None
                places.append(Place(half.id, "front", trim, pack=pack))
            drawn.append(self._cut(pair, box))
        text = signs.imprint_text(sheets.imprint, block.card.w - 2 * FOOT_AIR, self.widths, sheets.what)
        drawn += foot(block, (text,), which, self.widths)
        cuts = (*cut_lines(block, sheets.cut, sheets.style), *self._middle_marks())
        return Page(number, block.sheet, tuple(drawn), places=tuple(places), cuts=cuts)

    def _at(self, box: Box, x: float, y: float) -> tuple[float, float]:
        """Return where a point of the pattern lies in a pair's box: from its middle, scaled."""
        s = self.sizes.scale
        return box.cx + (x - PAIR.cx) * s, box.cy + (y - PAIR.cy) * s

    def _half(self, half: Card, box: Box, side: int) -> list[Item]:
        face, s = half.front, self.sizes.scale
        x, y = self._at(box, CENTRES[side], MIDDLE)
        if face.picture:
            return [Picture(face.picture, Box.around(x, y, self.sizes.picture, self.sizes.picture), face.alt)]
        if face.word:
            return [faces.word(Box.around(x, y, WORD_ROOM * s, PICTURE * s), face.word, self.sizes.word_pt)]
        return self._letter(face, x, self._at(box, 0, LETTER_BASE)[1])

    def _letter(self, face: CardFace, x: float, base: float) -> list[Item]:
        reach = FOOT_LINE * self.sizes.scale / 2
        line = Line(x - reach, base, x + reach, base, self.sheets.style.thin_pt, self.sheets.style.line)
        return [line, faces.letter(x, base, face.letter or "", self.sizes.em, self.widths)]

    def _number(self, box: Box, side: int, number: int) -> Item:
        x, y = self._at(box, NUMBER_AT[side], NUMBER_BASE)
        return Label(x, y, str(number), SMALL_PT, Typeface.TEXT, TEXT, Align.RIGHT)

    def _cut(self, pair: Pair, box: Box) -> Item:
        """Return the dashed line between the halves."""
        style = self.sheets.style
        if pair.curve:
            return Outline(wave(pair.curve, box), None, style.line, style.thin_pt, DASH)
        return Line(box.cx, box.y + STRAIGHT_GAP, box.cx, box.bottom - STRAIGHT_GAP, style.thin_pt, style.line, DASH)

    def _middle_marks(self) -> list[Line]:
        """Return the marks at the edge for cuts through the middle of the pairs, above and below them all."""
        sheet, top = self.sheets.block.sheet, self.sheets.block.y
        outer, inner = mark_span(top) if top > 0.01 else (EDGE, EDGE + LENGTH)
        return [
            Line(x, y1, x, y2, CUT_MARK_PT, INK)
            for x in _middles(self.sheets)
            for y1, y2 in ((outer, inner), (sheet.h - inner, sheet.h - outer))
        ]
