"""The whole command: what it writes, and what it says to a tired teacher."""

import json
from pathlib import Path

import pypdf
import pytest

from cardgen.cli import main


@pytest.fixture(autouse=True)
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(typed: str) -> int:
    with pytest.raises(SystemExit) as left:
        main(["trace", *typed.split()])
    return int(left.value.code or 0)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("m --x-height 7", "There are 20, 15, 12, 10, 8 and 6 mm"),
        ("m --x-height nan", "There are 20, 15"),
        ("m --x-height 0", "x-height of 0 mm"),
        ("m --x-height -12", "x-height of -12 mm"),
        ("m ß", 'no sound "ß"'),
        ("mm", "Did you mean m"),
        ("m m", "named twice"),
        ("m s --review s", "named twice"),
        ("m --words 3", "no room for 3 words"),
        ("m --words -1", "0 to 2"),
        ("m --only b", "The sounds are m"),
        ("m --only m --split", "do not go together"),
        ("m --layout week-deck", "no layouts"),
        ("m --out sheet.txt", "does not end in .pdf"),
    ],
)
def test_what_cannot_be_is_said_in_one_sentence_with_a_hint(
    typed: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(typed) == 1
    spoken = capsys.readouterr()
    assert said in spoken.err
    assert spoken.err.startswith("Error: ")
    assert len(spoken.err.strip().splitlines()) == 2
    assert not list(Path().iterdir())


@pytest.mark.parametrize("typed", ["m --case middle", "m --x-height tall", "m --words few", ""])
def test_wrong_usage_leaves_with_2(typed: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(typed) == 2
    assert "Error:" in capsys.readouterr().err


def test_six_sounds_are_written_proven_and_the_same_again(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("m s t b sh qu --words 1 --seed 5 --plan p.json") == 0
    assert "6 sheets of paper a child, nothing to cut, and 1 page for you" in capsys.readouterr().out
    first = Path("trace-m-s-t-b-sh-qu.pdf").read_bytes()
    assert run("m s t b sh qu --words 1 --seed 5 --out again.pdf") == 0
    assert Path("again.pdf").read_bytes() == first
    plan = json.loads(Path("p.json").read_text("utf-8"))
    pages = pypdf.PdfReader("again.pdf").pages
    assert len(pages) == len(plan["pages"]) == 13
    assert [place["id"] for page in plan["pages"] for place in page["places"]][:4] == ["m", "m-words", "s", "s-words"]
    assert plan["game"] == "trace"
    # The model letters are text that can be searched: five rows, with the name line and the foot.
    assert pages[1].extract_text().split().count("m") >= 4


def test_split_is_one_file_a_sound() -> None:
    assert run("m sh --split --seed 1 --out week.pdf") == 0
    assert sorted(path.name for path in Path("week").iterdir()) == ["sound-m.pdf", "sound-sh.pdf", "teacher.pdf"]


def test_only_does_not_take_the_place_of_the_whole_set() -> None:
    assert run("m s --only s --seed 1") == 0
    assert [path.name for path in Path().iterdir()] == ["trace-m-s-only-s.pdf"]
