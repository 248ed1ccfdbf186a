import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.pieces import CallStep, Imprint, Link, Paper, SayLine
from cardgen.paper.extent import extent
from cardgen.sheets.caller import CallerPage, caller_pages
from cardgen.sheets.codes import quiet_box
from cardgen.sheets.marks import Code, Label, Page, Picture, marks_of
from cardgen.units import Glyph, Typeface, Widths

WIDTHS = Widths({face: {chr(code): Glyph(0.5, 0.05, 0.45) for code in range(32, 9000)} for face in Typeface})
SAYS = (SayLine("m", "m", "mmm", True, "lips closed", "not em"), SayLine("s", "s", "sss", True, "teeth", "not ess"))


def listed(
    winners: list[list[int]], boards: int, paper: Paper = Paper.A4, link: Link | None = None
) -> tuple[Page, ...]:
    calls = tuple(
        CallStep(n, f"mop{n}", f"mop{n}", "m", "m", f"mop{n}", "a mop", tuple(won)) for n, won in enumerate(winners, 1)
    )
    content = CallerPage("24 boards", ("Say each word twice.",), SAYS, calls, "full boards", True, boards, link)
    return caller_pages(content, paper.size, imprint=Imprint("bingo", ("m", "s"), 7), widths=WIDTHS, first_page=2)


def texts(page: Page) -> list[str]:
    return [mark.text for mark in marks_of(page.items) if isinstance(mark, Label)]


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("calls", [1, 12, 16, 24, 26])
def test_up_to_26_calls_stand_on_one_page_with_their_pictures(calls: int, paper: Paper) -> None:
    pages = listed([[] for _ in range(calls)], 24, paper)
    assert len(pages) == 1
    pictures = [mark for mark in marks_of(pages[0].items) if isinstance(mark, Picture)]
    assert len(pictures) == calls
    assert all(picture.box.bottom <= paper.size.h - 24 for picture in pictures)
    assert all(f"mop{n} … mop{n}" in texts(pages[0]) for n in range(1, calls + 1))


@pytest.mark.parametrize("letters", [20, 60, 180])
def test_a_code_keeps_its_white_and_its_address_is_beside_it(letters: int) -> None:
    address = ("https://example.org/" + "folder/" * 30)[:letters]
    link = Link(address, 17 + 4 * (2 + letters // 25), address.removeprefix("https://"))
    (page,) = listed([[1]], 1, link=link)
    (code,) = [mark for mark in marks_of(page.items) if isinstance(mark, Code)]
    white = quiet_box(code.box, link.modules)
    for mark in marks_of(page.items):
        box = extent([mark], WIDTHS)
        apart = box.right <= white.x or white.right <= box.x or box.bottom <= white.y or white.bottom <= box.y
        assert mark is code or apart, mark
    assert any(text.startswith("example.org") for text in texts(page))


@given(st.integers(27, 140), st.sampled_from(list(Paper)))
@settings(max_examples=25, deadline=None)
def test_longer_lists_lose_no_call_and_stay_on_the_page(calls: int, paper: Paper) -> None:
    pages = listed([[] for _ in range(calls)], 24, paper)
    numbers = [int(text) for page in pages for text in texts(page) if text.isdigit()]
    assert numbers == list(range(1, calls + 1))
    for page in pages:
        assert all(m.y <= paper.size.h - 7 for m in marks_of(page.items) if isinstance(m, Label))


@given(st.lists(st.integers(0, 40), min_size=3, max_size=24))
@settings(max_examples=50, deadline=None)
def test_every_winner_is_named_somewhere(counts: list[int]) -> None:
    winners, number = [], 1
    for count in counts:
        winners.append(list(range(number, number + count)))
        number += count
    pages = listed(winners, number - 1)
    shown = " ".join(text for page in pages for text in texts(page))
    if any(text in ("all others", "all boards") for page in pages for text in texts(page)):
        last = max(index for index, won in enumerate(winners) if won)
        winners[last] = []
    for won in winners:
        for board in won:
            assert re.search(rf"\b{board}\b", shown)


def test_the_last_call_says_all_others() -> None:
    pages = listed([[], [3], [n for n in range(1, 25) if n != 3]], 24)
    assert "all others" in texts(pages[0])
    assert "3" in texts(pages[0])


def test_what_does_not_fit_a_row_is_listed_board_by_board() -> None:
    pages = listed([[], list(range(1, 61)), list(range(61, 121)), list(range(121, 131))], 130)
    assert "60 boards: last page" in texts(pages[0])
    register = texts(pages[-1])
    assert "17: 2" in register
    assert "121: 4" in register
