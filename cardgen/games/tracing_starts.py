"""Where the strokes' numbers stand: on the start, or beside it with a leader where two starts are too close."""

import cmath
import math
from collections.abc import Sequence

from cardgen.games.pieces import DISC, START_DOT, Start, Stroke
from cardgen.games.tracing_ways import Way, is_dot, start_of

TOO_CLOSE = 2 * DISC + 16  # two starts nearer than this cannot both hold their disc
LEADERS = (132.0, 150.0)  # how far off a number may stand
OFF_THE_ROAD = 112.0  # from any stroke to the middle of a number beside it
BETWEEN_DISCS = 2 * DISC + 20
ASIDE = 0.6  # how much it counts that the first number stands to the left
SHORTEST_WAY, ROOM_FOR_ARROW = 110.0, 108.0  # a shorter way has no arrow; what an arrow and its white take
HIGHEST = 860.0  # numbers stand above this only where there is no other place


def plan_starts(strokes: Sequence[Stroke], numbers: Sequence[int], ways: Sequence[Way]) -> tuple[Start, ...]:
    """Return the start of every stroke with its number; a disc touches no other disc.

    `numbers` are the strokes' numbers as printed: in `sh` every letter counts from 1.
    """
    places = [start_of(stroke) for stroke in strokes]
    headings = [_heading(index, stroke, ways) for index, stroke in enumerate(strokes)]
    clashing = [
        any(abs(place - other) < TOO_CLOSE for j, other in enumerate(places) if j != i) or _fills(place, i, ways)
        for i, place in enumerate(places)
    ]
    discs = {i: place for i, place in enumerate(places) if not clashing[i]}
    for i, place in enumerate(places):
        if clashing[i]:
            # Of two numbers beside one start, the first stands to the left: so they are read.
            side = -1 if numbers[i] == 1 else 1
            taken = list(discs.values())
            others = [other for j, other in enumerate(places) if j != i and other != place]
            discs[i] = _beside(place, headings[i], side, taken, others, ways)
    return tuple(Start(n, _xy(places[i]), _xy(discs[i])) for i, n in enumerate(numbers))


def _xy(point: complex) -> tuple[float, float]:
    return point.real, point.imag


def _fills(place: complex, stroke: int, ways: Sequence[Way]) -> bool:
    """Return whether a disc on a start would lie on another stroke and leave no room for an arrow there (I)."""
    for way in ways:
        index = min(range(len(way.points)), key=lambda i: abs(way.points[i] - place))
        if way.stroke != stroke and abs(way.points[index] - place) < DISC:
            sides = (index * way.step, way.length - index * way.step)
            if way.length > SHORTEST_WAY and max(sides) < DISC + ROOM_FOR_ARROW:
                return True
    return False


def _heading(index: int, stroke: Stroke, ways: Sequence[Way]) -> complex:
    """Return the direction in which a stroke sets out; straight up for a dot, whose number then stands below."""
    if is_dot(stroke):
        return 1j
    way = next(way for way in ways if way.stroke == index)
    return way.heading(min(4, len(way.points) - 1))


def _beside(
    place: complex,
    heading: complex,
    side: int,
    taken: Sequence[complex],
    others: Sequence[complex],
    ways: Sequence[Way],
) -> complex:
    """Return the best place beside a start: behind the stroke, on the wanted side, clear of roads, discs and starts."""
    near = [point for way in ways for point in way.points if abs(point - place) < LEADERS[-1] + OFF_THE_ROAD]
    best, most = place, -math.inf
    for degrees in range(0, 360, 10):
        out = cmath.rect(1, math.radians(degrees))
        behind = -(out * heading.conjugate()).real
        for leader in LEADERS:
            disc = place + leader * out
            high = 0.5 if disc.imag > HIGHEST else 0.0
            worth = behind + ASIDE * side * out.real - high - 0.02 * (leader - LEADERS[0])
            if worth <= most or any(abs(disc - other) < BETWEEN_DISCS for other in taken):
                continue
            if any(abs(disc - other) < DISC + START_DOT + 10 for other in others):
                continue
            if all(abs(disc - point) >= OFF_THE_ROAD for point in near):
                best, most = disc, worth
    return best
