"""Bingo games that count: a sound is called, or a card shown, and each child covers one cell that fits.

Board b needs `needs[b][s]` cells of symbol s; the caller has `supply[s]` calls of it. The child chooses the cell, so
that only the full board can be the goal, and it is reached when each symbol has been called at least as often as the
board needs it: how often each symbol has been called (a count vector) decides, in whatever order.
"""

from collections.abc import Sequence
from fractions import Fraction
from functools import reduce
from math import comb
from operator import and_, or_
from random import Random

from cardgen.games.length import GAMES, spread
from cardgen.games.pieces import Length
from cardgen.games.random_games import calls_needed

# How many groups of boards, full at the same time, are followed before games are played instead.
MOST_GROUPS = 4_096

Needs = Sequence[Sequence[int]]


def check_counts(needs: Needs, supply: Sequence[int]) -> None:
    """Raise ValueError unless there are boards that need something, each no more of a symbol than can be called."""
    if not needs or not all(len(board) == len(supply) and sum(board) for board in needs):
        raise ValueError("every board needs cells, and a count for every symbol")
    if any(not 0 <= need <= calls for board in needs for need, calls in zip(board, supply, strict=True)):
        raise ValueError("a board needs a symbol more often than it can be called")


def replay_counts(needs: Needs, calls: Sequence[int]) -> tuple[int | None, ...]:
    """Play a game and return for every board the call (from 1) on which it was full, None if it never was."""
    won_on: list[int | None] = []
    for board in needs:
        missing = list(board)
        full = None
        for number, symbol in enumerate(calls, start=1):
            missing[symbol] = max(0, missing[symbol] - 1)
            if not any(missing):
                full = number
                break
        won_on.append(full)
    return tuple(won_on)


def length_by_counts(needs: Needs, supply: Sequence[int], rng: Random) -> Length:
    """Return how many calls it takes, in chance order, until the first board is full, and until every board is.

    Exact, unless the boards' needs differ in too many ways: then as many games are played as the spread says.
    ValueError for boards without cells, or with more of a symbol than can be called.
    """
    check_counts(needs, supply)
    distinct = list(dict.fromkeys(map(tuple, needs)))
    everything = tuple(map(max, zip(*distinct, strict=True)))
    last = spread(_chances(_ways([everything], supply) or {}, supply))
    ways = _ways(distinct, supply)
    if ways is not None:
        return Length(spread(_chances(ways, supply)), last)
    return Length(spread(_played(distinct, supply, rng), GAMES), last)


def _ways(boards: Needs, supply: Sequence[int]) -> dict[int, list[int]] | None:
    """Return, by the group of boards (a mask) that are full, in how many ways n copies can have been called.

    Copies of a symbol count as different here. Groups without boards are left out; None if there are too many groups.
    """
    ways = {(1 << len(boards)) - 1: [1]}
    for symbol, copies in enumerate(supply):
        full = full_groups([board[symbol] for board in boards], copies)
        longer: dict[int, list[int]] = {}
        for group, by_calls in ways.items():
            for called, enough in enumerate(full):
                if group & enough:
                    total = longer.setdefault(group & enough, [0] * (len(by_calls) + copies))
                    for calls, number in enumerate(by_calls):
                        total[calls + called] += number * comb(copies, called)
        ways = longer
        if len(ways) > MOST_GROUPS:
            return None
    return ways


def full_groups(needs: Sequence[int], copies: int) -> list[int]:
    """Return for 0 to `copies` calls of one symbol the mask of the boards that need no more of it."""
    return [sum(1 << board for board, need in enumerate(needs) if need <= called) for called in range(copies + 1)]


def _chances(ways: dict[int, list[int]], supply: Sequence[int]) -> list[Fraction]:
    """Return P(T ≤ n) for n = 0 to all calls."""
    total = sum(supply)
    return [Fraction(sum(by_calls[n] for by_calls in ways.values()), comb(total, n)) for n in range(total + 1)]


def _played(boards: Needs, supply: Sequence[int], rng: Random) -> tuple[Fraction, ...]:
    """Return P(T ≤ n) for the first full board, from games in which every copy of a symbol is an item of its own."""
    starts = [sum(supply[:symbol]) for symbol in range(len(supply))]

    def first(called: Sequence[int]) -> int:
        often = [_at_least(called[start : start + copies]) for start, copies in zip(starts, supply, strict=True)]
        return reduce(or_, [reduce(and_, [often[s][need] for s, need in enumerate(board) if need]) for board in boards])

    return calls_needed(first, sum(supply), GAMES, rng)


def _at_least(copies: Sequence[int]) -> list[int]:
    """Return for each number from 1 the games in which at least so many of the copies have been called."""
    often = [0] * (len(copies) + 1)
    for called in copies:
        for number in range(len(copies), 1, -1):
            often[number] |= often[number - 1] & called
        often[1] |= called
    return often
