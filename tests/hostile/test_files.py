"""A part of the full run (`python -m tests.hostile`): hostile files and command lines, and texts made up to be read."""

from collections.abc import Callable
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sources.lesson_file import read_lesson
from cardgen.sources.link_list import read_links
from cardgen.sources.own_words import words_from
from cardgen.words.links import check_address
from tests.hostile import commands, mutate, readers
from tests.hostile.campaign import playground, trials
from tests.hostile.watch import Trial, tried

FILES, COMMANDS = 1600, 200
PARTS = 4  # so that workers can share them

# Texts like those that are meant, of the letters that mean something in them.
TOML = st.text(st.sampled_from("ab=.\"'[]{},#\n 01-_\\\u202e\0é"), max_size=60)
CSV = st.text(st.sampled_from('ab,;\t"\n\r\0 é\ufeffhttps://.x'), max_size=60)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=3),
    max_leaves=6,
)


@pytest.mark.parametrize("part", range(PARTS))
def test_files_are_read_or_refused(part: int) -> None:
    found = list(trials(range(part, FILES, PARTS), seed=1, share=0))
    assert not [one for one in found if one.fault]
    assert 0.3 < sum(one.told for one in found) / len(found) < 0.95, (
        "hostile files must be neither all good nor all bad"
    )


@pytest.mark.parametrize("part", range(PARTS))
def test_command_lines_are_done_or_refused(part: int) -> None:
    found = list(trials(range(part, COMMANDS, PARTS), seed=2, share=1))
    assert not [one for one in found if one.fault]


def test_every_option_can_be_tried() -> None:
    rng, seen = Random(1), set()
    with playground() as folder:
        for _ in range(4000):
            words = commands.command_line(rng, folder).what.split()
            seen |= {word.split("=")[0] for word in words if word.startswith("--")}
    there = {name for _, option in commands.options() for name in option.opts if name.startswith("--")}
    assert there - seen <= {"--help"}


@pytest.mark.parametrize("kind", ["words", "links", "lesson", "layout", "folder"])
def test_ten_thousand_entries(kind: str) -> None:
    seeds = (
        number
        for number in range(1000)
        if Random(number).choice(("words", "links", "lesson", "layout", "folder")) == kind
    )
    with playground() as folder:
        assert tried(readers.many(Random(next(seeds)), folder), folder).fault == ""


def said_by(call: Callable[[], object], otherwise: str) -> str:
    """What is said where a call is refused."""
    try:
        call()
    except TeacherError as error:
        return error.message
    return otherwise


@settings(max_examples=100, deadline=None)
@given(TOML)
def test_a_lesson_is_read_or_refused(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    file = tmp_path_factory.getbasetemp() / "made-up.toml"
    file.write_text(text, "utf-8")
    assert file.name in said_by(lambda: read_lesson(str(file)), file.name)


@settings(max_examples=100, deadline=None)
@given(CSV)
def test_a_table_of_links_is_read_or_refused(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    file = tmp_path_factory.getbasetemp() / "made-up.csv"
    file.write_text(text, "utf-8", newline="")
    assert file.name in said_by(lambda: read_links(str(file)), file.name)


@settings(max_examples=100, deadline=None)
@given(st.dictionaries(st.sampled_from(["word", "keys", "phones", "also", "cautions", "alt", "picture", "x"]), VALUES))
def test_a_word_is_read_or_refused(record: dict[str, object]) -> None:
    lines = [f"{name} = {_written(value)}" for name, value in record.items() if value is not None]
    assert "words.toml" in said_by(lambda: words_from("\n".join(["[[word]]", *lines]), readers.known()), "words.toml")


def _written(value: object) -> str:
    if isinstance(value, list):
        return f"[{', '.join(_written(one) for one in value)}]"
    return mutate.quoted(value) if isinstance(value, str) else str(value).lower()


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=30) | st.from_regex(r"https?://[a-z.@:]{0,9}[/?#a-zé ]{0,9}"))
def test_an_address_stays_as_it_is_or_is_refused(address: str) -> None:
    assert said_by(lambda: None if check_address(address) == address else 1 / 0, "as it was")


# The watch itself must see what it is there for.
def _write_outside() -> None:
    Path("../outside").write_text("mine now")


def _connect() -> None:
    import socket

    socket.create_connection(("localhost", 9), 1)


def _run() -> None:
    import subprocess

    subprocess.run(["true"], check=False)


def _spin() -> None:
    while True:
        pass


def _refuse() -> None:
    raise TeacherError("moon.png is bad.")


@pytest.mark.parametrize(
    ("call", "names", "fault"),
    [
        (_write_outside, (), "Escaped: open"),
        (lambda: Path("../outside").unlink(), (), "Escaped: os.remove"),
        (lambda: Path("a").symlink_to("../elsewhere"), (), ""),
        (_connect, (), "Escaped: socket"),
        (_run, (), "Escaped: subprocess"),
        (lambda: 1 / 0, (), "ZeroDivisionError"),
        (_refuse, ("moon.png",), ""),
        (_refuse, ("sun.png",), "no file is named"),
        (lambda: bytearray(1 << 31), (), "MemoryError"),
        (lambda: commands.run(["bingo", "m", "s", "--boards=0"]), (), ""),
    ],
)
def test_the_watch_sees(call: object, names: tuple[str, ...], fault: str) -> None:
    with playground() as folder:
        found = tried(Trial("a", "b", call, names), folder).fault  # type: ignore[arg-type]
    assert found.startswith(fault) if fault else found == ""


def test_the_watch_does_not_wait(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.hostile.watch.SECONDS", 0.2)
    with playground() as folder:
        assert tried(Trial("a", "b", _spin), folder).fault.startswith("Hung")
