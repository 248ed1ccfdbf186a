"""A quick check as plain data: what is asked, what there is to choose from, what counts as passed."""

from dataclasses import dataclass
from fractions import Fraction

from cardgen.request import PartKind


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to ring: `text` is the letter as printed or the picture's word, `picture` its name if it is one."""

    text: str
    key: str
    picture: str | None = None


@dataclass(frozen=True, slots=True)
class CheckTask:
    """One row: `sign` names the drawing before it, `place` (from 0) is where the right choice stands.

    `said` is the word or the sound that is said; `named` a sentence that names the picture asked about ("This is a
    moon."), `shown` that picture's name, None where the child only listens.
    """

    sign: str
    key: str
    said: str
    named: str
    shown: str | None
    choices: tuple[Choice, ...]
    place: int

    @property
    def answer(self) -> Choice:
        """The right choice."""
        return self.choices[self.place]


@dataclass(frozen=True, slots=True)
class CheckPart:
    """One part: `pass_mark` right of all its tasks are passed, `guess` is the chance of that by guessing alone."""

    number: int
    kind: PartKind
    tasks: tuple[CheckTask, ...]
    choices: int
    pass_mark: int
    guess: Fraction


@dataclass(frozen=True, slots=True)
class CheckVersion:
    """All parts of one version; its name is a letter, or empty where there is only one."""

    name: str
    parts: tuple[CheckPart, ...]


@dataclass(frozen=True, slots=True)
class OralCheck:
    """Letters to point at, row by row, `columns` in a row."""

    letters: tuple[str, ...]
    columns: int


@dataclass(frozen=True, slots=True)
class ShowMeCall:
    """One word that is called, and the letter card to be lifted."""

    word: str
    key: str
    letter: str


@dataclass(frozen=True, slots=True)
class ShowMe:
    """The check with lifted cards: which letters lie before each child, what is called, what counts as passed."""

    cards: tuple[str, ...]
    calls: tuple[ShowMeCall, ...]
    pass_mark: int
    guess: Fraction


@dataclass(frozen=True, slots=True)
class QuickCheck:
    """Everything that is checked; `notes` say what was done about words and choices, and why."""

    versions: tuple[CheckVersion, ...]
    oral: OralCheck | None
    show_me: ShowMe | None
    notes: tuple[str, ...]

    @property
    def parts(self) -> tuple[CheckPart, ...]:
        """The parts as the script reads them: the same in all versions but for the order of the choices."""
        return self.versions[0].parts if self.versions else ()
