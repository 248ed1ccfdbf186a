"""What a teacher asks for in flashcards."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request.common import CardsRequest, Codes, Face

MOST_WORDS = 30
LEAST_DISTANCE, MOST_DISTANCE = 0.5, 30.0  # metres


class CardCase(Enum):
    """Which letters stand on letter cards: capital and small together, on cards of their own, or one of the two."""

    BOTH = "both"
    APART = "apart"
    CAPITAL = "capital"
    SMALL = "small"


class BackFace(Enum):
    """What stands on the backs: the word (on letter cards how the sound is said), the letter, or nothing."""

    WORD = "word"
    LETTER = "letter"
    BLANK = "blank"


@dataclass(frozen=True, kw_only=True, slots=True)
class FlashcardsRequest(CardsRequest):
    """Letter cards and picture cards.

    `words` pictures a sound (0: letter cards only); `letters` false leaves the letter cards out; `face` is what the
    picture cards show; `distance` in metres is how far away the children sit: the cards get large enough for it.
    """

    case: CardCase = CardCase.BOTH
    letters: bool = True
    words: int = 6
    face: Face = Face.PICTURE
    back: BackFace = BackFace.WORD
    distance: float | None = None

    def __post_init__(self) -> None:
        # The zero-argument super() does not work in a dataclass with slots: the class is made anew.
        CardsRequest.__post_init__(self)
        if not 0 <= self.words <= MOST_WORDS:
            raise TeacherError(f"{self.words} pictures a sound cannot be had.", f"--words takes 0 to {MOST_WORDS}.")
        if not self.words and not self.letters:
            raise TeacherError("No card is left to print.", "Leave out --no-letters, or ask for --words 6.")
        if self.face.is_letter:
            raise TeacherError(
                f"Picture cards cannot show {self.face.value}.", "--face takes picture, picture-word or word."
            )
        if self.distance is not None and not LEAST_DISTANCE <= self.distance <= MOST_DISTANCE:
            raise TeacherError(
                f"A distance of {self.distance:g} m is not one to read cards from.",
                f"Give metres, {LEAST_DISTANCE:g} to {MOST_DISTANCE:g}, for example --distance 3.",
            )
        if self.codes is Codes.PACK:
            raise TeacherError("Loose cards have no cover for a code.", "--codes takes card or none here.")
        if self.distance is not None and self.layout:
            raise TeacherError("--distance chooses the size itself.", "Leave out --layout or --distance.")
