"""The drawings before the rows of a check, each with its name and how that begins; and the sign for "listen".

A child finds the row by its drawing: many cannot read numerals yet. One pen, no fill, no circle (it reads as an o) and
nothing that looks like a letter.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from cardgen.sheets.marks import Group, Item, Outline, Path, Role, Segment
from cardgen.sheets.signs import circle
from cardgen.sheets.style import INK

BOX = 10.0
_NUMBERS = {"M": 2, "L": 2, "C": 6, "Z": 0}


@dataclass(frozen=True, slots=True)
class RowSign:
    """A drawing in a box of 10 × 10, y downwards: `path` in absolute M, L, C and Z.

    `begins` are the first sounds (ARPABET, two where one is not enough) of its name and of what else a child may call
    it.
    """

    name: str
    begins: tuple[tuple[str, ...], ...]
    path: str


def _sign(name: str, begins: str, path: str) -> RowSign:
    return RowSign(name, tuple(tuple(first.split("-")) for first in begins.split()), path)


# The first ten are taken where no sound of the check is in the way, the others step in. Drawings and names our own.
SIGNS = (
    _sign(
        "cup",
        "K M",
        "M1 3 L7 3 C7 6.5 5.8 8.6 4.6 8.6 L3.4 8.6 C2.2 8.6 1 6.5 1 3 Z M7 3.8 C9.6 3.4 9.4 6.8 6.5 6.8",
    ),
    _sign(
        "leaf",
        "L",
        "M1.2 8.8 C.6 3.6 4 1 9 1.2 C9.2 6.4 6.4 9.6 1.2 8.8 Z M.4 9.7 L6.3 3.8",
    ),
    _sign(
        "house",
        "HH",
        "M.8 5 L5 1 L9.2 5 M2 4.2 L2 9.2 L8 9.2 L8 4.2 M4.1 9.2 L4.1 6.4 L5.9 6.4 L5.9 9.2",
    ),
    _sign(
        "bell",
        "B",
        "M1.2 7.6 C2.6 6.6 2 1.4 5 1.4 C8 1.4 7.4 6.6 8.8 7.6 Z M4.2 9 C4.5 9.5 5.5 9.5 5.8 9",
    ),
    _sign(
        "tree",
        "T CH",
        "M4.3 9.5 L4.3 6.3 M5.7 9.5 L5.7 6.3 M5 .5 C6.6 .5 7.4 1.5 7.4 2.2 C9 2.4 9.6 3.6 9.2 4.8 C8.8 6.2 7.2 "
        "6.6 5 6.3 C2.8 6.6 1.2 6.2 .8 4.8 C.4 3.6 1 2.4 2.6 2.2 C2.6 1.5 3.4 .5 5 .5 Z M2.8 9.5 L7.2 9.5",
    ),
    _sign(
        "hat",
        "HH K",
        "M.8 7.6 C2.6 8.8 7.4 8.8 9.2 7.6 M2.6 8.1 L3 2.2 L7 2.2 L7.4 8.1 M2.8 6 L7.2 6",
    ),
    _sign(
        "boat",
        "B SH S",
        "M.8 6.4 L9.2 6.4 L7.6 9 L2.4 9 Z M4.8 6.4 L4.8 .8 L8.4 5 L4.8 5",
    ),
    _sign(
        "apple",
        "AE F",
        "M5 3.2 C7 1.8 9.2 3 9 5.6 C8.8 8 7 9.8 5 9 C3 9.8 1.2 8 1 5.6 C.8 3 3 1.8 5 3.2 Z M5 3.2 C5 2 5.4 1.2 6.2 .6",
    ),
    _sign(
        "flag",
        "F",
        "M2 .8 L2 9.4 M2 1.4 C4.4 .4 6 2.6 9 1.4 L9 5.8 C6 7 4.4 4.8 2 5.8",
    ),
    _sign(
        "kite",
        "K",
        "M5 .4 L8 3.6 L5 7.2 L2 3.6 Z M5 .4 L5 7.2 M2 3.6 L8 3.6 M5 7.2 C4.2 8.2 6 8.4 5.2 9.7",
    ),
    _sign(
        "star",
        "S",
        "M5 .6 L6.3 3.7 L9.6 4 L7.1 6.2 L7.9 9.4 L5 7.7 L2.1 9.4 L2.9 6.2 L.4 4 L3.7 3.7 Z",
    ),
    _sign(
        "heart",
        "HH L",
        "M5 9.2 C1.6 6.6 .5 5 .6 3.5 C.7 .7 4 .3 5 2.9 C6 .3 9.3 .7 9.4 3.5 C9.5 5 8.4 6.6 5 9.2 Z",
    ),
    _sign(
        "fish",
        "F",
        "M.6 5 C2 2.2 5.2 1.9 7.2 5 C5.2 8.1 2 7.8 .6 5 Z M7.2 5 L9.5 2.8 L9.5 7.2 Z M2.5 4.3 L2.6 4.3",
    ),
    _sign(
        "umbrella",
        "AH P",
        "M.7 5.4 C1 -.6 9 -.6 9.3 5.4 C8.2 4.3 7.2 4.3 6.4 5.4 C5.6 4.3 4.4 4.3 3.6 5.4 C2.8 4.3 1.8 4.3 .7 5.4 Z "
        "M5 4.7 L5 8.4 C5 9.8 3.1 9.8 3.1 8.3",
    ),
    _sign(
        "pencil",
        "P",
        "M1 9 L1.7 6.3 L7.2 .8 L9.2 2.8 L3.7 8.3 Z M1.7 6.3 L3.7 8.3 M6 2 L8 4",
    ),
    _sign(
        "window",
        "W",
        "M1.4 .9 L8.6 .9 L8.6 9.1 L1.4 9.1 Z M5 .9 L5 9.1 M1.4 5 L8.6 5",
    ),
    _sign(
        "door",
        "D",
        "M2 9.3 L2 .7 L8 .7 L8 9.3 M.8 9.3 L9.2 9.3 M6.4 5.2 L6.4 5.6",
    ),
    _sign(
        "rocket",
        "R S",
        "M5 .4 C7.3 2.3 7.4 5 6.8 7.4 L3.2 7.4 C2.6 5 2.7 2.3 5 .4 Z M3 5.4 L1.2 8.4 L3.2 7.4 M7 5.4 L8.8 8.4 "
        "L6.8 7.4 M4.3 8.4 L4.1 9.6 M5.7 8.4 L5.9 9.6",
    ),
    _sign(
        "jar",
        "JH P",
        "M2.6 .9 L7.4 .9 L7.4 2.5 L2.6 2.5 Z M3 2.5 C1.5 3.2 1.3 4 1.3 5 L1.3 7.9 C1.3 8.9 1.9 9.3 2.7 9.3 L7.3 "
        "9.3 C8.1 9.3 8.7 8.9 8.7 7.9 L8.7 5 C8.7 4 8.5 3.2 7 2.5",
    ),
    _sign(
        "gate",
        "G F",
        "M1 1.4 L1 9.3 M9 1.4 L9 9.3 M1 3.4 L9 3.4 M1 7.6 L9 7.6 M3.7 2.4 L3.7 8.6 M6.3 2.4 L6.3 8.6",
    ),
    _sign(
        "cloud",
        "K",
        "M2.6 8 C.2 8 0 4.9 2.3 4.7 C2 2.2 5.4 1.2 6.3 3.4 C8.2 2.6 9.3 4.3 8.5 5.4 C10 6 9.6 8 7.8 8 Z",
    ),
    _sign(
        "chair",
        "CH S",
        "M2.8 .8 L7.2 .8 L7.2 5.2 L2.8 5.2 Z M5 .8 L5 5.2 M2.8 5.2 L1.8 6.8 L8.2 6.8 L7.2 5.2 M2.2 6.8 L2.2 9.5 "
        "M7.8 6.8 L7.8 9.5",
    ),
    _sign(
        "shirt",
        "SH T",
        "M3.4 1 L.6 3 L1.8 5.2 L2.8 4.6 L2.8 9.2 L7.2 9.2 L7.2 4.6 L8.2 5.2 L9.4 3 L6.6 1 C6 2.3 4 2.3 3.4 1 Z",
    ),
    _sign(
        "mushroom",
        "M T",
        "M.8 5.6 C.8 -.6 9.2 -.6 9.2 5.6 Z M3.7 5.6 C4.1 7 3.9 8.2 3.4 9.3 L6.6 9.3 C6.1 8.2 5.9 7 6.3 5.6",
    ),
    _sign(
        "lamp",
        "L",
        "M3.4 .8 L6.6 .8 L8.6 5.2 L1.4 5.2 Z M5 5.2 L5 9.2 M2.8 9.2 L7.2 9.2",
    ),
    _sign(
        "envelope",
        "EH L AA",
        "M.7 2.2 L9.3 2.2 L9.3 8.2 L.7 8.2 Z M.7 2.2 L5 5.8 L9.3 2.2",
    ),
    _sign(
        "nest",
        "N B",
        "M.8 5.6 C1.6 9.8 8.4 9.8 9.2 5.6 M.4 5.4 C3 6.5 7 6.5 9.6 5.4 M2.6 5.7 C2.4 3 4.6 3 4.8 6 M4.7 4.7 C5 "
        "2.8 7.4 3 7.2 5.9",
    ),
    _sign(
        "vase",
        "V F P",
        "M3.2 .8 L6.8 .8 M3.7 .8 C4.4 2.6 4.2 3.2 3.2 4.4 C1.4 6.6 2.6 9.2 3.6 9.2 L6.4 9.2 C7.4 9.2 8.6 6.6 6.8 "
        "4.4 C5.8 3.2 5.6 2.6 6.3 .8",
    ),
)
_BY_NAME = {sign.name: sign for sign in SIGNS}


def row_sign(name: str, cx: float, cy: float, side: float, weight_pt: float) -> Group:
    """Return the drawing of that name in a square of `side` mm round (cx, cy)."""
    scale = side / BOX
    left, top = cx - side / 2, cy - side / 2
    path = tuple(_placed(segment, left, top, scale) for segment in _path(_BY_NAME[name].path))
    return Group(Role.FIGURE, (Outline(path, None, INK, weight_pt),), name)


@cache
def _path(text: str) -> Path:
    return tuple(_segments(text))


def _segments(text: str) -> Iterator[Segment]:
    parts = text.replace("M", " M ").replace("L", " L ").replace("C", " C ").replace("Z", " Z ").split()
    place = 0
    while place < len(parts):
        head = parts[place]
        count = _NUMBERS[head]
        yield (head, *map(float, parts[place + 1 : place + 1 + count]))
        place += 1 + count


def listen(cx: float, cy: float, s: float = 1.0) -> Group:
    """Return a head that hears, with three bows that come from the right: listen."""
    x, r = cx - 3.4 * s, 3.9 * s
    thick, thin = 1.4 * s, 1.1 * s
    items: list[Item] = [Outline(circle(x, cy, r), None, INK, thick)]
    items += [Outline(circle(x + eye * s, cy - 0.7 * s, 0.5 * s), INK) for eye in (-1.5, 1.1)]
    mouth = (("M", -1.5, 1.4), ("C", -0.9, 2.2, 0.5, 2.2, 1.1, 1.4))
    ear = (("M", 3.75, -1.2), ("C", 5.7, -2.0, 5.7, 2.0, 3.75, 1.2))
    bows = []
    for number in range(3):
        half, at = 3.5 - number, 6.7 + 1.5 * number
        # The largest bow is nearest to the ear: the sound comes to the head and does not leave it.
        curve = ("C", at - 0.1 * half, -0.4 * half, at - 0.1 * half, 0.4 * half, at + 0.3 * half, half)
        bows.append((("M", at + 0.3 * half, -half), curve))
    for path, weight in ((mouth, thin), (ear, thick), *((bow, thin) for bow in bows)):
        items.append(Outline(tuple(_placed(segment, x, cy, s) for segment in path), None, INK, weight))
    return Group(Role.FIGURE, tuple(items), "listen")


def _placed(segment: Segment, x: float, y: float, s: float) -> Segment:
    head, *numbers = segment
    return (str(head), *((x if place % 2 == 0 else y) + float(n) * s for place, n in enumerate(numbers)))
