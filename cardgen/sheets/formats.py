"""The formats of boards and cards drawn empty, at true size, to be held beside sleeves, pouches and hands."""

from cardgen.games.pieces import Paper
from cardgen.sheets import cards
from cardgen.sheets.block import CardBlock, card_block
from cardgen.sheets.cuts import scissors_lines
from cardgen.sheets.layout import BoardFormat, CardFormat, Format, MatFormat, StripFormat
from cardgen.sheets.marks import Align, Group, Item, Label, Page, Panel, Role
from cardgen.sheets.style import EDGE, HEAD_PT, INK, RUNNING_PT, TEXT, Style
from cardgen.units import Box, Size, Typeface, Widths


def pieces_on(form: Format, paper: Paper) -> int:
    """Return how many pieces of a format go on a sheet; TeacherError where none does."""
    if isinstance(form, CardFormat | StripFormat):
        return _block(form, paper).places
    return form.abreast if isinstance(form, MatFormat) else form.abreast * form.down


def size_on(form: Format, paper: Paper) -> str:
    """Return the size of one piece in words: a card's trim, or how wide a board may be."""
    if isinstance(form, CardFormat | StripFormat):
        card = _block(form, paper).card
        return f"{card.w:g} × {card.h:g} mm"
    if isinstance(form, MatFormat):
        return f"{form.columns} × {form.rows} cards a side"
    return f"boards up to {form.widest_board_mm:g} mm"


def format_page(form: Format, paper: Paper, style: Style, widths: Widths, number: int) -> Page:
    """Return a page with every piece of a format in its place, the first one telling its name and size."""
    block = _block(form, paper) if isinstance(form, CardFormat | StripFormat) else _shared(form, paper)
    first = block.box(0)
    count = block.places
    lines = (size_on(form, paper), f"{count} on {paper.value}" if count > 1 else f"1 on {paper.value}")
    drawn: list[Item] = [
        Group(Role.TITLE, (Label(first.cx, first.cy - 4, form.name, HEAD_PT, Typeface.BOLD, INK, Align.CENTRE),)),
        *(
            Label(first.cx, first.cy + 2 + 5 * i, line, RUNNING_PT, Typeface.TEXT, TEXT, Align.CENTRE)
            for i, line in enumerate(lines)
        ),
    ]
    if isinstance(form, BoardFormat):
        drawn += [_board(block.box(slot), form, style) for slot in range(count)]
    if isinstance(form, MatFormat):
        drawn += [Panel(frame, 6.0, None, style.line, style.thin_pt) for frame in form.frames(paper)]
    drawn += cards.foot(block, ("layout", form.name), f"page {number}", widths)
    return Page(number, block.sheet, tuple(drawn), cuts=scissors_lines(block, style))


def _block(form: CardFormat | StripFormat, paper: Paper) -> CardBlock:
    return card_block(form.as_card if isinstance(form, StripFormat) else form, paper)


def _shared(form: BoardFormat | MatFormat, paper: Paper) -> CardBlock:
    """Return the sheet shared among boards; a mat is the whole sheet."""
    sheet = form.size(paper)
    abreast, down = (form.abreast, form.down) if isinstance(form, BoardFormat) else (1, 1)
    return CardBlock(sheet, abreast, down, Size(sheet.w / abreast, sheet.h / down), 0.0, 0.0, 0.0)


def _board(room: Box, form: BoardFormat, style: Style) -> Panel:
    side = min(form.widest_board_mm, room.h - 4 * EDGE)
    return Panel(Box.around(room.cx, room.cy, side, side), 5.0, None, style.line, style.thin_pt)
