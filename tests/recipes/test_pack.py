"""What must hold of every sheet with codes, looked up in its marks."""

import pytest

from cardgen.build import prepare
from cardgen.paper.extent import extent
from cardgen.request import Backs, BingoRequest, Codes, FlashcardsRequest, PackRequest, Paper, SheetRequest
from cardgen.sheets.codes import quiet_box
from cardgen.sheets.marks import Code, Label, Page, marks_of
from cardgen.sources import codes
from cardgen.units import Box, Typeface

LINK = "https://clips.example.org/year1"
LONG = LINK + "/a-school-in-the-north" * 6
REQUESTS: dict[str, SheetRequest] = {
    "pack": PackRequest(keys=("m", "s"), seed=7, children=2, link=LINK),
    "pack of four": PackRequest(keys=("m", "s", "b", "qu"), seed=7, children=1, link=LINK, paper=Paper.LETTER),
    "pack, long link": PackRequest(keys=("m", "s", "b"), seed=7, children=1, link=LONG),
    "pack, family": PackRequest(
        keys=("m", "s"), seed=7, children=1, link=LINK, family="es", text="Bonjour à tous! " * 20
    ),
    "pack, fold": PackRequest(keys=("m", "s"), seed=7, children=5, link=LINK, cards=18, backs=Backs.FOLD),
    "cards": FlashcardsRequest(keys=("m", "sh"), seed=7, link=LINK, paper=Paper.LETTER),
    "cards, long link": FlashcardsRequest(keys=("m", "sh"), seed=7, link=LONG),
    "cards, small": FlashcardsRequest(keys=("m", "sh"), seed=7, link=LINK, layout="week-deck"),
    "cards, long": FlashcardsRequest(keys=("m", "sh"), seed=7, link=LINK, layout="cards-bank"),
    "cards, large": FlashcardsRequest(keys=("m", "sh"), seed=7, link=LINK, layout="cards-half", words=1),
    "bingo": BingoRequest(keys=("m", "s", "b"), seed=7, link=LINK, boards=2),
    "bingo, long link": BingoRequest(keys=("m", "s", "b"), seed=7, link=LONG, boards=2, paper=Paper.LETTER),
}


def pages_of(request: SheetRequest) -> list[Page]:
    return [page for _, document in prepare(request).sheets.documents for page in document.pages]


def meet(a: Box, b: Box) -> bool:
    return a.x < b.right and b.x < a.right and a.y < b.bottom and b.y < a.bottom


@pytest.mark.parametrize("name", REQUESTS)
def test_nothing_enters_the_quiet_zone_of_a_code(name: str) -> None:
    made = prepare(REQUESTS[name])
    seen = 0
    for page in pages_of(REQUESTS[name]):
        marks = [*marks_of(page.items), *page.cuts]
        boxes = [extent([mark], made.library.widths) for mark in marks]
        for mark in marks:
            if isinstance(mark, Code):
                seen += 1
                quiet = quiet_box(mark.box, codes.modules(mark.text))
                assert quiet.x >= 0 <= quiet.y
                near = [
                    other for other, box in zip(marks, boxes, strict=True) if other is not mark and meet(quiet, box)
                ]
                assert near == []
    assert seen


@pytest.mark.parametrize("name", REQUESTS)
def test_print_for_grown_ups_can_be_read_and_lies_inside_the_margin(name: str) -> None:
    made = prepare(REQUESTS[name])
    for page in pages_of(REQUESTS[name]):
        for mark in marks_of(page.items):
            if isinstance(mark, Label):
                assert mark.size_pt >= 9
                box = extent([mark], made.library.widths)
                assert box.x >= 6.3, mark.text
                assert box.right <= page.size.w - 6.3, mark.text


@pytest.mark.parametrize("name", [name for name, request in REQUESTS.items() if not isinstance(request, BingoRequest)])
def test_print_stays_on_its_card(name: str) -> None:
    made = prepare(REQUESTS[name])
    for page in pages_of(REQUESTS[name]):
        for mark in marks_of(page.items):
            if page.places and isinstance(mark, Label) and not mark.decoration:
                box = page.on_paper(extent([mark], made.library.widths))
                inside = [
                    place.box
                    for place in page.places
                    if place.box.x <= box.x and box.right <= place.box.right
                    and place.box.y <= box.y and box.bottom <= place.box.bottom
                ]  # fmt: skip
                assert len(inside) == 1, mark.text


def test_beside_every_code_stands_where_it_leads() -> None:
    for name in ("cards", "pack", "bingo"):
        for page in pages_of(REQUESTS[name]):
            printed = "".join(mark.text for mark in marks_of(page.items) if isinstance(mark, Label))
            for mark in marks_of(page.items):
                if isinstance(mark, Code):
                    assert mark.text.removeprefix("https://").removesuffix("/index.html") in printed


def test_all_packs_are_alike_and_carry_no_number_unless_they_must() -> None:
    def numbers(request: PackRequest) -> set[str]:
        labels = (mark for page in pages_of(request) if page.places for mark in marks_of(page.items))
        return {mark.text for mark in labels if isinstance(mark, Label) and mark.text.isdecimal()}

    assert numbers(PackRequest(keys=("m", "s"), seed=7, children=3)) == set()
    assert numbers(PackRequest(keys=("m", "s"), seed=7, children=3, vary=True)) == {"1", "2", "3"}
    assert numbers(PackRequest(keys=("m", "s"), seed=7, children=3, cards=18)) == {"1", "2", "3"}


def test_a_large_pack_has_its_codes_on_the_backs_unless_asked_otherwise() -> None:
    def codes_in(**options: object) -> int:
        request = PackRequest(keys=("m", "s"), seed=7, children=1, cards=18, link=LINK, **options)  # type: ignore[arg-type]
        return sum(isinstance(mark, Code) for page in pages_of(request) for mark in marks_of(page.items))

    assert codes_in() == 18  # the cover's, and one on each of 17 backs
    assert codes_in(codes=Codes.PACK) == 1
    assert codes_in(codes=Codes.NONE) == 0
    assert codes_in(backs=Backs.NONE) == 1


def test_the_strip_shows_letters_and_key_pictures_that_are_not_in_the_pack() -> None:
    made = prepare(PackRequest(keys=("m", "s"), seed=7, children=1, cards=18)).sheets.plan
    key_pictures = {"mouse", "sun"}
    assert made["cards"][-1]["id"] == "strip"
    assert not key_pictures & {entry["word"] for entry in made["words"]}


def test_learning_letters_are_large_enough() -> None:
    for page in pages_of(REQUESTS["pack of four"]):
        for mark in marks_of(page.items):
            if page.places and isinstance(mark, Label) and mark.face is Typeface.LEARNING and mark.size_pt > 12:
                assert mark.size_pt >= 20.5
