import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.paper.operators import (
    Matrix,
    code_operators,
    drawing_operators,
    number,
    outline,
    paint,
    path_operators,
    rectangle,
    rgb,
)
from cardgen.sheets.marks import Drawing, Shape
from cardgen.units import Box

matrices = st.integers(1, 9).flatmap(
    lambda size: st.lists(st.lists(st.booleans(), min_size=size, max_size=size), min_size=size, max_size=size)
)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "0"),
        (-0.0001, "0"),
        (12.0, "12"),
        (12.5, "12.5"),
        (0.25, "0.25"),
        (595.2755905, "595.276"),
        (-3.10, "-3.1"),
        (100, "100"),
    ],
)
def test_numbers_are_short_and_exact_to_a_thousandth(value: float, text: str) -> None:
    assert number(value) == text


@given(st.floats(-1e5, 1e5))
def test_any_number_is_plain_decimal(value: float) -> None:
    assert abs(float(number(value)) - value) <= 0.0005001
    assert "e" not in number(value)


@given(st.integers(0, 255), st.integers(0, 255), st.integers(0, 255))
def test_colours_come_back_exactly(red: int, green: int, blue: int) -> None:
    operands = rgb(f"#{red:02X}{green:02x}{blue:02X}").split()
    assert [round(float(part) * 255) for part in operands] == [red, green, blue]


@pytest.mark.parametrize("wrong", ["red", "#fff", "2A2A35", "#2A2A3G"])
def test_what_is_no_colour_is_refused(wrong: str) -> None:
    with pytest.raises(ValueError, match=r"colour|invalid literal"):
        rgb(wrong)


def test_paths_are_turned_over_and_scaled() -> None:
    path = (("M", 1.0, 2.0), ("L", 3.0, 4.0), ("C", 1.0, 1.0, 2.0, 2.0, 5.0, 0.0), ("Z",))
    assert path_operators(path, 2, 10) == "2 6 m 6 2 l 2 8 4 6 10 10 c h"


@pytest.mark.parametrize(
    ("fill", "stroke", "operator"),
    [("#000000", None, "f"), (None, "#000000", "S"), ("#000000", "#000000", "B"), (None, None, "n")],
)
def test_painting(fill: str | None, stroke: str | None, operator: str) -> None:
    assert paint(fill, stroke) == operator


def test_a_rectangle_with_round_corners_stays_inside_its_box() -> None:
    path = rectangle(Box(10, 20, 30, 40), 5)
    xs = [number for _, *places in path for number in places[::2]]
    ys = [number for _, *places in path for number in places[1::2]]
    assert (min(xs), max(xs), min(ys), max(ys)) == (10, 40, 20, 60)
    assert ("M", 15, 20) in path
    assert ("L", 35, 20) in path


def test_a_radius_is_never_more_than_half_a_side() -> None:
    assert rectangle(Box(0, 0, 10, 4), 9) == rectangle(Box(0, 0, 10, 4), 2)
    assert rectangle(Box(0, 0, 10, 4)) == (("M", 0, 0), ("L", 10, 0), ("L", 10, 4), ("L", 0, 4), ("Z",))


def test_a_drawing_sets_the_pen_of_each_shape() -> None:
    line = (("M", 10.0, 20.0), ("L", 90.0, 20.0))
    drawn = drawing_operators(Drawing("hat", (Shape(line, None, "#000000", 3.0), Shape(line, "#FF0000"))))
    assert drawn.splitlines() == ["1 J 1 j", "0 0 0 RG 3 w", "10 80 m 90 80 l S", "1 0 0 rg", "10 80 m 90 80 l f"]


def loops(matrix: Matrix) -> list[list[tuple[float, float]]]:
    found: list[list[tuple[float, float]]] = []
    for command, *place in outline(matrix):
        if command == "M":
            found.append([])
        if place:
            found[-1].append((place[0], place[1]))
    return found


def winding(x: float, y: float, paths: list[list[tuple[float, float]]]) -> int:
    """How often the loops run round a point: the rule by which PDF fills a path (ISO 32000-1, 8.5.3.3.2)."""
    turns = 0
    for points in paths:
        for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1], strict=True):
            if x1 == x2 and x1 > x and min(y1, y2) < y < max(y1, y2):
                turns += 1 if y2 > y1 else -1
    return turns


@given(matrices)
def test_the_outline_holds_the_dark_modules_and_nothing_else(matrix: Matrix) -> None:
    paths = loops(matrix)
    for y, row in enumerate(matrix):
        for x, dark in enumerate(row):
            assert winding(x + 0.5, y + 0.5, paths) == (1 if dark else 0)


@given(matrices)
def test_the_outline_has_no_more_corners_than_it_needs(matrix: Matrix) -> None:
    for points in loops(matrix):
        for (x1, y1), (x2, y2), (x3, y3) in zip(points, points[1:], points[2:], strict=False):
            assert (x1 == x2) != (x2 == x3)
            assert (y1 == y2) != (y2 == y3)


def test_a_code_is_one_path_in_black() -> None:
    ring = ((True, True, True), (True, False, True), (True, True, True))
    assert code_operators(ring) == "0 0 0 rg\n0 3 m 3 3 l 3 0 l 0 0 l h 2 2 m 1 2 l 1 1 l 2 1 l h f"
