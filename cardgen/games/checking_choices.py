"""Between which sounds a child may be asked to choose, and which wrong choices are worth the most.

A wrong choice must be wrong by every way to hear and read it, and is best one that is easily mixed up with the right
one: only then is it tested whether a child can tell them apart.
"""

import random
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from itertools import combinations

from cardgen.words.contrast import By, Contrast
from cardgen.words.sounds import Sound

MOST_CHOICES = 3
# How much a pair is worth as a test; what only looks alike counts where letters are ringed.
WORTH = {By.HOME: 3, By.EAR: 2, By.EYE: 1, By.SOUND: 0}


def begin_alike(a: Sound, b: Sound) -> bool:
    """Return whether words with one sound are heard to begin (or end) with the other too: c and k, qu and k."""
    if a.end != b.end:
        return False
    return any(map(a.is_heard_in, b.phones)) or any(map(b.is_heard_in, a.phones))


class Bar(Enum):
    """Why two sounds cannot stand in one row."""

    LETTER = "they are written with the same letter"
    SOUND = "they begin with the same sound"
    SPELLING = "its words are spelled with that letter too"


def bar(a: Sound, b: Sound) -> Bar | None:
    """Return why two sounds never stand in one row, None if they may."""
    if a.letter == b.letter:
        return Bar.LETTER
    return Bar.SOUND if begin_alike(a, b) else None


def bar_as_foil(foil: Sound, asked: Sound, *, by_letter: bool) -> Bar | None:
    """Return why a sound cannot be a wrong choice for another, None if it can.

    Where letters are ringed (`by_letter`), no word of the asked sound may be spelled with the foil's letter at that
    place: ship does begin with the letter s.
    """
    found = bar(foil, asked)
    if found or not by_letter:
        return found
    at = str.endswith if asked.end else str.startswith
    return Bar.SPELLING if any(at(spelling, foil.letter) for spelling in asked.spellings) else None


@dataclass(frozen=True)
class FoilKeys:
    """The sounds of one part, and how often each was a wrong choice so far: the rarer ones come next."""

    sounds: Sequence[Sound]
    by_letter: bool
    worth: Mapping[frozenset[str], int]
    used: Counter[str] = field(default_factory=Counter)

    def sets(self, asked: Sound, size: int) -> list[tuple[str, ...]]:
        """Return every set of `size` sounds that may stand beside the asked one, no two of them alike."""
        fit = [sound for sound in self.sounds if not bar_as_foil(sound, asked, by_letter=self.by_letter)]
        return [
            tuple(sound.key for sound in chosen)
            for chosen in combinations(fit, size)
            if not any(bar(a, b) for a, b in combinations(chosen, 2))
        ]

    def choices(self, asked: Sequence[Sound]) -> int:
        """Return how many choices every row can have: three, two where there are no more, one where there are none."""
        sizes = range(MOST_CHOICES - 1, 0, -1)
        return next((size + 1 for size in sizes if all(self.sets(sound, size) for sound in asked)), 1)

    def pick(self, asked: Sound, size: int, rng: random.Random) -> tuple[str, ...]:
        """Return the wrong choices for one row: a hard pair first, then what was used least, chance among equals."""
        sets = self.sets(asked, size)
        rng.shuffle(sets)

        def order(keys: tuple[str, ...]) -> tuple[int, int]:
            hardest = max(self.worth.get(frozenset([asked.key, key]), 0) for key in keys)
            return -hardest, sum(self.used[key] for key in keys)

        best = min(sets, key=order)
        self.used.update(best)
        return best


def worth_of(found: Sequence[Contrast], *, by_letter: bool) -> dict[frozenset[str], int]:
    """Return how much each pair of keys is worth as a test, from what is known to be mixed up."""
    worth: dict[frozenset[str], int] = {}
    for contrast in found:
        pair = frozenset(contrast.keys)
        if len(pair) == 2 and (by_letter or contrast.by is not By.EYE):
            worth[pair] = max(worth.get(pair, 0), WORTH[contrast.by])
    return worth
