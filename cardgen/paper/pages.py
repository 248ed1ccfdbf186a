"""One run through the items of a page: each is drawn where it stands and belongs to the element of its group."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from cardgen.paper.content import Content, Form
from cardgen.paper.embedding import Setting
from cardgen.paper.extent import extent
from cardgen.paper.operators import Matrix, code_operators, drawing_operators, numbers, photo_operators
from cardgen.paper.tagged import Element, TaggedFile
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
    Photo,
    Picture,
    Role,
    marks_of,
)
from cardgen.units import Box, Widths, points_of_mm

# Rows stand in a table and cells in a row, and nothing else stands there (ISO 32000-1, 14.8.4.3.4).
_HOLDERS = {Role.ROW: Role.TABLE, Role.HEAD: Role.ROW, Role.CELL: Role.ROW}
_HOLDS_TEXT = {Role.TITLE, Role.HEADING, Role.TEXT, Role.HEAD, Role.CELL}


class Artifact(Enum):
    """What is drawn without being content (ISO 32000-1, table 330): lines and frames, running feet, cut marks."""

    LAYOUT = "Layout"
    PAGINATION = "Pagination"
    PAGE = "Page"


class Stock:
    """The pictures and codes of a document, each drawn on first demand and stored once."""

    def __init__(
        self, file: TaggedFile, drawings: Callable[[str], Drawing | Photo], codes: Callable[[str], Matrix]
    ) -> None:
        self._file = file
        self._drawings = drawings
        self._codes = codes
        self._forms: dict[tuple[type[Mark], str], Form] = {}

    def form(self, mark: Picture | Code) -> Form:
        """Return the form that draws a picture or code."""
        key = (type(mark), mark.name if isinstance(mark, Picture) else mark.text)
        if key not in self._forms:
            self._forms[key] = self._picture(mark.name) if isinstance(mark, Picture) else self._code(mark.text)
        return self._forms[key]

    def _picture(self, name: str) -> Form:
        drawing = self._drawings(name)
        if isinstance(drawing, Drawing):
            return Form(self._file.form(drawing.box, drawing_operators(drawing)), drawing.box)
        side, image = max(drawing.width_px, drawing.height_px), self._file.image(drawing)
        return Form(self._file.form(side, photo_operators(drawing, image), image), side)

    def _code(self, text: str) -> Form:
        matrix = self._codes(text)
        return Form(self._file.form(len(matrix), code_operators(matrix)), len(matrix))


@dataclass(frozen=True, slots=True)
class Desk:
    """What all pages of one document share."""

    file: TaggedFile
    setting: Setting
    widths: Widths
    stock: Stock


def write_page(desk: Desk, page: Page) -> None:
    """Write a page: its items, then its cut marks, which are decoration.

    ValueError for a figure without alt text, and for anything but rows in a table or cells in a row.
    """
    run = _Run(desk, page)
    run.items(Group(Role.SECTION, page.items), desk.file.element(Role.SECTION.value, desk.file.top))
    for cut in page.cuts:
        run.change_owner(Artifact.PAGE)
        run.content.line(cut)
    run.change_owner(None)
    run.content.close()
    desk.file.page(page.size, run.content.code, run.forms, _trim(page))


class _Run:
    """The run through one page."""

    def __init__(self, desk: Desk, page: Page) -> None:
        self.content = Content(page.size, desk.widths, desk.setting.runs, turned=page.turned, shift=page.shift)
        self.forms: dict[str, None] = {}  # in order of first use
        self._desk = desk
        self._file = desk.file
        self._page = page
        self._owner: Element | Artifact | None = None

    def items(self, holder: Group, element: Element) -> None:
        """Draw what a group holds, as content of its element."""
        for item in holder.items:
            if isinstance(item, Group):
                self._group(item, holder, element)
            else:
                self.change_owner(self._owner_of(item, holder, element))
                self._draw(item)

    def _group(self, group: Group, holder: Group, parent: Element) -> None:
        if holder.role is Role.FIGURE:  # a figure is one thing: what is grouped inside it is part of it
            self.items(Group(Role.FIGURE, group.items), parent)
            return
        _check_part(group.role, holder.role)
        if group.role is Role.FIGURE:
            element = self._figure(group.alt, extent(marks_of(group.items), self._desk.widths), parent)
        else:
            scope = f"/A<</O/Table/Scope/{_scope(holder)}>>" if group.role is Role.HEAD else ""
            element = self._file.element(group.role.value, parent, group.alt, scope)
        self.items(group, element)

    def _figure(self, alt: str, box: Box, parent: Element) -> Element:
        if not alt:
            raise ValueError("a figure needs alt text: what does it show?")
        box = self._page.on_paper(box)
        height = self._page.size.h
        edges = (box.x, height - box.bottom, box.right, height - box.y)
        layout = f"/A<</O/Layout/Placement/Block/BBox[{numbers(*map(points_of_mm, edges))}]>>"
        return self._file.element(Role.FIGURE.value, parent, alt, layout)

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
            return self._file.element(Role.TEXT.value, element)
        _check_part(Role.FIGURE, holder.role)
        return self._figure(mark.alt, mark.box, element)

    def change_owner(self, owner: Element | Artifact | None) -> None:
        """Let what is drawn from here on belong to `owner`; None at the end."""
        if owner is self._owner:
            return
        if self._owner is not None:
            self.content.code.append("EMC")
        if isinstance(owner, Element):
            self.content.code.append(f"/{owner.role} <</MCID {self._file.mark(owner)}>> BDC")
        elif owner:
            self.content.code.append(f"/Artifact <</Type /{owner.value}>> BDC")
        self._owner = owner

    def _draw(self, mark: Mark) -> None:
        match mark:
            case Label():
                self.content.label(mark)
            case Picture() | Code():
                form = self._desk.stock.form(mark)
                self.forms[form.name] = None
                self.content.form(form, mark.box)
            case Line():
                self.content.line(mark)
            case Panel():
                self.content.panel(mark)
            case Outline():
                self.content.outline(mark)


def _check_part(role: Role, holder: Role) -> None:
    """Raise ValueError for a row outside a table, a cell outside a row, and whatever else stands in a table or row."""
    if (role in _HOLDERS or holder in _HOLDERS.values()) and _HOLDERS.get(role) is not holder:
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
