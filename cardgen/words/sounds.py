"""The letter-sounds a teacher can name, and how each is heard, said and written.

Phones are ARPABET, as in the CMU Pronouncing Dictionary: a vowel carries its stress as a digit. To compare sounds the
stress is dropped, except that AH0 stays: unstressed, it is the murmur called schwa and no teacher's short u.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache, cached_property

from cardgen.errors import TeacherError

Phones = tuple[str, ...]

SCHWA = "AH0"
VOWELS = frozenset(["AA", "AE", "AH", "AH0", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW"])


@cache
def plain(phones: Phones) -> Phones:
    """Return the phones without their stress digits; AH0, the schwa, keeps its own."""
    return tuple(phone if phone == SCHWA else phone.rstrip("012") for phone in phones)


def is_vowel(phone: str) -> bool:
    """Return whether a phone, with or without stress, is a vowel."""
    return plain((phone,))[0] in VOWELS


@dataclass(frozen=True, kw_only=True, slots=True)
class Sound:
    """A letter-sound: how it is written, heard and said.

    `phones` are all the sequences that are this sound, the usual one first, without stress; `name` is the key that
    names the sound where several keys share it (k for c). `spellings` count at the start of a word, or at its end when
    `end` is true. `made` tells how it is made, part by part (place, air, voice; for vowels jaw, tongue, lips), so that
    two sounds can be set against each other; empty where nobody mixes the sound up.
    """

    key: str
    letter: str
    spellings: tuple[str, ...]
    phones: tuple[Phones, ...]
    name: str
    end: bool
    held: bool
    say: str
    mouth: str
    avoid: tuple[str, ...]
    made: tuple[str, ...]
    key_picture: str | None

    @property
    def capital(self) -> str:
        """The letter with its first part large: M, Qu, Sh."""
        return self.letter.capitalize()

    @property
    def is_short_vowel(self) -> bool:
        """Whether this is one of the five short vowels."""
        return self.key in ("a", "e", "i", "o", "u")

    @property
    def has_r(self) -> bool:
        """Whether the sound is a vowel with r (ar, or, air, ear, er)."""
        return any(phones == ("ER",) or phones[1:] == ("R",) for phones in self.phones)

    @property
    def say_line(self) -> str:
        """How to say it, in one line for the teacher: "mmm: lips closed, voice on; not em, not muh"."""
        wrong = "; " + ", ".join(f"not {wrong}" for wrong in self.avoid) if self.avoid else ""
        return f"{self.say}: {self.mouth}{wrong}"

    def is_heard_in(self, phones: Phones) -> bool:
        """Return whether a word said so begins with this sound (ends with it, for an end sound).

        A vowel before r is another sound (or, not o). A cluster taught as one sound also begins with its first part:
        queen begins with k's sound as well as with qu's.
        """
        heard = plain(phones)
        if self.end:
            return any(heard[-len(own) :] == own for own in self.phones)
        return any(heard[: len(own)] == own and not _followed_by_r(own, heard) for own in self.phones)


def _followed_by_r(own: Phones, heard: Phones) -> bool:
    return own[-1] in VOWELS and own != ("ER",) and heard[len(own) : len(own) + 1] == ("R",)


@dataclass(frozen=True)
class SoundTable:
    """Every letter-sound in its order, and the few sounds that have a name but no key."""

    sounds: tuple[Sound, ...]
    unkeyed: Mapping[Phones, str]
    sight_words: tuple[str, ...] = ()

    @cached_property
    def _by_key(self) -> Mapping[str, Sound]:
        return {sound.key: sound for sound in self.sounds}

    @cached_property
    def _names(self) -> Mapping[Phones, str]:
        """The name of every sound at the start of words: a sound's usual phones go before another's rarer ones."""
        names: dict[Phones, str] = {}
        starts = [sound for sound in self.sounds if not sound.end]
        for sound in starts:
            names.setdefault(sound.phones[0], sound.name)
        for sound in starts:
            for phones in sound.phones[1:]:
                names.setdefault(phones, sound.name)
        for phones, name in self.unkeyed.items():
            names.setdefault(phones, name)
        return names

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key, in the order of the table."""
        return tuple(self._by_key)

    def __contains__(self, key: str) -> bool:
        return key in self._by_key

    def get(self, key: str) -> Sound:
        """Return the sound of a key; TeacherError naming the nearest keys if there is none."""
        found = self._by_key.get(key)
        if found is None:
            raise TeacherError(f'There is no sound "{key}".', self._nearest(key))
        return found

    def several(self, keys: tuple[str, ...]) -> tuple[Sound, ...]:
        """Return the sounds of several keys, in their order; TeacherError for an unknown one."""
        return tuple(self.get(key) for key in keys)

    def _nearest(self, key: str) -> str:
        typed = key.strip().lower()
        once = typed[:1] if typed == typed[:1] * len(typed) else typed  # mm is m
        near = [once] if once in self._by_key else get_close_matches(typed, self._by_key, n=3, cutoff=0.5)
        if not near:
            near = [own for own in self._by_key if typed[:1] == own[0]][:3]
        meant = f"Did you mean {' or '.join(near)}? " if near else ""
        return f"{meant}The command `cardgen sounds` lists every sound."

    def first_sound(self, phones: Phones) -> str:
        """Return the name of the sound a word said so begins with: a key, a sound without key, or bare ARPABET."""
        heard = plain(phones)
        for length in (2, 1):
            name = self._names.get(heard[:length])
            if name is not None:
                return name
        return heard[0]
