"""Formats of boards, cards and mats, as they stand in `layouts/*.toml`: plain records, checked, every length in mm."""

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields
from difflib import get_close_matches
from typing import Any

from cardgen.errors import TeacherError
from cardgen.games.pieces import Paper
from cardgen.units import Box, Size

MOST_MM = 300.0
MOST_COUNT = 20
LEAST_SIDE = 15.0
LONGEST_NAME = 100


@dataclass(frozen=True, slots=True)
class BoardFormat:
    """How boards lie on a sheet: which way it is turned, how many side by side and one below the other.

    `widest_board_mm` and `widest_cell_mm` bound a board and its cells.
    """

    name: str
    sheet: str
    abreast: int
    widest_board_mm: float
    widest_cell_mm: float
    down: int = 1

    def size(self, paper: Paper) -> Size:
        """Return the sheet's size in mm, turned as the format asks."""
        return paper.size.turned if self.sheet == "landscape" else paper.size


@dataclass(frozen=True, slots=True)
class CardFormat:
    """Cards of one size, as many as go on a sheet, or a whole sheet, its halves or quarters (`shares`).

    `columns`, `rows` and `sheet` (portrait or landscape) bound what would be chosen; a card may be another size on
    Letter.
    """

    name: str
    card_mm: Size | None = None
    card_on_letter_mm: Size | None = None
    shares: int | None = None
    margin_mm: float = 6.4
    gap_mm: float = 0.0
    columns: int | None = None
    rows: int | None = None
    sheet: str | None = None


@dataclass(frozen=True, slots=True)
class MatFormat:
    """A sorting mat: how many sides lie beside each other, and how many cards each takes in columns and rows.

    `cards` names the layout of the cards that lie on it. The frames stand `edge_mm` from the sheet's sides, `top_mm`
    and `foot_mm` from its upper and lower edge, and `gap_mm` apart.
    """

    name: str
    sheet: str
    abreast: int
    columns: int
    rows: int
    cards: str
    edge_mm: float = 8.0
    top_mm: float = 7.0
    foot_mm: float = 12.0
    gap_mm: float = 5.0

    def size(self, paper: Paper) -> Size:
        """Return the sheet's size in mm, turned as the format asks."""
        return paper.size.turned if self.sheet == "landscape" else paper.size

    def frames(self, paper: Paper) -> tuple[Box, ...]:
        """Return the frames of the sides, left to right, in mm; TeacherError where they leave no room."""
        size = self.size(paper)
        w = (size.w - 2 * self.edge_mm - (self.abreast - 1) * self.gap_mm) / self.abreast
        h = size.h - self.top_mm - self.foot_mm
        if min(w, h) < LEAST_SIDE:
            raise TeacherError(
                f"{self.name}: the sides of the mat are too small.", "Choose smaller margins, or fewer sides."
            )
        return tuple(Box(self.edge_mm + place * (w + self.gap_mm), self.top_mm, w, h) for place in range(self.abreast))


@dataclass(frozen=True, slots=True)
class StripFormat:
    """A strip for the table, under which cards are sorted: its size, and how many sounds it has room for."""

    name: str
    strip_mm: Size
    most_sides: int
    margin_mm: float = 6.4
    gap_mm: float = 0.0
    sheet: str | None = None

    @property
    def as_card(self) -> CardFormat:
        """The strip as a card of its size: it is laid on sheets and cut in the same way."""
        return CardFormat(self.name, self.strip_mm, margin_mm=self.margin_mm, gap_mm=self.gap_mm, sheet=self.sheet)


Format = BoardFormat | CardFormat | MatFormat | StripFormat
KINDS: Mapping[str, type[Format]] = {
    "boards": BoardFormat,
    "cards": CardFormat,
    "mats": MatFormat,
    "strips": StripFormat,
}


def read_format(table: Mapping[str, Any], name: str, file: str) -> Format:
    """Return the format called `name` from the table of its file; TeacherError naming file and key if it is wrong."""
    kind = KINDS.get(table.get("kind", "")) if isinstance(table.get("kind"), str) else None
    if kind is None:
        raise TeacherError(f'{file}: "kind" is missing or unknown.', f"Begin with kind = one of {_listed(KINDS)}.")
    known = {field.name: field for field in fields(kind) if field.name != "name"}
    values = {}
    for key, value in table.items():
        if key == "kind":
            continue
        if key not in known:
            near = get_close_matches(key, known, 1)
            hint = f"Did you mean {near[0]}?" if near else f"A layout of {table['kind']} has {', '.join(known)}."
            raise TeacherError(f'{file}: there is no key "{key}".', hint)
        values[key] = _checked(key, value, known[key].type, file)
    for key, field in known.items():
        if key not in values and field.default is MISSING:
            hint = "`cardgen layouts --help` shows how to write one."
            raise TeacherError(f'{file}: the key "{key}" is missing.', hint)
    form = kind(name=name, **values)
    if isinstance(form, CardFormat) and (form.card_mm is None) == (form.shares is None):
        raise TeacherError(f"{file}: say either card_mm or shares.", "For example card_mm = [63.0, 88.0]")
    return form


def _checked(key: str, value: Any, wanted: Any, file: str) -> Any:
    """Return a value of the wanted type, a length as float, a card's size as Size; TeacherError if it is none."""
    if key == "sheet":
        if value in ("portrait", "landscape"):
            return value
        raise TeacherError(f"{file}: sheet cannot be {_shown(value)}.", 'It is "portrait" or "landscape".')
    if wanted is str:
        if isinstance(value, str) and 0 < len(value) <= LONGEST_NAME:
            return value
        raise TeacherError(f"{file}: {key} cannot be {_shown(value)}.", 'Write a name, for example "week-deck".')
    if key == "shares":
        if value in (1, 2, 4) and not isinstance(value, bool | float):
            return value
        raise TeacherError(f"{file}: shares cannot be {_shown(value)}.", "A sheet is one card, or cut into 2 or 4.")
    if wanted in (int, int | None):
        if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_COUNT:
            return value
        raise TeacherError(f"{file}: {key} cannot be {_shown(value)}.", f"It is a whole number from 1 to {MOST_COUNT}.")
    if wanted in (Size, Size | None):
        sides = value if isinstance(value, list) else [value, value]
        if len(sides) == 2 and all(_is_length(side, least=LEAST_SIDE) for side in sides):
            return Size(float(sides[0]), float(sides[1]))
        raise TeacherError(
            f"{file}: {key} cannot be {_shown(value)}.",
            f"Write width and height in mm, from {LEAST_SIDE:.0f} to {MOST_MM:.0f}, for example [63.0, 88.0].",
        )
    least = 0.0 if key in ("margin_mm", "gap_mm") else 1.0
    if _is_length(value, least):
        return float(value)
    raise TeacherError(
        f"{file}: {key} cannot be {_shown(value)}.", f"Lengths are mm, from {least:.0f} to {MOST_MM:.0f}."
    )


def _is_length(value: Any, least: float) -> bool:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    return number and least <= value <= MOST_MM  # which NaN is not


def _shown(value: Any) -> str:
    try:
        text = repr(value)
    except ValueError:  # Python writes out no number of more than 4300 digits
        return "so large a number"
    return text if len(text) <= 40 else f"{text[:40]} …"


def _listed(names: Mapping[str, Any]) -> str:
    return ", ".join(f'"{name}"' for name in names)
