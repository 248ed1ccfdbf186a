"""The set rule: which words may stand in one game, whatever a child calls their pictures.

No other name of a picture, and no other thing seen in it, begins with another sound of the game; no two pictures can
be called by one name; no two are mixed up by sight.
"""

from collections.abc import Iterable

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


def clash(one: Word, other: Word, accent: Accent) -> bool:
    """Return whether two words cannot stand in one game: one name for both, or pictures that are mixed up."""
    if one.word in other.looks_like or other.word in one.looks_like:
        return True
    called, shown = _called(one, accent), _shown(one, accent)
    other_called, other_shown = _called(other, accent), _shown(other, accent)
    return bool(called & other_called or called & other_shown or shown & other_called)


def _called(word: Word, accent: Accent) -> frozenset[str]:
    names = word.strong_names(accent) + word.weak_names(accent)
    return frozenset([word.word, *(name.text for name in names)])


def _shown(word: Word, accent: Accent) -> frozenset[str]:
    return frozenset(name.text for name in word.things_shown(accent))
