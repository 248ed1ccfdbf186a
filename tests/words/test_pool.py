import random
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources import bank_file
from cardgen.words.bank import Bank, Name, Word
from cardgen.words.case import Fit
from cardgen.words.pool import Pool, choose_pool
from cardgen.words.set_rule import clash, labels, misleading_name
from cardgen.words.sounds import SoundTable

FULL = ["m", "s", "t", "p", "b", "d", "c", "f", "n", "h"]
FIRST = {"m": "M", "s": "S", "b": "B"}


def made(key: str, number: int, **more: Any) -> Word:
    """A word of its own shape: nothing clashes, and its verdict is good."""
    word = f"{key}{'aeiou'[number % 5]}k{number}"
    return Word(word=word, keys=(key,), phones=(FIRST[key], "AA1", "K"), picture=word, **more)


def bank_of(**counts: int) -> Bank:
    return Bank(tuple(made(key, number) for key, count in counts.items() for number in range(count)))


def chosen(bank: Bank, sounds: SoundTable, keys: str, **more: Any) -> Pool:
    rng = random.Random(more.pop("seed", 1))
    return choose_pool(bank, sounds, tuple(keys.split()), rng=rng, **more)


def counts(pool: Pool) -> dict[str, int]:
    found: dict[str, int] = {}
    for entry in pool.entries:
        found[entry.key] = found.get(entry.key, 0) + 1
    return found


@pytest.mark.parametrize(
    ("cells", "keys", "each"),
    [(9, "m s", 7), (9, "m s b", 5), (16, "m s", 12), (4, "m s", 3), (25, "m", 38), (9, "m", 14)],
)
def test_the_default_is_equal_numbers_from_one_and_a_half_words_a_cell(
    sounds: SoundTable, cells: int, keys: str, each: int
) -> None:
    pool = chosen(bank_of(m=40, s=40, b=40), sounds, keys, cells=cells)
    assert counts(pool) == dict.fromkeys(keys.split(), each)
    assert pool.notes == ()


def test_a_scarce_sound_brings_all_down_while_that_is_enough(sounds: SoundTable) -> None:
    pool = chosen(bank_of(m=20, s=6), sounds, "m s", cells=9)  # 12 of at least 11.25
    assert counts(pool) == {"m": 6, "s": 6}
    assert pool.notes == ("Every sound has 6 words: there are no more that go together.",)


def test_beyond_that_the_numbers_differ_and_it_is_said(sounds: SoundTable) -> None:
    pool = chosen(bank_of(m=20, s=5), sounds, "m s", cells=9)  # 10 would be fewer than 11.25
    assert counts(pool) == {"m": 9, "s": 5}
    assert pool.notes == ("The sounds do not have the same number of words: m 9, s 5.",)


def test_equal_but_few_is_said_so(sounds: SoundTable) -> None:
    pool = chosen(bank_of(m=2, s=2), sounds, "m s", cells=4)
    assert pool.notes == ("Every sound has 2 words: there are no more that go together.",)


def test_too_few_say_how_many_for_which_sound_and_what_helps(sounds: SoundTable) -> None:
    with pytest.raises(TeacherError) as caught:
        chosen(bank_of(m=5, s=3), sounds, "m s", cells=9, careful=True)
    assert "m 5, s 3" in caught.value.message
    assert "9 cells" in caught.value.message
    for help_ in ("--careful", "--grid 2x3", "another sound", "cardgen words m s --all"):
        assert help_ in caught.value.hint


def test_a_sound_without_a_word_is_refused(sounds: SoundTable) -> None:
    with pytest.raises(TeacherError, match="s 0"):
        chosen(bank_of(m=20), sounds, "m s", cells=9)


def test_a_pool_of_a_given_size_is_shared_evenly(sounds: SoundTable) -> None:
    assert counts(chosen(bank_of(m=20, s=20), sounds, "m s", total=11, cells=9)) == {"m": 6, "s": 5}
    uneven = chosen(bank_of(m=20, s=3), sounds, "m s", total=12, cells=9)
    assert counts(uneven) == {"m": 9, "s": 3}
    assert uneven.notes
    with pytest.raises(TeacherError, match="24 are asked for"):
        chosen(bank_of(m=20, s=3), sounds, "m s", total=24, cells=9)
    with pytest.raises(TeacherError, match="8 words cannot fill boards of 9 cells"):
        chosen(bank_of(m=20, s=20), sounds, "m s", total=8, cells=9)


def test_a_number_for_every_sound(sounds: SoundTable) -> None:
    assert counts(chosen(bank_of(m=9, s=9), sounds, "m s", per_key=4)) == {"m": 4, "s": 4}
    with pytest.raises(TeacherError, match="every sound needs 4"):
        chosen(bank_of(m=9, s=3), sounds, "m s", per_key=4)
    with pytest.raises(TeacherError, match="every sound needs 1"):
        chosen(bank_of(m=9), sounds, "m s", per_key=1)


GLOVE = (Name("glove", ("G",)),)


def test_words_with_cautions_only_fill_up_and_are_told(sounds: SoundTable) -> None:
    good = [made("m", number) for number in range(3)]
    risky = [made("m", number, also=(Name(f"g{number}", ("G",)),)) for number in range(5, 9)]
    bank = Bank((*risky, *good))
    pool = chosen(bank, sounds, "m", per_key=4)
    assert sum(entry.verdict.verdict is Fit.CAUTION for entry in pool.entries) == 1
    assert "are without a caution" in pool.notes[0]
    assert len(pool.we_say) == 1
    assert pool.we_say[0].startswith("We say m")
    assert all(entry.verdict.verdict is Fit.GOOD for entry in chosen(bank, sounds, "m", per_key=3).entries)
    with pytest.raises(TeacherError):
        chosen(bank, sounds, "m", per_key=4, careful=True)


def test_key_pictures_play_along_only_when_there_are_too_few(sounds: SoundTable) -> None:
    mouse = Word(word="mouse", keys=("m",), phones=("M", "AW1", "S"), picture="mouse")
    bank = Bank((mouse, *(made("m", number) for number in range(4))))
    assert all(
        e.word.word != "mouse" for seed in range(9) for e in chosen(bank, sounds, "m", per_key=4, seed=seed).entries
    )
    full = chosen(bank, sounds, "m", per_key=5)
    assert "mouse" in full.notes[0]
    with pytest.raises(TeacherError):
        chosen(bank, sounds, "m", per_key=5, key_pictures=False)


def test_a_key_picture_goes_before_a_word_with_a_caution(sounds: SoundTable) -> None:
    mouse = Word(word="mouse", keys=("m",), phones=("M", "AW1", "S"), picture="mouse")
    bank = Bank((made("m", 1, also=GLOVE), mouse))
    assert [entry.word.word for entry in chosen(bank, sounds, "m", per_key=1).entries] == ["mouse"]


def test_words_left_out_undrawn_or_shown_as_actions_never_come(sounds: SoundTable) -> None:
    plain, gone, undrawn = (made("m", number) for number in range(3))
    act = made("m", 3, cue="What is he doing?")
    bare = Word(word="mok", keys=("m",), phones=("M", "AA1", "K"))
    bank = Bank((gone, undrawn, act, bare, plain))
    found = choose_pool(
        bank,
        sounds,
        ("m",),
        per_key=1,
        rng=random.Random(1),
        leave_out=frozenset([gone.word]),
        drawable=lambda name: name != undrawn.picture,
    )
    assert [entry.word.word for entry in found.entries] == [plain.word]


def test_end_sounds_have_their_own_pool() -> None:
    pool = chosen(bank_file.read_bank(), bank_file.read_sounds(), "x", per_key=3)
    assert len(pool.entries) == 3
    assert all(entry.word.word.endswith(("x", "xe")) and entry.word.phones[-2:] == ("K", "S") for entry in pool.entries)


@settings(deadline=None, max_examples=50)
@given(
    st.sets(st.sampled_from(FULL), min_size=1, max_size=6),
    st.sampled_from([4, 6, 9]),
    st.integers(0, 9999),
    st.sampled_from(Accent),
)
def test_the_set_rule_holds_in_every_pool(keys: set[str], cells: int, seed: int, accent: Accent) -> None:
    bank, sounds = bank_file.read_bank(), bank_file.read_sounds()
    asked = " ".join(sorted(keys))
    pool = chosen(bank, sounds, asked, cells=cells, seed=seed, accent=accent)
    game = sounds.several(tuple(asked.split()))
    assert len(pool.entries) >= cells
    assert [entry.key for entry in pool.entries] == sorted(entry.key for entry in pool.entries)
    for entry in pool.entries:
        assert sounds.get(entry.key).is_heard_in(entry.word.phones)
        assert entry.verdict.verdict is not Fit.WRONG
        assert misleading_name(entry.word, sounds.get(entry.key), game, accent) is None
    compared = [labels(entry.word, accent) for entry in pool.entries]
    assert not any(clash(one, other) for one, other in combinations(compared, 2))
    assert pool == chosen(bank, sounds, asked, cells=cells, seed=seed, accent=accent)
    assert all(e.verdict.verdict is Fit.GOOD for e in pool.entries) or any("caution" in note for note in pool.notes)


def test_an_unknown_sound_is_told(sounds: SoundTable, bank: Bank) -> None:
    with pytest.raises(TeacherError, match="mm"):
        chosen(bank, sounds, "mm", cells=4)
