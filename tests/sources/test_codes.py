import subprocess
import sys

import pytest
import segno
import zxingcpp
from PIL import Image

from cardgen.errors import TeacherError
from cardgen.sources.codes import QUIET_ZONE, matrix, modules, version

LINK = "https://example.org/clips/m-moon.m4a"

# ISO/IEC 18004, bytes at level M for versions 1 to 10: from memory, equal in two libraries.
CAPACITY = (14, 26, 42, 62, 84, 106, 122, 152, 180, 213)


def link(length: int) -> str:
    """An address of that many letters; small letters, so that it is stored byte by byte."""
    return ("https://e.org/" + "abcdefgh/" * 30)[:length]


@pytest.mark.parametrize(("expected", "most"), list(enumerate(CAPACITY, start=1)))
def test_versions_hold_as_many_bytes_as_the_standard_says(expected: int, most: int) -> None:
    assert version(link(most)) == expected
    assert version(link(most + 1)) == expected + 1
    assert modules(link(most)) == 17 + 4 * expected


@pytest.mark.parametrize("length", [10, 37, 62, 63, 150])
def test_another_library_finds_the_same_size(length: int) -> None:
    other = segno.make_qr(link(length), error="m", boost_error=False)
    assert (version(link(length)), modules(link(length))) == (other.version, len(other.matrix))


def test_a_worked_example_of_size() -> None:
    # A maker's how-to page: 50 alphanumeric characters at level M need version 3; at 0.254 mm a module it is
    # 7.366 mm wide, 9.398 mm with its margin.
    side = modules("A1" * 25)
    assert version("A1" * 25) == 3
    assert side * 0.254 == pytest.approx(7.366)
    assert (side + 2 * QUIET_ZONE) * 0.254 == pytest.approx(9.398)


@pytest.mark.parametrize("text", [LINK, "HTTPS://EXAMPLE.ORG/M-MOON", "https://example.org/ä", "0123456789", link(213)])
def test_a_code_reads_back(text: str) -> None:
    rows = matrix(text)
    side = len(rows) + 2 * QUIET_ZONE
    picture = Image.new("L", (side, side), 255)
    for y, row in enumerate(rows):
        for x, dark in enumerate(row):
            picture.putpixel((x + QUIET_ZONE, y + QUIET_ZONE), 0 if dark else 255)
    (seen,) = zxingcpp.read_barcodes(picture.resize((side * 4, side * 4), Image.Resampling.NEAREST))
    assert seen.text == text
    assert seen.ec_level == "M"


def test_corners_carry_the_finder_patterns() -> None:
    # ISO/IEC 18004, 5.3.2: 7 × 7, a ring, a gap, a square of 3 × 3, in all corners but the lower right
    rows, ring = matrix(LINK), (True,) * 7
    for top, left in ((0, 0), (0, len(rows) - 7), (len(rows) - 7, 0)):
        assert rows[top][left : left + 7] == rows[top + 6][left : left + 7] == ring
        assert rows[top + 1][left : left + 7] == (True, *(False,) * 5, True)
        assert rows[top + 3][left : left + 7] == (True, False, True, True, True, False, True)


def test_a_code_is_made_once() -> None:
    assert matrix(LINK) is matrix(LINK)


def test_a_text_too_long_is_refused() -> None:
    assert version(link(10) + "a" * 2321) == 40
    with pytest.raises(TeacherError, match="cannot hold the 2332 letters") as refusal:
        matrix(link(10) + "a" * 2322)
    assert refusal.value.hint


def test_nothing_is_loaded_before_it_is_needed() -> None:
    check = "import sys, cardgen.sources.codes; assert 'qrcode' not in sys.modules"
    assert subprocess.run([sys.executable, "-c", check], check=False).returncode == 0
