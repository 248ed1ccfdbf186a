"""Marks are the contract between the sheets and the paper: what to draw, where in mm, and what it means.

Coordinates are mm from the sheet's top-left corner, y downwards; type sizes and line weights are in points. A mark
says what it means by the group it stands in: a label outside any group is a paragraph, a picture or code a figure
with its alt text; lines, panels and outlines outside a figure are decoration. The order of marks is both the drawing
order and the reading order.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum

from cardgen.units import Box, Size, Typeface

# A path is a row of commands in one coordinate system: ("M", x, y), ("L", x, y), ("C", x1, y1, x2, y2, x, y), ("Z",).
Segment = tuple[str, *tuple[float, ...]]
Path = tuple[Segment, ...]


class Align(Enum):
    """Which point of a label lies at its x."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class Role(Enum):
    """What a group means; the value is the standard structure type of ISO 32000-1, 14.8.4."""

    TITLE = "H1"
    HEADING = "H2"
    TEXT = "P"
    SECTION = "Sect"
    TABLE = "Table"
    ROW = "TR"
    HEAD = "TH"
    CELL = "TD"
    FIGURE = "Figure"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line with round ends. `dash_mm` is (on, off) lengths; on = 0 gives round dots of the line's weight."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight_pt: float
    colour: str
    dash_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Panel:
    """A rectangle, its corners rounded by `radius` mm, filled and/or outlined."""

    box: Box
    radius: float = 0.0
    fill: str | None = None
    stroke: str | None = None
    weight_pt: float = 0.0


@dataclass(frozen=True, slots=True)
class Outline:
    """A path in mm, filled and/or stroked with round ends and joins."""

    path: Path
    fill: str | None = None
    stroke: str | None = None
    weight_pt: float = 0.0
    dash_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture of the library, named by its word, in a square box; it is never stretched or cropped."""

    name: str
    box: Box
    alt: str


@dataclass(frozen=True, slots=True)
class Code:
    """A QR code (ISO/IEC 18004) for `text`; `box` is the symbol without its quiet zone of four modules."""

    text: str
    box: Box
    alt: str


@dataclass(frozen=True, slots=True)
class Label:
    """One line of text: `x` is its left end, middle or right end by `align`, `y` its baseline.

    `turn` is 0 or 90 degrees (reading upwards). `decoration` marks running feet that a screen reader skips.
    """

    x: float
    y: float
    text: str
    size_pt: float
    face: Typeface
    colour: str
    align: Align = Align.LEFT
    turn: int = 0
    decoration: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that mean one thing together; groups nest as the tags of the PDF do. A figure needs `alt`."""

    role: Role
    items: "tuple[Item, ...]"
    alt: str = ""


Mark = Line | Panel | Outline | Picture | Code | Label
Item = Mark | Group


class Side(Enum):
    """Which side of the paper a page is."""

    FRONT = "front"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece lies on its sheet: `box` is its trim; `turned` is 0, 90 or 180 degrees."""

    id: str
    face: str
    box: Box
    turned: int = 0
    pack: int | None = None


@dataclass(frozen=True, slots=True)
class CellPlace:
    """Where one cell of a board lies: its board, row and column (from 1), the word on it (None: the free centre)."""

    board: int
    row: int
    column: int
    word: str | None
    box: Box


@dataclass(frozen=True, slots=True)
class Page:
    """One side of one sheet: what is drawn on it, and the numbers the plan tells of it.

    `cuts` are the cut marks or scissors lines; they are drawn after the items, as decoration. The items of a page that
    is `turned` are drawn as on an upright page and the whole is then turned by 180° about its middle; `shift` moves all
    that is drawn by so many mm to the right and down. Places and cells say where things lie when that is done, but for
    the shift, which corrects a printer.
    """

    number: int
    size: Size
    items: tuple[Item, ...]
    side: Side = Side.FRONT
    places: tuple[Place, ...] = ()
    cells: tuple[CellPlace, ...] = ()
    cuts: tuple[Line, ...] = ()
    turned: bool = False
    shift: tuple[float, float] = (0.0, 0.0)

    def on_paper(self, box: Box) -> Box:
        """Return where a box among the items lies on the printed page, in mm."""
        x, y = (self.size.w - box.right, self.size.h - box.bottom) if self.turned else (box.x, box.y)
        return Box(x + self.shift[0], y + self.shift[1], box.w, box.h)


@dataclass(frozen=True, slots=True)
class Document:
    """All pages of one PDF, with its title (shown in the reader's title bar) and language (BCP 47)."""

    title: str
    language: str
    pages: tuple[Page, ...]


def marks_of(items: tuple[Item, ...]) -> Iterator[Mark]:
    """Yield every mark of `items`, in order, however deep the groups nest."""
    for item in items:
        if isinstance(item, Group):
            yield from marks_of(item.items)
        else:
            yield item


@dataclass(frozen=True, slots=True)
class Shape:
    """One painted path of a drawing: filled and/or stroked (width in units of the drawing's box, round ends).

    It is filled by the nonzero rule, or by the even-odd rule.
    """

    path: Path
    fill: str | None = None
    stroke: str | None = None
    width: float = 0.0
    even_odd: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture ready for one ink: painted paths in a square box of `box` units, y downwards; colours as #RRGGBB."""

    name: str
    shapes: tuple[Shape, ...] = field(repr=False)
    box: float = 100.0


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture of pixels ready for one ink, to be fitted whole into a square box.

    `data` is a JPEG file, or the deflated pixels row by row from the top left: one byte each if `grey`, else red, green
    and blue.
    """

    name: str
    width_px: int
    height_px: int
    data: bytes = field(repr=False)
    jpeg: bool
    grey: bool
