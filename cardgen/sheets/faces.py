"""What stands in one cell or on one card: a picture, a picture with its word, a word, a letter."""

from cardgen.sheets.marks import Align, Item, Label, Picture
from cardgen.sheets.style import INK, X_HEIGHT
from cardgen.units import Box, Typeface, Widths, mm_of_points, points_of_mm

# From a cell's middle down to the writing line, in em: small letters, capitals, both on one board.
SMALL_BASE, CAPITAL_BASE, MIXED_BASE = X_HEIGHT / 2, 0.423, 0.38


def picture(box: Box, word: str, alt: str, share: float = 0.8) -> Picture:
    """Return the picture in the middle of `box`, on a square `share` times as wide."""
    side = box.w * share
    return Picture(word, Box.around(box.cx, box.cy, side, side), alt)


def word(box: Box, text: str, size_pt: float) -> Label:
    """Return the word in the middle of `box`, its small letters centred upwards."""
    base = box.cy + mm_of_points(size_pt) * SMALL_BASE
    return Label(box.cx, base, text, size_pt, Typeface.LEARNING, INK, Align.CENTRE)


def picture_word(box: Box, text: str, alt: str, size_pt: float) -> tuple[Item, ...]:
    """Return the picture with its word below; `box` is a quarter higher than wide."""
    side = box.w * 0.8
    image = Picture(text, Box(box.cx - side / 2, box.y + box.w * 0.07, side, side), alt)
    base = box.bottom - box.w * 0.13
    return (image, Label(box.cx, base, text, size_pt, Typeface.LEARNING, INK, Align.CENTRE))


def letter(cx: float, base: float, text: str, em: float, widths: Widths) -> Label:
    """Return a letter (or `qu`, `sh`) of `em` mm on the writing line `base`, centred sideways by its ink."""
    left, right = widths.ink(text, Typeface.LEARNING)
    return Label(cx - (left + right) / 2 * em, base, text, points_of_mm(em), Typeface.LEARNING, INK)


def letter_em(side: float, letters: list[str], widths: Widths) -> float:
    """Return the one em in mm for all letters of a game in cells `side` mm wide, so that the widest has air."""
    inks = (widths.ink(text, Typeface.LEARNING) for text in letters)
    widest = max((right - left for left, right in inks), default=0.0)
    return min(0.72 * side, 0.8 * side / widest if widest else side)
