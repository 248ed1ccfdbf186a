import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.pieces import Cut, Face, Imprint, Ink, Item, Paper
from cardgen.sheets.boards import BoardLayout, board_layout, board_pages, page_count, page_format, widest_word
from cardgen.sheets.marks import Label, Line, Page, Panel, Picture, marks_of
from cardgen.sheets.style import Style
from cardgen.sources.layouts import board_format
from cardgen.units import Typeface, Widths, mm_of_points
from tests.sheets.conftest import board


def laid_out(paper: Paper, rows: int, columns: int, *, with_words: bool, big: bool) -> BoardLayout:
    form = board_format(page_format(rows, columns, big=big))
    return board_layout(form, paper, rows, columns, with_words=with_words)


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize(
    ("rows", "columns", "with_words", "abreast", "cell"),
    [
        (3, 3, False, 2, (40, 40)),
        (3, 3, True, 2, (40, 50)),
        (2, 2, False, 2, (58, 58)),
        (2, 3, False, 2, (40, 40)),
        (4, 4, False, 1, (44, 44)),
        (4, 4, True, 1, (44, 55)),
        (5, 5, False, 1, (35, 35)),
        (5, 5, True, 1, (35, 43.75)),
    ],
)
def test_cells_are_as_large_as_the_look_asks(
    paper: Paper, rows: int, columns: int, with_words: bool, abreast: int, cell: tuple[float, float]
) -> None:
    layout = laid_out(paper, rows, columns, with_words=with_words, big=False)
    assert layout.abreast == abreast
    assert (layout.cell.w, layout.cell.h) == cell


def test_big_boards_have_boxes_of_58_mm_on_a_page_of_their_own() -> None:
    layout = laid_out(Paper.A4, 3, 3, with_words=False, big=True)
    assert (layout.abreast, layout.cell.w) == (1, 58)
    with pytest.raises(TeacherError, match="cannot be made bigger"):
        laid_out(Paper.A4, 4, 4, with_words=False, big=True)


@given(st.sampled_from(list(Paper)), st.integers(2, 5), st.integers(2, 5), st.booleans(), st.booleans())
def test_every_board_fits_its_sheet(paper: Paper, rows: int, columns: int, with_words: bool, big: bool) -> None:
    if big and max(rows, columns) > 3:
        return
    layout = laid_out(paper, rows, columns, with_words=with_words, big=big)
    assert layout.cell.w >= 31.5
    assert layout.cell.w * columns <= layout.room(0).w - 2 * 8
    # Head and gap above, foot below, and 9 mm to the edge.
    assert layout.cell.h * rows + 14 + 14 + 9 <= layout.sheet.h + 1e-9


def pages_of(
    boards: list[object], items: dict[str, Item], layout: BoardLayout, imprint: Imprint, widths: Widths, **more: object
) -> tuple[Page, ...]:
    faces = {b.face for b in boards}  # type: ignore[attr-defined]
    return board_pages(
        tuple(boards),  # type: ignore[arg-type]
        items,
        dict.fromkeys(faces, layout),
        imprint=imprint,
        style=Style.of(Ink.COLOUR),
        widths=widths,
        cut=Cut.GUILLOTINE,
        first_page=1,
        **more,  # type: ignore[arg-type]
    )


@pytest.fixture
def half() -> BoardLayout:
    return laid_out(Paper.A4, 3, 3, with_words=False, big=False)


def test_cells_tile_the_frame(items: dict[str, Item], half: BoardLayout, imprint: Imprint, widths: Widths) -> None:
    page = pages_of([board(1, 3, 3), board(2, 3, 3)], items, half, imprint, widths)[0]
    assert len(page.cells) == 18
    frames = [m.box for m in marks_of(page.items) if isinstance(m, Panel) and m.radius == 5.0]
    for frame, number in zip(frames, (1, 2), strict=True):
        cells = [cell for cell in page.cells if cell.board == number]
        for cell in cells:
            assert cell.box.x == pytest.approx(frame.x + (cell.column - 1) * 40)
            assert cell.box.y == pytest.approx(frame.y + (cell.row - 1) * 40)
        assert sum(cell.box.w * cell.box.h for cell in cells) == pytest.approx(frame.w * frame.h)


def test_pictures_stand_in_their_cells_80_percent_wide(
    items: dict[str, Item], half: BoardLayout, imprint: Imprint, widths: Widths
) -> None:
    page = pages_of([board(1, 3, 3)], items, half, imprint, widths)[0]
    pictures = [mark for mark in marks_of(page.items) if isinstance(mark, Picture)]
    assert [picture.name for picture in pictures] == [cell.word for cell in page.cells]
    for picture, cell in zip(pictures, page.cells, strict=True):
        assert picture.box.w == picture.box.h == pytest.approx(32)
        assert (picture.box.cx, picture.box.cy) == pytest.approx((cell.box.cx, cell.box.cy))


def test_inner_lines_never_meet(items: dict[str, Item], half: BoardLayout, imprint: Imprint, widths: Widths) -> None:
    page = pages_of([board(1, 3, 3)], items, half, imprint, widths)[0]
    lines = [mark for mark in marks_of(page.items) if isinstance(mark, Line) and mark.weight_pt == 0.75]
    assert len(lines) == 12
    for line in lines:
        assert abs(line.x2 - line.x1) + abs(line.y2 - line.y1) == pytest.approx(40 - 2 * 2.8)


def test_the_free_cell_is_a_dotted_square(
    items: dict[str, Item], half: BoardLayout, imprint: Imprint, widths: Widths
) -> None:
    page = pages_of([board(1, 3, 3, free=True)], items, half, imprint, widths)[0]
    dotted = [mark for mark in marks_of(page.items) if isinstance(mark, Line) and mark.dash_mm is not None]
    assert len(dotted) == 4
    assert all(mark.dash_mm and mark.dash_mm[0] == 0 for mark in dotted)
    assert [cell.word for cell in page.cells][4] is None


def test_one_word_size_for_all_boards(items: dict[str, Item], imprint: Imprint, widths: Widths) -> None:
    layout = laid_out(Paper.A4, 3, 3, with_words=False, big=False)
    pages = pages_of([board(n, 3, 3, Face.WORD) for n in (1, 2, 3)], items, layout, imprint, widths)
    sizes = {
        mark.size_pt
        for page in pages
        for mark in marks_of(page.items)
        if isinstance(mark, Label) and mark.face is Typeface.LEARNING and not mark.text.isdigit()
    }
    assert sizes == {28.0}
    assert mm_of_points(28.0) * 0.5 * 3 <= 35


def test_only_prints_the_page_of_that_board_and_nothing_else(
    items: dict[str, Item], half: BoardLayout, imprint: Imprint, widths: Widths
) -> None:
    boards: list[object] = [board(n, 3, 3) for n in range(1, 7)]
    whole = pages_of(boards, items, half, imprint, widths)
    part = pages_of(boards, items, half, imprint, widths, only={4})
    assert [page.number for page in part] == [2]
    assert part[0].cells == tuple(cell for cell in whole[1].cells if cell.board == 4)
    assert part[0].places == whole[1].places[1:]
    assert part[0].cuts == whole[1].cuts
    assert set(part[0].items) < set(whole[1].items)


def test_a_new_kind_of_board_begins_a_new_page(
    items: dict[str, Item], half: BoardLayout, imprint: Imprint, widths: Widths
) -> None:
    boards = [board(1, 3, 3), board(2, 3, 3, Face.WORD), board(3, 3, 3, Face.WORD)]
    pages = pages_of(list(boards), items, half, imprint, widths)
    assert [[place.id for place in page.places] for page in pages] == [["board 1"], ["board 2", "board 3"]]
    assert page_count(tuple(boards), {Face.PICTURE: half, Face.WORD: half}) == 2


def test_words_have_room_only_where_they_are_printed(half: BoardLayout) -> None:
    assert widest_word(half, Face.PICTURE) is None
    word, picture_word = widest_word(half, Face.WORD), widest_word(half, Face.PICTURE_WORD)
    assert word is not None
    assert picture_word is not None
    assert word < picture_word
