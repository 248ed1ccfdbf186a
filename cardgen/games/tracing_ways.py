"""The way of the pen as points at equal steps, cut where it turns sharply.

Inside the planning of letters to trace a point is a complex number, x + iy, in units: lengths, turns and directions are
then plain arithmetic.
"""

import cmath
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

from cardgen.games.pieces import Stroke

STEP = 7.0  # between two points of a way
SHARP = math.radians(25)  # a pen that turns more than this in one point starts a new way
CURVE_PIECES = 24
# A way that runs back within this distance of another, in the opposite direction, is the same line written twice.
SAME_LINE = 14.0


@dataclass(frozen=True)
class Way:
    """A smooth piece of a stroke: the stroke's number (from 0), whether it begins it, points `step` units apart."""

    stroke: int
    first: bool
    points: tuple[complex, ...]
    step: float

    @property
    def length(self) -> float:
        """How long the way is, in units."""
        return self.step * (len(self.points) - 1)

    def heading(self, index: int) -> complex:
        """Return the direction of the pen at a point, as a complex number of length 1."""
        before, after = self.points[max(index - 1, 0)], self.points[min(index + 1, len(self.points) - 1)]
        return (after - before) / abs(after - before)

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """The least and greatest x, then the least and greatest y."""
        xs, ys = [point.real for point in self.points], [point.imag for point in self.points]
        return min(xs), max(xs), min(ys), max(ys)

    def is_near(self, other: "Way", distance: float) -> bool:
        """Return whether the boxes of two ways come nearer to each other than a distance."""
        (a, b, c, d), (e, f, g, h) = self.box, other.box
        return a - distance < f and e - distance < b and c - distance < h and g - distance < d


def is_dot(stroke: Stroke) -> bool:
    """Return whether a stroke is a dot, as on an i."""
    return stroke[0][0] == "D"


def start_of(stroke: Stroke) -> complex:
    """Return where the pen is set down."""
    x, y = stroke[0][1:]
    return complex(x, y)


def ways_of(strokes: Sequence[Stroke]) -> tuple[Way, ...]:
    """Return the smooth pieces of all strokes but dots, in writing order."""
    ways = []
    for number, stroke in enumerate(strokes):
        if not is_dot(stroke):
            for piece, line in enumerate(_pieces(stroke)):
                points, step = _even(line)
                ways.append(Way(number, piece == 0, points, step))
    return tuple(ways)


def _pieces(stroke: Stroke) -> Iterator[list[complex]]:
    """Yield the lines of points between sharp turns."""
    line = [start_of(stroke)]
    for command, *numbers in stroke[1:]:
        corners = [complex(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        part = corners if command == "L" else list(_curve(line[-1], *corners))
        if len(line) > 1 and abs(cmath.phase((part[0] - line[-1]) / (line[-1] - line[-2]))) > SHARP:
            yield line
            line = [line[-1]]
        line += part
    yield line


def _curve(a: complex, b: complex, c: complex, d: complex) -> Iterator[complex]:
    """Yield points along a cubic Bézier curve, without its start."""
    for piece in range(1, CURVE_PIECES + 1):
        t = piece / CURVE_PIECES
        yield (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t * t * (1 - t) * c + t**3 * d


def _even(line: list[complex], step: float = STEP) -> tuple[tuple[complex, ...], float]:
    """Return points along a line at equal steps of about `step`, both ends among them, and the true step."""
    far = [0.0, *accumulate(abs(b - a) for a, b in pairwise(line))]
    count = max(1, round(far[-1] / step))
    step, piece, points = far[-1] / count, 0, []
    for index in range(count):
        while far[piece + 1] <= index * step:
            piece += 1
        share = (index * step - far[piece]) / (far[piece + 1] - far[piece])
        points.append(line[piece] + (line[piece + 1] - line[piece]) * share)
    return (*points, line[-1]), step


def dots_along(strokes: Sequence[Stroke], gap: float) -> tuple[complex, ...]:
    """Return points about `gap` units apart along the pen line, none twice where the pen goes back over a line."""
    dots: list[complex] = []
    for stroke in strokes:
        if is_dot(stroke):
            dots.append(start_of(stroke))
            continue
        for line in _pieces(stroke):
            for point in _even(line, gap)[0]:
                if all(abs(point - dot) > 0.62 * gap for dot in dots):
                    dots.append(point)
    return tuple(dots)
