import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.games.pieces import Ink
from cardgen.sheets.cuts import guillotine_marks, mark_span, minutes, scissors_lines, stacks
from cardgen.sheets.style import Style
from cardgen.units import Size


def test_a_wide_margin_has_the_full_mark() -> None:
    # 3 mm off the trim, 5 mm long (common practice, no source).
    assert mark_span(20.0) == (12.0, 17.0)


def test_marks_stop_at_the_printable_edge() -> None:
    assert mark_span(13.5) == (6.4, 10.5)


@pytest.mark.parametrize(("margin", "span"), [(7.7, (4.0, 6.7)), (6.35, (2.0, 6.35))])
def test_short_margins_have_shortened_marks(margin: float, span: tuple[float, float]) -> None:
    assert mark_span(margin) == pytest.approx(span)


@given(st.floats(2.5, 60))
def test_there_is_always_a_mark_and_never_one_inside_a_piece(margin: float) -> None:
    outer, inner = mark_span(margin)
    assert 0 < outer < inner <= margin


def test_every_cut_is_marked_at_both_ends() -> None:
    sheet = Size(210, 297)
    xs, ys = [15.0, 60.0, 105.0], [13.5, 58.5]
    marks = guillotine_marks(xs, ys, sheet)
    assert len(marks) == 2 * (len(xs) + len(ys))
    for x in xs:
        ends = sorted(min(mark.y1, mark.y2) for mark in marks if mark.x1 == mark.x2 == x)
        assert len(ends) == 2
        assert ends[0] < ys[0]
        assert ends[1] > ys[-1]


def test_scissors_lines_never_cross() -> None:
    lines = scissors_lines([0.0, 45.0, 90.0], [0.0, 45.0], Style.of(Ink.COLOUR))
    level = [line for line in lines if line.y1 == line.y2]
    upright = [line for line in lines if line.x1 == line.x2]
    assert len(level) == 4
    assert len(upright) == 3
    for one in level:
        for other in upright:
            assert not (one.x1 <= other.x1 <= one.x2 and other.y1 <= one.y1 <= other.y2)


def test_ten_sheets_are_one_stack_and_three_cuts_a_minute() -> None:
    assert [stacks(n) for n in (1, 10, 11, 24)] == [1, 1, 2, 3]
    assert [minutes(n) for n in (0, 1, 3, 4, 9)] == [0, 1, 1, 2, 3]
