import pytest

from cardgen.request import Accent
from cardgen.words.bank import Bank, Override, Word
from cardgen.words.first_sound import Origin, first_sounds, in_accent, own_key, parts, pronounce
from cardgen.words.sounds import Phones, SoundTable

BANK = Bank(
    (
        Word(word="yo-yo", keys=("y",), phones=("Y", "OW1", "Y", "OW2")),
        Word(word="umbrella", keys=("u",), phones=("AH1", "M"), reason="full vowel"),
    ),
    (
        Override("iguana", "short i", ("IH0", "G"), ("IH0", "G")),
        Override("herb", "h is said", None, ("HH", "ER1", "B")),
    ),
)
ENTRIES = {
    "iguana": (("AY0", "G"),),
    "umbrella": (("AH0", "M"), ("AH1", "M")),
    "herb": (("ER1", "B"), ("HH", "ER1", "B")),
    "ice": (("AY1", "S"),),
    "cream": (("K", "R", "IY1", "M"),),
    "fox": (("F", "AA1", "K", "S"),),
    "toy": (("T", "OY1"),),
}


def dictionary(word: str) -> tuple[Phones, ...]:
    return ENTRIES.get(word, ())


def never(word: str) -> tuple[Phones, ...]:
    raise AssertionError(f"the dictionary was asked for {word}")


def test_the_bank_goes_before_the_dictionary() -> None:
    said = pronounce("Umbrella", BANK, never)
    assert said
    assert (said.readings, said.origin, said.reason) == ((("AH1", "M"),), Origin.BANK, "full vowel")


def test_an_override_goes_before_the_dictionary() -> None:
    said = pronounce("iguana", BANK, never)
    assert said
    assert (said.readings, said.origin) == ((("IH0", "G"),), Origin.OVERRIDE)


def test_an_override_may_hold_for_one_accent_only() -> None:
    us, gb = (pronounce("herb", BANK, dictionary, accent) for accent in Accent)
    assert us
    assert gb
    assert us.readings == ENTRIES["herb"]
    assert gb.readings == (("HH", "ER1", "B"),)


def test_all_readings_of_the_dictionary_are_kept(sounds: SoundTable) -> None:
    said = pronounce("herb", BANK, dictionary)
    assert said
    assert first_sounds(said, sounds) == ("er", "h")


def test_an_unknown_word_is_none() -> None:
    assert pronounce("blorf", BANK, dictionary) is None
    assert pronounce("", BANK, dictionary) is None


@pytest.mark.parametrize("name", ["ice cream", "Ice-Cream", "ice  cream "])
def test_a_name_of_two_parts_is_judged_by_its_first(name: str) -> None:
    said = pronounce(name, BANK, dictionary)
    assert said
    assert said.readings == (("AY1", "S"),)


def test_an_end_sound_is_judged_by_the_last_part() -> None:
    said = pronounce("toy fox", BANK, dictionary, at_end=True)
    assert said
    assert said.readings == ENTRIES["fox"]


@pytest.mark.parametrize("name", ["yo-yo", "yo yo", "Yo Yo"])
def test_the_bank_finds_a_name_however_it_is_joined(name: str) -> None:
    said = pronounce(name, BANK, never)
    assert said
    assert said.origin is Origin.BANK


def test_parts_of_names() -> None:
    assert parts("Ice-Cream  van") == ["ice", "cream", "van"]


@pytest.mark.parametrize(
    ("word", "american", "british"),
    [
        ("ostrich", "AO1 S T", "AA1 S T"),
        ("off", "AO1 F", "AA1 F"),
        ("orange", "AO1 R AH0 N", "AA1 · R AH0 N"),
        ("order", "AO1 R D ER0", "AO1 R D ER0"),
        ("oar", "AO1 R", "AO1 R"),
        ("ought", "AO1 T", "AO1 T"),
        ("arrow", "EH1 R OW0", "AE1 · R OW0"),
        ("errand", "EH1 R AH0 N D", "EH1 · R AH0 N D"),
        ("area", "EH1 R IY0 AH0", "EH1 R IY0 AH0"),
        ("tube", "T UW1 B", "T Y UW1 B"),
        ("dew", "D UW1", "D Y UW1"),
        ("two", "T UW1", "T UW1"),
        ("tooth", "T UW1 TH", "T UW1 TH"),
        ("moon", "M UW1 N", "M UW1 N"),
        ("a", "AH0", "AH0"),
    ],
)
def test_first_sounds_in_british_english(word: str, american: str, british: str) -> None:
    phones = tuple(american.split())
    assert in_accent(word, phones, Accent.US) == phones
    assert in_accent(word, phones, Accent.GB) == tuple(british.split())


@pytest.mark.parametrize(
    ("word", "phones", "key"),
    [
        ("moon", "M UW1 N", "m"),
        ("ship", "SH IH1 P", "sh"),
        ("chef", "SH EH1 F", "ch"),
        ("phone", "F OW1 N", "p"),
        ("owl", "AW1 L", "ow"),
        ("oil", "OY1 L", "oy"),
        ("earth", "ER1 TH", "er"),
        ("ear", "IY1 R", "ear"),
        ("eraser", "IH0 R EY1 S ER0", "e"),
        ("ice", "AY1 S", "i"),
        ("oak", "OW1 K", "long-o"),
        ("eight", "EY1 T", "e"),
        ("giraffe", "JH ER0 AE1 F", "g"),
        ("queen", "K W IY1 N", "qu"),
        ("xylophone", "Z AY1 L", "x"),
        ("'bout", "B AW1 T", "b"),
    ],
)
def test_the_key_of_a_words_own_letters(sounds: SoundTable, word: str, phones: str, key: str) -> None:
    found = own_key(word, sounds, (tuple(phones.split()),))
    assert found
    assert found.key == key


def test_no_key_is_written_with_a_digit(sounds: SoundTable) -> None:
    assert own_key("4ever", sounds) is None
