import pytest

from cardgen import ask
from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.words.case import Fit


def words_of(*keys: str, accent: Accent = Accent.US) -> dict[str, ask.WordLine]:
    return {line.word: line for line in ask.words(keys, accent).words}


def test_every_sound_has_a_line() -> None:
    lines = {line.sound.key: line for line in ask.sounds()}
    assert len(lines) == 46
    assert lines["m"].words >= 12
    assert lines["m"].good <= lines["m"].words
    assert lines["m"].in_the_way == ()
    assert "same sound as k" in lines["c"].in_the_way[0]
    assert any("end of words" in way for way in lines["x"].in_the_way)
    assert "same letter as a" in lines["long-a"].in_the_way[-1]


def test_a_sound_without_words_says_so() -> None:
    lines = {line.sound.key: line for line in ask.sounds()}
    bare = [line for line in lines.values() if not line.words]
    assert all("no picture words yet" in line.in_the_way for line in bare)
    assert all("few picture words" in line.in_the_way for line in lines.values() if 0 < line.words < ask.FEW)


def test_words_come_good_ones_first_and_left_out_ones_last() -> None:
    lines = ask.words(("m",)).words
    order = [(bool(line.left_out), line.verdict.verdict is not Fit.GOOD) for line in lines]
    assert order == sorted(order)
    assert words_of("m")["mouse"].is_key_picture


def test_a_second_sound_shuts_words_out_and_says_why() -> None:
    assert words_of("m")["mountain"].left_out == ()
    assert "snow" in words_of("m", "s")["mountain"].left_out[0]


def test_words_that_only_look_as_if_they_fit_are_left_out_with_the_reason() -> None:
    found = words_of("e")
    assert "long-e" in found["eat"].left_out[0]
    assert "elephant" in found


def test_actions_and_undrawn_words_are_left_out() -> None:
    assert "What is she doing?" in words_of("long-e")["eat"].left_out[0]
    assert "no picture" in words_of("h")["ham"].left_out[0]


def test_close_sounds_and_first_languages_are_told() -> None:
    assert any("sound close" in text for text in ask.words(("m", "n")).look_out)
    assert any("Korean" in text for text in ask.words(("l", "r"), home_language="Korean").look_out)
    with pytest.raises(TeacherError):
        ask.words(("mm",))


def test_a_first_language_may_change_a_key_picture() -> None:
    answer = ask.words(("m", "g"), home_language="Arabic")
    assert [line.word for line in answer.words if line.is_key_picture] == ["mouse", "gate"]
    assert answer.look_out[-1].startswith("Key picture for g: gate instead of goat")


def test_any_word_may_be_asked() -> None:
    giraffe, blorf = ask.word(["giraffe", "blorf"], "g")
    assert giraffe.verdict
    assert (giraffe.key, giraffe.verdict.verdict) == ("g", Fit.WRONG)
    assert (blorf.key, blorf.verdict) == ("g", None)
    assert "spelling" in blorf.why
    (own,) = ask.word(["ship"])
    assert own.key == "sh"
    with pytest.raises(TeacherError):
        ask.word(["moon"], "mm")


def test_the_accent_and_the_ear_count() -> None:
    assert [
        answer.verdict.verdict for accent in Accent for answer in ask.word(["sofa"], "s", accent) if answer.verdict
    ] == [
        Fit.CAUTION,
        Fit.GOOD,
    ]
    (by_ear,) = ask.word(["giraffe"], "j", any_spelling=True)
    assert by_ear.verdict
    assert by_ear.verdict.verdict is Fit.GOOD
