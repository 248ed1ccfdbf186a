from itertools import pairwise

import pytest

from cardgen.games.pieces import Backs, Card, CardFace, Cut, Imprint, Ink, Paper
from cardgen.sheets.block import card_block
from cardgen.sheets.cards import CardSheets, card_pages, counter_page
from cardgen.sheets.marks import Label, Page, Picture, marks_of
from cardgen.sheets.style import Style
from cardgen.sources.layouts import card_format
from cardgen.units import Typeface, Widths

CARDS = (
    Card("m", CardFace(letter="m")),
    Card("M", CardFace(letter="M")),
    *(Card(f"m-word{i}", CardFace(picture=f"word{i}", alt="a thing")) for i in range(23)),
)


def pages_of(paper: Paper, imprint: Imprint, widths: Widths, only: tuple[str, ...] = ()) -> tuple[Page, ...]:
    block = card_block(card_format("week-deck"), paper)
    style = Style.of(Ink.COLOUR)
    sheets = CardSheets(CARDS, 1, block, Backs.NONE, Cut.GUILLOTINE, imprint, style, "calling cards")
    return card_pages(sheets, widths, 5, only)


@pytest.mark.parametrize("paper", list(Paper))
def test_the_cards_lie_in_the_middle_of_the_sheet_inside_its_margins(
    paper: Paper, imprint: Imprint, widths: Widths
) -> None:
    pages = pages_of(paper, imprint, widths)
    assert [len(page.places) for page in pages] == [13, 12]
    boxes = [card_block(card_format("week-deck"), paper).box(slot) for slot in range(24)]
    assert [place.box for place in pages[0].places] == boxes[:13]
    assert min(box.x for box in boxes) == pytest.approx(paper.size.w - max(box.right for box in boxes))
    assert min(box.y for box in boxes) == pytest.approx(paper.size.h - max(box.bottom for box in boxes))
    assert min(box.y for box in boxes) >= 12
    assert len({(box.x, box.y) for box in boxes}) == 24


def test_cards_with_pictures_have_no_word(imprint: Imprint, widths: Widths) -> None:
    page = pages_of(Paper.A4, imprint, widths)[0]
    assert sum(isinstance(mark, Picture) for mark in marks_of(page.items)) == 12
    children = [m.text for m in marks_of(page.items) if isinstance(m, Label) and m.face is Typeface.LEARNING]
    assert children == ["m"]


def test_the_foot_never_runs_across_a_cut_mark(widths: Widths) -> None:
    many = Imprint("bingo", tuple("abcdefghijklmnop"), 123456789)
    for page in pages_of(Paper.A4, many, widths):
        feet = [mark for mark in marks_of(page.items) if isinstance(mark, Label) and mark.decoration]
        for foot in feet:
            width = widths.mm(foot.text, foot.size_pt, foot.face)
            left = foot.x - (width if foot.align.value == "right" else 0)
            for cut in page.cuts:
                if cut.x1 == cut.x2 and cut.y1 > 250:
                    assert not left < cut.x1 < left + width


def test_only_prints_one_card_in_its_place(imprint: Imprint, widths: Widths) -> None:
    whole = pages_of(Paper.A4, imprint, widths)
    part = pages_of(Paper.A4, imprint, widths, only=("m-word3",))
    assert [page.number for page in part] == [6]  # the sixth card: the second layer of the third pile
    assert part[0].places == tuple(place for place in whole[1].places if place.id == "m-word3")
    assert part[0].cuts == whole[1].cuts


@pytest.mark.parametrize("paper", list(Paper))
def test_counters_are_too_large_to_be_swallowed(paper: Paper, imprint: Imprint, widths: Widths) -> None:
    page = counter_page(
        card_block(card_format("counters"), paper), imprint=imprint, style=Style.of(Ink.LINE), widths=widths, number=9
    )
    level = sorted({cut.y1 for cut in page.cuts if cut.y1 == cut.y2})
    # 16 CFR 1501: a flat piece whose shorter side exceeds 31.7 mm does not enter the small-parts cylinder.
    assert all(b - a > 31.7 for a, b in pairwise(level))
