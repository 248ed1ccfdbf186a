"""Fronts and backs, trims and inks, as they come out in the finished PDF: read back from a rendering of its pages."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray

from cardgen.build import Output, build
from cardgen.request import Backs, BingoRequest, Face, FlashcardsRequest, Ink, Paper, Shift
from cardgen.request.flashcards import BackFace, CardCase

DPI = 600
MM = DPI / 25.4
Pixels = NDArray[np.uint8]


def made(folder: Path, **more: Any) -> tuple[dict[str, Any], list[Pixels]]:
    """The plan and the rendered pages of cards with letters that are alike left and right, on both sides."""
    asked = {"keys": ("o", "w", "v"), "seed": 3, "words": 0, "case": CardCase.APART, "back": BackFace.LETTER}
    build(FlashcardsRequest(**{**asked, **more}), Output(folder / "x.pdf", plan=folder / "x.json"))
    plan = json.loads((folder / "x.json").read_text("utf-8"))
    document = pdfium.PdfDocument(folder / "x.pdf")
    pages = [document[i].render(scale=DPI / 72, grayscale=True).to_numpy().squeeze() for i in range(len(document))]
    document.close()
    return plan, [np.asarray(page) for page in pages]


def ink_box(pixels: Pixels, place: dict[str, Any]) -> tuple[float, float, float, float]:
    """The box of the ink inside a place, in mm: left, top, right, bottom."""
    air = 3.0
    x1, y1 = (round((place[f"{axis}_mm"] + air) * MM) for axis in "xy")
    x2 = round((place["x_mm"] + place["w_mm"] - air) * MM)
    y2 = round((place["y_mm"] + place["h_mm"] - air) * MM)
    dark = 1 - pixels[y1:y2, x1:x2] / 255
    (left, right), (top, bottom) = reach(dark.max(axis=0)), reach(dark.max(axis=1))
    return (left + x1) / MM, (top + y1) / MM, (right + x1) / MM, (bottom + y1) / MM


def reach(profile: NDArray[np.float64]) -> tuple[float, float]:
    """Where the ink begins and ends along a row of pixels; one that is half dark is half covered."""
    inked = np.flatnonzero(profile > 0.05)
    first, last = inked[0], inked[-1]
    return first + 1 - profile[first], last + profile[last]


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("layout", ["cards", "cards-bank"])
@pytest.mark.parametrize("backs", [Backs.DUPLEX_LONG, Backs.DUPLEX_SHORT])
def test_backs_meet_their_fronts(backs: Backs, layout: str, paper: Paper, tmp_path: Path) -> None:
    plan, pages = made(tmp_path, backs=backs, layout=layout, paper=paper)
    front, back = (page for page in plan["pages"] if page["places"])
    assert (front["side"], back["side"]) == ("front", "back")
    width, height = front["width_mm"], front["height_mm"]
    portrait = height > width
    long_edge = backs is Backs.DUPLEX_LONG
    # The paper is turned over about its long or its short edge: hold it against the light.
    about_upright = long_edge == portrait
    fronts = {place["id"]: place for place in front["places"]}
    for place in back["places"]:
        mate = fronts[place["id"]]
        seen_x = width - place["x_mm"] - place["w_mm"] if about_upright else place["x_mm"]
        seen_y = place["y_mm"] if about_upright else height - place["y_mm"] - place["h_mm"]
        assert (seen_x, seen_y) == pytest.approx((mate["x_mm"], mate["y_mm"]), abs=0.002)
        assert place["turned"] == (0 if about_upright else 180)
        # The same in the finished file: a pair of letters stands in the middle of its card, sideways.
        left, _, right, _ = ink_box(pages[back["number"] - 1], place)
        assert (left + right) / 2 == pytest.approx(place["x_mm"] + place["w_mm"] / 2, abs=0.05)
        left, _, right, _ = ink_box(pages[front["number"] - 1], mate)
        assert (left + right) / 2 == pytest.approx(mate["x_mm"] + mate["w_mm"] / 2, abs=0.05)


def test_a_turned_back_is_the_upright_one_upside_down(tmp_path: Path) -> None:
    _, upright = made(tmp_path, backs=Backs.DUPLEX_LONG)
    _, turned = made(tmp_path, backs=Backs.DUPLEX_SHORT)
    before, after = upright[-1].astype(int), np.rot90(turned[-1], 2).astype(int)
    before, after = before[: min(len(before), len(after)), :], after[: min(len(before), len(after)), :]
    close = min(np.mean(np.abs(before[d:] - after[: len(after) - d or None]) > 100) for d in (0, 1, 2))
    assert close < 0.001
    assert np.mean(np.abs(before - upright[-2].astype(int)) > 100) > 0.01  # and not simply the front


def test_the_shift_moves_backs_and_nothing_else(tmp_path: Path) -> None:
    plan, still = made(tmp_path)
    shifted_plan, moved = made(tmp_path, back_shift=Shift(1.5, -0.5))
    assert shifted_plan["back_shift_mm"] == [1.5, -0.5]
    assert shifted_plan["pages"] == plan["pages"]
    front, back = (page for page in plan["pages"] if page["places"])
    assert (still[front["number"] - 1] == moved[front["number"] - 1]).all()
    for place in back["places"]:
        before, after = (ink_box(pages[back["number"] - 1], place) for pages in (still, moved))
        assert np.subtract(after, before) == pytest.approx((1.5, -0.5, 1.5, -0.5), abs=0.06)


def test_folded_backs_lie_across_the_middle(tmp_path: Path) -> None:
    plan, pages = made(tmp_path, backs=Backs.FOLD)
    assert plan["flip"] == "fold"
    sheets = [page for page in plan["pages"] if page["places"]]
    assert [len(page["places"]) for page in sheets] == [6, 6]
    for page in sheets:
        fronts = {place["id"]: place for place in page["places"] if place["face"] == "front"}
        for place in (place for place in page["places"] if place["face"] == "back"):
            mate = fronts[place["id"]]
            assert place["x_mm"] == pytest.approx(page["width_mm"] - mate["x_mm"] - mate["w_mm"], abs=0.002)
            assert place["y_mm"] == mate["y_mm"]
            ink_box(pages[page["number"] - 1], place)  # and there is something to see


@pytest.mark.parametrize("layout", ["cards", "week-deck", "cards-inch", "cards-half"])
def test_cut_marks_stand_where_the_plan_says(layout: str, tmp_path: Path) -> None:
    plan, pages = made(tmp_path, layout=layout)
    page = next(page for page in plan["pages"] if page["places"])
    pixels = pages[page["number"] - 1]
    for x1, y1, x2, y2 in page["cuts"]:
        # A strip across the middle of the mark: the centre of its darkness is where the cut is.
        if x1 == x2:
            strip = pixels[round((y1 + y2) / 2 * MM), round((x1 - 1) * MM) : round((x1 + 1) * MM)]
            start, meant = round((x1 - 1) * MM), x1
        else:
            strip = pixels[round((y1 - 1) * MM) : round((y1 + 1) * MM), round((x1 + x2) / 2 * MM)]
            start, meant = round((y1 - 1) * MM), y1
        dark = 255.0 - strip
        assert dark.max() > 60
        centre = (np.arange(len(dark)) + 0.5) @ dark / dark.sum()
        assert (start + centre) / MM == pytest.approx(meant, abs=0.05)


@pytest.mark.parametrize("ink", list(Ink))
@pytest.mark.parametrize("what", ["cards", "words", "boards"])
def test_the_estimate_of_ink_is_near_what_is_printed(what: str, ink: Ink, tmp_path: Path) -> None:
    request: Any = {
        "cards": FlashcardsRequest(keys=("m", "s"), seed=3, ink=ink, back=BackFace.BLANK),
        "words": FlashcardsRequest(keys=("m", "s"), seed=3, ink=ink, face=Face.WORD, back=BackFace.BLANK),
        "boards": BingoRequest(keys=("m", "s", "t"), seed=3, ink=ink, boards=6),
    }[what]
    build(request, Output(tmp_path / "x.pdf", plan=tmp_path / "x.json"))
    plan = json.loads((tmp_path / "x.json").read_text("utf-8"))
    document = pdfium.PdfDocument(tmp_path / "x.pdf")
    shares = []
    for index, page in enumerate(plan["pages"]):
        if page["places"]:
            shares.append(1 - document[index].render(scale=1, grayscale=True).to_numpy().mean() / 255)
    document.close()
    assert plan["ink_share"] == pytest.approx(float(np.mean(shares)), abs=0.02)
