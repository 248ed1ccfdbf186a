"""Step 6, proof: the written file is opened again, and what is on its pages compared with what was meant.

It is read by another library than wrote it: text as a search would find it, codes from the rendered page as a camera
would see them.
"""

from collections.abc import Callable, Iterator
from itertools import zip_longest
from pathlib import Path
from unicodedata import normalize

import pypdfium2 as pdfium
import pypdfium2.raw as pdfium_c
import zxingcpp

from cardgen.errors import TeacherError
from cardgen.sheets.marks import Code, Document, Label, Mark, Page, Picture, marks_of
from cardgen.units import MM_PER_INCH, mm_of_points, points_of_mm

_TOLERANCE_MM = 0.05
_CAMERA_DPI = 300
_QR_CODE = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
_WIDEST_QUIET_ZONE = 4 / 21  # four modules of the smallest code, as a share of its side
# PDFium reads a hyphen at the end of a line as one that may go.
_HYPHENS = str.maketrans({"\x02": "-", "\ufffe": "-", "\u00ad": "-"})


class ProofError(TeacherError):
    """The file does not show what was meant; it must not be printed."""

    def __init__(self, message: str) -> None:
        super().__init__(
            message, "This is a fault of the program, and no file was written. Please report it with the command used."
        )


def prove(path: Path | str, document: Document, page_done: Callable[[], object] = lambda: None) -> None:
    """Return if the file shows the document: its pages, sizes, words, pictures, and codes as a camera reads them.

    `page_done` is called after every page. ProofError that names the page and what is wrong with it.
    """
    try:
        pdf = pdfium.PdfDocument(path)
    except pdfium.PdfiumError as error:
        raise ProofError("The written file cannot be opened again.") from error
    try:
        if len(pdf) != len(document.pages):
            raise ProofError(f"The written file has {len(pdf)} pages instead of {len(document.pages)}.")
        for number, page in enumerate(document.pages):
            printed = pdf[number]
            for fault in _faults(printed, page):
                raise ProofError(f"Page {number + 1}: {fault}")
            printed.close()
            page_done()
    finally:
        pdf.close()


def _faults(printed: pdfium.PdfPage, page: Page) -> Iterator[str]:
    """Yield what is wrong with a page, each as a sentence."""
    marks = list(marks_of(page.items))
    yield from _size_faults(printed, page)
    text_page = printed.get_textpage()
    texts, forms = [], 0
    for thing in printed.get_objects(max_depth=1, textpage=text_page):
        if thing.type == pdfium_c.FPDF_PAGEOBJ_TEXT:
            texts.append(thing.extract())
        elif thing.type == pdfium_c.FPDF_PAGEOBJ_FORM:
            forms += 1
    yield from _word_faults(texts, marks)
    placed = sum(isinstance(mark, Picture | Code) for mark in marks)
    if forms != placed:
        yield f"{forms} pictures and codes instead of {placed}."
    for mark in marks:
        if isinstance(mark, Code):
            yield from _code_faults(printed, page, mark)


def _size_faults(printed: pdfium.PdfPage, page: Page) -> Iterator[str]:
    w, h = map(mm_of_points, printed.get_size())
    if abs(w - page.size.w) > _TOLERANCE_MM or abs(h - page.size.h) > _TOLERANCE_MM:
        yield f"{w:.2f} × {h:.2f} mm instead of {page.size.w:.2f} × {page.size.h:.2f} mm."


def _word_faults(texts: list[str], marks: list[Mark]) -> Iterator[str]:
    found = [_squashed(text) for text in texts]
    meant = [_squashed(mark.text) for mark in marks if isinstance(mark, Label)]
    if "".join(found) != "".join(meant):  # one label may be printed in several pieces, so compare them joined
        there, wanted = next(pair for pair in zip_longest(found, meant, fillvalue="") if pair[0] != pair[1])
        yield f'"{there}" is printed where "{wanted}" should be.'


def _squashed(text: str) -> str:
    """Return text without spaces, which a reader program makes up by itself, and without ligatures."""
    return "".join(normalize("NFKC", text.translate(_HYPHENS)).split())


def _code_faults(printed: pdfium.PdfPage, page: Page, code: Code) -> Iterator[str]:
    margin = code.box.w * _WIDEST_QUIET_ZONE
    box = page.on_paper(code.box)
    left, top = box.x - margin, box.y - margin
    right, bottom = page.size.w - box.right - margin, page.size.h - box.bottom - margin
    crop = [max(0.0, points_of_mm(edge)) for edge in (left, bottom, right, top)]
    scale = _CAMERA_DPI / (MM_PER_INCH * points_of_mm(1))
    picture = printed.render(scale=scale, crop=crop, grayscale=True).to_pil()
    seen = [result.text for result in zxingcpp.read_barcodes(picture, formats=_QR_CODE)]
    if code.text not in seen:
        yield f"the code for {code.text} " + (f"leads to {seen[0]}." if seen else "cannot be read.")
