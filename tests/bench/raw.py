"""The least a writer can do: the same pages as PDF bytes put together by hand, without tags, checks or objects of ours.

It shows how much of the time any program must spend. Fonts go in whole, letters in one-byte codes.
"""

import zlib
from collections.abc import Callable
from pathlib import Path

from cardgen.paper.extent import start_of
from cardgen.sheets.marks import Document, Drawing, Label, Line, Page, Picture, marks_of
from cardgen.units import Typeface
from tests.bench.jobs import drawing, fonts

PT = 72 / 25.4
HIGH = 297 * PT
FACES = {Typeface.LEARNING: "L", Typeface.TEXT: "T"}


def raw(document: Document) -> Callable[[Path], None]:
    """Return the work of the hand-made writer."""

    def work(target: Path) -> None:
        marks = (mark for page in document.pages for mark in marks_of(page.items))
        names = dict.fromkeys(mark.name for mark in marks if isinstance(mark, Picture))
        objects = [b"", b""]  # catalogue and pages come first, when all is known
        drawn = "".join(
            f"/P{i} {_add(objects, _stream(_form(name), '/Type/XObject/Subtype/Form/BBox[0 0 100 100]'))} 0 R"
            for i, name in enumerate(names)
        )
        letters = "".join(f"/{short} {_add(objects, _font(objects, face))} 0 R" for face, short in FACES.items())
        resources = _add(objects, f"<</XObject<<{drawn}>>/Font<<{letters}>>>>".encode())
        numbers = {name: i for i, name in enumerate(names)}
        kids = []
        for page in document.pages:
            content = _add(objects, _stream(_page(page, numbers)))
            kids.append(
                _add(
                    objects,
                    f"<</Type/Page/Parent 2 0 R/MediaBox[0 0 {210 * PT:.3f} {HIGH:.3f}]/Resources {resources} 0 R"
                    f"/Contents {content} 0 R>>".encode(),
                )
            )
        objects[0] = b"<</Type/Catalog/Pages 2 0 R>>"
        objects[1] = f"<</Type/Pages/Count {len(kids)}/Kids[{' '.join(f'{n} 0 R' for n in kids)}]>>".encode()
        target.write_bytes(_file(objects))

    return work


def _add(objects: list[bytes], content: bytes) -> int:
    objects.append(content)
    return len(objects)


def _stream(data: str | bytes, entries: str = "") -> bytes:
    packed = zlib.compress(data.encode("ascii") if isinstance(data, str) else data)
    head = f"<<{entries}/Filter/FlateDecode/Length {len(packed)}>>stream\n"
    return head.encode("ascii") + packed + b"\nendstream"


def _form(name: str) -> str:
    picture = drawing(name)
    if not isinstance(picture, Drawing):
        raise TypeError(f"{name} is not drawn")
    lines = ["1 J 1 j"]
    for shape in picture.shapes:
        if shape.fill:
            lines.append(_colour(shape.fill) + " rg")
        if shape.stroke:
            lines.append(f"{_colour(shape.stroke)} RG {shape.width:.2f} w")
        for command, *places in shape.path:
            turned = [value if i % 2 == 0 else 100 - value for i, value in enumerate(places)]
            operator = "h" if command == "Z" else command.lower()
            lines.append(" ".join([*(f"{value:.3f}" for value in turned), operator]))
        lines.append("B" if shape.fill and shape.stroke else "f" if shape.fill else "S")
    return "\n".join(lines)


def _colour(colour: str) -> str:
    return " ".join(f"{int(colour[i : i + 2], 16) / 255:.3f}" for i in (1, 3, 5))


def _font(objects: list[bytes], face: Typeface) -> bytes:
    data = fonts().file_of(face)
    file = _add(objects, _stream(data, f"/Length1 {len(data)}"))
    descriptor = _add(
        objects,
        f"<</Type/FontDescriptor/FontName/{face.value}/Flags 32/FontBBox[0 -300 1000 1000]/ItalicAngle 0/Ascent 900"
        f"/Descent -300/CapHeight 700/StemV 80/FontFile2 {file} 0 R>>".encode(),
    )
    table = fonts().widths.glyphs[face]
    widths = " ".join(
        f"{table[chr(code)].advance * 1000:.0f}" if chr(code) in table else "0" for code in range(32, 127)
    )
    return (
        f"<</Type/Font/Subtype/TrueType/BaseFont/{face.value}/Encoding/WinAnsiEncoding/FirstChar 32/LastChar 126"
        f"/Widths[{widths}]/FontDescriptor {descriptor} 0 R>>".encode()
    )


def _page(page: Page, numbers: dict[str, int]) -> str:
    lines = ["1 J"]
    widths = fonts().widths
    for mark in (*marks_of(page.items), *page.cuts):
        match mark:
            case Picture(box=box):
                scale = box.w * PT / 100
                lines.append(
                    f"q {scale:.4f} 0 0 {scale:.4f} {box.x * PT:.3f} {HIGH - box.bottom * PT:.3f} cm "
                    f"/P{numbers[mark.name]} Do Q"
                )
            case Label():
                text = mark.text.encode("cp1252").hex()
                x, y = (mark.x - start_of(mark, widths)) * PT, HIGH - mark.y * PT
                lines.append(
                    f"{_colour(mark.colour)} rg BT /{FACES[mark.face]} {mark.size_pt:.2f} Tf {x:.3f} {y:.3f} Td "
                    f"<{text}> Tj ET"
                )
            case Line():
                lines.append(
                    f"{_colour(mark.colour)} RG {mark.weight_pt:.2f} w {mark.x1 * PT:.3f} {HIGH - mark.y1 * PT:.3f} m "
                    f"{mark.x2 * PT:.3f} {HIGH - mark.y2 * PT:.3f} l S"
                )
    return "\n".join(lines)


def _file(objects: list[bytes]) -> bytes:
    parts, places, length = [b"%PDF-1.5\n"], [], 9
    for number, content in enumerate(objects, 1):
        places.append(length)
        parts.append(f"{number} 0 obj\n".encode() + content + b"\nendobj\n")
        length += len(parts[-1])
    table = "".join(f"{place:010} 00000 n \n" for place in places)
    size = len(objects) + 1
    parts.append(
        f"xref\n0 {size}\n0000000000 65535 f \n{table}trailer\n<</Size {size}/Root 1 0 R>>\n"
        f"startxref\n{length}\n%%EOF\n".encode()
    )
    return b"".join(parts)
