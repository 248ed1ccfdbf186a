"""The teacher's own words: her list, and words that only a file's name tells."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources.own_words import judged, verdict_on, with_own, words_from
from cardgen.words.bank import Name, Remark
from cardgen.words.case import Fit
from tests.sources.own_samples import known

MINE = """\
# Mine.
[[word]]
word = "Mum"
keys = "m"

[[word]]
word = "zorp"
keys = ["z"]
phones = "Z AO1 R P"
alt = "our class's zorp"
also = ["blob", "us:glorx"]
also_weak = "monster, thing"
shows = "eye"
looks_like = "blob"
cautions = ["It wobbles.", "gb:It is odd."]

[[word]]
word = "ice cream"
keys = "long-i"

[[word]]
word = "tomato"

[groups]
animal = "zorp"

[names]
"G" = ["glorx"]
"""


def test_a_list_is_written_like_the_banks() -> None:
    mum, zorp, ice, tomato = words_from(MINE, known())
    assert (mum.word, mum.keys, mum.phones, mum.picture, mum.alt) == ("Mum", ("m",), ("M", "AH1", "M"), "mum", "Mum")
    assert zorp.phones == ("Z", "AO1", "R", "P")
    assert zorp.alt == "our class's zorp"
    assert zorp.also == (Name("blob", ("B", "L", "AA1", "B")), Name("glorx", ("G",), Accent.US))
    assert [name.text for name in zorp.also_weak] == ["monster", "thing"]
    assert zorp.cautions == (Remark("It wobbles."), Remark("It is odd.", Accent.GB))
    assert (zorp.looks_like, zorp.group) == (("blob",), "animal")
    assert (ice.word, ice.picture, ice.keys) == ("ice cream", "ice-cream", ("long-i",))
    assert tomato.keys == ("t",)  # that of its own letters


def test_an_empty_list_has_no_words() -> None:
    assert words_from("# nothing yet", known()) == ()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[word]]\nword = "moon\nkeys = "m"', "line 2"),
        ("[[word]]\nkeys = 'm'", "line 1: the word is missing"),
        ('[[word]]\nword = "mum"\nkeys = "mm"', 'line 1: There is no sound "mm"'),
        ('[[word]]\nword = "mum"\nkeys = 5', "line 1: keys is not a list"),
        ('[[word]]\nword = 5\nkeys = "m"', "line 1: word is not a text"),
        ('\n\n[[word]]\nword = "zorp"\nkeys = "z"', 'line 3: no dictionary knows how "zorp" is said'),
        ('[[word]]\nword = "zorp"\nkeys = "z"\nphones = "ZORP"', 'line 1: "ZORP" is no sound'),
        ('[[word]]\nword = "zorp"\nkeys = "z"\nphones = ""', "line 1: "),
        ('[[word]]\nword = "mum"\nkey = "m"', 'line 1: the field "key" is not known'),
        ('[[word]]\nword = "mum"\n[[word]]\nword = "Mum"', 'line 3: "Mum" stands twice'),
        ('[[word]]\nword = "mum"\nalso = "xyzzyq"', 'line 1: the first sound of "xyzzyq" is not known'),
        ('[[word]]\nword = "mum"\npicture = "../../etc/passwd"', "line 1: picture is not needed"),
        ('[[word]]\nword = "../../etc/passwd"', 'line 1: "../../etc/passwd" is no word'),
        ('[[word]]\nword = "m\\u0000m"', 'line 1: "m?m" is no word'),
        ('[word]\nword = "mum"', "its words are not written one by one"),
        ("word = [1]", "its words are not written one by one"),
        ('mum = "m"', '"mum" stands outside of any word'),
        ("names = 5", "[names] is not a table"),
        ('[names]\nQQ = ["mum"]', '"QQ" is no sound'),
        ("a = " + "[" * 3000, "it cannot be read"),
        ("a = " + "9" * 5000, "it cannot be read"),
    ],
)
def test_a_damaged_list_is_told_with_file_and_line(text: str, said: str) -> None:
    with pytest.raises(TeacherError) as caught:
        words_from(text, known())
    assert "words.toml" in caught.value.message
    assert said in caught.value.message
    assert caught.value.hint


VALUES = st.none() | st.booleans() | st.integers() | st.text(max_size=5) | st.lists(st.text(max_size=3), max_size=2)
FIELDS = st.sampled_from(["word", "keys", "phones", "alt", "also", "shows", "cautions", "cue", "picture", "x"])


@given(st.dictionaries(FIELDS, VALUES.filter(lambda value: value is not None), max_size=4))
@settings(max_examples=80, deadline=None)
def test_no_record_breaks_the_reader(record: dict[str, object]) -> None:
    def toml(value: object) -> str:
        if isinstance(value, list):
            return "[" + ", ".join(map(toml, value)) + "]"
        if isinstance(value, str):
            return (
                '"' + "".join(f"\\U{ord(letter):08x}" for letter in value if not 0xD800 <= ord(letter) < 0xE000) + '"'
            )
        return str(value).lower()

    text = "[[word]]\n" + "\n".join(f"{field} = {toml(value)}" for field, value in record.items())
    try:
        words = words_from(text, known())
    except TeacherError as error:
        refused = error
        assert "words.toml" in refused.message
        return
    assert all(word.word and word.keys and word.phones for word in words)


# First sounds from memory of the two accents; the readings themselves are the dictionary's.
@pytest.mark.parametrize(
    ("word", "key", "fit"),
    [
        ("mango", "m", Fit.GOOD),
        ("gnome", "g", Fit.WRONG),
        ("unicorn", "u", Fit.WRONG),
        ("café", "c", Fit.GOOD),
        ("teddy-bear", "t", Fit.GOOD),
    ],
)
def test_a_file_name_is_judged_by_the_dictionary(word: str, key: str, fit: Fit) -> None:
    verdict = verdict_on(word, None, known())
    assert verdict is not None
    assert (verdict.key, verdict.verdict) == (key, fit)
    record = judged(word, known())
    if fit is Fit.WRONG:
        assert record is None
    else:
        assert record is not None
        assert (record.word, record.keys, record.alt) == (word, (key,), word)


@pytest.mark.parametrize("word", ["zorp", "b", "bingo-m-s-contact", "moon-photo-final", "moon-zorp"])
def test_what_looks_like_a_file_name_is_no_word(word: str) -> None:
    assert verdict_on(word, None, known()) is None
    assert judged(word, known()) is None


def test_what_speaks_against_a_word_stays_with_it() -> None:
    record = judged("truck", known())  # tr is said like chr
    assert record is not None
    assert record.cautions


def test_hers_take_the_place_of_ours_and_are_described_by_their_word() -> None:
    facts = known()
    listed = words_from('[[word]]\nword = "moon"\nalt = "our moon"\n[[word]]\nword = "Mum"', facts)
    bank = with_own(facts.bank, listed, {"map": "map", "mango": "mango", "zorp": "zorp", "moon": "moon"}, facts)
    by_word = {word.word: word for word in bank}
    assert by_word["moon"].alt == "our moon"
    assert by_word["map"].alt == "map"
    ours = facts.bank.get("map")
    assert ours is not None
    assert by_word["map"].also_weak == ours.also_weak
    assert by_word["mango"].picture == "mango"
    assert by_word["Mum"].picture == "mum"
    assert "zorp" not in by_word
    assert len(by_word) == len(facts.bank.words) + 2
    assert bank.overrides == facts.bank.overrides
