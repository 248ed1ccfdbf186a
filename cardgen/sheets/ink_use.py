"""About how much ink pages take: an estimate from their marks, before anything is rendered.

The share is that of mean darkness: a page half covered with a mid grey has a quarter. Means of the picture bank and of
the typefaces were measured on renderings.
"""

from collections.abc import Iterable

from cardgen.games.pieces import Ink
from cardgen.sheets.marks import Code, Label, Line, Mark, Outline, Page, Panel, Picture, marks_of
from cardgen.units import Widths, mm_of_points

# Mean darkness of a picture's box over the whole bank, by ink; of a code with half its modules dark.
PICTURE = {Ink.COLOUR: 0.24, Ink.GREY: 0.24, Ink.LINE: 0.154}
CODE = 0.5
LETTER = 0.14  # ink of text per em of its length and em of height


def ink_share(pages: Iterable[Page], ink: Ink, widths: Widths) -> float:
    """Return about which share of the paper is inked, 0 to 1, over all pages given; 0 for no page."""
    inked = area = 0.0
    for page in pages:
        area += page.size.w * page.size.h
        inked += sum(_inked(mark, ink, widths) for mark in (*marks_of(page.items), *page.cuts))
    return inked / area if area else 0.0


def _inked(mark: Mark, ink: Ink, widths: Widths) -> float:
    """Return how many mm² of full black a mark comes to."""
    match mark:
        case Picture():
            return PICTURE[ink] * mark.box.w * mark.box.h
        case Code():
            return CODE * mark.box.w * mark.box.h
        case Label():
            em = mm_of_points(mark.size_pt)
            return LETTER * widths.mm(mark.text, mark.size_pt, mark.face) * em * darkness(mark.colour)
        case Line():
            length = abs(mark.x2 - mark.x1) + abs(mark.y2 - mark.y1)
            part = 1.0 if mark.dash_mm is None else 0.4
            return length * mm_of_points(mark.weight_pt) * darkness(mark.colour) * part
        case Panel():
            around = 2 * (mark.box.w + mark.box.h) * mm_of_points(mark.weight_pt)
            return mark.box.w * mark.box.h * darkness(mark.fill) + around * darkness(mark.stroke)
        case Outline():
            numbers = [number for _, *places in mark.path for number in places]
            w = max(numbers[::2]) - min(numbers[::2])
            h = max(numbers[1::2]) - min(numbers[1::2])
            return 0.6 * w * h * darkness(mark.fill) + 2 * (w + h) * mm_of_points(mark.weight_pt) * darkness(
                mark.stroke
            )


def darkness(colour: str | None) -> float:
    """Return how dark a colour (#RRGGBB) is beside white, 0 to 1; 0 for none."""
    if not colour:
        return 0.0
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return 1 - (0.299 * red + 0.587 * green + 0.114 * blue) / 255
