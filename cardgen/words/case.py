"""What a rule judges, one reading of a word under one letter-sound, and what it answers, a reason for the teacher."""

from dataclasses import dataclass
from enum import Enum

from cardgen.words.sounds import Phones, Sound, SoundTable, is_vowel, plain


class Fit(Enum):
    """How well a word suits a letter-sound; `GOOD` as the weight of a reason is a remark only."""

    GOOD = "good"
    CAUTION = "caution"
    WRONG = "wrong"


class Rule(Enum):
    """The hazards, by name."""

    OTHER_SOUND = "other sound"
    LETTER_MISMATCH = "letter mismatch"
    SILENT_FIRST = "silent first letter"
    SILENT_SECOND = "silent second letter"
    LONG_VOWEL = "long vowel"
    Y_GLIDE = "y glide"
    DIPHTHONG = "diphthong"
    R_COLOUR = "vowel with r"
    SCHWA = "schwa"
    SECOND_STRESS = "second stress"
    NG_RAISE = "vowel before ng"
    NASAL = "vowel before n or m"
    EG_RAISE = "vowel before g"
    COT_CAUGHT = "o or aw"
    TRIPHTHONG = "triphthong"
    DARK_L = "vowel before l"
    AFFRICATED = "tr or dr"
    BLEND = "blend"
    QU = "qu"
    WH = "wh"
    VOICED_TH = "voiced th"
    X = "x"
    LETTER_NAME = "letter name"
    ACCENT = "accent"
    LONG_WORD = "long word"
    VARIANTS = "variants"
    OTHER_NAME = "other name"
    CURATED = "curated"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a word is no plain yes: the rule, how much it weighs, and the sentence for the teacher.

    `names` are the other names that the sentence is about, if it is about names.
    """

    rule: Rule
    weight: Fit
    text: str
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Case:
    """One reading of one word, judged for one letter-sound.

    `written` is the part of the name that is judged, `curated` whether a person decided on the reading.
    """

    word: str
    written: str
    phones: Phones
    sound: Sound
    sounds: SoundTable
    curated: bool

    @property
    def heard(self) -> Phones:
        """The phones without stress."""
        return plain(self.phones)

    @property
    def first(self) -> str:
        """The first phone without stress."""
        return self.heard[0]

    @property
    def second(self) -> str:
        """The second phone without stress, empty if there is none."""
        return self.heard[1] if len(self.heard) > 1 else ""

    @property
    def onset(self) -> Phones:
        """The consonants before the first vowel."""
        vowel = next((at for at, phone in enumerate(self.phones) if is_vowel(phone)), len(self.phones))
        return self.heard[:vowel]

    @property
    def begins_with_vowel(self) -> bool:
        """Whether the first phone is a vowel."""
        return is_vowel(self.phones[0])

    @property
    def is_heard(self) -> bool:
        """Whether the sound is heard where the key asks for it."""
        return self.sound.is_heard_in(self.phones)
