"""Letters to trace, looked through one by one: nothing collides, nothing leaves the guides, no stroke lacks its arrow.

Stroke order and direction are common practice, without a source.
"""

import math
from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise

import pytest

from cardgen.games.pieces import BIG_ROAD_PEN, DISC, ROAD_PEN, Arrow, RoadLetters, Stroke
from cardgen.games.tracing import Hand, dotted, road
from cardgen.paper.fonts import Fonts
from cardgen.recipes.library import LEARNING_FONT
from cardgen.sources import shelf
from cardgen.sources.letterforms import letterforms

LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
TOGETHER = ["sh", "Sh", "th", "Wh", "qu", "Qu", "Ng", "air", "Ear"]
TOP, BOTTOM = 760.0, -260.0
BIG_K, MOST_DISC_MM = 0.088, 3.75
Point = tuple[float, float]
both_hands = pytest.mark.parametrize("lift", [False, True], ids=["on", "lift"])
every_letter = pytest.mark.parametrize("letter", [*LETTERS, *TOGETHER])


@cache
def hand(lift: bool = False) -> Hand:
    return Hand(letterforms(lift=lift).strokes, Fonts(shelf.read_bytes(LEARNING_FONT)).widths)


@cache
def points(stroke: Stroke, steps: int = 12) -> list[Point]:
    """Points along a stroke by de Casteljau's construction, not by the formula of the program."""
    found: list[Point] = []
    at = (0.0, 0.0)
    for command, *numbers in stroke:
        corners = [at, *zip(numbers[::2], numbers[1::2], strict=True)]
        if command in "MD":
            corners = corners[1:]
        for step in range(1, steps + 1):
            t, row = step / steps, corners
            while len(row) > 1:
                row = [(a + (c - a) * t, b + (d - b) * t) for (a, b), (c, d) in pairwise(row)]
            found.append(row[0])
        at = found[-1]
    return found


def segment_distance(p: Point, a: Point, b: Point) -> float:
    """How far a point lies from a straight line between two others."""
    (px, py), (ax, ay), (bx, by) = p, a, b
    length = math.dist(a, b)
    t = 0.0 if length == 0 else max(0.0, min(1.0, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / length**2))
    return math.dist(p, (ax + (bx - ax) * t, ay + (by - ay) * t))


def edge(arrow: Arrow) -> list[Point]:
    """Points of an arrow's outline: both sides of its shaft (13 units wide), and the sides of its head."""
    found: list[Point] = []
    for (x1, y1), (x2, y2) in pairwise(arrow.shaft):
        length = math.dist((x1, y1), (x2, y2))
        nx, ny = 6.5 * (y2 - y1) / length, -6.5 * (x2 - x1) / length
        found += [(x2 + nx, y2 + ny), (x2 - nx, y2 - ny)]
    for (x1, y1), (x2, y2) in pairwise((*arrow.head, arrow.head[0])):
        found += [(x1 + (x2 - x1) * t / 6, y1 + (y2 - y1) * t / 6) for t in range(6)]
    return found


def inside(p: Point, head: tuple[Point, ...]) -> bool:
    turns = [(bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax) for (ax, ay), (bx, by) in pairwise((*head, head[0]))]
    return all(turn >= 0 for turn in turns) or all(turn <= 0 for turn in turns)


def middle(arrow: Arrow) -> Point:
    return arrow.shaft[len(arrow.shaft) // 2]


def gap(letters: RoadLetters, p: Point) -> float:
    """How far a point lies from the nearest pen line."""
    return min(
        segment_distance(p, a, b) for stroke in letters.strokes for a, b in pairwise(points(stroke)) if stroke[1:]
    )


@both_hands
@every_letter
def test_no_number_touches_another(letter: str, lift: bool) -> None:
    for one, other in combinations(road(letter, hand(lift)).starts, 2):
        assert math.dist(one.disc, other.disc) >= 2 * DISC + 8


@both_hands
@every_letter
def test_a_number_beside_its_start_is_off_the_road_and_its_leader_meets_nothing(letter: str, lift: bool) -> None:
    letters = road(letter, hand(lift))
    for start in letters.starts:
        if not start.beside:
            continue
        assert gap(letters, start.disc) >= ROAD_PEN / 2 + DISC + 8
        # On the big form the road is wider, and the discs end at 3.75 mm.
        assert gap(letters, start.disc) > BIG_ROAD_PEN / 2 + MOST_DISC_MM / BIG_K
        for other in letters.starts:
            if other is not start:
                assert segment_distance(other.disc, start.place, start.disc) > DISC + 4


@both_hands
@every_letter
def test_no_arrow_touches_another_or_a_number(letter: str, lift: bool) -> None:
    letters = road(letter, hand(lift))
    outlines = [edge(arrow) for arrow in letters.arrows]
    for i, j in combinations(range(len(outlines)), 2):
        if math.dist(middle(letters.arrows[i]), middle(letters.arrows[j])) > 130:
            continue
        assert min(math.dist(p, q) for p in outlines[i] for q in outlines[j]) > 2, (letter, i, j)
        assert not any(inside(p, letters.arrows[i].head) for p in outlines[j])
    for start in letters.starts:
        assert all(math.dist(p, start.disc) > DISC + 1 for outline in outlines for p in outline)


@both_hands
@every_letter
def test_arrows_lie_on_the_road_and_nothing_leaves_the_guides(letter: str, lift: bool) -> None:
    letters = road(letter, hand(lift))
    for stroke in letters.strokes:
        assert all(BOTTOM - 0.5 <= y <= TOP + 0.5 for _, y in points(stroke))
    for arrow in letters.arrows:
        assert all(gap(letters, p) <= ROAD_PEN / 2 for p in (*arrow.head, *arrow.shaft))
    assert all(BOTTOM - 0.5 <= y <= TOP + 0.5 for _, y in letters.dots)
    for start in letters.starts:
        high = TOP + 150 if start.beside else TOP
        assert BOTTOM <= start.disc[1] <= high + 0.5


def runs(letters: RoadLetters) -> Iterator[list[Point]]:
    """The pieces of all strokes between sharp turns, found anew."""
    for stroke in letters.strokes:
        line = points(stroke)
        piece = line[:1]
        for before, at, after in zip(line, line[1:], line[2:], strict=False):
            piece.append(at)
            turn = math.atan2(after[1] - at[1], after[0] - at[0]) - math.atan2(at[1] - before[1], at[0] - before[0])
            if abs(math.remainder(turn, 2 * math.pi)) > math.radians(25):
                yield piece
                piece = [at]
        yield [*piece, line[-1]]


@both_hands
@every_letter
def test_every_run_of_the_pen_has_an_arrow_that_goes_its_way(letter: str, lift: bool) -> None:
    letters = road(letter, hand(lift))
    for run in runs(letters):
        if sum(math.dist(a, b) for a, b in pairwise(run)) < 115:
            continue
        assert any(_goes_along(arrow, run) for arrow in letters.arrows), (letter, run[0], run[-1])


def _goes_along(arrow: Arrow, run: list[Point]) -> bool:
    a, b = min(pairwise(run), key=lambda pair: segment_distance(middle(arrow), *pair))
    (x, y), (tx, ty) = arrow.shaft[0], arrow.head[0]
    ahead = (tx - x) * (b[0] - a[0]) + (ty - y) * (b[1] - a[1])
    return segment_distance(middle(arrow), a, b) < 32 and ahead > 0.75 * math.dist((x, y), (tx, ty)) * math.dist(a, b)


@both_hands
@pytest.mark.parametrize("letter", LETTERS)
def test_dots_cover_the_pen_line_and_none_lies_on_another(letter: str, lift: bool) -> None:
    for gap_units in (34.0, 68.0):
        dots = dotted(letter, hand(lift), gap_units).dots
        shift = dots[0][0] - points(hand(lift).strokes[letter][0])[0][0]
        assert min(math.dist(p, q) for p, q in combinations(dots, 2)) > 0.6 * gap_units
        for stroke in hand(lift).strokes[letter]:
            for x, y in points(stroke):
                assert min(math.dist((x + shift, y), dot) for dot in dots) < 1.1 * gap_units


# From here on: common practice, no source.


@both_hands
@pytest.mark.parametrize("letter", LETTERS)
def test_writing_starts_at_the_top_and_left_comes_first(letter: str, lift: bool) -> None:
    strokes = hand(lift).strokes[letter]
    pens = [points(stroke) for stroke in strokes]
    ys = [y for pen in pens for _, y in pen]
    if strokes[-1][0][0] == "D":
        ys = [y for pen in pens[:-1] for _, y in pen]  # the dot of i and j comes last
    top, high = max(ys), max(ys) - min(ys)
    begun = pens[0][0][1]
    if letter == "e":  # the one letter that starts in its middle, with the bar
        assert begun == pytest.approx(250, abs=20)
    elif letter in "adgq9":  # round letters start on the right, where the bowl meets the stem
        assert begun > 250
    else:
        assert begun >= top - 0.25 * high, letter
    for (_, *start), (command, *end) in (stroke[:2] for stroke in strokes if len(stroke) > 1):
        if command == "L":
            assert start[1] != end[1] or end[0] > start[0], "a bar is drawn from left to right"
            assert start[0] != end[0] or end[1] < start[1], "a stem is drawn downwards"
    stems = [pen[0][0] for pen in pens if pen[0][0] == pen[-1][0] and len(pen) > 1]
    assert stems == sorted(stems), "the left stem comes first"


def test_the_round_letters_turn_against_the_clock_and_the_others_with_it() -> None:
    def turning(letter: str) -> float:
        line = points(hand().strokes[letter][0][:9])
        return sum(a * d - b * c for (a, b), (c, d) in pairwise([(x - 230, y - 250) for x, y in line]))

    assert all(turning(letter) > 0 for letter in "acdgoqCGOQ")


def test_numbers_start_again_in_every_letter() -> None:
    assert [start.number for start in road("th", hand()).starts] == [1, 2, 1]
    assert [start.number for start in road("th", hand(lift=True)).starts] == [1, 2, 1, 2]


def test_the_first_of_two_numbers_stands_to_the_left() -> None:
    for letter in "AMN":
        first, second, *_ = road(letter, hand()).starts
        assert first.beside
        assert second.beside
        assert first.disc[0] < first.place[0] < second.disc[0]


def test_only_starts_that_collide_have_their_number_beside() -> None:
    # Two starts nearer than 116 units, and I, whose first number would hide the way of its second stroke.
    beside = {letter for letter in LETTERS if any(start.beside for start in road(letter, hand()).starts)}
    assert beside == set("ABDEFIMNPR4") | {"5"}


def test_words_in_dots_are_spaced_as_the_typeface_has_them() -> None:
    for word in ("mouse", "jug", "sh", "Qu"):
        letters = dotted(word, hand(), 20.0)
        xs = [x for x, _ in letters.dots]
        assert min(xs) == pytest.approx(letters.left, abs=12)
        assert max(xs) == pytest.approx(letters.right, abs=12)


def test_letters_without_strokes_are_named() -> None:
    assert hand().missing("maßß♥m") == "ß♥"
