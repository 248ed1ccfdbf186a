from typing import Any

import pytest

from cardgen.request import Accent
from cardgen.words.bank import Bank, Name, Word
from cardgen.words.set_rule import clash, labels, misleading_name
from cardgen.words.sounds import SoundTable

US, GB = Accent.US, Accent.GB


def made(word: str, key: str = "m", **more: Any) -> Word:
    return Word(word=word, keys=(key,), phones=("M",), **more)


def name(text: str, phones: str, accent: Accent | None = None) -> Name:
    return Name(text, tuple(phones.split()), accent)


def meet_badly(one: Word, other: Word, accent: Accent) -> bool:
    return clash(labels(one, accent), labels(other, accent))


RABBIT = made("rabbit", "r", also=(name("bunny", "B AH1 N IY0"),))


def test_a_rabbit_said_bunny_cannot_stand_in_a_game_with_b(sounds: SoundTable) -> None:
    found = misleading_name(RABBIT, sounds.get("r"), sounds.several(("r", "b")), US)
    assert found
    assert (found[0].text, found[1].key) == ("bunny", "b")
    assert misleading_name(RABBIT, sounds.get("r"), sounds.several(("r", "m")), US) is None


@pytest.mark.parametrize("field", ["also", "also_weak", "shows"])
def test_unlikely_names_and_things_seen_count_too(sounds: SoundTable, field: str) -> None:
    names: dict[str, Any] = {field: (name("star", "S"),)}
    moon = made("moon", **names)
    assert misleading_name(moon, sounds.get("m"), sounds.several(("m", "s")), US)


def test_a_name_with_the_words_own_sound_is_no_danger(sounds: SoundTable) -> None:
    cat = made("cat", "c", also=(name("kitten", "K"),))
    assert misleading_name(cat, sounds.get("c"), sounds.several(("c", "k")), US) is None


def test_a_name_counts_in_its_accent_only(sounds: SoundTable) -> None:
    sofa = made("sofa", "s", also=(name("couch", "K", US),))
    game = sounds.several(("s", "c"))
    assert misleading_name(sofa, sounds.get("s"), game, US)
    assert misleading_name(sofa, sounds.get("s"), game, GB) is None


@pytest.mark.parametrize(
    ("phones", "key", "heard"),
    [("K W", "c", True), ("K W", "qu", True), ("K", "qu", False), ("EH R", "e", False), ("Y UW", "y", True)],
)
def test_clusters_and_vowels_before_r(sounds: SoundTable, phones: str, key: str, heard: bool) -> None:
    word = made("moon", also=(name("other", phones),))
    assert bool(misleading_name(word, sounds.get("m"), sounds.several(("m", key)), US)) is heard


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (made("cat", also=(name("kitten", "K"),)), made("kitten")),
        (made("jam", also=(name("jelly", "JH"),)), made("jelly")),
        (made("six", also_weak=(name("number", "N"),)), made("ten", also_weak=(name("number", "N"),))),
        (made("moon", looks_like=("banana",)), made("banana")),
        (made("bed", shows=(name("pillow", "P"),)), made("pillow")),
    ],
)
def test_words_that_clash(one: Word, other: Word) -> None:
    assert meet_badly(one, other, US)
    assert meet_badly(other, one, US)


def test_two_pictures_may_show_the_same_small_thing() -> None:
    pear, carrot = made("pear", shows=(name("leaf", "L"),)), made("carrot", shows=(name("leaf", "L"),))
    assert not meet_badly(pear, carrot, US)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("moon", "banana"),
        ("fox", "dog"),
        ("horse", "donkey"),
        ("table", "desk"),
        ("cap", "hat"),
        ("pan", "pot"),
        ("six", "nine"),
        ("book", "notebook"),
        ("bee", "butterfly"),
        ("lamb", "sheep"),
        ("cat", "kitten"),
        ("leopard", "cheetah"),
        ("mouse", "rat"),
        ("deer", "reindeer"),
        ("hen", "rooster"),
        ("coat", "jacket"),
        ("mitten", "gloves"),
        ("teapot", "kettle"),
        ("guitar", "ukulele"),
        ("violin", "guitar"),
        ("boat", "ship"),
        ("jet", "rocket"),
        ("ink", "quill"),
        ("king", "queen"),
        ("angel", "fairy"),
        ("elbow", "arm"),
        ("emu", "ostrich"),
        ("whale", "orca"),
        ("lizard", "iguana"),
        ("finger", "hand"),
    ],
)
def test_pairs_of_the_bank_that_must_not_meet(bank: Bank, one: str, other: str) -> None:
    first, second = bank.get(one), bank.get(other)
    assert first
    assert second
    assert meet_badly(first, second, US)
    assert meet_badly(second, first, GB)


@pytest.mark.parametrize(
    ("word", "key", "beside"),
    [
        ("mountain", "m", "s"),
        ("nest", "n", "e"),
        ("soap", "s", "b"),
        ("cake", "c", "ch"),
        ("jam", "j", "s"),
        ("cup", "c", "t"),
        ("hat", "h", "c"),
        ("medal", "m", "s"),
    ],
)
def test_words_of_the_bank_that_another_sound_shuts_out(
    bank: Bank, sounds: SoundTable, word: str, key: str, beside: str
) -> None:
    record = bank.get(word)
    assert record
    assert misleading_name(record, sounds.get(key), sounds.several((key, beside)), US)
