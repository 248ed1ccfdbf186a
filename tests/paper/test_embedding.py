import re
from io import BytesIO

import pikepdf

from cardgen.paper.embedding import to_unicode
from cardgen.paper.fonts import Fonts
from cardgen.paper.pdf import write
from cardgen.recipes.library import LEARNING_FONT
from cardgen.sources.shelf import read_bytes
from cardgen.units import Typeface
from tests.paper.reading import drawn, opened
from tests.paper.samples import code, drawing, fonts, label, one_page, sample, written


def font_maps(data: bytes) -> dict[str, dict[int, str]]:
    """What each code means, by font, as the file says."""
    found = {}
    with opened(data) as pdf:
        for font in pdf.pages[0].resources.Font.values():
            entries = re.findall(r"^<(..)> <((?:....)+)>$", font.ToUnicode.read_bytes().decode("ascii"), re.MULTILINE)
            found[str(font.BaseFont)] = {int(c, 16): bytes.fromhex(u).decode("utf-16-be") for c, u in entries}
    return found


def test_codes_of_ascii_are_ascii_and_code_0_means_nothing() -> None:
    for codes in font_maps(written(sample())).values():
        assert all(codes[ord(letter)] == letter for letter in "abc XYZ(0)\\~")
        assert "\0" not in codes.values()


def test_a_map_has_blocks_of_at_most_a_hundred() -> None:
    text = to_unicode("AAAAAA+Name", {code: chr(code + 100) for code in range(1, 251)})
    assert re.findall(r"(\d+) beginbfchar", text) == ["100", "100", "50"]
    assert text.count("endbfchar") == 3


def test_letters_beyond_ascii_can_be_searched() -> None:
    for face in (Typeface.LEARNING, Typeface.TEXT, Typeface.BOLD):
        (codes,) = font_maps(written(one_page(label(10, 10, "“naïve” × café…", face=face)))).values()
        assert {"“", "”", "ï", "×", "é", "…"} <= set(codes.values())


def test_their_codes_do_not_depend_on_what_comes_first() -> None:
    one = written(one_page(label(10, 10, "é × ï"), label(10, 20, "ï")))
    other = written(one_page(label(10, 10, "ï × é"), label(10, 20, "ï")))
    assert drawn(one)[1].string == drawn(other)[1].string


def test_brackets_and_backslashes_come_through() -> None:
    (thing,) = drawn(written(one_page(label(10, 10, "a (b) \\ c)"))))
    assert thing.string == b"a (b) \\ c)"


def test_every_font_is_embedded_and_none_is_listed_that_is_not_used() -> None:
    with opened(written(one_page(label(10, 10, "moon", face=Typeface.LEARNING)))) as pdf:
        (font,) = pdf.pages[0].resources.Font.values()
        assert isinstance(font.FontDescriptor.FontFile2, pikepdf.Stream)
        assert str(font.BaseFont).endswith("+BitstreamVeraSans-Oblique")


def test_a_letter_that_the_typeface_does_not_have_has_no_code() -> None:
    own = Fonts(read_bytes(LEARNING_FONT))
    target = BytesIO()
    write(one_page(label(10, 10, "moon", face=Typeface.LEARNING)), drawing, code, own, target)
    (codes,) = font_maps(target.getvalue()).values()
    assert "m" in codes.values()
    assert set(codes.values()) <= set(own.widths.glyphs[Typeface.LEARNING])
    assert "#" not in own.widths.glyphs[Typeface.LEARNING]


def test_a_document_without_text_has_no_font() -> None:
    with opened(written(one_page())) as pdf:
        assert len(pdf.pages[0].resources.Font) == 0


def test_a_text_may_need_more_than_one_font_of_256_codes() -> None:
    letters = "".join(fonts().widths.glyphs[Typeface.TEXT])
    data = written(one_page(label(10, 10, letters)))
    maps = font_maps(data)
    assert len(maps) == 2
    assert set(letters) - {"\u00a0"} <= {letter for codes in maps.values() for letter in codes.values()}
    assert sum(len(thing.string) for thing in drawn(data)) == len(letters)
