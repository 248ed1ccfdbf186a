import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.games.pieces import Ink, Paper
from cardgen.sheets.block import CardBlock, card_block
from cardgen.sheets.cuts import guillotine_marks, mark_span, may_be_lost, minutes, scissors_lines, stacks
from cardgen.sheets.style import Style
from cardgen.sources.layouts import card_format
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


def block(gap: float = 0.0) -> CardBlock:
    return CardBlock(Size(210, 297), 2, 1, Size(45, 45), gap, 15.0, 13.5)


@pytest.mark.parametrize("gap", [0.0, 6.0])
def test_every_cut_is_marked_at_both_ends(gap: float) -> None:
    cards = block(gap)
    marks = guillotine_marks(cards)
    assert len(marks) == 2 * cards.cuts
    for x in cards.xs:
        ends = sorted(min(mark.y1, mark.y2) for mark in marks if mark.x1 == mark.x2 == x)
        assert len(ends) == 2
        assert ends[0] < cards.ys[0]
        assert ends[1] > cards.ys[-1]


def test_cards_that_fill_the_sheet_are_marked_at_its_edge() -> None:
    (top, bottom) = guillotine_marks(card_block(card_format("cards-half"), Paper.A4))
    assert (top.x1, top.y1, top.y2) == (148.5, 6.4, 11.4)
    assert (bottom.x1, bottom.y1, bottom.y2) == (148.5, 198.6, 203.6)


def test_marks_that_a_printer_may_leave_out_are_known() -> None:
    assert may_be_lost(card_block(card_format("cards-inch"), Paper.LETTER))
    assert not any(may_be_lost(card_block(card_format(name), Paper.LETTER)) for name in ("cards", "week-deck"))


@pytest.mark.parametrize(("gap", "count"), [(0.0, (4, 3)), (6.0, (4, 4))])
def test_scissors_lines_never_cross(gap: float, count: tuple[int, int]) -> None:
    lines = scissors_lines(block(gap), Style.of(Ink.COLOUR))
    level = [line for line in lines if line.y1 == line.y2]
    upright = [line for line in lines if line.x1 == line.x2]
    assert (len(level), len(upright)) == count
    for one in level:
        for other in upright:
            assert not (one.x1 <= other.x1 <= one.x2 and other.y1 <= one.y1 <= other.y2)


def test_ten_sheets_are_one_stack_and_three_cuts_a_minute() -> None:
    assert [stacks(n) for n in (1, 10, 11, 24)] == [1, 1, 2, 3]
    assert [minutes(n) for n in (0, 1, 3, 4, 9)] == [0, 1, 1, 2, 3]
