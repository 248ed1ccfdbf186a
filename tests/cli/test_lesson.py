"""A lesson: one command, one folder."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from cardgen.cli import overview

WEEK = """title = "Week 9: h and f"
sounds = ["h", "f"]
review = ["n", "d"]
class = 6
seed = 11
avoid = ["hammer"]

[trace]

[sort]
sets = 2
cards = 4

[bingo]
boards = 4
"""


def run(*args: str | Path) -> Result:
    return CliRunner().invoke(overview, ["lesson", *map(str, args)])


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def week(tmp_path: Path) -> Path:
    file = tmp_path / "week.toml"
    file.write_text(WEEK, encoding="utf-8")
    return file


def test_a_lesson_file_makes_its_sheets_in_one_folder(week: Path, tmp_path: Path) -> None:
    done = run(week)
    assert done.exit_code == 0, done.output
    folder = tmp_path / "week"
    parts = ["02-trace-h-f", "03-sort-h-f", "04-bingo-h-f"]
    pairs = [f"{part}.{suffix}" for part in parts for suffix in ("json", "pdf")]
    assert names(folder) == sorted(["01-running-order.pdf", "contents.json", *pairs])
    assert json.loads((folder / "contents.json").read_text("utf-8"))["files"][0] == "01-running-order.pdf"
    order = "".join(page.extract_text() for page in PdfReader(folder / "01-running-order.pdf").pages)
    assert "Week 9: h and f" in order
    assert "RF.K.2d" in order
    assert all(f"{part}.pdf" in order for part in parts)
    plans = [json.loads((folder / f"{part}.json").read_text("utf-8")) for part in parts]
    assert {plan["seed"] for plan in plans} == {11}
    assert len(plans[1]["mats"]) in (1, 2)
    assert len(plans[2]["boards"]) == 4
    assert "hammer" not in json.dumps(plans)
    # The sum the teacher reads is that of the plans: writing sheets are one a child.
    sheets = plans[0]["sheets"] * 6 + plans[1]["sheets"] + plans[2]["sheets"]
    assert f"6 children: {sheets} sheets of paper" in done.output


def test_the_same_file_makes_the_same_bytes(week: Path, tmp_path: Path) -> None:
    found = []
    for name in ("one", "two"):
        assert run(week, "--out", tmp_path / name).exit_code == 0
        found.append({path.name: path.read_bytes() for path in (tmp_path / name).iterdir()})
    assert found[0] == found[1]


def test_an_older_run_is_replaced_and_what_others_put_there_stays(week: Path, tmp_path: Path) -> None:
    folder = tmp_path / "week"
    assert run(week).exit_code == 0
    before = (folder / "04-bingo-h-f.pdf").read_bytes()
    (folder / "notes.txt").write_text("mine")
    assert run(week, "--seed", "12").exit_code == 0
    assert (folder / "04-bingo-h-f.pdf").read_bytes() != before
    assert (folder / "notes.txt").read_text() == "mine"


def test_a_file_of_others_is_not_overwritten(week: Path, tmp_path: Path) -> None:
    folder = tmp_path / "week"
    folder.mkdir()
    (folder / "03-sort-h-f.pdf").write_text("mine")
    done = run(week)
    assert done.exit_code == 1
    assert "03-sort-h-f.pdf is there already" in done.output
    assert names(folder) == ["03-sort-h-f.pdf"]
    assert (folder / "03-sort-h-f.pdf").read_text() == "mine"


def test_a_dry_run_writes_nothing(week: Path, tmp_path: Path) -> None:
    done = run(week, "--dry-run")
    assert done.exit_code == 0
    assert "sheets of paper" in done.output
    assert names(tmp_path) == ["week.toml"]


def test_the_starter_is_a_lesson(tmp_path: Path) -> None:
    done = run("--new", "h", "f", "--seed", "3")
    assert done.exit_code == 0
    file = tmp_path / "own.toml"
    file.write_text(done.output, encoding="utf-8")
    made = run(file, "--class", "2", "--dry-run")
    assert made.exit_code == 0, made.output
    assert "2 children" in made.output


def test_sheets_that_the_sounds_cannot_have_are_left_out_and_named(tmp_path: Path) -> None:
    done = run("m", "--class", "2", "--out", tmp_path / "x", "--dry-run")
    assert done.exit_code == 0, done.output
    assert "Without sort:" in done.output


@pytest.mark.parametrize(
    ("change", "told", "hint"),
    [
        (("class = 6", "clas = 6"), "week.toml, line 4: clas is not known", "Did you mean class"),
        (("class = 6", "class = 0"), "class of 0", "--class 24"),
        (("class = 6", "class = 5000"), "class of 5000", "--class 24"),
        (("class = 6", 'class = "six"'), "line 4: class cannot be", "class = 24"),
        (("[sort]", "[sorting]"), "line 10: [sorting] is not known", "Did you mean sort"),
        (("cards = 4", "card = 4"), "[sort]: There is no option", "cardgen sort --help"),
        (("cards = 4", 'cards = "many"'), "[sort]", ""),
        (("boards = 4", "boards = 0"), "[bingo]: 0 boards", "1 to"),
        (('review = ["n", "d"]', 'review = ["h"]'), "named twice", "once"),
        (('sounds = ["h", "f"]', ""), "names no sounds", "sounds ="),
        (('sounds = ["h", "f"]', 'sounds = ["h", "zz"]'), "zz", ""),
        (('avoid = ["hammer"]', 'avoid = ["hamer"]'), '"hamer" is not one of the words', "Did you mean hammer"),
        (('title = "Week 9: h and f"', f'title = "{"x" * 300}"'), "title cannot be printed", "80"),
        (('title = "Week 9: h and f"', 'title = "a\\u202eb"'), "title cannot be printed", ""),
        (("seed = 11", "seed = -1"), "seed", ""),
        (("seed = 11", "paper = 'a5'"), "a5", ""),
    ],
)
def test_mistakes_are_told_with_the_line_and_nothing_is_written(
    change: tuple[str, str], told: str, hint: str, week: Path, tmp_path: Path
) -> None:
    week.write_text(WEEK.replace(*change), encoding="utf-8")
    done = run(week)
    assert done.exit_code == 1, done.output
    assert told in done.output
    assert hint in done.output
    assert "Traceback" not in done.output
    assert names(tmp_path) == ["week.toml"]


def test_a_title_is_text_and_nothing_else(week: Path, tmp_path: Path) -> None:
    week.write_text(WEEK.replace("Week 9: h and f", "../../<script>alert(1)</script>"), encoding="utf-8")
    assert run(week).exit_code == 0
    assert names(tmp_path) == ["week", "week.toml"]
    order = PdfReader(tmp_path / "week" / "01-running-order.pdf")
    assert order.metadata is not None
    assert order.metadata.title == "../../<script>alert(1)</script>"


def test_the_lesson_of_the_readme_can_be_made(tmp_path: Path) -> None:
    text = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    found = re.search(r"```toml\n(title.*?)```", text, re.DOTALL)
    assert found
    (tmp_path / "week.toml").write_text(found[1], encoding="utf-8")
    done = run(tmp_path / "week.toml", "--dry-run")
    assert done.exit_code == 0, done.output
    assert "24 children" in done.output


def test_the_running_order_goes_by_days_and_says_how_to_print(week: Path) -> None:
    text = week.read_text(encoding="utf-8").replace("[trace]", '[check]\nversions = ["A", "B"]\n\n[trace]\nwords = 1')
    week.write_text(text, encoding="utf-8")
    done = run(week)
    assert done.exit_code == 0, done.output
    days = [line.split()[1] for line in done.output.splitlines() if line.startswith("  Day")]
    assert days == sorted(days)
    assert "once, 6 copies of pages 2 to 5, both sides, turned on the long edge" in done.output
    assert "once, 3 copies of pages 4 to 5, both sides, turned on the short edge" in done.output


def test_the_starter_takes_what_it_is_told() -> None:
    text = run("--new", "h", "f", "--class", "20", "--review", "n,d", "--title", "Our week").output
    assert 'title = "Our week"' in text
    assert "class = 20" in text
    assert 'review = ["n", "d"]' in text
