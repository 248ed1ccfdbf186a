"""The set rule: which words may stand in one game, whatever a child calls their pictures.

No other name of a picture, and no other thing seen in it, begins with another sound of the game; no two pictures can
be called by one name; no two are mixed up by sight.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from cardgen.request import Accent
from cardgen.words.bank import Name, Word
from cardgen.words.sounds import Sound


def other_names(word: Word, accent: Accent) -> tuple[Name, ...]:
    """Return everything else a child may say for a picture: likely names, unlikely names, things shown."""
    return word.strong_names(accent) + word.weak_names(accent) + word.things_shown(accent)


def misleading_name(word: Word, own: Sound, game: Iterable[Sound], accent: Accent) -> tuple[Name, Sound] | None:
    """Return the first other name that begins with another sound of the game, and that sound; None if there is none.

    Only sounds at the start of words are looked at.
    """
    others = [sound for sound in game if sound.name != own.name and not sound.end]
    for name in other_names(word, accent):
        for sound in others:
            if sound.is_heard_in(name.phones):
                return name, sound
    return None


@dataclass(frozen=True, slots=True)
class Labels:
    """All that two pictures are compared by: what one is called, what is seen in it, what it is mixed up with."""

    word: str
    called: frozenset[str]
    shown: frozenset[str]
    looks_like: frozenset[str]


def labels(word: Word, accent: Accent) -> Labels:
    """Return what a word is compared by in one accent."""
    names = word.strong_names(accent) + word.weak_names(accent)
    called = frozenset([word.word, *(name.text for name in names)])
    shown = frozenset(name.text for name in word.things_shown(accent))
    return Labels(word.word, called, shown, frozenset(word.looks_like))


def clash(one: Labels, other: Labels) -> bool:
    """Return whether two words cannot stand in one game: one name for both, or pictures that are mixed up.

    Small things seen in both (a leaf) do not matter.
    """
    return not (
        one.word not in other.looks_like
        and other.word not in one.looks_like
        and one.called.isdisjoint(other.called)
        and one.called.isdisjoint(other.shown)
        and one.shown.isdisjoint(other.called)
    )
