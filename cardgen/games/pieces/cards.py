"""Loose cards: what is on their two sides, before they have a place on paper."""

from dataclasses import dataclass
from enum import Enum

from cardgen.games.pieces.common import SayLine
from cardgen.games.pieces.links import Link
from cardgen.games.pieces.pack import Cover, StripField


class SideSign(Enum):
    """The sign of a sound's side, on the places of its mat and the backs of its cards; never a circle: it reads o."""

    SQUARE = "square"
    TRIANGLE = "triangle"
    HEXAGON = "hexagon"
    STAR = "star"


@dataclass(frozen=True, slots=True)
class CardFace:
    """One side of a card; where nothing is set it stays white.

    `picture` is the name of a picture and `alt` what it shows; `word` a word to read, under the picture if there is
    one; `letter` a letter as printed (`m`, `M`, `qu`), `pair` a capital with its small letter; `sign` the sign of its
    side; `pattern` a number from 1 that both cards of a pair carry as a pattern of blocks; `code` an address behind
    a square code; `say` how its sound is said, for the teacher who holds the card up; `note` small print for the
    grown-up; `to_draw` a dotted square to draw in; `cover` the cover of a pack; `strip` the sides of a sorting strip.
    """

    picture: str | None = None
    alt: str = ""
    word: str | None = None
    letter: str | None = None
    pair: tuple[str, str] | None = None
    sign: SideSign | None = None
    pattern: int | None = None
    code: Link | None = None
    say: SayLine | None = None
    note: str = ""
    to_draw: bool = False
    cover: Cover | None = None
    strip: tuple[StripField, ...] = ()


BLANK = CardFace()


@dataclass(frozen=True, slots=True)
class Card:
    """A loose card: its id in the plan (`m-moon`, `m`, `M`), its front and its back."""

    id: str
    front: CardFace
    back: CardFace = BLANK
