"""`layouts`, and layouts of the teacher's own: what is listed, what is drawn, what is refused and how."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from pypdf import PdfReader

from cardgen.cli import overview


def run(*args: str | Path) -> Result:
    return CliRunner().invoke(overview, list(map(str, args)))


def own(folder: Path, text: str) -> Path:
    file = folder / "mine.toml"
    file.write_text(text, encoding="utf-8")
    return file


def test_every_format_is_listed_with_what_goes_on_a_sheet() -> None:
    lines = [json.loads(line) for line in run("layouts", "--json").output.splitlines()]
    found = {line["layout"]: (line["a4"], line["letter"]) for line in lines}
    assert found["week-deck"] == (24, 24)
    assert found["cards-inch"][1] == 9
    assert found["cards-bank"] == (10, 9)
    shown = run("layouts").output
    assert all(name in shown for name in found)


def test_they_are_drawn_one_a_page(tmp_path: Path) -> None:
    done = run("layouts", "--sheet", tmp_path / "x.pdf")
    assert done.exit_code == 0, done.output
    pages = [page.extract_text() for page in PdfReader(tmp_path / "x.pdf").pages]
    names = [json.loads(line)["layout"] for line in run("layouts", "--json").output.splitlines()]
    assert len(pages) == len(names)
    assert all(name in page for name, page in zip(names, pages, strict=True))


def test_a_layout_of_her_own_is_used_and_told_without_its_folder(tmp_path: Path) -> None:
    file = own(tmp_path, 'kind = "cards"\ncard_mm = [70, 90]\n')
    done = run("cards", "m", "s", "--layout", file, "--out", tmp_path / "x.pdf", "--plan", tmp_path / "x.json")
    assert done.exit_code == 0, done.output
    plan = json.loads((tmp_path / "x.json").read_text("utf-8"))
    sizes = {(place["w_mm"], place["h_mm"]) for page in plan["pages"] for place in page["places"]}
    assert sizes == {(70.0, 90.0)}
    assert "--layout FILE.toml" in done.output
    assert str(tmp_path) not in "".join(page.extract_text() for page in PdfReader(tmp_path / "x.pdf").pages)
    assert "mine" in run("layouts", file).output


BAD = {
    "a card too large": ("card_mm = [250, 290]", "does not fit on a4", "197.2 × 284.2"),
    "margins that eat the page": ("card_mm = 60\nmargin_mm = 120", "does not fit on a4", "would"),
    "a picture too small": ("card_mm = 25", "a child needs 25", "at least 33 × 33"),
    "negative": ("card_mm = -5", "card_mm cannot be -5", "from 15"),
    "zero": ("card_mm = 0", "card_mm cannot be 0", "from 15"),
    "absurd": ("card_mm = 1e9", "card_mm cannot be 1000000000.0", "to 300"),
    "not a number": ("card_mm = nan", "card_mm cannot be nan", "to 300"),
    "a wrong key": ("card_mn = 60", 'no key "card_mn"', "Did you mean card_mm"),
    "not TOML": ("card_mm = = 3", "is not a TOML file", "layouts --help"),
    "a board": ("", '"kind" is missing', ""),
}


@pytest.mark.parametrize("name", list(BAD))
def test_what_cannot_be_is_told_with_the_key_and_what_would_fit(name: str, tmp_path: Path) -> None:
    text, told, hint = BAD[name]
    file = own(tmp_path, f'kind = "cards"\n{text}\n' if text else "abreast = 2\n")
    done = run("cards", "m", "s", "--layout", file, "--out", tmp_path / "x.pdf")
    assert done.exit_code == 1, done.output
    assert told in done.output
    assert hint in done.output
    assert not (tmp_path / "x.pdf").exists()


@pytest.mark.parametrize(
    ("args", "told"),
    [
        (("cards", "m", "s", "--layout", "card"), 'There is no layout "card"'),
        (("cards", "m", "s", "--layout", "bingo-half"), "is not for cards"),
        (("bingo", "m", "s", "--layout", "cards"), "is not for boards"),
        (("cards", "m", "s", "--layout", "none.toml"), "cannot be read"),
        (("cards", "m", "s", "--back-shift", "50,0"), "more than any printer is off by"),
        (("cards", "m", "s", "--back-shift", "nan,0"), "more than any printer is off by"),
        (("cards", "m", "s", "--back-shift", "left"), "is not a shift"),
        (("cards", "m", "s", "--backs", "fold", "--cut", "guillotine"), "no guillotine marks"),
        (("cards", "m", "s", "--layout", "cards-page", "--backs", "fold"), "leaves no room"),
        (("cards", "m", "s", "--only", "5"), "There is no set 5"),
        (("cards", "m", "s", "--only", "m-x"), "There is no card m-x"),
        (("bingo", "m", "s", "t", "b", "--layout", "bingo-quarter", "--grid", "5x5"), "would be only"),
    ],
)
def test_bad_options_get_their_sentence(args: tuple[str, ...], told: str, tmp_path: Path) -> None:
    done = run(*args, "--out", tmp_path / "x.pdf")
    assert done.exit_code == 1, done.output
    assert told in done.output
    assert list(tmp_path.iterdir()) == []


def test_four_boards_go_on_a_page(tmp_path: Path) -> None:
    done = run("bingo", "m", "s", "t", "b", "--layout", "bingo-quarter", "--boards", "8", "--plan", tmp_path / "x.json",
               "--out", tmp_path / "x.pdf")  # fmt: skip
    assert done.exit_code == 0, done.output
    plan = json.loads((tmp_path / "x.json").read_text("utf-8"))
    boards = [page for page in plan["pages"] if page.get("cells")]
    assert [len(page["places"]) for page in boards] == [4, 4]
    for page in boards:
        for cell in page["cells"]:
            room = next(place for place in page["places"] if place["id"] == f"board {cell['board']}")
            assert room["x_mm"] + 2.5 <= cell["x_mm"]
            assert cell["x_mm"] + cell["w_mm"] <= room["x_mm"] + room["w_mm"] - 2.5
            assert cell["x_mm"] >= 6.4
            assert cell["x_mm"] + cell["w_mm"] <= page["width_mm"] - 6.4
            assert cell["y_mm"] + cell["h_mm"] <= room["y_mm"] + room["h_mm"] - 10
        assert len(page["cuts"]) == 4
