"""Typefaces embedded in a PDF: each letter used is in the file, and says which letter it is."""

from collections.abc import Iterable, Mapping, Sequence
from io import BytesIO
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from cardgen.errors import TeacherError
from cardgen.paper.fonts import Fonts
from cardgen.units import Typeface, Widths

_BLOCK = 100  # no more mappings in one block (Adobe Technical Note 5014, beginbfchar)
_ESCAPES = str.maketrans({"\\": "\\\\", "(": "\\(", ")": "\\)"})


class EmbeddedFont(TTFont):  # type: ignore[misc]
    """A TrueType font of ReportLab's whose letters can all be searched and copied.

    ReportLab gives code 0, which stands for no letter, a meaning of its own, and all letters in one block.
    """

    def __init__(self, name: str, data: bytes) -> None:
        super().__init__(name, BytesIO(data), asciiReadable=True, shapable=False)

    def addObjects(self, doc: Any) -> None:  # noqa: N802 (ReportLab's name)
        """Add font, letters and their meaning to the document."""
        subsets = self.state[doc].subsets
        names = [self.getSubsetInternalName(n, doc)[1:] for n in range(len(subsets))]
        super().addObjects(doc)
        for name, letters in zip(names, subsets, strict=True):
            font = doc.idToObject["BasicFonts"].dict[name]
            known = {code: letter for code, letter in enumerate(letters) if letter in self.face.charToGlyph}
            doc.idToObject[font.ToUnicode.name].content = to_unicode(font.BaseFont, known)


def to_unicode(name: str, letters: Mapping[int, int]) -> str:
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
    entries = [f"<{code:02X}> <{chr(letter).encode('utf-16-be').hex().upper()}>" for code, letter in letters.items()]
    for first in range(0, len(entries), _BLOCK):
        block = entries[first : first + _BLOCK]
        lines += [f"{len(block)} beginbfchar", *block, "endbfchar"]
    lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]
    return "\n".join(lines)


class Setting:
    """The typefaces of one document: turns text into strings of the embedded fonts.

    Letters beyond ASCII, which have codes of their own, get theirs in the order of the alphabet, before anything is
    set: what a page looks like never depends on the pages before it.
    """

    def __init__(self, fonts: Fonts) -> None:
        self._fonts = {face: EmbeddedFont(f"cardgen-{face.value}", fonts.file_of(face)) for face in Typeface}
        self._widths: Widths = fonts.widths
        self._document: Any = None
        self._known: dict[tuple[str, Typeface], Sequence[tuple[str, str]]] = {}
        for font in self._fonts.values():
            pdfmetrics.registerFont(font)

    @property
    def initial(self) -> str:
        """The name of a typeface that ReportLab may begin with, so that it adds none of its own."""
        return f"cardgen-{Typeface.TEXT.value}"

    def prepare(self, document: Any, texts: Iterable[tuple[str, Typeface]]) -> None:
        """Take in every letter of a document; TeacherError for one that its typeface does not have."""
        self._document = document
        letters: dict[Typeface, set[str]] = {face: set() for face in Typeface}
        for text, face in texts:
            letters[face].update(text)
            if missing := self._widths.missing(text, face):
                raise TeacherError(
                    f'"{text}" cannot be printed: the typeface has no "{missing[0]}".',
                    "Write it with other letters.",
                )
        for face, used in letters.items():
            self._fonts[face].splitString("".join(sorted(used)), document)

    def runs(self, text: str, face: Typeface) -> Sequence[tuple[str, str]]:
        """Return the runs of `text`: name of the embedded font, string."""
        found = self._known.get((text, face))
        if found is None:
            font = self._fonts[face]
            found = self._known[text, face] = [
                (font.getSubsetInternalName(subset, self._document)[1:], _string(codes))
                for subset, codes in font.splitString(text, self._document)
            ]
        return found


def _string(codes: bytes) -> str:
    """Return a PDF string: readable where it can be, else in hexadecimal."""
    if all(0x20 <= code < 0x7F for code in codes):
        return f"({codes.decode('ascii').translate(_ESCAPES)})"
    return f"<{codes.hex().upper()}>"
