"""The chances of bingo, against published tables and against closed forms worked out on paper."""

from fractions import Fraction
from itertools import combinations
from math import comb
from random import Random

import pytest

from cardgen.games.length import full_board, length, mean_calls, one_board_cdf, spread
from tests.games.class_sets import FREE_3X3, FREE_5X5, lines_of, mask

CLASSIC_POOL = 75


def board(rows: int, columns: int, free: int | None = None) -> list[int]:
    return [mask(line) for line in lines_of(rows, columns, free)]


CLASSIC = one_board_cdf(board(5, 5, FREE_5X5), CLASSIC_POOL)


# E[T] = ρ·(W + 1) for rows, columns and diagonals. Computed by us with inclusion and exclusion, and once more by
# counting all subsets of the cells; no published source.
@pytest.mark.parametrize(
    ("rows", "free", "rho"),
    [
        (2, None, Fraction(2, 5)),
        (3, None, Fraction(601, 1260)),
        (3, FREE_3X3, Fraction(27, 70)),
        (4, None, Fraction(2836, 5355)),
        (5, FREE_5X5, Fraction(4245967, 7800450)),
    ],
)
@pytest.mark.parametrize("pool", [25, 75])
def test_mean_length_of_one_board(rows: int, free: int | None, rho: Fraction, pool: int) -> None:
    assert mean_calls(board(rows, rows, free), pool) == rho * (pool + 1)


def test_two_by_two_on_paper() -> None:
    # Any two of the four cells are a line: E = 76·(6·2/3 − 8·3/4 + 3·4/5), by hand.
    assert mean_calls(board(2, 2), 75) == 76 * (6 * Fraction(2, 3) - 8 * Fraction(3, 4) + 3 * Fraction(4, 5))


def test_classic_bingo_mean() -> None:
    # Computed by us. The "42.4" found online counts one diagonal twice.
    assert mean_calls(board(5, 5, FREE_5X5), CLASSIC_POOL) == Fraction(8491934, 205275)
    assert round(float(Fraction(8491934, 205275)), 6) == 41.368574


def test_classic_bingo_in_four_calls() -> None:
    # By hand: four of the twelve lines have four items, 4 / C(75, 4).
    assert CLASSIC[4] == Fraction(4, comb(75, 4)) == Fraction(2, 607725)


# Source seen: a table published by a co-author of "A New Look at the Probabilities in Bingo", College Mathematics
# Journal 33(4), 2002; the paper itself was not seen.
@pytest.mark.parametrize(("calls", "chance"), [(5, 1363), (6, 3523), (7, 7277), (8, 13140), (9, 21673)])
def test_classic_bingo_on_just_this_call(calls: int, chance: int) -> None:
    assert round((CLASSIC[calls] - CLASSIC[calls - 1]) * 10**8) == chance


# Source seen: a second published table.
@pytest.mark.parametrize(("calls", "chance"), [(19, 17993), (25, 63961)])
def test_classic_bingo_by_this_call(calls: int, chance: int) -> None:
    assert round(CLASSIC[calls] * 10**6) == chance


# The largest of k numbers drawn from 1 to W has the mean k(W + 1)/(k + 1): a textbook result, from memory.
@pytest.mark.parametrize(("items", "pool"), [(9, 12), (16, 24), (24, 75)])
def test_full_board(items: int, pool: int) -> None:
    assert full_board(items, pool) == Fraction(items * (pool + 1), items + 1)
    assert spread(one_board_cdf([(1 << items) - 1], pool)).mean == full_board(items, pool)


def test_thirteen_full_boards_of_a_design_on_paper() -> None:
    # The complements of the lines of the projective plane of order 3, {0, 1, 3, 9} mod 13: combinatorial design theory,
    # every pair counted below. A board is full when all calls not made lie on its line.
    lines = [frozenset((i + shift) % 13 for i in (0, 1, 3, 9)) for shift in range(13)]
    pairs = [sum(pair <= line for line in lines) for pair in map(frozenset, combinations(range(13), 2))]
    assert set(pairs) == {1}
    goals = [[mask([item for item in range(13) if item not in line])] for line in lines]
    found = length(goals, 13, Random(1))
    # P(T ≤ n) = 13·C(4, 13 − n)/C(13, 13 − n) for two or more calls not made: two lines share but one item.
    not_yet = [1 - Fraction(13 * comb(4, left), comb(13, left)) for left in (4, 3, 2)]
    assert not_yet == [1 - Fraction(13, 715), 1 - Fraction(52, 286), 0]
    assert found.first.mean == 9 + not_yet[0] + not_yet[1]
    assert found.last.mean == 13
