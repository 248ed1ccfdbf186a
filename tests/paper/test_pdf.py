"""Numbers read back from finished files: places within 0.05 mm, weights, colours, and what stands for the whole."""

from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from cardgen.errors import TeacherError
from cardgen.paper.pdf import write
from cardgen.sheets.marks import Align, Code, Document, Item, Label, Line, Outline, Page, Panel, Picture, marks_of
from cardgen.units import Box, Size, Typeface, mm_of_points
from tests.paper.reading import MM, Drawn, drawn, opened
from tests.paper.samples import A4, INK, LINKS, code, drawing, fonts, label, one_page, sample, written

NEAR = 0.05  # mm


def only(item: Item) -> Drawn:
    (thing,) = drawn(written(one_page(item)))
    return thing


def test_pages_have_their_true_size() -> None:
    # A4 is 210 × 297 mm (ISO 216); Letter turned is 279.4 × 215.9 mm (11 × 8.5 in, ANSI A)
    pdf = opened(written(sample()))
    boxes = [[float(edge) * MM for edge in page.mediabox] for page in pdf.pages]
    assert boxes[0] == pytest.approx([0, 0, 210, 297], abs=0.001)
    assert boxes[1] == pytest.approx([0, 0, 279.4, 215.9], abs=0.001)


def test_the_trim_box_holds_the_pieces_where_something_is_cut() -> None:
    pdf = opened(written(sample()))
    first, second = pdf.pages
    assert "/TrimBox" not in first.obj
    # two cards of 63 × 88 from (30, 40) on a page 215.9 mm high
    assert [float(edge) * MM for edge in second.trimbox] == pytest.approx([30, 87.9, 156, 175.9], abs=NEAR)


def test_the_file_says_how_to_show_and_print_it() -> None:
    pdf = opened(written(sample()))
    root = pdf.Root
    assert root.ViewerPreferences.PrintScaling == "/None"
    assert root.ViewerPreferences.DisplayDocTitle
    assert root.MarkInfo.Marked
    assert str(root.Lang) == "en-GB"


def test_title_and_nothing_personal_in_the_metadata() -> None:
    pdf = opened(written(sample()))
    assert dict(pdf.docinfo.items()).keys() == {"/Title", "/Producer"}
    assert str(pdf.docinfo.Title) == sample().title
    with pdf.open_metadata(set_pikepdf_as_editor=False) as xmp:
        assert xmp["dc:title"] == sample().title
        assert xmp["pdfuaid:part"] == "1"
        assert "xmp:CreateDate" not in xmp


def test_a_line_lies_where_its_mark_says() -> None:
    thing = only(Line(10, 20, 110, 21.5, 0.25, INK))
    assert thing.places == [pytest.approx((10, 20), abs=NEAR), pytest.approx((110, 21.5), abs=NEAR)]
    assert [thing.state[name] for name in ("w", "J", "j")] == [(0.25,), (1,), (1,)]
    assert [round(part * 255) for part in thing.state["RG"]] == [0x2A, 0x2A, 0x35]


def test_dashes_and_dots_are_in_mm() -> None:
    assert [length * MM for length in only(Line(10, 20, 90, 20, 1, INK, (2, 2.6))).state["d"]] == pytest.approx(
        [2, 2.6], abs=NEAR
    )
    assert [length * MM for length in only(Line(10, 20, 90, 20, 1, INK, (0, 2.4))).state["d"]] == pytest.approx(
        [0, 2.4], abs=NEAR
    )


def test_a_dash_ends_with_its_line() -> None:
    data = written(one_page(Line(0, 0, 9, 9, 1, INK, (1, 1)), Line(0, 0, 9, 9, 1, INK)))
    assert [len(thing.state["d"]) for thing in drawn(data)] == [2, 0]


def test_a_panel_is_filled_and_outlined_where_it_lies() -> None:
    thing = only(Panel(Box(15, 30, 60, 40), 5, "#EEF1F5", INK, 1.25))
    xs, ys = zip(*thing.places, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((15, 75, 30, 70), abs=NEAR)
    assert thing.name == "B"
    assert [round(part * 255) for part in thing.state["rg"]] == [0xEE, 0xF1, 0xF5]


def test_a_picture_fills_its_box() -> None:
    thing = only(Picture("moon", Box(20, 40, 53, 53), "a moon"))
    assert thing.places == [pytest.approx((20, 93), abs=NEAR)]  # its lower left corner
    assert thing.scale * drawing("moon").box == pytest.approx(53, abs=NEAR)


def test_a_code_fills_its_box_without_quiet_zone() -> None:
    thing = only(Code(LINKS[0], Box(20, 40, 25, 25), "code"))
    assert thing.places == [pytest.approx((20, 65), abs=NEAR)]
    assert thing.scale * len(code(LINKS[0])) == pytest.approx(25, abs=NEAR)


@pytest.mark.parametrize("face", fonts().faces)
@pytest.mark.parametrize(("align", "share"), [(Align.LEFT, 0), (Align.CENTRE, 0.5), (Align.RIGHT, 1)])
def test_labels_are_aligned_by_their_advance(face: Typeface, align: Align, share: float) -> None:
    (thing,) = drawn(written(one_page(label(100, 50, "moon · m", 34, face, align=align))))
    length = fonts().widths.em("moon · m", face) * mm_of_points(34)
    assert thing.places == [pytest.approx((100 - share * length, 50), abs=NEAR)]
    assert thing.state["Tf"] == (34,)


def test_turned_labels_run_upwards() -> None:
    (thing,) = drawn(written(one_page(label(5, 200, "bingo", 9, align=Align.RIGHT, turn=90))))
    length = fonts().widths.mm("bingo", 9, Typeface.TEXT)
    assert thing.places == [pytest.approx((5, 200 + length), abs=NEAR)]
    assert thing.turn == (0, 1, -1, 0)


def test_widths_in_the_file_are_those_the_sheets_were_fitted_with() -> None:
    pdf = opened(written(sample()))
    for font in pdf.pages[0].resources.Font.values():
        face = {"Roman": Typeface.TEXT, "Bold": Typeface.BOLD, "Oblique": Typeface.LEARNING}[
            str(font.BaseFont).split("-")[-1]
        ]
        for letter in "aMm%~":
            expected = fonts().widths.em(letter, face) * 1000
            assert float(font.Widths[ord(letter)]) == pytest.approx(expected, abs=0.01)


def test_a_picture_is_stored_once() -> None:
    boxes = [Box(20 + 30 * i, 40, 25, 25) for i in range(5)]
    pictures = tuple(Picture("moon" if i % 2 else "sun", box, "it") for i, box in enumerate(boxes))
    data = written(one_page(*pictures))
    pdf = opened(data)
    assert len(pdf.pages[0].resources.XObject) == 2
    names = [thing.name for thing in drawn(data)]
    assert names[0] == names[2] == names[4] != names[1] == names[3]


def test_each_drawing_is_asked_for_once() -> None:
    asked: list[str] = []

    def note(name: str) -> object:
        asked.append(name)
        return drawing(name)

    write(sample(), note, code, fonts(), BytesIO())  # type: ignore[arg-type]
    assert asked == ["moon", "sun"]


def test_a_code_is_one_path() -> None:
    pdf = opened(written(one_page(Code(LINKS[0], Box(20, 40, 25, 25), "code"))))
    (form,) = pdf.pages[0].resources.XObject.values()
    operators = [str(step.operator) for step in pikepdf.parse_content_stream(form)]
    assert operators.count("f") == 1
    assert set(operators) <= {"rg", "m", "l", "h", "f", "cm"}


def test_marks_are_drawn_in_order() -> None:
    kinds = {Label: "text", Picture: "form", Code: "form", Line: "path", Panel: "path", Outline: "path"}
    meant = [kinds[type(mark)] for mark in marks_of(sample().pages[0].items)]
    assert [thing.kind for thing in drawn(written(sample()))] == meant


def test_a_page_more_adds_little() -> None:
    def size(count: int) -> int:
        return len(written(Document("x", "en-US", tuple(Page(n, A4, sample().pages[0].items) for n in range(count)))))

    assert (size(41) - size(1)) / 40 < 2000  # bytes


def test_a_letter_without_a_shape_is_named() -> None:
    with pytest.raises(TeacherError, match="ʃ") as refusal:
        written(one_page(label(10, 10, "fiʃ")))
    assert refusal.value.hint


def test_it_writes_to_a_path_too(tmp_path: Path) -> None:
    write(sample(), drawing, code, fonts(), tmp_path / "out.pdf")
    assert (tmp_path / "out.pdf").read_bytes() == written(sample())


def test_size_in_odd_numbers_stays_true() -> None:
    pdf = opened(written(Document("x", "en", (Page(1, Size(123.456, 98.765), ()),))))
    assert [float(edge) * MM for edge in pdf.pages[0].mediabox] == pytest.approx([0, 0, 123.456, 98.765], abs=0.001)
