"""The project's letterforms: pen strokes in writing order, read from `art/letters/glyphs.toml`, whose head explains it.

Lengths are in units of a thousandth of an em, y upwards from the writing line; a stroke is the way of the pen's middle.
"""

import math
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cache
from itertools import pairwise
from typing import Any

from cardgen.errors import TeacherError
from cardgen.sheets.marks import Path, Segment
from cardgen.sources import shelf

FILE = "art/letters/glyphs.toml"

_NUMBERS = {"M": 2, "L": 2, "C": 6, "A": 6, "D": 2, "|": 0}
_COMMAND = re.compile(r"\s*([A-Za-z|])\s*([^A-Za-z|]*)")
# An arc that starts nearer than this to the pen is joined to it, without a hair of a line between them.
_SNAP = 3.0
_DOTLESS = {"i": "ı"}

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Metrics:
    """The guides that the pen's middle touches, the pen's width (all in units), and a dot's width in pens."""

    ascender: float
    xheight: float
    descender: float
    pen: float
    dot: float


@dataclass(frozen=True, slots=True)
class Spacing:
    """The white beside the letters of the font, in units; the head of the file says which is which."""

    small: float
    tall: float
    least_small: float
    least_tall: float
    depth: float
    other: float
    space: float


@dataclass(frozen=True, slots=True)
class Letterforms:
    """All letters as strokes in writing order: each M, then L and C segments, or for a dot the one segment ("D", x, y).

    `bases` gives the plain letter under every accented one.
    """

    metrics: Metrics
    spacing: Spacing
    strokes: Mapping[str, tuple[Path, ...]]
    bases: Mapping[str, str]


@cache
def letterforms(*, lift: bool = False) -> Letterforms:
    """Return the project's own letterforms; with `lift` the pen leaves the paper where a school lifts it."""
    return read_letterforms(shelf.read_text(FILE), FILE, lift=lift)


def read_letterforms(text: str, name: str, *, lift: bool = False) -> Letterforms:
    """Return the letterforms in a TOML text; TeacherError naming the file `name`, the letter and what is wrong."""
    tables = shelf.parse_toml(text, name)
    metrics = Metrics(**_measures(tables, "metrics", [field.name for field in fields(Metrics)], name))
    spacing = Spacing(**_measures(tables, "spacing", [field.name for field in fields(Spacing)], name))
    strokes: dict[str, tuple[Path, ...]] = {}
    for letter, lines in _table(tables, "glyphs", name).items():
        if len(letter) != 1:
            raise TeacherError(f'{name}: "{letter}" is not one letter.', "Give every letter a line of its own.")
        strokes[letter] = _strokes(lines, f'{name}, letter "{letter}"', lift)
    bases: dict[str, str] = {}
    for mark in tables.get("marks", {}):
        table = _table(tables["marks"], mark, name)
        drawn = _strokes(table.get("strokes"), f'{name}, mark "{mark}"', lift)
        for letter in table.get("letters", ""):
            bases[letter] = _base(letter, strokes, name)
            guide = metrics.xheight if letter.islower() else metrics.ascender
            strokes[letter] = _marked(strokes[bases[letter]], drawn, guide)
    return Letterforms(metrics, spacing, strokes, bases)


def _table(tables: Mapping[str, Any], key: str, name: str) -> Mapping[str, Any]:
    table = tables.get(key)
    if not isinstance(table, dict):
        raise TeacherError(f"{name} has no table [{key}].", "Take the program's own file as a pattern.")
    return table


def _measures(tables: Mapping[str, Any], key: str, names: list[str], name: str) -> dict[str, float]:
    table = _table(tables, key, name)
    for measure in names:
        if not isinstance(table.get(measure), int | float):
            raise TeacherError(
                f"{name}: [{key}] has no number for {measure}.", f"Write it as {measure} = 100, in units."
            )
    return {measure: float(table[measure]) for measure in names}


def _strokes(lines: object, where: str, lift: bool) -> tuple[Path, ...]:
    if not (isinstance(lines, list) and lines and all(isinstance(line, str) for line in lines)):
        raise TeacherError(
            f"{where}: the strokes are missing.", 'Write a list of strokes, for example ["M 0,500 L 0,0"].'
        )
    return tuple(stroke for line in lines for stroke in _Pen(lift, f'{where}, stroke "{line}"').write(line))


class _Pen:
    """The pen that follows one line of the file."""

    def __init__(self, lift: bool, where: str) -> None:
        self._lift, self._where = lift, where
        self._stroke: list[Segment] = []
        self._at: Point | None = None

    def write(self, line: str) -> Iterator[Path]:
        """Yield the strokes of the line: one, or more where the pen is lifted."""
        for command, numbers in self._commands(line):
            if command == "|" and self._lift:
                yield tuple(self._stroke)
                self._stroke, self._at = [], None
            elif command != "|":
                self._follow(command, numbers)
        if not self._stroke:
            raise self._error("has nothing to draw")
        yield tuple(self._stroke)

    def _error(self, problem: str) -> TeacherError:
        return TeacherError(f"{self._where}: {problem}.", "The head of the program's own file explains the strokes.")

    def _commands(self, line: str) -> Iterator[tuple[str, list[float]]]:
        end = 0
        for found in _COMMAND.finditer(line):
            if found.start() != end:
                break
            end, command, words = found.end(), found[1], found[2].replace(",", " ").split()
            if command not in _NUMBERS:
                raise self._error(f"does not know the command {command}")
            if len(words) != _NUMBERS[command]:
                raise self._error(f"{command} takes {_NUMBERS[command]} numbers, not {len(words)}")
            try:
                yield command, [float(word) for word in words]
            except ValueError:
                raise self._error(f'"{found[2].strip()}" are not numbers') from None
        if end != len(line):
            raise self._error(f'cannot be read from "{line[end:]}" on')

    def _follow(self, command: str, numbers: list[float]) -> None:
        if command == "A":
            self._arc(*numbers)
            return
        if command in "MD" and self._stroke:
            raise self._error(f"{command} must come first; start a new stroke")
        if command in "LC" and self._at is None:
            # After a lift the pen is set down where the line back would have ended.
            if command == "C" or not self._lift:
                raise self._error("must begin with M, A or D")
            command = "M"
        self._stroke.append((command, *numbers))
        self._at = (numbers[-2], numbers[-1]) if command != "D" else None

    def _arc(self, cx: float, cy: float, rx: float, ry: float, start: float, end: float) -> None:
        """Follow an arc about a centre, from one angle to another in degrees, in cubics of at most 45 degrees."""
        pieces = max(1, math.ceil(abs(end - start) / 45 - 1e-9))
        step = math.radians(end - start) / pieces
        reach = 4 / 3 * math.tan(step / 4)
        angles = [math.radians(start) + step * piece for piece in range(pieces + 1)]
        first = (cx + rx * math.cos(angles[0]), cy + ry * math.sin(angles[0]))
        if self._at is None:
            self._stroke.append(("M", *first))
        elif math.dist(self._at, first) > _SNAP:
            self._stroke.append(("L", *first))
        for a, b in pairwise(angles):
            x, y = cx + rx * math.cos(b), cy + ry * math.sin(b)
            out = (cx + rx * (math.cos(a) - reach * math.sin(a)), cy + ry * (math.sin(a) + reach * math.cos(a)))
            self._stroke.append(("C", *out, x + reach * rx * math.sin(b), y - reach * ry * math.cos(b), x, y))
            self._at = (x, y)


def _base(letter: str, strokes: Mapping[str, Any], name: str) -> str:
    plain = unicodedata.normalize("NFD", letter)[0]
    base = _DOTLESS.get(plain, plain)
    if base not in strokes:
        raise TeacherError(f'{name}: "{letter}" needs the letter "{base}".', f'Add a line for "{base}" under [glyphs].')
    return base


def _marked(base: tuple[Path, ...], mark: tuple[Path, ...], guide: float) -> tuple[Path, ...]:
    """Return the letter with its accent over the middle of its upper half: the tail of a or u does not count."""
    upper = [x for stroke in base for x, y in _points(stroke) if y > guide / 2]
    middle = (min(upper) + max(upper)) / 2
    return base + tuple(tuple(_moved(segment, middle, guide) for segment in stroke) for stroke in mark)


def _moved(segment: Segment, dx: float, dy: float) -> Segment:
    command, *numbers = segment
    return (command, *(number + (dy if place % 2 else dx) for place, number in enumerate(numbers)))


def _points(stroke: Path) -> Iterator[Point]:
    """Yield points along a stroke, close enough together to measure its extent."""
    at: Point = (0.0, 0.0)
    for command, *numbers in stroke:
        if command == "C":
            x1, y1, x2, y2, x, y = numbers
            for t in (0.25, 0.5, 0.75):
                a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
                yield (a * at[0] + b * x1 + c * x2 + d * x, a * at[1] + b * y1 + c * y2 + d * y)
        elif command == "L":
            yield ((at[0] + numbers[0]) / 2, (at[1] + numbers[1]) / 2)
        at = (numbers[-2], numbers[-1])
        yield at
