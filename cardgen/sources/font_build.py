"""Builds the TrueType font of the project's letterforms: `python -m cardgen.sources.font_build` writes it anew.

The built font is kept in `art/letters/`, so that only this module needs skia-pathops. Two builds give the same bytes.
Lengths are in units of the strokes, a thousandth of an em, unless they are called font units.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from io import BytesIO
from itertools import pairwise
from pathlib import Path as FilePath

from fontTools.agl import UV2AGL
from fontTools.fontBuilder import FontBuilder
from fontTools.misc.roundTools import otRound
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables.ttProgram import Program
from pathops import LineCap, LineJoin, PathVerb
from pathops import Path as Outline

from cardgen.sheets.marks import Path
from cardgen.sources.letterforms import Letterforms, Metrics, Point, letterforms

FAMILY = "Cardgen Infant"
FILE = FilePath(__file__).parents[2] / "art" / "letters" / "CardgenInfant-Regular.ttf"

# Font units to a unit of the strokes: at 4000 to the em, rounding to whole font units does not dent the curves.
SCALE = 4
# Skia's tolerances are absolute: strokes are outlined enlarged.
ENLARGED = 4
# How far a round end may leave its circle. Fewer, longer pieces lose less by rounding than many short ones.
ROUNDNESS = 1.0
# Seconds since 1904, as the table `head` counts them: 1 January 2024. A fixed date keeps the bytes the same.
DATE = 3786912000
# "Not hinted, but let no thin line drop out" (TrueType instructions SCANCTRL and SCANTYPE).
SMOOTH = bytes.fromhex("b801ff85b0048d")
# An accent that is wider than its letter keeps this much white.
ACCENT_WHITE = 16

# The first and last place with ink in every row of a letter, the rows a unit high.
Rows = Mapping[int, tuple[float, float]]


def build_font(letters: Letterforms) -> bytes:
    """Return the TrueType font of the letterforms, 4000 font units to the em; the ink stands on the baseline."""
    outlines = {letter: outline(strokes, letters.metrics) for letter, strokes in letters.strokes.items()}
    rows = {letter: _rows(drawn) for letter, drawn in outlines.items()}
    names = {letter: UV2AGL.get(ord(letter), f"uni{ord(letter):04X}") for letter in outlines}
    glyphs = {".notdef": _missing(), "space": TTGlyphPen(None).glyph()}
    advances = {".notdef": 410.0, "space": letters.spacing.space}
    for letter, drawn in outlines.items():
        left, right = _box(letter, rows, letters)
        glyphs[names[letter]] = _glyph(drawn, -left, letters.metrics.pen / 2)
        advances[names[letter]] = right - left
    codes = {ord(letter): name for letter, name in (names | {" ": "space", "\N{NO-BREAK SPACE}": "space"}).items()}
    return _assembled(glyphs, advances, codes, letters.metrics)


def outline(strokes: Iterable[Path], metrics: Metrics) -> Outline:
    """Return the ink of a letter: its strokes, drawn with a round pen and united."""
    whole = Outline()
    for stroke in strokes:
        width = metrics.pen * (metrics.dot if stroke[0][0] == "D" else 1)
        ink = _line(stroke).transform(ENLARGED, 0, 0, ENLARGED, 0, 0)
        ink.stroke(width * ENLARGED, LineCap.ROUND_CAP, LineJoin.ROUND_JOIN, 4)
        ink.convertConicsToQuads(ROUNDNESS * ENLARGED)
        ink.transform(1 / ENLARGED, 0, 0, 1 / ENLARGED, 0, 0).draw(whole.getPen())
    whole.simplify(fix_winding=True, keep_starting_points=False, clockwise=True)
    return whole


def _line(stroke: Path) -> Outline:
    line = Outline()
    for command, *numbers in stroke:
        if command == "M":
            line.moveTo(*numbers)
        elif command == "L":
            line.lineTo(*numbers)
        elif command == "C":
            line.cubicTo(*numbers)
        else:  # a dot: skia draws no line of no length
            line.moveTo(*numbers)
            line.lineTo(numbers[0] + 0.01, numbers[1])
    return line


def _edges(drawn: Outline) -> Iterator[tuple[Point, Point]]:
    """Yield the outline as short straight edges."""
    start = at = (0.0, 0.0)
    for verb, points in drawn:
        if verb == PathVerb.MOVE:
            start = at = points[0]
        elif verb == PathVerb.QUAD:
            (x0, y0), ((x1, y1), (x2, y2)) = at, points
            shares = [((1 - t) ** 2, 2 * t * (1 - t), t * t) for t in (step / 8 for step in range(9))]
            yield from pairwise((a * x0 + b * x1 + c * x2, a * y0 + b * y1 + c * y2) for a, b, c in shares)
            at = points[1]
        else:
            goal = points[0] if verb == PathVerb.LINE else start
            yield at, goal
            at = goal


def _rows(drawn: Outline) -> Rows:
    """Return where the ink of every row, measured through its middle, begins and ends."""
    rows: dict[int, tuple[float, float]] = {}
    for (x0, y0), (x1, y1) in _edges(drawn):
        low, high = sorted((y0, y1))
        for row in range(math.ceil(low - 0.5), math.ceil(high - 0.5)):
            x = x0 + (x1 - x0) * (row + 0.5 - y0) / (y1 - y0)
            left, right = rows.get(row, (x, x))
            rows[row] = (min(left, x), max(right, x))
    return rows


def _box(letter: str, rows: Mapping[str, Rows], letters: Letterforms) -> tuple[float, float]:
    """Return the left and right edge of a letter's box; an accented letter has its plain one's, unless it is wider."""
    plain = letters.bases.get(letter)
    if plain:
        left, right = _box(plain, rows, letters)
        inks = rows[letter].values()
        return min(left, *(ink[0] - ACCENT_WHITE for ink in inks)), max(right, *(ink[1] + ACCENT_WHITE for ink in inks))
    spacing, ink = letters.spacing, rows[letter]
    if not letter.isalnum():
        return min(ink[0] for ink in ink.values()) - spacing.other, max(ink[1] for ink in ink.values()) + spacing.other
    if letter.islower():
        return _even_box(ink, letters.metrics.xheight, spacing.small, spacing.least_small, spacing.depth)
    return _even_box(ink, letters.metrics.ascender, spacing.tall, spacing.least_tall, spacing.depth)


def _even_box(ink: Rows, height: float, white: float, least: float, depth: float) -> tuple[float, float]:
    """Return the box with the same mean white on both sides between the writing line and `height`.

    Bays count to `depth`. Ink under the writing line is left out: the hooks of j, y and g may reach under a neighbour.
    """
    above = [edges for row, edges in ink.items() if row >= 0]
    left, right = min(edges[0] for edges in above), max(edges[1] for edges in above)
    edges = [ink.get(row, (math.inf, -math.inf)) for row in range(otRound(height))]
    before = sum(min(depth, x0 - left) for x0, _ in edges) / len(edges)
    after = sum(min(depth, right - x1) for _, x1 in edges) / len(edges)
    return left - max(white - before, least), right + max(white - after, least)


def _glyph(drawn: Outline, dx: float, dy: float) -> object:
    """Return the outline, moved, as a glyph in whole font units, without the segments that rounding has emptied."""
    pen, at = TTGlyphPen(None), None
    for verb, points in drawn.transform(SCALE, 0, 0, SCALE, dx * SCALE, dy * SCALE).segments:
        whole = [point and (otRound(point[0]), otRound(point[1])) for point in points]
        if verb in ("lineTo", "qCurveTo") and all(point == at for point in whole):
            continue
        getattr(pen, verb)(*whole)
        at = whole[-1] if whole else None
    return pen.glyph()


def _missing() -> object:
    """Return the glyph for letters that the font does not have: an upright frame."""
    pen = TTGlyphPen(None)
    for frame in (
        [(120, 0), (120, 3000), (1520, 3000), (1520, 0)],
        [(320, 200), (1320, 200), (1320, 2800), (320, 2800)],
    ):
        pen.moveTo(frame[0])
        for corner in frame[1:]:
            pen.lineTo(corner)
        pen.closePath()
    return pen.glyph()


def _assembled(
    glyphs: Mapping[str, object], advances: Mapping[str, float], codes: Mapping[int, str], metrics: Metrics
) -> bytes:
    builder = FontBuilder(1000 * SCALE, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap(dict(codes))
    builder.setupGlyf(dict(glyphs))
    table = builder.font["glyf"]
    builder.setupHorizontalMetrics(
        {name: (otRound(advances[name] * SCALE), getattr(table[name], "xMin", 0)) for name in glyphs}
    )
    top = max(getattr(table[name], "yMax", 0) for name in glyphs)
    bottom = min(getattr(table[name], "yMin", 0) for name in glyphs)
    builder.setupHorizontalHeader(ascent=top, descent=bottom)
    builder.setupOS2(
        sTypoAscender=top,
        sTypoDescender=bottom,
        sTypoLineGap=0,
        usWinAscent=top,
        usWinDescent=-bottom,
        sxHeight=otRound((metrics.xheight + metrics.pen) * SCALE),
        sCapHeight=otRound((metrics.ascender + metrics.pen) * SCALE),
        achVendID="NONE",
        fsType=0,
        usWeightClass=400,
        fsSelection=0x40 | 0x80,
        version=4,
        ulUnicodeRange1=0b111,
        ulCodePageRange1=1,
    )
    builder.setupNameTable(
        {
            "familyName": FAMILY,
            "styleName": "Regular",
            "uniqueFontIdentifier": f"{FAMILY} Regular 1.000",
            "fullName": f"{FAMILY} Regular",
            "version": "Version 1.000",
            "psName": FILE.stem,
        },
        mac=False,
    )
    builder.setupPost(underlinePosition=-100 * SCALE, underlineThickness=50 * SCALE)
    _set_smooth(builder.font)
    builder.font["head"].created = builder.font["head"].modified = DATE
    builder.font.recalcTimestamp = False
    written = BytesIO()
    builder.save(written)
    return written.getvalue()


def _set_smooth(font: TTFont) -> None:
    """Ask every renderer for smooth, unhinted letters at all sizes."""
    font["prep"] = newTable("prep")
    font["prep"].program = Program()
    font["prep"].program.fromBytecode(SMOOTH)
    font["gasp"] = newTable("gasp")
    font["gasp"].version = 1
    font["gasp"].gaspRange = {0xFFFF: 0b1111}


if __name__ == "__main__":
    FILE.write_bytes(build_font(letterforms()))
