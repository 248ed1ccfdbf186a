"""Operators of a small page, compared as text; a page of 25.4 mm is 72 points high."""

from cardgen.paper.content import Content, Form
from cardgen.paper.operators import number
from cardgen.sheets.marks import Align, Line, Outline, Panel
from cardgen.units import Box, Size, Typeface
from tests.paper.samples import INK, fonts, label

INK_OPERANDS = "0.1647 0.1647 0.2078"


def page() -> Content:
    return Content(Size(25.4, 25.4), fonts().widths, lambda text, face: [(face.value, f"({text})")])


def test_a_line() -> None:
    content = page()
    content.line(Line(12.7, 25.4, 25.4, 0, 0.5, INK, (2.54, 5.08)))
    assert content.code == [
        "1 J 1 j",
        f"{INK_OPERANDS} RG",
        "0.5 w",
        "[7.2 14.4] 0 d",
        "36 0 m 72 72 l S",
    ]


def test_what_is_in_force_is_not_set_again() -> None:
    content = page()
    for x in (0.0, 12.7):
        content.line(Line(x, 0, x, 25.4, 0.5, INK))
        content.label(label(x, 12.7, "m", 9))
    assert content.code.count(f"{INK_OPERANDS} RG") == 1
    assert content.code.count("0.5 w") == 1
    assert content.code.count("[] 0 d") == 1
    assert content.code.count(f"{INK_OPERANDS} rg") == 1
    assert content.code.count("/text 9 Tf") == 1


def test_a_new_size_is_set() -> None:
    content = page()
    content.label(label(0, 12.7, "m", 9))
    content.label(label(0, 25.4, "s", 12.5))
    assert content.code[2:] == [
        "BT 0 36 Td",
        "/text 9 Tf",
        "(m) Tj",
        "ET",
        "BT 0 0 Td",
        "/text 12.5 Tf",
        "(s) Tj",
        "ET",
    ]


def test_a_turned_label_has_its_own_directions() -> None:
    content = page()
    content.label(label(12.7, 12.7, "m", 9, turn=90))
    assert content.code[2] == "BT 0 1 -1 0 36 36 Tm"


def test_a_centred_label_begins_half_its_width_before() -> None:
    content = page()
    content.label(label(12.7, 12.7, "mm", 10, Typeface.BOLD, align=Align.CENTRE))
    start = 36 - fonts().widths.em("mm", Typeface.BOLD) * 10 / 2
    assert content.code[2] == f"BT {number(start)} 36 Td"


def test_a_form_is_scaled_to_its_box() -> None:
    content = page()
    content.form(Form("Moon", 100), Box(12.7, 6.35, 12.7, 12.7))
    assert content.code[-1] == "q 0.360000 0 0 0.360000 36 18 cm /Moon Do Q"


def test_a_panel_without_fill_or_outline_paints_nothing() -> None:
    content = page()
    content.panel(Panel(Box(0, 0, 25.4, 25.4)))
    assert content.code[1:] == ["0 72 m 72 72 l 72 0 l 0 0 l h n"]


def test_an_outline_that_is_only_filled_needs_no_pen() -> None:
    content = page()
    content.outline(Outline((("M", 0.0, 0.0), ("L", 25.4, 0.0), ("L", 0.0, 25.4), ("Z",)), fill="#FFFFFF"))
    assert content.code[1:] == ["1 1 1 rg", "0 72 m 72 72 l 0 0 l h f"]


def test_a_stored_drawing_does_not_take_over_dashes() -> None:
    content = page()
    content.line(Line(0, 0, 0, 25.4, 0.5, INK, (0.0, 1.0)))
    content.form(Form("p1", 100), Box(0, 0, 10, 10))
    dashes = [code for code in content.code if code.endswith(" d")]
    assert dashes[-1] == "[] 0 d"
    assert content.code.index("[] 0 d") < len(content.code) - 1
