"""Letters to trace on paper: the road with its numbers and arrows, dotted letters, guide lines. Lengths in mm.

Units of the letters (a thousandth of an em, y upwards from the writing line) become mm by the scale `k`, mm a unit.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cardgen.games.pieces import (
    ARROW_LINE,
    DISC,
    DOT_PENS,
    PEN,
    START_DOT,
    Arrow,
    DottedLetters,
    Ink,
    RoadLetters,
    Start,
    Stroke,
)
from cardgen.sheets import faces
from cardgen.sheets.marks import Item, Label, Line, Outline, Panel, Path
from cardgen.sheets.signs import circle
from cardgen.sheets.style import CAPITAL_HEIGHT, FRAME_PT, HAIR_PT, INK, LINE, Style
from cardgen.units import Box, Typeface, Widths, mm_of_points, points_of_mm

ASCENDER, X_LINE, DESCENDER = 760.0, 500.0, -260.0  # the guides, in units
ROW_UNITS = ASCENDER - DESCENDER
TINT, ROAD, WHITE = "#EEF1F5", "#E3E7EC", "#FFFFFF"
RIM = 0.26
X_LINE_DASH = (mm_of_points(2), mm_of_points(3))
ROAD_DOT = 13.0  # units
MOST_DISC, MOST_START_DOT = 3.75, 1.3  # mm, radius
DIGIT_SHARE = 0.72  # of a disc's width: the height of its number
TRACING_DOT = 0.52  # mm, across
LEAST_START_DOT, WIDEST_START_DOT = 1.3, 2.0  # mm, across, in the rows


@dataclass(frozen=True, slots=True)
class Spot:
    """Where letters stand: the x of their unit 0 and their writing line in mm, and the scale in mm a unit."""

    x: float
    y: float
    k: float

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        """Return a point of the letter in mm on the sheet."""
        return self.x + point[0] * self.k, self.y - point[1] * self.k

    def path(self, strokes: Iterable[Stroke]) -> Path:
        """Return strokes as one path; a dot becomes a line without length, which a round pen draws as a dot."""
        return tuple(segment for stroke in strokes for segment in self._segments(stroke))

    def _segments(self, stroke: Stroke) -> Iterator[tuple[str, *tuple[float, ...]]]:
        for command, *numbers in stroke:
            places = zip(numbers[::2], numbers[1::2], strict=True)
            mm = [number for place in places for number in self.at(place)]
            if command == "D":
                yield ("M", *mm)
                yield ("L", *mm)
            else:
                yield (command, *mm)


def guides(x1: float, x2: float, y: float, k: float, ink: Ink, *, band: bool) -> tuple[Item, ...]:
    """Return the four lines, with the tinted band of small letters if it can be printed without a halftone."""
    colour = Style.of(ink).line
    high = X_LINE * k
    tinted = (Panel(Box(x1, y - high, x2 - x1, high), 0.0, TINT),) if band and ink is not Ink.LINE else ()
    return (
        *tinted,
        Line(x1, y - ASCENDER * k, x2, y - ASCENDER * k, HAIR_PT, colour),
        Line(x1, y - high, x2, y - high, HAIR_PT, colour, X_LINE_DASH),
        Line(x1, y, x2, y, FRAME_PT, colour),
        Line(x1, y - DESCENDER * k, x2, y - DESCENDER * k, HAIR_PT, colour),
    )


def road(letters: RoadLetters, spot: Spot, pen: float, ink: Ink, widths: Widths) -> tuple[Item, ...]:
    """Return the letter as a road `pen` units wide, with dots in its middle, arrows, and a number at every start."""
    lines = [stroke for stroke in letters.strokes if stroke[0][0] != "D"]
    points = [stroke for stroke in letters.strokes if stroke[0][0] == "D"]
    drawn: list[Item] = []
    # Every rim lies under every road, or a rim would run across a crossing.
    for more, colour in ((2 * RIM, Style.of(ink).line), (0.0, WHITE if ink is Ink.LINE else ROAD)):
        for strokes, width in ((lines, pen), (points, pen * DOT_PENS)):
            if strokes:
                weight = points_of_mm(width * spot.k + more)
                drawn.append(Outline(spot.path(strokes), None, colour, weight))
    if ink is not Ink.LINE:
        drawn.append(_dots(letters.dots, spot, ROAD_DOT * spot.k, WHITE))
    for arrow in letters.arrows:
        drawn += _arrow(arrow, spot)
    for start in letters.starts:
        drawn += _start(start, spot)
    # The discs first, then the numbers: a leader must not run over a number.
    return (*drawn, *(_number(start, spot, widths) for start in letters.starts))


def _dots(points: Iterable[tuple[float, float]], spot: Spot, width: float, colour: str) -> Outline:
    """Return round dots of a width in mm as one path of lines without length."""
    return Outline(spot.path((("D", *point),) for point in points), None, colour, points_of_mm(width))


def _arrow(arrow: Arrow, spot: Spot) -> tuple[Item, ...]:
    (x, y), *rest = [spot.at(point) for point in arrow.shaft]
    tip, *corners = [spot.at(corner) for corner in arrow.head]
    shaft = Outline((("M", x, y), *(("L", *p) for p in rest)), None, INK, points_of_mm(ARROW_LINE * spot.k))
    return (shaft, Outline((("M", *tip), *(("L", *c) for c in corners), ("Z",)), INK))


def disc_radius(k: float) -> float:
    """Return the radius in mm of the disc that holds a number."""
    return min(DISC * k, MOST_DISC)


def _start(start: Start, spot: Spot) -> Iterator[Item]:
    x, y = spot.at(start.disc)
    if start.beside:
        at = spot.at(start.place)
        yield Line(*at, x, y, FRAME_PT, INK)
        yield Outline(circle(*at, min(MOST_START_DOT, START_DOT * spot.k)), INK)
    yield Outline(circle(x, y, disc_radius(spot.k)), INK)


def _number(start: Start, spot: Spot, widths: Widths) -> Label:
    x, y = spot.at(start.disc)
    em = DIGIT_SHARE * 2 * disc_radius(spot.k) / CAPITAL_HEIGHT
    left, right = widths.ink(str(start.number), Typeface.LEARNING)
    base = y + em * CAPITAL_HEIGHT / 2
    return Label(x - (left + right) / 2 * em, base, str(start.number), points_of_mm(em), Typeface.LEARNING, WHITE)


def model(cx: float, y: float, text: str, k: float, widths: Widths) -> Label:
    """Return a letter or word in full ink, its pen's middle on the guides (the font stands on its ink instead)."""
    return faces.letter(cx, y + PEN / 2 * k, text, 1000 * k, widths)


def dotted(letters: DottedLetters, spot: Spot, ink: Ink) -> Outline:
    """Return letters in grey dots to write over."""
    return _dots(letters.dots, spot, TRACING_DOT, INK if ink is Ink.LINE else LINE)


def start_dots(letters: DottedLetters, spot: Spot) -> Outline:
    """Return a dot on every start: 2 mm across, less in the smallest rows."""
    across = max(LEAST_START_DOT, min(WIDEST_START_DOT, X_LINE * spot.k / 6))
    # Circles, not lines without length: PDFium draws those a little too wide, which shows in dots as large as these.
    rounds = [circle(*spot.at(start), across / 2) for start in letters.starts]
    return Outline(tuple(segment for one in rounds for segment in one), INK)
