import pytest

from cardgen.games.pieces import CatalogueEntry, CataloguePart, Ink, Paper
from cardgen.sheets.catalogue import catalogue_pages, naming_pages
from cardgen.sheets.marks import Label, Page, Picture, marks_of
from cardgen.sheets.style import Style
from cardgen.units import Widths


def entries(count: int, caution: str = "") -> tuple[CatalogueEntry, ...]:
    cautions = (caution,) if caution else ()
    return tuple(CatalogueEntry(f"word{i}", f"word{i}", f"thing {i}", cautions, i == 0) for i in range(count))


def pictures(pages: tuple[Page, ...]) -> list[Picture]:
    return [mark for page in pages for mark in marks_of(page.items) if isinstance(mark, Picture)]


@pytest.mark.parametrize("paper", list(Paper))
@pytest.mark.parametrize("counts", [[1], [12, 3, 40], [5] * 30])
def test_every_picture_stands_on_its_page_25_mm_wide(counts: list[int], paper: Paper, widths: Widths) -> None:
    parts = [CataloguePart(f"k{i}", "M m", "mmm", entries(n, "Children may say " * 4)) for i, n in enumerate(counts)]
    pages = catalogue_pages(parts, paper.size, widths)
    assert len(pictures(pages)) == sum(counts)
    for page in pages:
        for mark in marks_of(page.items):
            if isinstance(mark, Picture):
                assert mark.box.w == 25
                assert mark.box.right <= paper.size.w - 6.4
            if isinstance(mark, Label) and not mark.decoration:
                assert 10 < mark.y <= paper.size.h - 11


@pytest.mark.parametrize("paper", list(Paper))
def test_naming_sheets_give_no_answer_away(paper: Paper) -> None:
    shown = entries(83)
    pages = naming_pages(shown, paper.size, Style.of(Ink.GREY), 1)
    named = [page for page in pages if pictures((page,))]
    assert [picture.alt for picture in pictures(pages)] == [f"picture {n}" for n in range(1, 84)]
    words = {entry.word for entry in shown}
    for page in named:
        assert not words & {mark.text for mark in marks_of(page.items) if isinstance(mark, Label)}
    listed = [m.text for p in pages[len(named) :] for m in marks_of(p.items) if isinstance(m, Label)]
    assert [text for text in listed if text in words] == [entry.word for entry in shown]
