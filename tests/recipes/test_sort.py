"""The whole command: from what is typed to the file."""

import json
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray

from cardgen.build import Output, build
from cardgen.cli import main
from cardgen.recipes.again import command
from cardgen.request import Backs, Ink, Mat, Paper, SortRequest

SMALL = SortRequest(keys=("m", "s"), seed=7)


def made(request: SortRequest, folder: Path, name: str = "made") -> tuple[Path, dict[str, Any]]:
    pdf, plan = folder / f"{name}.pdf", folder / f"{name}.json"
    build(request, Output(pdf, plan=plan))
    return pdf, json.loads(plan.read_text("utf-8"))


VARIETY: dict[str, dict[str, Any]] = {
    "default": {},
    "neither, answers": {"foils": 4, "key": True, "ink": Ink.LINE},
    "three sounds": {"keys": ("m", "s", "t"), "foils": 3, "paper": Paper.LETTER},
    "sets": {"sets": 5, "backs": Backs.DUPLEX_SHORT},
    "a sheet a sound": {"cards": 9, "mat": Mat.BLANK, "ink": Ink.GREY},
    "no mats, no backs": {"mat": Mat.NONE, "backs": Backs.NONE},
    "folded": {"backs": Backs.FOLD},
    "last sounds": {"keys": ("x", "ng"), "foils": 2},
    "large cards": {"layout": "cards-big", "cards": 4},
}


@pytest.mark.parametrize("name", list(VARIETY))
def test_the_plan_says_what_was_asked_and_the_file_has_its_pages(name: str, tmp_path: Path) -> None:
    request = replace(SMALL, **VARIETY[name])
    pdf, plan = made(request, tmp_path)
    assert plan["sounds"] == list(request.keys)
    with pikepdf.open(pdf) as file:
        assert len(file.pages) == len(plan["pages"])
    sides = {side["key"]: side for mat in plan["mats"] for side in mat["sides"]}
    for key in (*request.keys, *((None,) if request.foils else ())):
        items = [item for item in plan["items"] if item["key"] == key]
        assert len(sides[key]["places"]) == len(items)
    placed = [place for page in plan["pages"] for place in page["places"]]
    cards = [place for place in placed if place["face"] == "front" and not place["id"].startswith("mat ")]
    assert len(cards) == request.sets * len(plan["cards"])
    # Every card fits its place on the mat exactly.
    for place in (place for side in sides.values() for place in side["places"]):
        assert (place["w_mm"], place["h_mm"]) == (cards[0]["w_mm"], cards[0]["h_mm"])
    mats = [place for place in placed if place["id"].startswith("mat ")]
    assert len(mats) == (0 if request.mat is Mat.NONE else request.sets * len(plan["mats"]))


@pytest.mark.parametrize(("foils", "sets"), [(0, 1), (3, 2)])
def test_printed_on_both_sides_every_sheet_holds_what_belongs_together(foils: int, sets: int, tmp_path: Path) -> None:
    _, plan = made(replace(SMALL, foils=foils, sets=sets), tmp_path)
    pages = plan["pages"]
    assert len(pages) % 2 == 0
    for front, back in zip(pages[::2], pages[1::2], strict=True):
        faces = [{place["face"] for place in page["places"]} for page in (front, back)]
        assert faces in ([set(), set()], [{"front"}, set()], [{"front"}, {"back"}])
        assert (back["side"] == "back") or faces == [set(), set()]


def raster(pdf: Path, page: int) -> NDArray[np.uint8]:
    document = pdfium.PdfDocument(pdf)
    image = document[page].render(scale=150 / 72, grayscale=True).to_numpy()
    document.close()
    return np.asarray(image).squeeze()


@pytest.mark.parametrize("only", ["2", "s-{word}"])
def test_a_lost_piece_is_printed_again_as_it_was(only: str, tmp_path: Path) -> None:
    request = replace(SMALL, sets=3)
    pdf, whole = made(request, tmp_path)
    word = next(item["word"] for item in whole["items"] if item["key"] == "s")
    again, part = made(replace(request, only=(only.format(word=word),)), tmp_path, "again")
    assert any(page["places"] for page in part["pages"])
    for index, page in enumerate(part["pages"]):
        before = next(other for other in whole["pages"] if other["number"] == page["number"])
        assert all(place in before["places"] for place in page["places"])
        new, old = raster(again, index), raster(pdf, page["number"] - 1)
        for place in page["places"]:
            x, y, w, h = (round(place[side] * 150 / 25.4) for side in ("x_mm", "y_mm", "w_mm", "h_mm"))
            area = np.s_[y : y + h, x : x + w]
            assert (new[area] == old[area]).all()


def test_a_split_game_is_one_file_a_set(tmp_path: Path) -> None:
    written = build(replace(SMALL, sets=2), Output(tmp_path / "game.pdf", split=True))
    assert [path.name for path in written] == ["teacher.pdf", "set-01.pdf", "set-02.pdf"]
    for path in written[1:]:
        with pikepdf.open(path) as file:
            assert len(file.pages) == 4  # a mat and its empty back, the cards and their backs


def test_the_same_request_gives_the_same_bytes(tmp_path: Path) -> None:
    request = replace(SMALL, foils=3, sets=2)
    first, second = (made(request, tmp_path, name)[0].read_bytes() for name in ("a", "b"))
    assert first == second


def test_the_command_for_the_same_sheets_names_what_is_not_as_by_itself() -> None:
    request = SortRequest(keys=("b", "d"), seed=3, foils=4, mat=Mat.BLANK, key=True, sets=12, backs=Backs.FOLD)
    assert command(request, "sort") == "cardgen sort b d --sets 12 --backs fold --foils 4 --mat blank --key --seed 3"


def test_a_class_set_is_made_in_two_seconds_with_its_proof(tmp_path: Path) -> None:
    start = time.process_time()
    build(replace(SMALL, sets=12, foils=4), Output(tmp_path / "a.pdf"))
    assert time.process_time() - start < 2


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("m", "needs two sounds"),
        ("m s t p", "4 sounds do not fit"),
        ("m m", "named twice"),
        ("c k", "sound the same"),
        ("m x", "end of words"),
        ("aw m --careful", "no picture for aw"),
        ("m s --cards 40", "no room for 40 cards"),
        ("m s --cards 0", "no room for 0 cards"),
        ("m s --cards -1", "no room for -1 cards"),
        ("qu m --cards 6", "not 6 pictures"),
        ("m s --foils 40", "40 cards"),
        ("m s --foils -1", "-1 cards"),
        ("m s --cards 1 --foils 9", "too many beside 2"),
        ("m s --layout cards-half", "do not fit the places"),
        ("m s --layout mat", "not for cards"),
        ("m s --layout counters --cards 12 --mat blank --sets 0", "0 sets"),
        ("m s --punch", "no room for holes"),
        ("m s --only 2", "no set 2"),
        ("m s --only m-mouse", "no card m-mouse"),
        ("m s --home-language Elvish", "no notes"),
    ],
)
def test_one_sentence_and_a_hint(
    typed: str, said: str, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as left:
        main(["sort", *typed.split()])
    error = capsys.readouterr().err
    assert left.value.code == 1
    assert said in error.splitlines()[0]
    assert len(error.splitlines()) == 2
    assert list(tmp_path.iterdir()) == []
