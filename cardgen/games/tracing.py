"""Plans letters to trace from their pen strokes: roads with starts and arrows, and dotted letters and words.

Everything is in units, a thousandth of an em, y upwards from the writing line. Each letter is planned once.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from cardgen.games.pieces import PEN, DottedLetters, RoadLetters, Stroke
from cardgen.games.tracing_arrows import plan_arrows
from cardgen.games.tracing_starts import plan_starts
from cardgen.games.tracing_ways import dots_along, start_of, ways_of
from cardgen.units import Typeface, Widths

Strokes = tuple[Stroke, ...]
ROAD_DOTS = 34.0  # units between the dots in the middle of a road
ROAD_SPACING = 70.0  # more white between the letters of a road: it is wider than the pen


@dataclass(frozen=True, slots=True)
class Hand:
    """How letters are written: the strokes of each, and the measures of the typeface that says how they stand."""

    strokes: Mapping[str, Strokes]
    widths: Widths

    def missing(self, text: str) -> str:
        """Return the letters of `text` that have no strokes, each once, in order."""
        return "".join(dict.fromkeys(letter for letter in text if letter not in self.strokes))


def road(text: str, hand: Hand) -> RoadLetters:
    """Return a letter, or several as one, as a road to follow; KeyError for a letter without strokes."""
    return _road(text, _placed(text, hand, ROAD_SPACING))


def dotted(text: str, hand: Hand, gap: float) -> DottedLetters:
    """Return a letter or word in dots about `gap` units apart, spaced as the typeface has it."""
    letters = [(moved(_dotted(hand.strokes[letter], gap), x), x) for letter, x in _offsets(text, hand, 0.0)]
    left, right = _reach(text, hand, 0.0)
    starts = dict.fromkeys(
        (start_of(stroke).real + x, start_of(stroke).imag)
        for letter, x in _offsets(text, hand, 0.0)
        for stroke in hand.strokes[letter]
    )
    return DottedLetters(text, tuple(dot for dots, _ in letters for dot in dots), tuple(starts), left, right)


def moved(points: tuple[complex, ...], x: float) -> tuple[tuple[float, float], ...]:
    """Return points moved to the right."""
    return tuple((point.real + x, point.imag) for point in points)


@lru_cache(maxsize=1024)
def _dotted(strokes: Strokes, gap: float) -> tuple[complex, ...]:
    return dots_along(strokes, gap)


@lru_cache(maxsize=256)
def _road(text: str, letters: tuple[Strokes, ...]) -> RoadLetters:
    strokes = tuple(stroke for letter in letters for stroke in letter)
    numbers = tuple(number for letter in letters for number in range(1, len(letter) + 1))
    ways = ways_of(strokes)
    starts = plan_starts(strokes, numbers, ways)
    dots = moved(dots_along(strokes, ROAD_DOTS), 0.0)
    xs = [x for x, _ in dots]
    return RoadLetters(text, strokes, starts, plan_arrows(ways, starts), dots, min(xs), max(xs))


def _offsets(text: str, hand: Hand, spacing: float) -> list[tuple[str, float]]:
    """Return each letter with how far its strokes move to the right, so that they stand as the typeface's letters."""
    table, pen, placed = hand.widths.glyphs[Typeface.LEARNING], 0.0, []
    for letter in text:
        glyph = table[letter]
        placed.append((letter, pen + 1000 * glyph.ink_left + PEN / 2 - _left(hand.strokes[letter])))
        pen += 1000 * glyph.advance + spacing
    return placed


def _placed(text: str, hand: Hand, spacing: float) -> tuple[Strokes, ...]:
    return tuple(
        tuple(_shifted(stroke, x) for stroke in hand.strokes[letter]) for letter, x in _offsets(text, hand, spacing)
    )


def _shifted(stroke: Stroke, x: float) -> Stroke:
    """Return a stroke moved to the right: every other number is an x."""
    return tuple(
        (command, *(number if place % 2 else number + x for place, number in enumerate(numbers)))
        for command, *numbers in stroke
    )


@lru_cache(maxsize=256)
def _left(strokes: Strokes) -> float:
    """Return how far left the pen's middle reaches."""
    return min([p.real for way in ways_of(strokes) for p in way.points] + [start_of(s).real for s in strokes])


def _reach(text: str, hand: Hand, spacing: float) -> tuple[float, float]:
    """Return how far the pen's middle reaches to the left and right, in units."""
    left, right = hand.widths.ink(text, Typeface.LEARNING)
    return 1000 * left + PEN / 2, 1000 * right + spacing * (len(text) - 1) - PEN / 2
