"""Lengths: millimetres everywhere, measured from the sheet's top-left corner; type sizes alone in points."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

MM_PER_INCH = 25.4
POINTS_PER_MM = 72 / MM_PER_INCH


def mm_of_points(points: float) -> float:
    """Return a length given in points (1/72 inch) in mm."""
    return points / POINTS_PER_MM


def points_of_mm(mm: float) -> float:
    """Return a length given in mm in points (1/72 inch)."""
    return mm * POINTS_PER_MM


@dataclass(frozen=True, slots=True)
class Size:
    """A width and a height in mm."""

    w: float
    h: float

    @property
    def turned(self) -> "Size":
        """The same sheet turned by a quarter: landscape for portrait."""
        return Size(self.h, self.w)


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in mm: its left and top edge, its width and height."""

    x: float
    y: float
    w: float
    h: float

    @property
    def right(self) -> float:
        """The right edge in mm."""
        return self.x + self.w

    @property
    def bottom(self) -> float:
        """The lower edge in mm."""
        return self.y + self.h

    @property
    def cx(self) -> float:
        """The middle, sideways, in mm."""
        return self.x + self.w / 2

    @property
    def cy(self) -> float:
        """The middle, upwards, in mm."""
        return self.y + self.h / 2

    @staticmethod
    def around(cx: float, cy: float, w: float, h: float) -> "Box":
        """Return the box of that size whose middle is (cx, cy), all in mm."""
        return Box(cx - w / 2, cy - h / 2, w, h)


class Typeface(Enum):
    """The three typefaces of every sheet: letters and words for children, small print and bold for the teacher.

    `OWN` is a fourth that a teacher brings for her own text.
    """

    LEARNING = "learning"
    TEXT = "text"
    BOLD = "bold"
    OWN = "own"


@dataclass(frozen=True, slots=True)
class Glyph:
    """One letter's measures in em: how far the pen moves on, and where its ink begins and ends sideways."""

    advance: float
    ink_left: float
    ink_right: float


@dataclass(frozen=True, slots=True)
class Widths:
    """The measured letters of the three typefaces, so that pure code can fit text without opening a font."""

    glyphs: Mapping[Typeface, Mapping[str, Glyph]]

    def em(self, text: str, face: Typeface) -> float:
        """Return the width of `text` in em. KeyError for a letter the typeface does not have; see `missing`."""
        table = self.glyphs[face]
        return sum(table[letter].advance for letter in text)

    def mm(self, text: str, size_pt: float, face: Typeface) -> float:
        """Return the width in mm of `text` set at `size_pt` points."""
        return self.em(text, face) * mm_of_points(size_pt)

    def ink(self, text: str, face: Typeface) -> tuple[float, float]:
        """Return where the ink of `text` begins and ends, in em from the pen's start."""
        table = self.glyphs[face]
        pen, left, right = 0.0, None, 0.0
        for letter in text:
            glyph = table[letter]
            if glyph.ink_right > glyph.ink_left:
                left = pen + glyph.ink_left if left is None else left
                right = pen + glyph.ink_right
            pen += glyph.advance
        return (left or 0.0, right)

    def missing(self, text: str, face: Typeface) -> str:
        """Return the letters of `text` that the typeface does not have, each once, in order."""
        return "".join(dict.fromkeys(letter for letter in text if letter not in self.glyphs[face]))
