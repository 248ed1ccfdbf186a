from itertools import pairwise

import pytest

from cardgen.games.pieces import Imprint, Ink, Paper, SideSign, SortSide
from cardgen.sheets.marks import Group, Label, Page, Panel, Picture, marks_of
from cardgen.sheets.mat_layout import MatSheet, neither_sheet, sheets_of_sides
from cardgen.sheets.mats import MatLook, mat_pages
from cardgen.sheets.style import Style
from cardgen.sources.layouts import mat_format
from cardgen.units import Box, Size, Widths, mm_of_points

A4, LETTER = Size(45.0, 45.0), Size(42.5, 42.5)
KEYS = (("m", "M", "m"), ("sh", "Sh", "sh"), ("qu", "Qu", "qu"))


def sides(count: int, places: int) -> tuple[SortSide, ...]:
    signs = list(SideSign)
    return tuple(
        SortSide(key, signs[i], (capital, small), f"{key}-picture", "a thing", places)
        for i, (key, capital, small) in enumerate(KEYS[:count])
    )


def laid(form: str, paper: Paper, card: Size, count: int, places: int, *, blank: bool = False) -> tuple[MatSheet, ...]:
    found = sheets_of_sides(mat_format(form), paper, card, sides(count, places), blank=blank)
    assert found is not None
    return found


def overlap(a: Box, b: Box) -> bool:
    return a.x < b.right and b.x < a.right and a.y < b.bottom and b.y < a.bottom


CASES = [
    ("mat", Paper.A4, A4, 2, 6),
    ("mat", Paper.LETTER, LETTER, 2, 6),
    ("mat-three", Paper.A4, Size(40.0, 40.0), 3, 6),
    ("mat-three", Paper.LETTER, Size(40.0, 40.0), 3, 6),
    ("mat-page", Paper.A4, A4, 2, 12),
    ("mat-page", Paper.LETTER, LETTER, 3, 12),
    ("mat", Paper.A4, Size(60.0, 60.0), 2, 4),
    ("mat", Paper.A4, A4, 2, 1),
    ("mat", Paper.A4, A4, 2, 5),
]


@pytest.mark.parametrize("blank", [False, True])
@pytest.mark.parametrize(("form", "paper", "card", "count", "places"), CASES)
def test_there_is_a_place_for_every_card_inside_its_frame(
    form: str, paper: Paper, card: Size, count: int, places: int, *, blank: bool
) -> None:
    sheets = laid(form, paper, card, count, places, blank=blank)
    assert [side.side.key for sheet in sheets for side in sheet.sides] == [key for key, *_ in KEYS[:count]]
    for side in (side for sheet in sheets for side in sheet.sides):
        assert len(side.places) == places
        assert side.key_row is not None
        for box in side.places:
            assert (box.w, box.h) == (card.w, card.h)
            assert box.x >= side.frame.x + 0.5
            assert box.right <= side.frame.right - 0.5
            assert side.line < box.y
            assert box.bottom <= side.frame.bottom - 0.4
        assert not any(overlap(a, b) for i, a in enumerate(side.places) for b in side.places[i + 1 :])
        assert all(box.bottom < side.line for box in side.key_row)


@pytest.mark.parametrize("paper", list(Paper))
def test_the_default_mat_is_as_drawn_by_the_guide(paper: Paper) -> None:
    card = A4 if paper is Paper.A4 else LETTER
    (sheet,) = laid("mat", paper, card, 2, 6)
    left, right = sheet.sides
    assert sheet.size == paper.size.turned
    assert left.frame.x == 8
    assert left.frame.right == pytest.approx(sheet.size.w / 2 - 2.5)
    assert right.frame.right == pytest.approx(sheet.size.w - 8)
    gap = (sheet.size.h - 19 - 4 * card.h - 4) / 4
    assert left.line == pytest.approx(7 + gap + card.h + 2)
    assert left.places[0].cy == pytest.approx(left.line + 2 + card.h / 2)
    assert left.places[2].y - left.places[0].y == pytest.approx(card.h + gap)
    out = (left.frame.w - 2 * card.w) / 6 + card.w / 2
    assert left.frame.cx - left.places[0].cx == pytest.approx(out)


def test_gaps_are_even_across() -> None:
    (sheet,) = laid("mat-three", Paper.LETTER, Size(40.0, 40.0), 3, 4)
    for side in sheet.sides:
        a, b = side.places[:2]
        assert a.x - side.frame.x == pytest.approx(b.x - a.right) == pytest.approx(side.frame.right - b.right)


def test_cards_that_do_not_fit_are_told() -> None:
    assert sheets_of_sides(mat_format("mat"), Paper.A4, A4, sides(2, 7), blank=False) is None
    assert sheets_of_sides(mat_format("mat"), Paper.A4, Size(70.0, 70.0), sides(2, 6), blank=False) is None
    assert sheets_of_sides(mat_format("mat-three"), Paper.LETTER, LETTER, sides(3, 6), blank=False) is None


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("places", range(1, 13))
def test_the_sheet_for_neither_takes_one_to_twelve_cards(places: int, paper: Paper) -> None:
    side = SortSide(None, SideSign.HEXAGON, None, None, "", places)
    sheet = neither_sheet(mat_format("mat-neither"), paper, A4 if paper is Paper.A4 else LETTER, side)
    assert sheet is not None
    (laid_side,) = sheet.sides
    assert len(laid_side.places) == places
    assert all(box.bottom < laid_side.frame.bottom and box.y > laid_side.line for box in laid_side.places)
    rows = sorted({round(box.y, 3) for box in laid_side.places})
    assert all(b - a > 42 for a, b in pairwise(rows))


def drawn(widths: Widths, *, blank: bool = False, ink: Ink = Ink.COLOUR, number: int | None = None) -> Page:
    look = MatLook(blank, Imprint("sort", ("m", "sh"), 7), Style.of(ink), widths)
    (page,) = mat_pages(laid("mat", Paper.A4, A4, 2, 6, blank=blank), look, number=number, first_page=3)
    return page


def alts(page: Page) -> list[str]:
    return [item.alt for item in page.items if isinstance(item, Group) and item.alt]


def test_sides_are_parted_by_their_signs_not_by_colour(widths: Widths) -> None:
    assert alts(drawn(widths)) == ["square", "triangle"]


def test_both_letters_and_the_key_picture_stand_on_top(widths: Widths) -> None:
    page = drawn(widths)
    letters = [mark for mark in marks_of(page.items) if isinstance(mark, Label) and not mark.decoration]
    assert [label.text for label in letters] == ["Mm", "Sh sh"]
    assert len({label.size_pt for label in letters}) == 1
    pictures = [mark for mark in marks_of(page.items) if isinstance(mark, Picture)]
    assert [picture.name for picture in pictures] == ["m-picture", "sh-picture"]
    (sheet,) = laid("mat", Paper.A4, A4, 2, 6)
    for label, picture, side in zip(letters, pictures, sheet.sides, strict=True):
        # Every letter of the stand-in begins and ends a twentieth of an em inside its width.
        air = 0.05 * mm_of_points(label.size_pt)
        assert label.x + air >= side.frame.x + 3.99
        assert label.x + widths.mm(label.text, label.size_pt, label.face) - air <= picture.box.x - 3.99


def test_a_blank_mat_has_dotted_squares_instead(widths: Widths) -> None:
    page = drawn(widths, blank=True)
    assert alts(page) == [
        "place for the letter card", "place for the key picture", "square",
        "place for the letter card", "place for the key picture", "triangle",
    ]  # fmt: skip
    assert not [mark for mark in marks_of(page.items) if isinstance(mark, Picture)]
    assert any("laminate once" in mark.text for mark in marks_of(page.items) if isinstance(mark, Label))


def test_the_set_is_told_small_at_the_foot_and_nothing_comes_near_the_edge(widths: Widths) -> None:
    page = drawn(widths, number=4)
    assert any(mark.text == "set 4" for mark in marks_of(page.items) if isinstance(mark, Label))
    assert page.places[0].pack == 4
    for mark in marks_of(page.items):
        if isinstance(mark, Panel):
            assert mark.box.x >= 6.4
            assert mark.box.bottom <= page.size.h - 6.4
        if isinstance(mark, Label):
            assert mark.y <= page.size.h - 6.4
