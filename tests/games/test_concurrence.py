from collections import Counter
from itertools import chain, combinations
from math import comb
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.concurrence import (
    concurrence,
    exchange_change,
    meetings,
    note_exchange,
    spread,
    spread_meetings,
)
from cardgen.games.quota import Pool, deal_sets


@st.composite
def class_sets(draw: st.DrawFn) -> tuple[list[set[int]], Pool]:
    pool = draw(st.integers(4, 14))
    groups = draw(st.lists(st.integers(0, 2), min_size=pool, max_size=pool))
    items = Pool.of(range(pool), groups)
    sets = deal_sets(draw(st.integers(2, 12)), draw(st.integers(2, pool)), items, Random(draw(st.integers(0, 99))))
    return sets, items


def overlap_sum(sets: list[set[int]]) -> int:
    return sum(comb(len(one & two), 2) for one, two in combinations(sets, 2))


@given(class_sets())
def test_pairs_of_items_and_pairs_of_boards_give_the_same_sum(made: tuple[list[set[int]], Pool]) -> None:
    sets, pool = made
    assert concurrence(meetings(sets, len(pool.symbols))) == overlap_sum(sets)


@given(class_sets(), st.data())
def test_the_change_of_an_exchange_is_what_a_new_count_finds(
    made: tuple[list[set[int]], Pool], data: st.DataObject
) -> None:
    sets, pool = made
    one, two = sets[0] - sets[1], sets[1] - sets[0]
    if not one:
        return
    mine, yours = data.draw(st.sampled_from(sorted(one))), data.draw(st.sampled_from(sorted(two)))
    table = meetings(sets, len(pool.symbols))
    expected = overlap_sum(sets) + exchange_change(table, mine, yours, one, two)
    note_exchange(table, mine, yours, one, two)
    sets[0] ^= {mine, yours}
    sets[1] ^= {mine, yours}
    assert overlap_sum(sets) == expected
    assert table == meetings(sets, len(pool.symbols))


@given(total=st.integers(0, 40), parts=st.integers(1, 8), data=st.data())
def test_no_way_to_spread_a_total_is_better_than_the_even_one(total: int, parts: int, data: st.DataObject) -> None:
    cuts = sorted(data.draw(st.lists(st.integers(0, total), min_size=parts - 1, max_size=parts - 1)))
    numbers = [after - before for before, after in zip([0, *cuts], [*cuts, total], strict=True)]
    assert sum(comb(number, 2) for number in numbers) >= spread(total, parts)
    even = [total // parts + (place < total % parts) for place in range(parts)]
    assert sum(comb(number, 2) for number in even) == spread(total, parts)


def test_nothing_is_spread_over_no_parts() -> None:
    assert spread(0, 0) == 0


@settings(deadline=None)
@given(class_sets())
def test_exchanges_keep_frequency_and_shares_and_hardly_ever_raise_q(made: tuple[list[set[int]], Pool]) -> None:
    sets, pool = made
    others = [set(items) for items in sets[:2]]
    before, places, filled = overlap_sum(others + sets), Counter(chain(*sets)), cells_by_group(sets, pool)
    spread_meetings(sets, pool.groups, 0, Random(4), 20_000, others)
    # A last slip may stand where there is hardly anything to exchange.
    assert overlap_sum(others + sets) <= before + 2
    assert Counter(chain(*sets)) == places
    assert cells_by_group(sets, pool) == filled


def cells_by_group(sets: list[set[int]], pool: Pool) -> dict[int, Counter[int]]:
    """Return on how many boards each group fills how many cells."""
    return {
        group: Counter(len(items.intersection(pool.members(group))) for items in sets) for group in set(pool.groups)
    }


def test_the_walk_ends_at_the_bound() -> None:
    sets = deal_sets(24, 9, Pool.of(range(12)), Random(2))
    assert overlap_sum(sets) > 5226
    # 24 boards of 9 from 12: 864 meetings over 66 pairs, 13 each and 6 over.
    spread_meetings(sets, [0] * 12, 5226, Random(2), 10**7)
    assert overlap_sum(sets) == 5226 == spread(24 * 36, 66)
