"""Typefaces embedded in a PDF: each letter used is in the file, and says which letter it is."""

from collections.abc import Container, Iterable, Mapping, Sequence
from functools import lru_cache
from io import BytesIO

from reportlab.pdfbase.ttfonts import FF_NONSYMBOLIC, FF_SYMBOLIC, TTFontFile

from cardgen.errors import TeacherError
from cardgen.paper.fonts import Fonts
from cardgen.paper.operators import numbers
from cardgen.paper.pdf_file import PdfFile, literal
from cardgen.units import Typeface, Widths

_BLOCK = 100  # no more mappings in one block (Adobe Technical Note 5014, beginbfchar)
_ASCII = {code: chr(code) for code in range(0x20, 0x7F)}
_BEYOND = 0x80  # the first code of a letter beyond ASCII
_CODES = 0x100


class Setting:
    """The typefaces of one document, written into its file: turns text into strings of the embedded fonts.

    `resource` is the dictionary that leads from the names of the fonts to them. TeacherError for a letter that its
    typeface does not have.
    """

    def __init__(self, file: PdfFile, fonts: Fonts, texts: Iterable[tuple[str, Typeface]]) -> None:
        self._codes: dict[Typeface, dict[str, tuple[str, int]]] = {}
        self._known: dict[tuple[str, Typeface], Sequence[tuple[str, str]]] = {}
        entries: list[str] = []
        for face, letters in _letters(texts, fonts.widths).items():
            self._codes[face] = {}
            for part, codes in enumerate(_coded(letters, fonts.widths.glyphs[face])):
                name = f"F{len(entries) + 1}"
                entries.append(f"/{name} {_embed(file, fonts.file_of(face), codes, part)} 0 R")
                self._codes[face] |= {letter: (name, code) for code, letter in codes.items()}
        self.resource = f"<<{''.join(entries)}>>"

    def runs(self, text: str, face: Typeface) -> Sequence[tuple[str, str]]:
        """Return the runs of `text`: name of the embedded font, string."""
        found = self._known.get((text, face))
        if found is None:
            found = self._known[text, face] = self._split(text, face)
        return found

    def _split(self, text: str, face: Typeface) -> list[tuple[str, str]]:
        runs: list[tuple[str, list[int]]] = []
        for letter in text:
            name, code = self._codes[face][letter]
            if not runs or runs[-1][0] != name:
                runs.append((name, []))
            runs[-1][1].append(code)
        return [(name, _string(bytes(codes))) for name, codes in runs]


def _letters(texts: Iterable[tuple[str, Typeface]], widths: Widths) -> dict[Typeface, set[str]]:
    """Return the letters that are used of each typeface; none of a typeface that is not."""
    letters: dict[Typeface, set[str]] = {face: set() for face in Typeface}
    for text, face in dict.fromkeys(texts):
        letters[face].update(text)
        if missing := widths.missing(text, face):
            raise TeacherError(
                f'"{text}" cannot be printed: the typeface has no "{missing[0]}".', "Write it with other letters."
            )
    return {face: used for face, used in letters.items() if used}


def _coded(letters: set[str], known: Container[str]) -> list[dict[int, str]]:
    """Return the letters by their codes, a font each: all known ASCII by its own, then others in alphabetical order.

    What a page looks like never depends on the pages before it.
    """
    others = sorted(letters - set(_ASCII.values()))
    room = _CODES - _BEYOND
    groups = [others[start : start + room] for start in range(0, len(others), room)] or [[]]
    fonts = [dict(enumerate(group, _BEYOND)) for group in groups]
    plain = {code: letter for code, letter in _ASCII.items() if letter in known}
    return [plain | fonts[0], *fonts[1:]]


@lru_cache(maxsize=4)
def _opened(data: bytes) -> TTFontFile:
    return TTFontFile(BytesIO(data))


def _embed(file: PdfFile, data: bytes, codes: Mapping[int, str], part: int) -> int:
    """Write those letters of a TrueType font as a font of one-byte codes (ISO 32000-1, 9.6.3); return its number."""
    font = _opened(data)
    subset = [ord(codes.get(code, "\0")) for code in range(max(codes) + 1)]  # code 0 stands for no letter
    family = "".join(letter if letter.isalnum() else "-" for letter in font.name.decode("ascii", "replace"))
    name = f"AAAAA{chr(ord('A') + part)}+{family}"
    outlines = font.makeSubset(subset)
    descriptor = file.add(
        f"<</Type/FontDescriptor/FontName/{name}/Flags {font.flags & ~FF_NONSYMBOLIC | FF_SYMBOLIC}"
        f"/FontBBox[{numbers(*font.bbox)}]/ItalicAngle {numbers(font.italicAngle)}/StemV {numbers(font.stemV)}"
        f"/Ascent {numbers(font.ascent)}/Descent {numbers(font.descent)}/CapHeight {numbers(font.capHeight)}"
        f"/MissingWidth {numbers(font.defaultWidth)}"
        f"/FontFile2 {file.deflated(f'/Length1 {len(outlines)}', outlines)} 0 R>>"
    )
    widths = numbers(*(font.charWidths.get(code, font.defaultWidth) for code in subset))
    meanings = file.deflated("", to_unicode(name, codes).encode("ascii"))
    return file.add(
        f"<</Type/Font/Subtype/TrueType/BaseFont/{name}/FirstChar 0/LastChar {len(subset) - 1}/Widths[{widths}]"
        f"/FontDescriptor {descriptor} 0 R/ToUnicode {meanings} 0 R>>"
    )


def check_own(fonts: Fonts, name: str) -> None:
    """Raise TeacherError unless the teacher's own typeface, of the file `name`, can be measured and embedded."""
    if fonts.own is None:
        return
    try:
        known = fonts.widths.glyphs[Typeface.OWN]
        TTFontFile(BytesIO(fonts.own)).makeSubset([0, *map(ord, known)])
    except Exception as error:  # two readers fail in as many ways as a font can be damaged
        raise TeacherError(
            f"The font {name} cannot be read to its end.", "Take another TrueType file (.ttf)."
        ) from error
    if not known:
        raise TeacherError(f"The font {name} has no letters.", "Take another TrueType file (.ttf).")


def to_unicode(name: str, letters: Mapping[int, str]) -> str:
    """Return the CMap (ISO 32000-1, 9.10.3) that tells the Unicode letter of each one-byte code."""
    lines = [
        "/CIDInit /ProcSet findresource begin",
        "12 dict begin",
        "begincmap",
        f"/CIDSystemInfo << /Registry ({name}) /Ordering ({name}) /Supplement 0 >> def",
        f"/CMapName /{name} def",
        "/CMapType 2 def",
        "1 begincodespacerange",
        "<00> <FF>",
        "endcodespacerange",
    ]
    entries = [f"<{code:02X}> <{letter.encode('utf-16-be').hex().upper()}>" for code, letter in letters.items()]
    for first in range(0, len(entries), _BLOCK):
        block = entries[first : first + _BLOCK]
        lines += [f"{len(block)} beginbfchar", *block, "endbfchar"]
    lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]
    return "\n".join(lines)


def _string(codes: bytes) -> str:
    """Return a PDF string: readable where it can be, else in hexadecimal."""
    if all(code in _ASCII for code in codes):
        return literal(codes.decode("ascii"))
    return f"<{codes.hex().upper()}>"
