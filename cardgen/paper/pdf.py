"""Step 5, paper: a document of marks becomes a PDF of true size, every mark with its meaning, the same bytes each time.

A page is one run through its items: each is drawn where it stands, and belongs to the element of its group. What is
only decoration becomes an artifact. Pictures and codes are stored once and drawn as often as they are placed.
"""

from collections.abc import Callable
from html import escape
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

import pikepdf

from cardgen.paper.embedding import Setting
from cardgen.paper.fonts import Fonts
from cardgen.paper.operators import Matrix
from cardgen.paper.pages import Desk, Stock, write_page
from cardgen.paper.tagged import TaggedCanvas
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
) -> None:
    """Write a document to a file, given each picture (drawing or photo) by name and the modules of each code by text.

    TeacherError for a letter that a typeface does not have; ValueError for marks that make no sense (a figure without
    alt text, a label between the rows of a table). Same document, same bytes.
    """
    raw = BytesIO()
    setting = Setting(fonts)
    canvas = TaggedCanvas(raw, setting.initial)
    labels = (mark for page in document.pages for mark in marks_of(page.items) if isinstance(mark, Label))
    setting.prepare(canvas.document, ((label.text, label.face) for label in labels))
    desk = Desk(canvas, setting, fonts.widths, Stock(canvas, drawings, codes))
    for page in document.pages:
        write_page(desk, page)
    canvas.save()
    finished = _finish(raw, document)
    if isinstance(target, Path | str):
        Path(target).write_bytes(finished)
    else:
        target.write(finished)


def _finish(raw: BytesIO, document: Document) -> bytes:
    """Return the file with what stands for the whole document, packed into object streams.

    Packed, a tagged file is less than half as long. The file's ID is made from its content.
    """
    packed = BytesIO()
    with pikepdf.open(raw) as pdf:
        name, title = pikepdf.Name, pikepdf.String(document.title)
        pdf.Root.Lang = pikepdf.String(document.language)
        pdf.Root.MarkInfo = pikepdf.Dictionary(Marked=True)
        pdf.Root.ViewerPreferences = pikepdf.Dictionary(DisplayDocTitle=True, PrintScaling=name("/None"))
        xmp = _XMP.format(title=escape(document.title), language=escape(document.language), producer=_PRODUCER)
        pdf.Root.Metadata = pdf.make_stream(xmp.encode("utf-8"), Type=name.Metadata, Subtype=name.XML)
        pdf.trailer.Info = pdf.make_indirect(pikepdf.Dictionary(Title=title, Producer=pikepdf.String(_PRODUCER)))
        pdf.save(packed, object_stream_mode=pikepdf.ObjectStreamMode.generate, deterministic_id=True)
    return packed.getvalue()
