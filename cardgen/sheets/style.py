"""The printed look in numbers: one pen, three inks. Lengths in mm, type and line weights in points.

Contrast on white by the WCAG 2.2 formula: ink 14.2, text 8.4, line 4.0; nothing that matters is lighter.
"""

from dataclasses import dataclass
from typing import Self

from cardgen.games.pieces import Ink
from cardgen.units import Typeface, Widths, points_of_mm

INK, LINE, TEXT = "#2A2A35", "#7A808C", "#4A4D59"
HAIR_PT, FRAME_PT, CUT_MARK_PT = 0.5, 1.25, 0.25
SMALL_PT, RUNNING_PT, TABLE_PT, CALL_PT, HEAD_PT, TITLE_PT = 9.0, 10.0, 11.0, 12.0, 11.0, 16.0

# The learning typeface's ink, in shares of its em (measured on the letterforms themselves).
X_HEIGHT, CAPITAL_HEIGHT = 0.586, 0.846
# Words for children: an x-height of 5.0 mm, never under 4.2 mm (Wilkins et al. 2009, 7 to 9 years; as a default ours).
WORD_PT, LEAST_WORD_PT = 24.5, 20.5

PAGE_MARGIN = 15.0
EDGE = 6.4  # nothing is printed nearer to the sheet's edge: two laser printers left 4 mm blank, an inkjet 6.7 below


@dataclass(frozen=True, slots=True)
class Style:
    """What changes with the ink: the colour of inner lines, and how heavy they and the scissors lines are."""

    line: str
    thin_pt: float
    scissors: str
    scissors_pt: float

    @classmethod
    def of(cls, ink: Ink) -> Self:
        """Return the style for an ink; line art has no halftones at all, so its lines are ink, but thinner."""
        if ink is Ink.LINE:
            return cls(line=INK, thin_pt=0.5, scissors=INK, scissors_pt=0.35)
        return cls(line=LINE, thin_pt=0.75, scissors=LINE, scissors_pt=0.5)


def wrap(text: str, width: float, size_pt: float, widths: Widths) -> list[str]:
    """Return `text` broken into the fewest lines of at most `width` mm, then as even as that number allows.

    A word is broken only where it is wider than a whole line: a long link.
    """
    text = " ".join(part for word in text.split() for part in _breakable(word, width, size_pt, widths))
    lines = _greedy(text, width, size_pt, widths)
    while len(lines) > 1:
        width -= 2.0
        narrower = _greedy(text, width, size_pt, widths)
        if len(narrower) > len(lines) or width < 10:
            break
        lines = narrower
    return lines


def _greedy(text: str, width: float, size_pt: float, widths: Widths) -> list[str]:
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and widths.mm(longer, size_pt, Typeface.TEXT) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def _breakable(word: str, width: float, size_pt: float, widths: Widths) -> list[str]:
    """Return a word, or its pieces where it is wider than a line (a long link), each as long as fits."""
    parts = [""]
    for letter in word:
        if parts[-1] and widths.mm(parts[-1] + letter, size_pt, Typeface.TEXT) > width:
            parts.append("")
        parts[-1] += letter
    return parts


def word_size_pt(words: list[str], room: float, wanted_pt: float, widths: Widths) -> float:
    """Return the one size in points, rounded down to a half, at which every word fits into `room` mm."""
    widest = max((widths.em(word, Typeface.LEARNING) for word in words), default=0.0)
    if widest == 0.0:
        return wanted_pt
    return min(wanted_pt, points_of_mm(room / widest) * 2 // 1 / 2)


def widest_word_em(room: float) -> float:
    """Return how wide a word may be, in em, to fit into `room` mm at the least size a child should read."""
    return points_of_mm(room) / LEAST_WORD_PT
