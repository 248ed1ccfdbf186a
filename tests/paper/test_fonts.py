from io import BytesIO

import pytest
from fontTools.ttLib import TTFont
from PIL import ImageFont

from cardgen.paper.fonts import measure
from cardgen.units import Typeface
from tests.paper.samples import fonts


@pytest.mark.parametrize("face", fonts().faces)
def test_measures_agree_with_another_reader_of_fonts(face: Typeface) -> None:
    # Pillow asks FreeType, which moves edges to whole pixels: a few of 500 an em.
    size = 500
    font = ImageFont.truetype(BytesIO(fonts().file_of(face)), size, layout_engine=ImageFont.Layout.BASIC)
    for letter in "MWmjfgiq1Q&@|.-·×é":
        glyph = fonts().widths.glyphs[face][letter]
        drawn, (offset, _) = font.getmask2(letter, mode="L", anchor="ls")
        left, _, right, _ = drawn.getbbox()
        assert font.getlength(letter) / size == pytest.approx(glyph.advance, abs=0.002), letter
        assert (left + offset) / size == pytest.approx(glyph.ink_left, abs=0.006), letter
        assert (right + offset) / size == pytest.approx(glyph.ink_right, abs=0.006), letter


def test_ink_begins_where_the_bearing_says() -> None:
    # OpenType, hmtx: the left side bearing places the outline beside the pen, wherever its own numbers lie.
    with TTFont(BytesIO(fonts().learning)) as font:
        em = font["head"].unitsPerEm
        advance, bearing = font["hmtx"]["m"]
        font["hmtx"]["m"] = (advance, bearing + em // 4)
        moved = BytesIO()
        font.save(moved)
    before, after = (measure(data).glyphs[Typeface.LEARNING]["m"] for data in (fonts().learning, moved.getvalue()))
    assert after.ink_left - before.ink_left == pytest.approx(0.25)
    assert after.ink_right - before.ink_right == pytest.approx(0.25)


def test_a_space_has_no_ink_but_a_width() -> None:
    space = fonts().widths.glyphs[Typeface.TEXT][" "]
    assert space.ink_left == space.ink_right
    assert space.advance > 0.2


def test_bold_is_wider_than_text() -> None:
    widths = fonts().widths
    assert widths.em("say the sound", Typeface.BOLD) > widths.em("say the sound", Typeface.TEXT)


def test_measuring_is_done_once() -> None:
    assert fonts().widths is fonts().widths


def test_what_is_missing_is_told() -> None:
    assert fonts().widths.missing("moonʃŋʃ", Typeface.LEARNING) == "ʃŋ"
