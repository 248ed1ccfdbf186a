"""The geometry of SVG pictures: numbers, transforms, and the simple shapes as paths. Lengths are units of the box."""

import math
import re
from collections.abc import Mapping, Sequence

from cardgen.sheets.marks import Path, Segment

FARTHEST = 1000.0

_PARTED = re.compile(r"\s*,\s*|\s+|(?<=\d)(?=[-+])")
_TRANSFORM = re.compile(r"\s*(translate|rotate|scale)\s*\(([^()]*)\)\s*,?")
# How far the handles of a cubic reach to draw a quarter of a circle of radius 1.
_QUARTER = 0.5522847498

# Where (x, y) lands: (a x + c y + e, b x + d y + f), as in SVG.
Matrix = tuple[float, float, float, float, float, float]
HERE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class Refused(Exception):  # noqa: N818  never reaches the teacher: the reader adds the file and the element
    """What is wrong with an element, and the remedy, both as parts of a sentence to the teacher."""

    def __init__(self, problem: str, hint: str) -> None:
        super().__init__(problem)
        self.problem, self.hint = problem, hint


def numbers_of(text: str, what: str) -> list[float]:
    """Return the numbers of a list parted by blanks, single commas or signs, as in SVG."""
    try:
        numbers = [float(word) for word in _PARTED.split(text.strip())] if text.strip() else []
    except ValueError:
        numbers = [math.nan]
    if not all(abs(number) <= FARTHEST for number in numbers) or "_" in text or not text.isascii():
        raise Refused(f'{what} "{_short(text)}" cannot be read', "Write plain numbers without units, from 0 to 100.")
    return numbers


def number_of(attributes: Mapping[str, str], key: str, default: str = "0") -> float:
    """Return the number of an attribute; Refused if there are more or fewer."""
    numbers = numbers_of(attributes.get(key, default), key)
    if len(numbers) != 1:
        raise Refused(f"{key} must be one number", f'Write for example {key}="12".')
    return numbers[0]


def positive(attributes: Mapping[str, str], key: str) -> float:
    """Return the number of an attribute; Refused if it is missing or not above 0."""
    number = number_of(attributes, key)
    if number <= 0:
        raise Refused(f"{key} must be above 0", f'Write for example {key}="12".')
    return number


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:40] + "…"


def matrix_of(text: str) -> Matrix:
    """Return the matrix of a transform: moves, turns and mirrors, which leave all widths as they are."""
    matrix, end = HERE, 0
    for found in _TRANSFORM.finditer(text):
        if found.start() != end:
            break
        end = found.end()
        matrix = times(matrix, _one_matrix(found[1], numbers_of(found[2], found[1])))
    if end != len(text.rstrip()) or not end:
        raise Refused(
            f'the transform "{_short(text)}" is not known', "Use translate(x y), rotate(angle x y), scale(-1 1)."
        )
    return matrix


def _one_matrix(name: str, numbers: list[float]) -> Matrix:
    if name == "translate" and len(numbers) in (1, 2):
        return (1.0, 0.0, 0.0, 1.0, numbers[0], sum(numbers[1:]))
    if name == "scale" and len(numbers) == 2 and all(abs(number) == 1 for number in numbers):
        return (numbers[0], 0.0, 0.0, numbers[1], 0.0, 0.0)
    if name == "rotate" and len(numbers) in (1, 3):
        cx, cy = numbers[1:] or (0.0, 0.0)
        cos, sin = math.cos(math.radians(numbers[0])), math.sin(math.radians(numbers[0]))
        return (cos, sin, -sin, cos, cx - cos * cx + sin * cy, cy - sin * cx - cos * cy)
    raise Refused(
        f"{name} cannot be done with {' '.join(f'{number:g}' for number in numbers) or 'nothing'}",
        "Use translate(x y), rotate(angle), rotate(angle x y), or scale(-1 1) to mirror.",
    )


def times(first: Matrix, second: Matrix) -> Matrix:
    """Return the matrix that does `second` and then `first`."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = second
    return (a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f)


def placed(segments: Sequence[Segment], matrix: Matrix) -> Path:
    """Return the path moved by a matrix, to a thousandth of a unit (the same on every machine)."""
    a, b, c, d, e, f = matrix
    return tuple(
        (
            command,
            *(
                round(number, 3) + 0.0
                for x, y in zip(numbers[::2], numbers[1::2], strict=True)
                for number in (a * x + c * y + e, b * x + d * y + f)
            ),
        )
        for command, *numbers in segments
    )


def outline(tag: str, attributes: Mapping[str, str]) -> Sequence[Segment]:
    """Return the outline of a circle, ellipse, rect, line, polyline or polygon in its own coordinates."""
    if tag == "rect":
        return _rectangle(attributes)
    if tag == "circle":
        radius = positive(attributes, "r")
        return _ellipse(number_of(attributes, "cx"), number_of(attributes, "cy"), radius, radius)
    if tag == "ellipse":
        radii = positive(attributes, "rx"), positive(attributes, "ry")
        return _ellipse(number_of(attributes, "cx"), number_of(attributes, "cy"), *radii)
    if tag == "line":
        x1, y1, x2, y2 = (number_of(attributes, key) for key in ("x1", "y1", "x2", "y2"))
        return [("M", x1, y1), ("L", x2, y2)]
    numbers = numbers_of(attributes.get("points", ""), "points")
    if len(numbers) < 4 or len(numbers) % 2:
        raise Refused("points must be two or more pairs of numbers", 'Write for example points="10,10 90,10 50,90".')
    corners = list(zip(numbers[::2], numbers[1::2], strict=True))
    return [("M", *corners[0]), *(("L", *corner) for corner in corners[1:]), *([("Z",)] if tag == "polygon" else [])]


def _ellipse(cx: float, cy: float, rx: float, ry: float) -> Sequence[Segment]:
    """Return an ellipse as four cubics, clockwise from its right end as SVG draws it."""
    hx, hy = rx * _QUARTER, ry * _QUARTER
    return [
        ("M", cx + rx, cy),
        ("C", cx + rx, cy + hy, cx + hx, cy + ry, cx, cy + ry),
        ("C", cx - hx, cy + ry, cx - rx, cy + hy, cx - rx, cy),
        ("C", cx - rx, cy - hy, cx - hx, cy - ry, cx, cy - ry),
        ("C", cx + hx, cy - ry, cx + rx, cy - hy, cx + rx, cy),
        ("Z",),
    ]


def _rectangle(attributes: Mapping[str, str]) -> Sequence[Segment]:
    x, y = number_of(attributes, "x"), number_of(attributes, "y")
    w, h = positive(attributes, "width"), positive(attributes, "height")
    # One radius alone stands for both; none is more than half the side.
    rx = min(number_of(attributes, "rx", attributes.get("ry", "0")), w / 2)
    ry = min(number_of(attributes, "ry", attributes.get("rx", "0")), h / 2)
    if min(rx, ry) < 0:
        raise Refused("a rounded corner has a radius below 0", 'Write for example rx="3".')
    if not (rx and ry):
        return [("M", x, y), ("L", x + w, y), ("L", x + w, y + h), ("L", x, y + h), ("Z",)]
    right, low = x + w, y + h
    sx, sy = rx * (1 - _QUARTER), ry * (1 - _QUARTER)
    return [
        ("M", x + rx, y),
        ("L", right - rx, y),
        ("C", right - sx, y, right, y + sy, right, y + ry),
        ("L", right, low - ry),
        ("C", right, low - sy, right - sx, low, right - rx, low),
        ("L", x + rx, low),
        ("C", x + sx, low, x, low - sy, x, low - ry),
        ("L", x, y + ry),
        ("C", x, y + sy, x + sx, y, x + rx, y),
        ("Z",),
    ]
