import random

import pytest

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources.bank_file import read_bank, read_sounds
from cardgen.words.case import Fit
from cardgen.words.pool import Pool
from cardgen.words.spoken import words_to_say

BANK, SOUNDS = read_bank(), read_sounds()


def said(*keys: str, per_key: int = 2, careful: bool = False, seed: int = 1) -> Pool:
    return words_to_say(
        BANK,
        SOUNDS,
        keys,
        per_key=per_key,
        accent=Accent.US,
        rng=random.Random(seed),
        careful=careful,
        drawable=lambda name: name != "moon",
    )


def test_every_sound_has_its_words_and_none_comes_twice() -> None:
    pool = said(*"msatpinhdfbc")
    words = [entry.word.word for entry in pool.entries]
    assert len(set(words)) == len(words) == 24
    for entry in pool.entries:
        assert SOUNDS.get(entry.key).is_heard_in(entry.word.phones)
        assert entry.verdict.verdict is not Fit.WRONG
        assert not entry.word.is_action


def test_another_name_of_the_picture_does_not_matter_when_nobody_sees_it() -> None:
    # rabbit may be called bunny: no picture for a game with b, but a fine word to say.
    pool = said("r", "b", per_key=50)
    assert "rabbit" in {entry.word.word for entry in pool.entries}


def test_good_drawn_words_come_first() -> None:
    pool = said("m", per_key=50)
    good = [entry.verdict.verdict is Fit.GOOD for entry in pool.entries if entry.word.word != "moon"]
    assert good.index(False) == sum(good[: good.index(False)]) if False in good else True
    assert pool.entries[0].word.word not in ("moon", "mouse")


def test_careful_takes_no_caution() -> None:
    assert all(entry.verdict.verdict is Fit.GOOD for entry in said("m", "i", per_key=50, careful=True).entries)


def test_the_same_seed_says_the_same_words() -> None:
    assert said("m", "s") == said("m", "s")
    assert said("m", "s") != said("m", "s", seed=2)


def test_a_sound_without_words_is_refused() -> None:
    with pytest.raises(TeacherError, match="no word without a caution to say for wh"):
        said("m", "wh", careful=True)
