"""Where the cuts go: marks at the sheet's edge for a guillotine, or thin lines to follow with scissors. All in mm."""

import math
from collections.abc import Sequence
from itertools import pairwise

from cardgen.games.pieces import Cut
from cardgen.sheets.marks import Line
from cardgen.sheets.style import CUT_MARK_PT, EDGE, INK, Style
from cardgen.units import Size

OFFSET, LENGTH, LEAST_LENGTH = 3.0, 5.0, 2.0
SHORT_OFFSET, SHORT_EDGE, LAST_EDGE = 1.0, 4.0, 2.0
SCISSORS_GAP = 2.5
SECONDS_A_CUT, STACK = 20, 10  # a rule of thumb: common practice, no source


def cut_lines(xs: Sequence[float], ys: Sequence[float], sheet: Size, cut: Cut, style: Style) -> tuple[Line, ...]:
    """Return the marks or lines for a block of pieces whose upright cuts are at `xs` and level cuts at `ys`."""
    return scissors_lines(xs, ys, style) if cut is Cut.SCISSORS else guillotine_marks(xs, ys, sheet)


def scissors_lines(xs: Sequence[float], ys: Sequence[float], style: Style) -> tuple[Line, ...]:
    """Return thin lines between all pieces and round the block, one piece a side, never crossing."""
    gap, weight, colour = SCISSORS_GAP, style.scissors_pt, style.scissors
    level = [Line(a + gap, y, b - gap, y, weight, colour) for y in ys for a, b in pairwise(xs)]
    upright = [Line(x, a + gap, x, b - gap, weight, colour) for x in xs for a, b in pairwise(ys)]
    return (*level, *upright)


def mark_span(margin: float) -> tuple[float, float]:
    """Return how far from the sheet's edge a cut mark begins and ends, where `margin` mm are left beside the trim.

    Normally 3 mm off the trim, 5 mm long and 6.4 mm from the edge; shortened step by step where the margin is short,
    and at the last from the trim itself to 2 mm from the edge: there is never no mark, and never one inside a piece.
    """
    for offset, edge in ((OFFSET, EDGE), (SHORT_OFFSET, EDGE), (SHORT_OFFSET, SHORT_EDGE)):
        inner = margin - offset
        outer = max(edge, inner - LENGTH)
        if inner - outer >= LEAST_LENGTH:
            return outer, inner
    return min(LAST_EDGE, margin / 2), margin


def guillotine_marks(xs: Sequence[float], ys: Sequence[float], sheet: Size) -> tuple[Line, ...]:
    """Return a mark at both ends of every cut, outside all pieces."""
    marks: list[Line] = []
    top, bottom = mark_span(ys[0]), mark_span(sheet.h - ys[-1])
    left, right = mark_span(xs[0]), mark_span(sheet.w - xs[-1])
    for x in xs:
        marks.append(Line(x, top[0], x, top[1], CUT_MARK_PT, INK))
        marks.append(Line(x, sheet.h - bottom[1], x, sheet.h - bottom[0], CUT_MARK_PT, INK))
    for y in ys:
        marks.append(Line(left[0], y, left[1], y, CUT_MARK_PT, INK))
        marks.append(Line(sheet.w - right[1], y, sheet.w - right[0], y, CUT_MARK_PT, INK))
    return tuple(marks)


def stacks(sheets: int) -> int:
    """Return how many stacks of at most ten sheets a guillotine takes one after the other."""
    return math.ceil(sheets / STACK)


def minutes(cuts: int) -> int:
    """Return about how many minutes that many guillotine cuts take, at 20 seconds each, at least 1."""
    return max(1, math.ceil(cuts * SECONDS_A_CUT / 60)) if cuts else 0
