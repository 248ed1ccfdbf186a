from collections import Counter
from math import comb
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.balance import measure
from cardgen.games.cyclic import can_be_developed, develop, gap_cycle
from cardgen.games.quota import Pool
from cardgen.games.shape import Shape


@settings(max_examples=100, deadline=None)
@given(data=st.data())
def test_developed_boards_are_exactly_even(data: st.DataObject) -> None:
    shape = data.draw(st.sampled_from([Shape(2, 2), Shape(2, 3), Shape(3, 3), Shape(3, 3, free=True), Shape(4, 4)]))
    groups = data.draw(st.integers(1, 4))
    size = groups * data.draw(st.integers(-(-shape.cells // groups), -(-shape.cells // groups) + 3))
    pool = Pool.of(range(size), [item * groups // size for item in range(size)])
    times = data.draw(st.integers(1, 3))
    rows = develop(times * size, shape, pool, Random(data.draw(st.integers(0, 99))), 60)
    assert {len(set(row)) for row in rows} == {shape.cells}
    assert Counter((item, cell) for row in rows for cell, item in enumerate(row)) == {
        (item, cell): times for item in range(size) for cell in range(shape.cells)
    }
    share = [sum(pool.groups[item] == group for item in row) for row in rows for group in range(groups)]
    assert min(share) >= shape.cells // groups
    assert max(share) <= -(-shape.cells // groups)


@pytest.mark.parametrize(
    ("symbols", "groups", "fits"),
    [
        (range(6), None, True),
        (range(6), [0, 0, 1, 1, 2, 2], True),
        (range(6), [0, 0, 0, 0, 1, 1], False),
        ([0, 0, 1, 1, 2, 2], None, False),
    ],
)
def test_only_even_pools_have_the_symmetry(symbols: list[int], groups: list[int] | None, fits: bool) -> None:
    assert can_be_developed(Pool.of(symbols, groups)) is fits


def test_groups_of_one_size_but_unlike_shares_have_no_symmetry() -> None:
    assert not can_be_developed(Pool.of(range(6), [0, 0, 0, 1, 1, 1], {0: 2, 1: 1}))


@given(st.sets(st.integers(0, 11), min_size=1), st.integers(0, 11))
def test_gaps_are_those_of_every_shift(numbers: set[int], shift: int) -> None:
    shifts = [tuple(sorted((number + step) % 12 for number in numbers)) for step in range(12)]
    gaps, stable = gap_cycle(shifts[0], 12)
    assert gap_cycle(shifts[shift], 12) == (gaps, stable)
    assert shifts.count(shifts[0]) == stable


def test_unlike_sets_have_unlike_gaps() -> None:
    assert gap_cycle((0, 1, 3), 12) != gap_cycle((0, 2, 3), 12)
    assert gap_cycle((0, 4, 8), 12) == ((4, 4, 4), 3)


@pytest.mark.parametrize("groups", [1, 2, 3, 4, 6])
def test_the_default_set_comes_out_with_every_line_different(groups: int) -> None:
    # 24 boards 3 × 3 from 12 use 192 of the 220 triples; only a set with a symmetry gets there in time.
    pool = Pool.of(range(12), [item % groups for item in range(12)])
    rows = develop(24, Shape(3, 3), pool, Random(7), 12_000)
    found = measure(rows, Shape(3, 3), pool)
    assert found.equal_lines == found.equal_boards == 0
    assert (
        len({tuple(sorted(row[cell] for cell in line)) for row in rows for line in Shape(3, 3).lines})
        == 192
        < comb(12, 3)
    )
