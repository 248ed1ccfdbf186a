"""The printer test: one sheet, printed on both sides, that tells what to set for this printer."""

import random

from cardgen import plan
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import RulerRequest
from cardgen.sheets.marks import Document
from cardgen.sheets.ruler import TestCode, ruler_pages
from cardgen.sources import codes

PICTURES = ("moon", "fish", "sun", "duck")
MODULES_MM = (0.5, 0.6, 0.8)
LINK = "https://example.org/printer-test/{}mm"  # as long as the links of most clips; example.org is nobody's (RFC 2606)


def ruler(request: RulerRequest, library: Library, _rng: random.Random, _split: bool) -> Sheets:
    """Return the printer test sheet, front and back."""
    shown = [(word.picture, word.alt) for word in map(library.bank.get, PICTURES) if word and word.picture]
    links = [(LINK.format(module), module) for module in MODULES_MM]
    tests = [TestCode(link, module, codes.modules(link)) for link, module in links]
    pages = ruler_pages(request.paper.size, shown, tests, library.widths)
    document = Document("Printer test", LANGUAGES[request.accent], pages)
    summary = "One sheet: print it on both sides, at 100 %, and answer its seven questions with a ruler in hand."
    made = plan.head(request, "ruler") | {
        "flip": "long",
        "sheets": 1,
        "pages": [plan.page_plan(page) for page in pages],
    }
    return Sheets((("", document),), (summary,), (), made)
