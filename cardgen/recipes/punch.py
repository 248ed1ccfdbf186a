"""Room for holes: pages that are filed keep ink away from the edge that is punched."""

from dataclasses import replace

from cardgen.errors import TeacherError
from cardgen.paper.extent import extent
from cardgen.sheets.marks import Document, Page, Side, marks_of
from cardgen.sheets.style import EDGE
from cardgen.units import Box, Widths

FREE = 20.4  # mm, for the middle of a pen of 0.8 mm; holes of 6 mm stand 12 mm from the edge (ISO 838)


def punched(document: Document, widths: Widths) -> Document:
    """Return the document with all pages that are not cut moved away from their left edge (a back: its right edge).

    TeacherError where a page is too full to be moved.
    """
    return replace(document, pages=tuple(page if page.cuts else _moved(page, widths) for page in document.pages))


def _moved(page: Page, widths: Widths) -> Page:
    marks = list(marks_of(page.items))
    if not marks:  # an empty back
        return page
    reach = extent(marks, widths)
    if page.side is Side.FRONT:
        move = max(0.0, FREE - reach.x)
        over = reach.right + move - (page.size.w - EDGE)
    else:
        move = -max(0.0, reach.right - (page.size.w - FREE))
        over = EDGE - (reach.x + move)
    if over > 0.01:
        raise TeacherError(f"Page {page.number} is too full to leave 20 mm free for holes.", "Leave out --punch.")

    def at(box: Box) -> Box:
        return Box(box.x + move, box.y, box.w, box.h)

    return replace(
        page,
        shift=(page.shift[0] + move, page.shift[1]),
        places=tuple(replace(place, box=at(place.box)) for place in page.places),
        cells=tuple(replace(cell, box=at(cell.box)) for cell in page.cells),
    )
