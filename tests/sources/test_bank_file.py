import time

import pytest

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources import bank_file, dictionary, pictures, shelf
from cardgen.words.bank import Bank, Word
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known

SOUNDS = bank_file.read_sounds()
BANK = bank_file.read_bank()
DRAWN = [word for word in BANK if word.picture]
GROUPS = {
    "action", "animal", "body", "clothes", "food", "home", "nature", "number", "place", "school", "sky", "thing",
    "tool", "toy", "vehicle",
}  # fmt: skip


@pytest.mark.parametrize("word", BANK.words, ids=lambda word: word.word)
def test_every_key_fits_phones_and_spelling(word: Word) -> None:
    assert word.keys
    for key in word.keys:
        sound = SOUNDS.get(key)
        assert sound.is_heard_in(word.phones)
        spelled = word.word.endswith if sound.end else word.word.startswith
        assert spelled(sound.spellings)
        for accent in Accent:
            assert judge_known(word, sound, SOUNDS, accent).verdict is not Fit.WRONG
    assert not SOUNDS.get(word.keys[0]).end, "a word's own key is its first sound"


@pytest.mark.parametrize("word", DRAWN, ids=lambda word: word.word)
def test_every_drawn_word_has_its_picture(word: Word) -> None:
    assert word.picture
    assert pictures.exists(word.picture), f"art/pictures/{word.picture}.svg is missing"


@pytest.mark.parametrize("word", DRAWN, ids=lambda word: word.word)
def test_every_drawn_word_is_described(word: Word) -> None:
    assert word.group in GROUPS
    assert word.is_action == (word.group == "action")
    assert word.alt[0].isupper()
    assert 2 <= len(word.alt.split()) <= 9
    assert not word.alt.endswith(".")


def test_no_picture_is_used_twice() -> None:
    names = [word.picture for word in DRAWN]
    assert len(set(names)) == len(names)


def test_names_are_written_once_and_used() -> None:
    tables = shelf.read_toml(bank_file.WORDS_FILE)
    listed = [name for names in tables["names"].values() for name in names]
    used = {name.text for word in BANK for name in (*word.also, *word.also_weak, *word.shows)}
    assert len(set(listed)) == len(listed)
    assert set(listed) == {name for name in used if name not in BANK}
    for word in BANK:
        for accent in Accent:
            names = [name.text for name in (*word.strong_names(accent), *word.weak_names(accent))]
            assert len({word.word, *names}) == len(names) + 1, word.word
        assert all(like in BANK or like in listed for like in word.looks_like)


def test_every_word_outside_the_dictionarys_reading_says_why() -> None:
    for word in BANK:
        readings = dictionary.readings(word.word)
        overruled = bool(readings) and SOUNDS.first_sound(readings[0]) != SOUNDS.first_sound(word.phones)
        assert bool(word.reason) == overruled, word.word
    assert all(override.reason for override in BANK.overrides)


def test_key_pictures_are_good_words_of_their_own_key() -> None:
    used = [sound.key_picture for sound in SOUNDS.sounds if sound.key_picture]
    assert len(set(used)) == len(used)
    for sound in SOUNDS.sounds:
        word = BANK.get(sound.key_picture or "")
        if word is not None:
            assert sound.key in word.keys
            assert judge_known(word, sound, SOUNDS).verdict is Fit.GOOD
            assert not word.is_action


@pytest.mark.parametrize("pair", ["m s", "m n", "s t", "p t", "b d", "c f", "m t", "h f", "n h"])
def test_key_pictures_of_sounds_taught_together_are_of_different_kinds(pair: str) -> None:
    one, other = (BANK.get(SOUNDS.get(key).key_picture or "") for key in pair.split())
    assert one
    assert other
    assert one.group != other.group


def test_actions_carry_the_question_to_ask() -> None:
    cues = {word.word: word.cue for word in BANK if word.is_action}
    assert {"eat", "jump", "run"} <= set(cues)
    assert set(cues.values()) <= {"What is she doing?", "What is he doing?"}


def test_words_for_a_key_and_records_by_name() -> None:
    assert {"six", "box", "fox"} <= {word.word for word in BANK.words_for("x")}
    moon = BANK.get("moon")
    assert moon
    assert (moon.keys, moon.phones, moon.picture) == (("m",), ("M", "UW1", "N"), "moon")
    assert BANK.get("blorf") is None


def test_reading_the_bank_is_quick() -> None:
    text = shelf.read_text(bank_file.WORDS_FILE)
    best = 1.0
    for _ in range(5):
        start = time.perf_counter()
        bank_file.bank_from(text, "words")
        best = min(best, time.perf_counter() - start)
    assert best < 0.1  # 0.01 s on an idle machine; ten times that on a busy one


WORD = '[[word]]\nword = "moon"\nkeys = ["m"]\nphones = "M UW1 N"\n'


def read(text: str) -> Bank:
    return bank_file.bank_from(text, "my-words.toml")


def test_a_small_bank_reads() -> None:
    bank = read(WORD + 'also = ["gb:lune"]\n\n[names]\nL = ["lune"]\n')
    assert [(name.text, name.phones, name.accent) for name in bank.words[0].also] == [("lune", ("L",), Accent.GB)]


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        (WORD + "\n" + WORD, 6, "stands twice"),
        ('\n\n[[word]]\nword = "moon"\n', 3, "keys"),
        (WORD + 'colour = "blue"\n', 1, "colour"),
        (WORD + 'also = ["lune"]\n', 1, "lune"),
        (WORD + "alt = 5\n", 1, "alt is not a text"),
        (WORD.replace('["m"]', '"m"'), 1, "keys is not a list"),
        (WORD + '\n[[word]]\nkeys = ["m"]\nphones = "M"\n', 6, "'word' is missing"),
        ("[[word]]\nword = moon\n", 2, "line 2"),
    ],
)
def test_a_damaged_record_is_told_with_file_and_line(text: str, line: int, says: str) -> None:
    with pytest.raises(TeacherError) as caught:
        read(text)
    assert "my-words.toml" in caught.value.message
    assert f"line {line}" in caught.value.message
    assert says in caught.value.message


def test_a_damaged_sound_is_told_too() -> None:
    with pytest.raises(TeacherError, match=r"line 1.*say.*missing"):
        bank_file.sounds_from('[[sound]]\nkey = "m"\nphones = ["M"]\n', "sounds.toml")
    with pytest.raises(TeacherError, match='not "middle"'):
        bank_file.sounds_from('[[sound]]\nkey = "m"\nphones = ["M"]\nsay = "m"\nmouth = ""\nat = "middle"\n', "s.toml")
