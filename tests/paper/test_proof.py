"""The proof, on planted failures: the file shows one thing, the document says another."""

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest

from cardgen.errors import TeacherError
from cardgen.paper.operators import Matrix
from cardgen.paper.pdf import write
from cardgen.paper.proof import ProofError, prove
from cardgen.paper.whole_file import whole_file
from cardgen.sheets.marks import Code, Document, Group, Item, Page, Panel, Picture, Role
from cardgen.units import Box, Size, Typeface
from tests.paper.samples import A4, LINKS, code, drawing, fonts, label, one_page, sample, written


def proved(file: Document, meant: Document, folder: Path) -> None:
    path = folder / "file.pdf"
    path.write_bytes(written(file))
    prove(path, meant)


def with_items(*items: Item) -> Document:
    """The sample with other items on its second page."""
    first, second = sample().pages
    return replace(sample(), pages=(first, replace(second, items=items)))


def test_a_sound_file_passes(tmp_path: Path) -> None:
    proved(sample(), sample(), tmp_path)


def test_every_letter_of_the_typefaces_passes(tmp_path: Path) -> None:
    labels = [
        label(10 + 9 * (i % 20), 20 + 50 * row + 9 * (i // 20), letter, 9, face)
        for row, face in enumerate((Typeface.TEXT, Typeface.LEARNING))
        for i, letter in enumerate(sorted(fonts().widths.glyphs[face])[:100])
    ]
    proved(one_page(*labels), one_page(*labels), tmp_path)


def test_texts_at_odd_places_pass(tmp_path: Path) -> None:
    labels = (
        label(60, 50, "M", 40, Typeface.LEARNING),
        label(72, 50, "m", 40, Typeface.LEARNING),  # so near that they look like one word
        label(50, 50, "n", 40, Typeface.LEARNING),  # to the left of what was set before
        label(5, 200, "turned", 9, turn=90),
        label(60, 100, "hy-"),
        label(60, 105, "phen"),
        label(60, 110, " two  spaces "),
        label(60, 120, "\u00a0"),
        label(60, 130, ""),
    )
    proved(one_page(*labels), one_page(*labels), tmp_path)


@pytest.mark.parametrize(
    ("printed", "meant"),
    [("noon", "moon"), ("moon", "moons"), ("Moon", "moon"), ("on mo", "moon"), ("", "moon")],
)
def test_a_wrong_word_is_seen(tmp_path: Path, printed: str, meant: str) -> None:
    file, wanted = with_items(label(10, 10, printed)), with_items(label(10, 10, meant))
    with pytest.raises(ProofError, match=f'Page 2: .*"{meant}" should be'):
        proved(file, wanted, tmp_path)


def test_a_missing_label_is_seen_even_if_its_word_stands_elsewhere(tmp_path: Path) -> None:
    file, wanted = with_items(label(10, 10, "m")), with_items(label(10, 10, "m"), label(20, 10, "m"))
    with pytest.raises(ProofError, match="Page 2"):
        proved(file, wanted, tmp_path)


def test_missing_pages_are_seen(tmp_path: Path) -> None:
    with pytest.raises(ProofError, match="1 pages instead of 2"):
        proved(replace(sample(), pages=sample().pages[:1]), sample(), tmp_path)


@pytest.mark.parametrize(("width", "passes"), [(210.04, True), (210.06, False), (215.9, False)])
def test_a_wrong_size_is_seen(tmp_path: Path, width: float, passes: bool) -> None:
    file = Document("x", "en-US", (Page(1, Size(width, 297), ()),))
    if passes:
        proved(file, one_page(), tmp_path)
        return
    with pytest.raises(ProofError, match=r"Page 1: .* instead of 210\.00 × 297\.00 mm"):
        proved(file, one_page(), tmp_path)


def test_a_missing_picture_is_seen(tmp_path: Path) -> None:
    moon = Picture("moon", Box(10, 10, 50, 50), "a moon")
    with pytest.raises(ProofError, match="Page 2: 1 pictures and codes instead of 2"):
        proved(with_items(moon), with_items(moon, moon), tmp_path)


def tampered(text: str) -> Matrix:
    """A code that leads elsewhere."""
    return code(text.replace("moon", "noon"))


def test_a_code_that_leads_elsewhere_makes_no_file(tmp_path: Path) -> None:
    goal = tmp_path / "bingo.pdf"
    goal.write_text("old")

    def build() -> None:
        with whole_file(goal) as part:
            write(sample(), drawing, tampered, fonts(), part)
            prove(part, sample())

    with pytest.raises(ProofError, match=r"Page 1: the code for .*m-moon\.m4a leads to .*m-noon\.m4a"):
        build()
    assert goal.read_text() == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["bingo.pdf"]


def test_a_code_that_is_covered_cannot_be_read(tmp_path: Path) -> None:
    symbol = Code(LINKS[0], Box(50, 50, 25, 25), "a code")
    with pytest.raises(ProofError, match="cannot be read"):
        proved(one_page(symbol, Panel(Box(50, 50, 13, 25), 0, "#FFFFFF")), one_page(symbol), tmp_path)


def test_a_code_too_small_for_a_camera_cannot_be_read(tmp_path: Path) -> None:
    symbol = Code(LINKS[0], Box(50, 50, 2, 2), "a code")
    with pytest.raises(ProofError, match="cannot be read"):
        proved(one_page(symbol), one_page(symbol), tmp_path)


def test_each_code_is_read_in_its_own_place(tmp_path: Path) -> None:
    left, right = (Code(link, Box(50 + 40 * i, 50, 25, 25), "a code") for i, link in enumerate(LINKS))
    changed = (replace(left, text=LINKS[1]), replace(right, text=LINKS[0]))
    proved(one_page(left, right), one_page(left, right), tmp_path)
    with pytest.raises(ProofError, match="leads to"):
        proved(one_page(left, right), one_page(*changed), tmp_path)


def test_a_code_at_the_edge_of_the_sheet_can_be_read(tmp_path: Path) -> None:
    symbol = Code(LINKS[0], Box(A4.w - 28, A4.h - 28, 25, 25), "a code")
    proved(one_page(symbol), one_page(symbol), tmp_path)


def test_a_broken_file_is_seen(tmp_path: Path) -> None:
    path = tmp_path / "file.pdf"
    path.write_bytes(written(sample())[:1000])
    with pytest.raises(ProofError, match="cannot be opened"):
        prove(path, sample())


def test_a_failed_proof_is_told_in_the_teachers_words(tmp_path: Path) -> None:
    with pytest.raises(TeacherError) as refusal:
        proved(one_page(), sample(), tmp_path)
    assert "no file was written" in refusal.value.hint


def test_words_inside_figures_and_tables_are_proved_too(tmp_path: Path) -> None:
    def figure(text: str) -> Document:
        return one_page(Group(Role.FIGURE, (label(10, 10, text),), alt="a letter"))

    with pytest.raises(ProofError, match="Page 1"):
        proved(figure("b"), figure("d"), tmp_path)


def test_bytes_do_not_change_while_they_are_proved(tmp_path: Path) -> None:
    path, stream = tmp_path / "file.pdf", BytesIO()
    write(sample(), drawing, code, fonts(), stream)
    path.write_bytes(stream.getvalue())
    prove(path, sample())
    assert path.read_bytes() == stream.getvalue()
