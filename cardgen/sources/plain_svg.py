"""Reads the plain SVG of drawing programs: shapes with one fill and one stroke each, painted as they say.

What would need more than that (gradients, text, dashes, see-through paint, style sheets, links, programs) is refused
with one sentence, and a PNG of the picture is the way out. Lines get round ends and joins, as everywhere here.
"""

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from fontTools.misc.transform import Identity, Transform
from fontTools.pens.basePen import BasePen
from fontTools.svgLib.path import parse_path
from PIL import ImageColor

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Path, Segment, Shape
from cardgen.sources.inks import Inks
from cardgen.sources.svg_shapes import Refused

BOX = 100.0
MOST_LETTERS = 512 * 1024
MOST_DEPTH = 40
FARTHEST = 1000.0  # how far from the box a shape may reach, in units of the box

_SPACE = "{http://www.w3.org/2000/svg}"
_AS_PNG = "Export it as PNG from the program that drew it, and use that."

# A document type that declares nothing of its own stands in many files, and is passed over.
_DOCTYPE = re.compile(r"<!DOCTYPE\s+svg\b[^\[\]<>]*>", re.IGNORECASE)
_FORBIDDEN = re.compile(r"<!DOCTYPE|<!ENTITY|<\?(?!xml\s)", re.IGNORECASE)
_NUMBER = re.compile(r"\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?)(?:px)?\s*", re.ASCII)
_PATH = re.compile(r"[MmZzLlHhVvCcSsQqTtAaEe\d\s.,+-]*", re.ASCII)
_TRANSFORM = re.compile(r"[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)")
_LINK = re.compile(r"url\(\s*['\"]?(?!#)")

# What draws nothing by itself; what would be drawn with it is refused where it is used.
_UNSEEN = frozenset(
    {
        "title", "desc", "metadata", "defs", "symbol", "marker", "pattern", "linearGradient", "radialGradient",
        "clipPath", "mask", "filter",
    }
)  # fmt: skip
_SHAPES = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
_PROGRAMS = frozenset({"script", "foreignObject", "handler", "iframe"})
_OPACITY = ("opacity", "fill-opacity", "stroke-opacity")
_TOO_MUCH = {
    "clip-path": "a clipping path",
    "mask": "a mask",
    "filter": "a filter",
    "stroke-dasharray": "a dashed line",
    "marker": "arrow heads",
    "marker-start": "arrow heads",
    "marker-mid": "arrow heads",
    "marker-end": "arrow heads",
    "mix-blend-mode": "blended colours",
    "vector-effect": "lines that do not scale",
    "transform-origin": "a moved centre",
    "transform-box": "a moved centre",
}


@dataclass(frozen=True, slots=True)
class _Style:
    """What an element hands on to those in it."""

    fill: str | None = "#000000"
    stroke: str | None = None
    width: float = 1.0
    even_odd: bool = False
    seen: bool = True


def parse_svg(text: str, file: str) -> ET.Element:
    """Return the root of an SVG in which nothing can run, load or change it; TeacherError naming the file otherwise."""
    if len(text) > MOST_LETTERS:
        raise TeacherError(f"{file} is longer than {MOST_LETTERS // 1024} kB.", _AS_PNG)
    text = _DOCTYPE.sub("", text, count=1)
    if found := _FORBIDDEN.search(text):
        raise TeacherError(f"{file}: {found[0]} is not allowed in a picture.", _AS_PNG)
    try:
        root = ET.fromstring(text)  # noqa: S314  entities are refused above
    except ET.ParseError as error:
        raise TeacherError(f"{file} is not a well-formed SVG: {error}.", "Save it anew, as SVG or PNG.") from None
    for element in root.iter():
        if fault := _fault(element):
            raise TeacherError(f"{file} {fault}.", _AS_PNG)
    return root


def is_role_picture(root: ET.Element) -> bool:
    """Return whether an SVG is drawn like the project's own, in roles (`class`) instead of colours."""
    names = {name for element in root.iter() for name in element.attrib}
    return "class" in names and names.isdisjoint({"fill", "stroke", "style"})


def read_plain_svg(root: ET.Element, file: str) -> tuple[Shape, ...]:
    """Return what an SVG paints, in colour, fitted into a box of 100 by 100; TeacherError for what it cannot take."""
    try:
        if root.tag != _SPACE + "svg":
            raise Refused("is no SVG", "")
        return tuple(_shapes(root, _fitted(root), _Style(), 1))
    except Refused as refused:
        raise TeacherError(f"{file} {refused.problem}.", refused.hint or _AS_PNG) from None


def in_greys(shapes: tuple[Shape, ...]) -> tuple[Shape, ...]:
    """Return shapes in the greys of their colours' luminance."""

    def shade(colour: str | None) -> str | None:
        return colour and Inks({colour: colour}, {}).shade(colour, Ink.GREY)

    return tuple(replace(shape, fill=shade(shape.fill), stroke=shade(shape.stroke)) for shape in shapes)


def _fault(element: ET.Element) -> str:
    """Return what no element may hold, wherever it stands; empty if it is harmless."""
    if _local(element.tag) in _PROGRAMS or any(_local(name).lower().startswith("on") for name in element.attrib):
        return "holds a program (a script)"
    for name, value in element.attrib.items():
        if (_local(name) == "href" and not value.startswith("#")) or _LINK.search(value):
            return "links to another file"
    if _local(element.tag) == "style" and element.text:
        return "is coloured by a style sheet, not shape by shape"
    return ""


def _local(name: str) -> str:
    return name.rpartition("}")[2]


def _fitted(root: ET.Element) -> Transform:
    """Return the transform from the picture's own box to the middle of ours."""
    if "viewBox" in root.attrib:
        box = [_number(word, "viewBox") for word in re.split(r"[\s,]+", root.attrib["viewBox"].strip())]
    else:
        box = [0.0, 0.0, *(_number(root.get(side, ""), f"its {side}") for side in ("width", "height"))]
    if len(box) != 4 or not (min(box[2:]) > 0 and max(map(abs, box)) < 1e6):
        raise Refused("does not tell how large it is (viewBox)", "")
    x, y, w, h = box
    scale = BOX / max(w, h)
    return Transform(scale, 0, 0, scale, (BOX - w * scale) / 2 - x * scale, (BOX - h * scale) / 2 - y * scale)


def _shapes(element: ET.Element, here: Transform, style: _Style, depth: int) -> Iterator[Shape]:
    """Yield what an element and those in it paint, in order."""
    if depth > MOST_DEPTH:
        raise Refused(f"is nested deeper than {MOST_DEPTH} groups", "")
    told = _told(element)
    style = _styled(told, style)
    if told.get("display") == "none":
        return
    if "transform" in told and depth > 1:
        here = here.transform(_transform(told["transform"]))
    tag = _local(element.tag)
    if tag in _SHAPES:
        yield from _painted(_data(tag, element.attrib), here, style)
        return
    for child in element:
        if not child.tag.startswith(_SPACE) or _local(child.tag) in _UNSEEN:
            continue  # notes of the drawing program, and definitions
        if _local(child.tag) not in _SHAPES | {"g"}:
            raise Refused(f"holds <{_local(child.tag)}>, which is more than plain shapes", "")
        yield from _shapes(child, here, style, depth + 1)


def _told(element: ET.Element) -> Mapping[str, str]:
    """Return what an element says of its look, by attribute or, stronger, in its `style`."""
    told = dict(element.attrib)
    for part in told.pop("style", "").split(";"):
        name, colon, value = part.partition(":")
        if colon:
            told[name.strip()] = value.replace("!important", "").strip()
    return told


def _styled(told: Mapping[str, str], style: _Style) -> _Style:
    """Return the style of an element, given that of the one around it; Refused for what is no plain paint."""
    for name, what in _TOO_MUCH.items():
        if told.get(name, "none").strip() not in ("", "none", "normal", "0"):
            raise Refused(f"has {what}, which is more than plain shapes", "")
    for name in _OPACITY:
        if _number(told.get(name, "1"), name) != 1:
            raise Refused("is see-through in parts (opacity)", "")
    return replace(
        style,
        fill=_paint(told.get("fill", "inherit"), style.fill),
        stroke=_paint(told.get("stroke", "inherit"), style.stroke),
        width=_number(told["stroke-width"], "stroke-width") if "stroke-width" in told else style.width,
        even_odd=told["fill-rule"] == "evenodd" if "fill-rule" in told else style.even_odd,
        seen=told["visibility"] == "visible" if "visibility" in told else style.seen,
    )


def _paint(text: str, around: str | None) -> str | None:
    """Return a paint as #RRGGBB, None for no paint."""
    text = text.strip()
    if text in ("none", "transparent"):
        return None
    if text in ("inherit", ""):
        return around
    if text.startswith("url("):
        raise Refused("is painted with a gradient or a pattern, not with a plain colour", "")
    try:
        levels = ImageColor.getrgb("black" if text == "currentColor" else text)
    except ValueError:
        raise Refused(f'has a colour that is not known, "{text[:30]}"', "") from None
    if levels[3:] not in ((), (255,)):
        raise Refused("is see-through in parts", "")
    return "#" + "".join(f"{level:02X}" for level in levels[:3])


def _painted(data: str, here: Transform, style: _Style) -> Iterator[Shape]:
    path = _path(data, here)
    if not path or not style.seen or not (style.fill or style.stroke):
        return
    a, b, c, d = here[:4]
    width = round(style.width * math.sqrt(abs(a * d - b * c)), 3)
    stroke = style.stroke if 0 < width < FARTHEST else None
    yield Shape(path, style.fill, stroke, width if stroke else 0.0, style.even_odd)


def _data(tag: str, attributes: Mapping[str, str]) -> str:
    """Return a shape as path data (SVG 1.1, 9)."""
    if tag == "path":
        return attributes.get("d", "")
    if tag in ("polyline", "polygon"):
        points = attributes.get("points", "").strip()
        return f"M{points}{'Z' if tag == 'polygon' else ''}" if points else ""

    def length(name: str) -> float:
        return _number(attributes.get(name, "0"), name)

    if tag == "line":
        return "M{:.9g} {:.9g} {:.9g} {:.9g}".format(*map(length, ("x1", "y1", "x2", "y2")))
    if tag == "rect":
        return _rectangle(length, attributes)
    rx, ry = (length("r"),) * 2 if tag == "circle" else (length("rx"), length("ry"))
    left, right, y = length("cx") - rx, length("cx") + rx, length("cy")
    arc = f"A{rx:.9g} {ry:.9g} 0 0 1"
    return f"M{left:.9g} {y:.9g}{arc} {right:.9g} {y:.9g}{arc} {left:.9g} {y:.9g}Z" if min(rx, ry) > 0 else ""


def _rectangle(length: Callable[[str], float], attributes: Mapping[str, str]) -> str:
    x, y, w, h = map(length, ("x", "y", "width", "height"))
    # One radius alone stands for both; none is more than half the side.
    rx = min(length("rx" if "rx" in attributes else "ry"), w / 2)
    ry = min(length("ry" if "ry" in attributes else "rx"), h / 2)
    if min(w, h) <= 0:
        return ""
    if min(rx, ry) <= 0:
        return f"M{x:.9g} {y:.9g}h{w:.9g}v{h:.9g}h{-w:.9g}Z"
    arc, across, down = f"a{rx:.9g} {ry:.9g} 0 0 1", w - 2 * rx, h - 2 * ry
    corners = [f"{sx * rx:.9g} {sy * ry:.9g}" for sx, sy in ((1, 1), (-1, 1), (-1, -1), (1, -1))]
    sides = (f"v{down:.9g}", f"h{-across:.9g}", f"v{-down:.9g}", "Z")
    turns = "".join(f"{arc} {corner}{side}" for corner, side in zip(corners, sides, strict=True))
    return f"M{x + rx:.9g} {y:.9g}h{across:.9g}{turns}"


def _path(data: str, here: Transform) -> Path:
    """Return path data placed in our box, to a thousandth of a unit; Refused if it is no path, or lies far outside."""
    if not data.strip() or data.strip() == "none":
        return ()
    pen = _Recorder(here)
    try:
        if not _PATH.fullmatch(data):
            raise ValueError("other letters than those of path data")
        parse_path(data, pen)
    except (ValueError, IndexError, ArithmeticError):
        raise Refused(f'has a path that cannot be read, "{data.strip()[:30]}"', "") from None
    if not all(abs(number) <= FARTHEST for _, *numbers in pen.segments for number in numbers):
        raise Refused("has a shape that lies far outside the picture", "")
    return tuple(pen.segments)


def _number(text: str, what: str) -> float:
    found = _NUMBER.fullmatch(text)
    if not found:
        raise Refused(f'has a length that cannot be read, {what} "{text[:30]}"', "")
    return float(found[1])


def _transform(text: str) -> Transform:
    """Return the transform that an attribute tells (SVG 1.1, 7.6)."""
    whole, end = Identity, 0
    for found in _TRANSFORM.finditer(text):
        if found.start() != end:
            break
        end = found.end()
        numbers = [_number(word, found[1]) for word in re.split(r"[\s,]+", found[2].strip())]
        whole = whole.transform(_one_transform(found[1], numbers))
    if text[end:].strip():
        raise Refused(f'is moved in a way that cannot be read, "{text[:30]}"', "")
    return whole


def _one_transform(name: str, numbers: list[float]) -> Transform:
    match name, len(numbers):
        case "matrix", 6:
            return Transform(*numbers)
        case "translate", 1 | 2:
            return Identity.translate(*numbers)
        case "scale", 1 | 2:
            return Identity.scale(numbers[0], numbers[-1])
        case "rotate", 1 | 3:
            x, y = numbers[1:] or (0.0, 0.0)
            return Identity.translate(x, y).rotate(math.radians(numbers[0])).translate(-x, -y)
        case "skewX", 1:
            return Identity.skew(math.radians(numbers[0]), 0)
        case "skewY", 1:
            return Identity.skew(0, math.radians(numbers[0]))
    raise Refused(f"is moved by {name} with {len(numbers)} numbers", "")


class _Recorder(BasePen):  # type: ignore[misc]
    """A pen, by fontTools' protocol, that keeps what is drawn as placed segments; BasePen makes all curves cubics."""

    def __init__(self, here: Transform) -> None:
        super().__init__()
        self.segments: list[Segment] = []
        self._here = here

    def _add(self, command: str, *points: tuple[float, float]) -> None:
        placed = (round(number, 3) + 0.0 for point in points for number in self._here.transformPoint(point))
        self.segments.append((command, *placed))

    def _moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self._add("M", point)

    def _lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self._add("L", point)

    def _curveToOne(  # noqa: N802
        self, first: tuple[float, float], second: tuple[float, float], point: tuple[float, float]
    ) -> None:
        self._add("C", first, second, point)

    def _closePath(self) -> None:  # noqa: N802
        start = next(segment for segment in reversed(self.segments) if segment[0] == "M")
        if self.segments[-1] == ("L", *start[1:]):
            self.segments.pop()  # the line home that fontTools draws first is not needed
        self.segments.append(("Z",))
