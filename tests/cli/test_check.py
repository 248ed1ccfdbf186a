"""The whole command: what is written, what is refused, and that the same seed prints the same sheets."""

import json
import shlex
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from cardgen.cli import main
from tests.outside.check_plans import ambiguous, unfair


def run(typed: str) -> int:
    with pytest.raises(SystemExit) as left:
        main(["check", *shlex.split(typed)])
    return int(str(left.value.code))


def plan(typed: str) -> dict[str, Any]:
    assert run(f"{typed} --plan plan.json --out made.pdf") == 0
    found = json.loads(Path("plan.json").read_text("utf-8"))
    assert isinstance(found, dict)
    return found


@pytest.fixture(autouse=True)
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("m", "at least two sounds"),
        ("m m", "named twice"),
        ("m mm", "Did you mean m"),
        ("m s --review s", "named twice"),
        ("c k", "begin with the same sound"),
        ("m ng", "end of words"),
        ("m s --items 1000", "1000 items"),
        ("m s --items 2", "2 items"),
        ("m s --items -5", "-5 items"),
        ("m s --items 4", "Take 5 or more: --items 5"),
        ("oy m --parts see-small", "too few picture words for oy"),
        ("m s --parts hear", 'no part "hear"'),
        ("m s --parts hear-letter,hear-letter", "named twice"),
        ("m s --parts hear-letter --full", "--full takes every part"),
        ("m s --versions one,two", 'called "ONE"'),
        ("m s --versions A,A", "named twice"),
        ("m s --versions A,B,C", "more than neighbours need"),
        ("m s --versions A,B --only C", "no version C"),
        ("m s --only A", "one version only"),
        ("m s --say --versions A,B", "no versions"),
        ("m s --versions A,B --only A --split", "do not go together"),
        ("m s --home-language Klingon", "no notes"),
        ("a b c d e f g h i j k l m n o p qu --say", "room for 16 letters"),
    ],
)
def test_one_sentence_and_a_hint(typed: str, said: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert run(typed) == 1
    lines = capsys.readouterr().err.strip().splitlines()
    assert said in " ".join(lines)
    assert lines[0].startswith("Error: ")
    assert lines[0].endswith(".")
    assert len(lines) == 2
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("typed", ["", "m s --items many", "m s --full=yes"])
def test_wrong_usage_leaves_with_2(typed: str) -> None:
    assert run(typed) == 2


@pytest.mark.parametrize(
    ("typed", "kinds", "pages"),
    [
        ("m s --review t --seed 3", ["hear-letter", "see-small"], 5),
        ("m s --seed 3", ["hear-letter", "see-small"], 6),
        ("m s t --seed 3 --parts sound-picture --versions b,a --paper letter", ["sound-picture"], 4),
        ("m s --seed 3 --say --show-me", [], 4),
        ("x ng --seed 3 --ink line --parts see-capital", ["see-capital"], 5),
        ("m s t --seed 3 --full", ["hear-letter", "see-capital", "see-small", "hear-picture", "sound-picture"], 13),
    ],
)
def test_the_plan_says_what_was_asked_and_the_file_has_its_pages(typed: str, kinds: list[str], pages: int) -> None:
    found = plan(typed)
    assert found["game"] == "check"
    assert [part["kind"] for part in found.get("parts", [])] == kinds
    assert len(found["pages"]) == pages
    with pikepdf.open("made.pdf") as file:
        sizes = [[float(v) * 25.4 / 72 for v in page.mediabox[2:]] for page in file.pages]
    assert sizes == [pytest.approx([page["width_mm"], page["height_mm"]], abs=0.05) for page in found["pages"]]
    if kinds:
        assert ambiguous(found) == []
        assert unfair(found) == []
        used = {word["word"] for word in found["words"]}
        assert {task["say"] for task in found["tasks"] if task["kind"] == "hear-letter"} <= used
        for part in found["parts"]:
            top, bottom = map(int, part["guess_exact"].split("/"))
            assert part["guess"] == round(top / bottom, 4) < 0.05


def test_the_words_of_the_bingo_are_asked_last() -> None:
    with pytest.raises(SystemExit):
        main(shlex.split("bingo m s --seed 12 --boards 2 --plan bingo.json --out bingo.pdf"))
    bingo = {word["word"] for word in json.loads(Path("bingo.json").read_text("utf-8"))["words"]}
    found = plan("m s --seed 12")
    asked = {(task["key"], task["say"]) for task in found["tasks"]}
    for key in ("m", "s"):
        assert sum(own == key and word not in bingo for own, word in asked) >= 2
    # 16 words are asked, and more than 14 of them are not among the bingo's 14.
    assert len({word for _, word in asked} - bingo) >= 14


def test_a_version_printed_again_is_equal_to_that_of_the_whole_set() -> None:
    whole = plan("m s --review t --versions A,B --seed 5")
    again = plan("m s --review t --versions A,B --seed 5 --only b")
    assert len(again["pages"]) == 2
    for page in again["pages"]:
        before = next(other for other in whole["pages"] if other["number"] == page["number"])
        assert page["cuts"] == before["cuts"]
        assert page["places"] == [place for place in before["places"] if "version B" in place["id"]]
        assert page["cells"] == [cell for cell in before["cells"] if cell["board"] == 2]


def test_a_split_check_is_one_file_a_version_and_one_for_the_teacher() -> None:
    assert run("m s --review t --parts hear-letter,see-small --versions A,B --say --seed 5 --split --out set.pdf") == 0
    names = sorted(path.name for path in Path("set").iterdir())
    assert names == ["letters.pdf", "teacher.pdf", "version-A.pdf", "version-B.pdf"]
    with pikepdf.open("set/version-B.pdf") as file:
        assert len(file.pages) == 2
    assert run("m s --seed 5 --split --out other.pdf") == 0
    assert sorted(path.name for path in Path("other").iterdir()) == ["check.pdf", "teacher.pdf"]


def test_the_same_seed_prints_the_same_and_the_command_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("m s --review t --versions A,B --silent --items 6 --out a.pdf --seed 8") == 0
    told = next(line for line in capsys.readouterr().out.splitlines() if line.startswith("The same sheets again"))
    command = told.split(": cardgen check ", 1)[1]
    assert command == "m s --review t --items 6 --versions A,B --silent --seed 8"
    assert run(f"{command} --out b.pdf") == 0
    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()
    assert run("m s --review t --versions A,B --silent --items 6 --out c.pdf --seed 9") == 0
    assert Path("a.pdf").read_bytes() != Path("c.pdf").read_bytes()
