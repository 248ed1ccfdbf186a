"""Packs as they come out: cut in the mind and laid in piles, codes read from pixels, words counted. From plan and file.

Nothing here knows how the program decides; only the keys of the plan file.
"""

import json
from collections import Counter
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pytest
import zxingcpp
from PIL import Image, ImageFilter

from cardgen.cli import main
from cardgen.listening.pages import ClipPage
from cardgen.words.clip_names import clip_name

LINK = "https://clips.example.org/year1"
MM_PER_INCH = 25.4
Plan = dict[str, Any]


def made(folder: Path, *args: str) -> Plan:
    with pytest.raises(SystemExit) as left:
        main([*args, "--seed", "7", "--out", str(folder / "a.pdf"), "--plan", str(folder / "a.json")])
    assert left.value.code == 0
    return json.loads((folder / "a.json").read_text("utf-8"))  # type: ignore[no-any-return]


def piles(pages: list[Plan]) -> Iterator[list[tuple[int, str]]]:
    """The piles of a stack of sheets that is cut along all lines: from the upper left one, each from the top down."""
    fronts = [place for page in pages for place in page["places"] if place["face"] == "front"]
    for corner in sorted({(place["y_mm"], place["x_mm"]) for place in fronts}):
        yield [(place["pack"], place["id"]) for place in fronts if (place["y_mm"], place["x_mm"]) == corner]


@pytest.mark.parametrize(
    ("children", "cards", "options"),
    [
        (9, 18, ()),
        (20, 18, ("--vary",)),
        (5, 10, ("--backs", "fold")),
        (30, 24, ("--review", "t,p")),
        (11, 18, ("--backs", "none", "--paper", "letter")),
    ],
)
def test_the_piles_are_packs_in_order(children: int, cards: int, options: tuple[str, ...], tmp_path: Path) -> None:
    plan = made(tmp_path, "pack", "m", "s", "--children", str(children), "--cards", str(cards), *options)
    wanted = {pack["number"]: pack["cards"] for pack in plan["packs"]}
    assert len(wanted) == children
    assert {len(pack) for pack in wanted.values()} == {cards}
    fronts = [p for p in plan["pages"] if p["side"] == "front" and p["places"] and p["places"][0]["id"] != "strip"]
    at_once = len({(place["x_mm"], place["y_mm"]) for p in fronts for place in p["places"] if place["face"] == "front"})
    runs, rest = divmod(children, at_once)
    in_runs = fronts[: runs * cards]
    for run in range(runs):
        stack = in_runs[run * cards : (run + 1) * cards]
        for number, pile in enumerate(piles(stack), start=run * at_once + 1):
            assert pile == [(number, card) for card in wanted[number]]
    # What is left: the piles laid onto one another are packs in order.
    last = [piece for pile in piles(fronts[runs * cards :]) for piece in pile]
    assert bool(last) == bool(rest)
    for number, pieces in groupby(last, key=lambda piece: piece[0]):
        assert [card for _, card in pieces] == wanted.pop(number)
    strips = [place["pack"] for page in plan["pages"] for place in page["places"] if place["id"] == "strip"]
    assert sorted(strips) == list(range(1, children + 1))


def test_packs_that_differ_have_each_word_equally_often(tmp_path: Path) -> None:
    plan = made(tmp_path, "pack", "m", "s", "--children", "24", "--vary", "--review", "t,p,n,b")
    earlier = set(plan["review"])
    for review in (False, True):
        words = [f"{w['key']}-{w['word']}" for w in plan["words"] if (w["key"] in earlier) is review]
        often = Counter(card for pack in plan["packs"] for card in pack["cards"] if card in words)
        assert len(words) > (2 if review else 4)
        assert max(often[word] for word in words) - min(often[word] for word in words) <= 1
    assert {sum(card.split("-")[0] in earlier for card in pack["cards"]) for pack in plan["packs"]} == {2}
    assert len({tuple(sorted(pack["cards"])) for pack in plan["packs"]}) > 12


def codes_on(file: Path, plan: Plan, dpi: int) -> Iterator[tuple[str, Image.Image]]:
    """Every code of the plan with its part of the rendered page, the white zone round it included."""
    pdf = pdfium.PdfDocument(file)
    for number, page in enumerate(plan["pages"]):
        if "codes" not in page:
            continue
        image = pdf[number].render(scale=dpi / 72, grayscale=True).to_pil()
        for code in page["codes"]:
            air = code["w_mm"] * 4 / 21
            left, top = code["x_mm"] - air, code["y_mm"] - air
            right, bottom = code["x_mm"] + code["w_mm"] + air, code["y_mm"] + code["h_mm"] + air
            x1, y1, x2, y2 = (round(edge / MM_PER_INCH * dpi) for edge in (left, top, right, bottom))
            yield code["text"], image.crop((x1, y1, x2, y2))
    pdf.close()


def read(image: Image.Image) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(image)]


CODED = [
    ("pack", "m", "s", "sh", "--children", "4", "--link", LINK),
    ("pack", "m", "s", "--children", "2", "--cards", "18", "--backs", "fold", "--link", LINK),
    ("pack", "m", "s", "--children", "1", "--cards", "18", "--link", f"{LINK}/{'folder-' * 12}week-3"),
    ("cards", "m", "s", "b", "t", "qu", "--words", "10", "--link", LINK, "--paper", "letter"),
    ("cards", "m", "s", "--layout", "week-deck", "--link", LINK, "--backs", "duplex-short"),
    ("bingo", "m", "s", "b", "--link", LINK, "--boards", "4"),
]


@pytest.mark.parametrize("args", CODED, ids=lambda args: " ".join(args[:4]))
def test_every_code_is_read_from_the_page_as_a_camera_would(args: tuple[str, ...], tmp_path: Path) -> None:
    plan = made(tmp_path, *args)
    sharp = [(text, read(part)) for text, part in codes_on(tmp_path / "a.pdf", plan, 300)]
    assert sharp
    assert all(seen == [text] for text, seen in sharp)
    # A phone's picture: 150 dpi, a little out of focus. At least 99 in 100 must be read.
    soft = [
        read(part.filter(ImageFilter.GaussianBlur(0.8))) == [text]
        for text, part in codes_on(tmp_path / "a.pdf", plan, 150)
    ]
    assert sum(soft) >= 0.99 * len(soft)


def test_codes_lead_to_pages_that_are_made(tmp_path: Path) -> None:
    plan = made(tmp_path, "cards", "m", "s", "--link", LINK)
    texts = {code["text"] for page in plan["pages"] for code in page.get("codes", [])}
    names = {clip_name(*card["id"].split("-", 1)) for card in plan["cards"]}
    # The listening pages name their files so (ClipPage.file).
    assert texts == {f"{LINK}/{ClipPage(name=name, audio='', say='').file}" for name in names}
