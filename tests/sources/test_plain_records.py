import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sources import bank_file, plain_records, shelf

PIECES = st.sampled_from(
    [
        "[[word]]\n", "[[word]]", "[[name]]\n", "[groups]\n", "[word]\n", "[word.more]\n", " [[word]]\n", "\n", "\n\n",
        "word = 'moon'\n", "word = 'moon'", "keys = \"m\"\n", "alt = 'a \"moon\"'\n", 'alt = "the sun\'s"\n',
        "picture = false\n", "picture = true\n", "also = 'a\tb'\n", "also = 'a\x01b'\n", 'alt = "a\\nb"\n',
        "alt = ''\n", " [[word]]\n", "[[word]] # one\n", "[[ word ]]\n",
        "notes = ['One.', 'Two.']\n", "notes = ['[a', \"b, 'c'\"]\n", "notes = ['One.',]\n", "notes = []\n",
        "notes = [ 'One.']\n", "notes = ['One.' 'Two.']\n", "notes = [['One.']]\n", 'notes = ["a\\nb"]\n',
         "notes = [\n", "]\n", "# a remark\n", "alt = '' # a remark\n", "note = '''\n",
        "'''\n", 'note = """\n', '"""\n', "alt = 'a'\r\n", "a.b = 'c'\n", "'a' = 'b'\n", "one = 1\n", "word = 5\n",
        "x\n",
    ]
)  # fmt: skip


# Records as they stand in a bank, with anything between, so that most of them are plain.
RECORDS = st.lists(st.lists(PIECES, max_size=3).map("".join), max_size=5).map(
    lambda between: "".join(f"[[word]]\nword = 'sun'\n{more}\n" for more in between)
)


def by_tomllib(text: str) -> object:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        return str(error)


def by_us(text: str) -> object:
    try:
        return plain_records.parse_toml(text, "file", "word")
    except TeacherError as error:
        return error.message.removeprefix("file cannot be read: ").removesuffix(".")


@given(st.one_of(st.lists(PIECES, max_size=14).map("".join), RECORDS))
@settings(max_examples=600)
def test_any_text_reads_as_by_the_standard_library(text: str) -> None:
    assert by_us(text) == by_tomllib(text)


@pytest.mark.parametrize(
    "text",
    [
        "[[word]]\nword = 'sun'\n[word.more]\n[[word]]\n",
        "[[word]]\nword = 'sun'\n\nnotes = ['One.']\n[[word]]\n",
        'note = """\n[[word]]\nkeys = "m"\n\n"""\n [[word]]\n',
        'note = """\n[[word]]\nkeys = "m"\n\n[groups]\n"""\n',
        "[note]\nnote = '''\n[[word]]\nkeys = \"m\"\n\n[groups]\n'''\n",
        "[[word]]\n\n[[word]]\nword = 'sun'\n",
        " [[word]]\nalt = 'A moon'\n\n[[word]]\nword = 'sun'\n",
        "[[word]]\nword = 'sun'\nword = 'moon'\n",
        "[[word]]\nword = 'sun'\r\n",
    ],
)
def test_texts_that_could_mislead(text: str) -> None:
    assert by_us(text) == by_tomllib(text)


def test_the_bank_reads_as_by_the_standard_library() -> None:
    text = shelf.read_text(bank_file.WORDS_FILE)
    assert plain_records.parse_toml(text, "words", "word") == tomllib.loads(text)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("[[word]]\nword = 'a'\n\n[[word]]\nword = 'b'\nword = 'c'\n", "line 6"),
        ("[[word]]\nword = 'a'\n\n[[word]]\nword = 'b'\nalt = c\n", "line 6"),
        ("[[word]]\nword = 'a'\n\n[groups]\n\n[groups]\n", "line 6"),
    ],
)
def test_what_cannot_be_read_is_told_with_the_line_of_the_whole_text(text: str, line: str) -> None:
    with pytest.raises(TeacherError, match=line):
        plain_records.parse_toml(text, "file", "word")


def test_every_record_of_the_bank_is_plain(monkeypatch: pytest.MonkeyPatch) -> None:
    text = shelf.read_text(bank_file.WORDS_FILE)
    left: list[str] = []

    def loads(rest: str) -> dict[str, Any]:
        left.append(rest)
        return standard(rest)

    standard = tomllib.loads
    monkeypatch.setattr(tomllib, "loads", loads)
    plain_records.parse_toml(text, "words", "word")
    assert len(left) == 1, "a record is not plain: write its texts in quotes without escapes, its lists on one line"
    assert "[[word]]" not in left[0]
