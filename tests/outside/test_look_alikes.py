"""Pictures that are close to the eye are listed as look-alikes, so that no game holds both."""

from itertools import combinations

import numpy as np
import pytest
from PIL import ImageFilter

from cardgen.request import Accent
from cardgen.sources.bank_file import read_bank
from cardgen.sources.pictures import exists
from cardgen.words.bank import Word
from cardgen.words.set_rule import clash, labels
from tests.outside.naming.sheets import raster

# Cosine of two grey rasters, blurred, 32 × 32. At this value and above a hurried eye may take one for the other: found
# by looking at all pairs, ours, no source.
CLOSE = 0.945
DRAWN = [word for word in read_bank() if word.picture and exists(word.picture)]


def seen(word: Word) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """The picture as a hurried eye sees it: one row of darkness values, of length 1."""
    image = raster(str(word.picture), 64).convert("L").filter(ImageFilter.GaussianBlur(1.5)).resize((32, 32))
    row = 1 - np.asarray(image, np.float64).ravel() / 255
    return np.asarray(row / np.linalg.norm(row))


@pytest.fixture(scope="module")
def close_pairs() -> list[tuple[float, Word, Word]]:
    rows = np.stack([seen(word) for word in DRAWN])
    cosines = rows @ rows.T
    pairs = combinations(range(len(DRAWN)), 2)
    return [(float(cosines[a, b]), DRAWN[a], DRAWN[b]) for a, b in pairs if cosines[a, b] >= CLOSE]


def test_pictures_that_measure_close_never_meet_in_a_game(close_pairs: list[tuple[float, Word, Word]]) -> None:
    free = [
        f"{one.word} and {other.word} ({cosine:.3f})"
        for cosine, one, other in close_pairs
        if not clash(labels(one, Accent.US), labels(other, Accent.US))
    ]
    assert close_pairs
    assert not free
