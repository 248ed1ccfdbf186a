"""Where the arrows lie that show which way the pen goes: along the line, or beside it where it is written twice."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cardgen.games.pieces import DISC, START_DOT, Arrow, Start
from cardgen.games.tracing_ways import SAME_LINE, Way

LENGTH, HEAD, HALF_HEAD = 84.0, 46.0, 23.0
EVERY = 230.0  # about one arrow in so many units of way
SHORTEST = 110.0  # a way shorter than this has no room for an arrow
BESIDE = 27.0  # how far to the right of its travel an arrow lies on a line that is written twice
OFF_DISCS, APART = 16.0, 38.0  # least white to a disc; least distance between two arrows' middle lines
WHITE, COMFORT, CLEAR = 24.0, 70.0, 60.0  # to discs, arrows and crossings: more than this is no better
REACH, REACH_BESIDE = 110.0, 400.0  # how far from its wanted place an arrow may lie


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place where an arrow could lie: how far along its way (units), its points, and what is near."""

    at: float
    beside: bool
    points: tuple[complex, ...]
    disc: float
    crossing: float


Round = tuple[complex, float]  # a disc: its middle and radius


def plan_arrows(ways: Sequence[Way], starts: Sequence[Start]) -> tuple[Arrow, ...]:
    """Return the arrows of all ways: the first right behind the start, then about one in 230 units, none touching."""
    discs = [disc for start in starts for disc in _discs(start)]
    taken: list[tuple[complex, ...]] = []
    for way in ways:
        if way.length < SHORTEST:
            continue
        spots = list(_spots(way, ways, discs))
        start = starts[way.stroke]
        behind = (START_DOT if start.beside else DISC) + LENGTH / 2 + 26
        for at, beside in _wanted(way, spots, behind):
            best = _best(spots, at, beside, taken)
            if best:
                taken.append(best.points)
    return tuple(map(_arrow, taken))


def _discs(start: Start) -> Iterator[Round]:
    """Yield what an arrow must keep clear of at a start: the disc, or the dot with its leader and the disc beside."""
    place, disc = complex(*start.place), complex(*start.disc)
    yield disc, DISC
    if start.beside:
        yield place, START_DOT
        for third in (1, 2):
            yield place + (disc - place) * third / 3, 2.0


def _spots(way: Way, ways: Sequence[Way], discs: Sequence[Round]) -> Iterator[_Spot]:
    """Yield every place along a way where an arrow could lie, clear of the discs."""
    twice, crossing = _neighbours(way, ways)
    half = round(LENGTH / 2 / way.step)
    for middle in range(half + 1, len(way.points) - half - 1):
        window = range(middle - half, middle + half + 1)
        beside = any(twice[i] for i in window)
        points = tuple(way.points[i] - (1j * BESIDE * way.heading(i) if beside else 0) for i in window)
        disc = min((abs(p - centre) - radius for centre, radius in discs for p in points[::2]), default=WHITE)
        if disc >= OFF_DISCS:
            clear = CLEAR if beside else min(crossing[i] for i in window)
            yield _Spot(middle * way.step, beside, points, disc, clear)


def _neighbours(way: Way, ways: Sequence[Way]) -> tuple[list[bool], list[float]]:
    """Return for every point whether another way runs back over it, and how far the nearest other way is (to 60)."""
    twice, nearest = [False] * len(way.points), [CLEAR] * len(way.points)
    for other in ways:
        if other is way or not way.is_near(other, CLEAR):
            continue
        for i, point in enumerate(way.points):
            index, gap = min(((j, abs(point - p)) for j, p in enumerate(other.points)), key=lambda found: found[1])
            nearest[i] = min(nearest[i], gap)
            if gap < SAME_LINE and (way.heading(i) * other.heading(index).conjugate()).real < -0.9:
                twice[i] = True
    return twice, nearest


def _wanted(way: Way, spots: Sequence[_Spot], behind: float) -> Iterator[tuple[float, bool]]:
    """Yield where arrows are wanted, in units along the way, and whether beside the line."""
    if all(spot.beside for spot in spots):
        yield way.length / 2, True
        return
    count = max(1, round(way.length / EVERY))
    for number in range(count):
        at = way.length * (number + 0.5) / count
        yield (min(at, behind) if way.first and number == 0 else at), False
    for first, last in _stretches(way, spots):
        if last - first > 120:
            yield (first + last) / 2, True


def _stretches(way: Way, spots: Sequence[_Spot]) -> Iterator[tuple[float, float]]:
    """Yield the first and last place of every stretch that is written twice."""
    begin = end = None
    for spot in spots:
        if not spot.beside:
            continue
        if begin is not None and end is not None and spot.at - end > 2 * way.step:
            yield begin, end
            begin = None
        begin, end = (spot.at if begin is None else begin), spot.at
    if begin is not None and end is not None:
        yield begin, end


def _best(spots: Sequence[_Spot], at: float, beside: bool, taken: Sequence[tuple[complex, ...]]) -> _Spot | None:
    """Return the best place near a wanted one that touches no arrow, or None."""
    best, most = None, 0.0
    # Beside a line two arrows may lie next to each other, there and back.
    comfort = 2 * BESIDE if beside else COMFORT
    for spot in spots:
        if spot.beside is not beside or abs(spot.at - at) > (REACH_BESIDE if beside else REACH):
            continue
        apart = _apart(spot.points, taken)
        if apart < APART:
            continue
        worth = 2 * min(spot.disc, WHITE) + min(apart, comfort) + 0.7 * spot.crossing - 0.2 * abs(spot.at - at)
        if best is None or worth > most:
            best, most = spot, worth
    return best


def _apart(points: tuple[complex, ...], taken: Sequence[tuple[complex, ...]]) -> float:
    """Return how near an arrow comes to those that lie already, in units; 70 or more is all the same."""
    middle = points[len(points) // 2]
    near = [other for other in taken if abs(other[len(other) // 2] - middle) < LENGTH + COMFORT]
    return min((abs(p - q) for other in near for p in points[::2] for q in other[::2]), default=COMFORT)


def _arrow(points: tuple[complex, ...]) -> Arrow:
    """Return the arrow that follows the points: its head turned as the line runs there."""
    tip, neck = points[-1], points[-1 - round(0.8 * HEAD / abs(points[-1] - points[-2]))]
    ahead = (tip - neck) / abs(tip - neck)
    back = tip - HEAD * ahead
    shaft = [point for point in points if abs(point - tip) > 0.7 * HEAD]
    head = (_xy(tip), _xy(back + HALF_HEAD * 1j * ahead), _xy(back - HALF_HEAD * 1j * ahead))
    return Arrow(tuple(map(_xy, shaft)), head)


def _xy(point: complex) -> tuple[float, float]:
    return point.real, point.imag
