"""The curved cut through a card of two halves. All in mm.

The card's height is divided into zones, one for each digit of its word and one more above and below. In the middle of
each digit's zone the cut is out to the right (+1), to the left (-1) or neither (0); between them it is one smooth line,
upright wherever it turns. It begins and ends straight, in the middle of the card's edge, so that all halves are alike
at the corners.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from cardgen.sheets.marks import Path
from cardgen.units import Box, mm_of_points

PAIR = Box(0.0, 0.0, 88.0, 63.0)  # two halves of 44 × 63
REACH = 4.5  # how far a digit takes the cut aside, on a card as wide as PAIR
STRAIGHT = 0.6  # of a zone, at both ends
DASH = (mm_of_points(2.0), mm_of_points(2.6))  # short, for the bends are tight

Point = tuple[float, float]


def wave(word: Sequence[int], card: Box = PAIR) -> Path:
    """Return the cut that a word of digits stands for, from the middle of the card's top edge to that of its bottom.

    `word` holds -1, 0 or +1, one digit for each swing; `card` is the trim of the whole pair where it lies on its sheet.
    On a card of another size than `PAIR` the cut is stretched with it, sideways and upwards.
    """
    zone = card.h / (len(word) + 2)
    reach = REACH * card.w / PAIR.w
    swings = [(card.cx + reach * digit, card.y + zone * (place + 1.5)) for place, digit in enumerate(word)]
    first, last = (card.cx, card.y + zone * STRAIGHT), (card.cx, card.bottom - zone * STRAIGHT)
    curves = (_bend(start, end) for start, end in pairwise([first, *swings, last]))
    return (("M", card.cx, card.y), ("L", *first), *curves, ("L", card.cx, card.bottom))


def _bend(start: Point, end: Point) -> tuple[str, *tuple[float, ...]]:
    """Return the curve between two swings, upright at both ends: its handles are half as long as the step."""
    handle = (end[1] - start[1]) / 2
    return ("C", start[0], start[1] + handle, end[0], end[1] - handle, *end)


def polyline(path: Path, step: float) -> tuple[Point, ...]:
    """Return points on a path of M, L and C, from its start to its end and never more than `step` mm apart.

    ValueError for a path that is closed, has several parts, or starts with anything but M.
    """
    (command, *start), *rest = path
    if command != "M" or any(part[0] not in "LC" for part in rest):
        raise ValueError("only an open path of one part can be followed from end to end")
    points = [(start[0], start[1])]
    for _, *numbers in rest:
        corners = [points[-1], *zip(numbers[::2], numbers[1::2], strict=True)]
        points += _along(corners, step)
    return tuple(points)


def _along(corners: Sequence[Point], step: float) -> Iterator[Point]:
    """Yield points on a Bézier curve behind its first corner; its speed is at most its longest leg times the degree."""
    degree = len(corners) - 1
    fastest = degree * max(math.dist(a, b) for a, b in pairwise(corners))
    count = max(1, math.ceil(fastest / step))
    for i in range(1, count + 1):
        yield _at(corners, i / count)


def _at(corners: Sequence[Point], t: float) -> Point:
    """Return the point at `t`, 0 to 1, by de Casteljau's construction."""
    while len(corners) > 1:
        corners = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for a, b in pairwise(corners)]
    return corners[0]
