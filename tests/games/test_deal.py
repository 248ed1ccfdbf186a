from collections import Counter
from fractions import Fraction
from itertools import pairwise
from math import ceil, comb, floor
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.deal import Dealt, Effort, deal
from cardgen.games.shape import Shape, line_density

QUICK = Effort(exchanges=10_000, base_moves=100, line_moves=100)
SHAPES = [Shape(rows, columns) for rows in range(2, 6) for columns in range(2, 6)]
SHAPES += [Shape(rows, columns, free=True) for rows in (3, 5) for columns in (3, 5)]


def by_sound(words: int, number: int) -> list[int]:
    """Return the sound of each word, alike for all sounds."""
    return [word * number // words for word in range(words)]


def assert_even(dealt: Dealt, shape: Shape, boards: int, symbols: list[int], groups: list[int] | None) -> None:
    """Hold a set against what never gives way: frequency, positions, shares."""
    each = Fraction(boards * shape.cells, len(symbols))
    assert [len(board) for board in dealt.boards] == [shape.cells] * boards
    for symbol in set(symbols):
        copies = symbols.count(symbol)
        times = [sum(board[cell] == symbol for board in dealt.boards) for cell in range(shape.cells)]
        assert floor(each * copies) <= sum(times) <= ceil(each * copies)
        assert min(times) >= sum(times) // shape.cells
        assert max(times) <= -(-sum(times) // shape.cells)
        assert max(board.count(symbol) for board in dealt.boards) <= copies
    group_of = dict(zip(symbols, groups or [0] * len(symbols), strict=True))
    odd_boards = []
    for group in set(group_of.values()):
        share = Fraction(shape.cells * (groups or [0] * len(symbols)).count(group), len(symbols))
        filled = [sum(group_of[symbol] == group for symbol in board) for board in dealt.boards]
        assert {floor(share), ceil(share)} >= set(filled)
        assert floor(share * boards) <= sum(filled) <= ceil(share * boards)
        odd_boards.append(sum(filled) - boards * floor(share))
    if len(set(Counter(groups).values())) == 1:
        assert max(odd_boards) - min(odd_boards) <= 1


@settings(max_examples=250, deadline=None)
@given(data=st.data())
def test_frequency_positions_and_shares_are_exact_for_any_size(data: st.DataObject) -> None:
    shape = data.draw(st.sampled_from(SHAPES))
    boards, pool = data.draw(st.integers(1, 40)), data.draw(st.integers(shape.cells, 75))
    number = data.draw(st.integers(0, 6))
    groups = data.draw(st.lists(st.integers(1, number), min_size=pool, max_size=pool)) if number else None
    dealt = deal(shape, boards, range(pool), Random(data.draw(st.integers(0, 999))), groups=groups, effort=QUICK)
    assert_even(dealt, shape, boards, list(range(pool)), groups)
    assert dealt.measures.q >= dealt.measures.q_bound
    # Stands alone: whether a board holds an item twice would not show in any count above.
    assert all(len(set(board)) == shape.cells for board in dealt.boards)


@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_the_same_holds_with_few_letters_that_repeat(data: st.DataObject) -> None:
    shape = data.draw(st.sampled_from([Shape(2, 2), Shape(2, 3), Shape(3, 3), Shape(3, 3, free=True), Shape(4, 4)]))
    letters = data.draw(st.sampled_from([1, 2, 4, 6]))
    least = -(-shape.cells // letters)
    copies = data.draw(st.integers(least, least + 2))
    symbols = [letter for letter in range(letters) for _ in range(copies)]
    groups = symbols if data.draw(st.booleans()) else None
    boards = data.draw(st.integers(1, 30))
    dealt = deal(shape, boards, symbols, Random(data.draw(st.integers(0, 999))), groups=groups, effort=QUICK)
    assert_even(dealt, shape, boards, symbols, groups)
    assert dealt.measures.q >= dealt.measures.q_bound


def test_unlike_shares_can_be_asked_for() -> None:
    groups = [0] * 10 + [1] * 5
    dealt = deal(Shape(2, 4), 15, range(15), Random(2), groups=groups, weights={0: 1, 1: 1}, effort=QUICK)
    assert dealt.measures.frequency_by_group == ((0, (6, 6)), (1, (12, 12)))
    assert {sum(groups[item] for item in board) for board in dealt.boards} == {4}


def test_every_letter_its_own_group_asks_nothing_more() -> None:
    # Boards of single letters: the shares are less than a cell each, and the search is as free as without.
    dealt = deal(Shape(3, 3), 20, range(16), Random(1), groups=range(16))
    alone = deal(Shape(3, 3), 20, range(16), Random(1))
    assert dealt.measures.q_bound == alone.measures.q_bound
    assert dealt.measures.q <= alone.measures.q_bound * 1.01
    assert dealt.measures.equal_lines == 0


@pytest.mark.parametrize(
    ("shape", "boards", "pool", "groups", "most"),
    [
        (Shape(4, 4), 30, 24, None, 21715),
        (Shape(4, 4), 30, 24, 4, 21780),
        (Shape(3, 3), 24, 12, None, 5235),
        (Shape(5, 5, free=True), 30, 30, None, 74700),
    ],
)
@pytest.mark.parametrize("seed", [1, 2])
def test_items_meet_almost_as_evenly_as_they_can_and_all_lines_differ(
    shape: Shape, boards: int, pool: int, groups: int | None, most: int, seed: int
) -> None:
    dealt = deal(shape, boards, range(pool), Random(seed), groups=by_sound(pool, groups) if groups else None)
    assert dealt.measures.q <= most
    assert dealt.measures.equal_lines == dealt.measures.equal_boards == 0


@pytest.mark.parametrize(
    ("shape", "boards"), [(Shape(3, 3), 13), (Shape(4, 4), 21), (Shape(5, 5), 31), (Shape(3, 3, free=True), 15)]
)
@pytest.mark.parametrize("seed", range(5))
def test_exact_designs_reach_the_bound_with_any_seed(shape: Shape, boards: int, seed: int) -> None:
    found = deal(shape, boards, range(boards), Random(seed)).measures
    assert found.q == found.q_bound
    assert found.equal_lines == 0


@pytest.mark.parametrize("groups", [2, 3, 4, 6])
def test_the_default_class_set_is_perfect(groups: int) -> None:
    found = deal(Shape(3, 3), 24, range(12), Random(groups), groups=by_sound(12, groups)).measures
    assert found.frequency == (18, 18)
    assert found.positions == (2, 2)
    assert found.equal_lines == found.equal_boards == 0
    assert found.q <= found.q_bound + 12


@pytest.mark.parametrize("seed", range(8))
def test_lines_differ_while_two_fifths_of_them_are_used(seed: int) -> None:
    rng = Random(seed)
    shape, boards, pool, groups = some_set(rng, 0.4)
    found = deal(shape, boards, range(pool), rng, groups=groups).measures
    assert found.equal_lines == 0, (shape, boards, pool, groups)


@pytest.mark.parametrize("seed", range(4))
def test_few_lines_repeat_while_three_fifths_of_them_are_used(seed: int) -> None:
    rng = Random(seed)
    shape, boards, pool, groups = some_set(rng, 0.6)
    found = deal(shape, boards, range(pool), rng, groups=groups).measures
    assert found.equal_lines <= 0.06 * boards * len(shape.lines), (shape, boards, pool, groups)


def some_set(rng: Random, density: float) -> tuple[Shape, int, int, list[int]]:
    """Return a set of 2 to 40 boards that uses up to that part of all lines of its scarcest length."""
    while True:
        shape = rng.choice(SHAPES)
        pool = rng.randint(shape.cells, 30)
        boards = int(min(density * comb(pool, m) / lines for m, lines in shape.lines_by_length.items()))
        if 2 <= boards <= 40:
            assert line_density(boards, pool, shape) <= density
            sounds = rng.randint(1, 4)
            return shape, boards, pool, [rng.randrange(sounds) for _ in range(pool)]


def test_boards_that_are_no_multiple_of_a_small_pool_come_close() -> None:
    # 200 of 220 possible lines: a set without any symmetry has some twenty equal pairs.
    found = deal(Shape(3, 3), 25, range(12), Random(1), groups=by_sound(12, 3)).measures
    assert found.frequency == (18, 19)
    assert found.equal_lines <= 8
    assert found.equal_boards == 0


def test_the_boards_dealt_beside_a_symmetric_part_make_up_for_it() -> None:
    effort = Effort(line_moves=300)
    found = deal(Shape(3, 3), 20, range(12), Random(1), groups=by_sound(12, 3), effort=effort).measures
    assert found.q <= found.q_bound + 3


def test_boards_that_belong_together_do_not_lie_together() -> None:
    # Of the 13 shifts of one board each would come from the one before by the same renaming of items.
    boards = deal(Shape(3, 3), 13, range(13), Random(3)).boards
    renamed = {pair for one, two in pairwise(boards) for pair in zip(one, two, strict=True)}
    assert len(renamed) > 13


@pytest.mark.parametrize("seed", [0, 2])
def test_no_two_boards_hold_the_same_items_even_where_lines_are_scarce(seed: int) -> None:
    effort = Effort(line_moves=6000)
    assert not deal(
        Shape(3, 3), 30, range(12), Random(seed), groups=by_sound(12, 3), effort=effort
    ).measures.equal_boards


def test_where_two_boards_must_hold_the_same_items_no_more_do() -> None:
    # Twelve of 2 + 5 + 7 items: each board lacks one of the seven and one of the others, so only 49 can differ.
    groups = [0] * 2 + [1] * 5 + [2] * 7
    found = deal(Shape(3, 4), 51, range(14), Random(1), groups=groups, effort=Effort(line_moves=4000)).measures
    assert found.equal_boards == 2
    assert found.equal_lines == 0
    assert found.q <= found.q_bound + 2


def test_the_same_seed_deals_the_same_boards() -> None:
    one, again, other = (
        deal(Shape(3, 3), 10, range(14), Random(seed), groups=by_sound(14, 2), effort=QUICK) for seed in (4, 4, 5)
    )
    assert one == again
    assert one.boards != other.boards


def test_a_thousand_boards_are_even_too() -> None:
    shape = Shape(5, 5, free=True)
    dealt = deal(shape, 1000, range(75), Random(1), effort=QUICK)
    assert_even(dealt, shape, 1000, list(range(75)), None)


def test_a_pool_that_is_too_small_is_refused() -> None:
    with pytest.raises(ValueError, match="9 cells cannot be dealt from 8 items"):
        deal(Shape(3, 3), 4, range(8), Random(1))
