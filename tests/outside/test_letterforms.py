"""Can a child tell the letters apart? Measured on the built font as it is rasterised, with a sans that fails.

The similarity of two letters is the Hausdorff distance of their ink in x-heights, at the best sideways shift: the
distance from the farthest place of ink in one letter to the nearest ink of the other. The thresholds are our own
choice; only the counter-example shows that they can fail.
"""

from functools import cache
from itertools import combinations
from pathlib import Path
from string import ascii_lowercase

import numpy as np
import pytest
import reportlab
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from cardgen.sources import shelf

X_HEIGHT = 50  # pixels
CANVAS = 240
BASE = (90, 150)  # where the pen starts on the baseline

OURS = Path(str(shelf.folder("art"))) / "letters" / "CardgenInfant-Regular.ttf"
SANS = Path(reportlab.__file__).parent / "fonts" / "Vera.ttf"


@cache
def ink(font: Path, letter: str, treatment: str = "") -> NDArray[np.intp]:
    """The places of a letter's ink, as rows and columns; a turned letter is set on the writing line again."""
    top = ImageFont.truetype(font, 1000).getbbox("x", anchor="ls")[1]
    face = ImageFont.truetype(font, 1000 * X_HEIGHT / -top, layout_engine=ImageFont.Layout.BASIC)
    image = Image.new("L", (CANVAS, CANVAS))
    ImageDraw.Draw(image).text(BASE, letter, font=face, fill=255, anchor="ls")
    rows, columns = np.nonzero(np.asarray(image) > 127)
    if treatment:
        columns = columns.max() - columns
    if treatment == "turned":
        rows = BASE[1] - 1 - (rows - rows.min())
    return np.stack([rows, columns - (columns.min() + columns.max()) // 2 + CANVAS // 2])


@cache
def distances(font: Path, letter: str, treatment: str = "") -> NDArray[np.float64]:
    """For every place of the canvas, how far the letter's nearest ink is, in pixels."""
    rows, columns = ink(font, letter, treatment)
    grid = np.arange(CANVAS)
    squares = np.full((CANVAS, CANVAS), np.inf)
    for row in np.unique(rows):
        across = np.abs(grid[:, None] - columns[rows == row]).min(axis=1)
        squares = np.minimum(squares, (grid[:, None] - row) ** 2 + across[None, :] ** 2)
    return np.asarray(np.sqrt(squares))


def apart(font: Path, one: str, other: str, treatment: str = "") -> float:
    """The Hausdorff distance in x-heights of a letter and another (or that one mirrored or turned)."""
    (rows, columns), (other_rows, other_columns) = ink(font, one), ink(font, other, treatment)
    to_one, to_other = distances(font, one), distances(font, other, treatment)
    farthest = [
        max(to_other[rows, columns + shift].max(), to_one[other_rows, other_columns - shift].max())
        for shift in range(-X_HEIGHT // 2, X_HEIGHT // 2 + 1)
    ]
    return float(min(farthest)) / X_HEIGHT


@pytest.mark.parametrize(
    ("one", "other", "treatment", "least"),
    [
        ("I", "l", "", 0.20),
        ("I", "1", "", 0.20),
        ("I", "i", "", 0.20),
        ("l", "1", "", 0.15),
        ("l", "i", "", 0.15),
        ("1", "i", "", 0.15),
        ("O", "0", "", 0.18),
        ("S", "5", "", 0.11),
        ("a", "o", "", 0.18),
        ("b", "d", "mirrored", 0.10),
        ("p", "q", "mirrored", 0.10),
        ("b", "q", "turned", 0.10),
        ("d", "p", "turned", 0.10),
        ("n", "u", "turned", 0.10),
        ("6", "9", "turned", 0.25),
        ("M", "W", "turned", 0.25),
    ],
)
def test_risky_pairs_are_apart(one: str, other: str, treatment: str, least: float) -> None:
    assert apart(OURS, one, other, treatment) >= least


def test_no_two_small_letters_are_close() -> None:
    found = {one + other: apart(OURS, one, other) for one, other in combinations(ascii_lowercase, 2)}
    assert min(found.values()) >= 0.15, min(found, key=lambda pair: found[pair])


@pytest.mark.parametrize(
    ("one", "other", "treatment"), [("I", "l", ""), ("b", "d", "mirrored"), ("6", "9", "turned"), ("n", "u", "turned")]
)
def test_a_sans_for_adults_fails(one: str, other: str, treatment: str) -> None:
    assert apart(SANS, one, other, treatment) < 0.08


def test_the_measure_knows_a_letter_again() -> None:
    assert apart(OURS, "o", "o") == 0
    assert apart(OURS, "o", "o", "turned") < 0.05
    assert apart(OURS, "v", "v", "mirrored") < 0.05


def test_small_letters_are_tall_beside_capitals() -> None:
    """Larger x-heights were read faster: Wilkins et al. 2009, 7 to 9 years; the ratio itself is our choice."""
    face = ImageFont.truetype(OURS, 1000)
    x_height, capital = (-face.getbbox(letter, anchor="ls")[1] for letter in "xH")
    assert x_height / capital == pytest.approx(0.69, abs=0.01)
