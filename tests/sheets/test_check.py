"""The pages of a check as marks: what a child sees, and that nothing gives the answer away."""

import random
from fractions import Fraction
from itertools import pairwise
from typing import Any

import pytest

from cardgen.games.pieces import CheckPart, CheckTask, CheckVersion, Choice, Cut, Imprint, Ink, Paper, PartKind
from cardgen.recipes.check import check
from cardgen.recipes.library import Library, open_library
from cardgen.request import CheckRequest
from cardgen.sheets.check import CheckLook, answer_pages, check_pages, part_sides
from cardgen.sheets.check_grids import Teaching, result_page
from cardgen.sheets.marks import Item, Label, Line, Outline, Page, Panel, Picture, Side, marks_of
from cardgen.sheets.row_signs import SIGNS, row_sign
from cardgen.sheets.style import EDGE, X_HEIGHT, Style
from cardgen.units import Typeface, Widths, mm_of_points

LEAST_NAMED = 25.0  # mm, of a picture that a child must name


def a_part(kind: PartKind, rows: int, choices: int = 3, number: int = 1) -> CheckPart:
    letters = "mst"[:choices]
    tasks = []
    for row in range(rows):
        place = row % choices
        texts = [f"{letter}{row}" if kind.rings_pictures else letter for letter in letters]
        things = tuple(Choice(text, text[0], f"drawing of {text}" if kind.rings_pictures else None) for text in texts)
        shown = f"drawing {row}" if kind.is_seen else None
        tasks.append(CheckTask(SIGNS[row].name, letters[place], "say", "This is it.", shown, things, place))
    return CheckPart(number, kind, tuple(tasks), choices, rows, Fraction(1, 32))


def a_look(widths: Widths, paper: Paper = Paper.A4, cut: Cut = Cut.GUILLOTINE) -> CheckLook:
    return CheckLook(paper.size.turned, Imprint("check", ("m", "s"), 7), Style.of(Ink.COLOUR), widths, cut)


def pages(widths: Widths, *parts: CheckPart, only: tuple[str, ...] = (), paper: Paper = Paper.A4) -> tuple[Page, ...]:
    halves = (CheckVersion("A", parts), CheckVersion("B", parts))
    return check_pages(halves, a_look(widths, paper), first_page=4, only=only)


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("kind", list(PartKind))
@pytest.mark.parametrize(("rows", "choices"), [(3, 3), (5, 3), (8, 2), (10, 3)])
def test_pictures_are_large_enough_letters_too_and_rows_lie_apart(
    kind: PartKind, rows: int, choices: int, paper: Paper, widths: Widths
) -> None:
    made = pages(widths, a_part(kind, rows, choices), paper=paper)
    assert sum(len(page.cells) for page in made) == 2 * rows * choices
    for page in made:
        pictures = [mark for mark in marks_of(page.items) if isinstance(mark, Picture)]
        assert all(picture.box.w >= LEAST_NAMED for picture in pictures)
        letters = [m for m in marks_of(page.items) if isinstance(m, Label) and m.face is Typeface.LEARNING]
        assert all(mm_of_points(letter.size_pt) * X_HEIGHT >= 4.2 for letter in letters)
        assert len({letter.size_pt for letter in letters}) <= 1
        frames = [m.box for m in marks_of(page.items) if isinstance(m, Panel) and m.radius == 5.0]
        half = len(frames) // 2
        for above, below in pairwise(frames[:half]):
            assert below.y - above.bottom == pytest.approx(4.0)
        assert frames[half - 1].bottom <= paper.size.turned.h - 15 + 1e-6
        for picture in pictures:
            inside = [f for f in frames if f.x <= picture.box.x and picture.box.right <= f.right]
            assert any(f.y <= picture.box.y and picture.box.bottom <= f.bottom for f in inside)


def test_five_rows_on_a4_have_the_measured_height(widths: Widths) -> None:
    (page,) = pages(widths, a_part(PartKind.HEAR_LETTER, 5))
    frames = [m.box for m in marks_of(page.items) if isinstance(m, Panel) and m.radius == 5.0]
    # (210 - 27 above - 15 below - 4 gaps of 4) / 5 rows; 12 from the edge of the half and 15 right of that.
    assert frames[0].h == pytest.approx(30.4)
    assert (frames[0].x, frames[0].y) == (27.0, 27.0)
    assert frames[0].right == pytest.approx(148.5 - 12)


def test_no_alt_text_names_a_picture_and_no_number_leads_to_a_row(widths: Widths) -> None:
    made = pages(widths, *(a_part(kind, 5, number=n) for n, kind in enumerate(PartKind, 1)))
    for page in made:
        alts = [mark.alt for mark in marks_of(page.items) if isinstance(mark, Picture)]
        assert all(alt.startswith("picture ") and alt[8:].isdigit() for alt in alts)
        words = [mark for mark in marks_of(page.items) if isinstance(mark, Label) and not mark.decoration]
        assert not any(any(c.isdigit() for c in word.text) for word in words)


def test_the_back_of_a_half_is_the_same_version(widths: Widths) -> None:
    made = pages(widths, a_part(PartKind.HEAR_LETTER, 5), a_part(PartKind.SEE_SMALL, 5, number=2))
    assert [page.side for page in made] == [Side.FRONT, Side.BACK]
    assert [page.number for page in made] == [4, 5]
    # Turned about the short edge, the left half of the back lies behind the right half of the front.
    assert [place.id for place in made[0].places] == ["version A, part 1", "version B, part 1"]
    assert [place.id for place in made[1].places] == ["version B, part 2", "version A, part 2"]


def test_a_version_printed_again_is_as_it_was(widths: Widths) -> None:
    parts = (a_part(PartKind.HEAR_LETTER, 5), a_part(PartKind.SEE_SMALL, 5, number=2))
    whole, again = pages(widths, *parts), pages(widths, *parts, only=("B",))
    for before, after in zip(whole, again, strict=True):
        assert after.number == before.number
        assert after.cuts == before.cuts
        assert [place for place in before.places if "B" in place.id] == list(after.places)
        assert [cell for cell in before.cells if cell.board == 2] == list(after.cells)


def test_a_part_with_pictures_takes_a_second_side_after_five_rows() -> None:
    assert [len(side.tasks) for side in part_sides(a_part(PartKind.SEE_SMALL, 8, 2))] == [4, 4]
    assert [len(side.tasks) for side in part_sides(a_part(PartKind.HEAR_LETTER, 8, 2))] == [8]
    assert [len(side.tasks) for side in part_sides(a_part(PartKind.SOUND_PICTURE, 7, 2))] == [4, 3]


def test_answers_ring_the_right_choice_and_only_it(widths: Widths) -> None:
    part = a_part(PartKind.HEAR_LETTER, 5)
    (page,) = answer_pages((CheckVersion("A", (part,)), CheckVersion("B", (part,))), a_look(widths), first_page=3)
    rings = [m for m in page.items if isinstance(m, Outline)]
    assert len(rings) == 10
    letters = [m for m in marks_of(page.items) if isinstance(m, Label) and m.face is Typeface.LEARNING]
    texts = [m.text for m in marks_of(page.items) if isinstance(m, Label)]
    assert {"Answers A", "Answers B"} <= set(texts)
    for ring, task in zip(rings, part.tasks * 2, strict=True):
        xs = [number for _, *numbers in ring.path for number in numbers[::2]]
        ys = [number for _, *numbers in ring.path for number in numbers[1::2]]
        inside = [m.text for m in letters if min(xs) < m.x < max(xs) and min(ys) < m.y < max(ys)]
        assert inside == [task.answer.text]


@pytest.mark.parametrize(("rows", "signs"), [((5, 5), 10), ((5, 5, 5, 5, 5), 0), ((8, 8), 16)])
def test_the_class_grid_has_a_column_a_row_while_there_is_room(
    rows: tuple[int, ...], signs: int, widths: Widths
) -> None:
    parts = [a_part(PartKind.HEAR_LETTER, count, number=n) for n, count in enumerate(rows, 1)]
    teaching = Teaching("Quick check: the class", "m s", ("Tick.",), "quick check", "class grid")
    imprint = Imprint("check", ("m", "s"), 7)
    page = result_page(teaching, parts, Paper.A4.size, imprint=imprint, widths=widths, number=3)
    assert sum(isinstance(mark, Outline) for mark in marks_of(page.items)) == signs
    texts = [mark.text for mark in marks_of(page.items) if isinstance(mark, Label)]
    assert {"1", "26", *(f"part {n}" for n in range(1, len(rows) + 1))} <= set(texts)
    uprights = {mark.x1 for mark in page.items if isinstance(mark, Line) and mark.x1 == mark.x2}
    assert len(uprights) == signs + len(rows)
    gaps = [b - a for a, b in pairwise(sorted(uprights))]
    assert min(gaps) >= 5.0


@pytest.mark.parametrize("sign", SIGNS, ids=[sign.name for sign in SIGNS])
def test_a_sign_stays_in_its_box_and_is_no_dot(sign: Any) -> None:
    group = row_sign(sign.name, 50, 50, 10, 1.25)
    (outline,) = group.items
    assert isinstance(outline, Outline)
    assert group.alt == sign.name
    xs = [number for _, *numbers in outline.path for number in numbers[::2]]
    ys = [number for _, *numbers in outline.path for number in numbers[1::2]]
    # Control points may lie outside, by no more than a curve needs.
    assert min(xs + ys) >= 43.5
    assert max(xs + ys) <= 56.5
    assert max(max(xs) - min(xs), max(ys) - min(ys)) >= 7.5
    assert outline.path[0][0] == "M"


def test_there_are_signs_enough_and_each_has_its_own_name() -> None:
    names = [sign.name for sign in SIGNS]
    assert len(set(names)) == len(names) >= 14


@pytest.fixture(scope="module")
def library() -> Library:
    return open_library()


def extent(item: Item) -> list[tuple[float, float]]:
    if isinstance(item, Line):
        return [(item.x1, item.y1), (item.x2, item.y2)]
    if isinstance(item, Panel | Picture):
        return [(item.box.x, item.box.y), (item.box.right, item.box.bottom)]
    if isinstance(item, Outline):
        return [(x, y) for _, *n in item.path for x, y in zip(n[::2], n[1::2], strict=True)]
    return []


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize(
    "options",
    [
        {"keys": ("m", "s"), "full": True, "say": True, "show_me": True},
        {"keys": ("m", "s", "t"), "full": True, "versions": ("A", "B"), "items": 10},
        {"keys": ("sh", "ch", "th", "qu"), "review": ("wh", "air", "ear", "ar"), "say": True, "parts": tuple(PartKind)},
        {"keys": ("x", "ng"), "show_me": True, "parts": (PartKind.SEE_CAPITAL,), "silent": True},
    ],
)
def test_nothing_is_nearer_to_the_edge_than_printers_reach(
    options: dict[str, Any], paper: Paper, library: Library
) -> None:
    request = CheckRequest(seed=4, paper=paper, **options)
    ((_, document),) = check(request, library, random.Random(4), False).documents
    widths = library.widths
    for page in document.pages:
        points = [point for mark in marks_of(page.items) for point in extent(mark)]
        for mark in marks_of(page.items):
            if isinstance(mark, Label):
                left, right = widths.ink(mark.text, mark.face)
                em = mm_of_points(mark.size_pt)
                shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[mark.align.value]
                start = mark.x - shift * widths.em(mark.text, mark.face) * em
                points += [(start + left * em, mark.y - em * 0.7), (start + right * em, mark.y)]
                assert mark.size_pt >= 9
        for x, y in points:
            assert EDGE <= x <= page.size.w - EDGE, (page.number, x, y)
            assert EDGE <= y <= page.size.h - EDGE, (page.number, x, y)


@pytest.mark.parametrize("options", [{}, {"full": True, "items": 8}])
@pytest.mark.parametrize("paper", list(Paper))
def test_the_lines_of_the_script_do_not_meet(paper: Paper, options: dict[str, Any], library: Library) -> None:
    request = CheckRequest(keys=("m", "s"), seed=9, paper=paper, **options)
    ((_, document),) = check(request, library, random.Random(9), False).documents
    for page in document.pages:
        if page.size.w > page.size.h:
            continue
        labels = sorted((m for m in marks_of(page.items) if isinstance(m, Label)), key=lambda m: m.y)
        texts = [label for label in labels if label.face is Typeface.TEXT and label.align.value == "left"]
        for number, above in enumerate(texts):
            for below in texts[number + 1 :]:
                if abs(below.x - above.x) < 1 and below.y != above.y:
                    assert below.y - above.y >= 3.5, (above.text, below.text)
