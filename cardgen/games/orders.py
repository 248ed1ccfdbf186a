"""Orders of a few kinds of things in which no kind comes too often in a row, counted exactly and drawn evenly."""

import random
from collections.abc import Iterable, Sequence
from functools import cache


def count_orders(counts: Sequence[int], longest_run: int) -> int:
    """Return in how many orders things of several kinds can stand, `counts[k]` of kind k, no run over `longest_run`.

    Things of one kind are alike. With twice n things of two kinds and runs of at most two: 2, 6, 14, 34, 84, … (twice
    OEIS A003440).
    """
    return _ways(_sorted(counts), 0, 0, longest_run)


def orders_without_runs(counts: Sequence[int], longest_run: int, rng: random.Random) -> tuple[int, ...]:
    """Return one of those orders as the kinds' numbers, every order as likely as any other.

    Place by place each kind is taken as often as there are orders that go on with it: nothing is tried and thrown
    away. ValueError if there is no such order.
    """
    left = list(counts)
    order: list[int] = []
    last, room = -1, 0
    for _ in range(sum(counts)):
        weights = [_weight(left, kind, last, room, longest_run) for kind in range(len(left))]
        total = sum(weights)
        if total == 0:
            raise ValueError(f"{list(counts)} cannot be set in a row without more than {longest_run} alike")
        pick = rng.randrange(total)
        kind = 0
        while pick >= weights[kind]:
            pick -= weights[kind]
            kind += 1
        room = (room if kind == last else longest_run) - 1
        last = kind
        left[kind] -= 1
        order.append(kind)
    return tuple(order)


def even_order(length: int, kinds: int, longest_run: int, rng: random.Random) -> tuple[int, ...]:
    """Return an order of that length in which each kind stands ⌊length ÷ kinds⌋ or ⌈length ÷ kinds⌉ times.

    Every such order without a run over `longest_run` is equally likely: the kinds are alike, so which of them stand
    once more is drawn evenly first.
    """
    share, odd = divmod(length, kinds)
    more = set(rng.sample(range(kinds), odd))
    return orders_without_runs([share + (kind in more) for kind in range(kinds)], longest_run, rng)


def _weight(left: Sequence[int], kind: int, last: int, room: int, longest_run: int) -> int:
    """Return how many orders go on with `kind`, which may be the last one only while there is room in its run."""
    if left[kind] == 0 or (kind == last and room == 0):
        return 0
    now = (room if kind == last else longest_run) - 1
    rest = _sorted(count for other, count in enumerate(left) if other != kind)
    return _ways(rest, left[kind] - 1, now, longest_run)


def _sorted(counts: Iterable[int]) -> tuple[int, ...]:
    return tuple(sorted(count for count in counts if count))


@cache
def _ways(others: tuple[int, ...], own: int, room: int, longest_run: int) -> int:
    """Return the orders of what is left: `own` things of the last kind, `room` of which may follow at once, and others.

    Kinds with equally many things left are alike, so only their sorted numbers matter.
    """
    if not others and own == 0:
        return 1
    ways = _ways(others, own - 1, room - 1, longest_run) if own and room else 0
    for place, count in enumerate(others):
        if place and others[place - 1] == count:
            continue
        rest = _sorted((*others[:place], *others[place + 1 :], own))
        ways += others.count(count) * _ways(rest, count - 1, longest_run - 1, longest_run)
    return ways
