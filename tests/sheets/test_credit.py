"""The credit for pictures that are not ours: where it stands, and that nothing runs across it."""

import pytest

from cardgen.recipes.library import open_library
from cardgen.sheets.block import CardBlock
from cardgen.sheets.credit import CREDIT_PT, Credit, credited
from cardgen.sheets.cuts import guillotine_marks
from cardgen.sheets.marks import Align, CellPlace, Document, Label, Line, Page, Picture, Place
from cardgen.sheets.style import EDGE
from cardgen.units import Box, Size, Typeface, mm_of_points

A4, LETTER = Size(210.0, 297.0), Size(215.9, 279.4)
CREDIT = Credit(frozenset({"gift", "web"}), "Some Set", "example.org", "CC BY-SA 4.0", "example.org/terms")
WIDTHS = open_library().widths


def picture(name: str, box: Box) -> Picture:
    return Picture(name, box, name)


def teachers(number: int = 1) -> Page:
    return Page(number, A4, ())


def deck(sheet: Size, side: float) -> CardBlock:
    return CardBlock(sheet, 4, 6, Size(side, side), 0.0, (sheet.w - 4 * side) / 2, (sheet.h - 6 * side) / 2)


def cards(sheet: Size, side: float, *names: str) -> Page:
    block = deck(sheet, side)
    items = tuple(picture(name, block.box(slot)) for slot, name in enumerate(names))
    places = tuple(Place(name, "front", block.box(slot)) for slot, name in enumerate(names))
    return Page(3, sheet, items, places=places, cuts=guillotine_marks(block))


def boards(*names: str) -> Page:
    sheet = A4.turned
    rooms = [Box(slot * sheet.w / 2, 0, sheet.w / 2, sheet.h) for slot in range(len(names))]
    cells = [Box.around(room.cx, room.cy, 40, 40) for room in rooms]
    return Page(
        2,
        sheet,
        tuple(map(picture, names, cells)),
        places=tuple(Place(f"board {n}", "picture", room) for n, room in enumerate(rooms, 1)),
        cells=tuple(CellPlace(n, 1, 1, name, cell) for n, (name, cell) in enumerate(zip(names, cells, strict=True), 1)),
        cuts=(Line(sheet.w / 2, sheet.h - 13, sheet.w / 2, sheet.h - EDGE, 0.25, "#000000"),),
    )


def labels(*pages: Page) -> list[list[Label]]:
    """The labels that the credit adds, page by page."""
    ((_, document),) = credited((("", Document("t", "en", pages)),), CREDIT, WIDTHS)
    return [[item for item in page.items if isinstance(item, Label)] for page in document.pages]


def extent(label: Label) -> Box:
    width = WIDTHS.mm(label.text, label.size_pt, Typeface.TEXT)
    em = mm_of_points(label.size_pt)
    left = label.x - width / 2 if label.align is Align.CENTRE else label.x
    return Box(left, label.y - 0.76 * em, width, em)


def test_sheets_without_such_pictures_stay_as_they_are() -> None:
    documents = (("", Document("t", "en", (teachers(), boards("moon", "sun")))),)
    assert credited(documents, CREDIT, WIDTHS) == documents


def test_the_teachers_page_names_words_licence_and_terms() -> None:
    (teacher,), _ = labels(teachers(), boards("web", "gift"))
    assert teacher.text == "Pictures of gift, web: Some Set (example.org), CC BY-SA 4.0, example.org/terms"


def test_words_too_many_for_the_line_are_counted() -> None:
    many = [f"word-number-{n}" for n in range(15)]
    credit = Credit(frozenset(many), "Some Set", "example.org", "CC BY-SA 4.0", "example.org/terms")
    assert credit.full(many, 180, WIDTHS).startswith("15 pictures: Some Set")
    assert WIDTHS.mm(credit.full(many, 180, WIDTHS), CREDIT_PT, Typeface.TEXT) <= 180


def test_each_board_that_shows_one_has_the_credit_for_itself() -> None:
    _, both, one = labels(teachers(), boards("web", "gift"), boards("moon", "gift"))
    assert [label.text for label in both] == ["Pictures: Some Set (example.org), CC BY-SA 4.0"] * 2
    assert [label.x for label in one] == [A4.turned.w * 3 / 4]


def test_a_first_page_with_pieces_is_not_the_teachers() -> None:
    (found,) = labels(boards("moon", "gift"))
    assert [label.text for label in found] == ["Pictures: Some Set (example.org), CC BY-SA 4.0"]


def test_a_list_with_small_pictures_has_the_credit_too() -> None:
    _, (found,) = labels(teachers(), Page(2, A4, (picture("web", Box(20, 60, 8, 8)),)))
    assert found.text == CREDIT.line


@pytest.mark.parametrize(("sheet", "side"), [(A4, 45.0), (LETTER, 42.5)])
def test_on_cards_it_stands_between_the_cut_marks(sheet: Size, side: float) -> None:
    page = cards(sheet, side, "moon", "gift")
    _, found = labels(teachers(), page)
    assert ", ".join(label.text for label in found) == "Pictures: Some Set, example.org, CC BY-SA 4.0"
    for label in found:
        box = extent(label)
        assert box.y >= EDGE - 0.2
        assert box.bottom < deck(sheet, side).ys[0]
        assert not [cut for cut in page.cuts if box.x - 1 < cut.x1 < box.right + 1 and cut.y1 < box.bottom < sheet.h / 2
                    and cut.x1 == cut.x2]  # fmt: skip


def test_it_is_small_print_that_can_be_read_and_that_a_screen_reader_reads() -> None:
    for page in labels(teachers(), boards("web", "gift"), cards(A4, 45.0, "web")):
        assert page
        assert all(label.size_pt >= 7 and not label.decoration for label in page)
