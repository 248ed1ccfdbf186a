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
class Block:
    """One block of the teacher's page: a bold head and its paragraphs."""

    head: str
    paragraphs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PaperUse:
    """What printing and cutting takes.

    `parts` are the sheets of paper by what is on them ("boards", 12); `cuts` guillotine cuts in stacks of ten, which
    take about `minutes`; `scissors` cuts one by one; `ink` the share of the paper that is inked, 0 to 1, an estimate.
    `turned_on` is the edge on which two-sided sheets are turned (long or short), None where one side is printed;
    `folded` sheets have the backs beside the fronts; `by_hand` all is cut with scissors; `mixed_piles` hold cards of
    two sets; `marks_at_edge` may not be printed by every printer.
    """

    parts: tuple[tuple[str, int], ...]
    cuts: int
    minutes: int
    scissors: int
    ink: float
    turned_on: str | None = None
    folded: bool = False
    by_hand: bool = False
    mixed_piles: bool = False
    marks_at_edge: bool = False

    @property
    def sheets(self) -> int:
        """How many sheets of paper in all."""
        return sum(count for _, count in self.parts)
