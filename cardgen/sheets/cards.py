"""Sheets of loose cards: fronts, and backs that meet them, set by set."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from cardgen.games.pieces import BLANK, Backs, Card, Cut, Imprint, Ink, PaperUse
from cardgen.sheets import card_faces, signs
from cardgen.sheets.block import CardBlock
from cardgen.sheets.card_faces import Setting
from cardgen.sheets.cuts import cut_lines, may_be_lost, minutes, round_corners, stacks
from cardgen.sheets.impose import Layer, impose, sets_apart, split_sets
from cardgen.sheets.ink_use import ink_share
from cardgen.sheets.marks import Align, Item, Label, Line, Page, Place, Side
from cardgen.sheets.style import CUT_MARK_PT, EDGE, INK, SMALL_PT, TEXT, Style
from cardgen.units import Box, Typeface, Widths

COUNTER_SIGN = 22.0
FOOT_ROOM = 12.0  # a lower margin of so many mm takes the foot line
FOLD_MARK = 6.6
FOOT_AIR, PAGE_FOOT_AIR, ON_EDGE = 2.0, 13.0, 0.01


@dataclass(frozen=True, slots=True)
class CardSheets:
    """A deck to be printed `sets` times: its cards, where they lie, how their backs are made and how they are cut.

    `shift` in mm corrects where the printer puts the backs; `what` is said in the foot line. Sets that lie `apart` have
    sheets of their own, else each pile of the cut sheets is one. `own` are the cards of each set where they differ, all
    of one number; only `numbered` sets carry their number on every piece; `hint` ends the foot line.
    """

    cards: tuple[Card, ...]
    sets: int
    block: CardBlock
    backs: Backs
    cut: Cut
    imprint: Imprint
    style: Style
    what: str
    shift: tuple[float, float] = (0.0, 0.0)
    apart: bool = False
    own: tuple[tuple[Card, ...], ...] = ()
    numbered: bool = True
    hint: str = ""

    def cards_of(self, number: int) -> tuple[Card, ...]:
        """Return the cards of a set, counted from 0."""
        return self.own[number] if self.own else self.cards

    @property
    def every_card(self) -> tuple[Card, ...]:
        """Every card that stands in any set, once."""
        return tuple(dict.fromkeys(card for cards in (self.cards, *self.own) for card in cards))

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Which card of which set lies where on each sheet."""
        if self.apart:
            return sets_apart(self.sets, len(self.cards), self.block.places)
        return impose(self.sets, len(self.cards), self.block.places)

    @property
    def two_sided(self) -> bool:
        """Whether the backs are printed on the other side of the paper."""
        return self.backs in (Backs.DUPLEX_LONG, Backs.DUPLEX_SHORT) and any(c.back != BLANK for c in self.every_card)


def card_pages(sheets: CardSheets, widths: Widths, first_page: int, only: Collection[str] = ()) -> tuple[Page, ...]:
    """Return the pages of all sets, each front followed by its back; TeacherError where something gets too small.

    With `only` just the pages on which those cards (by id) or sets (by number) stand, all other places empty.
    """
    painter = _Painter(sheets, card_faces.setting(sheets.every_card, sheets.block.card, sheets.style, widths), widths)
    pages: list[Page] = []
    number = first_page
    layers = sheets.layers
    for index, layer in enumerate(layers):
        shown = [(slot, *there) for slot, there in enumerate(layer) if there and _wanted(sheets, there, only)]
        if shown:
            which = f"page {index + 1} of {len(layers)}"
            pages.append(painter.front(number, shown, which))
            if sheets.two_sided:
                pages.append(painter.back(number + 1, shown))
        number += 2 if sheets.two_sided else 1
    return tuple(pages)


def _wanted(sheets: CardSheets, there: tuple[int, int], only: Collection[str]) -> bool:
    numbers = {name for name in only if name.isdecimal()}
    ids = set(only) - numbers
    return (not numbers or str(there[0] + 1) in numbers) and (not ids or sheets.cards_of(there[0])[there[1]].id in ids)


def paper_use(sheets: CardSheets, pages: Sequence[Page], widths: Widths, ink: Ink) -> PaperUse:
    """Return what a deck takes in paper, cuts and minutes, given all its pages."""
    count, block = len(sheets.layers), sheets.block
    cuts = stacks(count) * block.cuts
    return PaperUse(
        ((sheets.what, count),),
        cuts,
        minutes(cuts),
        count * block.cuts,
        ink_share(pages, ink, widths),
        sheets.backs.value.removeprefix("duplex-") if sheets.two_sided else None,
        block.fold,
        sheets.cut is Cut.SCISSORS,
        sheets.sets > 1 and not sheets.apart and split_sets(sheets.sets, len(sheets.cards), block.places),
        sheets.cut is Cut.GUILLOTINE and may_be_lost(block),
    )


Shown = Sequence[tuple[int, int, int]]  # slot, set, card


@dataclass(frozen=True, slots=True)
class _Painter:
    sheets: CardSheets
    setting: Setting
    widths: Widths

    def front(self, number: int, shown: Shown, which: str) -> Page:
        block, sheets = self.sheets.block, self.sheets
        drawn, places = self._side(shown, back=False)
        if block.fold:
            backs, back_places = self._side(shown, back=True)
            drawn += [*backs, *_fold_marks(block)]
            places += back_places
        if block.rounded:
            drawn += round_corners(block, sheets.style)
        parts = (sheets.what, " ".join(sheets.imprint.keys), f"seed {sheets.imprint.seed}", sheets.hint)
        drawn += foot(block, tuple(filter(None, parts)), which, self.widths)
        cuts = cut_lines(block, Cut.SCISSORS if block.rounded else sheets.cut, sheets.style)
        return Page(number, block.sheet, tuple(drawn), places=tuple(places), cuts=cuts)

    def back(self, number: int, shown: Shown) -> Page:
        block, sheets = self.sheets.block, self.sheets
        drawn, places = self._side(shown, back=True)
        portrait = block.sheet.h >= block.sheet.w
        # Turned over on its short edge, a portrait sheet comes out upside down; a landscape one on its long edge.
        turned = (sheets.backs is Backs.DUPLEX_SHORT) == portrait
        page = Page(number, block.sheet, tuple(drawn), Side.BACK, turned=turned, shift=sheets.shift)
        if turned:
            unshifted = replace(page, shift=(0.0, 0.0))
            places = [replace(place, box=unshifted.on_paper(place.box), turned=180) for place in places]
        return replace(page, places=tuple(places))

    def _side(self, shown: Shown, *, back: bool) -> tuple[list[Item], list[Place]]:
        block, sheets = self.sheets.block, self.sheets
        drawn: list[Item] = []
        places = []
        for slot, number, index in shown:
            card = sheets.cards_of(number)[index]
            box = block.back_box(slot) if back else block.box(slot)
            face = card.back if back else card.front
            drawn += card_faces.draw(face, box, self.setting, back=back)
            if sheets.sets > 1 and sheets.numbered and face != BLANK:
                drawn.append(_set_number(box, number + 1, lower=bool(face.cover)))
            pack = number + 1 if sheets.sets > 1 else None
            places.append(Place(card.id, "back" if back else "front", box, pack=pack))
        return drawn, places


def _set_number(box: Box, number: int, *, lower: bool = False) -> Label:
    """Return the small number of the set a card belongs to: one found on the floor goes home.

    On a cover it stands `lower`, below what is printed there.
    """
    air = 9.0 if box.h > 80 else 3.0
    return Label(
        box.right - air, box.bottom - (3.5 if lower else air), str(number), SMALL_PT, Typeface.TEXT, TEXT, Align.RIGHT
    )


def _fold_marks(block: CardBlock) -> list[Item]:
    """Return where the sheet is folded: marks at both ends of its middle, and the word."""
    x, low = block.sheet.w / 2, block.sheet.h - EDGE
    return [
        Line(x, EDGE, x, EDGE + FOLD_MARK, CUT_MARK_PT, INK),
        Line(x, low - FOLD_MARK, x, low, CUT_MARK_PT, INK),
        Label(x + 1.5, EDGE + 3, "fold, then glue, then cut", SMALL_PT, Typeface.TEXT, TEXT, decoration=True),
    ]


def foot(block: CardBlock, parts: tuple[str, ...], last: str, widths: Widths) -> list[Item]:
    """Return the foot of a card sheet, outside all cards, in parts between two cuts, so that no mark is crossed.

    It stands below the cards; where that margin is too short, beside them, reading upwards; on cards that fill the
    sheet at the lower edge of each.
    """
    below = block.sheet.h - block.box(block.places - 1).bottom
    if ON_EDGE < below < FOOT_ROOM:
        x = block.x - (9.5 if block.x >= 18 else 3.4)
        rows = [block.box(row * block.columns) for row in reversed(range(block.rows))]
        # Reading upwards, a line begins at the lower end of a card.
        return [
            Label(x, -at, text, SMALL_PT, Typeface.TEXT, TEXT, align, turn=90, decoration=True)
            for at, text, align in _between([(-row.bottom, row.h) for row in rows], FOOT_AIR, parts, last, widths)
        ]
    air = FOOT_AIR if below > ON_EDGE else PAGE_FOOT_AIR
    columns = [block.box(column) for column in range(block.columns)]
    return [
        Label(at, block.sheet.h - 8, text, SMALL_PT, Typeface.TEXT, TEXT, align, decoration=True)
        for at, text, align in _between([(box.x, box.w) for box in columns], air, parts, last, widths)
    ]


def _between(
    spans: Sequence[tuple[float, float]], air: float, parts: tuple[str, ...], last: str, widths: Widths
) -> list[tuple[float, str, Align]]:
    """Return where which text stands: parts from the first span on, as many in each as fit, `last` at the very end."""
    room = spans[0][1] - 2 * air
    texts = [""]
    for part in parts:
        longer = f"{texts[-1]} · {part}" if texts[-1] else part
        if widths.mm(longer, SMALL_PT, Typeface.TEXT) <= room:
            texts[-1] = longer
            continue
        while widths.mm(part, SMALL_PT, Typeface.TEXT) > room and " " in part.removesuffix(" …"):
            part = part.removesuffix(" …").rsplit(" ", 1)[0] + " …"
        texts.append(part)
    placed = [(start + air, text, Align.LEFT) for (start, _), text in zip(spans, texts, strict=False)]
    end = sum(spans[-1]) - air
    used = widths.mm(texts[len(spans) - 1], SMALL_PT, Typeface.TEXT) if len(texts) >= len(spans) else 0.0
    if last and used + 2 * air + widths.mm(last, SMALL_PT, Typeface.TEXT) <= spans[-1][1]:
        placed.append((end, last, Align.RIGHT))
    return placed


def counter_page(block: CardBlock, *, imprint: Imprint, style: Style, widths: Widths, number: int) -> Page:
    """Return a sheet of counters to cut: too large to be swallowed (16 CFR 1501: 31.7 mm)."""
    boxes = [block.box(slot) for slot in range(block.places)]
    drawn: list[Item] = [
        signs.dotted_square(Box.around(box.cx, box.cy, COUNTER_SIGN, COUNTER_SIGN), "counter") for box in boxes
    ]
    what = f"counters {block.card.w:.0f} mm"
    drawn += foot(block, (what, " ".join(imprint.keys), f"seed {imprint.seed}"), "", widths)
    return Page(number, block.sheet, tuple(drawn), cuts=cut_lines(block, Cut.SCISSORS, style))
