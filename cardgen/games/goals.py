"""What a board has to reach, and who has reached it: the common ground of game length and call order.

The items of a pool are numbered from 0. A line is a bit mask over them; a board has reached its goal when every item
of at least one of its lines has been called. A board that must be filled has one line: all its items.
"""

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_

# For every board its lines, each a bit mask over the pool's items.
Goals = Sequence[Sequence[int]]


def items_of(line: int) -> Iterator[int]:
    """Yield the items of a bit mask, in rising order."""
    while line:
        lowest = line & -line
        yield lowest.bit_length() - 1
        line ^= lowest


def check_goals(goals: Goals, pool: int) -> None:
    """Raise ValueError unless there are boards, each with lines, each of items of a pool of `pool`."""
    if not goals or not all(goals):
        raise ValueError("every board needs at least one line")
    if not all(0 < line < 1 << pool for lines in goals for line in lines):
        raise ValueError(f"a line needs items, numbered 0 to {pool - 1}")


def full_boards(goals: Goals) -> bool:
    """Return whether every board has but one line: the game is then for full boards."""
    return all(len(lines) == 1 for lines in goals)


def shortest_line(goals: Goals) -> int:
    """Return the fewest calls with which any board can reach its goal."""
    return min(line.bit_count() for lines in goals for line in lines)


def most_at_once(goals: Goals, pool: int) -> int:
    """Return the most boards that have one item in a line: no call can make more boards win."""
    boards = [reduce(or_, lines) for lines in goals]
    return max(sum(board >> item & 1 for board in boards) for item in range(pool))
