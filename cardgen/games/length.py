"""How long a bingo game lasts when the order of calls is left to chance.

One board: inclusion and exclusion over its lines. With c_u = Σ (−1)^(lines+1) over the non-empty sets of lines whose
union has u items, and T the call on which the board reaches its goal in a pool of W items,
P(T ≤ n) = Σ c_u·C(W−u, n−u)/C(W, n) and E[T] = (W+1)·Σ c_u·u/(u+1); a full board of k items has the one term c_k = 1.
A class set: exact over all call sets of pools up to 24 items, above by playing random games.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from functools import reduce
from math import comb
from operator import and_, or_
from random import Random

from cardgen.games.goals import Goals, check_goals, full_boards, items_of
from cardgen.games.pieces import Length, Spread
from cardgen.games.random_games import calls_needed
from cardgen.games.subsets import CallSets, can_be_listed

GAMES = 20_000
# Above this many different lines fewer games are played, to stay within about a second.
MANY_LINES = 3_000
FEWER_GAMES = 5_000


def union_counts(lines: Sequence[int]) -> dict[int, int]:
    """Return c_u by u, without zeros: non-empty sets of `lines` by the size of their union, odd sets less even ones."""
    signed: Counter[int] = Counter()
    for line in lines:
        # Each earlier set of lines, and the empty one, is joined by this line, which changes its sign.
        joined = Counter({line: 1})
        for union, sign in signed.items():
            joined[union | line] -= sign
        for union, sign in joined.items():
            signed[union] += sign
    counts: Counter[int] = Counter()
    for union, sign in signed.items():
        counts[union.bit_count()] += sign
    return {size: count for size, count in sorted(counts.items()) if count}


def one_board_cdf(lines: Sequence[int], pool: int) -> tuple[Fraction, ...]:
    """Return P(T ≤ n) for n = 0 to `pool` calls: the chance that one board has reached its goal by then."""
    counts = union_counts(lines)
    return tuple(
        Fraction(sum(count * comb(pool - u, n - u) for u, count in counts.items() if u <= n), comb(pool, n))
        for n in range(pool + 1)
    )


def mean_calls(lines: Sequence[int], pool: int) -> Fraction:
    """Return E[T], the calls that one board needs on average, out of a pool of `pool` items."""
    return (pool + 1) * sum((Fraction(count * u, u + 1) for u, count in union_counts(lines).items()), Fraction(0))


def full_board(items: int, pool: int) -> Fraction:
    """Return the calls that it takes on average until all `items` of one board have been called."""
    return Fraction(items * (pool + 1), items + 1)


def spread(cdf: Sequence[Fraction], games: int | None = None) -> Spread:
    """Return mean and percentiles of a game length whose P(T ≤ n) is `cdf[n]`, n = 0 up to a certain end."""
    p10, p50, p90 = (next(n for n, chance in enumerate(cdf) if chance >= Fraction(tenths, 10)) for tenths in (1, 5, 9))
    mean = sum((1 - chance for chance in cdf), Fraction(0))
    return Spread(mean, p10, p50, p90, games)


def length(goals: Goals, pool: int, rng: Random) -> Length:
    """Return how many calls it takes until the first board, and until every board, has reached its goal.

    Exact for one board, and for class sets with a pool of at most 24 items; else only the end of a game for full
    boards is, and the rest comes from as many random games as the spread says. ValueError for boards without lines or
    outside the pool.
    """
    check_goals(goals, pool)
    if len({tuple(sorted(lines)) for lines in goals}) == 1:
        alone = spread(one_board_cdf(goals[0], pool))
        return Length(alone, alone)
    if can_be_listed(goals, pool):
        return _exact(goals, pool)
    return _played(goals, pool, rng)


def _exact(goals: Goals, pool: int) -> Length:
    sets = CallSets(pool)
    of_size = [comb(pool, n) for n in range(pool + 1)]
    first, last = (
        spread([Fraction(count, number) for count, number in zip(sets.counts(family), of_size, strict=True)])
        for family in sets.any_and_all_reached(goals)
    )
    return Length(first, last)


def _played(goals: Goals, pool: int, rng: Random) -> Length:
    boards = [[tuple(items_of(line)) for line in lines] for lines in goals]
    lines = list(dict.fromkeys(line for board in boards for line in board))
    games = GAMES if len(lines) <= MANY_LINES else FEWER_GAMES

    def complete(line: tuple[int, ...], called: Sequence[int]) -> int:
        return reduce(and_, [called[item] for item in line])

    def first(called: Sequence[int]) -> int:
        return reduce(or_, [complete(line, called) for line in lines])

    def last(called: Sequence[int]) -> int:
        return reduce(and_, [reduce(or_, [complete(line, called) for line in board]) for board in boards])

    first_spread = spread(calls_needed(first, pool, games, rng), games)
    if full_boards(goals):
        every_item = reduce(or_, (board[0] for board in goals))
        return Length(first_spread, spread(one_board_cdf([every_item], pool)))
    return Length(first_spread, spread(calls_needed(last, pool, games, rng), games))
