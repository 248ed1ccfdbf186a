"""How fair a class set is: what is measured, and the least that any set can have.

N boards of k filled cells from a pool of W items; r = boards that carry an item; λ = boards that carry two given items
together; o = items that two given boards share.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import comb

from cardgen.games.concurrence import spread
from cardgen.games.quota import Pool
from cardgen.games.shape import Shape

Boards = Sequence[Sequence[int]]


@dataclass(frozen=True, slots=True)
class Measures:
    """What `measure` found; pairs are (least, most).

    `frequency`: places of an item on the whole set (boards, where it stands at most once on each), over the pool and,
    where groups were asked for, within each. `positions`: times an item stands in one cell. `q`: Σ C(λ,2) over pairs
    of different items; `q_bound`: the least that any set with the same shares can have. `equal_lines`: Σ C(v,2) over
    item sets, v = lines of the whole set that hold exactly these items. `equal_boards`: pairs of boards with the same
    items.
    """

    frequency: tuple[int, int]
    frequency_by_group: tuple[tuple[int, tuple[int, int]], ...]
    positions: tuple[int, int]
    q: int
    q_bound: int
    equal_lines: int
    equal_boards: int


def measure(boards: Boards, shape: Shape, pool: Pool) -> Measures:
    """Return the measures of boards given as rows of symbols, one for each filled cell."""
    group_of = dict(zip(pool.symbols, pool.groups, strict=True))
    places = Counter(dict.fromkeys(group_of, 0))
    in_cell = Counter({(symbol, cell): 0 for symbol in group_of for cell in range(shape.cells)})
    together: Counter[tuple[int, int]] = Counter()
    lines: Counter[tuple[int, ...]] = Counter()
    for board in boards:
        places.update(board)
        in_cell.update((symbol, cell) for cell, symbol in enumerate(board))
        together.update(combinations(sorted(set(board)), 2))
        lines.update(tuple(sorted(board[cell] for cell in line)) for line in shape.lines)
    return Measures(
        frequency=_ends(places.values()),
        frequency_by_group=tuple(
            (group, _ends([count for symbol, count in places.items() if group_of[symbol] == group]))
            for group, _ in pool.shares
            if pool.grouped
        ),
        positions=_ends(in_cell.values()),
        q=_pairs(together.values()),
        q_bound=q_bound(len(boards), shape.cells, pool, places),
        equal_lines=_pairs(lines.values()),
        equal_boards=_pairs(Counter(tuple(sorted(board)) for board in boards).values()),
    )


def q_bound(boards: int, cells: int, pool: Pool, places: Mapping[int, int]) -> int:
    """Return a number that Q = Σ C(λ,2) = Σ C(o,2) cannot fall below.

    `places[symbol]` is how often a symbol stands on the whole set. Both sums spread a total that the places fix:
    Σ o = Σ C(r,2) over pairs of boards, Σ λ over pairs of items. Where each group has its share of every board, the
    pairs within a group and those across groups have totals of their own.
    """
    copies = Counter(pool.symbols)
    carriers = [-(-count // copies[symbol]) for symbol, count in places.items()]
    by_boards = spread(sum(comb(count, 2) for count in carriers), comb(boards, 2))
    if len(copies) < len(pool.symbols):
        kinds = _least_kinds(boards, pool, places)
        return max(by_boards, spread(boards * comb(kinds, 2), comb(len(copies), 2)))
    bound, met_within, pairs_within = 0, 0, 0
    for group, _ in pool.shares:
        members = pool.members(group)
        on_each, odd = divmod(sum(places[pool.symbols[item]] for item in members), boards)
        met = (boards - odd) * comb(on_each, 2) + odd * comb(on_each + 1, 2)
        bound += spread(met, comb(len(members), 2))
        met_within += met
        pairs_within += comb(len(members), 2)
    across = spread(boards * comb(cells, 2) - met_within, comb(len(pool.symbols), 2) - pairs_within)
    return max(by_boards, bound + across)


def _least_kinds(boards: int, pool: Pool, places: Mapping[int, int]) -> int:
    """Return how many different symbols stand on every board at the least, where the pool holds copies."""
    kinds = 0
    for group, _ in pool.shares:
        copies = Counter(pool.symbols[item] for item in pool.members(group))
        left = sum(places[symbol] for symbol in copies) // boards
        for number in sorted(copies.values(), reverse=True):
            if left <= 0:
                break
            left -= number
            kinds += 1
    return kinds


def _ends(counts: Collection[int]) -> tuple[int, int]:
    return min(counts), max(counts)


def _pairs(counts: Iterable[int]) -> int:
    return sum(comb(count, 2) for count in counts)
