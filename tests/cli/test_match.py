"""The whole command, from what is typed to the files, and every way to mistype it."""

import json
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from cardgen.cli import main
from tests.outside.match_plans import faults


@pytest.fixture(autouse=True)
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(typed: str, code: int = 0) -> None:
    with pytest.raises(SystemExit) as left:
        main(["match", *typed.split()])
    assert left.value.code == code


def made(typed: str) -> dict[str, Any]:
    """The plan of what was typed; the file has its pages, and the plan agrees with the tables of words and sounds."""
    run(f"{typed} --out a.pdf --plan a.json")
    plan: dict[str, Any] = json.loads(Path("a.json").read_text("utf-8"))
    with pikepdf.open("a.pdf") as file:
        sizes = [[float(side) * 25.4 / 72 for side in page.mediabox[2:]] for page in file.pages]
    assert sizes == [pytest.approx([page["width_mm"], page["height_mm"]], abs=0.05) for page in plan["pages"]]
    if "--only" not in typed:
        assert faults(plan) == []
    return plan


@pytest.mark.parametrize(
    ("typed", "match", "pairs", "sheets"),
    [
        ("m s t b --seed 3", "letters", 4, 1),
        ("m s --seed 3", "pictures", 12, 1),
        ("m --pairs words --seed 3 --paper letter", "words", 12, 1),
        ("m s --review t,b --sets 12 --seed 3", "letters", 4, 4),
        ("m s --sets 12 --pairs-per 4 --seed 3", "pictures", 8, 8),
        ("m s t b --form halves --sets 6 --ink line --seed 3", "letters", 4, 3),
        ("m s --form halves --seed 3", "pictures", 8, 1),
        ("m s t --form halves --pairs words --count 10 --cut-line straight --seed 3", "words", 10, 2),
        ("m s --form page --seed 3", "pictures", 6, 1),
        ("m s t b p f d g --form page --pages 2 --seed 3", "letters", 8, 4),
        ("m s --laminate --seed 3", "pictures", 6, 1),
        ("m s --self-check --backs fold --seed 3", "pictures", 6, 1),
        ("m s --self-check --big --seed 3", "pictures", 6, 1),
        ("x ng --count 4 --seed 3", "pictures", 4, 1),
    ],
)
def test_what_a_teacher_types(typed: str, match: str, pairs: int, sheets: int) -> None:
    plan = made(typed)
    assert (plan["match"], len(plan["pairs"]), plan["sheets"]) == (match, pairs, sheets)


def test_backs_are_printed_for_the_sign_only(capsys: pytest.CaptureFixture[str]) -> None:
    assert {page["side"] for page in made("m s --seed 3")["pages"]} == {"front"}
    assert "memory" not in capsys.readouterr().out
    plan = made("m s t --pairs words --self-check --sets 2 --seed 3")
    # The teacher's page has an empty back, so that a file printed on both sides begins its cards on a sheet of its own.
    assert [page["side"] for page in plan["pages"]] == ["front", "back"] * 3
    assert "not for memory" in capsys.readouterr().out
    signs = [card["back"]["pattern"] for card in plan["cards"]]
    assert signs == [sign for number in range(1, 13) for sign in (number, number)]
    fronts, backs = plan["pages"][2]["places"], plan["pages"][3]["places"]
    # Turned on the long edge, a back lies mirrored from left to right.
    assert [round(210 - place["x_mm"] - place["w_mm"], 3) for place in fronts] == [place["x_mm"] for place in backs]


def test_no_more_paper_for_more_sets_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    run("m s t b --seed 3 --dry-run")
    assert "--sets 3 takes no more sheets" in capsys.readouterr().out
    assert list(Path().iterdir()) == []


def test_one_piece_again() -> None:
    whole = made("m s --sets 3 --seed 4")
    card = next(card["id"] for card in whole["cards"] if card["id"].startswith("s-") and "picture" in card["front"])
    part = made(f"m s --sets 3 --seed 4 --only {card},2")
    places = [place for page in part["pages"] for place in page["places"]]
    assert [(place["id"], place["pack"]) for place in places] == [(card, 2)]
    before = [place for page in whole["pages"] for place in page["places"]]
    assert places[0] in before
    halves, half = made("m s t b --form halves --seed 4"), made("m s t b --form halves --seed 4 --only T")
    assert half["pages"][0]["places"] == [p for p in halves["pages"][1]["places"] if p["id"] == "T"]
    pages = made("m s t b --form page --pages 3 --seed 4 --only 2")
    assert [page["number"] for page in pages["pages"]] == [3, 6]


@pytest.mark.parametrize(
    ("typed", "names", "pages"),
    [
        ("m s --sets 3", ["set-01", "set-02", "set-03"], 1),
        ("m s t b --form halves --sets 2", ["set-01", "set-02"], 1),
        ("m s t b --form page --pages 2", ["page-01", "page-02"], 1),
    ],
)
def test_split(typed: str, names: list[str], pages: int) -> None:
    run(f"{typed} --split --out all.pdf --seed 3")
    files = sorted(path.name for path in Path("all").iterdir())
    assert files == [*(f"{name}.pdf" for name in names), "teacher.pdf"]
    for name in names:
        with pikepdf.open(Path("all") / f"{name}.pdf") as file:
            assert len(file.pages) == pages


@pytest.mark.parametrize("typed", ["m s --sets 2 --count 4", "m s t b --form halves", "m s --form page --pages 2"])
def test_the_same_seed_gives_the_same_file(typed: str) -> None:
    run(f"{typed} --seed 5 --out a.pdf")
    run(f"{typed} --seed 5 --out b.pdf")
    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("m", "nothing to choose"),
        ("m m", "named twice"),
        ("m s --review s", "named twice"),
        ("mm s", "Did you mean m"),
        ("c k", "sound the same"),
        ("c k --pairs pictures", "sound the same"),
        ("qu k --pairs pictures", "would go with both"),
        ("i long-i --pairs letters", "both written i"),
        ("i long-i --pairs pictures", "both written i"),
        ("m x", "at the end of words"),
        ("m s --pairs-per 30", "every sound needs 30"),
        ("m s --count 60", "60 are asked for"),
        ("m s --count 1", "--count 1"),
        ("m s --pairs-per 0", "0 pairs"),
        ("m s --count 4 --pairs-per 2", "both say"),
        ("m s --pairs letters --count 3", "one pair a sound"),
        ("m s --sets 0", "0 sets"),
        ("m s --form page --sets 2", "--sets does nothing"),
        ("m s --form page --layout cards", "--layout does nothing"),
        ("m s --form halves --self-check", "--self-check does nothing"),
        ("m s --form halves --laminate", "--laminate does nothing"),
        ("m s --cut-line straight", "--cut-line straight does nothing"),
        ("m s --pages 3", "--pages does nothing"),
        ("m s --form page --pages 0", "0 pages"),
        ("m s --pairs letters --form page --pages 9", "only 2 different orders"),
        ("m s --backs duplex-long", "stay white"),
        ("m s --self-check --backs none", "printed on the backs"),
        ("m s --big --layout cards", "both choose the size"),
        ("m s --layout bingo-page", "not for cards"),
        ("m s --form halves --layout cards", "too narrow for two"),
        ("m s t b --only Q", "no card Q"),
        ("m s t b --only 2", "no set 2"),
        ("m s t b --form halves --only Q", "no piece Q"),
        ("m s --form page --only 2", "no page 2"),
        ("m s --form page --only m", "no page m"),
        ("m s --sets 2 --only 1 --split", "do not go together"),
        ("m s t p b d f g h l n r --pairs words --count 60 --self-check", "signs for 35 pairs"),
        ("m s t p b d f g h l n r --pairs words --count 60 --form halves", "cut lines for 52 pairs"),
    ],
)
def test_one_sentence_and_a_hint(typed: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(f"{typed} --seed 5", code=1)
    error, hint = capsys.readouterr().err.strip().splitlines()
    assert error.startswith("Error: ")
    assert error.endswith(".")
    assert said in error + hint
    assert hint
    assert list(Path().iterdir()) == []


def test_a_sound_without_pictures_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    # Every picture of wh has a caution, and all of them are left out.
    run("wh m --careful --seed 5", code=1)
    said = capsys.readouterr().err
    assert "no picture for wh" in said
    assert "--pairs letters" in said


def test_words_too_wide_are_left_out_and_then_missed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    narrow = tmp_path / "narrow.toml"
    narrow.write_text('kind = "cards"\ncard_mm = 34.0\n', "utf-8")
    plan = made("m s --pairs words --layout narrow.toml --seed 5")
    assert max(len(pair[0]) for pair in plan["pairs"]) <= 6
    capsys.readouterr()
    run("m s --pairs words --pairs-per 12 --layout narrow.toml --seed 5", code=1)
    assert "every sound needs 12" in capsys.readouterr().err


def test_wrong_usage_leaves_with_2() -> None:
    for typed in ("", "m s --pairs numbers", "m s --form dice", "m s --count many"):
        run(typed, code=2)


@pytest.mark.parametrize(
    "typed",
    [
        "m s --review t --sets 2 --pairs-per 3 --self-check --big",
        "m s t b --form halves --cut-line straight --ink line",
    ],
)
def test_the_printed_command_makes_the_same_sheets(typed: str, capsys: pytest.CaptureFixture[str]) -> None:
    run(f"{typed} --out a.pdf")
    again = next(line for line in capsys.readouterr().out.splitlines() if "again: cardgen match " in line)
    run(f"{again.partition('cardgen match ')[2]} --out b.pdf")
    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()
