"""Which items meet on a board: pairs of items should meet equally often, and boards share equally many items.

Both are one aim: Σ C(λ,2) over pairs of items (λ = boards that carry both) equals Σ C(o,2) over pairs of boards
(o = items that both carry). The sum is called Q. Exchanging one item between two boards keeps every item as frequent
as it was.
"""

from collections.abc import Collection, Sequence
from math import comb
from operator import itemgetter
from random import Random

from cardgen.games.quota import odd_cells

# Looking at two boards costs about as much as weighing this many exchanges between them.
LOOK = 30
# An exchange may raise Q by 1 with this chance, by 2 with its square, and so on; not in the last fifth of a walk.
SLIP = 1 / 100

Table = list[list[int]]


def meetings(sets: Sequence[Collection[int]], pool: int) -> Table:
    """Return λ as a table: on how many boards two different items meet (0 on the diagonal)."""
    table = [[0] * pool for _ in range(pool)]
    for items in sets:
        for item in items:
            row = table[item]
            for other in items:
                row[other] += 1
    for item in range(pool):
        table[item][item] = 0
    return table


def concurrence(table: Table) -> int:
    """Return Q = Σ C(λ,2) over all pairs of items."""
    return sum(comb(table[item][other], 2) for item in range(len(table)) for other in range(item))


def spread(total: int, parts: int) -> int:
    """Return the least Σ C(x,2) of `parts` whole numbers x that add up to `total`: as even as can be."""
    if not parts:
        return 0
    each, odd = divmod(total, parts)
    return (parts - odd) * comb(each, 2) + odd * comb(each + 1, 2)


def spread_meetings(
    sets: list[set[int]],
    groups: Sequence[int],
    bound: int,
    rng: Random,
    moves: int,
    others: Sequence[Collection[int]] = (),
) -> None:
    """Exchange items between boards of `sets`, in place, until Q is at `bound` or the moves are spent.

    Q counts `others` too, boards of the same set that stay as they are. Items of one group are exchanged, or two odd
    cells of different groups, so that each group keeps its share. Two boards are drawn, all exchanges between them
    weighed at once, and one of those that do not make Q worse is carried out: a walk over almost level ground, which
    gets lower here than cooling down slowly from worse states.
    """
    table = meetings([*others, *sets], len(groups))
    q = concurrence(table)
    odd = odd_cells(sets, groups)
    steady = moves // 5
    while moves > 0 and q > bound and len(sets) > 1:
        moves -= LOOK
        one, two = _draw_two(len(sets), rng)
        only_one, only_two = sorted(sets[one] - sets[two]), sorted(sets[two] - sets[one])
        # Boards that differ in one item would only change places.
        if len(only_one) < 2:
            continue
        moves -= len(only_one) ** 2
        slip = draw_slip(rng, SLIP) if moves > steady else 0
        found = _exchanges(table, only_one, only_two, groups, odd[one] - odd[two], odd[two] - odd[one], slip)
        if not found:
            continue
        mine, yours, change = found[rng.randrange(len(found))]
        for board in (one, two):
            sets[board] ^= {mine, yours}
            if groups[mine] != groups[yours]:
                odd[board] ^= {groups[mine], groups[yours]}
        note_exchange(table, mine, yours, only_one, only_two)
        q += change


def draw_slip(rng: Random, chance: float) -> int:
    """Return how much worse the next move may be: a whole number, so that every machine decides alike."""
    slip = 0
    while rng.random() < chance:
        slip += 1
    return slip


def _draw_two(number: int, rng: Random) -> tuple[int, int]:
    """Return two different numbers below `number`, at random."""
    one, two = rng.randrange(number), rng.randrange(number - 1)
    return one, two + (two >= one)


def _exchanges(
    table: Table,
    only_one: list[int],
    only_two: list[int],
    groups: Sequence[int],
    odd_one: Collection[int],
    odd_two: Collection[int],
    slip: int,
) -> list[tuple[int, int, int]]:
    """Return every exchange (item of the first board, item of the second, change of Q) that raises Q by `slip` at most.

    `odd_…` are the groups that have an odd cell on one of the two boards only. With pull(i) = Σ λ(i, items only on the
    first) − Σ λ(i, items only on the second), m items on each side, exchanging x for y changes Q by
    pull(y) − pull(x) − 2 λ(x, y) + 2 (m − 1).
    """
    of_one, of_two = itemgetter(*only_one), itemgetter(*only_two)
    edge = 2 * (len(only_one) - 1)
    offers: dict[int, list[tuple[int, int]]] = {}
    for yours in only_two:
        row = table[yours]
        offers.setdefault(groups[yours], []).append((yours, sum(of_one(row)) - sum(of_two(row)) + edge))
    odd_offers = [offer for group in odd_two for offer in offers.get(group, ())]
    found = []
    for mine in only_one:
        row, group = table[mine], groups[mine]
        pull = sum(of_one(row)) - sum(of_two(row))
        for yours, offer in (*offers.get(group, ()), *odd_offers) if group in odd_one else offers.get(group, ()):
            change = offer - pull - 2 * row[yours]
            if change <= slip:
                found.append((mine, yours, change))
    return found


def exchange_change(table: Table, mine: int, yours: int, only_one: Collection[int], only_two: Collection[int]) -> int:
    """Return how much Q changes when the first board gives `mine` for `yours`; `only_…` are what it alone carries."""
    row_mine, row_yours = table[mine], table[yours]
    change = sum(row_yours[other] - row_mine[other] + 1 for other in only_one if other != mine)
    return change + sum(row_mine[other] - row_yours[other] + 1 for other in only_two if other != yours)


def note_exchange(table: Table, mine: int, yours: int, only_one: Collection[int], only_two: Collection[int]) -> None:
    """Bring λ up to date after the first board gave `mine` for `yours`; what both boards carry meets as before."""
    for loser, winner, company in ((mine, yours, only_one), (yours, mine, only_two)):
        losing, winning = table[loser], table[winner]
        for other in company:
            if other != loser:
                losing[other] -= 1
                table[other][loser] -= 1
                winning[other] += 1
                table[other][winner] += 1
