"""What every request shares: paper, ink, accent, and the record that each command's request builds on."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.units import Size

MOST_SEED = 10**9
MOST_SETS = 100
MOST_SHIFT_MM, MOST_GAP_MM, MOST_MARGIN_MM = 5.0, 30.0, 40.0


class Paper(Enum):
    """A sheet's format, portrait (ISO 216 A4; ANSI A, called Letter)."""

    A4 = "a4"
    LETTER = "letter"

    @property
    def size(self) -> Size:
        """Width and height in mm."""
        return Size(210.0, 297.0) if self is Paper.A4 else Size(215.9, 279.4)


class Ink(Enum):
    """How the sheet is printed: in colour, in greys, or as line art without halftones."""

    COLOUR = "colour"
    GREY = "grey"
    LINE = "line"


class Accent(Enum):
    """Whose English is spoken."""

    US = "us"
    GB = "gb"


class Face(Enum):
    """What stands in a cell or on a card."""

    PICTURE = "picture"
    PICTURE_WORD = "picture-word"
    WORD = "word"
    LOWERCASE = "lowercase"
    CAPITAL = "capital"
    LETTERS = "letters"

    @property
    def is_letter(self) -> bool:
        """Whether the cells hold letters; else they hold words or pictures."""
        return self in (Face.LOWERCASE, Face.CAPITAL, Face.LETTERS)


class Call(Enum):
    """What the caller says or shows; it decides what the game practises."""

    WORD = "word"
    SOUND = "sound"
    CARD = "card"
    NAME = "name"


class Goal(Enum):
    """What wins: a row, column or diagonal, or the whole board."""

    LINE = "line"
    BOARD = "board"


class Backs(Enum):
    """How the backs of cards get onto the paper.

    Printed on the other side, turned on the long or the short edge of the sheet; beside the fronts, to be folded over
    and glued; or not at all.
    """

    DUPLEX_LONG = "duplex-long"
    DUPLEX_SHORT = "duplex-short"
    FOLD = "fold"
    NONE = "none"


class Cut(Enum):
    """How the sheets are cut: thin lines to follow with scissors, or marks at the edge for a guillotine."""

    SCISSORS = "scissors"
    GUILLOTINE = "guillotine"


class Codes(Enum):
    """Where square codes stand that lead to recordings: on every card's back, one for the whole pack, or nowhere."""

    CARD = "card"
    PACK = "pack"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Shift:
    """How far the backs are moved, in mm, to the right and down; TeacherError beyond what a printer can be off by."""

    x: float = 0.0
    y: float = 0.0

    def __post_init__(self) -> None:
        if not (abs(self.x) <= MOST_SHIFT_MM and abs(self.y) <= MOST_SHIFT_MM):
            raise TeacherError(
                f"A back shift of {self.typed} mm is more than any printer is off by.",
                f"Measure it with `cardgen ruler`; at most {MOST_SHIFT_MM:.0f} mm each way, for example 1.5,-0.5.",
            )

    @property
    def typed(self) -> str:
        """The shift as it is typed."""
        return f"{self.x:g},{self.y:g}"


@dataclass(frozen=True, kw_only=True, slots=True)
class SheetRequest:
    """What every sheet has in common; each command's request adds its own fields, named as its options are.

    `keys` are the letter-sounds of the lesson, `review` older ones that play along; `careful` takes no word with a
    caution; `only` names the pieces to print again (numbers or card ids), empty for all; `pictures` is the folder of
    the teacher's own pictures; `open_pictures` takes an openly licensed set for words that are not drawn;
    `home_language` adds what speakers of that first language find hard; `layout` is a format's name or file; `punch`
    leaves the left edge free for holes; words to `prefer` are taken first, words to `avoid` never.

    `link` is the address of the folder of listening pages, `links` a table (CSV) with the address of each recording;
    `codes` says where codes stand (None: as the sheet needs); `clips` is the folder of recordings: a code for one that
    is not in it is refused unless `codes_anyway`. `font` is a typeface of the teacher's own, for her own text.
    """

    keys: tuple[str, ...]
    review: tuple[str, ...] = ()
    paper: Paper = Paper.A4
    ink: Ink = Ink.COLOUR
    accent: Accent = Accent.US
    seed: int
    careful: bool = False
    only: tuple[str, ...] = ()
    cut: Cut | None = None
    pictures: str | None = None
    open_pictures: bool = False
    home_language: str | None = None
    layout: str | None = None
    punch: bool = False
    prefer: tuple[str, ...] = ()
    avoid: tuple[str, ...] = ()
    link: str | None = None
    links: str | None = None
    codes: Codes | None = None
    clips: str | None = None
    codes_anyway: bool = False
    font: str | None = None

    def __post_init__(self) -> None:
        if not self.keys:
            raise TeacherError("No sound was named.", "Name the lesson's sounds, for example: m s t b")
        for key in self.keys:
            if self.all_keys.count(key) > 1:
                raise TeacherError(f"The sound {key} is named twice.", "Name every sound once.")
        if not 0 <= self.seed <= MOST_SEED:
            raise TeacherError(
                f"A seed of {self.seed} is out of range.", f"Choose a whole number from 0 to {MOST_SEED}."
            )
        self._check_links()

    def _check_links(self) -> None:
        if self.link is None and self.links is None:
            if self.codes not in (None, Codes.NONE):
                raise TeacherError(
                    "Codes need a link to lead to.", "Add --link https://… or a table of links with --links FILE.csv."
                )
            if self.clips is not None:
                raise TeacherError("--clips looks after codes, and there is no link.", "Add --link, or leave it out.")
        if self.codes_anyway and self.clips is None:
            raise TeacherError("--codes-anyway goes with --clips.", "Leave it out, or add --clips FOLDER.")

    @property
    def all_keys(self) -> tuple[str, ...]:
        """Every letter-sound of the game: the lesson's first, then the older ones."""
        return self.keys + self.review


@dataclass(frozen=True, kw_only=True, slots=True)
class CardsRequest(SheetRequest):
    """What every sheet of loose cards has in common.

    `sets` is how often the whole deck is printed; `backs` how its backs get onto the paper (None: as the game needs);
    `back_shift` moves the backs right and down by so many mm, for a printer that does not meet the front; `margin` and
    `gap` in mm override those of the layout; `laminate` leaves room for film between the cards and rounds them.
    """

    sets: int = 1
    backs: Backs | None = None
    back_shift: Shift = Shift()
    margin: float | None = None
    gap: float | None = None
    laminate: bool = False

    def __post_init__(self) -> None:
        # The zero-argument super() does not work in a dataclass with slots: the class is made anew.
        SheetRequest.__post_init__(self)
        if not 1 <= self.sets <= MOST_SETS:
            raise TeacherError(f"{self.sets} sets cannot be made.", f"Choose 1 to {MOST_SETS}, for example --sets 12.")
        for name, value, most in (("margin", self.margin, MOST_MARGIN_MM), ("gap", self.gap, MOST_GAP_MM)):
            if value is not None and not 0 <= value <= most:
                raise TeacherError(f"--{name} {value:g} is out of range.", f"Give 0 to {most:.0f} mm.")
        if self.laminate and self.gap is not None:
            raise TeacherError("--laminate sets the gap itself.", "Leave out --gap or --laminate.")


@dataclass(frozen=True, kw_only=True, slots=True)
class CatalogueRequest(SheetRequest):
    """The picture library on paper, for choosing at the desk; nothing in it is left to chance."""

    seed: int = 0
