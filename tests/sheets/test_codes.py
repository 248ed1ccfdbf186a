import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.games.pieces import Link
from cardgen.sheets.codes import address_lines, module_in, one_line, quiet_box
from cardgen.units import Box, Glyph, Typeface, Widths


def test_a_code_stays_in_its_room_and_its_modules_are_never_larger_than_they_need() -> None:
    assert module_in(Link("a", 25, "a")) == 0.8
    assert module_in(Link("a", 52, "a")) == pytest.approx(0.5)
    assert module_in(Link("a", 53, "a")) < 0.5


def test_the_quiet_zone_is_four_modules() -> None:
    # ISO/IEC 18004, 6.3.8
    assert quiet_box(Box(10, 20, 25, 25), 25) == Box(6, 16, 33, 33)


def test_an_address_is_broken_before_its_last_name(widths: Widths) -> None:
    # half an em a letter: 9 pt are 3.175 mm, so 50 mm take 31 letters
    assert address_lines("clips.example.org/year1", 50, widths) == ["clips.example.org/year1"]
    long = "clips.example.org/year1/m-mushroom.html"
    assert address_lines(long, 50, widths) == ["clips.example.org/year1/", "m-mushroom.html"]
    longer = "clips.example.org/a-school/in-the-north/year1/week-17/m-mushroom.html"
    assert address_lines(longer, 50, widths) == ["clips.example.org/…/", "m-mushroom.html"]
    assert one_line(longer, 60, widths) == "clips.example.org/…/m-mushroom.html"


@given(st.text("abc/.-_?=&", min_size=1, max_size=200))
def test_an_address_never_leaves_its_room(text: str) -> None:
    widths = Widths({Typeface.TEXT: dict.fromkeys("abc/.-_?=&…", Glyph(0.5, 0.05, 0.45))})
    lines = address_lines(text, 40, widths)
    assert len(lines) <= 2
    assert all(widths.mm(line, 9.0, Typeface.TEXT) <= 40 for line in lines)
    assert widths.mm(one_line(text, 40, widths), 9.0, Typeface.TEXT) <= 40
    if "…" not in "".join(lines):
        assert "".join(lines) == text
