from typing import Any

import pytest

from cardgen.errors import TeacherError
from cardgen.sheets.layout import BoardFormat, CardFormat, read_format
from cardgen.units import Size

CARDS = {"kind": "cards", "columns": 4, "rows": 6, "card_mm": 45.0, "card_on_letter_mm": [42.5, 42.5]}
BOARDS = {"kind": "boards", "sheet": "portrait", "abreast": 1, "widest_board_mm": 176.0, "widest_cell_mm": 58.0}


def test_a_format_is_read_with_its_units() -> None:
    cards = read_format(CARDS, "mine", "mine.toml")
    assert cards == CardFormat("mine", Size(45.0, 45.0), Size(42.5, 42.5), columns=4, rows=6)
    assert read_format(BOARDS, "b", "b.toml") == BoardFormat("b", "portrait", 1, 176.0, 58.0)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"card_mn": 45.0}, 'no key "card_mn"'),
        ({"colour": "red"}, 'no key "colour"'),
        ({"columns": 0}, "columns cannot be 0"),
        ({"columns": 2.5}, "columns cannot be 2.5"),
        ({"columns": True}, "columns cannot be True"),
        ({"card_mm": -1.0}, "card_mm cannot be -1.0"),
        ({"card_mm": 0}, "card_mm cannot be 0"),
        ({"card_mm": 1e9}, "card_mm cannot be"),
        ({"card_mm": float("nan")}, "card_mm cannot be nan"),
        ({"card_mm": [float("inf"), 20]}, "card_mm cannot be"),
        ({"card_mm": [60]}, "card_mm cannot be"),
        ({"card_mm": "45"}, "card_mm cannot be '45'"),
        ({"card_mm": 10}, "card_mm cannot be 10"),
        ({"margin_mm": -1}, "margin_mm cannot be -1"),
        ({"gap_mm": float("nan")}, "gap_mm cannot be nan"),
        ({"sheet": "square"}, "sheet cannot be 'square'"),
        ({"shares": 3}, "shares cannot be 3"),
        ({"shares": 2}, "either card_mm or shares"),
        ({"card_mm": None}, "either card_mm or shares"),
        ({"kind": 3}, '"kind" is missing'),
        ({"kind": "card"}, '"kind" is missing'),
        ({"columns": ["x" * 500]}, "columns cannot be"),
    ],
)
def test_a_damaged_format_is_told_with_file_and_key(change: dict[str, Any], message: str) -> None:
    table = {key: value for key, value in (CARDS | change).items() if value is not None}
    with pytest.raises(TeacherError, match=message) as caught:
        read_format(table, "mine", "mine.toml")
    assert "mine.toml" in caught.value.message
    assert len(caught.value.message) < 160
    assert caught.value.hint


def test_a_misspelled_key_names_the_nearest() -> None:
    with pytest.raises(TeacherError) as caught:
        read_format(CARDS | {"card_on_leter_mm": 40}, "mine", "mine.toml")
    assert caught.value.hint == "Did you mean card_on_letter_mm?"


@pytest.mark.parametrize("key", ["sheet", "abreast", "widest_board_mm", "widest_cell_mm"])
def test_a_missing_key_is_named(key: str) -> None:
    with pytest.raises(TeacherError, match=f'"{key}" is missing'):
        read_format({name: value for name, value in BOARDS.items() if name != key}, "x", "x.toml")
