"""Draws words by chance under a rule: so many of every kind, none that clashes with another, the best first."""

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

ATTEMPTS = 60


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose: its kind, its rank (0 is taken first) and the numbers of the options it clashes with."""

    kind: str
    rank: int
    clashes: frozenset[int]


def draw(options: Sequence[Option], wanted: Mapping[str, int], rng: random.Random) -> list[int]:
    """Return the numbers of chosen options: up to `wanted` of each kind, no two that clash.

    Kinds come in the order of `wanted`, within a kind the order is that of choice, the lower ranks first. The best of
    60 greedy attempts, by how many are missing and then by rank; it stops early when none can be better.
    """
    floor = _floor(options, wanted)
    best = _attempt(options, wanted, rng, ORDERS[0])
    for number in range(1, ATTEMPTS):
        if _cost(options, wanted, best) <= floor:
            break
        chosen = _attempt(options, wanted, rng, ORDERS[number % len(ORDERS)])
        if _cost(options, wanted, chosen) < _cost(options, wanted, best):
            best = chosen
    best.sort(key=lambda number: options[number].rank)
    return [number for kind in wanted for number in best if options[number].kind == kind]


# What an attempt goes by, chance deciding among equals. Taking the best ranks first may shut out more than it gains,
# so every other attempt looks at the clashes first, or at nothing.
ORDERS: tuple[Callable[[Option], tuple[int, ...]], ...] = (
    lambda option: (option.rank,),
    lambda option: (option.rank, len(option.clashes)),
    lambda option: (len(option.clashes), option.rank),
    lambda _: (),
)


def _attempt(
    options: Sequence[Option],
    wanted: Mapping[str, int],
    rng: random.Random,
    order_of: Callable[[Option], tuple[int, ...]],
) -> list[int]:
    """Take options in an order while they are wanted and clash with none taken."""
    order = list(range(len(options)))
    rng.shuffle(order)
    order.sort(key=lambda number: order_of(options[number]))
    left = dict(wanted)
    chosen: list[int] = []
    taken: set[int] = set()
    for number in order:
        option = options[number]
        if left[option.kind] > 0 and not option.clashes & taken:
            chosen.append(number)
            taken.add(number)
            left[option.kind] -= 1
    return chosen


Cost = tuple[int, int, int]


def _cost(options: Sequence[Option], wanted: Mapping[str, int], chosen: Sequence[int]) -> Cost:
    """Return how many are missing, the most that one kind misses, and the sum of the ranks."""
    missing = {kind: count - sum(options[number].kind == kind for number in chosen) for kind, count in wanted.items()}
    return sum(missing.values()), max(missing.values()), sum(options[number].rank for number in chosen)


def _floor(options: Sequence[Option], wanted: Mapping[str, int]) -> Cost:
    """Return the cost that nothing can beat, as if nothing clashed."""
    missing, ranks = [0], 0
    for kind, count in wanted.items():
        best = sorted(option.rank for option in options if option.kind == kind)[:count]
        missing.append(count - len(best))
        ranks += sum(best)
    return sum(missing), max(missing), ranks
