import random
from itertools import pairwise

import pytest

from cardgen.errors import TeacherError
from cardgen.games.matching_pages import line_pages
from cardgen.games.pieces import Card, CardFace, Imprint, Ink, LinePage, Pair, Paper
from cardgen.request import PairKind
from cardgen.sheets.draw_lines import LineSheets, line_sheets
from cardgen.sheets.marks import Group, Label, Line, Outline, Page, Picture, Role, marks_of
from cardgen.units import Typeface, Widths

KEYS = "msft"


def letters(count: int) -> tuple[LinePage, ...]:
    pairs = [
        Pair(k, Card(k, CardFace(letter=k)), Card(k.upper(), CardFace(letter=k.upper()))) for k in "msftbd"[:count]
    ]
    return line_pages(pairs, PairKind.LETTERS, 1, random.Random(3))


def few() -> tuple[LinePage, ...]:
    pairs = [
        Pair(key, Card(key, CardFace(letter=key)), Card(f"{key}-{n}", CardFace(picture=f"{key}{n}", alt="a thing")))
        for key in "ms"
        for n in range(3)
    ]
    return line_pages(pairs, PairKind.PICTURES, 1, random.Random(3))


def both(pages: tuple[LinePage, ...], paper: Paper, widths: Widths) -> tuple[Page, Page]:
    sheets = LineSheets(pages, paper, Ink.COLOUR, Imprint("match", tuple(KEYS), 7), "letter pairs")
    (page,), (key,) = line_sheets(sheets, widths, 2)
    return page, key


def lines(page: Page) -> list[Line]:
    """The lines from dot to dot: all others are level."""
    return [mark for mark in marks_of(page.items) if isinstance(mark, Line) and mark.x2 - mark.x1 > 20]


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("count", [2, 4, 6])
def test_a_page_and_its_key(count: int, paper: Paper, widths: Widths) -> None:
    page, key = both(letters(count), paper, widths)
    assert (page.number, key.number) == (2, 3)
    assert page.places == key.places
    assert len(page.places) == 2 * count
    # The name line and the example; on the key the example and the answers.
    assert len(lines(page)) == 2
    assert len(lines(key)) == 1 + count
    dots = [mark for mark in marks_of(page.items) if isinstance(mark, Outline)]
    assert len(dots) == 2 * (count + 1)
    titles = [item for item in key.items if isinstance(item, Group) and item.role is Role.TITLE]
    assert [mark.text for mark in marks_of(tuple(titles)) if isinstance(mark, Label)] == ["Key"]
    for place in page.places:
        assert place.box.x >= 15
        assert place.box.right <= paper.size.w - 15
        assert 20 < place.box.y < place.box.bottom < paper.size.h - 12


def test_answers_run_from_dot_to_dot(widths: Widths) -> None:
    (order,) = letters(4)
    _, key = both((order,), Paper.A4, widths)
    middle = {(place.id, place.face): place.box.cy for place in key.places}
    answers = [line for line in lines(key) if not line.dash_mm]
    for line, (a, b) in zip(answers, order.lines, strict=True):
        left, right = order.left[a], order.right[b]
        assert left
        assert right
        y1, y2 = middle[left.id, "left"], middle[right.id, "right"]
        # Both ends lie on the straight way between two dots, 4 mm off each.
        assert (line.y1 - y1) * (210 - 144) == pytest.approx((y2 - y1) * (line.x1 - 72))
        assert (line.x1 - 72) ** 2 + (line.y1 - y1) ** 2 == pytest.approx(16)
        assert (138 - line.x2) ** 2 + (line.y2 - y2) ** 2 == pytest.approx(16)


def test_the_key_is_told_to_those_who_hear_it(widths: Widths) -> None:
    _, key = both(letters(3), Paper.A4, widths)
    told = [item.alt for item in key.items if isinstance(item, Group) and item.role is Role.FIGURE]
    assert sorted(told[-1].split("; ")) == ["f – F", "m – M", "s – S"]


@pytest.mark.parametrize("paper", list(Paper))
def test_few_letters_stand_between_their_pictures(paper: Paper, widths: Widths) -> None:
    page, key = both(few(), paper, widths)
    pictures = [mark for mark in marks_of(page.items) if isinstance(mark, Picture)]
    assert len(pictures) == 6
    assert min(picture.box.w for picture in pictures) >= 25
    assert all(a.box.bottom <= b.box.y for a, b in pairwise(pictures))
    assert len([place for place in page.places if place.face == "left"]) == 2
    assert len(lines(key)) == 7
    example = next(item for item in page.items if isinstance(item, Group) and item.role is Role.FIGURE)
    (dotted,) = [mark for mark in marks_of((example,)) if isinstance(mark, Line)]
    assert dotted.y1 == dotted.y2


def test_the_example_is_no_letter(widths: Widths) -> None:
    page, _ = both(letters(3), Paper.A4, widths)
    example = next(item for item in page.items if isinstance(item, Group) and item.role is Role.FIGURE)
    assert not [mark for mark in marks_of((example,)) if isinstance(mark, Label | Picture)]
    children = [m.text for m in marks_of(page.items) if isinstance(m, Label) and m.face is Typeface.LEARNING]
    assert sorted(children) == sorted("msfMSF")


def test_a_word_too_wide_is_told(widths: Widths) -> None:
    pairs = [Pair("m", Card(f"m-{n}", CardFace(picture="x")), Card(n, CardFace(word=n * 12)), n) for n in "ab"]
    with pytest.raises(TeacherError, match="too wide"):
        both(line_pages(pairs, PairKind.WORDS, 1, random.Random(1)), Paper.A4, widths)
