"""A sorting game as plain data: the sides of its mat, and the cards in the order in which they are drawn."""

from dataclasses import dataclass

from cardgen.games.pieces.cards import Card, SideSign


@dataclass(frozen=True, slots=True)
class SortSide:
    """One side of a mat: its sign, its letters (capital, small), its key picture, how many cards belong there.

    The side for neither sound has no key, no letters and no picture.
    """

    key: str | None
    sign: SideSign
    letters: tuple[str, str] | None
    picture: str | None
    alt: str
    places: int


@dataclass(frozen=True, slots=True)
class SortItem:
    """A card to sort, its place in the drawing order (from 1), its word, and its first (or last) sound: "mmm, held".

    `key` is None where it belongs to none of the sounds; `sound` is empty where it is not known.
    """

    number: int
    card: Card
    word: str
    key: str | None
    sign: SideSign
    sound: str


@dataclass(frozen=True, slots=True)
class SortGame:
    """A whole game: the sides of the mat, the side for neither sound (None without foils), and the cards in order.

    `lay` are the letter cards and key pictures that are laid on a blank mat; `ends` games go by the last sound.
    """

    sides: tuple[SortSide, ...]
    neither: SortSide | None
    items: tuple[SortItem, ...]
    lay: tuple[Card, ...]
    ends: bool

    @property
    def all_sides(self) -> tuple[SortSide, ...]:
        """Every side, that for neither sound last."""
        return self.sides + ((self.neither,) if self.neither else ())

    @property
    def cards(self) -> tuple[Card, ...]:
        """All loose cards: those to lay on the mat, then those to sort in drawing order."""
        return self.lay + tuple(item.card for item in self.items)

    def items_of(self, side: SortSide) -> tuple[SortItem, ...]:
        """Return the cards that belong to a side, in drawing order."""
        return tuple(item for item in self.items if item.key == side.key)
