import pytest

from cardgen.errors import TeacherError
from cardgen.words.sounds import SoundTable, plain

KEYS = [
    "m",
    "n",
    "p",
    "b",
    "t",
    "d",
    "c",
    "k",
    "g",
    "f",
    "v",
    "s",
    "z",
    "sh",
    "ch",
    "j",
    "th",
    "h",
    "l",
    "r",
    "w",
    "y",
    "qu",
    "wh",
    "a",
    "e",
    "i",
    "o",
    "u",
    "long-a",
    "long-e",
    "long-i",
    "long-o",
    "long-u",
    "ow",
    "oy",
    "aw",
    "or",
    "ar",
    "air",
    "ear",
    "er",
    "soft-c",
    "soft-g",
    "x",
    "ng",
]
HELD = ["f", "l", "m", "n", "r", "s", "v", "z", "sh", "th"]  # and every vowel; common practice, no source
SHORT = ["b", "d", "g", "p", "t", "k", "c", "qu", "j", "ch", "h", "w", "y"]


def test_every_key_is_there(sounds: SoundTable) -> None:
    assert list(sounds.keys) == KEYS


def test_held_and_short_sounds(sounds: SoundTable) -> None:
    assert all(sounds.get(key).held for key in [*HELD, "a", "e", "i", "o", "u"])
    assert not any(sounds.get(key).held for key in SHORT)


def test_only_x_and_ng_are_taught_at_the_end(sounds: SoundTable) -> None:
    assert [sound.key for sound in sounds.sounds if sound.end] == ["x", "ng"]


@pytest.mark.parametrize(
    ("key", "letter", "capital"),
    [("m", "m", "M"), ("qu", "qu", "Qu"), ("sh", "sh", "Sh"), ("long-a", "a", "A"), ("soft-g", "g", "G")],
)
def test_letters_as_printed(sounds: SoundTable, key: str, letter: str, capital: str) -> None:
    assert (sounds.get(key).letter, sounds.get(key).capital) == (letter, capital)


@pytest.mark.parametrize(
    ("typed", "meant"), [("mm", "m"), ("M", "m"), ("longa", "long-a"), ("softg", "soft-g"), ("qq", "qu"), ("s h", "sh")]
)
def test_an_unknown_sound_is_answered_with_the_nearest(sounds: SoundTable, typed: str, meant: str) -> None:
    with pytest.raises(TeacherError) as caught:
        sounds.get(typed)
    assert f'"{typed}"' in caught.value.message
    assert meant in caught.value.hint
    assert "cardgen sounds" in caught.value.hint


def test_nothing_near_still_names_the_list(sounds: SoundTable) -> None:
    with pytest.raises(TeacherError) as caught:
        sounds.get("7")
    assert "Did you mean" not in caught.value.hint
    assert "cardgen sounds" in caught.value.hint


@pytest.mark.parametrize(
    ("phones", "name"),
    [
        ("K AE1 T", "k"),
        ("K W IY1 N", "qu"),
        ("Y UW1 N IH0", "long-u"),
        ("Y EH1 L OW0", "y"),
        ("AO1 R", "or"),
        ("AO1 F", "aw"),
        ("AA1 K S", "o"),
        ("AH0 B AW1 T", "schwa"),
        ("AH1 P", "u"),
        ("DH IH1 S", "voiced th"),
        ("UW1 P S", "oo"),
        ("ZH AA1 N R AH0", "zh"),
        ("JH EH1 M", "j"),
        ("S EH1 N T", "s"),
        ("W IY1 L", "w"),
    ],
)
def test_every_first_sound_has_a_name(sounds: SoundTable, phones: str, name: str) -> None:
    assert sounds.first_sound(tuple(phones.split())) == name


def test_a_vowel_before_r_is_another_sound(sounds: SoundTable) -> None:
    ear = ("IH1", "R")
    assert sounds.get("ear").is_heard_in(ear)
    assert not sounds.get("i").is_heard_in(ear)


def test_end_sounds_are_listened_for_at_the_end(sounds: SoundTable) -> None:
    assert sounds.get("x").is_heard_in(("F", "AA1", "K", "S"))
    assert not sounds.get("x").is_heard_in(("K", "S", "AA1"))
    assert sounds.get("ng").is_heard_in(("K", "IH1", "NG"))
    assert not sounds.get("ng").is_heard_in(("IH1", "NG", "K"))


def test_stress_is_dropped_but_the_murmur_stays() -> None:
    assert plain(("AH0", "AH1", "ER0", "M")) == ("AH0", "AH", "ER", "M")


def test_the_say_line_says_what_not_to_say(sounds: SoundTable) -> None:
    assert sounds.get("m").say_line == "mmm: lips closed, voice on; not em, not muh"


def test_the_ten_sight_words_of_the_standard(sounds: SoundTable) -> None:
    # Common Core ELA (2010), RF.K.3c, its examples.
    assert sounds.sight_words == ("the", "of", "to", "you", "she", "my", "is", "are", "do", "does")
