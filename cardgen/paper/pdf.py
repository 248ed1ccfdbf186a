"""Step 5, paper: a document of marks becomes a PDF of true size, every mark with its meaning, the same bytes each time.

A page is one run through its items: each is drawn where it stands, and belongs to the element of its group. What is
only decoration becomes an artifact. Pictures and codes are stored once and drawn as often as they are placed.
"""

from collections.abc import Callable
from contextlib import nullcontext
from html import escape
from pathlib import Path
from typing import BinaryIO

from cardgen.paper.embedding import Setting
from cardgen.paper.fonts import Fonts
from cardgen.paper.operators import Matrix
from cardgen.paper.pages import Desk, Stock, write_page
from cardgen.paper.pdf_file import PdfFile, text_string
from cardgen.paper.tagged import TaggedFile
from cardgen.sheets.marks import Document, Drawing, Label, Photo, marks_of

_PRODUCER = "cardgen"
_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
 xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<pdf:Producer>{producer}</pdf:Producer><pdfuaid:part>1</pdfuaid:part>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""


def write(
    document: Document,
    drawings: Callable[[str], Drawing | Photo],
    codes: Callable[[str], Matrix],
    fonts: Fonts,
    target: BinaryIO | Path | str,
    page_done: Callable[[], object] = lambda: None,
) -> None:
    """Write a document to a file, given each picture (drawing or photo) by name and the modules of each code by text.

    `page_done` is called after every page. TeacherError for a letter that a typeface does not have; ValueError for
    marks that make no sense (a figure without alt text, a label between the rows of a table). What has been written by
    then is no whole file. Same document, same bytes.
    """
    with Path(target).open("wb") if isinstance(target, Path | str) else nullcontext(target) as stream:
        file = PdfFile(stream)
        labels = (mark for page in document.pages for mark in marks_of(page.items) if isinstance(mark, Label))
        setting = Setting(file, fonts, ((label.text, label.face) for label in labels))
        tagged = TaggedFile(file, setting.resource)
        desk = Desk(tagged, setting, fonts.widths, Stock(tagged, drawings, codes))
        for page in document.pages:
            write_page(desk, page)
            page_done()
        _finish(file, document, tagged.finish())


def _finish(file: PdfFile, document: Document, tree: str) -> None:
    """Write what stands for the whole document, given the entries of the catalogue that lead to its pages."""
    xmp = _XMP.format(title=escape(document.title), language=escape(document.language), producer=_PRODUCER)
    metadata = file.stream("/Type/Metadata/Subtype/XML", xmp.encode("utf-8"))
    catalogue = file.add(
        f"<</Type/Catalog{tree}/Lang{text_string(document.language)}/Metadata {metadata} 0 R"
        "/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None>>>>"
    )
    info = file.add(f"<</Title{text_string(document.title)}/Producer({_PRODUCER})>>")
    file.finish(catalogue, info)
