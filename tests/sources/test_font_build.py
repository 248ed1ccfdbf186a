"""The built font: that it is the one in the folder, and that its letters are sound."""

import math
from functools import cache
from io import BytesIO
from typing import Any

import pytest
from fontTools.pens.basePen import BasePen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from cardgen.sources import font_build, shelf
from cardgen.sources.letterforms import Point, letterforms

EM = 4000


@cache
def font() -> TTFont:
    return TTFont(BytesIO(shelf.read_bytes("art/letters/CardgenInfant-Regular.ttf")))


def contours(letter: str) -> int:
    return int(glyph(letter).numberOfContours)


def bounds(letter: str) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of the ink itself, without the control points that lie outside it."""
    pen = BoundsPen(None)
    font().getGlyphSet()[font().getBestCmap()[ord(letter)]].draw(pen)
    left, bottom, right, top = pen.bounds
    return left, bottom, right, top


def glyph(letter: str) -> Any:
    return font()["glyf"][font().getBestCmap()[ord(letter)]]


def test_the_font_in_the_folder_is_the_one_the_letterforms_give() -> None:
    built = font_build.build_font(letterforms())
    assert built == font_build.build_font(letterforms())
    assert built == font_build.FILE.read_bytes(), "run: python -m cardgen.sources.font_build"


def test_every_letter_has_its_code_and_its_ink_inside_its_limits() -> None:
    codes = font().getBestCmap()
    assert set(codes) == {ord(letter) for letter in letterforms().strokes} | {0x20, 0xA0}
    assert codes[0x20] == codes[0xA0]
    for letter in letterforms().strokes:
        assert glyph(letter).numberOfContours > 0
        advance, _ = font()["hmtx"][codes[ord(letter)]]
        assert advance > glyph(letter).xMax - 0.14 * EM
        assert font()["OS/2"].usWinAscent >= glyph(letter).yMax
        assert font()["OS/2"].usWinDescent >= -glyph(letter).yMin


def test_the_ink_stands_on_the_baseline_and_fills_the_named_heights() -> None:
    for letter, top in {"x": 0.586, "z": 0.586, "H": 0.846, "l": 0.846, "1": 0.846}.items():
        _, low, _, high = bounds(letter)
        assert low / EM == pytest.approx(0, abs=0.0005)
        assert high / EM == pytest.approx(top, abs=0.0005)
    assert bounds("p")[1] / EM == pytest.approx(-0.26, abs=0.0005)


def test_the_font_says_who_it_is_and_when_it_is_from() -> None:
    names = font()["name"]
    assert names.getDebugName(1) == "Cardgen Infant"
    assert names.getDebugName(6) == "CardgenInfant-Regular"
    assert font()["head"].created == font()["head"].modified
    assert font()["OS/2"].fsType == 0  # may be embedded without limits


def test_accents_stand_clear_of_their_letters() -> None:
    for letter, base in letterforms().bases.items():
        marks = len(letterforms().strokes[letter]) - len(letterforms().strokes[base])
        assert contours(letter) == contours(base) + marks, letter


def test_an_accented_letter_is_spaced_as_its_plain_one() -> None:
    advances = {letter: font()["hmtx"][font().getBestCmap()[ord(letter)]][0] for letter in "eéêoöaãnñcç"}
    for group in ("eéê", "oö", "aã", "nñ", "cç"):
        assert len({advances[letter] for letter in group}) == 1


def test_stems_of_straight_letters_have_the_same_white_on_both_sides() -> None:
    for letter in "HNMoOvxAT":
        advance, _ = font()["hmtx"][font().getBestCmap()[ord(letter)]]
        left, _, right, _ = bounds(letter)
        assert advance - right == pytest.approx(left, abs=0.001 * EM)


class Directions(BasePen):  # type: ignore[misc]  # fontTools has no types
    """The direction in which every piece of an outline begins and ends, contour by contour."""

    def __init__(self) -> None:
        super().__init__(None)
        self.contours: list[list[tuple[Point, Point]]] = []

    def _moveTo(self, pt: Point) -> None:  # noqa: N802
        self.contours.append([])

    def _lineTo(self, pt: Point) -> None:  # noqa: N802
        x, y = self._getCurrentPoint()
        self.contours[-1].append(((pt[0] - x, pt[1] - y), (pt[0] - x, pt[1] - y)))

    def _qCurveToOne(self, pt1: Point, pt2: Point) -> None:  # noqa: N802
        x, y = self._getCurrentPoint()
        self.contours[-1].append(((pt1[0] - x, pt1[1] - y), (pt2[0] - pt1[0], pt2[1] - pt1[1])))


@pytest.mark.parametrize("letter", list("SOCscoe0238"))
def test_curves_are_smooth(letter: str) -> None:
    """From piece to piece the outline turns by under 3 degrees, or it is a corner of over 25."""
    pen = Directions()
    font().getGlyphSet()[font().getBestCmap()[ord(letter)]].draw(pen)
    for pieces in pen.contours:
        for (_, (a, b)), ((c, d), _) in zip(pieces, pieces[1:] + pieces[:1], strict=True):
            turn = abs(math.degrees(math.atan2(a * d - b * c, a * c + b * d)))
            assert turn < 3 or turn > 25
