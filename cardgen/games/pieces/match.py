"""Things that belong together, as plain data: pairs, and the pages on which they are joined by lines."""

from dataclasses import dataclass

from cardgen.games.pieces.cards import Card


@dataclass(frozen=True, slots=True)
class Pair:
    """Two things that belong together, each as a card with its id; `one` comes first in reading order.

    `word` is the word of their picture, None for letters. `curve` are the digits of the cut between them, empty for a
    straight one; `sign` the number of the pattern that tells on their backs that they belong together, None where the
    backs stay blank.
    """

    key: str
    one: Card
    other: Card
    word: str | None = None
    curve: tuple[int, ...] = ()
    sign: int | None = None

    @property
    def cards(self) -> tuple[Card, Card]:
        """Both, in order."""
        return self.one, self.other


@dataclass(frozen=True, slots=True)
class LinePage:
    """A page on which lines are drawn: what stands on its left and right, from top to bottom; None is the example.

    `lines` are the answers as places on the left and on the right, from 0; there is none for the example. With `few`
    letters on the left several lines lead to one of them, and the example has a row of its own above.
    """

    number: int
    left: tuple[Card | None, ...]
    right: tuple[Card | None, ...]
    lines: tuple[tuple[int, int], ...]
    few: bool = False

    @property
    def left_rows(self) -> tuple[float, ...]:
        """In which rows of the right side, from 0, the things on the left stand: few are spread, some between two."""
        count = len(self.left)
        if not self.few:
            return tuple(map(float, range(count)))
        return tuple((place + 0.5) * len(self.right) / count - 0.5 for place in range(count))
