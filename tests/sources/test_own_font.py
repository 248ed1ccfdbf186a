import struct
from importlib.resources import files
from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.paper.embedding import check_own
from cardgen.paper.fonts import Fonts
from cardgen.recipes.library import open_library
from cardgen.sources.own_font import LARGEST_FILE, check_font, read_font
from cardgen.units import Typeface

VERA = (files("reportlab") / "fonts" / "VeraIt.ttf").read_bytes()


def with_rights(rights: int) -> bytes:
    """Vera Italic as if its maker had set fsType to `rights` (OpenType 1.9, OS/2: at byte 8)."""
    (count,) = struct.unpack_from(">H", VERA, 4)
    for place in range(count):
        tag, _, start, _ = struct.unpack_from(">4sLLL", VERA, 12 + 16 * place)
        if tag == b"OS/2":
            return VERA[: start + 8] + struct.pack(">H", rights) + VERA[start + 10 :]
    raise AssertionError("no OS/2 table")


# fsType of OpenType 1.9: 0 installable, 4 preview and print, 8 editable.
@pytest.mark.parametrize("rights", [0x0000, 0x0004, 0x0008])
def test_fonts_that_may_be_embedded(rights: int) -> None:
    check_font(with_rights(rights), "mine.ttf")


# 2 restricted, 0x100 no subsetting, 0x200 bitmaps only.
@pytest.mark.parametrize("rights", [0x0002, 0x0104, 0x0208])
def test_fonts_that_may_not(rights: int) -> None:
    with pytest.raises(TeacherError, match="does not allow"):
        check_font(with_rights(rights), "mine.ttf")


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "no font"),
        (b"OTTO" + VERA[4:], "OpenType"),
        (b"ttcf" + VERA[4:], "collection"),
        (b"wOF2" + VERA[4:], "web font"),
        (VERA[:10], "damaged"),
        (VERA[: len(VERA) // 2], "damaged"),
        (VERA.replace(b"glyf", b"glxf", 1), "damaged"),
    ],
)
def test_what_is_no_truetype_font(data: bytes, said: str) -> None:
    with pytest.raises(TeacherError, match=said):
        check_font(data, "mine.ttf")


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    large = tmp_path / "large.ttf"
    large.write_bytes(VERA + bytes(LARGEST_FILE))
    for file in (large, tmp_path / "none.ttf", tmp_path):
        with pytest.raises(TeacherError) as caught:
            read_font(str(file))
        assert caught.value.hint


def test_damaged_tables_are_told_before_anything_is_printed() -> None:
    (count,) = struct.unpack_from(">H", VERA, 4)
    entries = [struct.unpack_from(">4sLLL", VERA, 12 + 16 * place) for place in range(count)]
    start, length = next((start, length) for tag, _, start, length in entries if tag == b"cmap")
    broken = VERA[:start] + b"\xff" * length + VERA[start + length :]
    check_font(broken, "mine.ttf")  # its list of tables is whole
    with pytest.raises(TeacherError, match=r"mine\.ttf"):
        check_own(Fonts(VERA, broken), "mine.ttf")


def test_her_font_measures_her_text(tmp_path: Path) -> None:
    file = tmp_path / "mine.ttf"
    file.write_bytes(VERA)
    widths = open_library(font=str(file)).widths
    assert widths.em("moon", Typeface.OWN) > 0
    assert Typeface.OWN not in open_library().widths.glyphs
