"""What hostile input once did: each ended in a traceback, hung, or wrote over the screen."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from cardgen.cli.lesson import from_file
from cardgen.cli.manners import plain
from cardgen.errors import TeacherError
from cardgen.paper.whole_file import whole_file
from cardgen.paper.whole_folder import whole_folder
from cardgen.recipes.lesson import CONTENTS, own_files
from cardgen.sources import layouts
from cardgen.sources.clip_site import open_site
from cardgen.sources.lesson_file import read_lesson
from cardgen.sources.link_list import read_links
from cardgen.sources.own_font import read_font
from tests.hostile import commands
from tests.hostile.campaign import playground
from tests.hostile.kills import ROOT

HUGE_HEX, HUGE = "0x" + "f" * 5000, "9" * 5000
DOTS = "a" + ".a" * 5000 + " = 1"


@pytest.fixture
def folder() -> Iterator[Path]:
    with playground() as found:
        yield found


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (f"class = {HUGE_HEX}", "line 2: class cannot be so large a number"),
        (f"class = {HUGE}", "a number or brackets without end"),
        (f"review = [[{HUGE_HEX}]]", "line 2: review cannot be a list in a list"),
        ("a = " + "[" * 5000, "a number or brackets without end"),
        (DOTS, "Too many dots (at line 2)"),
        ("title = []", "line 2: title is one, not a list"),
        ('class = [1, 2]\n["clips list"]', "line 2: class is one, not a list"),
        ("[bingo]\nhelp = true", "line 2, [bingo]: help is no option of a sheet"),
    ],
)
def test_a_lesson_is_refused_in_a_sentence(text: str, said: str, folder: Path) -> None:
    (folder / "week.toml").write_text(f'sounds = ["m", "s"]\n{text}\n')
    with pytest.raises(TeacherError) as refusal:
        from_file(("week.toml",), {})
    assert "week.toml" in refusal.value.message
    assert said in refusal.value.message


def test_a_list_of_recordings_stands_in_a_lesson(folder: Path) -> None:
    (folder / "week.toml").write_text('sounds = ["m", "s"]\n["clips list"]\nwords = 1\n')
    (part,) = from_file(("week.toml",), {})[0].parts
    assert part.command == "clips list"
    assert not list(folder.glob("*.pdf"))


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (f"margin_mm = {HUGE_HEX}", "margin_mm cannot be so large a number"),
        (f"shares = {HUGE_HEX}", "shares cannot be so large a number"),
        ("margin_mm = 1" + "0" * 400, "margin_mm cannot be 1000"),
        (f"margin_mm = {HUGE}", "a number or brackets without end"),
        ("margin_mm = nan", "margin_mm cannot be nan"),
        (DOTS, "Too many dots (at line 2)"),
        ("\0", "Found invalid character"),
    ],
)
def test_a_layout_is_refused_in_a_sentence(line: str, said: str, folder: Path) -> None:
    (folder / "mine.toml").write_text(f'kind = "cards"\n{line}\n')
    with pytest.raises(TeacherError) as refusal:
        layouts.find("mine.toml")
    assert "mine.toml" in refusal.value.message
    assert said in refusal.value.message or said == "Found invalid character"


@pytest.mark.parametrize("kind", ["pipe", "device", "NUL"])
@pytest.mark.parametrize(
    ("name", "read"),
    [("week.toml", read_lesson), ("mine.toml", layouts.find), ("links.csv", read_links), ("mine.ttf", read_font)],
)
def test_what_has_no_end_is_not_read(name: str, read: object, kind: str, folder: Path) -> None:
    path = folder / name
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "device":
        path.symlink_to("/dev/zero")
    with pytest.raises(TeacherError, match="cannot be read"):
        read(f"a\0{name}" if kind == "NUL" else str(path))  # type: ignore[operator]


def test_neither_is_the_list_of_an_older_run(folder: Path) -> None:
    os.mkfifo(folder / CONTENTS)
    assert own_files(folder) == ()


@pytest.mark.parametrize("name", ["a\0b.pdf", "loop.pdf"])
def test_a_file_that_cannot_be(name: str, folder: Path) -> None:
    (folder / "loop.pdf").symlink_to("loop.pdf")
    with pytest.raises(TeacherError), whole_file(name):
        pass


@pytest.mark.parametrize(
    ("args", "code"),
    [
        (["layouts", "--sheet=\udcff.pdf"], 0),
        (["ruler", "--out=a\0b.pdf"], 1),
        (["ruler", "--out=\x1b[2J"], 1),
        (["word", "moon", "--for=" + "a" * 10_000], 1),
        (["word", "moon", "--accent=\x1b\u202e" + "é" * 10_000], 2),
        (["bingo", "m", "s", "--pool=99999", "--review=t"], 1),
        (["word", "a" * 300], 1),
        (["match", "m", "s", "--punch", "--self-check", "--dry-run"], 0),
    ],
)
@pytest.mark.usefixtures("folder")
def test_a_command_line_is_done_or_refused(args: list[str], code: int) -> None:
    assert commands.run(args) == code


def test_what_moves_the_cursor_is_not_shown() -> None:
    assert plain("a\x1b[2J\u202e\u2028b\nc × é\u00a0猫") == "a?[2J??b\nc × é\u00a0猫"
    assert len(plain("a" * 10_000)) < 2000


def test_a_folder_that_is_there_takes_its_parts_into_itself(folder: Path) -> None:
    """What is around it may be closed, or another disk: the root of a USB stick."""
    before = sorted(folder.parent.iterdir())
    (folder / "theirs").write_text("theirs")
    with whole_folder(folder, ["a"]) as part:
        assert part.parent == folder
        assert sorted(folder.parent.iterdir()) == before
        (part / "a").write_text("new")
    assert sorted(path.name for path in folder.iterdir()) == ["a", "theirs"]


def test_pages_go_on_in_an_empty_folder_where_a_run_was_killed(folder: Path) -> None:
    (folder / "site" / ".cardgen-0123-4567.part").mkdir(parents=True)
    assert open_site("site", "index.html", "mark", "mark") is None


def test_a_reader_of_typefaces_says_nothing_on_the_screen() -> None:
    code = "import logging, cardgen.paper.fonts; logging.getLogger('fontTools.ttLib').warning('too much data')"
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    assert subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, check=True).stderr == b""
