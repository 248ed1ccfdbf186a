"""What a teacher can ask of writing sheets."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request.common import SheetRequest

X_HEIGHTS = (20.0, 15.0, 12.0, 10.0, 8.0, 6.0)  # mm between the writing line and the one above it
USUAL_X_HEIGHT, BIG_X_HEIGHT = 12.0, 20.0
MOST_WORDS = 2


class LetterCase(Enum):
    """Which letters are written: the small one and the capital, or one of them."""

    BOTH = "both"
    CAPITAL = "capital"
    SMALL = "small"


@dataclass(frozen=True, kw_only=True, slots=True)
class TraceRequest(SheetRequest):
    """Writing sheets, one a sound.

    `x_height` is the height of small letters in the rows in mm, None for 12 (20 with `big`); `words` is how many words
    (0 to 2) stand on the back of each sheet; `lift` lifts the pen where some schools do, `left_handed` puts the models
    at the right end of the rows, `big` makes a road for the finger.
    """

    case: LetterCase = LetterCase.BOTH
    words: int = 0
    x_height: float | None = None
    big: bool = False
    lift: bool = False
    left_handed: bool = False

    def __post_init__(self) -> None:
        SheetRequest.__post_init__(self)  # a dataclass with slots has no super() of its own
        if self.x_height is not None and self.x_height not in X_HEIGHTS:
            sizes = ", ".join(f"{size:g}" for size in X_HEIGHTS[:-1])
            raise TeacherError(
                f"There are no lines for an x-height of {self.x_height:g} mm.",
                f"There are {sizes} and {X_HEIGHTS[-1]:g} mm, for example --x-height {USUAL_X_HEIGHT:g}.",
            )
        if self.layout is not None:
            raise TeacherError(
                "Writing sheets have no layouts.", "Choose their lines, for example --x-height 10, or --big."
            )
        if not 0 <= self.words <= MOST_WORDS:
            raise TeacherError(
                f"There is no room for {self.words} words on a sheet.",
                f"Choose 0 to {MOST_WORDS}; they stand on the back, for example --words 2.",
            )

    @property
    def row_x_height(self) -> float:
        """The height of small letters in the rows, in mm."""
        return self.x_height or (BIG_X_HEIGHT if self.big else USUAL_X_HEIGHT)
