"""A class set of bingo as plain data."""

from dataclasses import dataclass
from fractions import Fraction

from cardgen.games.pieces.common import Item
from cardgen.request import Call, Face, Goal


@dataclass(frozen=True, slots=True)
class Board:
    """One child's board: item ids row by row, None for the free centre."""

    number: int
    face: Face
    rows: int
    columns: int
    cells: tuple[str | None, ...]


@dataclass(frozen=True, slots=True)
class CallStep:
    """One call: the item (or, when a sound is called over pictures, the key), what is said, who has won by it.

    `picture` and `alt` show the word that is said, where one is; `winners` are the boards that reach the goal on this
    call for the first time.
    """

    number: int
    item: str
    say: str
    key: str
    letter: str
    picture: str | None
    alt: str
    winners: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Balance:
    """How fair a class set is; see `games/balance.py` for the definitions.

    `frequency`: least and most boards an item stands on; `positions`: least and most times an item stands in one cell;
    `q` = Σ C(λ,2) over pairs of items, λ = boards that carry both, and `q_bound` the least that any set can have;
    `equal_lines` = Σ C(v,2) over item sets, v = lines of the whole set that carry it.
    """

    frequency: tuple[int, int]
    frequency_by_key: tuple[tuple[str, tuple[int, int]], ...]
    positions: tuple[int, int]
    q: int
    q_bound: int
    equal_lines: int


@dataclass(frozen=True, slots=True)
class Spread:
    """How long a game lasts, in calls, when the order is left to chance: mean and 10th, 50th, 90th percentile.

    A percentile is the least number of calls n with P(T ≤ n) at or above it. `games` is the number of games played to
    find out, None when the figures are exact.
    """

    mean: Fraction
    p10: int
    p50: int
    p90: int
    games: int | None = None


@dataclass(frozen=True, slots=True)
class Length:
    """The calls until the first board reaches the goal, and until the last one has."""

    first: Spread
    last: Spread


@dataclass(frozen=True, slots=True)
class BingoGame:
    """A whole class set: everything that is printed, before anything has a place on paper."""

    items: tuple[Item, ...]
    boards: tuple[Board, ...]
    calls: tuple[CallStep, ...]
    call: Call
    goal: Goal
    free: bool
    balance: Balance
    length: Length
    notes: tuple[str, ...]
