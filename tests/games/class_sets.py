"""Class sets to try games on: random boards, their lines, and slow ways to count that share no code with the games."""

from collections.abc import Sequence
from itertools import combinations
from random import Random

FREE_3X3, FREE_5X5 = 4, 12


def lines_of(rows: int, columns: int, free: int | None = None) -> list[list[int]]:
    """Return rows, columns and (on squares) diagonals as lists of cells, the free cell left out."""
    lines = [[row * columns + column for column in range(columns)] for row in range(rows)]
    lines += [[row * columns + column for row in range(rows)] for column in range(columns)]
    if rows == columns:
        lines += [[i * columns + i for i in range(rows)], [i * columns + columns - 1 - i for i in range(rows)]]
    return [[cell for cell in line if cell != free] for line in lines]


def mask(items: Sequence[int]) -> int:
    return sum(1 << item for item in items)


def line_goals(boards: int, side: int, pool: int, seed: int, free: int | None = None) -> list[list[int]]:
    """Return the goals of random boards of side × side cells for a line game."""
    rng = Random(seed)
    goals = []
    for _ in range(boards):
        cells = rng.sample(range(pool), side * side - (free is not None))
        if free is not None:
            cells.insert(free, -1)
        goals.append([mask([cells[cell] for cell in line]) for line in lines_of(side, side, free)])
    return goals


def full_goals(boards: int, cells: int, pool: int, seed: int) -> list[list[int]]:
    """Return the goals of random boards for a game for full boards."""
    rng = Random(seed)
    return [[mask(rng.sample(range(pool), cells))] for _ in range(boards)]


def subsets(pool: int, size: int) -> list[int]:
    return [mask(items) for items in combinations(range(pool), size)]


def boards_reached(goals: Sequence[Sequence[int]], called: int) -> int:
    """Return how many boards have a line among the called items."""
    return sum(any(line & called == line for line in lines) for lines in goals)


def possible_first_wins(goals: Sequence[Sequence[int]], pool: int) -> set[tuple[int, int]]:
    """Return every (call, number of first winners) that some order brings about: by trying all sets and last calls."""
    found = set()
    for size in range(pool):
        for called in subsets(pool, size):
            if boards_reached(goals, called) == 0:
                for item in range(pool):
                    winners = boards_reached(goals, called | 1 << item)
                    if winners:
                        found.add((size + 1, winners))
    return found


def least_span(goals: Sequence[Sequence[int]], pool: int) -> int:
    """Return the fewest calls from the first win to the last: by trying all pairs of sets, one within the other."""
    everyone = [called for size in range(pool + 1) for called in subsets(pool, size)]
    nobody = [called for called in everyone if boards_reached(goals, called) == 0]
    done = [called for called in everyone if boards_reached(goals, called) == len(goals)]
    return min((late ^ early).bit_count() for late in done for early in nobody if early & late == early)
