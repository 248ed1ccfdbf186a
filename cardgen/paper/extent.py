"""How far marks reach: a figure tells the reader program where on the page it stands."""

from collections.abc import Iterable

from cardgen.sheets.marks import Align, Code, Label, Line, Mark, Outline, Panel, Picture
from cardgen.units import Box, Widths, mm_of_points

_ASCENT, _DESCENT = 0.93, 0.24  # how far Vera reaches above and below its baseline, in em


def start_of(label: Label, widths: Widths) -> float:
    """Return how far before its `x` a label begins, in mm along its line."""
    if label.align is Align.LEFT:
        return 0.0
    length = widths.mm(label.text, label.size_pt, label.face)
    return length / 2 if label.align is Align.CENTRE else length


def extent(marks: Iterable[Mark], widths: Widths) -> Box:
    """Return the box in mm that holds all marks (curves by their handles); ValueError if there are none."""
    corners = [corner for mark in marks for corner in _corners(mark, widths)]
    if not corners:
        raise ValueError("a figure without marks has no extent")
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def _corners(mark: Mark, widths: Widths) -> list[tuple[float, float]]:
    match mark:
        case Picture(box=box) | Code(box=box) | Panel(box=box):
            return [(box.x, box.y), (box.right, box.bottom)]
        case Line():
            return [(mark.x1, mark.y1), (mark.x2, mark.y2)]
        case Outline():
            numbers = [number for _, *places in mark.path for number in places]
            return list(zip(numbers[::2], numbers[1::2], strict=True))
        case Label():
            return _label_corners(mark, widths)


def _label_corners(label: Label, widths: Widths) -> list[tuple[float, float]]:
    em = mm_of_points(label.size_pt)
    begin = -start_of(label, widths)
    end = begin + widths.mm(label.text, label.size_pt, label.face)
    if label.turn == 90:  # upwards: the line runs towards smaller y, its top is on the left
        return [(label.x - _ASCENT * em, label.y - end), (label.x + _DESCENT * em, label.y - begin)]
    return [(label.x + begin, label.y - _ASCENT * em), (label.x + end, label.y + _DESCENT * em)]
