"""The sorting list: in which order the cards are drawn, what is said, and on which side each belongs. All in mm."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games.pieces import Imprint, SayLine, SortGame, SortItem, SortSide
from cardgen.sheets import faces, signs, symbols
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Panel, Picture, Role
from cardgen.sheets.say_head import say_head
from cardgen.sheets.style import (
    CALL_PT,
    HAIR_PT,
    INK,
    PAGE_MARGIN,
    RUNNING_PT,
    SMALL_PT,
    TABLE_PT,
    TEXT,
    TITLE_PT,
    wrap,
)
from cardgen.units import Box, Size, Typeface, Widths, mm_of_points

MOST_ROW, LEAST_ROW, PICTURE = 14.0, 7.4, 11.0
TICK, PICTURE_AT, SAY, SOUND, SIGN, LETTER = 11.5, 21.0, 35.0, 104.0, 138.0, 149.0
LETTER_EM = mm_of_points(16.0)
SIGN_SIZE, SIGN_PT = 5.5, 1.1


@dataclass(frozen=True, slots=True)
class ListPage:
    """What stands on the list beside the cards: title, what is said at the top right, lines on how to use it."""

    title: str
    right: str
    lines: tuple[str, ...]
    says: tuple[SayLine, ...]
    sound_head: str


def list_pages(
    content: ListPage, game: SortGame, paper: Size, *, imprint: Imprint, widths: Widths, first_page: int
) -> tuple[Page, ...]:
    """Return the list in drawing order, one row a card; longer lists go on on another page."""
    bodies: list[list[Item]] = []
    rest = game.items
    letters = {side.key: side for side in game.all_sides}
    while rest:
        drawn: list[Item] = []
        y = 19.0 if bodies else _head(content, drawn, paper, widths)
        room = paper.h - 27 - (y + 2.5)
        # Where the list goes on, the rows are shared evenly among its pages.
        pages = -(-len(rest) // int(room / LEAST_ROW))
        here = -(-len(rest) // pages)
        row = min(MOST_ROW, room / here)
        now, rest = rest[:here], rest[here:]
        drawn += _table(content, letters, now, y, row, paper.w - 2 * PAGE_MARGIN, widths)
        bodies.append(drawn)
    text = signs.imprint_text(imprint, 100, widths)
    return signs.bound(bodies, paper, f"{text} · sorting list", first_page)


def _head(content: ListPage, drawn: list[Item], paper: Size, widths: Widths) -> float:
    """Draw title, how to use the list and how to say the sounds; return where the table's head row stands."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn.append(Group(Role.TITLE, (Label(left, 19, content.title, TITLE_PT, Typeface.BOLD, INK),)))
    drawn.append(Label(right, 19, content.right, RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT))
    y = 26.0
    for paragraph in content.lines:
        lines = wrap(paragraph, right - left, RUNNING_PT, widths)
        labels = (Label(left, y + 5.5 * i, line, RUNNING_PT, Typeface.TEXT, TEXT) for i, line in enumerate(lines))
        drawn.append(Group(Role.TEXT, tuple(labels)))
        y += 5.5 * len(lines)
    head, y = say_head(content.says, left, y + 3.5, right - left)
    drawn += head
    return y + 4.5


def _table(
    content: ListPage,
    sides: dict[str | None, SortSide],
    items: Sequence[SortItem],
    y: float,
    row: float,
    width: float,
    widths: Widths,
) -> list[Item]:
    x = PAGE_MARGIN
    heads = ((0.0, "card"), (SAY, "say"), (SOUND, content.sound_head), (SIGN - 1.0, "it belongs to"))
    cells = tuple(Group(Role.HEAD, (Label(x + at, y, text, SMALL_PT, Typeface.TEXT, TEXT),)) for at, text in heads)
    y += 2.5
    rules: list[Item] = [Line(x, y, x + width, y, 1.0, INK)]
    rows = [Group(Role.ROW, cells)]
    for index, item in enumerate(items):
        rows.append(_row(item, sides[item.key], x, y, row, widths))
        y += row
        if item.number % 5 == 0 or index == len(items) - 1:
            rules.append(Line(x, y, x + width, y, HAIR_PT, INK))
    return [Group(Role.TABLE, tuple(rows)), *rules]


def _row(item: SortItem, side: SortSide, x: float, y: float, row: float, widths: Widths) -> Group:
    middle = y + row / 2
    base = middle + 1.5
    number = Label(x + 7, base, str(item.number), RUNNING_PT, Typeface.BOLD, INK, Align.RIGHT)
    tick = Panel(Box(x + TICK, middle - 2.5, 5, 5), 1.0, None, INK, 0.75)
    twice = f"{item.word} … {item.word}"
    fits = widths.mm(twice, CALL_PT, Typeface.TEXT) <= SOUND - SAY - 2
    said = Label(x + SAY, base, twice if fits else item.word, CALL_PT, Typeface.TEXT, INK)
    front = item.card.front
    say: tuple[Item, ...] = (said,)
    if front.picture:
        width = min(row - 1.2, PICTURE)
        box = Box(x + PICTURE_AT + 1, middle - width / 2, width, width)
        say = (Picture(front.picture, box, front.alt), said)
    sign = symbols.side_sign(item.sign, x + SIGN + 3, middle, SIGN_SIZE, SIGN_PT)
    where: Label = Label(x + LETTER, base, "neither", TABLE_PT, Typeface.TEXT, INK)
    if side.letters:
        where = faces.letter(x + LETTER + 5, base, side.letters[1], LETTER_EM, widths)
    cells: tuple[tuple[Item, ...], ...] = (
        (number, tick),
        say,
        (Label(x + SOUND, base, item.sound or "another", TABLE_PT, Typeface.TEXT, INK),),
        (sign, where),
    )
    return Group(Role.ROW, tuple(Group(Role.CELL, cell) for cell in cells))
