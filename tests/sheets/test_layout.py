from typing import Any

import pytest

from cardgen.errors import TeacherError
from cardgen.games.pieces import Paper
from cardgen.sheets.layout import BoardFormat, CardFormat, read_format
from cardgen.sources.layouts import board_format, card_format

CARDS = {"kind": "cards", "columns": 4, "rows": 6, "card_mm": 45.0, "card_on_letter_mm": 42.5}


def test_the_shipped_formats_are_read() -> None:
    assert board_format("bingo-half").abreast == 2
    assert board_format("bingo-page").sheet == "portrait"
    assert card_format("week-deck").block(Paper.LETTER).side == 42.5
    # 16 CFR 1501: more than 31.7 mm.
    assert card_format("counters").card_mm > 31.7


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("name", ["week-deck", "counters"])
def test_a_block_of_cards_lies_in_the_middle(name: str, paper: Paper) -> None:
    block = card_format(name).block(paper)
    assert block.xs[0] == pytest.approx(paper.size.w - block.xs[-1])
    assert block.ys[0] == pytest.approx(paper.size.h - block.ys[-1])
    last = block.box(block.places - 1)
    assert (last.right, last.bottom) == pytest.approx((block.xs[-1], block.ys[-1]))
    assert block.cuts == len(block.xs) + len(block.ys)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"card_mn": 45.0}, 'no key "card_mn"'),
        ({"colour": "red"}, 'no key "colour"'),
        ({"columns": None}, "columns"),
        ({"columns": 0}, "columns cannot be 0"),
        ({"columns": 2.5}, "columns cannot be 2.5"),
        ({"columns": True}, "columns cannot be True"),
        ({"card_mm": -1.0}, "card_mm cannot be -1.0"),
        ({"card_mm": 1e9}, "card_mm cannot be"),
        ({"card_mm": float("nan")}, "card_mm cannot be nan"),
        ({"card_mm": "45"}, "card_mm cannot be '45'"),
        ({"kind": 3}, "kind cannot be 3"),
    ],
)
def test_a_damaged_format_is_told_with_file_and_key(change: dict[str, Any], message: str) -> None:
    table = {key: value for key, value in (CARDS | change).items() if value is not None}
    with pytest.raises(TeacherError, match=message) as caught:
        read_format(CardFormat, table, "mine.toml")
    assert "mine.toml" in caught.value.message
    assert caught.value.hint


def test_a_missing_key_is_named() -> None:
    with pytest.raises(TeacherError, match='"abreast" is missing'):
        read_format(
            BoardFormat, {"kind": "boards", "sheet": "portrait", "widest_board_mm": 1, "widest_cell_mm": 1}, "x"
        )
