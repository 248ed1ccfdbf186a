"""Shapes as PDF operators (ISO 32000-1, 8.5), ready-made strings: number formatting is where writing spends its time.

PDF has its origin at the lower left and y upwards; everything here is handed in with y downwards, as marks are, and
turned over on the way: a point (x, y) becomes (scale · x, top − scale · y).
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from cardgen.sheets.marks import Drawing, Path, Photo, Segment
from cardgen.units import Box

Matrix = Sequence[Sequence[bool]]  # a code's modules, row by row, True = dark
_KAPPA = 0.5523  # how far a Bézier handle reaches along the tangent to draw a quarter of a circle
_OPERATORS = {"M": "m", "L": "l", "C": "c"}

ROUND_PEN = "1 J 1 j"  # round ends and joins: everything is drawn with one pen


@lru_cache(maxsize=8192)
def number(value: float) -> str:
    """Return a number with at most three decimals: a thousandth of a point is a third of a micrometre."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def numbers(*values: float) -> str:
    """Return numbers with spaces between them."""
    return " ".join(map(number, values))


@lru_cache(maxsize=256)
def rgb(colour: str) -> str:
    """Return a colour `#RRGGBB` as the three operands of `rg` and `RG`; ValueError if it is not written so."""
    if len(colour) != 7 or colour[0] != "#":
        raise ValueError(f"{colour!r} is not a colour of the form #RRGGBB")
    parts = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return " ".join(f"{part:.4f}".rstrip("0").rstrip(".") for part in parts)


def path_operators(path: Path, scale: float, top: float) -> str:
    """Return the operators that build a path, without painting it."""
    parts = []
    for command, *places in path:
        if command == "Z":
            parts.append("h")
            continue
        for x, y in zip(places[::2], places[1::2], strict=True):
            parts += (number(scale * x), number(top - scale * y))
        parts.append(_OPERATORS[command])
    return " ".join(parts)


def paint(fill: str | None, stroke: str | None, *, even_odd: bool = False) -> str:
    """Return the operator that paints a path; `n` (nothing) where there is neither fill nor stroke."""
    if fill:
        return ("B" if stroke else "f") + ("*" if even_odd else "")
    return "S" if stroke else "n"


def rectangle(box: Box, radius: float = 0.0) -> Path:
    """Return a rectangle as a path, its corners rounded by `radius`, in the units of the box."""
    left, top, right, bottom = box.x, box.y, box.right, box.bottom
    r = min(radius, box.w / 2, box.h / 2)
    if r <= 0:
        return (("M", left, top), ("L", right, top), ("L", right, bottom), ("L", left, bottom), ("Z",))
    k = r * (1 - _KAPPA)
    return (
        ("M", left + r, top),
        ("L", right - r, top),
        ("C", right - k, top, right, top + k, right, top + r),
        ("L", right, bottom - r),
        ("C", right, bottom - k, right - k, bottom, right - r, bottom),
        ("L", left + r, bottom),
        ("C", left + k, bottom, left, bottom - k, left, bottom - r),
        ("L", left, top + r),
        ("C", left, top + k, left + k, top, left + r, top),
        ("Z",),
    )


def drawing_operators(drawing: Drawing) -> str:
    """Return a whole picture in units of its own box, y upwards."""
    lines = [ROUND_PEN]
    for shape in drawing.shapes:
        if shape.fill:
            lines.append(f"{rgb(shape.fill)} rg")
        if shape.stroke:
            lines.append(f"{rgb(shape.stroke)} RG {number(shape.width)} w")
        painted = paint(shape.fill, shape.stroke, even_odd=shape.even_odd)
        lines.append(f"{path_operators(shape.path, 1, drawing.box)} {painted}")
    return "\n".join(lines)


def photo_operators(photo: Photo, image: str) -> str:
    """Return a photo in the middle of a square of its longer side, a pixel a unit; `image` is its name in the file."""
    w, h = photo.width_px, photo.height_px
    side = max(w, h)
    return f"{w} 0 0 {h} {numbers((side - w) / 2, (side - h) / 2)} cm /{image} Do"


def code_operators(matrix: Matrix) -> str:
    """Return a code in black, a module a unit, y upwards, as one path: no renderer shows seams between modules."""
    return f"{rgb('#000000')} rg\n{path_operators(tuple(outline(matrix)), 1, len(matrix))} f"


def outline(matrix: Matrix) -> Iterator[Segment]:
    """Yield the outline of the dark modules, a module a unit: every loop has the dark on its right-hand side."""
    ends = _edges(matrix)
    while ends:
        start = place = next(iter(ends))
        command, heading = "M", (0, 0)
        while heading == (0, 0) or place != start:
            following = ends[place].pop()
            if not ends[place]:
                del ends[place]
            step = (following[0] - place[0], following[1] - place[1])
            if step != heading:
                yield (command, *place)
                command, heading = "L", step
            place = following
        yield ("Z",)


def _edges(matrix: Matrix) -> dict[tuple[int, int], list[tuple[int, int]]]:
    """Return every edge between dark and light, by its start; two start where two dark modules meet at a corner."""
    size = len(matrix)

    def dark(row: int, column: int) -> bool:
        return 0 <= row < size and 0 <= column < size and matrix[row][column]

    ends: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for y in range(size):
        for x in range(size):
            if not matrix[y][x]:
                continue
            for is_dark, start, end in (
                (dark(y - 1, x), (x, y), (x + 1, y)),
                (dark(y, x + 1), (x + 1, y), (x + 1, y + 1)),
                (dark(y + 1, x), (x + 1, y + 1), (x, y + 1)),
                (dark(y, x - 1), (x, y + 1), (x, y)),
            ):
                if not is_dark:
                    ends.setdefault(start, []).append(end)
    return ends
