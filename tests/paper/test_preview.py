from pathlib import Path

import pytest
from PIL import Image

from cardgen.paper.preview import preview
from cardgen.sheets.marks import Document, Page, Panel
from cardgen.units import Box
from tests.paper.samples import A4, sample, written


def previews(document: Document, folder: Path, dpi: float = 100) -> list[Path]:
    (folder / "bingo-m-s.pdf").write_bytes(written(document))
    return preview(folder / "bingo-m-s.pdf", dpi)


def test_one_picture_a_page_and_a_contact_sheet(tmp_path: Path) -> None:
    paths = previews(sample(), tmp_path)
    assert [path.name for path in paths] == ["bingo-m-s-p01.png", "bingo-m-s-p02.png", "bingo-m-s-contact.png"]
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(["bingo-m-s.pdf", *(path.name for path in paths)])


@pytest.mark.parametrize("dpi", [50, 100])
def test_pictures_have_the_size_of_the_page(tmp_path: Path, dpi: float) -> None:
    first, second, _ = previews(sample(), tmp_path, dpi)
    for path, (w, h) in ((first, (210, 297)), (second, (279.4, 215.9))):
        with Image.open(path) as picture:
            assert picture.size == pytest.approx((w / 25.4 * dpi, h / 25.4 * dpi), abs=1)


def test_pictures_show_the_page(tmp_path: Path) -> None:
    page = Page(1, A4, (Panel(Box(50, 100, 20, 20), 0, "#FF0000"),))
    path, _ = previews(Document("x", "en", (page,)), tmp_path, 25.4)  # a pixel a mm
    with Image.open(path) as picture:
        assert picture.getpixel((60, 110)) == (255, 0, 0)
        assert picture.getpixel((60, 95)) == (255, 255, 255)


def test_the_contact_sheet_shows_every_page_equally_large(tmp_path: Path) -> None:
    shades = [(40 + 20 * i, 0, 0) for i in range(7)]
    fills = [f"#{red:02X}0000" for red, _, _ in shades]
    pages = tuple(Page(i, A4, (Panel(Box(0, 0, 210, 297), 0, fill),)) for i, fill in enumerate(fills))
    *_, contact = previews(Document("x", "en", pages), tmp_path)
    with Image.open(contact) as sheet:
        areas = {colour: area for area, colour in sheet.getcolors(10_000) or ()}
        assert [areas[shade] for shade in shades] == pytest.approx([areas[shades[0]]] * 7, rel=0.02)
        assert sheet.width > sheet.height


def test_page_numbers_sort_as_they_count(tmp_path: Path) -> None:
    pages = tuple(Page(i, A4, ()) for i in range(100))
    paths = previews(Document("x", "en", pages), tmp_path, 5)
    assert paths[0].name == "bingo-m-s-p001.png"
    assert paths[:-1] == sorted(paths[:-1])
