"""Loose square cards on a portrait sheet: calling cards, and counters to print."""

from collections.abc import Collection

from cardgen.games.pieces import Card, Cut, Imprint
from cardgen.sheets import faces, signs
from cardgen.sheets.cuts import cut_lines, scissors_lines
from cardgen.sheets.layout import CardBlock
from cardgen.sheets.marks import Align, Item, Label, Line, Page, Place
from cardgen.sheets.style import SMALL_PT, TEXT, Style
from cardgen.units import Box, Typeface, Widths

DOTTED, FOOT_LINE_AIR, PICTURE = 26.0, 9.0, 34.0
COUNTER_SIGN = 22.0


def deck_pages(
    cards: tuple[Card, ...],
    deck: CardBlock,
    *,
    imprint: Imprint,
    style: Style,
    widths: Widths,
    cut: Cut,
    first_page: int,
    only: Collection[str] = (),
) -> tuple[Page, ...]:
    """Return the pages of all cards, or only the pages on which the cards named in `only` stand, the rest empty."""
    pages = []
    letters = [card.letter for card in cards if card.letter]
    em = min(0.6 * deck.side, faces.letter_em(deck.side - FOOT_LINE_AIR, letters, widths))
    count = -(-len(cards) // deck.places)
    for index in range(count):
        sheet_cards = list(enumerate(cards[index * deck.places : (index + 1) * deck.places]))
        if only:
            sheet_cards = [(slot, card) for slot, card in sheet_cards if card.id in only]
            if not sheet_cards:
                continue
        drawn: list[Item] = []
        for slot, card in sheet_cards:
            drawn += _front(card, deck.box(slot), em, style, widths)
        drawn += _foot(deck, ("calling cards", *_imprint(imprint)), f"page {index + 1} of {count}", widths)
        places = tuple(Place(card.id, "front", deck.box(slot)) for slot, card in sheet_cards)
        cuts = cut_lines(deck.xs, deck.ys, deck.sheet, cut, style)
        pages.append(Page(first_page + index, deck.sheet, tuple(drawn), places=places, cuts=cuts))
    return tuple(pages)


def _front(card: Card, box: Box, em: float, style: Style, widths: Widths) -> list[Item]:
    if card.picture:
        return [faces.picture(box, card.picture, card.alt, PICTURE / box.w)]
    if card.letter:
        # A foot line under a letter that can be turned: b and q, d and p, n and u are decided.
        tall = any(sign in "bdfhklt" or sign.isupper() for sign in card.letter)
        base = box.cy + em * (0.36 if tall else faces.SMALL_BASE)
        line = Line(box.x + FOOT_LINE_AIR, base, box.right - FOOT_LINE_AIR, base, style.thin_pt, style.line)
        return [line, faces.letter(box.cx, base, card.letter, em, widths)]
    return [signs.dotted_square(Box.around(box.cx, box.cy, DOTTED, DOTTED), "empty card to draw on")]


def _imprint(imprint: Imprint) -> tuple[str, ...]:
    return (" ".join(imprint.keys), f"seed {imprint.seed}")


def _foot(deck: CardBlock, parts: tuple[str, ...], last: str, widths: Widths) -> list[Item]:
    """Return the foot of a card sheet, one part or more a column, so that it never runs across a cut mark."""
    room = deck.side - 4
    columns = [""]
    for part in parts:
        longer = f"{columns[-1]} · {part}" if columns[-1] else part
        if widths.mm(longer, SMALL_PT, Typeface.TEXT) <= room:
            columns[-1] = longer
            continue
        while widths.mm(part, SMALL_PT, Typeface.TEXT) > room:
            part = part.removesuffix(" …").rsplit(" ", 1)[0] + " …"
        columns.append(part)
    base = deck.sheet.h - 8
    drawn: list[Item] = [
        Label(x + 2, base, text, SMALL_PT, Typeface.TEXT, TEXT, decoration=True)
        for x, text in zip(deck.xs, columns, strict=False)
    ]
    if last:
        x = deck.xs[-1] - 2
        drawn.append(Label(x, base, last, SMALL_PT, Typeface.TEXT, TEXT, Align.RIGHT, decoration=True))
    return drawn


def counter_page(deck: CardBlock, *, imprint: Imprint, style: Style, widths: Widths, number: int) -> Page:
    """Return a sheet of counters to cut: too large to be swallowed (16 CFR 1501: 31.7 mm)."""
    drawn: list[Item] = []
    for slot in range(deck.places):
        box = deck.box(slot)
        drawn.append(signs.dotted_square(Box.around(box.cx, box.cy, COUNTER_SIGN, COUNTER_SIGN), "counter"))
    drawn += _foot(deck, (f"counters {deck.side:.0f} mm", *_imprint(imprint)), "", widths)
    return Page(number, deck.sheet, tuple(drawn), cuts=scissors_lines(deck.xs, deck.ys, style))
