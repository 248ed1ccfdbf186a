"""The typefaces of every sheet, and the measures of their letters."""

import logging
import struct
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from types import MappingProxyType

from cardgen.units import Glyph, Typeface, Widths

# What is odd in a typeface of hers is no message for her: it can be used, or an error says that it cannot.
logging.getLogger("fontTools").addHandler(logging.NullHandler())

_BUNDLED = {Typeface.TEXT: "Vera.ttf", Typeface.BOLD: "VeraBd.ttf"}


@dataclass(frozen=True, slots=True)
class Fonts:
    """The typefaces to print with: the learning typeface as the bytes of a TrueType file, and Vera for the teacher.

    `own` is a TrueType file of the teacher's, None without one.
    """

    learning: bytes = field(repr=False)
    own: bytes | None = field(default=None, repr=False)

    @property
    def faces(self) -> tuple[Typeface, ...]:
        """The typefaces there are, in a fixed order."""
        return tuple(face for face in Typeface if face is not Typeface.OWN or self.own is not None)

    def file_of(self, face: Typeface) -> bytes:
        """Return the TrueType file of a typeface."""
        if face is Typeface.OWN and self.own is not None:
            return self.own
        return self.learning if face is Typeface.LEARNING else _bundled(face)

    @property
    def widths(self) -> Widths:
        """The measures of every letter of the typefaces, in em."""
        return measure(self.learning, self.own)


@lru_cache(maxsize=2)
def _bundled(face: Typeface) -> bytes:
    """Return the TrueType file of Bitstream Vera or Vera Bold, which ReportLab brings along."""
    return (files("reportlab") / "fonts" / _BUNDLED[face]).read_bytes()


@lru_cache(maxsize=4)
def measure(learning: bytes, own: bytes | None = None) -> Widths:
    """Return the measures in em of every letter that the typefaces have. `learning` and `own` are TrueType files."""
    fonts = Fonts(learning, own)
    return Widths(MappingProxyType({face: _measure_file(fonts.file_of(face)) for face in fonts.faces}))


def _measure_file(data: bytes) -> Mapping[str, Glyph]:
    # Loading fontTools takes longer than measuring; who sets no type never pays for it.
    from fontTools.ttLib import TTFont

    measures = {}
    with TTFont(BytesIO(data), lazy=True) as font:
        em = font["head"].unitsPerEm
        bearings = font["hmtx"].metrics
        outlines, starts = font.reader["glyf"], font["loca"].locations
        for code, name in font.getBestCmap().items():
            advance, left = bearings[name]
            glyph = font.getGlyphID(name)
            right = left
            if starts[glyph + 1] > starts[glyph]:
                # The outline's header holds its bounds; the bearing, not xMin, says where they lie beside the pen.
                x_min, x_max = struct.unpack_from(">h2xh", outlines, starts[glyph] + 2)
                right = left + x_max - x_min
            measures[chr(code)] = Glyph(advance / em, left / em, right / em)
    return MappingProxyType(measures)
