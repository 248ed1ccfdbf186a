"""The numbers of the printer test, from its marks: what a teacher measures with a ruler is what was drawn."""

from dataclasses import replace
from itertools import pairwise

import pytest

from cardgen.games.pieces import Paper
from cardgen.sheets.marks import Code, Group, Label, Line, Outline, Page, Panel, Picture, Role, Side, marks_of
from cardgen.sheets.ruler import QUESTIONS, TestCode, ruler_pages
from cardgen.units import Box, Widths

MM = 0.001
PICTURES = [(name, f"a {name}") for name in ("one", "two", "three", "four")]
CODES = [TestCode(f"https://example.org/{module}", module, 29) for module in (0.5, 0.6, 0.8)]


@pytest.fixture(params=list(Paper), ids=lambda paper: paper.value)
def pages(request: pytest.FixtureRequest, widths: Widths) -> tuple[Page, Page]:
    return ruler_pages(request.param.size, PICTURES, CODES, widths)


def figures(page: Page) -> dict[str, list[Line]]:
    """The lines of every figure, by its alt text."""
    groups = [item for item in page.items if isinstance(item, Group) and item.role is Role.FIGURE]
    return {group.alt: [mark for mark in marks_of(group.items) if isinstance(mark, Line)] for group in groups}


@pytest.mark.parametrize(
    ("text", "length", "step"), [("100 mm", 100.0, 10.0), ("4 inches", 101.6, 12.7)], ids=["mm", "inches"]
)
def test_the_bars_are_as_long_as_they_say(pages: tuple[Page, Page], text: str, length: float, step: float) -> None:
    bar, *ticks = figures(pages[0])[f"bar of {text}, across"]
    assert bar.x2 - bar.x1 == pytest.approx(length, abs=MM)
    assert bar.y1 == bar.y2
    assert [tick.x1 - bar.x1 for tick in ticks] == pytest.approx([step * i for i in range(len(ticks))], abs=MM)
    assert ticks[-1].x1 == pytest.approx(bar.x2, abs=MM)
    assert all(tick.x1 == tick.x2 for tick in ticks)
    bar, *ticks = figures(pages[0])[f"bar of {text}, down"]
    assert bar.y2 - bar.y1 == pytest.approx(length, abs=MM)
    assert bar.x1 == bar.x2
    assert [tick.y1 - bar.y1 for tick in ticks] == pytest.approx([step * i for i in range(len(ticks))], abs=MM)
    assert ticks[-1].y1 == pytest.approx(bar.y2, abs=MM)


def test_the_edge_lines_stand_where_their_numbers_say_on_all_sides_of_both_pages(pages: tuple[Page, Page]) -> None:
    for page in pages:
        w, h = page.size.w, page.size.h
        found = {alt.split()[-2]: lines for alt, lines in figures(page).items() if alt.endswith("edge")}
        distances = {
            "top": [(line.y1, line.y2) for line in found["top"]],
            "left": [(line.x1, line.x2) for line in found["left"]],
            "right": [(w - line.x1, w - line.x2) for line in found["right"]],
            "bottom": [(h - line.y1, h - line.y2) for line in found["bottom"]],
        }
        for side in distances.values():
            assert [d for d, _ in side] == pytest.approx([3, 4, 5, 6, 8, 10], abs=MM)
            assert [d for _, d in side] == pytest.approx([3, 4, 5, 6, 8, 10], abs=MM)
        for group in page.items:
            if isinstance(group, Group) and group.alt.endswith("edge"):
                numbers = [item.text for item in group.items if isinstance(item, Label)]
                assert numbers == ["3", "4", "5", "6", "8", "10"]
                places = zip(group.items[::2], group.items[1::2], strict=True)
                for line, number in places:
                    assert isinstance(line, Line)
                    assert isinstance(number, Label)
                    if "top" in group.alt or "bottom" in group.alt:
                        assert line.x1 < number.x < line.x2
                    else:
                        assert line.y1 < number.y < line.y2


def test_nothing_but_the_edge_lines_is_near_the_edge(pages: tuple[Page, Page]) -> None:
    for page in pages:
        edge_lines = {id(line) for alt, lines in figures(page).items() if alt.endswith("edge") for line in lines}
        for mark in marks_of(page.items):
            if isinstance(mark, Line) and id(mark) not in edge_lines:
                assert min(mark.x1, mark.y1, page.size.w - mark.x2, page.size.h - mark.y2) > 6.4
            if isinstance(mark, Label):
                assert min(mark.x, mark.y - 3.2, page.size.w - mark.x, page.size.h - mark.y) > 6.4


def test_the_dot_of_the_back_lies_behind_the_middle_of_the_cross(pages: tuple[Page, Page]) -> None:
    front, back = pages
    assert (front.side, back.side) == (Side.FRONT, Side.BACK)
    across, down, *ticks = next(lines for alt, lines in figures(front).items() if alt.startswith("cross"))
    cx, cy = (across.x1 + across.x2) / 2, (down.y1 + down.y2) / 2
    assert (across.y1, down.x1) == pytest.approx((cy, cx), abs=MM)
    assert all(tick.x1 == tick.x2 for tick in ticks[::2])
    five = [*range(-5, 0), *range(1, 6)]
    assert [tick.x1 - cx for tick in ticks[::2]] == pytest.approx(five, abs=MM)
    assert [tick.y1 - cy for tick in ticks[1::2]] == pytest.approx(five, abs=MM)
    dot, ring = [mark for mark in marks_of(back.items) if isinstance(mark, Outline)]
    for outline, radius in ((dot, 0.5), (ring, 9.0)):
        numbers = [number for _, *places in outline.path for number in places]
        xs, ys = numbers[::2], numbers[1::2]
        middle = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
        # Flipped on the long edge, what is at x on the back is behind W − x of the front.
        assert (back.size.w - middle[0], middle[1]) == pytest.approx((cx, cy), abs=MM)
        assert (max(xs) - min(xs)) / 2 == pytest.approx(radius, abs=MM)


def test_typing_what_is_read_on_the_cross_moves_the_back_into_place(pages: tuple[Page, Page]) -> None:
    front, back = pages
    across, down, *_ = next(lines for alt, lines in figures(front).items() if alt.startswith("cross"))
    cx, cy = down.x1, across.y1
    signs = {}
    for mark in marks_of(front.items):
        if isinstance(mark, Label) and mark.text[-2:] in (" +", " −"):
            word, sign = mark.text.split()
            assert {"right": mark.x > cx, "left": mark.x < cx, "up": mark.y < cy, "down": mark.y > cy}[word]
            signs[word] = 1 if sign == "+" else -1
    assert (signs["left"], signs["down"]) == (-signs["right"], -signs["up"])
    for off_x, off_y in ((-1.0, -2.0), (0.5, -1.5), (3.0, 1.0)):
        # A printer puts the back off by so much to the right and down, as seen on the back; through the paper:
        seen_right, seen_down = back.size.w - (cx + off_x) - cx, off_y
        typed = seen_right * signs["right"], -seen_down * signs["up"]
        shifted = replace(back, shift=typed).on_paper(Box(cx + off_x, cy + off_y, 0, 0))
        assert (shifted.x, shifted.y) == pytest.approx((cx, cy), abs=MM)
    assert "1 mm right and 2 mm up" in " ".join(QUESTIONS[7][1])
    assert (signs["right"], signs["up"]) == (1, 1)
    assert "--back-shift 1,2" in QUESTIONS[7][1]


def test_samples_are_in_the_sizes_that_are_named(pages: tuple[Page, Page]) -> None:
    marks = list(marks_of(pages[0].items))
    codes = [mark for mark in marks if isinstance(mark, Code)]
    assert [code.box.w / 29 for code in codes] == pytest.approx([0.5, 0.6, 0.8], abs=MM)
    for left, right in pairwise(codes):
        assert right.box.x - left.box.right > 4 * 0.8  # both quiet zones are clear
    assert [mark.box.w for mark in marks if isinstance(mark, Picture)] == [28] * 4
    weights = [mark.weight_pt for mark in pages[0].items if isinstance(mark, Line)]
    assert weights == [0.25, 0.25, 0.5, 0.5, 0.75, 0.75, 1.25, 1.25]
    tints = [mark.fill for mark in marks if isinstance(mark, Panel)]
    assert tints == ["#FFFFFF", "#EEF1F5", "#E3E7EC", "#A9B1BC", "#7A808C", "#2A2A35"]
    words = [mark for mark in marks if isinstance(mark, Label) and mark.text == "one"]
    # The x-height is 0.586 of the em; a point is 1/72 inch.
    assert [0.586 * word.size_pt * 25.4 / 72 for word in words] == pytest.approx([5.0, 4.2], abs=0.08)
    assert all(mark.size_pt >= 9 for mark in marks if isinstance(mark, Label))


def test_seven_questions_each_with_something_to_do(pages: tuple[Page, Page]) -> None:
    heads = [item for item in pages[0].items if isinstance(item, Group) and item.role is Role.HEADING]
    labels = [[mark for mark in marks_of(head.items) if isinstance(mark, Label)] for head in heads]
    assert [head[0].text for head in labels] == list("1234567")
    for option in ("--ink line", "--cut scissors", "--margin", "--back-shift"):
        assert any(option in paragraph for _, answer in QUESTIONS.values() for paragraph in answer)
