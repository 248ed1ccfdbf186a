"""Many random games side by side: bit g of every integer belongs to game g.

Each game's order is drawn only as far as it matters. The items that may yet hold the deciding call are split at random
into an earlier and a later part, again and again, by one random bit for each item and game (the digits of the moments
at which they are called). Whether the goal is reached within the earlier part tells in which one the deciding call
lies. In the end one item is left in every game: the call that reaches the goal.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from random import Random

# From the games in which each item has been called, to the games in which the goal is reached. Calling more items
# must never undo it, and with all items called it must be reached in every game.
Reached = Callable[[Sequence[int]], int]


def calls_needed(reached: Reached, pool: int, games: int, rng: Random) -> tuple[Fraction, ...]:
    """Return the share of `games` random games in which `reached` holds after n calls, for n = 0 to `pool`."""
    called = [0] * pool
    undecided = [(1 << games) - 1] * pool
    while _any_doubt(undecided):
        earlier = [games_left & rng.getrandbits(games) for games_left in undecided]
        won = reached([before | part for before, part in zip(called, earlier, strict=True)])
        called = [before | (part & ~won) for before, part in zip(called, earlier, strict=True)]
        undecided = [
            (part & won) | (games_left & ~part & ~won) for games_left, part in zip(undecided, earlier, strict=True)
        ]
    return _shares(called, games)


def _any_doubt(undecided: Sequence[int]) -> bool:
    """Return whether some game has more than one undecided item."""
    once = more = 0
    for games in undecided:
        more |= once & games
        once |= games
    return more != 0


def _shares(called: Sequence[int], games: int) -> tuple[Fraction, ...]:
    """Return the share of games with at most n calls, the deciding one after those `called` included."""
    digits = [0] * len(called).bit_length()
    for carry in called:
        for place, digit in enumerate(digits):
            digits[place] = digit ^ carry
            carry &= digit
    shares = [Fraction(0)]
    for number in range(len(called)):
        games_with = (1 << games) - 1
        for place, digit in enumerate(digits):
            games_with &= digit if number >> place & 1 else ~digit
        shares.append(shares[-1] + Fraction(games_with.bit_count(), games))
    return tuple(shares)
