from itertools import combinations

import pytest

from cardgen.errors import TeacherError
from cardgen.words.contrast import By, Contrasts, check_by_ear, contrasts, same_sound
from cardgen.words.sounds import SoundTable


def found(sounds: SoundTable, known: Contrasts, *keys: str, home: str | None = None) -> dict[By, list[str]]:
    by: dict[By, list[str]] = {}
    for warning in contrasts(sounds, known, keys, home):
        by.setdefault(warning.by, []).append(warning.text)
    return by


def test_far_sounds_need_no_warning(sounds: SoundTable, known: Contrasts) -> None:
    assert contrasts(sounds, known, ("m", "s")) == ()


def test_close_sounds_are_told_apart_by_what_the_mouth_does(sounds: SoundTable, known: Contrasts) -> None:
    by = found(sounds, known, "p", "b")
    assert by[By.EAR] == ["p and b sound close: p – no voice; b – voice on."]
    assert "ball and a stick" in by[By.EYE][0]
    assert found(sounds, known, "m", "n")[By.EAR] == [
        "m and n sound close: m – lips together; n – tongue behind the top teeth."
    ]


@pytest.mark.parametrize("pair", ["f th", "s z", "sh ch", "l r", "v w", "t d", "k g", "ch j", "i e", "e a", "o u"])
def test_pairs_that_are_close_by_ear(sounds: SoundTable, known: Contrasts, pair: str) -> None:
    one, other = pair.split()
    assert By.EAR in found(sounds, known, one, other)
    assert By.EAR in found(sounds, known, other, one)


@pytest.mark.parametrize("pair", ["c g", "soft-c sh", "wh r", "soft-g ch", "c t"])
def test_a_key_is_heard_as_the_sound_it_stands_for(sounds: SoundTable, known: Contrasts, pair: str) -> None:
    assert By.EAR in found(sounds, known, *pair.split())


@pytest.mark.parametrize(
    "pair",
    [
        "b d",
        "d p",
        "m n",
        "n h",
        "u n",
        "u v",
        "v w",
        "w y",
        "i j",
        "i l",
        "c e",
        "e o",
        "a o",
        "b qu",
        "o qu",
        "e f",
        "c g",
    ],
)
def test_letters_that_look_alike(sounds: SoundTable, known: Contrasts, pair: str) -> None:
    assert By.EYE in found(sounds, known, *pair.split())


def test_two_keys_with_one_letter_are_said_so(sounds: SoundTable, known: Contrasts) -> None:
    assert found(sounds, known, "a", "long-a")[By.EYE] == ["a and long-a are written with the same letter, a."]


def test_qu_beside_c_or_k_is_a_warning_not_a_refusal(sounds: SoundTable, known: Contrasts) -> None:
    assert By.SOUND in found(sounds, known, "c", "qu")
    check_by_ear(sounds, ("c", "qu"))


def test_one_sound_for_two_keys(sounds: SoundTable) -> None:
    assert same_sound(sounds, ("c", "s", "k", "soft-c")) == (("c", "k"), ("s", "soft-c"))
    assert same_sound(sounds, ("m", "s")) == ()


def test_keys_with_one_sound_are_refused_by_ear(sounds: SoundTable) -> None:
    with pytest.raises(TeacherError) as caught:
        check_by_ear(sounds, ("m", "c", "k"))
    assert "c and k sound the same" in caught.value.message
    assert "--call name" in caught.value.hint


def test_end_sounds_and_first_sounds_are_refused_together(sounds: SoundTable) -> None:
    check_by_ear(sounds, ("x", "ng"))
    with pytest.raises(TeacherError) as caught:
        check_by_ear(sounds, ("f", "x"))
    assert "end of words" in caught.value.message
    assert "two games" in caught.value.hint


def test_a_first_language_adds_its_pairs_and_says_how_it_is_known(sounds: SoundTable, known: Contrasts) -> None:
    by = found(sounds, known, "l", "r", home="japanese")
    assert by[By.HOME] == [
        (
            "Often hard for speakers of Japanese: l and r are one sound in Japanese "
            "(Wikipedia, Non-native pronunciations of English)."
        )
    ]
    assert "(from memory)" in found(sounds, known, "h", home="French")[By.HOME][0]
    assert By.HOME not in found(sounds, known, "m", "s", home="Japanese")


def test_an_unknown_first_language_names_those_there_are(sounds: SoundTable, known: Contrasts) -> None:
    with pytest.raises(TeacherError) as caught:
        contrasts(sounds, known, ("m",), "Klingon")
    assert "Spanish" in caught.value.hint


def test_every_pair_of_the_data_names_a_key(sounds: SoundTable, known: Contrasts) -> None:
    for pair in known.by_ear:
        assert sounds.get(pair.a).name == pair.a
        assert sounds.get(pair.b).name == pair.b
    for note in known.home:
        assert 1 <= len(note.keys) <= 2
        assert sounds.several(note.keys)
        assert note.source
    assert len({frozenset((pair.a, pair.b)) for pair in known.by_ear}) == len(known.by_ear)


def test_close_pairs_can_be_told_apart_by_the_mouth(sounds: SoundTable, known: Contrasts) -> None:
    for pair in known.by_ear:
        one, other = sounds.get(pair.a).made, sounds.get(pair.b).made
        assert one, pair
        assert other, pair
        assert one != other, pair


def test_the_three_closest_short_vowels_are_marked(known: Contrasts) -> None:
    # First and second formants of men's vowels in Hz, Peterson & Barney 1952, from memory.
    formants = {"i": (390, 1990), "e": (530, 1840), "a": (660, 1720), "o": (730, 1090), "u": (640, 1190)}

    def bark(hertz: float) -> float:
        return 26.81 * hertz / (1960 + hertz) - 0.53  # Traunmüller 1990, from memory

    def apart(pair: tuple[str, str]) -> float:
        one, other = ([bark(hertz) for hertz in formants[vowel]] for vowel in pair)
        return sum((x - y) ** 2 for x, y in zip(one, other, strict=True))

    closest = sorted(combinations(formants, 2), key=apart)[:3]
    marked = {frozenset((pair.a, pair.b)) for pair in known.by_ear if pair.very and {pair.a, pair.b} <= set(formants)}
    assert marked == {frozenset(pair) for pair in closest}
