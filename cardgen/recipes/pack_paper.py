"""Packs on paper: sheets of their own or in runs, the sorting strips, one file or one a pack."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

from cardgen.errors import TeacherError
from cardgen.games import pack_text as text
from cardgen.games.paper_text import cards_lines, in_short
from cardgen.games.pieces import Backs, Card, Imprint, PaperUse
from cardgen.recipes.common import check_there
from cardgen.recipes.decks import deck
from cardgen.request import CardsRequest, Cut, Ink, PackRequest
from cardgen.request.pack import USUAL_CARDS
from cardgen.sheets import cards
from cardgen.sheets import cover as cover_of
from cardgen.sheets.block import card_block
from cardgen.sheets.cards import CardSheets
from cardgen.sheets.marks import Document, Page
from cardgen.sources.layouts import strip_format
from cardgen.units import Widths

STRIP = "strip"


@dataclass(frozen=True, slots=True)
class PackPaper:
    """The packs on their sheets, and the strips on theirs (None without)."""

    book: CardSheets
    strips: CardSheets | None
    widths: Widths

    @property
    def every_card(self) -> tuple[Card, ...]:
        """Every card of any pack once, the strip last."""
        return self.book.every_card + (self.strips.cards if self.strips else ())

    def pages(self, first: int, only: Sequence[str] = ()) -> tuple[Page, ...]:
        """Return the pages of packs and strips, or those on which what is asked for stands, numbered as in all."""
        shown = cards.card_pages(self.book, self.widths, first, only)
        if not self.strips:
            return shown
        after = first + len(self.book.layers) * (2 if self.book.two_sided else 1)
        return shown + cards.card_pages(self.strips, self.widths, after, only)

    def use(self, ink: Ink) -> PaperUse:
        """Return what packs and strips take together."""
        packs = cards.paper_use(self.book, cards.card_pages(self.book, self.widths, 1), self.widths, ink)
        packs = replace(packs, parts=(("packs", packs.sheets),))
        if not self.strips:
            return packs
        strips = cards.paper_use(self.strips, cards.card_pages(self.strips, self.widths, 1), self.widths, ink)
        sheets = packs.sheets + strips.sheets
        return replace(
            packs,
            parts=packs.parts + strips.parts,
            cuts=packs.cuts + strips.cuts,
            minutes=packs.minutes + strips.minutes,
            scissors=packs.scissors + strips.scissors,
            ink=(packs.ink * packs.sheets + strips.ink * strips.sheets) / sheets,
        )

    def lines(self, use: PaperUse) -> tuple[str, ...]:
        """Return what the teacher's page says of paper and hands."""
        book = self.book
        if not book.apart:
            return cards_lines(use, book.cut, sets=book.sets, whole="pack")
        return text.sheets_apart(use, -(-len(book.cards) // book.block.places) * book.block.cuts)

    def in_short(self, use: PaperUse) -> str:
        """Return paper and cuts for the line that is read first."""
        return text.at_home(use) if self.book.apart else in_short(use)

    def split(self, own: tuple[Page, ...], title: str, language: str) -> tuple[tuple[str, Document], ...]:
        """Return one document for the teacher and one a pack, for families who print it themselves."""
        digits = max(2, len(str(self.book.sets)))
        parts = [("teacher", Document(title, language, own))]
        for number in range(1, self.book.sets + 1):
            pages = self.pages(len(own) + 1, (str(number),))
            parts.append((f"pack-{number:0{digits}}", Document(f"{title}: pack {number}", language, pages)))
        return tuple(parts)

    def check_only(self, only: Sequence[str]) -> None:
        """Raise TeacherError for a pack or card of `--only` that is not there."""
        numbers = [name for name in only if name.isdecimal()]
        check_there([int(name) for name in numbers], range(1, self.book.sets + 1), "pack")
        ids = dict.fromkeys(card.id for card in self.every_card)
        check_there([name for name in only if name not in numbers], list(ids), "card")


def backs_of(request: PackRequest) -> Backs:
    """Return how the backs get onto the paper: none on one sheet, words on the backs of larger packs."""
    return request.backs or (Backs.DUPLEX_LONG if request.is_large else Backs.NONE)


def on_paper(
    request: PackRequest,
    packs: Sequence[tuple[Card, ...]],
    strip: Card | None,
    keys: tuple[str, ...],
    widths: Widths,
    *,
    split: bool,
) -> PackPaper:
    """Return the packs on sheets: one, if all are the same, or one a child; TeacherError where a cover does not fit."""
    every = tuple(dict.fromkeys(card for pack in packs for card in pack))
    backs, size = backs_of(request), len(packs[0])
    # What a child cuts at home must lie on sheets of its own; larger packs come off the guillotine pile by pile.
    apart = split or (backs is not Backs.FOLD and (request.cards is None or size <= USUAL_CARDS))
    cut = Cut.SCISSORS if apart else Cut.GUILLOTINE
    book = deck(_as_deck(request), every, "pack", "pack", layout="cards", backs=backs, cut=cut)
    card = book.block.card
    if card.h < 1.2 * card.w or min(card.w / cover_of.CARD.w, card.h / cover_of.CARD.h) < 0.995:
        raise TeacherError(
            f"The cover of a pack does not fit on a card of {card.w:g} × {card.h:g} mm.",
            "Choose upright cards of at least 63 × 88 mm: --layout cards",
        )
    varied = tuple(packs) if len(packs) > 1 else ()
    book = replace(
        book,
        cards=packs[0],
        own=varied,
        apart=apart,
        numbered=bool(varied) or not (apart and size <= book.block.places),
        hint="cut on the lines" if book.cut is Cut.SCISSORS else "",
        imprint=Imprint("pack", keys, request.seed),
    )
    return PackPaper(book, _strips(request, strip, book, split=split) if strip else None, widths)


def _as_deck(request: PackRequest) -> CardsRequest:
    """Return the request as one for a deck that is printed once for every child."""
    shared = {field.name: getattr(request, field.name) for field in fields(CardsRequest)}
    return CardsRequest(**(shared | {"sets": request.children, "only": ()}))


def _strips(request: PackRequest, strip: Card, book: CardSheets, *, split: bool) -> CardSheets:
    return replace(
        book,
        cards=(strip,),
        own=(),
        block=card_block(strip_format(STRIP).as_card, request.paper),
        backs=Backs.NONE,
        what="strips",
        apart=split,
        cut=Cut.SCISSORS if split or request.cut is Cut.SCISSORS else Cut.GUILLOTINE,
        hint="",
    )
