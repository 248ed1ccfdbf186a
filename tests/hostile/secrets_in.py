"""Everything that stands in a file, however it is packed: what must not be there is looked for in all of it."""

import re
import zlib
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pikepdf


def layers(path: Path) -> Iterator[bytes]:
    """Yield the name and the bytes of a file, then all that can be unpacked of them."""
    data = path.read_bytes()
    yield path.name.encode()
    yield data
    if data.startswith(b"%PDF"):
        yield from _pdf(data)
    if data.startswith(b"\x89PNG"):
        yield from _png(data)


def _pdf(data: bytes) -> Iterator[bytes]:
    with pikepdf.open(BytesIO(data)) as pdf:
        for found in pdf.objects:
            yield found.unparse()
            yield from _texts(found)
            if isinstance(found, pikepdf.Stream):
                yield found.read_raw_bytes()
                try:
                    yield found.read_bytes()
                except pikepdf.PdfError:  # a JPEG: its bytes were yielded as they are
                    continue


def _texts(found: pikepdf.Object) -> Iterator[bytes]:
    """Yield every text in an object: UTF-16 in the file, or spread over escapes."""
    if isinstance(found, pikepdf.String):
        yield str(found).encode("utf-8", "replace")
    elif isinstance(found, pikepdf.Dictionary | pikepdf.Stream):
        yield from (text for _, inner in found.items() for text in _direct(inner))
    elif isinstance(found, pikepdf.Array):
        yield from (text for inner in found for text in _direct(inner))


def _direct(inner: object) -> Iterator[bytes]:
    if isinstance(inner, pikepdf.Object) and not inner.is_indirect:
        yield from _texts(inner)


def _png(data: bytes) -> Iterator[bytes]:
    at = 8
    while at < len(data):
        length, kind = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + 8]
        inside = data[at + 8 : at + 8 + length]
        yield kind
        if kind in (b"zTXt", b"iTXt"):
            packed = re.sub(rb"^[^\0]*\0+[^\0]*\0*", b"", inside)
            try:
                yield zlib.decompress(packed)
            except zlib.error:
                yield packed
        at += 12 + length


def found_in(path: Path, secrets: dict[str, str]) -> list[str]:
    """Return which secrets (what they are: their text) stand somewhere in a file, in whatever letters."""
    all_of_it = b"\0".join(layers(path)).lower()
    seen = []
    for what, text in secrets.items():
        coded = (text.lower().encode(code) for code in ("utf-8", "utf-16-be", "utf-16-le"))
        if any(one in all_of_it for one in coded):
            seen.append(f"{what} in {path.name}")
    return seen
