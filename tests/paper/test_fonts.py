from io import BytesIO

import pytest
from PIL import ImageFont

from cardgen.paper.fonts import measure
from cardgen.units import Typeface
from tests.paper.samples import fonts


@pytest.mark.parametrize("face", list(Typeface))
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


def test_a_space_has_no_ink_but_a_width() -> None:
    space = fonts().widths.glyphs[Typeface.TEXT][" "]
    assert space.ink_left == space.ink_right
    assert space.advance > 0.2


def test_bold_is_wider_than_text() -> None:
    widths = fonts().widths
    assert widths.em("say the sound", Typeface.BOLD) > widths.em("say the sound", Typeface.TEXT)


def test_measuring_is_done_once() -> None:
    assert measure(fonts().learning) is fonts().widths


def test_what_is_missing_is_told() -> None:
    assert fonts().widths.missing("moonʃŋʃ", Typeface.LEARNING) == "ʃŋ"
