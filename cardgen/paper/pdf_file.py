"""A PDF file, written object by object (ISO 32000-1, 7.5): what is written need not be kept.

Streams go straight into the file. All other objects are collected and packed into object streams (7.5.7): packed, a
tagged file is less than half as long.
"""

import zlib
from functools import lru_cache
from hashlib import sha256
from struct import Struct
from typing import BinaryIO

_HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"  # four bytes beyond ASCII say that the file is binary (7.5.2)
_TOGETHER = 200  # objects in one object stream
# An entry of the cross-reference stream (7.5.8.3): its kind, then byte and 0, or object stream and place in it.
_ENTRY = Struct(">BIH")
_FREE, _PLAIN, _PACKED = 0, 1, 2
_UP = b"\2"  # the predictor by which each entry tells only how it differs from the one above (7.4.4.4)


class PdfFile:
    """A PDF file that grows: objects have numbers, and are told in any order; `finish` ends it."""

    def __init__(self, target: BinaryIO) -> None:
        self._target = target
        self._length = 0
        self._digest = sha256()
        self._entries = bytearray(_ENTRY.pack(_FREE, 0, 0xFFFF))
        self._waiting: list[tuple[int, str]] = []
        self._write(_HEAD)

    def reserve(self) -> int:
        """Return the number of a new object that is told later."""
        number = len(self._entries) // _ENTRY.size
        self._entries += bytes(_ENTRY.size)
        return number

    def tell(self, number: int, content: str) -> None:
        """Write the object of that number: anything but a stream, in ASCII."""
        self._waiting.append((number, content))
        if len(self._waiting) == _TOGETHER:
            self._pack()

    def add(self, content: str) -> int:
        """Write a new object, and return its number."""
        number = self.reserve()
        self.tell(number, content)
        return number

    def stream(self, entries: str, data: bytes) -> int:
        """Write a stream, given the entries of its dictionary but for the length, and return its number."""
        number = self.reserve()
        self._place(number, _PLAIN, self._length)
        self._write(f"{number} 0 obj\n<<{entries}/Length {len(data)}>>\nstream\n".encode("ascii"))
        self._write(data)
        self._write(b"\nendstream\nendobj\n")
        return number

    def deflated(self, entries: str, data: bytes) -> int:
        """Write a stream with its data deflated, and return its number."""
        return self.stream(f"{entries}/Filter/FlateDecode", zlib.compress(data))

    def finish(self, root: int, info: int) -> None:
        """End the file, given the numbers of its catalogue and its information; its ID is made from its content."""
        if self._waiting:
            self._pack()
        start, name = self._length, self._digest.hexdigest()[:32]
        # The table is an object itself, and tells where it lies.
        table = bytes(self._entries) + _ENTRY.pack(_PLAIN, start, 0)
        self.deflated(
            f"/Type/XRef/Size {len(table) // _ENTRY.size}/W[1 4 2]/Root {root} 0 R/Info {info} 0 R"
            f"/ID[<{name}><{name}>]/DecodeParms<</Predictor 12/Columns {_ENTRY.size}>>",
            _differences(table, _ENTRY.size),
        )
        self._write(f"startxref\n{start}\n%%EOF\n".encode("ascii"))

    def _pack(self) -> None:
        """Write the objects that wait as one stream: where each begins, then all of them."""
        heads, length = [], 0
        for number, content in self._waiting:
            heads.append(f"{number} {length}")
            length += len(content) + 1
        index = " ".join(heads) + "\n"
        body = "\n".join(content for _, content in self._waiting)
        packed = self.deflated(f"/Type/ObjStm/N {len(heads)}/First {len(index)}", (index + body).encode("ascii"))
        for place, (number, _) in enumerate(self._waiting):
            self._place(number, _PACKED, packed, place)
        self._waiting.clear()

    def _place(self, number: int, kind: int, where: int, place: int = 0) -> None:
        _ENTRY.pack_into(self._entries, number * _ENTRY.size, kind, where, place)

    def _write(self, data: bytes) -> None:
        self._target.write(data)
        self._digest.update(data)
        self._length += len(data)


def _differences(table: bytes, width: int) -> bytes:
    """Return each row of a table as its differences from the row above, which deflate far better."""
    above = bytes(width) + table
    changes = bytes((byte - before) & 0xFF for byte, before in zip(table, above, strict=False))
    return b"".join(_UP + changes[start : start + width] for start in range(0, len(changes), width))


@lru_cache(maxsize=1024)
def text_string(text: str) -> str:
    """Return text as a PDF text string (ISO 32000-1, 7.9.2.2), in UTF-16 where it is more than plain ASCII."""
    if text.isascii() and text.isprintable():
        return literal(text)
    return f"<FEFF{text.encode('utf-16-be').hex().upper()}>"


def literal(text: str) -> str:
    """Return printable ASCII as a PDF string (ISO 32000-1, 7.3.4.2)."""
    return "(" + text.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)") + ")"
