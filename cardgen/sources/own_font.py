"""Reads a typeface of the teacher's own: a TrueType file that may be put into a PDF."""

import struct
from pathlib import Path

from cardgen.errors import TeacherError

LARGEST_FILE = 5_000_000  # bytes
_TRUETYPE = (b"\x00\x01\x00\x00", b"true")
_OTHERS = {b"OTTO": "an OpenType file with other outlines", b"ttcf": "a collection of typefaces"}
_OTHERS |= {b"wOFF": "a web font", b"wOF2": "a web font"}
# OS/2 fsType (OpenType 1.9): the usage in the lowest four bits; then "no subsetting" and "bitmaps only".
_USAGE, _RESTRICTED, _NO_SUBSETTING, _BITMAPS = 0x000F, 0x0002, 0x0100, 0x0200
_HINT = "Take another TrueType file (.ttf), for example one under the Open Font License."


def read_font(file: str) -> bytes:
    """Return the bytes of a TrueType file; TeacherError where it is none, or its maker forbids to embed it."""
    path = Path(file)
    try:
        if not path.is_file():  # a pipe or a device would never end
            raise FileNotFoundError(path)
        if path.stat().st_size > LARGEST_FILE:
            raise TeacherError(f"{path.name} is larger than {LARGEST_FILE // 1_000_000} MB.", _HINT)
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        raise TeacherError(f"The font {path.name} cannot be read.", "Check the name, and that it is there.") from error
    check_font(data, path.name)
    return data


def check_font(data: bytes, name: str) -> None:
    """Raise TeacherError unless the data is a TrueType font that may be embedded in part; `name` is its file's."""
    kind = data[:4]
    if kind not in _TRUETYPE:
        raise TeacherError(f"{name} is {_OTHERS.get(kind, 'no font')}.", _HINT)
    rights = _rights(data)
    if rights is None:
        raise TeacherError(f"{name} is damaged, or not a whole TrueType font.", _HINT)
    if rights & _USAGE == _RESTRICTED or rights & (_NO_SUBSETTING | _BITMAPS):
        raise TeacherError(f"The maker of {name} does not allow to put it into a PDF.", _HINT)


def _rights(data: bytes) -> int | None:
    """Return what its OS/2 table says of embedding; None where the tables of an outline font are not all there."""
    try:
        (count,) = struct.unpack_from(">H", data, 4)
        tables = {}
        for place in range(count):
            tag, _, start, length = struct.unpack_from(">4sLLL", data, 12 + 16 * place)
            tables[tag] = (start, length)
        if not {b"glyf", b"loca", b"cmap", b"hmtx", b"head", b"OS/2"} <= tables.keys():
            return None
        if any(start + length > len(data) for start, length in tables.values()):
            return None
        (rights,) = struct.unpack_from(">H", data, tables[b"OS/2"][0] + 8)
    except struct.error:
        return None
    return int(rights)
