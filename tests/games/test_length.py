import math
from fractions import Fraction
from itertools import permutations
from math import comb
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games import length as length_module
from cardgen.games.length import full_board, length, mean_calls, one_board_cdf, spread, union_counts
from cardgen.games.pieces import Spread
from cardgen.games.random_games import calls_needed
from tests.games.class_sets import boards_reached, full_goals, line_goals, subsets

POOL = 7
lines_of_seven = st.lists(st.integers(1, 127), min_size=1, max_size=5)


def shares(goals: list[list[int]], pool: int, everyone: bool) -> list[Fraction]:
    """P(T ≤ n), by trying every set of n called items."""
    wanted = len(goals) if everyone else 1
    return [
        Fraction(sum(boards_reached(goals, called) >= wanted for called in subsets(pool, n)), comb(pool, n))
        for n in range(pool + 1)
    ]


def deviation(cdf: list[Fraction]) -> float:
    mean = float(sum(1 - p for p in cdf))
    square = float(sum((2 * n + 1) * (1 - p) for n, p in enumerate(cdf)))
    return math.sqrt(square - mean**2)


@given(lines_of_seven)
def test_one_board_by_its_formula_and_by_trying_every_set(lines: list[int]) -> None:
    assert list(one_board_cdf(lines, POOL)) == shares([lines], POOL, everyone=False)


@given(lines_of_seven)
def test_the_mean_of_the_formula_is_the_mean_of_its_distribution(lines: list[int]) -> None:
    assert mean_calls(lines, POOL) == spread(one_board_cdf(lines, POOL)).mean


def test_two_lines_that_cross() -> None:
    assert union_counts([0b011, 0b110]) == {2: 2, 3: -1}


def test_equal_lines_count_once() -> None:
    assert union_counts([0b011, 0b011]) == {2: 1}


@pytest.mark.parametrize(("items", "pool"), [(9, 12), (16, 24), (24, 75)])
def test_a_full_board_alone(items: int, pool: int) -> None:
    board = (1 << items) - 1
    assert mean_calls([board], pool) == full_board(items, pool)
    assert spread(one_board_cdf([board], pool)).mean == full_board(items, pool)


def test_a_percentile_is_the_least_call_that_reaches_its_share() -> None:
    cdf = [Fraction(n, 10) for n in range(11)]
    assert spread(cdf) == Spread(Fraction(11, 2), 1, 5, 9)
    assert spread([*cdf[:1], *cdf[2:]]) == Spread(Fraction(46, 10), 1, 4, 8)


@settings(max_examples=40)
@given(st.lists(lines_of_seven, min_size=1, max_size=5))
def test_a_class_set_is_exact_on_a_small_pool(goals: list[list[int]]) -> None:
    found = length(goals, POOL, Random(1))
    assert found.first == spread(shares(goals, POOL, everyone=False))
    assert found.last == spread(shares(goals, POOL, everyone=True))


def test_all_orders_played_out_agree() -> None:
    goals, pool = line_goals(3, 2, 6, seed=4), 6
    firsts, lasts = [], []
    for order in permutations(range(pool)):
        reached = [boards_reached(goals, sum(1 << item for item in order[:n])) for n in range(pool + 1)]
        firsts.append(next(n for n, boards in enumerate(reached) if boards))
        lasts.append(next(n for n, boards in enumerate(reached) if boards == 3))
    found = length(goals, pool, Random(1))
    assert found.first.mean == Fraction(sum(firsts), len(firsts))
    assert found.last.mean == Fraction(sum(lasts), len(lasts))


@pytest.mark.parametrize("goals", [line_goals(8, 3, 14, seed=1), full_goals(8, 9, 14, seed=2)], ids=["line", "board"])
def test_played_games_are_within_four_standard_errors(goals: list[list[int]], monkeypatch: pytest.MonkeyPatch) -> None:
    pool = 14
    exact = length(goals, pool, Random(1))
    monkeypatch.setattr(length_module, "can_be_listed", lambda _goals, _pool: False)
    played = length(goals, pool, Random(1))
    assert played.first.games == 20_000
    for found, wanted, everyone in ((played.first, exact.first, False), (played.last, exact.last, True)):
        error = deviation(shares(goals, pool, everyone)) / 20_000**0.5
        assert abs(float(found.mean - wanted.mean)) <= 4 * error
        assert (found.p10, found.p50, found.p90) == (wanted.p10, wanted.p50, wanted.p90)


def test_every_share_of_the_played_games_is_within_four_standard_errors() -> None:
    pool, games, goals = 10, 20_000, [[0b0000001111, 0b1110000000]]
    exact = one_board_cdf(goals[0], pool)

    def reached(called: list[int]) -> int:
        return (called[0] & called[1] & called[2] & called[3]) | (called[7] & called[8] & called[9])

    played = calls_needed(reached, pool, games, Random(2))  # type: ignore[arg-type]
    for found, chance in zip(played, exact, strict=True):
        assert abs(float(found - chance)) <= 4 * float(chance * (1 - chance) / games) ** 0.5


def test_a_large_pool_is_played_and_says_so() -> None:
    found = length(line_goals(6, 5, 75, seed=3, free=12), 75, Random(7))
    assert found.first.games == found.last.games == 20_000
    assert 4 <= found.first.p10 <= found.first.p50 <= found.first.p90 <= found.last.p90 <= 75
    assert found == length(line_goals(6, 5, 75, seed=3, free=12), 75, Random(7))


def test_a_very_large_set_is_played_less_often() -> None:
    assert length(line_goals(300, 5, 75, seed=3), 75, Random(7)).first.games == 5_000


def test_the_end_of_a_game_for_full_boards_is_exact_on_any_pool() -> None:
    goals = full_goals(3, 9, 40, seed=5)
    items = (goals[0][0] | goals[1][0] | goals[2][0]).bit_count()
    found = length(goals, 40, Random(1))
    assert found.first.games == 20_000
    assert found.last.games is None
    assert found.last.mean == full_board(items, 40)


def test_one_board_is_exact_on_any_pool() -> None:
    goals = line_goals(1, 5, 75, seed=1, free=12)
    found = length(goals, 75, Random(1))
    assert found.first == found.last == spread(one_board_cdf(goals[0], 75))


@pytest.mark.parametrize("goals", [[], [[]], [[0]], [[1 << 5]]])
def test_boards_without_lines_or_outside_the_pool_are_our_bug(goals: list[list[int]]) -> None:
    with pytest.raises(ValueError, match="line"):
        length(goals, 5, Random(1))
