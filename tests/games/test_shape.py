from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.games.shape import Shape, line_density, most_boards_without_equal_lines
from tests.games.class_sets import FREE_3X3, FREE_5X5, lines_of


def test_lines_of_a_small_board_by_hand() -> None:
    assert Shape(2, 2).lines == ((0, 1), (2, 3), (0, 2), (1, 3), (0, 3), (1, 2))
    assert Shape(2, 3).lines == ((0, 1, 2), (3, 4, 5), (0, 3), (1, 4), (2, 5))


def test_the_free_centre_is_no_cell_and_leaves_its_lines_shorter() -> None:
    shape = Shape(3, 3, free=True)
    assert shape.cells == 8
    assert shape.lines == ((0, 1, 2), (3, 4), (5, 6, 7), (0, 3, 5), (1, 6), (2, 4, 7), (0, 7), (2, 5))
    assert shape.lines_by_length == {2: 4, 3: 4}
    assert Shape(5, 5, free=True).lines_by_length == {4: 4, 5: 8}


@pytest.mark.parametrize(("rows", "columns"), [(3, 4), (2, 3), (4, 4)])
def test_only_odd_boards_have_a_middle(rows: int, columns: int) -> None:
    with pytest.raises(ValueError, match="no middle cell"):
        Shape(rows, columns, free=True)


@given(rows=st.integers(2, 5), columns=st.integers(2, 5))
def test_rows_columns_and_diagonals_only_on_squares(rows: int, columns: int) -> None:
    lines = Shape(rows, columns).lines
    assert [list(line) for line in lines] == lines_of(rows, columns)
    through = Counter(cell for line in lines for cell in line)
    assert sum(through.values()) == 2 * rows * columns + (2 * rows if rows == columns else 0)


@pytest.mark.parametrize(("side", "free"), [(3, FREE_3X3), (5, FREE_5X5)])
def test_cells_after_the_free_centre_move_up_by_one(side: int, free: int) -> None:
    moved = [[cell - (cell > free) for cell in line] for line in lines_of(side, side, free)]
    assert [list(line) for line in Shape(side, side, free=True).lines] == moved


@pytest.mark.parametrize(("pool", "boards"), [(9, 10), (10, 15), (12, 27), (15, 56), (24, 253)])
def test_most_boards_whose_lines_can_all_differ(pool: int, boards: int) -> None:
    # ⌊C(pool,3) / 8⌋, counted by hand.
    assert most_boards_without_equal_lines(pool, Shape(3, 3)) == boards


def test_the_scarcest_length_of_line_decides() -> None:
    # From 12 items 66 pairs and 220 triples; four lines of each length.
    assert most_boards_without_equal_lines(12, Shape(3, 3, free=True)) == 66 // 4
    assert line_density(8, 12, Shape(3, 3, free=True)) == 32 / 66
    assert line_density(1, 2, Shape(3, 3)) > 1
