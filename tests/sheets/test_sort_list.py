import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.pieces import (
    Card,
    CardFace,
    Imprint,
    Paper,
    SayLine,
    SideSign,
    SortGame,
    SortItem,
    SortSide,
)
from cardgen.sheets.marks import Group, Label, Page, Picture, Role, marks_of
from cardgen.sheets.sort_list import ListPage, list_pages
from cardgen.units import Glyph, Typeface, Widths

WIDTHS = Widths({face: {chr(code): Glyph(0.5, 0.05, 0.45) for code in range(32, 9000)} for face in Typeface})
SAYS = (SayLine("m", "m", "mmm", True, "lips closed", "not em"), SayLine("s", "s", "sss", True, "teeth", "not ess"))
CONTENT = ListPage("Sorting list", "6 cards a sound", ("Say each word twice.",), SAYS, "first sound")


def listed(count: int, paper: Paper = Paper.A4, word: str = "mop") -> tuple[Page, ...]:
    sides = (
        SortSide("m", SideSign.SQUARE, ("M", "m"), None, "", count),
        SortSide("s", SideSign.TRIANGLE, ("S", "s"), None, "", 0),
    )
    neither = SortSide(None, SideSign.HEXAGON, None, None, "", 1)
    every = (*sides, neither)
    items = tuple(
        SortItem(n, Card(f"m-{n}", CardFace(picture=f"p{n}", alt="a thing")), f"{word}{n}", s.key, s.sign, "mmm, held")
        for n in range(1, count + 1)
        for s in [every[n % 3]]
    )
    game = SortGame(sides, neither, items, (), False)
    return list_pages(CONTENT, game, paper.size, imprint=Imprint("sort", ("m", "s"), 7), widths=WIDTHS, first_page=2)


def texts(page: Page) -> list[str]:
    return [mark.text for mark in marks_of(page.items) if isinstance(mark, Label)]


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 48), st.sampled_from(list(Paper)))
def test_no_card_is_lost_and_all_stays_on_the_page(count: int, paper: Paper) -> None:
    pages = listed(count, paper)
    assert [int(text) for page in pages for text in texts(page) if text.isdigit()] == list(range(1, count + 1))
    pictures = [[mark for mark in marks_of(page.items) if isinstance(mark, Picture)] for page in pages]
    assert max(map(len, pictures)) - min(map(len, pictures)) <= 2
    for mark in (mark for found in pictures for mark in found):
        assert mark.box.bottom <= paper.size.h - 24
        assert mark.box.w >= 6


@pytest.mark.parametrize("count", [12, 16, 18])
def test_the_usual_lists_fill_one_page(count: int) -> None:
    assert len(listed(count)) == 1


def test_every_row_has_the_word_twice_the_sign_and_the_letter_or_neither() -> None:
    (page,) = listed(3)
    (table,) = [item for item in page.items if isinstance(item, Group) and item.role is Role.TABLE]
    rows = [row for row in table.items if isinstance(row, Group)][1:]
    found = []
    for row in rows:
        cell = row.items[-1]
        assert isinstance(cell, Group)
        sign = next(item.alt for item in cell.items if isinstance(item, Group))
        found.append((sign, *[item.text for item in cell.items if isinstance(item, Label)]))
    assert found == [("triangle", "s"), ("hexagon", "neither"), ("square", "m")]
    assert "mop1 … mop1" in texts(page)


def test_a_word_too_long_to_stand_twice_stands_once() -> None:
    (page,) = listed(1, word="thermometers-and-barometers")
    assert "thermometers-and-barometers1" in texts(page)
