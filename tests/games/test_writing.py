"""What stands in the rows of a writing sheet, and which words are on its back."""

import random

import pytest

from cardgen.games.pieces import DottedLetters, Fill
from cardgen.games.writing import fills, letters_of, rows, word_rows
from cardgen.games.writing_words import words_to_write
from cardgen.request import Accent, LetterCase
from cardgen.sources import bank_file

SMALL, CAPITAL = (DottedLetters(text, ((0.0, 0.0),), ((0.0, 0.0),), 0.0, 400.0) for text in "mM")
SIGNS = {Fill.MODEL: "M", Fill.DOTS: "d", Fill.STARTS: "s", Fill.EMPTY: "-"}


def shown(letters: list[DottedLetters], count: int, places: int) -> list[str]:
    return [f"{row.letters.text} {''.join(SIGNS[fill] for fill in row.fills)}" for row in rows(letters, count, places)]


def test_the_usual_sheet_has_four_rows_of_the_small_letter_then_one_capital() -> None:
    assert shown([SMALL, CAPITAL], 5, 5) == ["m Mdddd", "m Mddss", "m Msss-", "m M----", "M Mdds-"]


def test_the_big_sheet_has_two_rows_of_the_small_letter_then_one_capital() -> None:
    assert shown([SMALL, CAPITAL], 3, 4) == ["m Mds-", "m Ms--", "M Mds-"]


def test_one_row_less_leaves_out_the_second() -> None:
    assert shown([SMALL, CAPITAL], 4, 5) == ["m Mdddd", "m Msss-", "m M----", "M Mdds-"]


@pytest.mark.parametrize("letters", [[SMALL], [SMALL, CAPITAL]], ids=["one", "both"])
@pytest.mark.parametrize("places", range(2, 9))
@pytest.mark.parametrize("count", range(2, 11))
def test_every_row_begins_with_a_model_and_help_only_grows_less(
    letters: list[DottedLetters], places: int, count: int
) -> None:
    made = rows(letters, count, places)
    assert len(made) == count
    assert all(len(row.fills) == places and row.fills.index(Fill.MODEL) == 0 for row in made)
    assert all(row.fills.count(Fill.MODEL) == 1 for row in made)
    texts = [row.letters.text for row in made]
    assert texts == sorted(texts, reverse=True), "small letters come before the capital"
    assert texts[0] == "m"
    assert set(texts) == {letter.text for letter in letters}
    assert texts.count("m") >= texts.count("M")
    for text in set(texts):
        dots = [row.fills.count(Fill.DOTS) for row in made if row.letters.text == text]
        assert dots == sorted(dots, reverse=True)
        assert dots[0] > 0


def test_fills_never_overflow() -> None:
    assert all(len(fills(step, places)) == places for step in range(6) for places in range(2, 12))


@pytest.mark.parametrize("times", range(1, 8))
@pytest.mark.parametrize("count", range(1, 5))
def test_a_word_is_shown_then_traced_then_written_alone(times: int, count: int) -> None:
    made = word_rows(times, count)
    assert len(made) == count
    assert all(len(row) == times for row in made)
    flat = [fill for row in made for fill in row]
    assert flat[0] is Fill.MODEL
    assert Fill.STARTS not in flat
    if count > 1:
        assert Fill.DOTS in flat
    if times > 1:
        assert all(row[0] is Fill.MODEL for row in made)
        assert count == 1 or Fill.EMPTY in made[-1]


def test_letters_are_as_printed() -> None:
    sounds = bank_file.read_sounds()
    assert letters_of(sounds.get("sh"), LetterCase.BOTH) == ("sh", "Sh")
    assert letters_of(sounds.get("qu"), LetterCase.CAPITAL) == ("Qu",)
    assert letters_of(sounds.get("long-i"), LetterCase.SMALL) == ("i",)


def chosen(key: str, count: int, seed: int = 1) -> list[str]:
    sounds, bank = bank_file.read_sounds(), bank_file.read_bank()
    sound = sounds.get(key)
    found = words_to_write(
        sound,
        count,
        bank.get(sound.key_picture or ""),
        bank,
        sounds,
        accent=Accent.US,
        rng=random.Random(seed),
        drawable=lambda _: True,
        writable=lambda word: len(word) < 9,
    )
    return [word.word for word in found]


def test_the_key_picture_s_word_comes_first_then_a_short_one() -> None:
    for seed in range(5):
        mouse, second = chosen("m", 2, seed)
        assert mouse == "mouse"
        assert len(second) == 3
        assert second[0] == "m"


def test_a_word_that_cannot_be_written_is_passed_over() -> None:
    assert "butterfly" not in chosen("b", 40)
    assert chosen("m", 0) == []


def test_end_sounds_get_words_that_end_so() -> None:
    assert all(word.endswith("ng") for word in chosen("ng", 2))
