"""Reads the pictures: small SVGs whose shapes carry geometry and a role but no colours; turns them into painted paths.

Understood are the elements and attributes named here, in a box of 100 by 100 units, y downwards, and nothing else:
what the program does not know it refuses and never guesses at. The grammar of paths and their arcs are fontTools'.
"""

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fontTools.svgLib.path import parse_path

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Path, Segment, Shape
from cardgen.sources.inks import FILE, OWN, Inks, Role
from cardgen.sources.svg_shapes import HERE, Matrix, Refused, matrix_of, numbers_of, outline, placed, positive, times

BOX = 100.0
MOST_LETTERS = 64 * 1024
MOST_DEPTH = 8

_SPACE = "{http://www.w3.org/2000/svg"
_GEOMETRY = {
    "path": ("d",),
    "circle": ("cx", "cy", "r"),
    "ellipse": ("cx", "cy", "rx", "ry"),
    "rect": ("x", "y", "width", "height", "rx", "ry"),
    "line": ("x1", "y1", "x2", "y2"),
    "polyline": ("points",),
    "polygon": ("points",),
}
_ATTRIBUTES = {
    "svg": ("viewBox",),
    "title": (),
    "g": ("class", "transform"),
    **{shape: (*geometry, "class", "stroke-width", "transform") for shape, geometry in _GEOMETRY.items()},
}
_FORBIDDEN = re.compile(r"<!DOCTYPE|<!ENTITY|<\?(?!xml\s)")
_COMMAND = re.compile(r"([MmZzLlHhVvCcSsQqTtAa])([^MmZzLlHhVvCcSsQqTtAa]*)")
_NUMBERS = {"M": 2, "Z": 0, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7}

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Part:
    """One shape of a picture before it is inked; in a merged group `layer` says with which brush it is drawn."""

    path: Path
    role: str
    colour: str | None
    width: float | None
    layer: int | None = None


def paint(name: str, parts: Sequence[Part], ink: Ink, inks: Inks) -> Drawing:
    """Return the drawing `name` in one ink, made of the parts of a picture; filled by the nonzero rule."""
    return Drawing(name, tuple(shape for part in parts for shape in _painted(part, ink, inks)), BOX)


def _painted(part: Part, ink: Ink, inks: Inks) -> Iterator[Shape]:
    def shade(colour: str | None) -> str | None:
        name = part.colour if colour == OWN else colour
        return inks.shade(name, ink) if name else None

    role = inks.roles[part.role]
    given = part.width or role.width or 0.0
    for brush in role.brushes(ink) if part.layer is None else (role.merged[part.layer],):
        width = brush.width or given + brush.wider
        yield Shape(part.path, shade(brush.fill), shade(brush.stroke), width if brush.stroke else 0.0)


def read_svg(text: str, file: str, inks: Inks) -> tuple[Part, ...]:
    """Return the parts of a picture in drawing order; TeacherError naming the file and the element it cannot take."""
    if len(text) > MOST_LETTERS:
        raise TeacherError(f"{file} is longer than {MOST_LETTERS // 1024} kB.", "Draw it with fewer shapes.")
    if found := _FORBIDDEN.search(text):
        raise TeacherError(
            f"{file}: {found[0]} is not allowed in a picture.", "Delete it; a picture needs no such line."
        )
    try:
        root = ET.fromstring(text)  # noqa: S314  document types and entities are refused above
    except ET.ParseError as error:
        raise TeacherError(f"{file} is not well-formed XML: {error}.", "Mend that line, or save it anew.") from None
    return tuple(_Reader(file, inks).parts(root, HERE, 1))


class _Reader:
    """Walks through the elements of one picture and counts them, to be able to name the one it refuses."""

    def __init__(self, file: str, inks: Inks) -> None:
        self._file, self._inks = file, inks
        self._count = 0

    def parts(self, element: ET.Element, matrix: Matrix, depth: int, merging: bool = False) -> list[Part]:
        """Return the parts of an element and of those in it."""
        self._count += 1
        space, _, tag = element.tag.rpartition("}")
        where = f"{self._file}, element {self._count} <{tag}>"
        try:
            if space != _SPACE:
                raise Refused("this element is not SVG", 'Write <svg xmlns="http://www.w3.org/2000/svg" …> at the top.')
            _check(element, tag, depth)
            if "transform" in element.attrib:
                matrix = times(matrix, matrix_of(element.attrib["transform"]))
            merged = tag == "g" and _is_merged(element, merging)
            if tag in _GEOMETRY:
                return [self._part(element, tag, matrix, merging)]
        except Refused as refused:
            raise TeacherError(f"{where}: {refused.problem}.", refused.hint) from None
        inside = [part for child in element for part in self.parts(child, matrix, depth + 1, merging or merged)]
        return [replace(part, layer=layer) for layer in (0, 1) for part in inside] if merged else inside

    def _part(self, element: ET.Element, tag: str, matrix: Matrix, merging: bool) -> Part:
        name, colour = _class(element.get("class", ""), self._inks)
        role = self._inks.roles[name]
        if merging and not role.merged:
            mergeable = " and ".join(letter for letter, other in self._inks.roles.items() if other.merged)
            raise Refused(f"role {name} cannot stand in a merged group", f"Only {mergeable} can; move it out.")
        segments = _path(element.get("d", "")) if tag == "path" else outline(tag, element.attrib)
        return Part(placed(segments, matrix), name, colour, _stroke_width(element, name, role))


def _check(element: ET.Element, tag: str, depth: int) -> None:
    """Refuse elements and attributes that are not known, and elements where they do not belong."""
    if tag not in _ATTRIBUTES or (tag == "svg") != (depth == 1):
        raise Refused("this element is not allowed here", f"A picture is made of {', '.join(_ATTRIBUTES)}.")
    if depth > MOST_DEPTH:
        raise Refused("the groups are nested too deep", f"Nest at most {MOST_DEPTH - 2} groups.")
    for attribute in element.attrib:
        if attribute not in _ATTRIBUTES[tag]:
            allowed = ", ".join(_ATTRIBUTES[tag]) or "none"
            raise Refused(f"the attribute {attribute.rpartition('}')[2]} is not allowed", f"Allowed: {allowed}.")
    if tag == "svg":
        if element.get("viewBox", "").split() != ["0", "0", "100", "100"]:
            raise Refused("the box is not 100 by 100", 'Write viewBox="0 0 100 100".')
        if len(element.findall(f"{_SPACE}}}title")) != 1:
            raise Refused("there must be one <title>", "Give the picture its word as title.")
    elif tag == "title" and depth != 2:
        raise Refused("this element is not allowed here", "The title stands right below <svg>.")
    elif tag not in ("svg", "g") and len(element):
        raise Refused("other elements stand inside it", "Only svg and g can hold others.")


def _is_merged(group: ET.Element, merging: bool) -> bool:
    name = group.get("class")
    if name not in (None, "m"):
        raise Refused(f'a group of class "{name}" is not known', 'A group has no class, or "m" to merge its shapes.')
    if name and merging:
        raise Refused("a merged group stands inside another", "Take away the class of one of them.")
    return name is not None


def _class(text: str, inks: Inks) -> tuple[str, str | None]:
    """Return role and colour of a shape's class."""
    name, *colours = text.split() or [""]
    role = inks.roles.get(name)
    if role is None:
        raise Refused(f'the role "{name}" is not known', f"Roles are {', '.join(inks.roles)}; see {FILE}.")
    if len(colours) != role.takes_colour:
        needs = "one colour" if role.takes_colour else "no colour"
        raise Refused(f"role {name} takes {needs}", 'Write the class as in class="a red" or class="d".')
    for colour in colours:
        if colour not in inks.colours:
            raise Refused(f'the colour "{colour}" is not known', f"Colours are {', '.join(inks.colours)}.")
    return name, colours[0] if colours else None


def _stroke_width(element: ET.Element, name: str, role: Role) -> float | None:
    if "stroke-width" not in element.attrib:
        if role.takes_width and role.width is None:
            raise Refused(f"role {name} needs a stroke-width", 'Add for example stroke-width="6".')
        return None
    if not role.takes_width:
        raise Refused(f"role {name} takes no stroke-width", "Delete it.")
    return positive(element.attrib, "stroke-width")


def _path(data: str) -> Sequence[Segment]:
    """Return path data (SVG 1.1, 8.3) as absolute M, L, C and Z; quadratics and arcs become cubics."""
    recorder = _Recorder()
    parse_path(_checked(data), recorder)
    return recorder.segments


def _checked(data: str) -> str:
    """Return path data with every command followed by the right numbers, which fontTools does not ask for."""
    commands = list(_COMMAND.finditer(data))
    if not commands or data[: commands[0].start()].strip() or commands[0][1] not in "Mm":
        raise Refused("the path does not begin with M", 'Write for example d="M10 10 L90 90".')
    words = []
    for command in commands:
        letter, numbers = command[1], numbers_of(command[2], f"path command {command[1]}")
        each = _NUMBERS[letter.upper()]
        if (len(numbers) % each or not numbers) if each else numbers:
            raise Refused(f"path command {letter} takes {each} numbers at a time, not {len(numbers)}", "Mend the path.")
        if letter in "Aa":
            _check_arcs(numbers)
        words += [letter, *(f"{number:.12g}" for number in numbers)]
    return " ".join(words)


def _check_arcs(numbers: list[float]) -> None:
    for start in range(0, len(numbers), 7):
        rx, ry, _, large, sweep, _, _ = numbers[start : start + 7]
        if rx <= 0 or ry <= 0 or large not in (0, 1) or sweep not in (0, 1):
            raise Refused("an arc needs radii above 0 and flags 0 or 1", "Write it as A rx ry angle 0 1 x y.")


class _Recorder:
    """A pen, by fontTools' protocol, that keeps what is drawn as segments."""

    def __init__(self) -> None:
        self.segments: list[Segment] = []
        self._start: Point = (0.0, 0.0)
        self._at: Point = (0.0, 0.0)

    def moveTo(self, point: Point) -> None:  # noqa: N802
        """Begin a new part of the path."""
        self.segments.append(("M", *point))
        self._start = self._at = point

    def lineTo(self, point: Point) -> None:  # noqa: N802
        """Draw a straight line."""
        self.segments.append(("L", *point))
        self._at = point

    def curveTo(self, first: Point, second: Point, point: Point) -> None:  # noqa: N802
        """Draw a cubic."""
        self.segments.append(("C", *first, *second, *point))
        self._at = point

    def qCurveTo(self, control: Point, point: Point) -> None:  # noqa: N802
        """Draw a quadratic as the cubic that is the same curve."""
        first, second = (
            (end[0] + (control[0] - end[0]) * 2 / 3, end[1] + (control[1] - end[1]) * 2 / 3)
            for end in (self._at, point)
        )
        self.curveTo(first, second, point)

    def closePath(self) -> None:  # noqa: N802
        """Close the part of the path; the line home that fontTools draws first is not needed."""
        if self.segments[-1] == ("L", *self._start):
            self.segments.pop()
        self.segments.append(("Z",))

    def endPath(self) -> None:  # noqa: N802
        """Leave the part of the path open."""
