"""What a teacher asks for in take-home packs."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request.common import Backs, CardsRequest, Codes, Cut, Face, Ink

MOST_CHILDREN = 100
LEAST_CARDS, MOST_CARDS = 5, 54
LONGEST_TEXT = 600  # letters
USUAL_CARDS = 9  # places of one sheet
MOST_SOUNDS = 8  # that the cover has room for


class ReviewMode(Enum):
    """Which earlier sounds come back: all evenly, or those of the last lesson and of 2, 4, 8 … lessons ago."""

    EVEN = "even"
    GROWING = "growing"


@dataclass(frozen=True, kw_only=True, slots=True)
class PackRequest(CardsRequest):
    """Packs of cards to take home, one a child.

    `cards` is how many a pack has, its cover counted (None: as many as one sheet takes); `show` a picture alone, or
    with its word in small print for the grown-up; `vary` gives each child another choice of words; `review_mode` says
    which of the `review` sounds, named in the order they were taught, come back; `family` is the home language in
    which the code on the cover tells how to play; `text` is the teacher's own for the family.
    """

    ink: Ink = Ink.LINE
    children: int = 24
    cards: int | None = None
    show: Face = Face.PICTURE_WORD
    vary: bool = False
    review_mode: ReviewMode = ReviewMode.EVEN
    family: str | None = None
    text: str | None = None

    def __post_init__(self) -> None:
        # The zero-argument super() does not work in a dataclass with slots: the class is made anew.
        CardsRequest.__post_init__(self)
        if not 1 <= self.children <= MOST_CHILDREN:
            raise TeacherError(
                f"Packs for {self.children} children cannot be made.",
                f"--children takes a number, 1 to {MOST_CHILDREN}; a larger school prints class by class.",
            )
        if self.cards is not None and not LEAST_CARDS <= self.cards <= MOST_CARDS:
            raise TeacherError(
                f"A pack of {self.cards} cards cannot be made.",
                f"--cards takes {LEAST_CARDS} to {MOST_CARDS}; a sheet takes {USUAL_CARDS}, the cover is one of them.",
            )
        if len(self.keys) > MOST_SOUNDS:
            raise TeacherError(
                f"{len(self.keys)} sounds are too many for one pack.",
                f"Name this week's, at most {MOST_SOUNDS}; earlier ones come back with --review.",
            )
        if self.show not in (Face.PICTURE, Face.PICTURE_WORD):
            raise TeacherError(
                f"The pictures of a pack cannot show {self.show.value}.", "--show takes picture or picture-word."
            )
        if self.text is not None and not 1 <= len(self.text.strip()) <= LONGEST_TEXT:
            raise TeacherError(
                f"The text for the family has {len(self.text.strip())} letters.", f"Write 1 to {LONGEST_TEXT}."
            )
        if self.font is not None and self.text is None:
            raise TeacherError("--font is for your own text, and there is none.", 'Add --text "…", or leave it out.')
        self._check_codes()

    def _check_codes(self) -> None:
        if self.family is not None and self.link is None and self.links is None:
            raise TeacherError("How to play can be heard only behind a code.", "Add --link https://…")
        if self.codes is Codes.CARD and self.backs in (None, Backs.NONE) and not self.is_large:
            raise TeacherError(
                "Codes for single cards stand on their backs, and this sheet has none.",
                "Add --backs fold, or --backs duplex-long; --codes pack puts one code on the cover.",
            )
        if self.codes is Codes.CARD and self.backs is Backs.NONE:
            raise TeacherError("Codes for single cards stand on their backs.", "Leave out --backs none.")
        if self.cut is Cut.GUILLOTINE and self.backs is Backs.FOLD:
            raise TeacherError("Folded sheets have no guillotine marks.", "Leave out --cut, or choose other --backs.")

    @property
    def is_large(self) -> bool:
        """Whether a pack of more cards than one sheet takes is asked for: with pairs, backs and a sorting strip."""
        return self.cards is not None and self.cards > USUAL_CARDS
