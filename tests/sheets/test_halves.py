from dataclasses import replace

import pytest

from cardgen.errors import TeacherError
from cardgen.games.halves import words_for
from cardgen.games.pieces import Card, CardFace, Cut, Imprint, Ink, Pair, Paper
from cardgen.sheets.block import card_block
from cardgen.sheets.halves import HalfSheets, half_pages, paper_use
from cardgen.sheets.marks import Label, Line, Outline, Page, Picture, marks_of
from cardgen.sheets.style import Style
from cardgen.sources.layouts import card_format
from cardgen.units import Typeface, Widths


def pairs(count: int, *, curved: bool = True) -> tuple[Pair, ...]:
    keys = "abcdefghijklmnop"[:count]
    curves = words_for(keys) if curved else ((),) * count
    return tuple(
        Pair(
            key,
            Card(key, CardFace(letter=key)),
            Card(f"{key}-thing", CardFace(picture=key, alt="a thing")),
            None,
            curve,
        )
        for key, curve in zip(keys, curves, strict=True)
    )


def sheets(count: int, sets: int, paper: Paper = Paper.A4, *, curved: bool = True, layout: str = "pairs") -> HalfSheets:
    block = card_block(card_format(layout), paper)
    imprint = Imprint("match", ("m", "s"), 7)
    return HalfSheets(
        pairs(count, curved=curved), sets, block, Cut.GUILLOTINE, imprint, Style.of(Ink.COLOUR), "letter pairs, halves"
    )


def numbers(page: Page) -> list[str]:
    labels = [mark for mark in marks_of(page.items) if isinstance(mark, Label)]
    return [label.text for label in labels if label.face is Typeface.TEXT and label.text.isdecimal()]


@pytest.mark.parametrize("paper", list(Paper))
def test_eight_pairs_a_sheet_each_half_in_its_place(paper: Paper, widths: Widths) -> None:
    (page,) = half_pages(sheets(8, 1, paper), widths, 3)
    assert page.number == 3
    assert len(page.places) == 16
    for left, right in zip(page.places[::2], page.places[1::2], strict=True):
        assert (left.box.w, left.box.h) == (44.0, 63.0)
        assert left.box.right == pytest.approx(right.box.x)
        assert left.box.y == right.box.y
        # The picture and the letter keep clear of the cut, which reaches 4.5 mm to either side of the middle.
        picture = next(mark for mark in marks_of(page.items) if isinstance(mark, Picture) and mark.name == left.id)
        assert picture.box.x >= right.box.x + 4.5
        assert picture.box.right <= right.box.right
    waves = [mark for mark in marks_of(page.items) if isinstance(mark, Outline)]
    assert len(waves) == 8
    assert all(wave.dash_mm for wave in waves)
    assert numbers(page) == []


def test_the_same_pair_lies_in_the_same_place_of_every_set(widths: Widths) -> None:
    for count in (3, 4, 8, 11):
        book = sheets(count, 5)
        pages = half_pages(book, widths, 1)
        seen: dict[str, set[tuple[float, float]]] = {}
        packs = [(place.pack, place.id) for page in pages for place in page.places]
        assert sorted(packs) == sorted((n, card.id) for n in range(1, 6) for pair in book.pairs for card in pair.cards)
        for page in pages:
            for place in page.places:
                seen.setdefault(place.id, set()).add((place.box.x, place.box.y))
        assert all(len(boxes) <= max(1, 8 // count) for boxes in seen.values())
    # Sheets that are clipped together are neighbours: first all sheets with a to h, then those with the rest.
    first = [page.places[0].id for page in half_pages(sheets(11, 3), widths, 1)]
    assert first == ["a", "a", "a", "i", "i", "i"]


def test_a_set_number_on_both_halves(widths: Widths) -> None:
    page = half_pages(sheets(8, 3), widths, 1)[1]
    assert numbers(page) == ["2"] * 16


def test_the_foot_has_seed_and_page_however_many_sounds(widths: Widths) -> None:
    book = replace(sheets(8, 2), imprint=Imprint("match", tuple("abcdefghijklmnopqrstuvwxyz"), 4711))
    feet = [m.text for m in marks_of(half_pages(book, widths, 1)[1].items) if isinstance(m, Label) and m.decoration]
    assert any("seed 4711" in foot and "…" in foot for foot in feet)
    assert "page 2 of 2" in feet


def test_sets_apart_share_no_sheet(widths: Widths) -> None:
    book = replace(sheets(4, 2), apart=True)
    assert [{place.pack for place in page.places} for page in half_pages(book, widths, 1)] == [{1}, {2}]


def test_only_leaves_the_other_places_empty(widths: Widths) -> None:
    whole = half_pages(sheets(8, 3), widths, 1)
    (part,) = half_pages(sheets(8, 3), widths, 1, ("2", "c-thing"))
    assert part.number == 2
    assert part.places == tuple(place for place in whole[1].places if place.id == "c-thing")
    assert sum(isinstance(mark, Outline) for mark in marks_of(part.items)) == 1
    assert part.cuts == whole[1].cuts


def test_straight_cuts_have_marks_for_the_guillotine(widths: Widths) -> None:
    curved, straight = sheets(8, 1), sheets(8, 1, curved=False)
    page = half_pages(straight, widths, 1)[0]
    middles = {place.box.x for place in page.places[1::2]}
    uprights = {cut.x1 for cut in page.cuts if cut.x1 == cut.x2}
    assert middles <= uprights
    assert not middles & {cut.x1 for cut in half_pages(curved, widths, 1)[0].cuts}
    dashed = [mark for mark in marks_of(page.items) if isinstance(mark, Line) and mark.dash_mm]
    assert len(dashed) == 8
    assert all(line.y2 - line.y1 == pytest.approx(63 - 5) for line in dashed)
    assert (curved.waves, straight.waves) == (8, 0)
    assert (
        paper_use(straight, [page], widths, Ink.COLOUR).cuts == paper_use(curved, [page], widths, Ink.COLOUR).cuts + 2
    )


@pytest.mark.parametrize(("layout", "said"), [("cards", "too narrow for two"), ("week-deck", "only 16 mm wide")])
def test_formats_that_do_not_do(layout: str, said: str, widths: Widths) -> None:
    with pytest.raises(TeacherError, match=said):
        half_pages(sheets(2, 1, layout=layout), widths, 1)


def test_a_word_too_wide_is_told(widths: Widths) -> None:
    wide = Pair("m", Card("m-x", CardFace(picture="x")), Card("x", CardFace(word="m" * 12)), "x", (0, 0, 0, 1))
    with pytest.raises(TeacherError, match="too wide"):
        half_pages(replace(sheets(2, 1), pairs=(wide,)), widths, 1)
