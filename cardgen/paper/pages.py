"""One run through the items of a page: each is drawn where it stands and belongs to the element of its group."""

from collections.abc import Callable
from enum import Enum

from cardgen.paper.content import Content, Form
from cardgen.paper.embedding import Setting
from cardgen.paper.extent import extent
from cardgen.paper.operators import Matrix, code_operators, drawing_operators, numbers
from cardgen.paper.tagged import Element, TaggedCanvas
from cardgen.sheets.marks import (
    Code,
    Drawing,
    Group,
    Label,
    Line,
    Mark,
    Outline,
    Page,
    Panel,
    Picture,
    Role,
    marks_of,
)
from cardgen.units import Box, Widths, points_of_mm

# A table holds rows and a row holds cells (ISO 32000-1, 14.8.4.3.4), and nothing else has meaning between them.
_PARTS = {Role.TABLE: {Role.ROW}, Role.ROW: {Role.HEAD, Role.CELL}}
_HOLDS_TEXT = {Role.TITLE, Role.HEADING, Role.TEXT, Role.HEAD, Role.CELL}


class Artifact(Enum):
    """What is drawn without being content (ISO 32000-1, table 330): lines and frames, running feet, cut marks."""

    LAYOUT = "Layout"
    PAGINATION = "Pagination"
    PAGE = "Page"


class Stock:
    """The pictures and codes of a document, each drawn on first demand and stored once."""

    def __init__(
        self, canvas: TaggedCanvas, drawings: Callable[[str], Drawing], codes: Callable[[str], Matrix]
    ) -> None:
        self._canvas = canvas
        self._drawings = drawings
        self._codes = codes
        self._forms: dict[tuple[type[Mark], str], Form] = {}

    def form(self, mark: Picture | Code) -> Form:
        """Return the form that draws a picture or code."""
        key = (type(mark), mark.name if isinstance(mark, Picture) else mark.text)
        if key not in self._forms:
            if isinstance(mark, Picture):
                drawing = self._drawings(mark.name)
                units, operators = drawing.box, drawing_operators(drawing)
            else:
                matrix = self._codes(mark.text)
                units, operators = len(matrix), code_operators(matrix)
            self._forms[key] = Form(self._canvas.form(units, operators), units)
        return self._forms[key]


class PageWriter:
    """Writes the pages of a document, one after the other."""

    def __init__(self, canvas: TaggedCanvas, setting: Setting, widths: Widths, stock: Stock) -> None:
        self._canvas = canvas
        self._setting = setting
        self._widths = widths
        self._stock = stock

    def write(self, page: Page) -> None:
        """Write a page: its items, then its cut marks, which are decoration."""
        self._height = page.size.h
        self._content = Content(page.size.h, self._widths, self._setting.runs)
        self._owner: Element | Artifact | None = None
        self._forms: dict[str, None] = {}
        section = Group(Role.SECTION, page.items)
        self._items(section, self._canvas.element(section.role.value, self._canvas.top))
        for cut in page.cuts:
            self._change_owner(Artifact.PAGE)
            self._content.line(cut)
        self._change_owner(None)
        self._canvas.page(page.size, self._content.code, self._forms, _trim(page))

    def _items(self, holder: Group, element: Element) -> None:
        for item in holder.items:
            if isinstance(item, Group):
                self._group(item, holder, element)
            else:
                self._change_owner(self._owner_of(item, holder, element))
                self._draw(item)

    def _group(self, group: Group, holder: Group, parent: Element) -> None:
        if holder.role is Role.FIGURE:  # a figure is one thing: what is grouped inside it is part of it
            self._items(Group(Role.FIGURE, group.items), parent)
            return
        _check_part(group.role, holder.role)
        if group.role is Role.FIGURE:
            element = self._figure(group.alt, extent(marks_of(group.items), self._widths), parent)
        else:
            scope = f"/A<</O/Table/Scope/{_scope(holder)}>>" if group.role is Role.HEAD else ""
            element = self._canvas.element(group.role.value, parent, group.alt, scope)
        self._items(group, element)

    def _figure(self, alt: str, box: Box, parent: Element) -> Element:
        if not alt:
            raise ValueError("a figure needs alt text: what does it show?")
        edges = (box.x, self._height - box.bottom, box.right, self._height - box.y)
        layout = f"/A<</O/Layout/Placement/Block/BBox[{numbers(*map(points_of_mm, edges))}]>>"
        return self._canvas.element(Role.FIGURE.value, parent, alt, layout)

    def _owner_of(self, mark: Mark, holder: Group, element: Element) -> Element | Artifact:
        """Return what a mark belongs to; a paragraph or figure of its own where its group is neither."""
        if isinstance(mark, Label) and mark.decoration:
            return Artifact.PAGINATION
        if holder.role is Role.FIGURE:
            return element
        if isinstance(mark, Line | Panel | Outline):
            return Artifact.LAYOUT
        if isinstance(mark, Label):
            if holder.role in _HOLDS_TEXT:
                return element
            _check_part(Role.TEXT, holder.role)
            return self._canvas.element(Role.TEXT.value, element)
        _check_part(Role.FIGURE, holder.role)
        return self._figure(mark.alt, mark.box, element)

    def _change_owner(self, owner: Element | Artifact | None) -> None:
        """Let what is drawn from here on belong to `owner`."""
        if owner is self._owner:
            return
        if self._owner is not None:
            self._content.code.append("EMC")
        if isinstance(owner, Element):
            self._content.code.append(f"/{owner.role} <</MCID {self._canvas.mark(owner)}>> BDC")
        elif owner:
            self._content.code.append(f"/Artifact <</Type /{owner.value}>> BDC")
        self._owner = owner

    def _draw(self, mark: Mark) -> None:
        match mark:
            case Label():
                self._content.label(mark)
            case Picture() | Code():
                form = self._stock.form(mark)
                self._forms[form.name] = None
                self._content.form(form, mark.box)
            case Line():
                self._content.line(mark)
            case Panel():
                self._content.panel(mark)
            case Outline():
                self._content.outline(mark)


def _check_part(role: Role, holder: Role) -> None:
    if role not in _PARTS.get(holder, {role}):
        raise ValueError(f"a {role.name} cannot stand directly in a {holder.name}")


def _scope(row: Group) -> str:
    """Return what the heads of a row are heads of: a row of nothing else heads the columns."""
    heads_only = all(item.role is Role.HEAD for item in row.items if isinstance(item, Group))
    return "Column" if heads_only else "Row"


def _trim(page: Page) -> Box | None:
    """Return what is left of a page when all is cut, in mm; None where nothing is cut."""
    if not page.cuts or not page.places:
        return None
    boxes = [place.box for place in page.places]
    left, top = min(box.x for box in boxes), min(box.y for box in boxes)
    return Box(left, top, max(box.right for box in boxes) - left, max(box.bottom for box in boxes) - top)
