"""Room for holes: no ink within 20 mm of the edge that is punched (holes 12 mm from it, ISO 838)."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest

from cardgen.build import Output, build
from cardgen.errors import TeacherError
from cardgen.recipes.library import open_library
from cardgen.recipes.punch import punched
from cardgen.request import BingoRequest, Grid, Ink
from cardgen.sheets.marks import Document, Label, Page, Side
from cardgen.units import Size, Typeface

WIDTHS = open_library().widths


def left_of_ink(file: Path, page: int) -> float:
    """Where the first ink stands, in mm from the left edge of the finished page."""
    document = pdfium.PdfDocument(file)
    pixels = document[page].render(scale=300 / 72, grayscale=True).to_numpy().squeeze()
    document.close()
    return float(np.argmax((pixels < 200).any(axis=0))) / 300 * 25.4


def test_pages_that_are_filed_keep_clear_of_the_holes(tmp_path: Path) -> None:
    request = BingoRequest(keys=("h", "f"), review=("n", "d"), seed=5, boards=1, grid=Grid(4, 4), ink=Ink.LINE)
    for punch in (False, True):
        file = tmp_path / f"{punch}.pdf"
        build(replace(request, punch=punch), Output(file))
        found = [left_of_ink(file, page) for page in range(3)]  # teacher's page, caller's list, the board
        assert all((edge >= 20.0) == punch for edge in found), found


def page(side: Side, x: float, text: str = "milk") -> Page:
    return Page(1, Size(210, 297), (Label(x, 50, text, 20, Typeface.TEXT, "#000000"),), side)


def test_backs_keep_clear_of_the_other_edge() -> None:
    (back,) = punched(Document("t", "en", (page(Side.BACK, 185.0),)), WIDTHS).pages
    assert back.shift[0] < 0
    assert 185 + back.shift[0] + WIDTHS.mm("milk", 20, Typeface.TEXT) == pytest.approx(189.6)


def test_a_page_that_is_too_full_is_refused() -> None:
    with pytest.raises(TeacherError, match="Page 1 is too full") as caught:
        punched(Document("t", "en", (page(Side.FRONT, 7.0, "m" * 30),)), WIDTHS)
    assert "--punch" in caught.value.hint
