"""A stand-in for measured type: every letter half an em wide, so that widths can be worked out by hand."""

from collections import defaultdict

import pytest

from cardgen.games.pieces import Board, Face, Imprint, Item
from cardgen.units import Glyph, Typeface, Widths


class _Even(defaultdict[str, Glyph]):
    def __contains__(self, letter: object) -> bool:
        return True


@pytest.fixture
def widths() -> Widths:
    return Widths({face: _Even(lambda: Glyph(0.5, 0.05, 0.45)) for face in Typeface})


@pytest.fixture
def imprint() -> Imprint:
    return Imprint("bingo", ("m", "s"), 7)


WORDS = ["mop", "map", "sun", "saw", "fan", "fox", "dig", "den", "pot", "pit", "net", "nut", "hat", "hen", "cup", "can"]


@pytest.fixture
def items() -> dict[str, Item]:
    return {word: Item(word, word[0], word[0], word, f"a {word}") for word in WORDS}


def board(number: int, rows: int, columns: int, face: Face = Face.PICTURE, free: bool = False) -> Board:
    cells: list[str | None] = [WORDS[(number + i) % len(WORDS)] for i in range(rows * columns)]
    if free:
        cells[len(cells) // 2] = None
    return Board(number, face, rows, columns, tuple(cells))
