"""Who is seen in the pictures: each skin about as often, girls and women about as often as boys and men.

The bounds (a fifth, 15 %, a third) are our own choice, no source.
"""

import re
from collections import Counter

import pytest

from cardgen.sources import shelf
from cardgen.sources.bank_file import read_bank
from cardgen.words.bank import Word

SKINS = ("skin1", "skin2", "skin3")
SEXES = {"girl": "f", "woman": "f", "queen": "f", "boy": "m", "man": "m", "king": "m"}
SKIN = re.compile(r'class="(?!t )[a-z] (skin[123])[ "]')  # tints are nails and soles
# What has a colour of skin and is no person: animals, food, and the doll, a thing of cloth.
NO_PERSON = {
    "deer", "doll", "kangaroo", "owl", "ox", "peanut", "sausage", "shampoo", "walrus",
}  # fmt: skip
OTHERS = {"escalator", "ouch", "parachute", "upside-down", "zip-line"}  # people who are neither named nor asked about


def skins(picture: str) -> Counter[str]:
    """How many parts of a picture have which skin."""
    return Counter(SKIN.findall(shelf.read_text(f"art/pictures/{picture}.svg")))


def skin(word: Word) -> str:
    """The skin most parts of a picture have; the larger part comes first where there are as many."""
    return skins(word.picture or "").most_common(1)[0][0]


def sex(word: Word) -> str | None:
    """What the alt text says: f, m, or None."""
    said = {SEXES[name] for name in re.findall(r"[a-z]+", word.alt.lower()) if name in SEXES}
    return said.pop() if len(said) == 1 else None


SKINNED = [word for word in read_bank() if word.picture and skins(word.picture) and word.picture not in NO_PERSON]
PEOPLE = [word for word in SKINNED if word.group == "person" or word.is_action or word.word in OTHERS]
PARTS = [word for word in SKINNED if word not in PEOPLE]


def test_parts_of_the_body_are_all_that_is_left() -> None:
    assert {word.group for word in PARTS} == {"body", "clothes"}
    assert len(PEOPLE) > 40


@pytest.mark.parametrize("shown", [PEOPLE, PARTS], ids=["people", "parts of the body"])
def test_each_skin_is_seen_as_often(shown: list[Word]) -> None:
    counts = Counter(map(skin, shown))
    even = len(shown) / len(SKINS)
    assert all(0.8 * even <= counts[name] <= 1.2 * even for name in SKINS), counts


@pytest.mark.parametrize("word", PEOPLE, ids=lambda word: word.word)
def test_a_person_has_one_skin_and_is_said_to_be_girl_boy_woman_or_man(word: Word) -> None:
    assert len(skins(word.picture or "")) == 1
    assert sex(word) is not None, word.alt
    if word.is_action:
        assert {"f": "What is she doing?", "m": "What is he doing?"}[sex(word) or ""] == word.cue


def test_girls_and_women_are_seen_as_often_as_boys_and_men() -> None:
    counts = Counter(map(sex, PEOPLE))
    assert abs(counts["f"] - counts["m"]) <= 0.15 * counts["m"], counts
    deeds = Counter(sex(word) for word in PEOPLE if word.is_action)
    assert abs(deeds["f"] - deeds["m"]) <= 0.15 * deeds["m"], deeds


@pytest.mark.parametrize("name", SKINS)
def test_no_skin_belongs_to_one_of_them(name: str) -> None:
    counts = Counter(sex(word) for word in PEOPLE if skin(word) == name)
    assert min(counts["f"], counts["m"]) >= counts.total() / 3, counts
