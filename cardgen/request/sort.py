"""What a teacher can ask of a sorting game."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request.common import CardsRequest

LEAST_SOUNDS, MOST_SOUNDS = 2, 3
USUAL_CARDS, MOST_CARDS, MOST_FOILS = 6, 12, 12


class Mat(Enum):
    """What lies under the cards.

    A mat with the week's letters and key pictures; a blank one, laminated once, on which their cards are laid; or none,
    because the blank ones are there already.
    """

    PRINTED = "printed"
    BLANK = "blank"
    NONE = "none"


@dataclass(frozen=True, kw_only=True, slots=True)
class SortRequest(CardsRequest):
    """Mats and cards to sort by two or three sounds.

    `cards` is how many cards each sound has, None for six, or as many as the scarcest sound can give; `foils` how many
    cards belong to none of the sounds, 0 for no such place; `mat` what is printed under the cards; `key` adds a page
    with every card in its place.
    """

    cards: int | None = None
    foils: int = 0
    mat: Mat = Mat.PRINTED
    key: bool = False

    def __post_init__(self) -> None:
        CardsRequest.__post_init__(self)  # a dataclass with slots has no super() of its own
        self._check_sounds()
        if self.cards is not None and not 1 <= self.cards <= MOST_CARDS:
            raise TeacherError(
                f"A side of the mat has no room for {self.cards} cards.",
                f"Choose 1 to {MOST_CARDS} cards a sound, for example --cards {USUAL_CARDS}.",
            )
        if not 0 <= self.foils <= MOST_FOILS:
            raise TeacherError(
                f"{self.foils} cards for the place of neither sound is out of range.",
                f"Choose 0 to {MOST_FOILS}, for example --foils 4.",
            )
        if self.punch and self.mat is not Mat.NONE:
            raise TeacherError(
                "A mat fills its sheet: there is no room for holes.", "Leave out --punch, or print no mats: --mat none"
            )

    def _check_sounds(self) -> None:
        number = len(self.all_keys)
        if number < LEAST_SOUNDS:
            second = "m" if self.all_keys[0] == "s" else "s"
            raise TeacherError(
                "Sorting needs two sounds, and there is one.",
                f"Name a second one, for example: cardgen sort {self.all_keys[0]} {second}",
            )
        if number > MOST_SOUNDS:
            raise TeacherError(
                f"{number} sounds do not fit on one mat.", f"Sort by two sounds, or by {MOST_SOUNDS} at most."
            )
