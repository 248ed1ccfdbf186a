"""How a word is said: the bank first, then an override of the dictionary, then the dictionary itself.

The dictionary is American. Where British English regularly begins a word otherwise, its readings are turned; only
first sounds are cared for. A name of several parts is judged by its first part (ice cream), at its end by its last.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from cardgen.request import Accent
from cardgen.words.bank import Bank, Word
from cardgen.words.sounds import SCHWA, Phones, Sound, SoundTable, is_vowel, plain

BREAK = "·"  # between a short vowel and an r that begins the next syllable
SHORT_VOWELS = {"a": "AE", "e": "EH", "i": "IH"}

# Every reading of a word in the dictionary, in its order; empty when it does not know the word.
Dictionary = Callable[[str], tuple[Phones, ...]]


class Origin(Enum):
    """Who says how a word is said."""

    BANK = "bank"
    OVERRIDE = "override"
    DICTIONARY = "dictionary"


@dataclass(frozen=True, slots=True)
class Pronunciation:
    """How a word is said in one accent: one reading where a person decided, else all those of the dictionary.

    `reason` says why the dictionary was overruled, empty when it was not.
    """

    word: str
    readings: tuple[Phones, ...]
    origin: Origin
    reason: str = ""

    @property
    def is_curated(self) -> bool:
        """Whether a person decided on the one reading."""
        return self.origin is not Origin.DICTIONARY


def tidy(word: str) -> str:
    """Return a word as it is looked up: small letters, single spaces."""
    return " ".join(word.lower().split())


def parts(word: str) -> list[str]:
    """Return the parts of a name with spaces or hyphens, in order: ice, cream."""
    return [part for part in re.split(r"[\s-]+", tidy(word)) if part]


def pronounce(
    word: str, bank: Bank, dictionary: Dictionary, accent: Accent = Accent.US, *, at_end: bool = False
) -> Pronunciation | None:
    """Return how a word is said; None when neither bank nor dictionary know it.

    The dictionary is asked only for words outside the bank; `at_end` judges a name of several parts by its last one.
    """
    whole = tidy(word)
    known = _judged(whole, bank, accent) or _read(whole, dictionary, accent)
    split = parts(whole)
    if known is not None or len(split) < 2:
        return known
    part = split[-1 if at_end else 0]
    return _judged(part, bank, accent) or _read(part, dictionary, accent)


def pronounce_known(word: Word, accent: Accent) -> Pronunciation:
    """Return how a word of the bank is said in an accent."""
    return Pronunciation(word.word, (in_accent(word.word, word.phones, accent),), Origin.BANK, word.reason)


def in_bank(word: str, bank: Bank) -> Word | None:
    """Return the bank's record of a name, however its parts are joined (ice cream, ice-cream); None without one."""
    return bank.get(tidy(word)) or bank.get("-".join(parts(word)))


def _judged(name: str, bank: Bank, accent: Accent) -> Pronunciation | None:
    word = in_bank(name, bank)
    if word is not None:
        return pronounce_known(word, accent)
    override = bank.override(name)
    reading = override.reading(accent) if override else None
    return Pronunciation(name, (reading,), Origin.OVERRIDE, override.reason) if override and reading else None


def _read(name: str, dictionary: Dictionary, accent: Accent) -> Pronunciation | None:
    spoken = tuple(dict.fromkeys(in_accent(name, phones, accent) for phones in dictionary(name)))
    return Pronunciation(name, spoken, Origin.DICTIONARY) if spoken else None


def in_accent(word: str, phones: Phones, accent: Accent) -> Phones:
    """Return an American reading as its first sound is said in the accent.

    British English begins ostrich and off with short o, keeps the first vowel of orange and arrow short and apart
    from the r (BREAK between them), and says y after the first t or d of tube and dune. From memory of the standard
    descriptions of the two accents.
    """
    if accent is Accent.US:
        return phones
    first, second, *rest = (*plain(phones), "", "")
    stress, between_vowels = phones[0][-1], second == "R" and is_vowel(rest[0])
    if between_vowels and first == "AO" and word.startswith("or"):
        return ("AA" + stress, BREAK, *phones[1:])
    if between_vowels and re.match(r"[aei]rr", word):
        return (SHORT_VOWELS[word[0]] + stress, BREAK, *phones[1:])
    if first == "AO" and second != "R" and re.match(r"o[^ua]", word):
        return ("AA" + stress, *phones[1:])
    if first in ("T", "D") and second == "UW" and re.match(r"[td](u|ew)", word):
        return (phones[0], "Y", *phones[1:])
    return phones


def first_sounds(pronunciation: Pronunciation, sounds: SoundTable) -> tuple[str, ...]:
    """Return the names of the sounds a word may begin with, each once: keys, sounds without key, or bare ARPABET."""
    return tuple(dict.fromkeys(sounds.first_sound(phones) for phones in pronunciation.readings))


def is_murmured(phones: Phones) -> bool:
    """Return whether a word said so begins with an unstressed vowel: schwa, or a vowel on its way to it."""
    return phones[0] == SCHWA or (is_vowel(phones[0]) and phones[0].endswith("0"))


def own_key(word: str, sounds: SoundTable, readings: tuple[Phones, ...] = ()) -> Sound | None:
    """Return the sound of a word's own first letters.

    Two letters go before one (ship → sh, chef → ch), two vowels only where they are heard (owl → ow, eraser → e), and
    a letter's plain sound before its others (ice → i, giraffe → g). x → x, though it is taught at the end. None when
    no key is written with the first letter.
    """
    name = tidy(word).lstrip("'")
    best: tuple[int, bool, bool] | None = None
    found = None
    for sound in sounds.sounds:
        length, heard = _spelled(name, sound), any(map(sound.is_heard_in, readings))
        if sound.end or not length or (length > 1 and name[0] in "aeiou" and not heard):
            continue
        rank = (length, length > 1 and heard, sound.letter == sound.key)
        if best is None or rank > best:
            best, found = rank, sound
    return found or next((sound for sound in sounds.sounds if name and sound.letter.startswith(name[0])), None)


def _spelled(name: str, sound: Sound) -> int:
    """Return how many letters at the start of a name spell the sound."""
    return max((len(spelling) for spelling in sound.spellings if name.startswith(spelling)), default=0)
