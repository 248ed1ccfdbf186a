"""Letters to trace and write, in units: a thousandth of an em, x to the right, y upwards from the writing line."""

from dataclasses import dataclass
from enum import Enum

Point = tuple[float, float]
# One pen stroke: ("M", x, y), then ("L", x, y) and ("C", x1, y1, x2, y2, x, y); a dot is the one segment ("D", x, y).
Stroke = tuple[tuple[str, *tuple[float, ...]], ...]

PEN, ROAD_PEN, BIG_ROAD_PEN = 86.0, 104.0, 130.0  # the pen of the letters, and of the road to trace on
DOT_PENS = 1.36  # how wide the dot of an i is, in pens
DISC = 50.0  # radius of the disc that holds a stroke's number
START_DOT = 22.0  # radius of the dot on a start whose number stands beside it
ARROW_LINE = 13.0  # weight of an arrow's shaft


@dataclass(frozen=True, slots=True)
class Start:
    """Where a stroke starts: its number in its letter, the true start, and the middle of the disc with the number."""

    number: int
    place: Point
    disc: Point

    @property
    def beside(self) -> bool:
        """Whether the number stands beside the start, joined to it by a line."""
        return self.disc != self.place


@dataclass(frozen=True, slots=True)
class Arrow:
    """Which way a stroke goes: a shaft that follows the pen, and a solid head (its tip, then the two corners)."""

    shaft: tuple[Point, ...]
    head: tuple[Point, Point, Point]


@dataclass(frozen=True, slots=True)
class RoadLetters:
    """A letter (or `sh`, `qu`) as a road to follow: strokes in place, numbered starts, arrows, dots along the pen line.

    `left` and `right` are how far the pen's middle reaches.
    """

    text: str
    strokes: tuple[Stroke, ...]
    starts: tuple[Start, ...]
    arrows: tuple[Arrow, ...]
    dots: tuple[Point, ...]
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class DottedLetters:
    """A letter or word in dots to write over, and where its strokes start (every place once)."""

    text: str
    dots: tuple[Point, ...]
    starts: tuple[Point, ...]
    left: float
    right: float


class Fill(Enum):
    """What stands in one place of a row: a model in full ink, dots to write over, only the starts, or nothing."""

    MODEL = "model"
    DOTS = "dots"
    STARTS = "starts"
    EMPTY = "empty"


@dataclass(frozen=True, slots=True)
class WritingRow:
    """One row on guide lines: what is written in it, and what stands in each place, the model first."""

    letters: DottedLetters
    fills: tuple[Fill, ...]


@dataclass(frozen=True, slots=True)
class WritingWord:
    """A word to write, with its picture (None if there is none), and what stands in each of its rows."""

    letters: DottedLetters
    picture: str | None
    alt: str
    rows: tuple[tuple[Fill, ...], ...]


@dataclass(frozen=True, slots=True)
class WritingSheet:
    """One child's sheet for one sound: its big letters, the rows, the key picture; the words on its back.

    `letters` are the letters as printed, the small one first.
    """

    key: str
    letters: tuple[str, ...]
    roads: tuple[RoadLetters, ...]
    rows: tuple[WritingRow, ...]
    picture: str | None
    alt: str
    words: tuple[WritingWord, ...]
