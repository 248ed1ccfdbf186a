"""Class grids without names, the letters to point at, and the calls of the check with cards. Lengths in mm."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games.pieces import CheckPart, Imprint, OralCheck, SayLine, ShowMe
from cardgen.sheets import faces, signs
from cardgen.sheets.check_script import beside
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Place, Role
from cardgen.sheets.row_signs import row_sign
from cardgen.sheets.say_head import say_head
from cardgen.sheets.style import (
    CALL_PT,
    HAIR_PT,
    INK,
    PAGE_MARGIN,
    RUNNING_PT,
    SMALL_PT,
    TEXT,
    TITLE_PT,
    Style,
    wrap,
)
from cardgen.units import Box, Size, Typeface, Widths, mm_of_points

ROWS, NAMES, SHORT = 26, 52.0, 1.4
LETTER_EM, CARD_EM = mm_of_points(16.0), mm_of_points(18.0)
SIGN, TOTAL_SHARE, LEAST_COLUMN = 5.5, 2.0, 5.0
ORAL_EM, ORAL_STEP, CAPITAL_MIDDLE = 52.0, 60.0, 0.36
CALL_ROW, CALL_AT, SAY_AT, CARD_AT, MISSES_AT = 16.0, 7.0, 14.0, 70.0, 18.0


@dataclass(frozen=True, slots=True)
class Teaching:
    """The words above a page for the teacher, and what its foot calls it."""

    title: str
    right: str
    lines: tuple[str, ...]
    foot: str
    what: str


@dataclass(frozen=True, slots=True)
class _Column:
    """One column of a class grid: its share of the width, and what heads it: a sign, a letter, or small words."""

    share: float
    sign: str = ""
    letter: str = ""
    words: tuple[str, ...] = ()


def has_every_row(parts: Sequence[CheckPart], paper: Size) -> bool:
    """Return whether the class grid has room for a column for every row of every part."""
    shares = sum(len(part.tasks) + TOTAL_SHARE for part in parts)
    return (paper.w - 2 * PAGE_MARGIN - NAMES) / shares >= LEAST_COLUMN


def result_page(
    teaching: Teaching, parts: Sequence[CheckPart], paper: Size, *, imprint: Imprint, widths: Widths, number: int
) -> Page:
    """Return the class grid: a column for every row of every part while they are wide enough, and one for each part."""
    columns: list[_Column] = []
    for part in parts:
        if has_every_row(parts, paper):
            columns += [_Column(1.0, sign=task.sign) for task in part.tasks]
        columns.append(_Column(TOTAL_SHARE, words=(f"part {part.number}", f"of {len(part.tasks)}")))
    drawn, y = _head(teaching, paper, widths)
    drawn += _grid(columns, y + 11, paper, widths)
    return _bound(drawn, teaching, paper, imprint, widths, number)


def oral_pages(
    teaching: Teaching, oral: OralCheck, paper: Size, *, imprint: Imprint, widths: Widths, first_page: int
) -> tuple[Page, ...]:
    """Return the page with the letters to point at, for the child, and the class grid with the same letters."""
    rows = -(-len(oral.letters) // oral.columns)
    step, pitch = min(ORAL_STEP, (paper.w - 24) / oral.columns), (paper.h - 42) / rows
    em = min(ORAL_EM, pitch * 0.72, faces.letter_em(step, list(oral.letters), widths))
    cells = []
    for place, letter in enumerate(oral.letters):
        row, column = divmod(place, oral.columns)
        middle = 22 + pitch * (row + 0.5)
        base = middle + em * (CAPITAL_MIDDLE if letter[0].isupper() else faces.SMALL_BASE)
        x = paper.w / 2 + (column - (oral.columns - 1) / 2) * step
        cells.append(Group(Role.CELL, (faces.letter(x, base, letter, em, widths),)))
    lines = [cells[start : start + oral.columns] for start in range(0, len(cells), oral.columns)]
    table = Group(Role.TABLE, tuple(Group(Role.ROW, tuple(line)) for line in lines))
    foot = signs.foot(
        signs.imprint_text(imprint, 110, widths, teaching.foot),
        "the child's page",
        PAGE_MARGIN,
        paper.w - PAGE_MARGIN,
        paper.h - 8,
    )
    places = (Place("oral check", "letters", Box(0, 0, paper.w, paper.h)),)
    child = Page(first_page + 1, paper, (table, *foot), places=places)
    drawn, y = _head(teaching, paper, widths)
    drawn += _grid([_Column(1.0, letter=letter) for letter in oral.letters], y + 9, paper, widths)
    return _bound(drawn, teaching, paper, imprint, widths, first_page), child


def show_me_page(
    teaching: Teaching,
    says: tuple[SayLine, ...],
    game: ShowMe,
    passed: str,
    style: Style,
    paper: Size,
    *,
    imprint: Imprint,
    widths: Widths,
    number: int,
) -> Page:
    """Return the ten calls, each with its right card and a line for the few who lift another."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn, y = _head(teaching, paper, widths)
    head, y = say_head(says, left, y + 9.5, right - left)
    drawn += head
    y += 6
    widest = max(widths.mm(f"{call.word} … {call.word}", CALL_PT, Typeface.TEXT) for call in game.calls)
    card_at = max(CARD_AT, SAY_AT + widest + 10)
    misses_at = card_at + MISSES_AT
    heads = (
        (0.0, "call"),
        (SAY_AT, "say"),
        (card_at - 8, "right card"),
        (misses_at, "wrong, or after a look at others"),
    )
    head_row = [Group(Role.HEAD, (Label(left + at, y - 1, text, SMALL_PT, Typeface.TEXT, TEXT),)) for at, text in heads]
    drawn.append(Line(left, y + 1.5, right, y + 1.5, 1.0, INK))
    pitch = min(CALL_ROW, (paper.h - 32 - y) / len(game.calls))
    rows = [Group(Role.ROW, tuple(head_row))]
    for place, call in enumerate(game.calls):
        middle = y + 1.5 + pitch * (place + 0.5)
        labels = (
            Label(left + CALL_AT, middle + 1.4, str(place + 1), RUNNING_PT, Typeface.BOLD, INK, Align.RIGHT),
            Label(left + SAY_AT, middle + 1.4, f"{call.word} … {call.word}", CALL_PT, Typeface.TEXT, INK),
            faces.letter(left + card_at, middle + 1.6, call.letter, CARD_EM, widths),
        )
        rows.append(Group(Role.ROW, tuple(Group(Role.CELL, (label,)) for label in labels)))
        line = middle + pitch / 2 - 2.2
        drawn.append(Line(left + misses_at, line, right, line, HAIR_PT, style.line))
        if place % 5 == 4:
            drawn.append(Line(left, middle + pitch / 2, right, middle + pitch / 2, HAIR_PT, INK))
    drawn.append(Group(Role.TABLE, tuple(rows)))
    drawn.append(Label(left, paper.h - 19.5, passed, SMALL_PT, Typeface.TEXT, TEXT))
    return _bound(drawn, teaching, paper, imprint, widths, number)


def _head(teaching: Teaching, paper: Size, widths: Widths) -> tuple[list[Item], float]:
    """Return title and lead of a page for the teacher, and the baseline of the lead's last line."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn: list[Item] = [
        Group(Role.TITLE, (Label(left, 19, teaching.title, TITLE_PT, Typeface.BOLD, INK),)),
        Label(
            right,
            19,
            beside(teaching.title, teaching.right, right - left, widths),
            RUNNING_PT,
            Typeface.TEXT,
            TEXT,
            Align.RIGHT,
        ),
    ]
    y = 26.0
    for paragraph in teaching.lines:
        lines = wrap(paragraph, right - left, RUNNING_PT, widths)
        labels = (Label(left, y + 5.5 * i, line, RUNNING_PT, Typeface.TEXT, TEXT) for i, line in enumerate(lines))
        drawn.append(Group(Role.TEXT, tuple(labels)))
        y += 5.5 * len(lines)
    return drawn, y - 5.5


def _grid(columns: Sequence[_Column], y: float, paper: Size, widths: Widths) -> list[Item]:
    """Return numbered rows with room for a name, and the columns; no line crosses another. `y` is the heads' base."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    step = (right - left - NAMES) / sum(column.share for column in columns)
    # All letters in one size, the widest with air to its neighbours.
    em = min(LETTER_EM, faces.letter_em(step, [column.letter for column in columns if column.letter], widths))
    top = y + 3
    pitch = (paper.h - 14 - top) / ROWS
    heads = [Group(Role.HEAD, (Label(left + 8, y - 0.5, "name", SMALL_PT, Typeface.TEXT, TEXT),))]
    lines: list[Item] = [Line(left, top, right, top, 1.0, INK)]
    x = left + NAMES
    for column in columns:
        heads.append(Group(Role.HEAD, _column_head(column, x + column.share * step / 2, y, em, widths)))
        for row in range(ROWS):
            up, down = top + pitch * row + SHORT, top + pitch * (row + 1) - SHORT
            lines.append(Line(x, up, x, down, HAIR_PT, TEXT))
        x += column.share * step
    rows = [Group(Role.ROW, tuple(heads))]
    empty = [Group(Role.CELL, ())] * len(columns)  # to be ticked by hand
    for row in range(1, ROWS + 1):
        line = top + pitch * row
        lines.append(Line(left, line, right, line, HAIR_PT, TEXT))
        number = Label(left + 5, line - pitch / 2 + 1.2, str(row), SMALL_PT, Typeface.TEXT, TEXT, Align.RIGHT)
        rows.append(Group(Role.ROW, (Group(Role.CELL, (number,)), *empty)))
    return [Group(Role.TABLE, tuple(rows)), *lines]


def _column_head(column: _Column, x: float, y: float, em: float, widths: Widths) -> tuple[Item, ...]:
    if column.sign:
        return (row_sign(column.sign, x, y - 2.2, SIGN, 0.75),)
    if column.letter:
        return (faces.letter(x, y - 0.5, column.letter, em, widths),)
    first = y - 0.5 - 4.0 * (len(column.words) - 1)
    return tuple(
        Label(x, first + 4.0 * line, text, SMALL_PT, Typeface.TEXT, TEXT, Align.CENTRE)
        for line, text in enumerate(column.words)
    )


def _bound(drawn: list[Item], teaching: Teaching, paper: Size, imprint: Imprint, widths: Widths, number: int) -> Page:
    left = signs.imprint_text(imprint, 110, widths, teaching.foot)
    foot = signs.foot(left, teaching.what, PAGE_MARGIN, paper.w - PAGE_MARGIN, paper.h - 8)
    return Page(number, paper, (*drawn, *foot))
