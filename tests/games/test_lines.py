from collections import Counter
from math import comb
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.balance import measure
from cardgen.games.layout import lay_out
from cardgen.games.line_keys import LineKeys, goals
from cardgen.games.lines import part_lines
from cardgen.games.quota import Pool, deal_sets
from cardgen.games.shape import Shape

SHAPES = [Shape(2, 2), Shape(2, 3), Shape(3, 3), Shape(3, 3, free=True), Shape(3, 4), Shape(4, 4)]


def laid_out(shape: Shape, boards: int, pool: Pool, seed: int) -> list[list[int]]:
    rng = Random(seed)
    return lay_out(deal_sets(boards, shape.cells, pool, rng), pool.symbols, shape.cells, rng)


def printed(rows: list[list[int]], pool: Pool) -> list[list[int]]:
    return [[pool.symbols[item] for item in row] for row in rows]


@st.composite
def class_sets(draw: st.DrawFn) -> tuple[Shape, Pool, list[list[int]]]:
    shape = draw(st.sampled_from(SHAPES))
    size = draw(st.integers(shape.cells, shape.cells + 8))
    copies = draw(st.sampled_from([1, 1, 2, 3]))
    symbols = [item // copies for item in range(size)]
    groups = draw(st.sampled_from([None, [symbol % 3 for symbol in symbols], symbols]))
    pool = Pool.of(symbols, groups)
    return shape, pool, laid_out(shape, draw(st.integers(1, 24)), pool, draw(st.integers(0, 99)))


@settings(max_examples=80, deadline=None)
@given(class_sets())
def test_parting_lines_gives_up_nothing_else(made: tuple[Shape, Pool, list[list[int]]]) -> None:
    shape, pool, rows = made
    before = measure(printed(rows, pool), shape, pool)
    filled = share_of_boards(rows, pool)
    part_lines(rows, shape, pool, Random(5), 600)
    after = measure(printed(rows, pool), shape, pool)
    assert {len(set(row)) for row in rows} == {shape.cells}
    assert (after.frequency, after.frequency_by_group) == (before.frequency, before.frequency_by_group)
    assert after.positions == before.positions
    assert share_of_boards(rows, pool) == filled
    assert after.equal_lines <= before.equal_lines + 2


def share_of_boards(rows: list[list[int]], pool: Pool) -> dict[int, Counter[int]]:
    """Return on how many boards each group fills how many cells."""
    return {
        group: Counter(sum(pool.groups[item] == group for item in row) for row in rows) for group in set(pool.groups)
    }


@settings(max_examples=40, deadline=None)
@given(class_sets())
def test_every_symbol_stays_even_in_every_cell(made: tuple[Shape, Pool, list[list[int]]]) -> None:
    shape, pool, rows = made
    part_lines(rows, shape, pool, Random(6), 600)
    boards = printed(rows, pool)
    for symbol in set(pool.symbols):
        times = [sum(board[cell] == symbol for board in boards) for cell in range(shape.cells)]
        assert max(times) - min(times) <= 1


@pytest.mark.parametrize(
    ("shape", "boards", "pool", "groups"),
    [
        (Shape(3, 3), 11, 12, None),
        (Shape(3, 3), 11, 12, [item % 4 for item in range(12)]),
        (Shape(3, 3), 100, 24, [item % 4 for item in range(24)]),
        (Shape(4, 4), 30, 24, None),
        (Shape(2, 3), 20, 18, None),
        (Shape(3, 3, free=True), 24, 24, [item % 5 for item in range(24)]),
    ],
)
def test_all_lines_differ_where_two_fifths_of_all_lines_are_used(
    shape: Shape, boards: int, pool: int, groups: list[int] | None
) -> None:
    items = Pool.of(range(pool), groups)
    rows = laid_out(shape, boards, items, 1)
    assert measure(rows, shape, items).equal_lines
    part_lines(rows, shape, items, Random(1), 20_000)
    found = measure(rows, shape, items)
    assert found.equal_lines == found.equal_boards == 0


def test_twins_are_parted() -> None:
    # Each board lacks two items, and every two boards the same ones.
    pool = Pool.of(range(12))
    rows = [[item for item in range(12) if item // 2 != lack % 6] for lack in range(12)]
    shape = Shape(2, 5)
    assert measure(rows, shape, pool).equal_boards == 6
    part_lines(rows, shape, pool, Random(1), 20_000)
    assert measure(rows, shape, pool).equal_boards == 0


def test_one_letter_alone_ends_after_its_moves() -> None:
    pool = Pool.of([0] * 4)
    rows = [[0, 1, 2, 3] for _ in range(3)]
    part_lines(rows, Shape(2, 2), pool, Random(1), 100)
    assert [sorted(row) for row in rows] == [[0, 1, 2, 3]] * 3


def test_the_whole_board_is_a_line_where_all_boards_can_differ() -> None:
    shape = Shape(2, 2)
    assert goals(shape, comb(6, 4), 6) == (*shape.lines, (0, 1, 2, 3))
    assert goals(shape, comb(6, 4) + 1, 6) == shape.lines


@given(data=st.data())
def test_keys_tell_lines_apart_by_what_they_hold(data: st.DataObject) -> None:
    symbols = data.draw(st.lists(st.integers(0, 3), min_size=9, max_size=9))
    lines = Shape(3, 3).lines
    boards = [data.draw(st.permutations(range(9))) for _ in range(4)]
    keys = LineKeys(boards, lines, symbols)
    held = [[tuple(sorted(symbols[board[cell]] for cell in line)) for line in lines] for board in boards]
    count = Counter(line for board in held for line in board)
    assert keys.crowded() == [(b, n) for b, board in enumerate(held) for n, line in enumerate(board) if count[line] > 1]
    key_of = {line: keys.keys[b][n] for b, board in enumerate(held) for n, line in enumerate(board)}
    assert all(keys.keys[b][n] == key_of[line] for b, board in enumerate(held) for n, line in enumerate(board))
    assert len(set(key_of.values())) == len(key_of)


def test_changes_of_keys_are_counted_and_undone() -> None:
    boards = [[0, 1, 2, 3], [4, 1, 5, 3]]
    keys = LineKeys(boards, ((0, 1), (2, 3)), range(6))
    assert keys.crowded() == []
    gain = keys.weight[0] - keys.weight[4]
    assert keys.is_taken(1, 0, gain)
    assert keys.change([(1, 0, gain)]) == 1
    assert keys.crowded() == [(0, 0), (1, 0)]
    keys.undo([(1, 0, gain)])
    assert keys.crowded() == []
    assert not keys.is_crowded(1, 0)
