import re
from itertools import chain
from unicodedata import normalize

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sources.bank_file import read_bank, read_sounds
from cardgen.words.clip_names import clip_name, family_name

UNRESERVED = re.compile(r"[A-Za-z0-9._~-]+")  # RFC 3986, 2.3


@pytest.mark.parametrize(
    ("key", "word", "name"),
    [
        ("m", None, "m"),
        ("m", "moon", "m-moon"),
        ("long-i", "ice cream", "long-i-ice-cream"),
        ("e", "Éclair", "e-eclair"),
        ("j", "jack-o'-lantern", "j-jack-o-lantern"),
        ("m", "mum’s hat", "m-mums-hat"),
    ],
)
def test_names_are_the_sound_and_the_word(key: str, word: str | None, name: str) -> None:
    assert clip_name(key, word) == name


def test_every_sound_and_word_has_a_name_of_its_own() -> None:
    sounds, bank = read_sounds(), read_bank()
    names = list(sounds.keys) + [clip_name(key, word.word) for word in bank for key in word.keys]
    assert len(names) > 500
    assert len(set(names)) == len(names)
    assert all(UNRESERVED.fullmatch(name) for name in names)


@given(st.text(max_size=40))
def test_whatever_the_word_a_link_needs_no_escapes(word: str) -> None:
    if not re.search("[a-z0-9]", normalize("NFKD", word.casefold())):
        with pytest.raises(TeacherError):
            clip_name("m", word)
        return
    name = clip_name("m", word)
    assert UNRESERVED.fullmatch(name)
    assert name == name.lower()
    assert not name.endswith("-")


@pytest.mark.parametrize(
    ("tag", "name"), [("es", "family-es"), ("pt_BR", "family-pt-br"), ("zh-Hant", "family-zh-hant")]
)
def test_home_languages_go_by_their_tags(tag: str, name: str) -> None:
    assert family_name(tag) == name


@pytest.mark.parametrize("tag", ["", "Spanish please", "../es", "e", "1", "es/", "español"])
def test_what_is_no_language_tag_is_refused(tag: str) -> None:
    with pytest.raises(TeacherError, match="not a language"):
        family_name(tag)


def test_families_do_not_take_the_name_of_a_sound() -> None:
    sounds, bank = read_sounds(), read_bank()
    every = chain(sounds.keys, (clip_name(key, word.word) for word in bank for key in word.keys))
    assert not [name for name in every if name.startswith("family")]
