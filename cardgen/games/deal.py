"""A class set of balanced boards, from numbers alone: the pool in, the boards and how fair they are out.

What never gives way: every item as frequent as any other, in every cell equally often, every group (sound) with its
share of every board. Within that, items meet as evenly, and lines differ, as far as a fixed number of moves brings it.
"""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from random import Random

from cardgen.games.balance import Measures, measure, q_bound
from cardgen.games.concurrence import spread_meetings
from cardgen.games.cyclic import can_be_developed, develop
from cardgen.games.layout import lay_out
from cardgen.games.lines import part_lines
from cardgen.games.quota import Pool, deal_sets
from cardgen.games.shape import Shape, line_density

# Above this part of all possible lines, boards without any symmetry cannot keep their lines apart.
SCARCE = 0.6


@dataclass(frozen=True, slots=True)
class Effort:
    """How many moves each search may make before it is content: exchanges weighed, base boards and lines changed.

    There are `line_moves` for every hundred boards begun.
    """

    exchanges: int = 1_500_000
    base_moves: int = 12_000
    line_moves: int = 20_000


FULL = Effort()


@dataclass(frozen=True, slots=True)
class Dealt:
    """A class set: each board as its symbols, one for each filled cell row by row, and how fair the set is."""

    boards: tuple[tuple[int, ...], ...]
    measures: Measures


def deal(
    shape: Shape,
    boards: int,
    symbols: Sequence[int],
    rng: Random,
    *,
    groups: Sequence[int] | None = None,
    weights: Mapping[int, int] | None = None,
    effort: Effort = FULL,
) -> Dealt:
    """Return `boards` balanced boards from a pool of items.

    `symbols[i]` is what is printed for item i (equal numbers are copies of one symbol, which may then stand on one
    board as often as it has copies), `groups[i]` its group; with groups, each takes its share of every board: its
    part of the pool, or of the `weights` by group. ValueError if a group has fewer items than its share needs.
    """
    pool = Pool.of(symbols, groups, weights)
    pool.check(boards, shape.cells)
    tries = []
    for developed in _starts(shape, boards, pool):
        rows = _rows(shape, boards, developed, pool, rng, effort)
        measures = measure(rows, shape, pool)
        tries.append(Dealt(rows, measures))
        if not measures.equal_lines and (not developed or measures.q == measures.q_bound):
            break
    return min(tries, key=lambda dealt: (dealt.measures.equal_lines + dealt.measures.equal_boards, dealt.measures.q))


def _starts(shape: Shape, boards: int, pool: Pool) -> tuple[int, ...]:
    """Return how many boards to give a round symmetry, try after try until one is good."""
    size = len(pool.symbols)
    rest = boards % size
    scarce = _lines_are_scarce(shape, boards, pool)
    if can_be_developed(pool) and boards >= size:
        # Nothing else comes near where lines are scarce; where they are not, other boards may be as good, and varied.
        if scarce:
            return (boards - rest,)
        if not rest:
            return (boards, 0)
    return (0,) if scarce else (0, 0)


def _lines_are_scarce(shape: Shape, boards: int, pool: Pool) -> bool:
    return line_density(boards, len(set(pool.symbols)), shape) > SCARCE


def _rows(
    shape: Shape, boards: int, developed: int, pool: Pool, rng: Random, effort: Effort
) -> tuple[tuple[int, ...], ...]:
    """Return the boards as symbols, in random order: so many `developed`, the others dealt, spread and laid out."""
    # Where lines are scarce, base boards need twice the moves; a large set gets no better for more of the others.
    scarce = _lines_are_scarce(shape, boards, pool)
    base_moves = effort.base_moves if scarce else effort.base_moves // 2
    line_moves = effort.line_moves if scarce else effort.line_moves * -(-boards // 100)
    rows = develop(developed, shape, pool, rng, base_moves) if developed else []
    sets = deal_sets(boards - developed, shape.cells, pool, rng)
    bound = _bound(shape, [*rows, *sets], pool)
    spread_meetings(sets, pool.groups, bound, rng, effort.exchanges, others=rows)
    rows += lay_out(sets, pool.symbols, shape.cells, rng)
    part_lines(rows, shape, pool, rng, line_moves)
    rng.shuffle(rows)
    return tuple(tuple(pool.symbols[item] for item in row) for row in rows)


def _bound(shape: Shape, sets: Sequence[Collection[int]], pool: Pool) -> int:
    """Return the least Q of boards that carry every item as often as these do, copies of a symbol told apart."""
    items = replace(pool, symbols=tuple(range(len(pool.symbols))))
    return q_bound(len(sets), shape.cells, items, Counter(item for items in sets for item in items))
