"""Words that are only said: on letter boards nobody sees the picture, so no other name of it can mislead."""

import random
from collections.abc import Callable

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.words.bank import Bank
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known
from cardgen.words.pool import Pool, PoolWord
from cardgen.words.sounds import Sound, SoundTable


def words_to_say(
    bank: Bank,
    sounds: SoundTable,
    keys: tuple[str, ...],
    *,
    per_key: int,
    accent: Accent,
    rng: random.Random,
    careful: bool,
    drawable: Callable[[str], bool],
) -> Pool:
    """Return up to `per_key` words to say for every key, at least one, no word twice.

    Good words go before those with a caution (none with `careful`), drawn ones (they can stand on a calling card)
    before others; actions are left out. TeacherError for an unknown key, or one without any word.
    """
    entries: list[PoolWord] = []
    for sound in sounds.several(keys):
        taken = {entry.word.word for entry in entries}
        own = [entry for entry in _judged(bank, sound, sounds, accent) if entry.word.word not in taken]
        if careful:
            own = [entry for entry in own if entry.verdict.verdict is Fit.GOOD]
        rng.shuffle(own)
        own.sort(key=lambda entry: _rank(entry, sound, drawable))
        if not own:
            hint = " without a caution" if careful else ""
            raise TeacherError(
                f"The bank has no word{hint} to say for {sound.key}.",
                f"Leave {sound.key} out{', or leave --careful out' if careful else ''}; or call sounds: --call sound",
            )
        entries += own[:per_key]
    return Pool(tuple(entries), ())


def _judged(bank: Bank, sound: Sound, sounds: SoundTable, accent: Accent) -> list[PoolWord]:
    words = [word for word in bank.words_for(sound.key) if not word.is_action]
    judged = [PoolWord(word, sound.key, judge_known(word, sound, sounds, accent)) for word in words]
    return [entry for entry in judged if entry.verdict.verdict is not Fit.WRONG]


def _rank(entry: PoolWord, sound: Sound, drawable: Callable[[str], bool]) -> tuple[bool, bool, bool]:
    drawn = entry.word.picture is not None and drawable(entry.word.picture)
    return (not drawn, entry.verdict.verdict is not Fit.GOOD, entry.word.word == sound.key_picture)
