"""Only the right halves fit: how far any two cuts gape is measured on the curves themselves, sampled on paper."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise, product

import numpy as np
import pytest
from numpy.typing import NDArray

from cardgen.games.halves import letter_words, other_words
from cardgen.sheets.marks import Path
from cardgen.sheets.wave import PAIR, polyline, wave
from cardgen.units import Box

Curve = NDArray[np.float64]

STEP = 0.05
HEIGHTS = np.arange(0.0, PAIR.h + STEP / 2, STEP)
LETTERS, OTHERS = letter_words(), other_words()


def curve(word: Sequence[int]) -> Curve:
    """How far right of the card's middle the cut runs, every 0.05 mm from top to bottom."""
    x, y = np.array(polyline(wave(word), STEP)).T
    assert np.all(np.diff(y) > 0)  # no cut ever runs back up, so there is one place at each height
    return np.asarray(np.interp(HEIGHTS, y, x - PAIR.cx))


def upside_down(one: Curve) -> Curve:
    """The same cut on a card turned by 180°."""
    return -one[::-1]


def misfit(one: Curve, other: Curve) -> float:
    """The widest gap in mm when two halves are pushed together until they touch.

    Pushing sideways adds the same to the gap at every height, so what is left is the gap's range; push on, and what the
    gap loses comes back as overlap.
    """
    gap = one - other
    return float(gap.max() - gap.min())


def least_misfits(words: Iterable[Sequence[int]], others: Iterable[Sequence[int]]) -> tuple[float, float]:
    """Between all words and all others (a word and itself left out), and between all words and all others turned."""
    ones, twos = [(word, curve(word)) for word in words], [(word, curve(word)) for word in others]
    straight = min(misfit(a, b) for (u, a), (v, b) in product(ones, twos) if u != v)
    return straight, min(misfit(a, upside_down(b)) for (_, a), (_, b) in product(ones, twos))


@pytest.mark.parametrize(
    ("words", "others"), [(LETTERS, LETTERS), (OTHERS, OTHERS), (LETTERS, OTHERS)], ids=["letters", "others", "mixed"]
)
def test_wrong_halves_and_turned_halves_gape_by_4_mm(
    words: tuple[tuple[int, ...], ...], others: tuple[tuple[int, ...], ...]
) -> None:
    straight, turned = least_misfits(words, others)
    assert straight >= 4.0
    assert turned >= 4.0


def test_words_without_the_check_digit_would_not_do() -> None:
    sum_0 = [word for word in product((0, 1, -1), repeat=4) if sum(word) % 3 == 0 and any(word)]
    straight, turned = least_misfits(sum_0, sum_0)
    assert straight >= 4.0
    assert turned == pytest.approx(0.0, abs=0.01)  # (0, 0, +1, -1) turned is (+1, -1, 0, 0)


def test_the_longer_words_that_are_left_out_come_near_a_letter() -> None:
    gentle = [
        w for w in product((0, 1, -1), repeat=5) if sum(w) % 3 == 1 and all(abs(a - b) < 2 for a, b in pairwise(w))
    ]
    left_out = [word for word in gentle if word not in OTHERS]
    assert len(left_out) == 6
    for word in left_out:
        assert min(least_misfits([word], LETTERS)) < 4.0


def radii(path: Path) -> Iterable[float]:
    """The radius of curvature in mm along every curve of a path: |r'|³ / |r' × r''|."""
    t = np.linspace(0, 1, 201)[:, None]
    place = np.array(path[0][1:])
    for command, *numbers in path[1:]:
        corners = np.vstack([place, np.array(numbers).reshape(-1, 2)])
        place = corners[-1]
        if command != "C":
            continue
        first = np.diff(corners, axis=0) * 3
        second = np.diff(first, axis=0) * 2
        velocity = (1 - t) ** 2 * first[0] + 2 * t * (1 - t) * first[1] + t**2 * first[2]
        turning = (1 - t) * second[0] + t * second[1]
        cross = np.abs(velocity[:, 0] * turning[:, 1] - velocity[:, 1] * turning[:, 0])
        speed = np.hypot(velocity[:, 0], velocity[:, 1])
        yield float(np.min(speed**3 / np.maximum(cross, 1e-12)))


def test_no_bend_is_too_tight_for_scissors() -> None:
    tightest = min(radius for word in (*LETTERS, *OTHERS) for radius in radii(wave(word)))
    assert tightest >= 3.5


def test_the_radius_is_measured_right() -> None:
    k = 4 / 3 * math.tan(math.pi / 8)  # a quarter of a circle, to within 0.03 %
    (radius,) = radii((("M", 10, 0), ("C", 10, 10 * k, 10 * k, 10, 0, 10)))
    assert radius == pytest.approx(10, rel=0.01)


@pytest.mark.parametrize("card", [PAIR, Box(12.5, 30.0, 88.0, 63.0), Box(7.0, 9.0, 120.0, 90.0)])
def test_the_cut_goes_where_its_digits_say(card: Box) -> None:
    path = wave((1, 0, -1, 1), card)
    zone, reach = card.h / 6, 4.5 * card.w / 88
    assert [command for command, *_ in path] == ["M", "L", *"CCCCC", "L"]
    numbers = [list(places) for _, *places in path]
    assert numbers[0] == [card.cx, card.y]
    assert numbers[1] == pytest.approx([card.cx, card.y + 0.6 * zone])
    assert numbers[-1] == [card.cx, card.bottom]
    swings = [places[-2:] for places in numbers[2:-2]]
    wanted = [(card.cx + reach * digit, card.y + zone * (i + 1.5)) for i, digit in enumerate((1, 0, -1, 1))]
    assert np.allclose(swings, wanted, atol=1e-9)
    assert numbers[-2][-2:] == pytest.approx([card.cx, card.bottom - 0.6 * zone])
    for before, (x1, _, x2, _, x, _) in pairwise(numbers[1:-1]):
        assert [before[-2], x] == [x1, x2]  # upright at every swing


def test_a_polyline_steps_no_further_than_asked_and_stays_on_the_curve() -> None:
    path = wave((1, -1, 1, -1))
    coarse, fine = polyline(path, 0.5), polyline(path, 0.01)
    for points, step in ((coarse, 0.5), (fine, 0.01)):
        assert points[0] == (44.0, 0.0)
        assert points[-1] == (44.0, 63.0)
        assert max(math.dist(a, b) for a, b in pairwise(points)) <= step + 1e-9
    distances = np.hypot(*(np.array(coarse)[:, None, :] - np.array(fine)[None, :, :]).transpose(2, 0, 1))
    assert distances.min(axis=1).max() <= 0.01


def test_a_polyline_follows_one_open_path_only() -> None:
    for path in ((("M", 0, 0), ("L", 1, 1), ("Z",)), (("L", 0, 0),), (("M", 0, 0), ("M", 1, 1))):
        with pytest.raises(ValueError, match="one part"):
            polyline(path, 0.1)
