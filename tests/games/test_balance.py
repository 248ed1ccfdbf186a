from collections.abc import Iterator
from itertools import combinations
from math import comb

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.balance import measure, q_bound
from cardgen.games.quota import Pool
from cardgen.games.shape import Shape


def test_measures_of_two_small_boards_by_hand() -> None:
    # a b / c d and b a / e f: the pair a b meets twice and is a line twice; f and e, c and d stand on one board.
    found = measure([(0, 1, 2, 3), (1, 0, 4, 5)], Shape(2, 2), Pool.of(range(6), [0, 0, 0, 1, 1, 1]))
    assert found.frequency == (1, 2)
    assert found.frequency_by_group == ((0, (1, 2)), (1, (1, 1)))
    assert found.positions == (0, 1)
    assert found.q == 1
    assert found.equal_lines == 1
    assert found.equal_boards == 0


def test_an_item_that_stands_nowhere_counts_as_none() -> None:
    found = measure([(0, 1, 2, 3)], Shape(2, 2), Pool.of(range(5)))
    assert found.frequency == found.positions == (0, 1)
    assert found.frequency_by_group == ()


def test_copies_count_each_time_in_frequency_but_once_in_meetings() -> None:
    found = measure([(0, 0, 0, 1), (0, 1, 0, 0)], Shape(2, 2), Pool.of([0, 0, 0, 1]))
    assert found.frequency == (2, 6)
    assert found.positions == (0, 2)
    assert found.q == 1
    # Six lines a board: three of two like symbols, three of two unlike ones.
    assert found.equal_lines == 2 * comb(6, 2)
    assert found.equal_boards == 1


@pytest.mark.parametrize(
    ("boards", "cells", "groups", "bound"),
    [
        # 30 × 120 meetings over 276 pairs: 13 each and 12 over.
        (30, 16, [0] * 24, 264 * comb(13, 2) + 12 * comb(14, 2)),
        # Four sounds, four cells each: 60 pairs meet 12 times, of 216 across 144 meet 13 and 72 meet 14 times.
        (30, 16, [item % 4 for item in range(24)], 60 * comb(12, 2) + 144 * comb(13, 2) + 72 * comb(14, 2)),
        (24, 9, [0] * 12, 5226),
        (30, 24, [0] * 30, 74670),
        (13, 9, [0] * 13, 78 * comb(6, 2)),
    ],
)
def test_bounds_worked_out_by_hand(boards: int, cells: int, groups: list[int], bound: int) -> None:
    pool = Pool.of(range(len(groups)), groups)
    each, odd = divmod(boards * cells, len(groups))
    places = {item: each + (item < odd) for item in range(len(groups))}
    assert q_bound(boards, cells, pool, places) == bound


def test_the_two_bounds_named_in_the_definitions() -> None:
    assert 264 * comb(13, 2) + 12 * comb(14, 2) == 21684
    assert 60 * comb(12, 2) + 144 * comb(13, 2) + 72 * comb(14, 2) == 21744


def test_pairs_of_boards_bound_where_pairs_of_items_do_not() -> None:
    # Three boards of 2 from 6 items, each item once: no item meets twice, boards share nothing.
    assert q_bound(3, 2, Pool.of(range(6)), dict.fromkeys(range(6), 1)) == 0
    # Ten boards of 3 from 30 items cannot meet often, but items on all boards make all boards share them.
    places = {item: 10 if item < 2 else 1 for item in range(12)}
    assert q_bound(10, 3, Pool.of(range(12)), places) == comb(10, 2) * comb(2, 2)


def all_sets(boards: int, cells: int, pool: int) -> Iterator[tuple[tuple[int, ...], ...]]:
    def more(chosen: tuple[tuple[int, ...], ...]) -> Iterator[tuple[tuple[int, ...], ...]]:
        if len(chosen) == boards:
            yield chosen
            return
        for board in combinations(range(pool), cells):
            yield from more((*chosen, board))

    return more(())


@pytest.mark.parametrize(("boards", "cells", "pool"), [(3, 2, 4), (3, 2, 5), (4, 2, 4), (3, 3, 5), (4, 3, 4)])
def test_no_set_at_all_is_below_the_bound(boards: int, cells: int, pool: int) -> None:
    least: dict[tuple[int, ...], int] = {}
    for chosen in all_sets(boards, cells, pool):
        places = tuple(sum(item in board for board in chosen) for item in range(pool))
        overlap = sum(comb(len(set(one) & set(two)), 2) for one, two in combinations(chosen, 2))
        least[places] = min(overlap, least.get(places, overlap))
    for places, q in least.items():
        assert q_bound(boards, cells, Pool.of(range(pool)), dict(enumerate(places))) <= q


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_copies_keep_the_bound_below_what_is_found(data: st.DataObject) -> None:
    symbols = [symbol for symbol in range(4) for _ in range(data.draw(st.integers(1, 3)))]
    if len(symbols) < 4:
        return
    pool = Pool.of(symbols)
    rows = [data.draw(st.permutations(symbols))[:4] for _ in range(data.draw(st.integers(1, 6)))]
    found = measure(rows, Shape(2, 2), pool)
    assert found.q_bound <= found.q
