"""What games are made of, as plain data. The sheets read nothing else of the games.

The request's enums are handed on from here, because the sheets look no further than this page.
"""

from dataclasses import dataclass
from fractions import Fraction

from cardgen.request import Call as Call
from cardgen.request import Cut as Cut
from cardgen.request import Face as Face
from cardgen.request import Goal as Goal
from cardgen.request import Ink as Ink
from cardgen.request import Paper as Paper


@dataclass(frozen=True, slots=True)
class Item:
    """What a cell or card can hold: a picture word, or (on letter boards) a letter as it is printed.

    `id` names it in the plan: the word, or the printed letter (`m`, `M`, `qu`). `letter` is the printed letter of its
    sound, `word` the word said for it (None where only the sound is called).
    """

    id: str
    key: str
    letter: str
    word: str | None
    alt: str


@dataclass(frozen=True, slots=True)
class SayLine:
    """How one sound is said: its letter as printed, the sound ("mmm"), held or short, the mouth, what not to say."""

    key: str
    letter: str
    say: str
    held: bool
    mouth: str
    avoid: str


@dataclass(frozen=True, slots=True)
class Imprint:
    """What every sheet of a game tells of itself: the command's name, the sounds, the seed that makes it again."""

    game: str
    keys: tuple[str, ...]
    seed: int


@dataclass(frozen=True, slots=True)
class Card:
    """A loose card: its id in the plan, and what its front shows (a picture word or a letter as printed, or nothing).

    A card with neither has a dotted square to draw in.
    """

    id: str
    picture: str | None = None
    letter: str | None = None
    alt: str = ""


@dataclass(frozen=True, slots=True)
class CatalogueEntry:
    """A picture of the library under one of its sounds; `cautions` are empty for a good word."""

    word: str
    picture: str
    alt: str
    cautions: tuple[str, ...]
    is_key_picture: bool


@dataclass(frozen=True, slots=True)
class CataloguePart:
    """All pictures of one sound, with its letters as printed and how it is said."""

    key: str
    letters: str
    say: str
    entries: tuple[CatalogueEntry, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """One block of the teacher's page: a bold head and its paragraphs."""

    head: str
    paragraphs: tuple[str, ...]


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
class PaperUse:
    """What printing and cutting takes: sheets of paper, guillotine cuts (in stacks of ten) and about how many minutes.

    `board_sheets` and `card_sheets` are parts of `sheets`; `scissors` is the number of cuts one by one.
    """

    sheets: int
    board_sheets: int
    card_sheets: int
    cuts: int
    minutes: int
    scissors: int


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
