"""All sheets of one bingo, in printing order: teacher's page, caller's list, boards, calling cards, counters."""

from collections.abc import Collection
from dataclasses import dataclass

from cardgen.games.pieces import BingoGame, Block, Card, Cut, Face, Imprint, Ink, Paper, PaperUse, SayLine
from cardgen.sheets import boards, caller, deck, teacher
from cardgen.sheets.boards import BoardLayout
from cardgen.sheets.cuts import minutes, stacks
from cardgen.sheets.layout import BoardFormat, CardBlock
from cardgen.sheets.marks import Page
from cardgen.sheets.style import Style
from cardgen.units import Widths


@dataclass(frozen=True, slots=True)
class BingoSheets:
    """What the sheets of a bingo need beside the game: paper, ink, layouts, and the words for the teacher."""

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

    @property
    def style(self) -> Style:
        """The look in this ink."""
        return Style.of(self.ink)


def layouts_of(
    form: BoardFormat, paper: Paper, faces: Collection[Face], rows: int, columns: int
) -> tuple[tuple[Face, BoardLayout], ...]:
    """Return the layout of every face of the game, in order; TeacherError if cells get too small."""
    return tuple(
        (face, boards.board_layout(form, paper, rows, columns, with_words=face is Face.PICTURE_WORD))
        for face in dict.fromkeys(faces)
    )


def paper_use(sheets: BingoSheets) -> PaperUse:
    """Return what the sheets take in paper, guillotine cuts (stacks of ten) and minutes."""
    layouts = dict(sheets.layouts)
    board_sheets = boards.page_count(sheets.game.boards, layouts)
    half = sum(1 for board in sheets.game.boards if layouts[board.face].abreast == 2)
    half_sheets = -(-half // 2)
    card_sheets = -(-len(sheets.cards) // sheets.deck.places)
    in_deck = sheets.deck.cuts
    cuts = stacks(half_sheets) + stacks(card_sheets) * in_deck
    # Counters are cut with scissors.
    extra, extra_cuts = (1, sheets.counters.cuts) if sheets.counters else (0, 0)
    return PaperUse(
        board_sheets + card_sheets + extra,
        board_sheets,
        card_sheets + extra,
        cuts,
        minutes(cuts),
        half_sheets + card_sheets * in_deck + extra_cuts,
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
    pages = deck.deck_pages(
        sheets.cards,
        sheets.deck,
        imprint=sheets.imprint,
        style=sheets.style,
        widths=widths,
        cut=sheets.cut,
        first_page=first_page,
        only=only,
    )
    if not sheets.counters or only:
        return pages
    number = first_page + len(pages)
    return (
        *pages,
        deck.counter_page(sheets.counters, imprint=sheets.imprint, style=sheets.style, widths=widths, number=number),
    )


def all_pages(sheets: BingoSheets, telling: Telling, widths: Widths) -> tuple[Page, ...]:
    """Return every sheet of the game in printing order."""
    pages = teacher_part(sheets, telling, widths)
    pages += board_part(sheets, widths, len(pages) + 1)
    return pages + card_part(sheets, widths, len(pages) + 1)
