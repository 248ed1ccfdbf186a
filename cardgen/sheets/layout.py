"""Formats of boards and cards, as they stand in `layouts/*.toml`: plain records, checked, every length in mm."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields
from difflib import get_close_matches
from typing import Any, TypeVar

from cardgen.errors import TeacherError
from cardgen.games.pieces import Paper
from cardgen.units import Box, Size

MOST_MM = 300.0
Format = TypeVar("Format", "BoardFormat", "CardFormat")


@dataclass(frozen=True, slots=True)
class BoardFormat:
    """How boards lie on a sheet: which way it is turned, how many side by side, the widest board and cell."""

    sheet: str
    abreast: int
    widest_board_mm: float
    widest_cell_mm: float

    def size(self, paper: Paper) -> Size:
        """Return the sheet's size in mm, turned as the format asks."""
        return paper.size.turned if self.sheet == "landscape" else paper.size


@dataclass(frozen=True, slots=True)
class CardFormat:
    """A block of square cards in the middle of a portrait sheet, with the card's side on A4 and on Letter."""

    columns: int
    rows: int
    card_mm: float
    card_on_letter_mm: float

    def block(self, paper: Paper) -> "CardBlock":
        """Return the block of cards on a paper."""
        return CardBlock(
            paper.size, self.columns, self.rows, self.card_mm if paper is Paper.A4 else self.card_on_letter_mm
        )


@dataclass(frozen=True, slots=True)
class CardBlock:
    """Square cards without gaps in the middle of a sheet; `side` in mm."""

    sheet: Size
    columns: int
    rows: int
    side: float

    @property
    def places(self) -> int:
        """How many cards go on a sheet."""
        return self.columns * self.rows

    @property
    def xs(self) -> list[float]:
        """The upright cuts, left to right, in mm."""
        return [(self.sheet.w - self.columns * self.side) / 2 + self.side * i for i in range(self.columns + 1)]

    @property
    def ys(self) -> list[float]:
        """The level cuts, top to bottom, in mm."""
        return [(self.sheet.h - self.rows * self.side) / 2 + self.side * i for i in range(self.rows + 1)]

    @property
    def cuts(self) -> int:
        """How many straight cuts part all cards of a sheet."""
        return self.columns + 1 + self.rows + 1

    def box(self, slot: int) -> Box:
        """Return the place of a card, counted row by row from 0."""
        return Box(self.xs[slot % self.columns], self.ys[slot // self.columns], self.side, self.side)


def read_format(kind: type[Format], table: Mapping[str, Any], name: str) -> Format:
    """Return a format from the table of its file; TeacherError naming file and key where it does not fit."""
    known = {field.name: field.type for field in fields(kind)} | {"kind": str}
    for key in table:
        if key not in known:
            near = get_close_matches(key, known, 1)
            hint = f"Did you mean {near[0]}?" if near else f"A layout has {', '.join(known)}."
            raise TeacherError(f'{name}: there is no key "{key}".', hint)
    values = {}
    for key in known:
        if key not in table:
            raise TeacherError(f'{name}: the key "{key}" is missing.', "Write it as in the other files of layouts/.")
        values[key] = _checked(key, table[key], known[key], name)
    del values["kind"]
    return kind(**values)


def _checked(key: str, value: Any, wanted: Any, name: str) -> Any:
    if wanted is str:
        if isinstance(value, str):
            return value
    elif wanted is int:
        if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 20:
            return value
    elif (
        isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value) and 0 < value <= MOST_MM
    ):
        return float(value)
    raise TeacherError(f"{name}: {key} cannot be {value!r}.", f"Lengths are mm, more than 0 and at most {MOST_MM:.0f}.")
