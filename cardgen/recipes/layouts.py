"""The formats of boards and cards on paper, one a page."""

import random

from cardgen import plan
from cardgen.games.paper_text import count
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import LayoutsRequest
from cardgen.sheets.formats import format_page
from cardgen.sheets.marks import Document
from cardgen.sheets.style import Style
from cardgen.sources import layouts


def layout_sheets(request: LayoutsRequest, library: Library, _rng: random.Random, _split: bool) -> Sheets:
    """Return a page a format, the pieces empty; TeacherError for an unknown name or a damaged file."""
    forms = [layouts.find(name) for name in request.names or layouts.names()]
    style = Style.of(request.ink)
    pages = tuple(
        format_page(form, request.paper, style, library.widths, number) for number, form in enumerate(forms, 1)
    )
    document = Document("Layouts", LANGUAGES[request.accent], pages)
    made = plan.head(request, "layouts") | {"sheets": len(pages), "pages": [plan.page_plan(page) for page in pages]}
    return Sheets((("", document),), (f"{count(len(pages), 'layout')}, one a page.",), (), made)
