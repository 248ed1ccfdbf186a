"""No white sliver between two inks in the line drawings: at 25 mm a printer or a pencil closes it.

The house style asks for 2 units of white (0.5 mm at 25 mm) where a picture is drawn. What is enforced here is 1 unit
(0.25 mm at 25 mm): our own choice, no source. A sliver is a strip of white narrower than that and longer than
4 units; the corner where two lines meet is none, for there is one ink on both its sides.
"""

from collections.abc import Iterator

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray

from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Shape
from cardgen.sources import pictures
from tests.outside.test_pictures import NAMES, as_pdf

SCALE = 7  # pixels to a unit: the narrowest gap allowed is then 7 pixels, a disc with a pixel in its middle
NARROW = 1.0  # units
LONG = 4.0  # units
BLUNT = 0.62  # a strip open at one end alone is a corner when its mean width is less than this share of NARROW

# Pictures with finer parts than the rule allows, each with its reason.
FINER: dict[str, str] = {
    "archer": "the point of the arrow passes close by the bow",
    "doll": "locks of the fringe end just above the button eyes",
    "fairy": "a spot at the edge of the wing",
    "fan": "blades behind the wires of the guard",
    "fox": "the dark linings of narrow ears",
    "giraffe": "patches follow the edge of the coat",
    "iceberg": "waves run along the water line",
    "lizard": "a spot near the edge of the thin tail",
    "otter": "paws held under the chin",
    "ouch": "the ear touches the bandaged thumb",
    "peanut": "shell, rim and kernel lie one in another",
    "raccoon": "the two halves of the mask meet on the nose",
    "ride": "the neck shows between head and shoulder",
    "shorts": "the bow of the cord fills the waistband",
    "waffle": "butter and syrup lie over the grid",
    "witch": "striped stockings",
}

Mask = NDArray[np.bool_]


def white(drawing: Drawing) -> Mask:
    """The pixels without ink, as PDFium renders them."""
    with pypdfium2.PdfDocument(as_pdf(drawing)) as document:
        return np.array(document[0].render(scale=SCALE, grayscale=True).to_numpy()) > 128


def grown(mask: Mask, radius: float) -> Mask:
    """The mask and all pixels within the radius of it: one row of the disc after another."""
    rows = {0: mask}
    for reach in range(1, int(radius) + 1):
        wider = rows[reach - 1].copy()
        wider[:, reach:] |= mask[:, :-reach]
        wider[:, :-reach] |= mask[:, reach:]
        rows[reach] = wider
    disc = rows[int(radius)].copy()
    for height in range(1, int(radius) + 1):
        row = rows[int((radius**2 - height**2) ** 0.5)]
        disc[height:] |= row[:-height]
        disc[:-height] |= row[height:]
    return disc


def blobs(mask: Mask) -> Iterator[NDArray[np.int_]]:
    """Pixels that hang together, corners included: rows of (y, x)."""
    left = {(int(y), int(x)) for y, x in np.argwhere(mask)}
    while left:
        waiting, blob = [left.pop()], []
        while waiting:
            y, x = waiting.pop()
            blob.append((y, x))
            beside = left & {(y + down, x + right) for down in (-1, 0, 1) for right in (-1, 0, 1)}
            left -= beside
            waiting.extend(beside)
        yield np.array(sorted(blob))


def length(blob: NDArray[np.int_], box: Mask) -> float:
    """Pixels along a strip, straight or bent: its reach, or half of its rim if that is more."""
    inner = box[1:-1, 1:-1] & box[:-2, 1:-1] & box[2:, 1:-1] & box[1:-1, :-2] & box[1:-1, 2:]
    around = blob - blob.mean(axis=0)
    along = around @ np.linalg.svd(around, full_matrices=False)[2][0]
    return max(float(np.ptp(along)) + 1, (len(blob) - int(inner.sum())) / 2)


def slivers(drawing: Drawing) -> list[tuple[int, int]]:
    """The middles of the slivers, x and y in units."""
    paper = np.pad(white(drawing), 3, constant_values=True)
    radius = NARROW * SCALE / 2 - 0.5
    roomy = grown(~grown(~paper, radius), radius)  # all the white that a disc as wide as the gap can reach
    found = []
    for blob in blobs(paper & ~roomy):
        if len(blob) < LONG * SCALE / 2:
            continue
        top, left = blob.min(axis=0) - 2
        bottom, right = blob.max(axis=0) + 3
        box = np.zeros((bottom - top, right - left), dtype=bool)
        box[tuple((blob - (top, left)).T)] = True
        long = length(blob, box)
        if long < LONG * SCALE:
            continue
        ways_out = sum(1 for _ in blobs(grown(box, 1.5) & roomy[top:bottom, left:right]))
        if ways_out != 1 or len(blob) / long > BLUNT * NARROW * SCALE:
            y, x = (blob.mean(axis=0) - 3) / SCALE
            found.append((round(float(x)), round(float(y))))
    return sorted(found)


@pytest.mark.parametrize("name", NAMES)
def test_no_sliver_of_white_runs_between_two_inks(name: str) -> None:
    assert name in FINER or slivers(pictures.drawing(name, Ink.LINE)) == []


def test_every_exception_is_a_picture_that_needs_it() -> None:
    assert [name for name in FINER if name not in NAMES or not slivers(pictures.drawing(name, Ink.LINE))] == []


def lines(*ends: tuple[float, float, float, float]) -> Drawing:
    """Straight lines of ink 3 units wide."""
    return Drawing("lines", tuple(Shape((("M", a, b), ("L", c, d)), None, "#000000", 3) for a, b, c, d in ends))


@pytest.mark.parametrize("gap", [0.4, 0.7])
@pytest.mark.parametrize("slope", [0, 13, 40])
def test_two_lines_too_close_have_a_sliver_between_them(gap: float, slope: int) -> None:
    apart = (3 + gap) * float(np.hypot(60, slope)) / 60  # measured upright, across the slope
    assert len(slivers(lines((20, 20, 80, 20 + slope), (20, 20 + apart, 80, 20 + slope + apart)))) == 1


@pytest.mark.parametrize("gap", [1.4, 2.0, 5.0])
@pytest.mark.parametrize("slope", [0, 13, 40])
def test_two_lines_well_apart_have_none(gap: float, slope: int) -> None:
    apart = (3 + gap) * float(np.hypot(60, slope)) / 60
    assert slivers(lines((20, 20, 80, 20 + slope), (20, 20 + apart, 80, 20 + slope + apart))) == []


@pytest.mark.parametrize("rise", [10, 20, 40, 60])
def test_the_corner_where_two_lines_meet_is_no_sliver(rise: float) -> None:
    assert slivers(lines((20, 30, 80, 30), (20, 30, 80, 30 + rise))) == []
