from collections import Counter
from fractions import Fraction
from math import ceil, floor
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.quota import Pool, deal_sets, odd_cells, round_shares, take_turns


@settings(max_examples=50)
@given(parts=st.lists(st.fractions(0, 20, max_denominator=12), min_size=1, max_size=10), seed=st.integers(0, 9))
def test_shares_are_rounded_down_or_up_and_add_up(parts: list[Fraction], seed: int) -> None:
    total = ceil(sum(parts))
    parts[-1] += total - sum(parts)
    rounded = round_shares(total, parts, Random(seed))
    assert sum(rounded) == total
    assert all(floor(part) <= whole <= ceil(part) for part, whole in zip(parts, rounded, strict=True))


@given(sizes=st.lists(st.integers(0, 6), min_size=1, max_size=12), spare=st.integers(0, 5), seed=st.integers(0, 9))
def test_turns_use_up_even_quotas_whatever_the_sizes(sizes: list[int], spare: int, seed: int) -> None:
    number = max(1, max(sizes)) + spare
    each, odd = divmod(sum(sizes), number)
    quotas = [each + (index < odd) for index in range(number)]
    turns = take_turns(sizes, quotas, Random(seed))
    assert [len(set(turn)) for turn in turns] == sizes
    taken = Counter(index for turn in turns for index in turn)
    assert [taken[index] for index in range(number)] == quotas


@given(data=st.data())
def test_turns_use_up_uneven_quotas_where_all_sizes_are_one(data: st.DataObject) -> None:
    quotas = data.draw(st.lists(st.integers(0, 8), min_size=1, max_size=6))
    turns = take_turns([1] * sum(quotas), quotas, Random(1))
    assert Counter(turn[0] for turn in turns) == Counter(dict(enumerate(quotas)))


def test_quotas_that_cannot_be_dealt_are_refused() -> None:
    with pytest.raises(ValueError, match="cannot be dealt"):
        take_turns([1, 1], [3, 0], Random(1))


def test_a_pool_needs_as_many_groups_as_items_and_enough_of_each() -> None:
    with pytest.raises(ValueError, match="groups of 2"):
        Pool.of([0, 1, 2], [0, 1])
    with pytest.raises(ValueError, match="cannot be dealt from 8 items"):
        Pool.of(range(8)).check(4, 9)
    with pytest.raises(ValueError, match="group 1 has too few items"):
        Pool.of(range(12), [0] * 9 + [1] * 3, {0: 1, 1: 1}).check(4, 9)


@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_every_level_is_rounded_on_its_own(data: st.DataObject) -> None:
    boards, letters = data.draw(st.integers(1, 30)), data.draw(st.integers(1, 8))
    symbols = [letter for letter in range(letters) for _ in range(data.draw(st.integers(1, 4)))]
    group_of = data.draw(st.lists(st.integers(0, 2), min_size=letters, max_size=letters))
    pool = Pool.of(symbols, [group_of[symbol] for symbol in symbols])
    cells = data.draw(st.integers(1, len(symbols)))
    sets = deal_sets(boards, cells, pool, Random(data.draw(st.integers(0, 9))))
    assert [len(items) for items in sets] == [cells] * boards
    each = Fraction(boards * cells, len(symbols))
    items = Counter(item for board in sets for item in board)
    assert all(floor(each) <= items[item] <= ceil(each) for item in range(len(symbols)))
    for label, levels in (("symbol", pool.symbols), ("group", pool.groups)):
        for level in set(levels):
            size = levels.count(level)
            places = [sum(levels[item] == level for item in board) for board in sets]
            assert floor(each * size) <= sum(places) <= ceil(each * size), label
            if label == "group":
                share = Fraction(cells * size, len(symbols))
                assert {floor(share), ceil(share)} >= set(places)


def test_odd_cells_go_round() -> None:
    # Nine cells, four sounds: two cells each and an odd one, six times each on 24 boards.
    pool = Pool.of(range(12), [item % 4 for item in range(12)])
    odd = odd_cells(deal_sets(24, 9, pool, Random(3)), pool.groups)
    assert Counter(group for groups in odd for group in groups) == {0: 6, 1: 6, 2: 6, 3: 6}
    assert {len(groups) for groups in odd} == {1}


def test_weights_give_a_small_group_as_many_cells_as_a_large_one() -> None:
    pool = Pool.of(range(15), [0] * 10 + [1] * 5, {0: 1, 1: 1})
    sets = deal_sets(20, 8, pool, Random(1))
    assert {sum(item >= 10 for item in items) for items in sets} == {4}
    assert {item: sum(item in items for items in sets) for item in range(15)} == dict.fromkeys(range(10), 8) | (
        dict.fromkeys(range(10, 15), 16)
    )
