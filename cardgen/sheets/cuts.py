"""Where the cuts go: marks at the sheet's edge for a guillotine, or thin lines to follow with scissors. All in mm."""

import math

from cardgen.games.pieces import Cut
from cardgen.sheets.block import CardBlock
from cardgen.sheets.marks import Line, Outline, Path
from cardgen.sheets.style import CUT_MARK_PT, EDGE, INK, Style

OFFSET, LENGTH, LEAST_LENGTH = 3.0, 5.0, 2.0
SHORT_OFFSET, SHORT_EDGE, LAST_EDGE = 1.0, 4.0, 2.0
SCISSORS_GAP = 2.5
ON_EDGE = 0.01
QUARTER = 0.5522847498  # control length of a cubic quarter circle
SECONDS_A_CUT, STACK = 20, 10  # a rule of thumb: common practice, no source


def cut_lines(block: CardBlock, cut: Cut, style: Style) -> tuple[Line, ...]:
    """Return the marks or lines that part all cards of a block."""
    if cut is Cut.SCISSORS:
        return scissors_lines(block, style)
    return guillotine_marks(block)


def scissors_lines(block: CardBlock, style: Style) -> tuple[Line, ...]:
    """Return thin lines along every side of every card, stopping short of the corners, so that no two cross."""
    near, weight, colour = SCISSORS_GAP, style.scissors_pt, style.scissors
    sides: dict[tuple[float, float, float, float], Line] = {}
    for slot in range(block.places):
        box = block.box(slot)
        left, right = max(box.x + near, EDGE), min(box.right - near, block.sheet.w - EDGE)
        top, bottom = max(box.y + near, EDGE), min(box.bottom - near, block.sheet.h - EDGE)
        level = [(left, y, right, y) for y in (box.y, box.bottom)]
        upright = [(x, top, x, bottom) for x in (box.x, box.right)]
        for x1, y1, x2, y2 in (*level, *upright):
            # Cards without a gap share their sides; where the sheet ends there is nothing to cut.
            at_edge = min(x1, y1) < ON_EDGE or x2 > block.sheet.w - ON_EDGE or y2 > block.sheet.h - ON_EDGE
            key = (round(x1, 3), round(y1, 3), round(x2, 3), round(y2, 3))
            if not at_edge and key not in sides:
                sides[key] = Line(x1, y1, x2, y2, weight, colour)
    return tuple(sides.values())


def round_corners(block: CardBlock, style: Style) -> tuple[Outline, ...]:
    """Return the quarter circles between the scissors lines of cards that are to be rounded."""
    r, k = SCISSORS_GAP, SCISSORS_GAP * (1 - QUARTER)
    corners = []
    for box in map(block.box, range(block.places)):
        for x, y, dx, dy in (
            (box.x, box.y, 1, 1),
            (box.right, box.y, -1, 1),
            (box.right, box.bottom, -1, -1),
            (box.x, box.bottom, 1, -1),
        ):
            path: Path = (
                ("M", x, y + dy * r),
                ("C", x, y + dy * k, x + dx * k, y, x + dx * r, y),
            )
            corners.append(Outline(path, None, style.scissors, style.scissors_pt))
    return tuple(corners)


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


def guillotine_marks(block: CardBlock) -> tuple[Line, ...]:
    """Return a mark at both ends of every cut, outside all cards; on cards that fill the sheet, at its edge."""
    marks: list[Line] = []
    sheet = block.sheet
    level, upright = _span(block.y), _span(block.x)
    for x in block.xs:
        marks.append(Line(x, level[0], x, level[1], CUT_MARK_PT, INK))
        marks.append(Line(x, sheet.h - level[1], x, sheet.h - level[0], CUT_MARK_PT, INK))
    for y in block.ys:
        marks.append(Line(upright[0], y, upright[1], y, CUT_MARK_PT, INK))
        marks.append(Line(sheet.w - upright[1], y, sheet.w - upright[0], y, CUT_MARK_PT, INK))
    return tuple(marks)


def _span(margin: float) -> tuple[float, float]:
    return mark_span(margin) if margin > ON_EDGE else (EDGE, EDGE + LENGTH)


def may_be_lost(block: CardBlock) -> bool:
    """Return whether some marks lie so near to the sheet's edge that a printer may leave them out."""
    return any(margin > ON_EDGE and mark_span(margin)[0] < SHORT_EDGE for margin in (block.x, block.y))


def stacks(sheets: int) -> int:
    """Return how many stacks of at most ten sheets a guillotine takes one after the other."""
    return math.ceil(sheets / STACK)


def minutes(cuts: int) -> int:
    """Return about how many minutes that many guillotine cuts take, at 20 seconds each, at least 1."""
    return max(1, math.ceil(cuts * SECONDS_A_CUT / 60)) if cuts else 0
