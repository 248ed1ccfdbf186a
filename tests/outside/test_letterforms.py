"""Can a child tell the letters apart? Measured on the built font as it is rasterised, with a sans that fails.

The similarity of two letters is the Hausdorff distance of their ink in x-heights, at the best sideways shift: the
distance from the farthest place of ink in one letter to the nearest ink of the other. The thresholds are our own
choice; only the counter-example shows that they can fail.
"""

from functools import cache
from itertools import combinations
from pathlib import Path

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
def ink(font: Path, letter: str, treatment: str = "") -> NDArray[np.bool_]:
    trial = ImageFont.truetype(font, 1000)
    top = trial.getbbox("x", anchor="ls")[1]
    face = ImageFont.truetype(font, 1000 * X_HEIGHT / -top, layout_engine=ImageFont.Layout.BASIC)
    image = Image.new("L", (CANVAS, CANVAS))
    ImageDraw.Draw(image).text(BASE, letter, font=face, fill=255, anchor="ls")
    if treatment == "mirrored":
        image = image.transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    if treatment == "turned":
        image = image.transpose(Image.Transpose.ROTATE_180)
    drawn = np.asarray(image) > 127
    ys, xs = np.nonzero(drawn)
    # A turned card has no writing line: lay the ink's own foot where the upright letter's foot would be.
    up = round(BASE[1] - ys.max()) if treatment == "turned" else 0
    return np.roll(drawn, (up, CANVAS // 2 - (xs.min() + xs.max()) // 2), axis=(0, 1))


@cache
def distances(font: Path, letter: str, treatment: str) -> NDArray[np.float64]:
    """For every place, how far the nearest ink is, in pixels."""
    ys, xs = np.nonzero(ink(font, letter, treatment))
    grid = np.arange(CANVAS)
    field = np.full((CANVAS, CANVAS), np.inf)
    for row in np.unique(ys):
        across = np.abs(grid[:, None] - xs[ys == row]).min(axis=1)
        field = np.minimum(field, (grid[:, None] - row) ** 2 + across[None, :] ** 2)
    return np.sqrt(field)


def apart(font: Path, one: str, other: str, treatment: str = "") -> float:
    """Return the Hausdorff distance in x-heights of a letter and another (mirrored or turned) one."""
    first, second = ink(font, one), ink(font, other, treatment)
    near_first, near_second = distances(font, one, ""), distances(font, other, treatment)
    return (
        min(
            max(near_second[np.roll(first, shift, axis=1)].max(), near_first[np.roll(second, -shift, axis=1)].max())
            for shift in range(-X_HEIGHT, X_HEIGHT + 1)
        )
        / X_HEIGHT
    )


if __name__ == "__main__":
    for f in (OURS, SANS, Path("/tmp/w/letters/start.ttf")):
        print(f.name)
        for a, b in combinations("Il1i", 2):
            print(a, b, round(apart(f, a, b), 3))
        for a, b, t in (
            ("b", "d", "mirrored"),
            ("p", "q", "mirrored"),
            ("6", "9", "turned"),
            ("n", "u", "turned"),
            ("d", "p", "turned"),
            ("b", "q", "turned"),
            ("a", "o", ""),
            ("a", "d", ""),
            ("o", "e", ""),
            ("c", "e", ""),
            ("c", "o", ""),
            ("h", "n", ""),
            ("g", "q", ""),
            ("v", "y", ""),
            ("C", "G", ""),
            ("O", "Q", ""),
            ("O", "0", ""),
            ("S", "5", ""),
            ("n", "m", ""),
            ("i", "j", ""),
            ("f", "t", ""),
            ("u", "v", ""),
            ("M", "W", "turned"),
            ("t", "f", "turned"),
            ("Z", "2", ""),
            ("I", "1", ""),
            ("O", "D", ""),
        ):
            print(a, b, t, round(apart(f, a, b, t), 3))
        import string

        res = sorted((round(apart(f, a, b), 3), a + b) for a, b in combinations(string.ascii_lowercase, 2))[:12]
        print(res)
