"""The caller's list: what is said on each call, and which boards have won by it. Lengths in mm."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games.pieces import CallStep, Imprint, Link, SayLine
from cardgen.sheets import codes, faces, signs, symbols
from cardgen.sheets.marks import Align, Code, Group, Item, Label, Line, Page, Panel, Picture, Role
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

LETTER_EM = mm_of_points(16.0)
MOST_WITH_PICTURES = 26
LEAST_ROW = 7.0


@dataclass(frozen=True, slots=True)
class CallerPage:
    """What the list says. `winners_head` heads the last column; `twice` repeats what is said ("moon … moon").

    `link` leads to the lesson's recordings, None without a code.
    """

    right: str
    lines: tuple[str, ...]
    says: tuple[SayLine, ...]
    calls: tuple[CallStep, ...]
    winners_head: str
    twice: bool
    boards: int
    link: Link | None = None


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where the columns of one table begin, from its left edge, and how wide it is."""

    width: float
    tick: float
    picture: float | None
    say: float
    sound: float | None
    letter: float
    boards: float


_WIDE = _Columns(180.0, 11.5, 20.0, 35.0, 86.0, 114.0, 134.0)
_NARROW = _Columns(86.0, 11.5, None, 19.0, None, 46.0, 58.0)


def caller_pages(
    content: CallerPage,
    paper: Size,
    *,
    imprint: Imprint,
    widths: Widths,
    first_page: int,
) -> tuple[Page, ...]:
    """Return the caller's list: one page up to 26 calls with pictures; longer lists stand in two columns a page.

    Where a call has more winners than its row has room for, a last page lists every board with its call.
    """
    wide = len(content.calls) <= MOST_WITH_PICTURES
    columns = _stretched(_WIDE, paper.w - 2 * PAGE_MARGIN) if wide else _NARROW
    bodies: list[list[Item]] = []
    rest = content.calls
    needs_register = False
    while rest:
        drawn: list[Item] = []
        y = 19.0 if bodies else _head(content, drawn, paper, widths)
        room = paper.h - 27 - (y + 2.5)
        row = min(14.0 if len(content.calls) <= 16 else 9.5, room / len(rest)) if wide else LEAST_ROW
        row = max(row, LEAST_ROW)
        in_column = min(int(room / row + 1e-9), len(rest) if wide else -(-len(rest) // 2))
        for column in range(1 if wide else 2):
            now, rest = rest[:in_column], rest[in_column:]
            if not now:
                break
            left = PAGE_MARGIN + column * (paper.w - 2 * PAGE_MARGIN - columns.width)
            table = _Table(content, columns, row, widths)
            drawn += table.draw(left, y, now)
            needs_register |= table.overflowed
        bodies.append(drawn)
    if needs_register:
        bodies += _register(content, paper)
    text = signs.imprint_text(imprint, 100, widths)
    return signs.bound(bodies, paper, f"{text} · caller's list", first_page)


def _stretched(columns: _Columns, width: float) -> _Columns:
    return _Columns(width, columns.tick, columns.picture, columns.say, columns.sound, columns.letter, columns.boards)


def _head(content: CallerPage, drawn: list[Item], paper: Size, widths: Widths) -> float:
    """Draw title, how to call and how to say the sounds; return where the table's head row stands."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn.append(Group(Role.TITLE, (Label(left, 19, "Caller's list", TITLE_PT, Typeface.BOLD, INK),)))
    if content.link:
        code = _code(content.link, right)
        drawn.append(code)
        right = code.box.x - CODE_AIR
    drawn.append(Label(right, 19, content.right, RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT))
    y = 26.0
    for paragraph in content.lines:
        lines = wrap(paragraph, right - left, RUNNING_PT, widths)
        labels = (Label(left, y + 5.5 * i, line, RUNNING_PT, Typeface.TEXT, TEXT) for i, line in enumerate(lines))
        drawn.append(Group(Role.TEXT, tuple(labels)))
        y += 5.5 * len(lines)
    right = paper.w - PAGE_MARGIN
    if content.link:
        y = max(y, code.box.bottom + CODE_AIR + 2.2)
        drawn += _address(content.link, right, y, widths)
        y += 6.0
    head, y = say_head(content.says, left, y + 3.5, right - left)
    drawn += head
    return y + 4.5


CODE_TOP, CODE_SIDE, CODE_AIR = 9.0, 20.0, 5.0


def code_module(link: Link) -> float:
    """Return the size of one module in mm of the code at the head of the list."""
    return codes.module_in(link, CODE_SIDE)


def _code(link: Link, right: float) -> Code:
    """Return the code in the corner of the page."""
    module = code_module(link)
    x = right - module * link.modules
    return codes.code_mark(link, x, CODE_TOP, module, f"code to hear the sounds and words: {link.shown}")


def _address(link: Link, right: float, y: float, widths: Widths) -> list[Item]:
    """Return the address behind the code in letters, with its sign."""
    text = codes.one_line(link.shown, right - PAGE_MARGIN - 10, widths)
    x = right - widths.mm(text, SMALL_PT, Typeface.TEXT) - 5.0
    return [symbols.play(x, y - 1.2, 0.45), *codes.address_labels([text], right, y, Align.RIGHT)]


class _Table:
    """The table of calls; `overflowed` tells afterwards whether a row could not name all its winners."""

    def __init__(self, content: CallerPage, columns: _Columns, row: float, widths: Widths) -> None:
        self.content, self.columns, self.row, self.widths = content, columns, row, widths
        self.overflowed = False
        # One size, and said once or twice, for the whole list.
        room = (columns.sound or columns.letter) - columns.say - 2
        self.twice = content.twice
        self.say_pt = CALL_PT if self._widest(CALL_PT) <= room else RUNNING_PT
        self.twice = content.twice and self._widest(self.say_pt) <= room

    def draw(self, x: float, y: float, calls: Sequence[CallStep]) -> list[Item]:
        columns = self.columns
        heads = [(0.0, "call"), (columns.say, "say"), (columns.letter + 1, "letter")]
        if columns.sound is not None:
            heads.insert(2, (columns.sound, "first sound"))
        heads.append((columns.boards, self.content.winners_head))
        head_row = Group(
            Role.ROW,
            tuple(Group(Role.HEAD, (Label(x + at, y, text, SMALL_PT, Typeface.TEXT, TEXT),)) for at, text in heads),
        )
        y += 2.5
        rules: list[Item] = [Line(x, y, x + columns.width, y, 1.0, INK)]
        rows = []
        for index, call in enumerate(calls):
            rows.append(self._row(x, y, call))
            y += self.row
            if call.number % 5 == 0 or index == len(calls) - 1:
                rules.append(Line(x, y, x + columns.width, y, HAIR_PT, INK))
        return [Group(Role.TABLE, (head_row, *rows)), *rules]

    def _row(self, x: float, y: float, call: CallStep) -> Group:
        columns, base = self.columns, y + self.row / 2 + 1.5
        cells: list[tuple[Item, ...]] = []
        box = Panel(Box(x + columns.tick, y + self.row / 2 - 2.5, 5, 5), 1.0, None, INK, 0.75)
        cells.append((Label(x + 7, base, str(call.number), RUNNING_PT, Typeface.BOLD, INK, Align.RIGHT), box))
        say: list[Item] = [Label(x + columns.say, base, self._said(call), self.say_pt, Typeface.TEXT, INK)]
        picture = self._picture(x, y, call)
        cells.append((picture, *say) if picture else tuple(say))
        if columns.sound is not None:
            sound = next(say for say in self.content.says if say.key == call.key)
            text = f"{sound.say}, {'held' if sound.held else 'short'}"
            cells.append((Label(x + columns.sound, base, text, TABLE_PT, Typeface.TEXT, INK),))
        cells.append((faces.letter(x + columns.letter + 5, base, call.letter, LETTER_EM, self.widths),))
        cells.append(tuple(self._winners(x + columns.boards, y, call)))
        return Group(Role.ROW, tuple(Group(Role.CELL, cell) for cell in cells))

    def _said(self, call: CallStep) -> str:
        return f"{call.say} … {call.say}" if self.twice else call.say

    def _widest(self, size_pt: float) -> float:
        return max(self.widths.mm(self._said(call), size_pt, Typeface.TEXT) for call in self.content.calls)

    def _picture(self, x: float, y: float, call: CallStep) -> Picture | None:
        if self.columns.picture is None or call.picture is None:
            return None
        side = min(self.row - 1.2, 11.0)
        box = Box(x + self.columns.picture + 1, y + (self.row - side) / 2, side, side)
        return Picture(call.picture, box, call.alt)

    def _winners(self, x: float, y: float, call: CallStep) -> list[Item]:
        if not call.winners:
            return []
        middle = y + self.row / 2
        last = sum(len(c.winners) for c in self.content.calls if c.number <= call.number) == self.content.boards
        if last and len(call.winners) > 8:
            text = "all others" if len(call.winners) < self.content.boards else "all boards"
            return [Label(x, middle + 1.5, text, RUNNING_PT, Typeface.TEXT, INK)]
        room = self.columns.width - self.columns.boards
        text = "  ".join(map(str, call.winners))
        if self.widths.mm(text, TABLE_PT, Typeface.BOLD) <= room:
            return [Label(x, middle + 1.5, text, TABLE_PT, Typeface.BOLD, INK)]
        lines = wrap(" ".join(map(str, call.winners)), room, SMALL_PT, self.widths)
        if len(lines) * 3.6 <= self.row + 0.2:
            first = middle + 1.3 - 1.8 * (len(lines) - 1)
            return [Label(x, first + 3.6 * i, line, SMALL_PT, Typeface.TEXT, INK) for i, line in enumerate(lines)]
        self.overflowed = True
        text = f"{len(call.winners)} boards: last page"
        return [Label(x, middle + 1.5, text, SMALL_PT, Typeface.TEXT, INK)]


REGISTER_ROWS, REGISTER_COLUMNS, REGISTER_PITCH = 40, 9, 5.2


def _register(content: CallerPage, paper: Size) -> list[list[Item]]:
    """Return the pages that name every board with the call on which it wins."""
    wins = sorted((board, call.number) for call in content.calls for board in call.winners)
    a_page = REGISTER_ROWS * REGISTER_COLUMNS
    width = (paper.w - 2 * PAGE_MARGIN) / REGISTER_COLUMNS
    bodies: list[list[Item]] = []
    for start in range(0, len(wins), a_page):
        drawn: list[Item] = [
            Group(Role.TITLE, (Label(PAGE_MARGIN, 19, "Which board wins when", TITLE_PT, Typeface.BOLD, INK),)),
            Label(PAGE_MARGIN, 26, "Board: the call on which it wins.", RUNNING_PT, Typeface.TEXT, TEXT),
        ]
        for index, (board, call) in enumerate(wins[start : start + a_page]):
            column, row = divmod(index, REGISTER_ROWS)
            x, y = PAGE_MARGIN + column * width, 36 + row * REGISTER_PITCH
            drawn.append(Label(x, y, f"{board}: {call}", SMALL_PT, Typeface.TEXT, INK))
        bodies.append(drawn)
    return bodies
