"""The credit for pictures that are not ours: on every page that shows one, and in full on the teacher's. All in mm."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cardgen.sheets.marks import Align, Document, Label, Page, Picture, marks_of
from cardgen.sheets.style import PAGE_MARGIN, TEXT
from cardgen.units import Box, Typeface, Widths

CREDIT_PT = 7.0
FOOT_AT, HEAD_AT = 11.4, 8.6  # baselines: above the foot from the lower edge, between cut marks from the upper one
COLUMN_AIR = 2.0


@dataclass(frozen=True, slots=True)
class Credit:
    """Who is to be named for the pictures `names`: the set, its site, its licence, where the terms stand."""

    names: frozenset[str]
    by: str
    site: str
    licence: str
    terms: str

    @property
    def line(self) -> str:
        """The credit in one line."""
        return f"Pictures: {self.by} ({self.site}), {self.licence}"

    def full(self, used: Sequence[str], room: float, widths: Widths) -> str:
        """Return the credit with its terms and the words it is for; without the words where `room` mm do not do."""
        terms = f"{self.by} ({self.site}), {self.licence}, {self.terms}"
        named = f"Pictures of {', '.join(used)}: {terms}"
        return named if widths.mm(named, CREDIT_PT, Typeface.TEXT) <= room else f"{len(used)} pictures: {terms}"


def credited(
    documents: Sequence[tuple[str, Document]], credit: Credit, widths: Widths
) -> tuple[tuple[str, Document], ...]:
    """Return the documents with the credit on the first page, if it is the teacher's, and wherever such a picture is.

    On boards it stands on each board, on sheets of cards above the cards, elsewhere above the running foot.
    """
    pages = [page for _, document in documents for page in document.pages]
    used = sorted({picture.name for page in pages for picture in _shown(page, credit)})
    if not used:
        return tuple(documents)
    room = pages[0].size.w - 2 * PAGE_MARGIN
    teachers = {pages[0].number: credit.full(used, room, widths)} if not pages[0].places else {}

    def with_credit(page: Page) -> Page:
        if page.number in teachers:
            return replace(page, items=(*page.items, _above_foot(page, teachers[page.number])))
        shown = _shown(page, credit)
        return replace(page, items=page.items + _labels(page, shown, credit, widths)) if shown else page

    return tuple(
        (name, replace(document, pages=tuple(map(with_credit, document.pages)))) for name, document in documents
    )


def _shown(page: Page, credit: Credit) -> list[Picture]:
    return [mark for mark in marks_of(page.items) if isinstance(mark, Picture) and mark.name in credit.names]


def _labels(page: Page, shown: Sequence[Picture], credit: Credit, widths: Widths) -> tuple[Label, ...]:
    if page.cells:
        boards = (place.box for place in page.places)
        with_one = (box for box in boards if any(_lies_in(picture.box, box) for picture in shown))
        return tuple(_label(box.cx, page.size.h - FOOT_AT, credit.line, Align.CENTRE) for box in with_one)
    xs = sorted({cut.x1 for cut in page.cuts if cut.x1 == cut.x2})
    if page.places and len(xs) > 1:
        return _between_marks(xs, credit, widths)
    return (_above_foot(page, credit.line),)


def _lies_in(inner: Box, outer: Box) -> bool:
    return outer.x <= inner.cx <= outer.right and outer.y <= inner.cy <= outer.bottom


def _between_marks(xs: Sequence[float], credit: Credit, widths: Widths) -> tuple[Label, ...]:
    """Return the credit in pieces, one or more a column of cards, so that no cut mark runs across it."""
    columns = [(left, right - left - 2 * COLUMN_AIR) for left, right in pairwise(xs)]
    texts = [f"Pictures: {credit.by}"]
    for part in (credit.site, credit.licence):
        longer = f"{texts[-1]}, {part}"
        if widths.mm(longer, CREDIT_PT, Typeface.TEXT) <= columns[0][1]:
            texts[-1] = longer
        else:
            texts.append(part)
    return tuple(_label(left + COLUMN_AIR, HEAD_AT, text) for (left, _), text in zip(columns, texts, strict=False))


def _above_foot(page: Page, text: str) -> Label:
    return _label(PAGE_MARGIN, page.size.h - FOOT_AT, text)


def _label(x: float, y: float, text: str, align: Align = Align.LEFT) -> Label:
    return Label(x, y, text, CREDIT_PT, Typeface.TEXT, TEXT, align)
