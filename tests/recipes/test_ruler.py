"""The printer test as a finished file, read back: what a camera and a ruler would find on it."""

import random
from itertools import combinations
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest
import zxingcpp
from numpy.typing import NDArray
from PIL import Image

from cardgen.build import Output, build
from cardgen.paper.extent import extent
from cardgen.recipes.library import open_library
from cardgen.recipes.ruler import ruler
from cardgen.recipes.sheets import Sheets
from cardgen.request import Ink, Paper, RulerRequest
from cardgen.sheets.marks import Code, Group, Label, Line, Page, Picture, marks_of
from cardgen.units import Box

DPI = 300
NEAR = 0.06  # mm; a pixel is 0.085


class Raster:
    """A printed page as pixels: how dark it is, 0 to 1, anywhere in mm."""

    def __init__(self, pdf: Path, page: int, *, from_behind: bool = False) -> None:
        document = pdfium.PdfDocument(pdf)
        sheet = document[page]
        self.pixels: NDArray[np.uint8] = np.asarray(sheet.render(scale=DPI / 72, grayscale=True).to_numpy()).squeeze()
        # The page is stretched to whole pixels.
        self.x_scale = self.pixels.shape[1] / sheet.get_width() * 72 / 25.4
        self.y_scale = self.pixels.shape[0] / sheet.get_height() * 72 / 25.4
        document.close()
        self.dark = 1 - (np.fliplr(self.pixels) if from_behind else self.pixels) / 255

    def upright(self, box: Box) -> list[float]:
        """The middles in mm of the upright lines that run through a box, from the left."""
        return _middles(self._part(box).mean(axis=0), round(box.x * self.x_scale), self.x_scale)

    def level(self, box: Box) -> list[float]:
        """The middles in mm of the level lines that run through a box, from the top."""
        return _middles(self._part(box).mean(axis=1), round(box.y * self.y_scale), self.y_scale)

    def _part(self, box: Box) -> NDArray[np.float64]:
        rows = slice(round(box.y * self.y_scale), round(box.bottom * self.y_scale))
        return np.asarray(self.dark[rows, round(box.x * self.x_scale) : round(box.right * self.x_scale)])


def _middles(profile: NDArray[np.float64], start: int, scale: float) -> list[float]:
    middles: list[float] = []
    run: list[tuple[float, float]] = []
    for place, value in enumerate([*profile.tolist(), 0.0]):
        if value > 0.1:
            run.append((start + place + 0.5, value))
        elif run:
            middles.append(sum(pixel * value for pixel, value in run) / sum(value for _, value in run) / scale)
            run = []
    return middles


def sheets(paper: Paper = Paper.A4, ink: Ink = Ink.COLOUR) -> Sheets:
    return ruler(RulerRequest(paper=paper, ink=ink), open_library(), random.Random(0), False)


def pages(paper: Paper = Paper.A4, ink: Ink = Ink.COLOUR) -> tuple[Page, ...]:
    ((_, document),) = sheets(paper, ink).documents
    return document.pages


@pytest.fixture(scope="module", params=list(Paper), ids=lambda paper: paper.value)
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Paper, Path]:
    pdf = tmp_path_factory.mktemp("ruler") / "ruler.pdf"
    assert build(RulerRequest(paper=request.param), Output(pdf)) == (pdf,)
    return request.param, pdf


@pytest.mark.parametrize(("text", "length"), [("100 mm", 100.0), ("4 inches", 101.6)])
def test_the_bars_measured_on_the_printed_page(printed: tuple[Paper, Path], text: str, length: float) -> None:
    paper, pdf = printed
    front = Raster(pdf, 0)
    assert front.pixels.shape == pytest.approx((paper.size.h / 25.4 * DPI, paper.size.w / 25.4 * DPI), abs=1)
    x, y = start_of_bar(paper, f"bar of {text}, across")
    ticks = front.upright(Box(x - 1.5, y - 1.1, length + 3, 0.6))
    assert ticks[-1] - ticks[0] == pytest.approx(length, abs=0.02)
    x, y = start_of_bar(paper, f"bar of {text}, down")
    ticks = front.level(Box(x + 0.5, y - 1.5, 0.6, length + 3))
    assert ticks[-1] - ticks[0] == pytest.approx(length, abs=0.02)


def start_of_bar(paper: Paper, alt: str) -> tuple[float, float]:
    (bar,) = [item for item in pages(paper)[0].items if isinstance(item, Group) and item.alt == alt]
    line = bar.items[0]
    assert isinstance(line, Line)
    return line.x1, line.y1


def test_the_edge_lines_measured_on_the_printed_page(printed: tuple[Paper, Path]) -> None:
    paper, pdf = printed
    w, h = paper.size.w, paper.size.h
    for page in (0, 1):
        image = Raster(pdf, page)
        for place, mm in enumerate((3, 4, 5, 6, 8, 10)):
            along = 10.0 * place - 25  # the middle of each line from the middle of the edge
            x, y = w / 2 + along - 2, h / 2 + along - 2
            near = pytest.approx([mm], abs=NEAR)
            assert image.level(Box(x, 0, 4, 11)) == near
            assert image.upright(Box(0, y, 11, 4)) == near
            assert [w - at for at in image.upright(Box(w - 11, y, 11, 4))] == near
            assert [h - at for at in image.level(Box(x, h - 11, 4, 11))] == near


def test_the_dot_of_the_back_is_printed_behind_the_cross(printed: tuple[Paper, Path]) -> None:
    paper, pdf = printed
    cx, cy = paper.size.w / 2, paper.size.h - 62
    at_x, at_y = pytest.approx([cx], abs=NEAR), pytest.approx([cy], abs=NEAR)
    front, through = Raster(pdf, 0), Raster(pdf, 1, from_behind=True)
    assert front.upright(Box(cx - 2, cy - 15, 4, 5)) == at_x
    assert front.level(Box(cx - 15, cy - 2, 5, 4)) == at_y
    # Flipped on the long edge and seen from the front.
    assert through.upright(Box(cx - 2, cy - 1, 4, 2)) == at_x
    assert through.level(Box(cx - 1, cy - 2, 2, 4)) == at_y


def test_the_three_codes_are_read_from_the_printed_page(printed: tuple[Paper, Path]) -> None:
    seen = zxingcpp.read_barcodes(Image.fromarray(Raster(printed[1], 0).pixels))
    wanted = [f"https://example.org/printer-test/{module}mm" for module in ("0.5", "0.6", "0.8")]
    assert sorted(result.text for result in seen) == wanted


@pytest.mark.parametrize("paper", list(Paper), ids=lambda paper: paper.value)
def test_nothing_runs_into_anything_else(paper: Paper) -> None:
    widths = open_library().widths
    for page in pages(paper):
        blocks = [extent([mark], widths) for mark in marks_of(page.items) if isinstance(mark, Label | Picture | Code)]
        for one, other in combinations(blocks, 2):
            apart = one.right <= other.x or other.right <= one.x or one.bottom <= other.y or other.bottom <= one.y
            assert apart, (one, other)
        for block in blocks:
            for mark in marks_of(page.items):
                if isinstance(mark, Line):
                    clear = max(mark.x1, mark.x2) <= block.x or min(mark.x1, mark.x2) >= block.right
                    clear |= max(mark.y1, mark.y2) <= block.y or min(mark.y1, mark.y2) >= block.bottom
                    assert clear, (mark, block)


def test_the_ink_changes_the_pictures_and_nothing_else(tmp_path: Path) -> None:
    assert pages(ink=Ink.LINE) == pages(ink=Ink.COLOUR)
    for ink in (Ink.LINE, Ink.COLOUR):
        build(RulerRequest(ink=ink), Output(tmp_path / f"{ink.value}.pdf"))
    assert (tmp_path / "line.pdf").read_bytes() != (tmp_path / "colour.pdf").read_bytes()


def test_the_plan_tells_both_pages_and_the_codes() -> None:
    plan = sheets(Paper.LETTER).plan
    assert (plan["game"], plan["paper"], plan["sheets"], plan["flip"]) == ("ruler", "letter", 1, "long")
    front, back = plan["pages"]
    assert (front["side"], back["side"]) == ("front", "back")
    # Version 3, 29 modules a side, takes 42 bytes at level M (ISO/IEC 18004, table 7).
    assert [code["w_mm"] for code in front["codes"]] == [14.5, 17.4, 23.2]
