from string import ascii_lowercase

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.halves import CurveWord, letter_words, other_words, words_for

OTHERS = [f"key{i}" for i in range(26)]


def turned(word: CurveWord) -> CurveWord:
    return tuple(-digit for digit in reversed(word))


@pytest.mark.parametrize(("words", "digits"), [(letter_words(), 4), (other_words(), 5)])
def test_26_words_with_their_check_digit(words: tuple[CurveWord, ...], digits: int) -> None:
    assert len(set(words)) == len(words) == 26
    for word in words:
        assert len(word) == digits
        assert set(word) <= {-1, 0, 1}
        assert sum(word) % 3 == 1
        assert sum(turned(word)) % 3 == 2
        for other in words:
            assert word == other or sum(a != b for a, b in zip(word, other, strict=True)) >= 2
    assert not set(words) & set(map(turned, words))


def test_the_letters_take_all_words_of_four_digits_but_one() -> None:
    # Of 3⁴ = 81 words a third has each remainder; 0 goes before +1 and -1.
    assert letter_words()[:3] == ((0, 0, 0, 1), (0, 0, 1, 0), (0, 0, -1, -1))
    assert letter_words()[-1] == (-1, -1, -1, 1)
    assert (1, 1, 1, 1) not in letter_words()


def test_a_letter_has_the_same_word_in_every_game() -> None:
    assert words_for(ascii_lowercase) == letter_words()
    assert words_for(("m", "sh", "s")) == (letter_words()[12], other_words()[0], letter_words()[18])
    assert words_for(("th", "s", "sh")) == (other_words()[0], letter_words()[18], other_words()[1])


@given(st.lists(st.sampled_from([*ascii_lowercase, *OTHERS]), unique=True))
def test_never_the_same_twice_in_a_game(keys: list[str]) -> None:
    words = words_for(keys)
    assert len(set(words)) == len(keys)
    assert all(len(word) == (4 if key in ascii_lowercase else 5) for key, word in zip(keys, words, strict=True))


def test_more_keys_than_words_are_refused() -> None:
    assert len(words_for(OTHERS)) == 26
    with pytest.raises(TeacherError, match="27 of these sounds") as caught:
        words_for((*OTHERS, "sh"))
    assert "--cut-line straight" in caught.value.hint
    with pytest.raises(ValueError, match="twice"):
        words_for(("m", "s", "m"))
