"""Which of the chosen sounds are easily taken for one another, by ear or by eye, and what differs."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from itertools import combinations

from cardgen.errors import TeacherError
from cardgen.words.sounds import Sound, SoundTable

# c or k beside qu: the same first sound, but the letters keep them apart; see `contrasts`.
QU = "qu"


class By(Enum):
    """How two letter-sounds are taken for one another."""

    SOUND = "sound"
    EAR = "ear"
    EYE = "eye"
    HOME = "home"


@dataclass(frozen=True, slots=True)
class ClosePair:
    """Two keys that sound close; `very` when they are closest of all."""

    a: str
    b: str
    very: bool


@dataclass(frozen=True, slots=True)
class LookAlikes:
    """Letters that look alike and what tells them apart."""

    letters: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class HomeNote:
    """What speakers of one first language find hard: one key, or two they mix up; `source` may be "from memory"."""

    language: str
    keys: tuple[str, ...]
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Contrasts:
    """Everything known about sounds and letters that are easily mixed up."""

    by_ear: tuple[ClosePair, ...]
    by_eye: tuple[LookAlikes, ...]
    home: tuple[HomeNote, ...]

    @property
    def languages(self) -> tuple[str, ...]:
        """The first languages there are notes for."""
        return tuple(dict.fromkeys(note.language for note in self.home))


@dataclass(frozen=True, slots=True)
class Contrast:
    """A warning about chosen keys (two; one where a first language makes it hard), in one sentence."""

    keys: tuple[str, ...]
    by: By
    text: str


def contrasts(
    sounds: SoundTable, known: Contrasts, keys: tuple[str, ...], home_language: str | None = None
) -> tuple[Contrast, ...]:
    """Return what to look out for when these keys are taught together: same sound, by ear, by eye, first language.

    TeacherError for an unknown key or a first language there are no notes for.
    """
    chosen = sounds.several(keys)
    pairs = list(combinations(chosen, 2))
    found = [warning for a, b in pairs for warning in _pair_warnings(known, a, b)]
    if home_language is not None:
        found += _home_warnings(known, chosen, home_language)
    return tuple(found)


def _pair_warnings(known: Contrasts, a: Sound, b: Sound) -> Iterator[Contrast]:
    both = (a.key, b.key)
    if _sound_alike(a, b):
        yield Contrast(both, By.SOUND, f"{a.key} and {b.key} sound the same: no ear can tell them apart.")
    elif QU in both and {a.name, b.name} & {"k"}:
        other = a.key if b.key == QU else b.key
        yield Contrast(both, By.SOUND, f"qu begins with the same sound as {other}: queen starts like kite.")
    elif close_by_ear(known, a, b):
        yield Contrast(both, By.EAR, f"{a.key} and {b.key} sound close{_made_apart(a, b)}.")
    if a.letter == b.letter:
        yield Contrast(both, By.EYE, f"{a.key} and {b.key} are written with the same letter, {a.letter}.")
    else:
        for look in known.by_eye:
            yield from _eye_warning(look, a, b)


def close_by_ear(known: Contrasts, a: Sound, b: Sound) -> ClosePair | None:
    """Return the pair's record when two sounds (whatever key they are named by) are close, else None."""
    names = {a.name, b.name}
    return next((pair for pair in known.by_ear if {pair.a, pair.b} == names), None)


def _made_apart(a: Sound, b: Sound) -> str:
    """Return what the mouth does differently, part by part: ": lips together for m, …", empty if it is not known."""
    apart = [(one, other) for one, other in zip(a.made, b.made, strict=False) if one != other]
    if not apart:
        return ""
    of_a = ", ".join(one for one, _ in apart)
    of_b = ", ".join(other for _, other in apart)
    return f": {a.key} – {of_a}; {b.key} – {of_b}"


def _eye_warning(look: LookAlikes, a: Sound, b: Sound) -> Iterator[Contrast]:
    """Yield a warning when the letters of both keys, small or capital, are among the look-alikes."""
    one = [form for form in _forms(a) if form in look.letters]
    other = [form for form in _forms(b) if form in look.letters]
    if one and other:
        yield Contrast((a.key, b.key), By.EYE, f"{one[0]} and {other[0]} look alike: {look.why}.")


def _forms(sound: Sound) -> tuple[str, ...]:
    """Return the single letters a child sees: qu counts as q, for it is the q that is mixed up."""
    letter = "q" if sound.key == QU else sound.letter
    return (letter, letter.upper()) if len(letter) == 1 else ()


def home_notes(known: Contrasts, language: str) -> tuple[HomeNote, ...]:
    """Return the notes on one first language; TeacherError naming the known ones if there are none."""
    wanted = language.strip().lower()
    notes = tuple(note for note in known.home if note.language.lower() == wanted)
    if not notes:
        raise TeacherError(
            f'There are no notes for the first language "{language}".',
            f"There are notes for {', '.join(known.languages)}.",
        )
    return notes


def home_sentence(note: HomeNote) -> str:
    """Return a note on a first language as a sentence for the teacher, with its source."""
    # "p and b are mixed up", but "p and b: p may come out as b".
    colon = ":" if note.text.split()[0] in note.keys else ""
    return f"Often hard for speakers of {note.language}: {' and '.join(note.keys)}{colon} {note.text} ({note.source})."


def _home_warnings(known: Contrasts, chosen: tuple[Sound, ...], language: str) -> list[Contrast]:
    by_name = {sound.name: sound.key for sound in chosen}
    return [
        Contrast(tuple(by_name[key] for key in note.keys), By.HOME, home_sentence(note))
        for note in home_notes(known, language)
        if all(key in by_name for key in note.keys)
    ]


def _sound_alike(a: Sound, b: Sound) -> bool:
    return a.name == b.name and a.end == b.end


def same_sound(sounds: SoundTable, keys: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Return the pairs of keys that no ear can tell apart (c and k); TeacherError for an unknown key."""
    pairs = combinations(sounds.several(keys), 2)
    return tuple((a.key, b.key) for a, b in pairs if _sound_alike(a, b))


def check_by_ear(sounds: SoundTable, keys: tuple[str, ...]) -> None:
    """Refuse keys that cannot stand in one game played by ear.

    TeacherError when two of them have one sound, or when sounds at the start and at the end of words are mixed.
    """
    for a, b in same_sound(sounds, keys):
        raise TeacherError(
            f"{a} and {b} sound the same, so nobody can sort them by ear.",
            "Take only one of them, or play by eye, with the letters' names: --call name --show lowercase",
        )
    ends = [sound.key for sound in sounds.several(keys) if sound.end]
    starts = [sound.key for sound in sounds.several(keys) if not sound.end]
    if ends and starts:
        raise TeacherError(
            f"{_listed(ends)} is heard at the end of words, {_listed(starts)} at the start: one game by ear cannot "
            "mix them (fox begins with f and ends with x).",
            f"Make two games: one with {' '.join(starts)}, one with {' '.join(ends)}.",
        )


def _listed(keys: list[str]) -> str:
    return " and ".join([", ".join(keys[:-1]), keys[-1]]) if len(keys) > 1 else keys[0]
