"""How often each item of a pool stands on a class set, and a first deal that keeps to it.

Everything here is exact rounding: a number that cannot be whole is rounded down or up, never further, on every level
at once (group, printed symbol, single item; whole set, single board).
"""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from random import Random


@dataclass(frozen=True, slots=True)
class Pool:
    """What boards are dealt from; items are numbered from 0.

    `symbols[i]` is what is printed for item i (two items may be copies of one symbol), `groups[i]` its group (its
    sound), and `shares` the part of every board that each group takes, together 1. Where no groups were asked for all
    items are in one.
    """

    symbols: tuple[int, ...]
    groups: tuple[int, ...]
    shares: tuple[tuple[int, Fraction], ...]
    grouped: bool = True

    @classmethod
    def of(
        cls, symbols: Sequence[int], groups: Sequence[int] | None = None, weights: Mapping[int, int] | None = None
    ) -> "Pool":
        """Return a pool; without `groups` it is one group, without `weights` each group takes its part of the pool."""
        grouped, groups = groups is not None, [0] * len(symbols) if groups is None else groups
        if len(groups) != len(symbols):
            raise ValueError(f"{len(symbols)} items, but the groups of {len(groups)}")
        weights = weights or Counter(groups)
        whole = sum(weights.values())
        shares = tuple((group, Fraction(weights[group], whole)) for group in sorted(set(groups)))
        return cls(tuple(symbols), tuple(groups), shares, grouped)

    def members(self, group: int) -> list[int]:
        """Return the items of one group."""
        return [item for item, its_group in enumerate(self.groups) if its_group == group]

    def check(self, boards: int, cells: int) -> None:
        """ValueError if there is no board to deal, or a group has fewer items than its share of the cells needs."""
        if boards < 1 or cells > len(self.symbols):
            raise ValueError(f"{boards} boards of {cells} cells cannot be dealt from {len(self.symbols)} items")
        for group, share in self.shares:
            if ceil(cells * share) > len(self.members(group)):
                raise ValueError(f"group {group} has too few items for {float(cells * share):.2f} cells on each board")


def round_shares(total: int, shares: Sequence[Fraction], rng: Random) -> list[int]:
    """Return whole numbers that add up to `total`, each a share rounded down or up; chance picks those rounded up."""
    whole = [floor(share) for share in shares]
    odd = [index for index, share in enumerate(shares) if share != whole[index]]
    for index in rng.sample(odd, total - sum(whole)):
        whole[index] += 1
    return whole


def take_turns(sizes: Sequence[int], quotas: Sequence[int], rng: Random) -> list[list[int]]:
    """Return for each board the `size` different numbers it takes, so that number i is taken `quotas[i]` times.

    Each board takes what has the largest quota left, ties at random. That never gets stuck (Gale and Ryser) if the
    sizes or the quotas differ by no more than one, no quota exceeds the boards and no size the number of quotas.
    """
    left = list(quotas)
    taken = []
    for size in sizes:
        order = sorted(range(len(left)), key=lambda index: (-left[index], rng.random()))[:size]
        for index in order:
            left[index] -= 1
        taken.append(order)
    if any(left):
        raise ValueError(f"the quotas {list(quotas)} cannot be dealt to boards of {sorted(set(sizes))}")
    return taken


def deal_sets(boards: int, cells: int, pool: Pool, rng: Random) -> list[set[int]]:
    """Return the items of each board, at random: every item as often as any, every group with its share of cells.

    On the whole set each group, symbol and item stands ⌊n⌋ or ⌈n⌉ times, n being its exact part of all cells; on each
    board each group fills ⌊cells × share⌋ or ⌈cells × share⌉ cells, and the odd cells go round.
    """
    shares = [share for _, share in pool.shares]
    totals = round_shares(boards * cells, [boards * cells * share for share in shares], rng)
    base = [floor(cells * share) for share in shares]
    odd = [total - boards * least for total, least in zip(totals, base, strict=True)]
    turns = take_turns([cells - sum(base)] * boards, odd, rng)
    dealt: list[set[int]] = [set() for _ in range(boards)]
    for index, (group, share) in enumerate(pool.shares):
        members = pool.members(group)
        quotas = _item_quotas(totals[index], boards * cells * share, members, pool.symbols, rng)
        sizes = [base[index] + (index in turn) for turn in turns]
        for board, turn in zip(dealt, take_turns(sizes, quotas, rng), strict=True):
            board.update(members[place] for place in turn)
    return dealt


def odd_cells(sets: Sequence[Collection[int]], groups: Sequence[int]) -> list[set[int]]:
    """Return for each board the groups that fill one cell more there than on other boards."""
    filled = [Counter(groups[item] for item in items) for items in sets]
    least = {group: min(counts[group] for counts in filled) for group in set(groups)} if sets else {}
    return [{group for group, cells in counts.items() if cells > least[group]} for counts in filled]


def _item_quotas(total: int, exact: Fraction, members: Sequence[int], symbols: Sequence[int], rng: Random) -> list[int]:
    """Return how often each member of a group stands on the set: first rounded for each symbol, then for its copies."""
    each = exact / len(members)
    copies: dict[int, list[int]] = {}
    for place, item in enumerate(members):
        copies.setdefault(symbols[item], []).append(place)
    quotas = [0] * len(members)
    by_symbol = round_shares(total, [each * len(places) for places in copies.values()], rng)
    for places, symbol_total in zip(copies.values(), by_symbol, strict=True):
        for place, quota in zip(places, round_shares(symbol_total, [each] * len(places), rng), strict=True):
            quotas[place] = quota
    return quotas
