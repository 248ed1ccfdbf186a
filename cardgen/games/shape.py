"""The shape of a board: its filled cells, numbered row by row, and the lines that can win."""

from dataclasses import dataclass
from math import comb


@dataclass(frozen=True, slots=True)
class Shape:
    """A board of `rows` × `columns` cells; with `free` (odd × odd only) the cell in the middle is not filled."""

    rows: int
    columns: int
    free: bool = False

    def __post_init__(self) -> None:
        if self.free and not (self.rows % 2 and self.columns % 2):
            raise ValueError(f"a board of {self.rows} × {self.columns} has no middle cell")

    @property
    def cells(self) -> int:
        """The number of filled cells."""
        return self.rows * self.columns - self.free

    @property
    def lines(self) -> tuple[tuple[int, ...], ...]:
        """Rows, columns and, on a square board, both diagonals: each as its filled cells, the free centre left out."""
        rows, columns = range(self.rows), range(self.columns)
        lines = [[(row, column) for column in columns] for row in rows]
        lines += [[(row, column) for row in rows] for column in columns]
        if self.rows == self.columns:
            lines += [[(row, row) for row in rows], [(row, self.columns - 1 - row) for row in rows]]
        middle = (self.rows // 2, self.columns // 2) if self.free else None
        filled = [(row, column) for row in rows for column in columns if (row, column) != middle]
        number = {cell: index for index, cell in enumerate(filled)}
        return tuple(tuple(number[cell] for cell in line if cell in number) for line in lines)

    @property
    def lines_by_length(self) -> dict[int, int]:
        """How many lines there are of each length (number of filled cells)."""
        lengths = [len(line) for line in self.lines]
        return {length: lengths.count(length) for length in sorted(set(lengths))}


def most_boards_without_equal_lines(pool: int, shape: Shape) -> int:
    """Return how many boards can at most be made from `pool` different items before two must share a line.

    Every line takes one of the C(pool, m) sets of m items, so no more than C(pool, m) ÷ lines of m cells can differ.
    """
    return min(comb(pool, length) // lines for length, lines in shape.lines_by_length.items())


def line_density(boards: int, pool: int, shape: Shape) -> float:
    """Return which part of all item sets the lines of the boards would use up, for the scarcest length of line."""
    shares = [boards * lines / max(1, comb(pool, length)) for length, lines in shape.lines_by_length.items()]
    return max(shares)
