"""The bank: the words that were judged by hand, and what a child may say for each of their pictures."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from cardgen.request import Accent
from cardgen.words.sounds import Phones


@dataclass(frozen=True, slots=True)
class Name:
    """Another name a child may say for a picture, and at least the first sound of it; `accent` None means any."""

    text: str
    phones: Phones
    accent: Accent | None = None


@dataclass(frozen=True, slots=True)
class Remark:
    """A sentence for the teacher about a word; `accent` None means any."""

    text: str
    accent: Accent | None = None


def _for_accent(names: tuple[Name, ...], accent: Accent) -> tuple[Name, ...]:
    return tuple(name for name in names if name.accent in (None, accent))


@dataclass(frozen=True, kw_only=True, slots=True)
class Word:
    """A word judged by hand.

    `keys` are the letter-sounds it serves, its own first; `phones` the reading for teaching; `picture` the picture's
    name, None when it is not drawn. `also` and `also_weak` are other names, likely and unlikely; `shows` other things
    in the picture; `looks_like` words whose pictures are mixed up with it. `cautions` weigh against it, `notes` do
    not. `cue` is what to ask for an action; `reason` why the dictionary was overruled; `source` and `licence` stand
    for pictures that are not ours.
    """

    word: str
    keys: tuple[str, ...]
    phones: Phones
    picture: str | None = None
    alt: str = ""
    group: str = ""
    also: tuple[Name, ...] = ()
    also_weak: tuple[Name, ...] = ()
    shows: tuple[Name, ...] = ()
    looks_like: tuple[str, ...] = ()
    cautions: tuple[Remark, ...] = ()
    notes: tuple[Remark, ...] = ()
    cue: str = ""
    reason: str = ""
    source: str = ""
    licence: str = ""

    @property
    def is_action(self) -> bool:
        """Whether the picture shows something done, which needs its own question."""
        return bool(self.cue)

    def strong_names(self, accent: Accent) -> tuple[Name, ...]:
        """Return the names a child is likely to say instead."""
        return _for_accent(self.also, accent)

    def weak_names(self, accent: Accent) -> tuple[Name, ...]:
        """Return the names a child may say now and then."""
        return _for_accent(self.also_weak, accent)

    def things_shown(self, accent: Accent) -> tuple[Name, ...]:
        """Return the other things a child may point out in the picture."""
        return _for_accent(self.shows, accent)


@dataclass(frozen=True, slots=True)
class Override:
    """A word outside the bank whose dictionary reading does not serve teaching in one or both accents, and why."""

    word: str
    reason: str
    phones_us: Phones | None = None
    phones_gb: Phones | None = None

    def reading(self, accent: Accent) -> Phones | None:
        """Return the phones for one accent, None where the dictionary stands."""
        return self.phones_us if accent is Accent.US else self.phones_gb


@dataclass(frozen=True)
class Bank:
    """All words judged by hand, in the order of the file, and the overrides of the dictionary.

    `preferred` words are taken before others.
    """

    words: tuple[Word, ...]
    overrides: tuple[Override, ...] = ()
    preferred: frozenset[str] = frozenset()

    @cached_property
    def _by_word(self) -> Mapping[str, Word]:
        return {word.word: word for word in self.words}

    @cached_property
    def _overrides(self) -> Mapping[str, Override]:
        return {override.word: override for override in self.overrides}

    def __iter__(self) -> Iterator[Word]:
        return iter(self.words)

    def __contains__(self, word: str) -> bool:
        return word in self._by_word

    def get(self, word: str) -> Word | None:
        """Return the record of a word, None if it is not in the bank."""
        return self._by_word.get(word)

    def override(self, word: str) -> Override | None:
        """Return the override of the dictionary for a word, None if there is none."""
        return self._overrides.get(word)

    def words_for(self, key: str) -> tuple[Word, ...]:
        """Return the words that serve a key, drawn or not, in the order of the file."""
        return tuple(word for word in self.words if key in word.keys)

    def chosen(self, prefer: frozenset[str], avoid: frozenset[str]) -> "Bank":
        """Return the bank without some words, and with others that are taken first."""
        words = tuple(word for word in self.words if word.word not in avoid)
        return Bank(words, self.overrides, self.preferred | prefer)
