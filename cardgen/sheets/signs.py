"""Small drawings that recur: our signs, the dotted square, the number in its ring, the scale bar. All in mm."""

from cardgen.games.pieces import Face, Imprint
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Outline, Page, Panel, Path, Role
from cardgen.sheets.style import CAPITAL_HEIGHT, HAIR_PT, INK, PAGE_MARGIN, SMALL_PT, TEXT
from cardgen.units import Box, Size, Typeface, Widths, points_of_mm

KIND_BOX = 5.4
RING = 10.0
_CIRCLE = 0.5522847498  # control length of a cubic quarter circle


def circle(cx: float, cy: float, radius: float) -> Path:
    """Return a circle as four cubic curves."""
    r, k = radius, radius * _CIRCLE
    return (
        ("M", cx + r, cy),
        ("C", cx + r, cy + k, cx + k, cy + r, cx, cy + r),
        ("C", cx - k, cy + r, cx - r, cy + k, cx - r, cy),
        ("C", cx - r, cy - k, cx - k, cy - r, cx, cy - r),
        ("C", cx + k, cy - r, cx + r, cy - k, cx + r, cy),
        ("Z",),
    )


def dotted_square(box: Box, alt: str) -> Group:
    """Return a square of round dots, 0.9 mm wide and about 2.4 mm apart: our sign for "your turn"."""
    weight, gap = points_of_mm(0.9), box.w / round(box.w / 2.4)
    corners = ((box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom))
    sides = []
    for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
        # Each side leaves out its last dot: the next side begins with it.
        share = 1 - 0.5 * gap / box.w
        sides.append(Line(x1, y1, x1 + (x2 - x1) * share, y1 + (y2 - y1) * share, weight, INK, (0.0, gap)))
    return Group(Role.FIGURE, tuple(sides), alt)


def kind_sign(right: float, cy: float, face: Face) -> Group:
    """Return the small box that tells the kinds of board apart; `right` is its right edge, `cy` its middle."""
    x = right - KIND_BOX / 2
    inside: tuple[Panel, ...]
    if face is Face.PICTURE:
        inside, alt = (Panel(Box.around(x, cy, 2.2, 2.2), 0.3, INK),), "board with pictures"
    elif face is Face.WORD:
        inside, alt = (Panel(Box.around(x, cy, 3.4, 0.9), 0.45, INK),), "board with words"
    elif face is Face.PICTURE_WORD:
        inside = (Panel(Box(x - 1.7, cy - 1.7, 1.8, 1.8), 0.3, INK), Panel(Box(x - 1.7, cy + 0.8, 3.4, 0.9), 0.45, INK))
        alt = "board with pictures and words"
    else:
        inside, alt = (Panel(Box.around(x, cy, 0.9, 3.0), 0.45, INK),), "board with letters"
    frame = Panel(Box.around(x, cy, KIND_BOX, KIND_BOX), 0.8, None, INK, 0.75)
    return Group(Role.FIGURE, (frame, *inside), alt)


def ring_number(cx: float, cy: float, number: int, widths: Widths) -> tuple[Item, ...]:
    """Return a number in a ring of 10 mm, tagged as the title of what it numbers."""
    em = RING * 0.62
    text = str(number)
    left, right = widths.ink(text, Typeface.LEARNING)
    # Four digits are wider than the ring allows at full size.
    em = min(em, (RING - 2.2) / (right - left))
    label = Label(
        cx - (left + right) / 2 * em, cy + em * CAPITAL_HEIGHT / 2, text, points_of_mm(em), Typeface.LEARNING, INK
    )
    return (
        Outline(circle(cx, cy, RING / 2), "#FFFFFF", INK, 1.0),
        Group(Role.TITLE, (label,)),
    )


def scale_bar(x: float, y: float) -> tuple[Item, ...]:
    """Return a bar of exactly 100 mm with its ticks: the proof that the printer did not shrink the page."""
    ticks = [
        Line(x + 10 * i, y, x + 10 * i, y - (2.4 if i % 5 == 0 else 1.4), 0.75 if i % 5 == 0 else HAIR_PT, INK)
        for i in range(11)
    ]
    note = Label(x + 103, y, "100 mm when printed at true size", SMALL_PT, Typeface.TEXT, TEXT)
    return (Line(x, y, x + 100, y, 0.75, INK), *ticks, note)


def foot(left: str, right: str, x1: float, x2: float, y: float) -> tuple[Item, ...]:
    """Return the running foot between `x1` and `x2`: what it is, and which of how many. Screen readers skip it."""
    return (
        Label(x1, y, left, SMALL_PT, Typeface.TEXT, TEXT, decoration=True),
        Label(x2, y, right, SMALL_PT, Typeface.TEXT, TEXT, Align.RIGHT, decoration=True),
    )


def imprint_text(imprint: Imprint, room: float, widths: Widths, what: str = "") -> str:
    """Return what a foot says of its game in at most `room` mm: sounds that do not fit become an ellipsis."""
    keys = list(imprint.keys)
    head = what or imprint.game
    while True:
        shown = " ".join(keys) if len(keys) == len(imprint.keys) else " ".join([*keys, "…"])
        text = f"{head} · {shown} · seed {imprint.seed}"
        if len(keys) <= 1 or widths.mm(text, SMALL_PT, Typeface.TEXT) <= room:
            return text
        keys.pop()


def bound(
    bodies: list[list[Item]], paper: Size, text: str, first_page: int, *, with_bar: bool = True
) -> tuple[Page, ...]:
    """Return pages for the teacher, each with the scale bar and its foot: `text`, and which page of how many."""
    pages = []
    for index, body in enumerate(bodies):
        which = f"page {index + 1} of {len(bodies)}"
        bar = scale_bar(PAGE_MARGIN, paper.h - 15.5) if with_bar else ()
        feet = foot(text, which, PAGE_MARGIN, paper.w - PAGE_MARGIN, paper.h - 8)
        pages.append(Page(first_page + index, paper, (*body, *bar, *feet)))
    return tuple(pages)
