"""The colours of the pictures and the roles of their shapes, in three inks, as `art/colours.toml` tells them."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sources import shelf

FILE = "art/colours.toml"
OWN = "own"
GIVEN = "given"

_HEX = re.compile(r"#[0-9A-F]{6}")


@dataclass(frozen=True, slots=True)
class Brush:
    """One stroke of paint: names of colours ("own" is the shape's), `width` if it is fixed, else `wider` than given."""

    fill: str | None = None
    stroke: str | None = None
    width: float | None = None
    wider: float = 0.0


@dataclass(frozen=True, slots=True)
class Role:
    """How a shape is painted. `width` is the stroke-width of a shape that gives none, in units of the box."""

    paint: tuple[Brush, ...]
    line: tuple[Brush, ...]
    merged: tuple[Brush, ...] = ()
    width: float | None = None
    takes_width: bool = False

    @property
    def takes_colour(self) -> bool:
        """Whether its shapes name a colour."""
        return any(OWN in (brush.fill, brush.stroke) for brush in self.paint)

    def brushes(self, ink: Ink) -> tuple[Brush, ...]:
        """Return the brushes of one ink, in drawing order."""
        return self.line if ink is Ink.LINE else self.paint


@dataclass(frozen=True, slots=True)
class Inks:
    """The table: colours as #RRGGBB by name, roles by their letter."""

    colours: Mapping[str, str]
    roles: Mapping[str, Role]

    def shade(self, colour: str, ink: Ink) -> str:
        """Return a colour of the table as it is printed in one ink, #RRGGBB."""
        if ink is Ink.LINE:
            return self.colours["ink" if colour == "ink" else "white"]
        return _grey(self.colours[colour]) if ink is Ink.GREY else self.colours[colour]


@cache
def inks() -> Inks:
    """Return the project's own table."""
    return read_inks(shelf.read_text(FILE), FILE)


def read_inks(text: str, name: str) -> Inks:
    """Return the table in a TOML text; TeacherError naming the file `name`, and the colour or role that is wrong."""
    tables = shelf.parse_toml(text, name)
    colours = tables.get("colours", {})
    for colour in ("ink", "white", *colours):
        if not (isinstance(colours.get(colour), str) and _HEX.fullmatch(colours[colour])):
            raise TeacherError(
                f"{name}: the colour {colour} is not well written.", f'Write it as {colour} = "#A0683D".'
            )
    roles = tables.get("roles", {})
    return Inks(colours, {role: _role(roles[role], colours, f"{name}, role {role}") for role in roles})


def _role(table: Mapping[str, Any], colours: Mapping[str, str], where: str) -> Role:
    paint = _brushes(table.get("paint"), colours, where)
    line = _brushes(table["line"], colours, where) if "line" in table else paint
    merged = _brushes(table["merged"], colours, where) if "merged" in table else ()
    if merged and len(merged) != 2:
        raise TeacherError(f"{where}: merged needs two brushes.", "Write the silhouette first, then the colour in it.")
    width = table.get("width")
    if not (width in (None, GIVEN) or isinstance(width, int | float)):
        raise TeacherError(f"{where}: {width} is no width.", f'Write a number, or "{GIVEN}".')
    return Role(paint, line, merged, None if width == GIVEN else width, width is not None)


def _brushes(tables: object, colours: Mapping[str, str], where: str) -> tuple[Brush, ...]:
    try:
        brushes = tuple(Brush(**table) for table in tables)  # type: ignore[attr-defined]
    except TypeError:
        raise TeacherError(f"{where}: its paint cannot be read.", "Write it as the other roles are written.") from None
    for brush in brushes:
        for colour in (brush.fill, brush.stroke):
            if colour not in (None, OWN, *colours):
                raise TeacherError(f"{where}: there is no colour {colour}.", "Add it to [colours], or take another.")
    return brushes


@cache
def _grey(colour: str) -> str:
    """Return the grey of the same luminance (sRGB, IEC 61966-2-1)."""
    red, green, blue = (_linear(int(colour[place : place + 2], 16) / 255) for place in (1, 3, 5))
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    level = 12.92 * luminance if luminance <= 0.0031308 else 1.055 * luminance ** (1 / 2.4) - 0.055
    return "#" + f"{round(level * 255):02X}" * 3


def _linear(level: float) -> float:
    return float(level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4)
