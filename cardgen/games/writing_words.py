"""Which words a child writes on the back of a sheet: the key picture's, then the shortest good one that is drawn."""

import random
from collections.abc import Callable

from cardgen.request import Accent
from cardgen.words.bank import Bank, Word
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known
from cardgen.words.sounds import Sound, SoundTable


def words_to_write(
    sound: Sound,
    count: int,
    key_picture: Word | None,
    bank: Bank,
    sounds: SoundTable,
    *,
    accent: Accent,
    rng: random.Random,
    drawable: Callable[[str], bool],
    writable: Callable[[str], bool],
) -> tuple[Word, ...]:
    """Return up to `count` words of a sound, fewer where there are none; chance decides between words equally short.

    `writable` says whether there are strokes for all its letters and room for it in a row.
    """
    first = [key_picture] if key_picture and writable(key_picture.word) else []
    others = [
        word
        for word in bank.words_for(sound.key)
        if word is not key_picture
        and not word.is_action
        and writable(word.word)
        and judge_known(word, sound, sounds, accent).verdict is Fit.GOOD
    ]
    rng.shuffle(others)
    others.sort(key=lambda word: (not (word.picture and drawable(word.picture)), len(word.word)))
    return tuple([*first, *others][:count])
