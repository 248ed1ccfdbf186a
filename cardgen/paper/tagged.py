"""Tagged PDF (ISO 32000-1, 14.7 and 14.8; PDF/UA-1 is ISO 14289-1): pages, and the tree of what is on them.

What is drawn belongs to an element of the structure tree, by numbers counted page by page, or is an artifact, which a
screen reader skips. A page is written, tree and all, as soon as it ends, and then forgotten.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from cardgen.paper.operators import number as written
from cardgen.paper.operators import numbers
from cardgen.paper.pdf_file import PdfFile, text_string
from cardgen.sheets.marks import Photo
from cardgen.units import Box, Size, points_of_mm

_LEAVES = 64  # pages in one node of the page tree, so that a reader finds each one quickly


@dataclass(eq=False, slots=True)
class Element:
    """An element of the structure tree, the object `number`; `extra` holds more of its entries, ready-made.

    `kids` are references to other elements and the numbers of marked content on its page.
    """

    role: str
    number: int
    parent: int
    alt: str = ""
    extra: str = ""
    kids: list[str] = field(default_factory=list)

    def entries(self, page: int) -> str:
        """Return the element as a dictionary, given the page that its marked content is on."""
        alt = f"/Alt{text_string(self.alt)}" if self.alt else ""
        return f"<</S/{self.role}/P {self.parent} 0 R/Pg {page} 0 R{alt}{self.extra}/K[{' '.join(self.kids)}]>>"


class TaggedFile:
    """Pages of ready-made operators, each piece of them marked as content of an element or as an artifact."""

    def __init__(self, file: PdfFile, fonts: str) -> None:
        self._file = file
        self._fonts = fonts
        self._root = file.reserve()
        self._tree = file.reserve()
        self._nodes: list[tuple[int, list[str]]] = []  # of the page tree: its number, its pages
        self._parents: list[int] = []  # page by page: the list of whose content each number marks
        self._owners: list[Element] = []
        self._elements: list[Element] = []  # of the page that is written
        self._titled = False
        self.top = Element("Document", file.reserve(), self._root)

    def element(self, role: str, parent: Element, alt: str = "", extra: str = "") -> Element:
        """Return a new element of this page, the last in its parent so far.

        A heading of the second level before any title counts as one: no level may be left out (ISO 14289-1, 7.4.2).
        """
        role = "H1" if role == "H2" and not self._titled else role
        self._titled |= role == "H1"
        new = Element(role, self._file.reserve(), parent.number, alt, extra)
        parent.kids.append(f"{new.number} 0 R")
        self._elements.append(new)
        return new

    def mark(self, element: Element) -> int:
        """Return the number by which the next content of this page is marked as the element's."""
        number = len(self._owners)
        self._owners.append(element)
        element.kids.append(str(number))
        return number

    def form(self, size: float, operators: str, image: str = "") -> str:
        """Store a drawing of `size` × `size` units once, given the image in it; return the name pages draw it by."""
        side = written(size)
        inside = resources(image) if image else ""
        entries = f"/Type/XObject/Subtype/Form/BBox[0 0 {side} {side}]/Resources<<{inside}>>"
        return f"X{self._file.deflated(entries, operators.encode('ascii'))}"

    def image(self, photo: Photo) -> str:
        """Store the pixels of a photo once (ISO 32000-1, 8.9.5); return the name by which forms draw them."""
        space, packing = "Gray" if photo.grey else "RGB", "DCT" if photo.jpeg else "Flate"
        entries = (
            f"/Type/XObject/Subtype/Image/Width {photo.width_px}/Height {photo.height_px}/BitsPerComponent 8"
            f"/ColorSpace/Device{space}/Filter/{packing}Decode"
        )
        return f"X{self._file.stream(entries, photo.data)}"

    def page(self, size: Size, operators: Iterable[str], forms: Iterable[str], trim: Box | None) -> None:
        """End the page: its size in mm, its operators, the forms it draws, and what is left when all is cut."""
        file, page = self._file, self._file.reserve()
        content = file.deflated("", "\n".join(operators).encode("ascii"))
        # The edge as near as can be told: renderers lay their pixels by it.
        edges = f"/MediaBox[0 0 {points_of_mm(size.w):.6f} {points_of_mm(size.h):.6f}]"
        if trim:
            corners = (trim.x, size.h - trim.bottom, trim.right, size.h - trim.y)
            edges += f"/TrimBox[{numbers(*map(points_of_mm, corners))}]"
        file.tell(
            page,
            f"<</Type/Page/Parent {self._node(page)} 0 R{edges}/Resources<</Font{self._fonts}{resources(*forms)}>>"
            f"/Contents {content} 0 R/StructParents {len(self._parents)}/Tabs/S>>",
        )
        self._parents.append(file.add(f"[{' '.join(f'{owner.number} 0 R' for owner in self._owners)}]"))
        for element in self._elements:
            file.tell(element.number, element.entries(page))
        self._owners, self._elements = [], []

    def _node(self, page: int) -> int:
        """Return the node of the page tree that a page hangs on."""
        if not self._nodes or len(self._nodes[-1][1]) == _LEAVES:
            self._nodes.append((self._file.reserve(), []))
        self._nodes[-1][1].append(f"{page} 0 R")
        return self._nodes[-1][0]

    def finish(self) -> str:
        """Write what holds the pages together; return the entries of the catalogue that lead to it."""
        file = self._file
        for number, leaves in self._nodes:
            file.tell(number, f"<</Type/Pages/Parent {self._tree} 0 R/Count {len(leaves)}/Kids[{' '.join(leaves)}]>>")
        nodes = " ".join(f"{number} 0 R" for number, _ in self._nodes)
        file.tell(self._tree, f"<</Type/Pages/Count {len(self._parents)}/Kids[{nodes}]>>")
        parents = file.add(f"<</Nums[{' '.join(f'{page} {n} 0 R' for page, n in enumerate(self._parents))}]>>")
        top = self.top
        file.tell(top.number, f"<</S/{top.role}/P {top.parent} 0 R/K[{' '.join(top.kids)}]>>")
        file.tell(
            self._root,
            f"<</Type/StructTreeRoot/K {top.number} 0 R/ParentTree {parents} 0 R"
            f"/ParentTreeNextKey {len(self._parents)}>>",
        )
        return f"/Pages {self._tree} 0 R/StructTreeRoot {self._root} 0 R/MarkInfo<</Marked true>>"


def resources(*names: str) -> str:
    """Return the entry that leads from the names of forms or images, X and their number, to them; none without any."""
    entries = "".join(f"/{name} {name[1:]} 0 R" for name in names)
    return f"/XObject<<{entries}>>" if entries else ""
