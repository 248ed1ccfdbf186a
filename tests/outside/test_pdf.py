"""Finished files, looked at by programs that are not ours: validators, readers, renderers."""

import getpass
import hashlib
import os
import re
import shutil
import socket
import subprocess
import sys
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import numpy as np
import page as page_validation
import pypdf
import pypdfium2 as pdfium
import pytest
from numpy.typing import NDArray
from PIL import Image

from cardgen.paper.fonts import Fonts
from cardgen.paper.pdf import write
from cardgen.paper.proof import prove
from cardgen.sheets.marks import Align, Code, Document, Group, Label, Line, Page, Panel, Picture, Role, marks_of
from cardgen.sources.shelf import read_bytes
from cardgen.units import Box, Typeface, mm_of_points
from tests.paper.samples import A4, GREY, INK, code, drawing, fonts, label, one_page, sample, written

NEAR = 0.05  # mm
LEARNING_FONT = "art/letters/CardgenInfant-Regular.ttf"


def ask(program: str, package: str, *arguments: str | Path) -> str:
    """What a Debian program prints about a file; it must not fail."""
    if not shutil.which(program):
        pytest.fail(f"{program} is missing: apt-get install {package}")
    return subprocess.run([program, *arguments], check=True, capture_output=True, text=True).stdout


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "sample.pdf"
    path.write_bytes(written(sample()))
    return path


def failed_rules(data: bytes) -> list[str]:
    """The rules of PDF/UA-1 (ISO 14289-1) that a file breaks, as an independent validator counts them."""
    report = page_validation.validate_pdf_bytes(data, profile="ua1")
    assert report.rules.total >= 100
    return [f"{failure.rule_id}: {failure.message}" for failure in report.failures]


def many(pages: int) -> Document:
    return replace(sample(), pages=tuple(replace(sample().pages[n % 2], number=n + 1) for n in range(pages)))


@pytest.mark.parametrize("pages", [1, 2, 30])
def test_the_rules_of_accessible_pdf_hold(pages: int) -> None:
    assert failed_rules(written(many(pages))) == []


@pytest.mark.parametrize(
    "document",
    [
        one_page(),
        one_page(Group(Role.HEADING, (label(10, 10, "Calls"),))),
        one_page(Group(Role.TEXT, ())),
        one_page(Group(Role.SECTION, (label(10, 10, "m"), Group(Role.TITLE, (label(10, 20, "Bingo"),))))),
        one_page(label(10, 10, "".join(sorted(fonts().widths.glyphs[Typeface.TEXT])), 4)),
        replace(one_page(label(10, 10, "m")), title="Ä <b> & „m“ \\ (s)"),
    ],
    ids=["empty", "heading only", "empty group", "sections", "all letters", "odd title"],
)
def test_the_rules_hold_at_the_margins(document: Document) -> None:
    assert failed_rules(written(document)) == []


def test_the_validator_does_see_a_fault() -> None:
    cell = Group(Role.CELL, (label(10, 90, "m"),))
    ragged = Group(Role.TABLE, (Group(Role.ROW, (cell,)), Group(Role.ROW, (cell, cell))))
    assert any("TABLE" in fault for fault in failed_rules(written(one_page(ragged))))


@pytest.mark.parametrize("pages", [2, 150])
def test_the_structure_of_the_file_is_sound(pages: int, tmp_path: Path) -> None:
    file = tmp_path / "file.pdf"
    file.write_bytes(written(many(pages)))
    assert "No syntax or stream encoding errors found" in ask("qpdf", "qpdf", "--check", file)


def test_every_font_is_embedded_as_a_subset_and_searchable(file: Path) -> None:
    head, _, *lines = ask("pdffonts", "poppler-utils", file).splitlines()
    assert len(lines) == 3
    begin = head.index("emb")
    for line in lines:
        assert line.startswith("AAAAAA+BitstreamVeraSans-")
        assert line[begin:].split()[:3] == ["yes", "yes", "yes"]  # embedded, subset, with a map to Unicode
        assert "TrueType" in line


def test_size_title_and_tags_as_a_reader_shows_them(file: Path) -> None:
    told = ask("pdfinfo", "poppler-utils", "-l", "2", file)
    assert re.search(r"Title: +Bingo & more: m, s – “fünf”\n", told)
    assert re.search(r"Tagged: +yes\n", told)
    assert re.search(r"Page +1 size: +595\.276 x 841\.89 pts \(A4\)", told)  # ISO 216: 210 × 297 mm
    assert re.search(r"Page +2 size: +792 x 612 pts \(letter\)", told)  # ANSI A, turned
    assert not re.search("Author|Creator|CreationDate|ModDate", told)


def words(document: Document) -> list[list[str]]:
    return [[w for m in marks_of(p.items) if isinstance(m, Label) for w in m.text.split()] for p in document.pages]


def test_text_reads_in_the_order_of_the_marks(file: Path) -> None:
    pages = ask("pdftotext", "poppler-utils", "-raw", file, "-").split("\f")
    for shown, meant in zip(pages, words(sample()), strict=False):
        assert shown.split() == meant
    read = [reader_page.extract_text().split() for reader_page in pypdf.PdfReader(file).pages]
    assert ["".join(shown) for shown in read] == ["".join(meant) for meant in words(sample())]


def test_tags_read_in_the_order_of_the_marks(file: Path) -> None:
    shown = "".join(re.findall(r'^ *"(.*)"$', ask("pdfinfo", "poppler-utils", "-struct-text", file), re.MULTILINE))
    spoken = [m.text for p in sample().pages for m in marks_of(p.items) if isinstance(m, Label) and not m.decoration]
    assert shown.replace(" ", "") == "".join(spoken).replace(" ", "")


def test_words_lie_where_their_labels_say(tmp_path: Path) -> None:
    labels = [
        label(40 + 30 * i, 40 + 50 * j, "mm", 28, face, align=align)
        for i, face in enumerate(fonts().faces)
        for j, align in enumerate(Align)
    ]
    path = tmp_path / "file.pdf"
    path.write_bytes(written(one_page(*labels)))
    found = re.findall(r'xMin="(.*?)" yMin=".*?" xMax="(.*?)"', ask("pdftotext", "poppler-utils", "-bbox", path, "-"))
    ends = sorted((mm_of_points(float(left)), mm_of_points(float(right))) for left, right in found)
    meant = []
    for mark in labels:
        width = fonts().widths.mm("mm", 28, mark.face)
        left = mark.x - {Align.LEFT: 0, Align.CENTRE: width / 2, Align.RIGHT: width}[mark.align]
        meant.append((left, left + width))
    assert [x for pair in ends for x in pair] == pytest.approx([x for pair in sorted(meant) for x in pair], abs=NEAR)


def test_baselines_lie_where_their_labels_say() -> None:
    found: dict[str, tuple[float, float]] = {}

    def visit(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if text.strip():
            x, y = tm[4] * cm[0] + tm[5] * cm[2] + cm[4], tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
            found[text.strip()] = (mm_of_points(x), 297 - mm_of_points(y))

    labels = (label(15, 19, "first"), label(100, 150.5, "second", 34, Typeface.LEARNING), label(180, 289, "third", 9))
    pypdf.PdfReader(BytesIO(written(one_page(*labels)))).pages[0].extract_text(visitor_text=visit)
    for mark in labels:
        assert found[mark.text] == pytest.approx((mark.x, mark.y), abs=NEAR)


def rendered(data: bytes, index: int = 0, dpi: float = 150) -> NDArray[np.uint8]:
    """The grey values of a page, row by row."""
    picture: Image.Image = pdfium.PdfDocument(data)[index].render(scale=dpi / 72).to_pil()
    return np.asarray(picture.convert("L"))


def test_cut_marks_lie_where_the_trim_is() -> None:
    # At 25.4 × 20 dpi a mm is 20 pixels; the marks of the cards at x = 30, 93, 156 run from y = 32 to 37.
    row = rendered(written(sample()), 1, 25.4 * 20)[int(34.5 * 20)]
    (dark,) = np.nonzero(row < 200)
    found = dark / 20 + 0.025
    for edge in (30, 93, 156):
        assert np.min(np.abs(found - edge)) <= NEAR
        found = found[np.abs(found - edge) > 0.2]
    assert not found.size


def test_dots_are_round_and_stand_where_they_should() -> None:
    # Dots 2 mm wide, 3 mm apart, at 10 pixels a mm.
    dots = Line(50, 50, 80, 50, 2 * 72 / 25.4, "#000000", (0, 3))
    picture = rendered(written(one_page(dots)), 0, 254)
    for x in range(500, 800, 30):
        assert picture[500, x] == picture[491, x] == picture[500, x + 8] == 0
        assert picture[500, x + 15] == 255
        assert picture[491, x + 9] > 200  # the corner of the square round the dot


def board(number: int, *names: str) -> Page:
    cells = [Picture(name, Box(20 + 45 * i, 40, 40, 40), f"a {name}") for i, name in enumerate(names)]
    below = [label(40 + 45 * i, 100, name, 28, Typeface.LEARNING, align=Align.CENTRE) for i, name in enumerate(names)]
    frame = Panel(Box(15, 30, 180, 90), 5, None, INK, 1.25)
    line = Line(62.5, 40, 62.5, 90, 0.75, GREY)
    return Page(number, A4, (frame, line, *cells, *below, label(180, 25, str(number), 18, Typeface.LEARNING)))


def test_a_board_printed_again_is_the_same_pixel_for_pixel(tmp_path: Path) -> None:
    pages = (board(1, "mülk", "sun", "moon"), board(2, "fan", "café", "bus"), board(7, "sun", "fün", "zip"))
    whole, again = Document("x", "en", pages), Document("x", "en", pages[2:])
    assert np.array_equal(rendered(written(whole), 2), rendered(written(again)))
    prints = []
    for name, document, number in (("whole", whole, "3"), ("again", again, "1")):
        (tmp_path / f"{name}.pdf").write_bytes(written(document))
        image = tmp_path / f"{name}.png"
        ask("pdftoppm", "poppler-utils", "-r", "150", "-f", number, "-l", number, "-singlefile", "-png",
            tmp_path / f"{name}.pdf", image.with_suffix(""))  # fmt: skip
        with Image.open(image) as picture:
            prints.append(picture.tobytes())
    assert prints[0] == prints[1]


def test_the_same_document_is_the_same_bytes_on_every_machine() -> None:
    script = (
        "import hashlib\nfrom tests.paper.samples import sample, written\n"
        "print(hashlib.sha256(written(sample())).hexdigest())"
    )
    here = hashlib.sha256(written(sample())).hexdigest()
    for seed, zone, language in (("0", "UTC", "C"), ("4711", "Pacific/Auckland", "de_DE.UTF-8")):
        settings = {"PYTHONHASHSEED": seed, "TZ": zone, "LC_ALL": language, "PYTHONPATH": os.pathsep.join(sys.path)}
        run = subprocess.run(
            [sys.executable, "-c", script], env={**os.environ, **settings}, check=True, capture_output=True, text=True
        )
        assert run.stdout.strip() == here


def test_one_letter_changes_the_files_id() -> None:
    def identity(document: Document) -> object:
        return pypdf.PdfReader(BytesIO(written(document))).trailer["/ID"]

    assert identity(one_page(label(10, 10, "moon"))) != identity(one_page(label(10, 10, "noon")))


def test_no_path_user_or_host_is_in_the_file(file: Path, tmp_path: Path) -> None:
    plain = tmp_path / "plain.pdf"
    ask("qpdf", "qpdf", "--qdf", "--object-streams=disable", "--stream-data=uncompress", file, plain)
    content = plain.read_bytes()
    assert b"Bingo" in content
    secrets = {str(Path.cwd()), str(Path.home()), str(tmp_path), sys.prefix, "site-packages", f"/{getpass.getuser()}/"}
    secrets |= {"Author", "CreationDate", "ModDate", "anonymous"}
    host = socket.gethostname()
    secrets |= {host} if len(host) > 4 else set()  # a shorter name may stand there by chance
    assert not [secret for secret in secrets if secret.encode() in content]


def test_the_projects_own_typeface_prints(tmp_path: Path) -> None:
    own = Fonts(read_bytes(LEARNING_FONT))
    letters = sorted(own.widths.glyphs[Typeface.LEARNING])
    labels = (label(15 + 10 * (i % 18), 30 + 15 * (i // 18), c, 24, Typeface.LEARNING) for i, c in enumerate(letters))
    document, path = one_page(*labels), tmp_path / "letters.pdf"
    write(document, drawing, code, own, path)
    prove(path, document)
    assert failed_rules(path.read_bytes()) == []


def test_another_reader_sees_every_picture_and_code(file: Path) -> None:
    for shown, meant in zip(pypdf.PdfReader(file).pages, sample().pages, strict=True):
        stream = shown.get_contents()
        assert stream is not None
        placed = sum(isinstance(mark, Picture | Code) for mark in marks_of(meant.items))
        assert stream.get_data().count(b" Do Q") == placed
