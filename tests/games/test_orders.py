from collections import Counter
from itertools import groupby, permutations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.orders import count_orders, even_order, orders_without_runs


def every(counts: list[int], longest_run: int) -> set[tuple[int, ...]]:
    """All orders, by trying every one."""
    things = [kind for kind, count in enumerate(counts) for _ in range(count)]
    return {order for order in permutations(things) if longest(order) <= longest_run}


def longest(order: tuple[int, ...]) -> int:
    return max((len(list(run)) for _, run in groupby(order)), default=0)


@given(st.lists(st.integers(0, 3), min_size=1, max_size=4).filter(lambda c: sum(c) <= 7), st.integers(1, 3))
@settings(max_examples=40, deadline=None)
def test_the_count_is_that_of_trying_every_order(counts: list[int], longest_run: int) -> None:
    assert count_orders(counts, longest_run) == len(every(counts, longest_run))


@given(st.lists(st.integers(0, 4), min_size=1, max_size=5), st.integers(1, 3), st.integers(0, 99))
@settings(max_examples=60, deadline=None)
def test_a_drawn_order_keeps_the_rule_or_there_is_none(counts: list[int], longest_run: int, seed: int) -> None:
    if count_orders(counts, longest_run) == 0:
        with pytest.raises(ValueError, match="cannot be set"):
            orders_without_runs(counts, longest_run, Random(seed))
        return
    order = orders_without_runs(counts, longest_run, Random(seed))
    assert [order.count(kind) for kind in range(len(counts))] == counts
    assert longest(order) <= longest_run


@pytest.mark.parametrize(("length", "kinds"), [(5, 3), (8, 2), (9, 2), (10, 3), (3, 3)])
def test_an_even_order_has_each_kind_as_often_give_or_take_one(length: int, kinds: int) -> None:
    extra: Counter[int] = Counter()
    for seed in range(300):
        order = even_order(length, kinds, 2, Random(seed))
        counts = [order.count(kind) for kind in range(kinds)]
        assert sum(counts) == length
        assert set(counts) <= {length // kinds, -(-length // kinds)}
        assert longest(order) <= 2
        extra.update(kind for kind, count in enumerate(counts) if count > length // kinds)
    # No kind has one more by its number: each of them does, about equally often (300 draws).
    if length % kinds:
        mean = 300 * (length % kinds) / kinds
        assert all(abs(extra[kind] - mean) < 50 for kind in range(kinds))


def test_many_kinds_are_counted_at_once() -> None:
    assert count_orders([3] * 12, 2) > 10**30
    assert len(orders_without_runs([2] * 20, 1, Random(1))) == 40
