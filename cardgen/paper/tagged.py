"""Tagged PDF on ReportLab's canvas (ISO 32000-1, 14.7 and 14.8; PDF/UA-1 is ISO 14289-1).

ReportLab writes pages, drawings and fonts but knows nothing of tags. What is drawn belongs to an element of the
structure tree, by numbers counted page by page, or is an artifact, which a screen reader skips. The tree is written
at the end, as ready-made objects.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, BinaryIO

from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFStream
from reportlab.pdfgen.canvas import Canvas

from cardgen.sheets.marks import Photo
from cardgen.units import Box, Size, points_of_mm


@dataclass(eq=False, slots=True)
class Element:
    """An element of the structure tree, an object of its own with a number; `extra` holds more of its entries.

    `kids` are other elements and the numbers of marked content on page `page` (counted from 0).
    """

    role: str
    parent: "Element | None"
    number: int
    alt: str = ""
    extra: str = ""
    page: int | None = None
    kids: "list[Element | int]" = field(default_factory=list)

    def dictionary(self, parent: int, pages: list[int]) -> bytes:
        """Return the element as a PDF dictionary, given the numbers of its parent's object and of the pages'."""
        page = "" if self.page is None else f"/Pg {pages[self.page]} 0 R"
        alt = f"/Alt {text_string(self.alt)}" if self.alt else ""
        kids = " ".join(str(kid) if isinstance(kid, int) else f"{kid.number} 0 R" for kid in self.kids)
        return f"<</S/{self.role}/P {parent} 0 R{page}{alt}{self.extra}/K[{kids}]>>".encode("ascii")


class TaggedCanvas:
    """Pages of ready-made operators, each piece of them marked as content of an element or as an artifact."""

    def __init__(self, target: BinaryIO, initial_font: str) -> None:
        self._canvas = Canvas(target, invariant=1, pageCompression=0, pdfVersion=(1, 7), initialFontName=initial_font)
        self.document: Any = self._canvas._doc
        self._root = self._reserve()
        self._parents = self._reserve()
        self._pages: list[int] = []
        self._owners: list[list[Element]] = [[]]  # page by page, whose content each number marks
        self._elements: list[Element] = []
        self._forms: dict[str, str] = {}  # forms and images: ReportLab knows each by two names
        self._titled = False
        self.top = self.element("Document", None)

    def element(self, role: str, parent: Element | None, alt: str = "", extra: str = "") -> Element:
        """Return a new element, the last in its parent so far.

        A heading of the second level before any title counts as one: no level may be left out (ISO 14289-1, 7.4.2).
        """
        role = "H1" if role == "H2" and not self._titled else role
        self._titled |= role == "H1"
        new = Element(role, parent, self._reserve(), alt, extra)
        if parent:
            parent.kids.append(new)
        self._elements.append(new)
        return new

    def mark(self, element: Element) -> int:
        """Return the number by which the next content of this page is marked as the element's."""
        owners = self._owners[-1]
        owners.append(element)
        element.page = len(self._pages)
        element.kids.append(len(owners) - 1)
        return len(owners) - 1

    def form(self, size: float, operators: str, images: Iterable[str] = ()) -> str:
        """Store a drawing of `size` × `size` units once, given the images in it; return the name pages draw it by."""
        given = str(len(self._forms) + 1)
        self._canvas.beginForm(given, 0, 0, size, size)
        self._canvas._code.append(operators)
        self._canvas._formsinuse.extend(self._forms[image] for image in images)
        self._canvas.endForm()
        return self._named(given)

    def image(self, photo: Photo) -> str:
        """Store the pixels of a photo once (ISO 32000-1, 8.9.5); return the name by which forms draw them."""
        entries = {
            "Type": "/XObject",
            "Subtype": "/Image",
            "Width": photo.width_px,
            "Height": photo.height_px,
            "BitsPerComponent": 8,
            "ColorSpace": "/DeviceGray" if photo.grey else "/DeviceRGB",
            "Filter": "/DCTDecode" if photo.jpeg else "/FlateDecode",
        }
        name = self._named(str(len(self._forms) + 1))
        self.document.Reference(PDFStream(PDFDictionary(entries), photo.data), name)
        return name

    def _named(self, given: str) -> str:
        name = str(self.document.getXObjectName(given))
        self._forms[name] = given
        return name

    def page(self, size: Size, operators: Iterable[str], forms: Iterable[str], trim: Box | None) -> None:
        """End the page: its size in mm, its operators, the forms it draws, and what is left when all is cut."""
        canvas, name = self._canvas, self.document.thisPageName()
        canvas.setPageSize((points_of_mm(size.w), points_of_mm(size.h)))
        canvas.setTrimBox(
            trim and [points_of_mm(v) for v in (trim.x, size.h - trim.bottom, trim.right, size.h - trim.y)]
        )
        canvas._code.extend(operators)
        canvas._formsinuse.extend(self._forms[form] for form in forms)
        canvas.showPage()
        page = self.document.Pages.pages[-1]
        page.__NoDefault__ = [*page.__NoDefault__, "StructParents", "Tabs"]
        page.StructParents, page.Tabs = len(self._pages), "/S"
        self._pages.append(self.document.idToObjectNumberAndVersion[name][0])
        self._owners.append([])

    def save(self) -> None:
        """Write the file, tree and all."""
        for number, content in self._tree():
            self.document.idToObject[self.document.numberToId[number]] = content
        self.document.Catalog.StructTreeRoot = f"{self._root} 0 R"
        self._canvas.save()

    def _reserve(self) -> int:
        """Return the number of a new object whose content is told at the end."""
        name = f"tag{self.document.objectcounter}"
        self.document.Reference(b"null", name)
        return int(self.document.idToObjectNumberAndVersion[name][0])

    def _tree(self) -> Iterator[tuple[int, bytes]]:
        next_key = len(self._pages)
        yield (
            self._root,
            f"<</Type/StructTreeRoot/K {self.top.number} 0 R/ParentTree {self._parents} 0 R"
            f"/ParentTreeNextKey {next_key}>>".encode("ascii"),
        )
        entries = (
            f"{page}[{' '.join(f'{owner.number} 0 R' for owner in owners)}]"
            for page, owners in enumerate(self._owners[:next_key])
        )
        yield self._parents, f"<</Nums[{' '.join(entries)}]>>".encode("ascii")
        for element in self._elements:
            parent = element.parent.number if element.parent else self._root
            yield element.number, element.dictionary(parent, self._pages)


@lru_cache(maxsize=1024)
def text_string(text: str) -> str:
    """Return text as a PDF text string (ISO 32000-1, 7.9.2.2), in UTF-16 where it is more than plain ASCII."""
    if text.isascii() and text.isprintable():
        return "(" + text.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)") + ")"
    return f"<FEFF{text.encode('utf-16-be').hex().upper()}>"
