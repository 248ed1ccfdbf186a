import pytest

from cardgen.paper.extent import extent, start_of
from cardgen.sheets.marks import Align, Code, Line, Mark, Outline, Panel, Picture
from cardgen.units import Box, Typeface, mm_of_points
from tests.paper.samples import INK, fonts, label

BOX = Box(10, 20, 30, 40)


@pytest.mark.parametrize(
    "mark",
    [
        Picture("moon", BOX, "a moon"),
        Code("https://example.org", BOX, "a code"),
        Panel(BOX, 5, None, INK, 1),
        Line(10, 60, 40, 20, 1, INK),
        Outline((("M", 10.0, 30.0), ("C", 15.0, 20.0, 40.0, 60.0, 20.0, 25.0), ("Z",)), None, INK, 1),
    ],
)
def test_each_mark_knows_its_box(mark: Mark) -> None:
    assert extent([mark], fonts().widths) == BOX


def test_several_marks_share_one_box() -> None:
    marks = [Line(10, 60, 20, 60, 1, INK), Line(40, 20, 40, 30, 1, INK)]
    assert extent(marks, fonts().widths) == BOX


def test_a_figure_needs_marks() -> None:
    with pytest.raises(ValueError, match="without marks"):
        extent([], fonts().widths)


@pytest.mark.parametrize(("align", "before"), [(Align.LEFT, 0.0), (Align.CENTRE, 0.5), (Align.RIGHT, 1.0)])
def test_a_label_reaches_as_far_as_its_letters(align: Align, before: float) -> None:
    widths = fonts().widths
    text = label(50, 40, "Moon", 20, Typeface.LEARNING, align=align)
    length = widths.em("Moon", Typeface.LEARNING) * mm_of_points(20)
    box = extent([text], widths)
    assert (box.x, box.w) == pytest.approx((50 - before * length, length))
    assert box.y < 40 < box.bottom
    assert start_of(text, widths) == pytest.approx(before * length)


def test_a_turned_label_runs_upwards() -> None:
    widths = fonts().widths
    box = extent([label(50, 100, "Moon", 20, turn=90)], widths)
    assert box.bottom == pytest.approx(100)
    assert box.h == pytest.approx(widths.mm("Moon", 20, Typeface.TEXT))
    assert box.x < 50 < box.right
