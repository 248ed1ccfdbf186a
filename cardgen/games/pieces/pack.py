"""A pack to take home, as plain data: its cover, its sorting strip, and which cards each child gets."""

from dataclasses import dataclass

from cardgen.games.pieces.common import SayLine
from cardgen.games.pieces.links import Link


@dataclass(frozen=True, slots=True)
class Cover:
    """The cover of a pack: a code to hear (None without one), how the sounds are said, the teacher's own text.

    `own_face` tells that the text is set in the typeface she brought. `code` says in words what the code opens.
    """

    link: Link | None
    code: str
    says: tuple[SayLine, ...]
    text: str = ""
    own_face: bool = False


@dataclass(frozen=True, slots=True)
class StripField:
    """One side of a sorting strip: its letters (capital, small), its key picture (None: letters alone)."""

    key: str
    letters: tuple[str, str]
    picture: str | None
    alt: str


@dataclass(frozen=True, slots=True)
class FamilyLetter:
    """A page for the family, where the teacher's text is too long for the cover."""

    cover: Cover
    title: str
