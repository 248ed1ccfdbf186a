"""Writing sheets on paper: guides, roads, rows, and what changes with the ink and the hand."""

from itertools import pairwise

import pytest

from cardgen.games.pieces import (
    Arrow,
    DottedLetters,
    Fill,
    Imprint,
    Ink,
    Paper,
    RoadLetters,
    Start,
    WritingRow,
    WritingSheet,
    WritingWord,
)
from cardgen.sheets.marks import Group, Label, Line, Outline, Page, Panel, Picture, marks_of
from cardgen.sheets.trace import PLACES, ROWS, WritingForm, sheet_pages
from cardgen.sheets.trace_letters import Spot, disc_radius
from cardgen.units import Typeface, Widths, mm_of_points

STEM = (("M", 0.0, 500.0), ("L", 0.0, 0.0))
ROAD = RoadLetters(
    "i",
    (STEM, (("D", 0.0, 690.0),)),
    (Start(1, (0.0, 500.0), (-100.0, 600.0)), Start(2, (0.0, 690.0), (0.0, 690.0))),
    (Arrow(((0.0, 300.0), (0.0, 250.0)), ((0.0, 210.0), (-23.0, 256.0), (23.0, 256.0))),),
    ((0.0, 500.0), (0.0, 250.0), (0.0, 0.0)),
    0.0,
    0.0,
)
DOTS = DottedLetters("i", ((0.0, 500.0), (0.0, 0.0)), ((0.0, 500.0),), 0.0, 400.0)
ROW = (Fill.MODEL, Fill.DOTS, Fill.STARTS, Fill.EMPTY)
HEIGHTS = [20.0, 15.0, 12.0, 10.0, 8.0, 6.0]


def form(x_height: float = 12.0, ink: Ink = Ink.COLOUR, paper: Paper = Paper.A4, **more: bool) -> WritingForm:
    return WritingForm(paper, ink, x_height, more.get("big", False), more.get("left_handed", False))


def pages(how: WritingForm, widths: Widths, picture: str | None = "igloo", words: int = 0) -> tuple[Page, ...]:
    word = WritingWord(DOTS, None, "", (ROW[:2], ROW[:2])[: how.word_row_count(max(words, 1))])
    sheet = WritingSheet(
        "i", ("i",), (ROAD,), (WritingRow(DOTS, ROW),) * how.row_count(), picture, "an igloo", (word,) * words
    )
    return sheet_pages(sheet, how, how, Imprint("writing", ("i", "m"), 7), "sheet 1 of 2", widths, 2)


def labels(page: Page, text: str) -> list[Label]:
    return [mark for mark in marks_of(page.items) if isinstance(mark, Label) and mark.text == text]


def writing_lines(page: Page) -> list[float]:
    return [m.y1 for m in marks_of(page.items) if isinstance(m, Line) and m.weight_pt == 1.25 and m.y1 == m.y2]


def test_the_usual_sheet_has_its_measured_places(widths: Widths) -> None:
    (page,) = pages(form(), widths)
    big, *rows = writing_lines(page)
    assert big == 76.6
    assert len(rows) == 5
    highest = rows[0] - 760 * 0.024
    assert highest == pytest.approx(76.6 + 23.6, abs=0.05)
    assert rows[-1] + 260 * 0.024 == pytest.approx(297 - 15)
    steps = [b - a for a, b in pairwise(rows)]
    assert max(steps) - min(steps) < 1e-9
    # Big guides run from the margin to 63 mm before the edge.
    big_line = next(m for m in marks_of(page.items) if isinstance(m, Line) and m.y1 == 76.6)
    assert (big_line.x1, big_line.x2) == (15, 210 - 63)


def test_the_big_form_has_its_measured_places(widths: Widths) -> None:
    how = form(20, big=True)
    (page,) = pages(how, widths)
    assert writing_lines(page)[0] == 96.9
    assert len(writing_lines(page)) == 4
    road = next(m for m in marks_of(page.items) if isinstance(m, Outline) and m.stroke == "#E3E7EC")
    assert mm_of_points(road.weight_pt) == pytest.approx(11.44)  # as wide as a child's finger


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("big", [False, True])
@pytest.mark.parametrize("x_height", HEIGHTS)
def test_rows_keep_apart_and_on_the_sheet(widths: Widths, x_height: float, paper: Paper, big: bool) -> None:
    how = form(x_height, paper=paper, big=big)
    k = x_height / 500
    assert 2 <= how.row_count() <= ROWS[round(x_height)]
    for page in pages(how, widths, words=2):
        lines = [y for y in writing_lines(page) if page.number == 3 or y != how.road_line]
        assert all(b - a >= 1020 * k + 4 - 1e-9 for a, b in pairwise(lines))
        assert lines[-1] + 260 * k <= paper.size.h - 15 + 1e-9
        for mark in marks_of(page.items):
            if isinstance(mark, Label | Line):
                x, y = (mark.x, mark.y) if isinstance(mark, Label) else (mark.x1, mark.y1)
                assert 6.4 <= x <= paper.size.w - 6.4
                assert 6.4 <= y <= paper.size.h - 6.4
        pictures = [mark.box for mark in marks_of(page.items) if isinstance(mark, Picture)]
        assert all(box.w >= 25 for box in pictures if page.number == 2)


def test_models_stand_with_the_pen_s_middle_on_the_guides(widths: Widths) -> None:
    (page,) = pages(form(), widths)
    _, *rows = writing_lines(page)
    models = labels(page, "i")
    assert len(models) == 5
    for model, y in zip(models, rows, strict=True):
        assert model.y == pytest.approx(y + 43 * 0.024)
        assert mm_of_points(model.size_pt) == pytest.approx(24.0)
        assert model.face is Typeface.LEARNING


def test_the_model_is_at_the_end_for_a_left_hand_and_writing_still_runs_to_the_right(widths: Widths) -> None:
    def first_row(page: Page) -> tuple[float, list[float]]:
        """Where the model stands, and where the rest of the row does."""
        row = next(m for m in page.items if isinstance(m, Group) and m.alt.startswith("a row"))
        (model,) = (mark.x for mark in row.items if isinstance(mark, Label))
        return model, [x for mark in row.items if isinstance(mark, Outline) for _, *(x, *_) in mark.path[:1]]

    (right,), (left,) = pages(form(), widths), pages(form(left_handed=True), widths)
    model, rest = first_row(right)
    assert model < min(rest)
    assert rest == sorted(rest)
    model, rest = first_row(left)
    assert model > max(rest)
    assert rest == sorted(rest)
    box = next(m.box for m in marks_of(left.items) if isinstance(m, Picture))
    assert box.x == 15
    assert next(m.x1 for m in marks_of(left.items) if isinstance(m, Line) and m.y1 == 76.6) == 63


def test_line_ink_has_no_halftone(widths: Widths) -> None:
    for page in pages(form(ink=Ink.LINE), widths, words=1):
        for mark in marks_of(page.items):
            if isinstance(mark, Line):
                assert mark.colour == "#2A2A35"
            if isinstance(mark, Panel | Outline):
                assert {mark.fill, mark.stroke} <= {None, "#2A2A35", "#FFFFFF"}


def test_the_tint_lies_under_the_rows_only(widths: Widths) -> None:
    (page,) = pages(form(), widths)
    bands = [m.box for m in marks_of(page.items) if isinstance(m, Panel) and m.fill == "#EEF1F5"]
    assert len(bands) == 5
    assert all(band.h == pytest.approx(12) for band in bands)
    assert [band.bottom for band in bands] == pytest.approx(writing_lines(page)[1:])


def test_numbers_stand_in_the_middle_of_their_discs_and_stay_small_on_big_roads(widths: Widths) -> None:
    assert disc_radius(0.056) == pytest.approx(2.8)
    assert disc_radius(0.088) == 3.75
    (page,) = pages(form(), widths)
    (one,), (two,) = labels(page, "1"), labels(page, "2")
    for label in (one, two):
        em = mm_of_points(label.size_pt)
        height = 0.846 * em
        assert height == pytest.approx(0.72 * 5.6)
        assert label.colour == "#FFFFFF"
    # Letters of the stand-in are from .05 to .45 em wide.
    em = mm_of_points(two.size_pt)
    assert two.x + 0.25 * em == pytest.approx(81.0)
    assert two.y - 0.423 * em == pytest.approx(76.6 - 690 * 0.056)


def test_a_dot_is_drawn_as_a_line_without_length() -> None:
    dot = (("D", 0.0, 100.0),)
    assert Spot(10, 20, 0.1).path((dot,)) == (("M", 10.0, 10.0), ("L", 10.0, 10.0))


def test_without_a_key_picture_there_is_a_place_to_draw(widths: Widths) -> None:
    (page,) = pages(form(), widths, picture=None)
    assert not [mark for mark in marks_of(page.items) if isinstance(mark, Picture)]
    assert any(isinstance(item, Group) and item.alt == "a place to draw" for item in page.items)


def test_everything_drawn_for_a_child_says_what_it_is(widths: Widths) -> None:
    page, back = pages(form(), widths, words=1)
    alts = [item.alt for item in (*page.items, *back.items) if isinstance(item, Group)]
    assert "the letter i, big, with numbered starts and arrows" in alts
    assert "a row to write i: once as a model, once in dots, once as starts only" in alts
    assert back.side.value == "back"
    assert labels(back, "sheet 1 of 2, back")


def test_small_rows_have_more_places_and_wide_letters_fewer() -> None:
    counts = [form(x).place_count(400) for x in HEIGHTS]
    assert counts == sorted(counts)
    assert counts == [PLACES[round(x)] for x in HEIGHTS]
    assert form(12).place_count(1600) == 4
    assert form(20).place_count(1100, several=True) == 2


def test_tracing_dots_never_run_together() -> None:
    assert form(12).dot_gap() == 34
    for x_height in HEIGHTS:
        how = form(x_height)
        assert how.dot_gap() * how.k >= 0.8  # mm; the dots are 0.52 wide
