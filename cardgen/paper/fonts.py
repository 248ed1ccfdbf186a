"""The three typefaces of every sheet, and the measures of their letters."""

import struct
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from importlib.resources import files
from io import BytesIO
from types import MappingProxyType

from cardgen.units import Glyph, Typeface, Widths

_BUNDLED = {Typeface.TEXT: "Vera.ttf", Typeface.BOLD: "VeraBd.ttf"}


@dataclass(frozen=True, slots=True)
class Fonts:
    """The typefaces to print with: the learning typeface as the bytes of a TrueType file, and Vera for the teacher."""

    learning: bytes = field(repr=False)

    def file_of(self, face: Typeface) -> bytes:
        """Return the TrueType file of a typeface."""
        return self.learning if face is Typeface.LEARNING else _bundled(face)

    @property
    def widths(self) -> Widths:
        """The measures of every letter of the three typefaces, in em."""
        return measure(self.learning)


@lru_cache(maxsize=2)
def _bundled(face: Typeface) -> bytes:
    """Return the TrueType file of Bitstream Vera or Vera Bold, which ReportLab brings along."""
    return (files("reportlab") / "fonts" / _BUNDLED[face]).read_bytes()


@lru_cache(maxsize=4)
def measure(learning: bytes) -> Widths:
    """Return the measures in em of every letter that the three typefaces have. `learning` is a TrueType file."""
    fonts = Fonts(learning)
    return Widths(MappingProxyType({face: _measure_file(fonts.file_of(face)) for face in Typeface}))


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
