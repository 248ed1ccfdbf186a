"""Whatever a tired teacher types: one clear sentence, a hint, exit 1 or 2, and nothing is lost."""

import os
import shutil
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing
from cardgen.sources import bank_file, shelf
from cardgen.sources.inks import inks
from cardgen.sources.svg import paint, read_svg

ROOT = Path(__file__).parent.parent.parent


def refused(capsys: pytest.CaptureFixture[str], *args: str, code: int = 1) -> str:
    """What is said; the command must leave with that code, without a traceback, and with a hint."""
    with pytest.raises(SystemExit) as left:
        main(list(args))
    said = capsys.readouterr()
    assert left.value.code == code
    assert "Traceback" not in said.err
    lines = said.err.strip().splitlines()
    if code == 1:
        assert lines[0].startswith("Error: ")
        assert lines[0].rstrip().endswith((".", "!", "?"))
        assert len(lines) >= 2, "no hint"
    assert "Written" not in said.out
    return said.err


@pytest.fixture(autouse=True)
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("mm", "Did you mean m"),
        ("m ß", 'no sound "ß"'),
        ("m ../etc", 'no sound "../etc"'),
        ("m m", "named twice"),
        ("m s --review s", "named twice"),
        ("c k", "sound the same"),
        ("m x", "end of words"),
        ("m s --boards 0", "0 boards"),
        ("m s --boards 100000", "100000 boards"),
        ("m s --boards -3", "-3 boards"),
        ("m s --grid 1x9", "cannot be a board"),
        ("m s --grid 9x9", "cannot be a board"),
        ("m s --grid three", "not a grid"),
        ("m s --grid 4x4 --free", "no middle cell"),
        ("m s --grid 4x4 --big", "cannot be made bigger"),
        ("y z --grid 5x5", "not enough picture words"),
        ("m s --pool 4", "cannot fill boards"),
        ("m s --pool 500", "not enough picture words"),
        ("m s --show photo", "nothing a board can show"),
        ("m s --show picture:3,word:3 --boards 7", "add up to 6"),
        ("m s --show picture:3,capital:3", "cannot share"),
        ("m s --show capital --call card", "does not go with"),
        ("m s --call sound --goal line", "nobody can know"),
        ("m s --winners 30", "30 winners"),
        ("m s --call word --goal line --first-win 2-2 --seed 1", "can"),
        ("m s --first-win soon", "not a span"),
        ("m s --together 0", "--together"),
        ("m s --only 99", "no board 99"),
        ("m s --only moonshine", "no card moonshine"),
        ("m s --only 1 --split", "do not go together"),
        ("m s --seed -5", "out of range"),
        ("m s --out boards.docx", "does not end in .pdf"),
        ("m s --out nowhere/a.pdf", "no folder nowhere"),
        ("m s --plan nowhere/a.json", "no folder nowhere"),
        ("m s --out a.pdf --plan a.pdf", "does not end in .json"),
    ],
)
def test_one_sentence_and_a_hint(typed: str, said: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert said in refused(capsys, "bingo", *typed.split())
    if "--plan nowhere" not in typed:
        assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "typed", ["", "m --boards many", "m --paper a3", "m --ink red", "m --call shout", "m --seed 1.5"]
)
def test_wrong_usage_leaves_with_2(typed: str, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, "bingo", *typed.split(), code=2)


def test_a_folder_is_no_file(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (tmp_path / "a.pdf").mkdir()
    assert "is a folder" in refused(capsys, "bingo", "m", "s", "--out", "a.pdf")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere; paper/whole_file has a planted refusal")
def test_a_folder_without_leave_to_write(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    assert "written" in refused(capsys, "bingo", "m", "s")


def test_names_with_spaces_and_accents_are_fine(tmp_path: Path) -> None:
    folder = tmp_path / "Größe 1ère année"
    folder.mkdir()
    target = folder / "für morgen.pdf"
    with pytest.raises(SystemExit) as left:
        main(["bingo", "h", "f", "--boards", "2", "--out", str(target)])
    assert left.value.code == 0
    assert target.is_file()


@pytest.fixture
def copy_of_art(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The data folder, as a copy that a test may damage."""
    copy = tmp_path / "data" / "art"
    shutil.copytree(ROOT / "art", copy)
    real = shelf.folder
    monkeypatch.setattr(shelf, "folder", lambda name: copy if name == "art" else real(name))
    readers = (bank_file.read_sounds, bank_file.read_contrasts, bank_file.read_bank)
    for reader in readers:
        reader.cache_clear()
    monkeypatch.setattr("cardgen.sources.pictures.drawing", _uncached_drawing)
    return copy


def _uncached_drawing(name: str, ink: Ink) -> Drawing:
    file = f"art/pictures/{name}.svg"
    return paint(name, read_svg(shelf.read_text(file), file, inks()), ink, inks())


@pytest.fixture(autouse=True)
def fresh_readers() -> object:
    yield None
    for reader in (bank_file.read_sounds, bank_file.read_contrasts, bank_file.read_bank):
        reader.cache_clear()


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("word = 'moon'", "word = 'moon", "line"),
        ("phones = 'M UW1 N'", "fones = 'M UW1 N'", "line"),
        ("phones = 'M UW1 N'", "", "line"),
    ],
)
def test_a_damaged_record_is_told_with_file_and_line(
    old: str, new: str, said: str, copy_of_art: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = copy_of_art / "words.toml"
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")
    err = refused(capsys, "bingo", "m", "s")
    assert "art/words.toml" in err
    assert said in err


def test_a_damaged_picture_is_told_with_its_file(copy_of_art: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for picture in (copy_of_art / "pictures").glob("*.svg"):
        picture.write_text("<svg", "utf-8")
    assert ".svg" in refused(capsys, "bingo", "m", "s", "--out", "a.pdf")
    assert not Path("a.pdf").exists()
