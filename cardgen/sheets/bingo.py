"""All sheets of one bingo, in printing order: teacher's page, caller's list, boards, calling cards, counters."""

from collections.abc import Collection
from dataclasses import dataclass

from cardgen.games.pieces import Backs, BingoGame, Block, Card, Cut, Face, Imprint, Ink, Link, Paper, PaperUse, SayLine
from cardgen.sheets import boards, caller, cards, teacher
from cardgen.sheets.block import CardBlock
from cardgen.sheets.boards import BoardLayout
from cardgen.sheets.cards import CardSheets
from cardgen.sheets.cuts import minutes, stacks
from cardgen.sheets.ink_use import ink_share
from cardgen.sheets.layout import BoardFormat
from cardgen.sheets.marks import Page
from cardgen.sheets.style import Style
from cardgen.units import Widths


@dataclass(frozen=True, slots=True)
class BingoSheets:
    """What the sheets of a bingo need beside the game: paper, ink, layouts, and the words for the teacher.

    `link` leads to the lesson's recordings, None without a code on the caller's list.
    """

    game: BingoGame
    cards: tuple[Card, ...]
    paper: Paper
    ink: Ink
    cut: Cut
    layouts: tuple[tuple[Face, BoardLayout], ...]
    deck: CardBlock
    counters: CardBlock | None
    imprint: Imprint
    says: tuple[SayLine, ...]
    link: Link | None = None

    @property
    def style(self) -> Style:
        """The look in this ink."""
        return Style.of(self.ink)

    @property
    def calling(self) -> CardSheets:
        """The calling cards."""
        return CardSheets(self.cards, 1, self.deck, Backs.NONE, self.cut, self.imprint, self.style, "calling cards")


def layouts_of(
    form: BoardFormat, paper: Paper, faces: Collection[Face], rows: int, columns: int
) -> tuple[tuple[Face, BoardLayout], ...]:
    """Return the layout of every face of the game, in order; TeacherError if cells get too small."""
    return tuple(
        (face, boards.board_layout(form, paper, rows, columns, with_words=face is Face.PICTURE_WORD))
        for face in dict.fromkeys(faces)
    )


def paper_use(sheets: BingoSheets, widths: Widths) -> PaperUse:
    """Return what boards, cards and counters take in paper, guillotine cuts (stacks of ten), minutes and ink."""
    layouts = dict(sheets.layouts)
    by_layout = [
        (boards.page_count(tuple(b for b in sheets.game.boards if b.face is face), layouts), layout.cuts)
        for face, layout in sheets.layouts
    ]
    card_sheets, in_deck = len(sheets.calling.layers), sheets.deck.cuts
    cuts = sum(stacks(count) * each for count, each in by_layout) + stacks(card_sheets) * in_deck
    # Counters are cut with scissors.
    extra, extra_cuts = (1, sheets.counters.cuts) if sheets.counters else (0, 0)
    pages = board_part(sheets, widths, 1) + card_part(sheets, widths, 1)
    return PaperUse(
        (("boards", sum(count for count, _ in by_layout)), ("cards", card_sheets + extra)),
        cuts,
        minutes(cuts),
        sum(count * each for count, each in by_layout) + card_sheets * in_deck + extra_cuts,
        ink_share(pages, sheets.ink, widths),
    )


@dataclass(frozen=True, slots=True)
class Telling:
    """The words on the teacher's page and the caller's list."""

    title: str
    right: str
    blocks: tuple[Block, ...]
    kinds: tuple[tuple[Face, str], ...]
    caller_lines: tuple[str, ...]
    winners_head: str
    twice: bool


def teacher_part(sheets: BingoSheets, telling: Telling, widths: Widths) -> tuple[Page, ...]:
    """Return the teacher's page and the caller's list, the pages numbered from 1."""
    kinds = tuple(teacher.KindLine(face, text) for face, text in telling.kinds)
    content = teacher.TeacherPage(telling.title, telling.right, sheets.says, telling.blocks, kinds)
    size = sheets.paper.size
    pages = teacher.teacher_pages(content, size, imprint=sheets.imprint, widths=widths, first_page=1)
    listed = caller.CallerPage(
        telling.right,
        telling.caller_lines,
        sheets.says,
        sheets.game.calls,
        telling.winners_head,
        telling.twice,
        len(sheets.game.boards),
        sheets.link,
    )
    first = len(pages) + 1
    return pages + caller.caller_pages(listed, size, imprint=sheets.imprint, widths=widths, first_page=first)


def board_part(sheets: BingoSheets, widths: Widths, first_page: int, only: Collection[int] = ()) -> tuple[Page, ...]:
    """Return the pages of the boards, or only those on which the boards `only` stand."""
    return boards.board_pages(
        sheets.game.boards,
        {item.id: item for item in sheets.game.items},
        dict(sheets.layouts),
        imprint=sheets.imprint,
        style=sheets.style,
        widths=widths,
        cut=sheets.cut,
        first_page=first_page,
        only=only,
    )


def card_part(sheets: BingoSheets, widths: Widths, first_page: int, only: Collection[str] = ()) -> tuple[Page, ...]:
    """Return the pages of the calling cards (or only those with the cards `only`), then the counters, if asked for."""
    pages = cards.card_pages(sheets.calling, widths, first_page, only)
    if not sheets.counters or only:
        return pages
    number = first_page + len(pages)
    return (
        *pages,
        cards.counter_page(sheets.counters, imprint=sheets.imprint, style=sheets.style, widths=widths, number=number),
    )


def all_pages(sheets: BingoSheets, telling: Telling, widths: Widths) -> tuple[Page, ...]:
    """Return every sheet of the game in printing order."""
    pages = teacher_part(sheets, telling, widths)
    pages += board_part(sheets, widths, len(pages) + 1)
    return pages + card_part(sheets, widths, len(pages) + 1)
