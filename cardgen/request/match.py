"""What a teacher asks for in a matching game."""

from dataclasses import dataclass
from enum import Enum

from cardgen.errors import TeacherError
from cardgen.request.common import Backs, CardsRequest

MOST_PAIRS = 100
MOST_PAGES = 100


class PairKind(Enum):
    """What belongs together: small letter and capital, letter and picture, picture and word."""

    LETTERS = "letters"
    PICTURES = "pictures"
    WORDS = "words"


class MatchForm(Enum):
    """How it is played: loose cards, halves that fit together, or lines drawn on a page."""

    CARDS = "cards"
    HALVES = "halves"
    PAGE = "page"


class CutLine(Enum):
    """How a pair is cut in two: along a curve that only the right halves share, or straight."""

    WAVE = "wave"
    STRAIGHT = "straight"


@dataclass(frozen=True, kw_only=True, slots=True)
class MatchRequest(CardsRequest):
    """Things that belong together in pairs; what is None is chosen by how many letters are known.

    `pairs_per` is the number of pairs of every sound, `count` that of all pairs; `pages` how many different pages to
    draw lines on; `cut_line` how halves are cut; `self_check` prints a common sign on both backs of a pair; `big`
    makes larger cards.
    """

    pairs: PairKind | None = None
    form: MatchForm = MatchForm.CARDS
    pairs_per: int | None = None
    count: int | None = None
    pages: int = 1
    cut_line: CutLine = CutLine.WAVE
    self_check: bool = False
    big: bool = False

    def __post_init__(self) -> None:
        # The zero-argument super() does not work in a dataclass with slots: the class is made anew.
        CardsRequest.__post_init__(self)
        self._check_numbers()
        self._check_form()
        if self.form is MatchForm.CARDS and not self.self_check and self.backs not in (None, Backs.NONE, Backs.FOLD):
            raise TeacherError(
                "The backs of these cards stay white, so there is nothing to print on them.",
                "Leave out --backs; with --backs fold a white back is folded behind each card, so nothing shines "
                "through.",
            )
        if self.self_check and self.backs is Backs.NONE:
            raise TeacherError("--self-check is printed on the backs.", "Leave out --backs none or --self-check.")
        if self.big and self.layout:
            raise TeacherError("--big and --layout both choose the size.", "Leave one of them out.")

    def _check_numbers(self) -> None:
        if self.pairs_per is not None and self.count is not None:
            raise TeacherError(
                "--pairs-per and --count both say how many pairs.",
                "Give the pairs of each sound (--pairs-per 4), or all of them (--count 12).",
            )
        if self.pairs_per is not None and not 1 <= self.pairs_per <= MOST_PAIRS:
            raise TeacherError(
                f"{self.pairs_per} pairs of each sound cannot be made.", "Choose 1 or more, for example --pairs-per 4."
            )
        if self.count is not None and not 2 <= self.count <= MOST_PAIRS:
            raise TeacherError(
                f"--count {self.count} cannot be made.",
                f"Choose 2 to {MOST_PAIRS}, for example --count 12.",
            )
        if not 1 <= self.pages <= MOST_PAGES:
            raise TeacherError(
                f"{self.pages} pages cannot be made.", f"Choose 1 to {MOST_PAGES}, for example --pages 4."
            )
        asked = "--pairs-per" if self.pairs_per is not None else "--count" if self.count is not None else ""
        if asked and self.pairs is PairKind.LETTERS:
            raise TeacherError(
                f"Letters make one pair a sound, so {asked} has nothing to count.",
                "Leave it out and name more sounds, or ask for pictures: --pairs pictures",
            )

    def _check_form(self) -> None:
        """Refuse options that the form asked for has no use for."""
        of_cards = {
            "--self-check": self.self_check,
            "--big": self.big,
            "--laminate": self.laminate,
            "--backs": self.backs is not None,
            "--back-shift": self.back_shift.x != 0 or self.back_shift.y != 0,
        }
        of_pieces = {
            "--sets": self.sets != 1,
            "--gap": self.gap is not None,
            "--margin": self.margin is not None,
            "--layout": self.layout is not None,
            "--cut": self.cut is not None,
        }
        if self.form is not MatchForm.CARDS:
            self._refuse(of_cards, "--form cards")
        if self.form is MatchForm.PAGE:
            self._refuse(of_pieces, "--form cards or --form halves")
        if self.form is not MatchForm.HALVES:
            self._refuse({"--cut-line straight": self.cut_line is not CutLine.WAVE}, "--form halves")
        if self.form is not MatchForm.PAGE:
            self._refuse({"--pages": self.pages != 1}, "--form page")

    def _refuse(self, options: dict[str, bool], form: str) -> None:
        given = next((option for option, is_given in options.items() if is_given), None)
        if given:
            raise TeacherError(
                f"{given} does nothing for --form {self.form.value}.", f"Leave it out, or choose {form}."
            )
