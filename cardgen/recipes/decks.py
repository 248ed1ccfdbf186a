"""Decks of loose cards: which layout, which backs and which way of cutting a request comes to."""

from collections.abc import Sequence

from cardgen.errors import TeacherError
from cardgen.games.pieces import Card, Imprint
from cardgen.recipes.common import check_there
from cardgen.recipes.library import Library
from cardgen.request import Backs, CardsRequest, Cut
from cardgen.sheets.block import card_block
from cardgen.sheets.cards import CardSheets, card_pages
from cardgen.sheets.marks import Document, Page, Side
from cardgen.sheets.style import Style
from cardgen.sources.layouts import card_format


def deck(
    request: CardsRequest,
    cards: Sequence[Card],
    game: str,
    what: str,
    *,
    layout: str,
    backs: Backs,
    cut: Cut = Cut.GUILLOTINE,
) -> CardSheets:
    """Return the cards with everything that is needed to lay them on sheets, by the request or else as given.

    TeacherError where a layout does not do, or `--only` names a card or set that is not there.
    """
    chosen = request.backs or backs
    fold = chosen is Backs.FOLD
    block = card_block(
        card_format(request.layout or layout),
        request.paper,
        fold=fold,
        margin=request.margin,
        gap=request.gap,
        laminate=request.laminate,
    )
    numbers = [name for name in request.only if name.isdecimal()]
    check_there([int(name) for name in numbers], range(1, request.sets + 1), "set")
    check_there([name for name in request.only if name not in numbers], [card.id for card in cards], "card")
    if fold and request.cut is Cut.GUILLOTINE:
        raise TeacherError("Folded sheets have no guillotine marks.", "Leave out --cut, or choose other --backs.")
    return CardSheets(
        tuple(cards),
        request.sets,
        block,
        chosen,
        Cut.SCISSORS if fold or request.laminate else request.cut or cut,
        Imprint(game, request.all_keys, request.seed),
        Style.of(request.ink),
        what,
        (request.back_shift.x, request.back_shift.y),
    )


def set_documents(
    book: CardSheets,
    teacher: tuple[Page, ...],
    shown: tuple[Page, ...],
    title: str,
    language: str,
    library: Library,
    request: CardsRequest,
    *,
    split: bool,
) -> tuple[tuple[str, Document], ...]:
    """Return one document of all pages (with `--only` the pages asked for), or one for the teacher and one a set."""
    if not split:
        return (("", Document(title, language, shown if request.only else (*teacher, *shown))),)
    digits = max(2, len(str(book.sets)))
    parts = [("teacher", Document(title, language, teacher))]
    for number in range(1, book.sets + 1):
        pages = card_pages(book, library.widths, len(teacher) + 1, {str(number)})
        parts.append((f"set-{number:0{digits}}", Document(f"{title}: set {number}", language, pages)))
    return tuple(parts)


def empty_back(page: Page) -> Page:
    """Return the empty back of a page: what comes next begins on a sheet of its own."""
    return Page(page.number + 1, page.size, (), Side.BACK)


def on_whole_sheets(pages: tuple[Page, ...]) -> tuple[Page, ...]:
    """Return pages with an empty back for an odd last one: a file printed on both sides goes on with a new sheet."""
    return (*pages, empty_back(pages[-1])) if len(pages) % 2 else pages
