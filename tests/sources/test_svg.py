"""The picture reader: what it understands, and that it refuses everything else in one clear sentence."""

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Segment, Shape
from cardgen.sources.inks import inks
from cardgen.sources.svg import Part, paint, read_svg

INK, RED, SKY, WHITE = "#2A2A35", "#D93A3A", "#8CCBEE", "#FFFFFF"


def picture(inside: str, top: str = 'viewBox="0 0 100 100"') -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" {top}><title>cup</title>{inside}</svg>'


def read(inside: str) -> tuple[Part, ...]:
    return read_svg(picture(inside), "cup.svg", inks())


def shapes(inside: str, ink: Ink = Ink.COLOUR) -> tuple[Shape, ...]:
    return paint("cup", read(inside), ink, inks()).shapes


def path_of(shape: str) -> list[Segment]:
    (part,) = read(shape)
    return list(part.path)


def refusal(text: str) -> TeacherError:
    with pytest.raises(TeacherError) as caught:
        read_svg(text, "cup.svg", inks())
    assert caught.value.message.startswith("cup.svg")
    assert caught.value.hint
    return caught.value


# --- geometry


def test_path_commands_become_absolute_lines_and_cubics() -> None:
    path = path_of('<path class="d" d="m10 10 h20 v20 H10 l5-5 c1 1 2 2 3 3 s1,1 2,2 Q30 30 40 10 t6 6 z m1 1 L9 9"/>')
    assert "".join(segment[0] for segment in path) == "MLLLLCCCCZML"
    assert path[:5] == [("M", 10, 10), ("L", 30, 10), ("L", 30, 30), ("L", 10, 30), ("L", 15, 25)]
    assert path[5:6] == [("C", 16, 26, 17, 27, 18, 28)]
    # A smooth curve goes on as the one before it ended (SVG 1.1, 8.3.6).
    assert path[6:7] == [("C", 19, 29, 19, 29, 20, 30)]
    assert path[7] == pytest.approx(("C", 26.667, 30, 33.333, 23.333, 40, 10))
    assert path[-2:] == [("M", 11, 11), ("L", 9, 9)]


def test_a_closed_path_is_not_closed_by_a_line_as_well() -> None:
    assert path_of('<path class="d" d="M10 10 L20 10 L20 20 Z"/>')[-2:] == [("L", 20, 20), ("Z",)]
    assert path_of('<path class="d" d="M10 10 L20 10 L20 20 L10 10 Z"/>')[-2:] == [("L", 20, 20), ("Z",)]


@pytest.mark.parametrize(
    "shape",
    [
        '<circle class="k" cx="50" cy="40" r="20"/>',
        '<path class="k" d="M70 40 A20 20 0 1 1 30 40 A20 20 0 1 1 70 40 Z"/>',
    ],
)
def test_circles_and_arcs_are_round(shape: str) -> None:
    path = path_of(shape)
    assert [segment[0] for segment in path] == ["M", "C", "C", "C", "C", "Z"]
    for x, y in along(path):
        assert math.hypot(x - 50, y - 40) == pytest.approx(20, abs=0.006)


@given(
    cx=st.integers(20, 80),
    cy=st.integers(20, 80),
    rx=st.integers(1, 20),
    ry=st.integers(1, 20),
    turn=st.integers(-180, 180),
)
def test_a_turned_ellipse_is_an_ellipse(cx: int, cy: int, rx: int, ry: int, turn: int) -> None:
    for x, y in along(
        path_of(f'<ellipse class="k" cx="{cx}" cy="{cy}" rx="{rx}" ry="{ry}" transform="rotate({turn} {cx} {cy})"/>')
    ):
        angle = math.radians(turn)
        dx, dy = x - cx, y - cy
        across, down = dx * math.cos(angle) + dy * math.sin(angle), dy * math.cos(angle) - dx * math.sin(angle)
        assert math.hypot(across / rx, down / ry) == pytest.approx(1, abs=0.003)


def along(path: Sequence[Segment]) -> list[tuple[float, float]]:
    """Points on the cubics of a path: their ends and middles (a quarter, a half, three quarters of the way)."""
    found: list[tuple[float, float]] = []
    at = (0.0, 0.0)
    for _, *numbers in path:
        xs, ys = numbers[::2], numbers[1::2]
        if len(xs) == 3:
            for t in (0.25, 0.5, 0.75, 1.0):
                a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
                x, y = (
                    a * start + b * one + c * two + d * end for start, (one, two, end) in ((at[0], xs), (at[1], ys))
                )
                found.append((x, y))
        if xs:
            at = (xs[-1], ys[-1])
    return found


def test_rectangles_have_corners_as_svg_rounds_them() -> None:
    square = path_of('<rect class="k" x="10" y="20" width="30" height="40"/>')
    assert square == [("M", 10, 20), ("L", 40, 20), ("L", 40, 60), ("L", 10, 60), ("Z",)]
    one = path_of('<rect class="k" x="10" y="20" width="30" height="40" rx="5"/>')
    assert one == path_of('<rect class="k" x="10" y="20" width="30" height="40" ry="5"/>')
    assert one[:2] == [("M", 15, 20), ("L", 35, 20)]
    assert one[2:3] == [("C", 37.761, 20, 40, 22.239, 40, 25)]
    pill = path_of('<rect class="k" x="10" y="20" width="30" height="40" rx="99" ry="4"/>')
    assert pill[:1] == [("M", 25, 20)]


def test_polygons_are_closed_and_polylines_open() -> None:
    assert path_of('<polygon class="k" points="1,2 3,4 5-6"/>') == [("M", 1, 2), ("L", 3, 4), ("L", 5, -6), ("Z",)]
    assert path_of('<polyline class="d" points="1 2,3 4"/>') == [("M", 1, 2), ("L", 3, 4)]
    assert path_of('<line class="d" x1="1" y1="2" x2="3"/>') == [("M", 1, 2), ("L", 3, 0)]


def test_transforms_nest_from_the_outside_in() -> None:
    inner = '<line class="d" x1="10" y1="0" x2="20" y2="0" transform="translate(5 0) rotate(90)"/>'
    assert path_of(inner) == [("M", 5, 10), ("L", 5, 20)]
    line = '<line class="d" x1="10" y1="0" x2="20" y2="0" transform="rotate(60)"/>'
    assert path_of(f'<g transform="rotate(30)">{line}</g>') == [("M", 0, 10), ("L", 0, 20)]
    mirrored = f'<g transform="translate(100 0) scale(-1 1)">{inner}</g>'
    assert path_of(mirrored) == [("M", 95, 10), ("L", 95, 20)]
    assert path_of('<line class="d" x1="1" transform="rotate(180, 50, 50)"/>') == [("M", 99, 100), ("L", 100, 100)]


# --- roles


@pytest.mark.parametrize(
    ("shape", "colour", "line"),
    [
        ('class="a red"', [(RED, INK, 3.0)], [(WHITE, INK, 3.0)]),
        ('class="a red" stroke-width="1.8"', [(RED, INK, 1.8)], [(WHITE, INK, 1.8)]),
        (
            'class="p red" stroke-width="6"',
            [(None, INK, 12.0), (None, RED, 6.0)],
            [(None, INK, 12.0), (None, WHITE, 6.0)],
        ),
        ('class="d"', [(None, INK, 2.4)], [(None, INK, 2.4)]),
        ('class="k"', [(INK, None, 0.0)], [(INK, None, 0.0)]),
        ('class="w"', [(WHITE, None, 0.0)], [(WHITE, None, 0.0)]),
        ('class="b red"', [(RED, None, 0.0)], [(WHITE, INK, 1.6)]),
        ('class="t red"', [(RED, None, 0.0)], []),
        ('class="c red" stroke-width="4"', [(None, RED, 4.0)], []),
        ('class="e red" stroke-width="4"', [(None, RED, 4.0)], [(None, INK, 1.6)]),
        ('class="a ink"', [(INK, INK, 3.0)], [(INK, INK, 3.0)]),
    ],
)
def test_every_role_in_colour_and_in_line_ink(shape: str, colour: list[object], line: list[object]) -> None:
    for ink, wanted in ((Ink.COLOUR, colour), (Ink.LINE, line)):
        drawn = shapes(f'<circle r="9" {shape}/>', ink)
        assert [(each.fill, each.stroke, each.width) for each in drawn] == wanted


def test_grey_ink_is_colour_ink_in_greys() -> None:
    inside = '<circle r="9" class="a red"/><path d="M0 0 L9 9" class="p sky" stroke-width="6"/>'
    colour, grey = shapes(inside), shapes(inside, Ink.GREY)
    assert [(each.path, each.width) for each in grey] == [(each.path, each.width) for each in colour]
    assert grey[0].fill == "#767676"  # the luminance of #D93A3A is .181 by the formula of WCAG 2.2, worked by hand


def test_a_merged_group_is_drawn_twice_silhouette_first() -> None:
    drawn = shapes(
        '<g class="m"><circle r="9" class="a red"/><g><path d="M0 0 L9 9" class="p sky" stroke-width="6"/></g></g>'
    )
    assert [(each.fill, each.stroke, each.width) for each in drawn] == [
        (INK, INK, 6.0),
        (None, INK, 12.0),
        (RED, None, 0.0),
        (None, SKY, 6.0),
    ]


# --- refusals


@pytest.mark.parametrize(
    ("inside", "said"),
    [
        ('<linearGradient id="g"/>', "element 3 <linearGradient>: this element is not allowed here"),
        ("<script>alert(1)</script>", "element 3 <script>: this element is not allowed here"),
        ('<image href="http://example.org/cup.png"/>', "element 3 <image>: this element is not allowed here"),
        ('<use xmlns:x="http://www.w3.org/1999/xlink" x:href="#a"/>', "element 3 <use>"),
        ('<style>.a { fill: url("http://example.org/a.css") }</style>', "element 3 <style>"),
        ("<text>cup</text>", "element 3 <text>"),
        ("<foreignObject/>", "element 3 <foreignObject>"),
        ('<g><g/><circle class="q red" r="9"/></g>', 'element 5 <circle>: the role "q" is not known'),
        ('<circle class="a mauve" r="9"/>', 'element 3 <circle>: the colour "mauve" is not known'),
        ('<circle class="a" r="9"/>', "role a takes one colour"),
        ('<circle class="a red blue" r="9"/>', "role a takes one colour"),
        ('<circle class="k red" r="9"/>', "role k takes no colour"),
        ('<circle r="9"/>', 'the role "" is not known'),
        ('<circle class="k" r="9" fill="red"/>', "the attribute fill is not allowed"),
        ('<circle class="k" r="9" style="fill:red"/>', "the attribute style is not allowed"),
        ('<circle class="k" r="9" onclick="x()"/>', "the attribute onclick is not allowed"),
        ('<circle class="k" r="9" stroke-width="2"/>', "role k takes no stroke-width"),
        ('<circle class="p red" r="9"/>', "role p needs a stroke-width"),
        ('<circle class="d" r="9" stroke-width="0"/>', "stroke-width must be above 0"),
        ('<circle class="k"/>', "r must be above 0"),
        ('<circle class="k" r="9px"/>', 'r "9px" cannot be read'),
        ('<circle class="k" r="9 9"/>', "r must be one number"),
        ('<circle class="k" r="nan"/>', 'r "nan" cannot be read'),
        ('<circle class="k" r="1e9"/>', 'r "1e9" cannot be read'),
        ('<rect class="k" width="9" height="9" rx="-1"/>', "a radius below 0"),
        ('<circle class="k" r="9"><animate/></circle>', "element 3 <circle>: other elements stand inside it"),
        ('<path class="d" d=""/>', "the path does not begin with M"),
        ('<path class="d" d="L1 1"/>', "the path does not begin with M"),
        ('<path class="d" d="M1 1 L2"/>', "path command L takes 2 numbers at a time, not 1"),
        ('<path class="d" d="M1 1 L"/>', "path command L takes 2 numbers at a time, not 0"),
        ('<path class="d" d="M1 1 L2 2 X3 3"/>', "cannot be read"),
        ('<path class="d" d="M1 1 Z 5 5"/>', "path command Z takes 0 numbers"),
        ('<path class="d" d="M1 1 A0 5 0 0 1 9 9"/>', "an arc needs radii above 0"),
        ('<path class="d" d="M1 1 A5 5 0 013 9 9"/>', "path command A takes 7 numbers at a time, not 6"),
        ('<polygon class="k" points="1,2 3"/>', "points must be two or more pairs of numbers"),
        ('<g transform="scale(2 2)"/>', "scale cannot be done with 2 2"),
        ('<g transform="skewX(5)"/>', 'the transform "skewX(5)" is not known'),
        ('<g transform="rotate(5) matrix(1 0 0 1 0 0)"/>', "is not known"),
        ('<g transform="rotate()"/>', "rotate cannot be done with nothing"),
        ('<g class="x"/>', 'a group of class "x" is not known'),
        ('<g class="m"><g class="m"/></g>', "a merged group stands inside another"),
        ('<g class="m"><circle class="d" r="9"/></g>', "role d cannot stand in a merged group"),
        ("<title>mug</title>", "there must be one <title>"),
        ("<g><title>mug</title></g>", "this element is not allowed here"),
        ("<g>" * 8 + "</g>" * 8, "element 10 <g>: the groups are nested too deep"),
        ("<g>" * 5000 + "</g>" * 5000, "the groups are nested too deep"),
        ('<svg viewBox="0 0 100 100"/>', "element 3 <svg>: this element is not allowed here"),
        ('<circle xmlns="http://example.org/" class="k" r="9"/>', "this element is not SVG"),
        ("<g>", "is not well-formed XML"),
        ("&lol;", "is not well-formed XML"),
        (f'<path class="d" d="M1 1 {"L9 9 " * 20000}"/>', "is longer than 64 kB"),
        ('<?xml-stylesheet href="http://example.org/a.css"?>', "<? is not allowed"),
    ],
)
def test_what_is_not_understood_is_refused(inside: str, said: str) -> None:
    assert said in refusal(picture(inside)).message


def test_an_entity_bomb_is_refused_before_it_is_read() -> None:
    bomb = (
        '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">'
        '<!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>' + picture("&c;")
    )
    assert "<!DOCTYPE is not allowed in a picture" in refusal(bomb).message
    outside = '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>' + picture("&a;")
    assert "<!DOCTYPE is not allowed in a picture" in refusal(outside).message


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (picture("", 'viewBox="0 0 200 100"'), "the box is not 100 by 100"),
        (picture("", ""), "the box is not 100 by 100"),
        (picture("", 'viewBox="0 0 100 100" width="40"'), "the attribute width is not allowed"),
        ('<svg viewBox="0 0 100 100"><title>cup</title></svg>', "this element is not SVG"),
        ('<g xmlns="http://www.w3.org/2000/svg"/>', "element 1 <g>: this element is not allowed here"),
        ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"/>', "there must be one <title>"),
        ("", "is not well-formed XML"),
        ("\x00", "is not well-formed XML"),
    ],
)
def test_a_file_that_is_no_picture_is_refused(text: str, said: str) -> None:
    assert said in refusal(text).message


@given(st.text(alphabet="MLHVCSQTAZmlhvcsqtaz0123456789 .,-e", max_size=60))
def test_any_path_is_drawn_or_refused(data: str) -> None:
    try:
        path = path_of(f'<path class="d" d="{data}"/>')
    except TeacherError:
        return
    assert path[0][0] == "M"
    lengths = {"M": 2, "L": 2, "C": 6, "Z": 0}
    assert all(len(numbers) == lengths[command] for command, *numbers in path)
    assert all(math.isfinite(number) for _, *numbers in path for number in numbers)


@given(st.text(alphabet="<>/&;!?='\"# svgpath\x00é", max_size=60))
def test_any_text_is_refused_in_words(text: str) -> None:
    refusal(text)


def test_a_comment_and_an_xml_declaration_are_welcome() -> None:
    text = '<?xml version="1.0" encoding="UTF-8"?>' + picture("<!-- a mug is not a cup --><circle class='k' r='9'/>")
    assert len(read_svg(text, "cup.svg", inks())) == 1
