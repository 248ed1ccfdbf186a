import time

import pytest

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources import bank_file, dictionary, pictures, shelf
from cardgen.words.bank import Bank, Word
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known
from cardgen.words.key_pictures import is_good

SOUNDS = bank_file.read_sounds()
BANK = bank_file.read_bank()
DRAWN = [word for word in BANK if word.picture]
GROUPS = {
    "animal", "body", "clothes", "food", "home", "music", "nature", "number", "person", "place", "school", "shape",
    "sky", "thing", "tool", "toy", "vehicle",
}  # fmt: skip
PICTURES = sorted(file.name.removesuffix(".svg") for file in shelf.folder("art").joinpath("pictures").iterdir())


@pytest.mark.parametrize("word", BANK.words, ids=lambda word: word.word)
def test_every_key_fits_phones_and_spelling(word: Word) -> None:
    for key in word.keys:
        sound = SOUNDS.get(key)
        assert sound.is_heard_in(word.phones)
        spelled = word.word.endswith if sound.end else word.word.startswith
        assert spelled(sound.spellings)
        assert judge_known(word, sound, SOUNDS).verdict is not Fit.WRONG
        if word.word != "orange":  # in British English it begins with short o
            assert judge_known(word, sound, SOUNDS, Accent.GB).verdict is not Fit.WRONG
    assert not word.keys or not SOUNDS.get(word.keys[0]).end, "a word's own key is its first sound"


def test_a_word_without_a_key_suits_none() -> None:
    keyless = [word for word in BANK if not word.keys]
    assert {word.word for word in keyless} == {"eight", "eye", "write"}
    for word in keyless:
        assert all(judge_known(word, sound, SOUNDS).verdict is Fit.WRONG for sound in SOUNDS.sounds)


@pytest.mark.parametrize("word", DRAWN, ids=lambda word: word.word)
def test_every_drawn_word_has_its_picture(word: Word) -> None:
    assert word.picture
    assert pictures.exists(word.picture), f"art/pictures/{word.picture}.svg is missing"


@pytest.mark.parametrize("word", DRAWN, ids=lambda word: word.word)
def test_every_drawn_word_is_described(word: Word) -> None:
    assert word.is_action or word.group in GROUPS
    assert not (word.is_action and word.group)
    assert word.alt[0].isupper()
    assert 2 <= len(word.alt.split()) <= 9
    assert not word.alt.endswith(".")


def test_no_picture_is_used_twice() -> None:
    names = [word.picture for word in DRAWN]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("picture", PICTURES)
def test_every_picture_has_its_word(picture: str) -> None:
    assert picture in {word.picture for word in DRAWN}, f"{picture}: write its record, or take out picture = false"


def test_every_drawn_thing_stands_in_one_group() -> None:
    groups = shelf.read_toml(bank_file.WORDS_FILE)["groups"]
    listed = [word for group in groups.values() for word in bank_file.listed("groups", group)]
    assert len(set(listed)) == len(listed)
    assert {word.word for word in DRAWN if not word.is_action} <= set(listed) <= {word.word for word in BANK}


def test_pictures_that_are_mixed_up_say_so_on_both_sides() -> None:
    for word in BANK:
        for like in word.looks_like:
            other = BANK.get(like)
            assert other, f"{word.word} looks like {like}, which is no word of the bank"
            assert word.word in other.looks_like, (word.word, like)


def test_names_are_written_once_and_used() -> None:
    tables = shelf.read_toml(bank_file.WORDS_FILE)
    listed = [name for names in tables["names"].values() for name in bank_file.listed("names", names)]
    used = {name.text for word in BANK for name in (*word.also, *word.also_weak, *word.shows)}
    assert len(set(listed)) == len(listed)
    assert set(listed) == {name for name in used if name not in BANK}
    for word in BANK:
        for accent in Accent:
            names = [name.text for name in (*word.strong_names(accent), *word.weak_names(accent))]
            assert len({word.word, *names}) == len(names) + 1, word.word


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
            assert is_good(word, sound, SOUNDS)


@pytest.mark.parametrize("pair", ["m s", "m n", "s t", "p t", "b d", "c f", "m t", "h f", "n h"])
def test_key_pictures_of_sounds_taught_together_are_of_different_kinds(pair: str) -> None:
    one, other = (BANK.get(SOUNDS.get(key).key_picture or "") for key in pair.split())
    assert one
    assert other
    assert one.group != other.group


def test_actions_carry_the_question_to_ask() -> None:
    cues = {word.word: word.cue for word in BANK if word.is_action}
    assert len(cues) >= 24
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


WORD = '[[word]]\nword = "moon"\nkeys = "m"\nphones = "M UW1 N"\n'


def read(text: str) -> Bank:
    return bank_file.bank_from(text, "my-words.toml")


def test_a_small_bank_reads() -> None:
    (moon,) = read(WORD + 'also = "gb:lune, half moon"\n\n[names]\nL = "lune"\nHH = ["half moon"]\n')
    assert (moon.keys, moon.picture, moon.group) == (("m",), "moon", "")
    assert [(name.text, name.phones, name.accent) for name in moon.also] == [
        ("lune", ("L",), Accent.GB),
        ("half moon", ("HH",), None),
    ]


def test_lists_may_be_written_either_way() -> None:
    names = '\n[names]\nK = "cap, coat"\n'
    text = '[[word]]\nword = "fox"\nkeys = "f x"\nphones = "F AA1 K S"\nalso = "cap, coat"\nlooks_like = "dog, wolf"\n'
    toml = text.replace('"f x"', '["f", "x"]').replace('"cap, coat"', '["cap", "coat"]')
    assert read(text + names).words == read(toml.replace('"dog, wolf"', '["dog", "wolf"]') + names).words


def test_a_picture_is_named_after_its_word_unless_the_record_says_otherwise() -> None:
    pictures_ = [read(WORD + more).words[0].picture for more in ("", 'picture = "night"\n', "picture = false\n")]
    assert pictures_ == ["moon", "night", None]


def test_groups_stand_in_a_table_of_their_own() -> None:
    text = WORD + '\n[groups]\nsky = ["sun, moon", "star"]\n'
    assert read(text).words[0].group == "sky"


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        (WORD + "\n" + WORD, 6, "stands twice"),
        ('\n\n[[word]]\nword = "moon"\n', 3, "keys"),
        (WORD + 'colour = "blue"\n', 1, "colour"),
        (WORD + 'also = "lune"\n', 1, "lune"),
        (WORD + 'also = ["sun", 5]\n', 1, "also is not a list"),
        (WORD + "picture = true\n", 1, "picture is not a text"),
        (WORD + "alt = false\n", 1, "alt is not a text"),
        (WORD + 'notes = "Well known."\n', 1, "notes is not a list"),
        (WORD + "alt = 5\n", 1, "alt is not a text"),
        (WORD.replace('"m"', "5"), 1, "keys is not a list"),
        (WORD + '\n[[word]]\nkeys = "m"\nphones = "M"\n', 6, "'word' is missing"),
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
