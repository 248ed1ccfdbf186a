"""What is measured: a class's packs of cards, and bingo boards by the thousand, as documents of marks."""

from functools import cache
from random import Random

from cardgen.games.pieces import Backs, Board, Card, CardFace, Cut, Face, Imprint, Ink, Item, Link, Paper
from cardgen.paper.fonts import Fonts
from cardgen.recipes.library import LEARNING_FONT
from cardgen.sheets.block import card_block
from cardgen.sheets.boards import board_layout, board_pages, page_format
from cardgen.sheets.cards import CardSheets, card_pages
from cardgen.sheets.marks import Document, Drawing, Photo
from cardgen.sheets.style import Style
from cardgen.sources import codes, pictures, shelf
from cardgen.sources.layouts import board_format, card_format

PACKS = 30
WORDS = (
    *("moon", "mop", "mouse", "mask", "mitten", "sun", "sock", "soap", "saw", "seal", "bus", "bed"),
    *("bag", "bell", "ball", "tent", "ten", "table", "tie", "fan", "fish", "foot", "fork", "fox"),
)


@cache
def fonts() -> Fonts:
    """Return the typefaces of the project."""
    return Fonts(shelf.read_bytes(LEARNING_FONT))


def drawing(name: str) -> Drawing | Photo:
    """Return a picture in colour."""
    return pictures.drawing(name, Ink.COLOUR)


def packs(count: int = PACKS, *, with_codes: bool = False) -> Document:
    """Return packs of 24 cards of 63 × 88 mm, 9 up, duplex: a picture in front; behind it its word, or its code."""
    block = card_block(card_format("cards"), Paper.A4)
    cards = tuple(Card(f"{word[0]}-{word}", _front(word), _back(word, with_codes=with_codes)) for word in WORDS)
    imprint = Imprint("cards", tuple("msbtf"), 7)
    sheets = CardSheets(cards, count, block, Backs.DUPLEX_LONG, Cut.GUILLOTINE, imprint, Style.of(Ink.COLOUR), "packs")
    return Document("Packs of cards", "en-US", card_pages(sheets, fonts().widths, 1))


def _front(word: str) -> CardFace:
    return CardFace(picture=word, alt=f"a {word}")


def _back(word: str, *, with_codes: bool) -> CardFace:
    if not with_codes:
        return CardFace(word=word)
    link = f"https://example.org/clips/{word[0]}-{word}.m4a"
    return CardFace(code=Link(link, codes.modules(link), link.removeprefix("https://")), letter=word)


def boards(count: int) -> Document:
    """Return bingo boards of 4 × 4 pictures, one a sheet."""
    chance = Random(7)
    made = tuple(Board(number, Face.PICTURE, 4, 4, tuple(chance.sample(WORDS, 16))) for number in range(1, count + 1))
    layout = board_layout(board_format(page_format(4, 4, big=False)), Paper.A4, 4, 4, with_words=False)
    items = {word: Item(word, word, word[0], word, f"a {word}") for word in WORDS}
    pages = board_pages(
        made,
        items,
        {Face.PICTURE: layout},
        imprint=Imprint("bingo", tuple("msbtf"), 7),
        style=Style.of(Ink.COLOUR),
        widths=fonts().widths,
        cut=Cut.GUILLOTINE,
        first_page=1,
    )
    return Document("Bingo", "en-US", pages)
