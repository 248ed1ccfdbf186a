"""Writing sheets with the real sounds, letterforms and typeface: every sound, every size, both papers."""

import random
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import Any

import pytest

from cardgen.recipes.library import Library, open_library
from cardgen.recipes.sheets import Sheets
from cardgen.recipes.trace import trace
from cardgen.request import Ink, LetterCase, Paper, TraceRequest
from cardgen.sheets.marks import Group, Label, Line, Outline, Page, Picture, marks_of
from cardgen.units import Typeface, mm_of_points

X_HEIGHTS = [20.0, 15.0, 12.0, 10.0, 8.0, 6.0]


@cache
def library() -> Library:
    return open_library()


KEYS = library().sounds.keys


def sheets(keys: tuple[str, ...], seed: int = 7, *, split: bool = False, **more: object) -> Sheets:
    request = TraceRequest(keys=keys, seed=seed, **more)  # type: ignore[arg-type]
    return trace(request, library(), random.Random(seed), split)


def child_pages(made: Sheets) -> Iterator[Page]:
    for _, document in made.documents:
        yield from (page for page in document.pages if page.places)


def reach(mark: object) -> tuple[float, float]:
    """How far a mark reaches sideways, its pen included."""
    if isinstance(mark, Outline):
        half = mm_of_points(mark.weight_pt) / 2
        xs = [x for _, *numbers in mark.path for x in numbers[::2]]
        return min(xs) - half, max(xs) + half
    if isinstance(mark, Label):
        em = mm_of_points(mark.size_pt)
        left, right = library().widths.ink(mark.text, Typeface.LEARNING)
        return mark.x + left * em, mark.x + right * em
    raise AssertionError(mark)


def figures(page: Page, begin: str) -> list[Group]:
    return [item for item in page.items if isinstance(item, Group) and item.alt.startswith(begin)]


@pytest.mark.parametrize("x_height", X_HEIGHTS)
def test_in_no_row_do_letters_or_words_run_into_each_other_or_off_the_lines(x_height: float) -> None:
    # A4 is the narrower paper.
    for page in child_pages(sheets(KEYS, x_height=x_height, words=2)):
        for row in figures(page, "a row"):
            # Start dots are filled, everything else in a row is a label or drawn with the pen.
            marks = [
                mark for mark in row.items if isinstance(mark, Label) or (isinstance(mark, Outline) and mark.stroke)
            ]
            spans = sorted(map(reach, marks))
            assert spans[0][0] >= 15
            assert spans[-1][1] <= 210 - 15
            assert all(right[0] - left[1] > 2.5 for left, right in pairwise(spans)), (page.places[0].id, row.alt)


@pytest.mark.parametrize("lift", [False, True])
@pytest.mark.parametrize(
    "form",
    [{}, {"big": True}, {"big": True, "case": LetterCase.CAPITAL}],
    ids=["usual", "big", "capital"],
)
def test_big_letters_keep_clear_of_each_other_the_picture_and_the_edge(form: dict[str, Any], lift: bool) -> None:
    for page in child_pages(sheets(KEYS, lift=lift, left_handed=lift, **form)):
        spans = []
        for road in figures(page, "the letter"):
            outlines = [mark for mark in road.items if isinstance(mark, Outline)]
            ends = list(map(reach, outlines))
            spans.append((min(left for left, _ in ends), max(right for _, right in ends)))
            # Nothing reaches the name line.
            assert min(y for mark in outlines for _, *numbers in mark.path for y in numbers[1::2]) > 19
        spans += [(m.box.x, m.box.right) for m in marks_of(page.items) if isinstance(m, Picture)]
        spans.sort()
        assert all(right[0] - left[1] > 3 for left, right in pairwise(spans)), page.places[0].id
        assert spans[0][0] > 8
        assert spans[-1][1] < 210 - 8


def test_the_key_picture_stands_on_every_sheet_that_has_one() -> None:
    for page in child_pages(sheets(KEYS)):
        sound = library().sounds.get(page.places[0].id)
        names = [mark.name for mark in marks_of(page.items) if isinstance(mark, Picture)]
        assert names == ([sound.key_picture] if sound.key_picture else [])


def test_words_keep_their_rows_though_they_are_long() -> None:
    made = sheets(("i", "x", "ch"), words=2, x_height=20.0)
    words = [word["word"] for sheet in made.plan["writing"] for word in sheet["words"]]
    assert words[0] == "igloo"
    assert made.plan["words_x_height_mm"] <= 20
    long = sheets(("u",), words=1, x_height=20.0)
    assert long.plan["words_x_height_mm"] == 15
    assert "umbrella is too long for 20" in " ".join(long.warnings)


def test_a_sound_without_enough_words_is_told() -> None:
    assert any("not enough good words" in line and "aw" in line for line in sheets(("aw",), words=2).warnings)


def test_capitals_only_and_small_letters_only() -> None:
    for case, letter in ((LetterCase.SMALL, "m"), (LetterCase.CAPITAL, "M")):
        (sheet,) = sheets(("m",), case=case).plan["writing"]
        assert {row["letter"] for row in sheet["rows"]} == {letter}


def test_only_prints_the_same_page_again() -> None:
    whole = sheets(("m", "s", "t"), words=1)
    part = sheets(("m", "s", "t"), words=1, only=("s",))
    wanted = [page for page in child_pages(whole) if page.places[0].id in ("s", "s-words")]
    assert [page.number for page in wanted] == [4, 5]
    assert list(child_pages(part)) == wanted
    assert part.plan["pages"] == [page for page in whole.plan["pages"] if page["number"] in (4, 5)]


def test_split_makes_one_document_a_sound() -> None:
    made = sheets(("m", "sh"), words=1, split=True)
    assert [name for name, _ in made.documents] == ["teacher", "sound-m", "sound-sh"]
    assert [len(document.pages) for _, document in made.documents] == [1, 2, 2]
    together = [page for _, document in made.documents for page in document.pages]
    assert together == list(sheets(("m", "sh"), words=1).documents[0][1].pages)


def test_the_teacher_s_page_says_what_she_needs() -> None:
    made = sheets(("b", "d"), seed=31, lift=True)
    page = made.documents[0][1].pages[0]
    text = " ".join(mark.text for mark in marks_of(page.items) if isinstance(mark, Label))
    for said in (
        "Writing b d",
        "lips pop, voice on",
        "common practice, without a source",
        "cardgen trace b d --lift --seed 31",
        "100 %",
        "left-handed",
    ):
        assert said in text
    assert any("b and d" in line or "b – " in line for line in made.warnings), "they look alike"
    head = next(i for i in page.items if isinstance(i, Group) and i.items[0].text == "How to use")  # type: ignore[union-attr]
    lines = page.items[page.items.index(head) + 1 :][:5]
    assert [len(line.items) for line in lines[:4] if isinstance(line, Group)] == [1, 1, 1, 1], "four lines"


def test_ink_and_paper_are_kept() -> None:
    made = sheets(("m",), ink=Ink.LINE, paper=Paper.LETTER)
    (page,) = child_pages(made)
    assert page.size == Paper.LETTER.size
    assert {m.colour for m in marks_of(page.items) if isinstance(m, Line)} == {"#2A2A35"}


def test_numbers_are_large_enough_to_read() -> None:
    for page in child_pages(sheets(KEYS)):
        for road in figures(page, "the letter"):
            sizes = [m.size_pt for m in road.items if isinstance(m, Label)]
            assert min(sizes) > 8
