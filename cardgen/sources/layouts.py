"""Reads the formats of boards and cards from `layouts/`."""

from functools import cache

from cardgen.sheets.layout import BoardFormat, CardFormat, read_format
from cardgen.sources import shelf


@cache
def board_format(name: str) -> BoardFormat:
    """Return the board format of that name; TeacherError with file and key if its file is damaged."""
    file = f"layouts/{name}.toml"
    return read_format(BoardFormat, shelf.read_toml(file), file)


@cache
def card_format(name: str) -> CardFormat:
    """Return the card format of that name; TeacherError with file and key if its file is damaged."""
    file = f"layouts/{name}.toml"
    return read_format(CardFormat, shelf.read_toml(file), file)
