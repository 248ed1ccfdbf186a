"""Drawn symbols without words: the sides of a mat, the pattern of a pair, look, say, lay, play. All in mm."""

import math
from functools import cache

from cardgen.games.pieces import SideSign
from cardgen.sheets.marks import Group, Item, Outline, Panel, Path, Role
from cardgen.sheets.signs import circle
from cardgen.sheets.style import HAIR_PT, INK
from cardgen.units import Box, Size

BLOCK, BLOCK_PITCH = 1.6, 2.4
PATTERN = Size(2 * BLOCK_PITCH + 1.0, 3 * BLOCK_PITCH + 1.0)


def side_sign(sign: SideSign, cx: float, cy: float, size: float, weight_pt: float, colour: str = INK) -> Group:
    """Return the sign of a side, `size` mm high; each reads the same upside down or is plainly turned."""
    d = size
    mark: Item
    if sign is SideSign.SQUARE:
        mark = Panel(Box.around(cx, cy, 0.88 * d, 0.88 * d), 0.06 * d, None, colour, weight_pt)
    elif sign is SideSign.TRIANGLE:
        mark = Outline(_polygon((cx, cy - 0.52 * d), (cx + 0.52 * d, cy + 0.4 * d), (cx - 0.52 * d, cy + 0.4 * d)),
                       None, colour, weight_pt)  # fmt: skip
    elif sign is SideSign.STAR:
        arms = [(math.pi / 5 * i, 0.58 * d if i % 2 == 0 else 0.27 * d) for i in range(10)]
        corners = [(cx + r * math.sin(turn), cy + 0.04 * d - r * math.cos(turn)) for turn, r in arms]
        mark = Outline(_polygon(*corners), None, colour, weight_pt)
    else:
        turns = [math.pi / 3 * i + math.pi / 6 for i in range(6)]
        corners = [(cx + 0.54 * d * math.sin(turn), cy - 0.54 * d * math.cos(turn)) for turn in turns]
        mark = Outline(_polygon(*corners), None, colour, weight_pt)
    return Group(Role.FIGURE, (mark,), sign.value)


def _polygon(*corners: tuple[float, float]) -> Path:
    (x, y), *rest = corners
    return (("M", x, y), *(("L", x, y) for x, y in rest), ("Z",))


@cache
def patterns() -> tuple[int, ...]:
    """Return the patterns of 2 × 3 blocks as bits, no two alike when a card is turned: 35 of them, fewest blocks first.

    Bit 0 is the upper left block, then row by row.
    """
    turned = {bits: int(f"{bits:06b}"[::-1], 2) for bits in range(1, 64)}
    alone = [bits for bits in turned if bits <= turned[bits]]
    return tuple(sorted(alone, key=lambda bits: (bits.bit_count(), bits)))


def block_pattern(cx: float, cy: float, number: int) -> Group:
    """Return the pattern with that number (from 1) in a thin frame: both cards of a pair carry the same.

    ValueError beyond the 35 there are.
    """
    if not 1 <= number <= len(patterns()):
        raise ValueError(f"there is no pattern {number}")
    bits = patterns()[number - 1]
    frame = Panel(Box.around(cx, cy, PATTERN.w, PATTERN.h), 0.8, None, INK, HAIR_PT)
    blocks = [
        Panel(Box.around(cx + (i % 2 - 0.5) * BLOCK_PITCH, cy + (i // 2 - 1) * BLOCK_PITCH, BLOCK, BLOCK), 0.3, INK)
        for i in range(6)
        if bits >> i & 1
    ]
    return Group(Role.FIGURE, (frame, *blocks), f"sign {number} of its pair")


def play(cx: float, cy: float, s: float = 1.0) -> Group:
    """Return a filled triangle in a ring: here is something to hear."""
    triangle = _polygon((cx - 1.7 * s, cy - 2.8 * s), (cx + 3.1 * s, cy), (cx - 1.7 * s, cy + 2.8 * s))
    ring = Outline(circle(cx, cy, 5.5 * s), None, INK, 1.4 * s)
    return Group(Role.FIGURE, (ring, Outline(triangle, INK, INK, 1.0 * s)), "play")


def look(cx: float, cy: float, s: float = 1.0) -> Group:
    """Return an eye: look."""
    w, h = 4.2 * s, 2.6 * s
    lids: Path = (
        ("M", cx - w, cy),
        ("C", cx - w / 2, cy - 1.3 * h, cx + w / 2, cy - 1.3 * h, cx + w, cy),
        ("C", cx + w / 2, cy + 1.3 * h, cx - w / 2, cy + 1.3 * h, cx - w, cy),
    )
    pupil = Outline(circle(cx, cy, 1.15 * s), INK)
    return Group(Role.FIGURE, (Outline(lids, None, INK, 1.4 * s), pupil), "look")


def say(cx: float, cy: float, s: float = 1.0) -> Group:
    """Return open lips and two bows that leave them: say."""
    x = cx - 1.8 * s
    lips: Path = (
        ("M", x - 3.6 * s, cy),
        ("C", x - 2.2 * s, cy - 2.2 * s, x - 0.9 * s, cy - 2.4 * s, x, cy - 1.6 * s),
        ("C", x + 0.9 * s, cy - 2.4 * s, x + 2.2 * s, cy - 2.2 * s, x + 3.6 * s, cy),
        ("C", x + 2.0 * s, cy + 3.4 * s, x - 2.0 * s, cy + 3.4 * s, x - 3.6 * s, cy),
    )
    upper: Path = (
        ("M", x - 3.4 * s, cy),
        ("C", x - 1.6 * s, cy - 0.5 * s, x + 1.6 * s, cy - 0.5 * s, x + 3.4 * s, cy),
    )
    lower: Path = (
        ("M", x - 2.5 * s, cy + 0.9 * s),
        ("C", x - 1.2 * s, cy + 1.6 * s, x + 1.2 * s, cy + 1.6 * s, x + 2.5 * s, cy + 0.9 * s),
    )
    bows = []
    for r in (1.6, 2.9):
        start, reach = x + (4.0 + r / 2) * s, x + (4.6 + 0.95 * r) * s
        bow: Path = (
            ("M", start, cy - r * s),
            ("C", reach, cy - 0.4 * r * s, reach, cy + 0.4 * r * s, start, cy + r * s),
        )
        bows.append(Outline(bow, None, INK, 1.0 * s))
    mouth = (Outline(lips, None, INK, 1.4 * s), Outline(upper, None, INK, 1.0 * s), Outline(lower, None, INK, 1.0 * s))
    return Group(Role.FIGURE, (*mouth, *bows), "say")


def lay(cx: float, cy: float, s: float = 1.0) -> Group:
    """Return a card and a bow from it to a dotted place: lay it there."""
    w, h = 4.2 * s, 6.4 * s
    y, card, place = cy - h / 2 + 1.2 * s, cx - 5.4 * s, cx + 1.2 * s
    dots = [(place + i / 4 * w, y + v * h) for i in range(5) for v in (0, 1)]
    dots += [(place + u * w, y + i / 6 * h) for i in range(1, 6) for u in (0, 1)]
    bow: Path = (
        ("M", card + w / 2, y - 1.2 * s),
        ("C", card + w / 2 + 0.6 * s, y - 4.0 * s, place + w / 2 - 0.4 * s, y - 4.0 * s, place + w / 2, y + 2.4 * s),
    )
    tip = place + w / 2
    arrow: Path = (("M", tip - 1.3 * s, y + 1.5 * s), ("L", tip, y + 3.0 * s), ("L", tip + 1.3 * s, y + 1.5 * s))
    return Group(
        Role.FIGURE,
        (
            Panel(Box(card, y, w, h), 0.6 * s, None, INK, 1.3 * s),
            *(Outline(circle(x, dot_y, 0.32 * s), INK) for x, dot_y in dots),
            Outline(bow, None, INK, 1.2 * s),
            Outline(arrow, None, INK, 1.2 * s),
        ),
        "lay",
    )
