"""Pieces that more than one game has, and what sheets tell of themselves."""

from dataclasses import dataclass


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
class Block:
    """One block of the teacher's page: a bold head and its paragraphs."""

    head: str
    paragraphs: tuple[str, ...]


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
