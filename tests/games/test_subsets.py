from itertools import combinations
from math import comb
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.games import subsets
from cardgen.games.subsets import CallSets, Family, both, can_be_listed
from tests.games.class_sets import boards_reached, full_goals, line_goals

POOL = 6
goals_of_six = st.lists(st.lists(st.integers(1, 63), min_size=1, max_size=4), min_size=1, max_size=6)


def members(sets: CallSets, family: Family) -> set[int]:
    return {called for called in range(1 << sets.pool) if sets.contains(family, called)}


@pytest.fixture(params=[2, 3, 16], ids=["many blocks", "some blocks", "one block"])
def low_items(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(subsets, "LOW_ITEMS", request.param)


@pytest.mark.usefixtures("low_items")
@pytest.mark.parametrize("seed", range(5))
def test_families_are_those_that_counting_finds(seed: int) -> None:
    goals = line_goals(4, 2, POOL, seed) + full_goals(1, 5, POOL, seed)
    sets = CallSets(POOL)
    some, every = sets.any_and_all_reached(goals)
    reached = [boards_reached(goals, called) for called in range(1 << POOL)]
    assert members(sets, some) == {called for called, boards in enumerate(reached) if boards}
    assert members(sets, every) == {called for called, boards in enumerate(reached) if boards == len(goals)}
    assert members(sets, sets.outside(some)) == {called for called, boards in enumerate(reached) if not boards}
    for number in range(len(goals) + 2):
        exactly = sets.exactly_reached(goals, number)
        assert members(sets, exactly) == {called for called, boards in enumerate(reached) if boards == number}


@pytest.mark.usefixtures("low_items")
def test_one_call_more() -> None:
    sets = CallSets(POOL)
    nobody = sets.outside(sets.any_and_all_reached(line_goals(4, 2, POOL, 1))[0])
    grown = {called | 1 << item for called in members(sets, nobody) for item in range(POOL) if not called >> item & 1}
    assert members(sets, sets.after_one_call(nobody)) == grown


@pytest.mark.usefixtures("low_items")
def test_counts_and_draws_by_size() -> None:
    sets = CallSets(POOL)
    some = sets.any_and_all_reached(line_goals(3, 2, POOL, 2))[0]
    listed = members(sets, some)
    by_size = [{called for called in listed if called.bit_count() == size} for size in range(POOL + 1)]
    assert sets.counts(some) == [len(called) for called in by_size]
    rng = Random(1)
    for size in range(2, POOL + 1):
        drawn = {sets.draw(some, size, rng) for _ in range(40 * len(by_size[size]))}
        assert drawn == by_size[size]


@given(goals_of_six, st.integers(0, 7))
def test_exactly_so_many(goals: list[list[int]], number: int) -> None:
    sets = CallSets(POOL)
    exactly = sets.exactly_reached(goals, number)
    assert members(sets, exactly) == {c for c in range(64) if boards_reached(goals, c) == number}


def test_real_blocks_count_as_many_sets_as_the_formula_says() -> None:
    # One full board of 9 in a pool of 19, three of them high items: C(10, n - 9) sets of n items hold it.
    pool, board = 19, sum(1 << item for item in (0, 2, 3, 7, 11, 15, 16, 17, 18))
    sets = CallSets(pool)
    some, every = sets.any_and_all_reached([[board]])
    assert some == every
    assert sets.counts(some) == [comb(10, n - 9) if n >= 9 else 0 for n in range(pool + 1)]
    drawn = sets.draw(some, 12, Random(3))
    assert drawn & board == board
    assert drawn.bit_count() == 12


def test_both_families() -> None:
    sets = CallSets(4)
    one, other = (sets.any_and_all_reached([[line]])[0] for line in (0b0011, 0b0110))
    assert members(sets, both(one, other)) == {0b0111, 0b1111}


def test_too_large_a_pool_is_not_listed() -> None:
    assert can_be_listed(line_goals(30, 4, 24, 1), 24)
    assert not can_be_listed(line_goals(2, 4, 25, 1), 25)
    assert not can_be_listed(line_goals(1000, 3, 24, 1), 24)
    with pytest.raises(ValueError, match="25 items"):
        CallSets(25)


def test_sizes_are_binomial() -> None:
    sets = CallSets(9)
    everything = sets.outside(sets.exactly_reached([[1]], 2))
    assert sets.counts(everything) == [len(list(combinations(range(9), n))) for n in range(10)]
