"""Every command from any folder: spaces and accents in its name, her own pictures, layout and lesson file beside it."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from cardgen.cli import overview

LESSON = """title = "Übung 1: é"
sounds = ["m", "s"]
class = 2
seed = 5
pictures = "Unsere Bilder é"

[bingo]
boards = 2

[cards]
words = 2
layout = "Große Karten.toml"
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "Übung 1 é"
    pictures = folder / "Unsere Bilder é"
    pictures.mkdir(parents=True)
    Image.new("RGB", (1200, 1200), (200, 120, 40)).save(pictures / "moon.png")
    (folder / "Große Karten.toml").write_text('kind = "cards"\ncard_mm = [70, 90]\n', "utf-8")
    (folder / "Woche é 1.toml").write_text(LESSON, "utf-8")
    monkeypatch.chdir(folder)
    return folder


def run(*args: str) -> Result:
    done = CliRunner().invoke(overview, list(args))
    assert done.exit_code == 0, done.output
    return done


def test_sheets_with_her_own_pictures_and_layout(here: Path) -> None:
    run("cards", "m", "s", "--words", "2", "--prefer", "moon", "--pictures", "Unsere Bilder é",
        "--layout", "Große Karten.toml",
        "--out", "für morgen é.pdf", "--plan", "für morgen é.json", "--preview")  # fmt: skip
    assert Path("für morgen é.pdf").read_bytes().startswith(b"%PDF")
    plan = json.loads(Path("für morgen é.json").read_text("utf-8"))
    assert "m-moon" in {card["id"] for card in plan["cards"]}
    assert list(here.glob("für morgen é-p*.png"))


def test_a_whole_lesson_from_its_file(here: Path) -> None:
    said = run("lesson", "Woche é 1.toml").output
    assert "Woche é 1" in said
    files = {path.suffix for path in (here / "Woche é 1").iterdir()}
    assert {".pdf", ".json"} <= files


def test_names_of_our_own_are_made_beside_her(here: Path) -> None:
    run("ruler")
    run("bingo", "m", "s", "--boards", "2", "--split")
    assert (here / "ruler.pdf").is_file()
    assert sorted(path.name for path in (here / "bingo-m-s").glob("board-*.pdf"))


def test_her_pictures_are_looked_through(here: Path) -> None:
    assert "moon" in run("pictures", "test", str(here / "Unsere Bilder é")).output


def test_the_demo_can_be_made_there(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cardgen.cli.demo.DEMOS", {})
    run("demo", "--out", str(here / "Muster é"))
    assert "### cardgen bingo" in Path("Muster é/commands.md").read_text("utf-8")
