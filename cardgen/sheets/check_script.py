"""The script of a quick check, with the answers: what the teacher reads aloud, row by row. Lengths in mm."""

from dataclasses import dataclass

from cardgen.games.pieces import Imprint, SayLine
from cardgen.sheets import signs, symbols
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Panel, Role
from cardgen.sheets.row_signs import listen, row_sign
from cardgen.sheets.say_head import say_head
from cardgen.sheets.style import (
    HAIR_PT,
    HEAD_PT,
    INK,
    PAGE_MARGIN,
    RUNNING_PT,
    SMALL_PT,
    TABLE_PT,
    TEXT,
    TITLE_PT,
    wrap,
)
from cardgen.units import Box, Size, Typeface, Widths

SAY_PT, LETTER_PT = 10.5, 16.0
FINGER_AT, ANSWER_AT, BOX_AT, LINE_PITCH = 12.0, 12.0, 7.0, 4.7
MOST_ROW, LEAST_ROW, PART_HEAD, ROW_AIR = 17.0, 8.5, 14.0, 1.2
ANSWER_ROOM = 16.0


@dataclass(frozen=True, slots=True)
class ScriptRow:
    """One row: its sign, what the teacher says, what else she names, and the right answer."""

    sign: str
    say: str
    names: str
    answer: str
    is_letter: bool


@dataclass(frozen=True, slots=True)
class ScriptPart:
    """One part: whether the children look or listen, its head, its rows."""

    looks: bool
    head: str
    rows: tuple[ScriptRow, ...]


@dataclass(frozen=True, slots=True)
class Script:
    """What the script says above, part by part, and at the foot of every page."""

    title: str
    right: str
    lead: str
    says: tuple[SayLine, ...]
    parts: tuple[ScriptPart, ...]
    foot: tuple[str, ...]


def script_pages(
    content: Script, paper: Size, *, imprint: Imprint, widths: Widths, first_page: int
) -> tuple[Page, ...]:
    """Return the script, two parts a page where their rows have room, else one."""
    bodies: list[list[Item]] = []
    rest = list(content.parts)
    while rest:
        drawn: list[Item] = []
        y = _head(content, drawn, paper, widths)
        room = paper.h - 26 - y - 4.5 * (len(content.foot) - 1)
        parts = [_Part(part, paper, widths) for part in rest[:2]]
        if any(_pitch(part, room / len(parts)) < part.least_row for part in parts):
            parts = parts[:1]
        rest = rest[len(parts) :]
        for place, part in enumerate(parts):
            height = room / len(parts)
            drawn += part.draw(y + place * height, _pitch(part, height))
        base = paper.h - 19.5 - 4.5 * (len(content.foot) - 1)
        drawn += [
            Label(PAGE_MARGIN, base + 4.5 * line, text, SMALL_PT, Typeface.TEXT, TEXT)
            for line, text in enumerate(content.foot)
        ]
        bodies.append(drawn)
    text = f"{signs.imprint_text(imprint, 90, widths, 'quick check')} · script and answers"
    return signs.bound(bodies, paper, text, first_page, with_bar=False)


def beside(title: str, right: str, room: float, widths: Widths) -> str:
    """Return what stands right of a title in `room` mm: where the sounds are too many, only the seed."""
    wide = widths.mm(title, TITLE_PT, Typeface.BOLD) + widths.mm(right, RUNNING_PT, Typeface.TEXT) + 6
    return right if wide <= room else right.rsplit(" · ", 1)[-1]


def _pitch(part: "_Part", height: float) -> float:
    return min(MOST_ROW, (height - PART_HEAD) / len(part.rows))


def _head(content: Script, drawn: list[Item], paper: Size, widths: Widths) -> float:
    """Draw title, how to read it and how the sounds are said; return the baseline of the first part's head."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn.append(Group(Role.TITLE, (Label(left, 19, content.title, TITLE_PT, Typeface.BOLD, INK),)))
    text = beside(content.title, content.right, right - left, widths)
    drawn.append(Label(right, 19, text, RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT))
    lines = wrap(content.lead, right - left, RUNNING_PT, widths)
    labels = tuple(Label(left, 26 + 5.2 * i, line, RUNNING_PT, Typeface.TEXT, TEXT) for i, line in enumerate(lines))
    drawn.append(Group(Role.TEXT, labels))
    head, y = say_head(content.says, left, 29.3 + 5.2 * len(lines), right - left)
    drawn += head
    return y + 6


class _Part:
    """One part on the script; all its lines begin in one column, right of the longest "Finger on the …"."""

    def __init__(self, part: ScriptPart, paper: Size, widths: Widths) -> None:
        self.part = part
        self.left, self.right = PAGE_MARGIN, paper.w - PAGE_MARGIN
        longest = max(widths.mm(_finger(row), RUNNING_PT, Typeface.TEXT) for row in part.rows)
        self.say_at = FINGER_AT + longest + 3
        answers = max(widths.mm(row.answer, TABLE_PT, Typeface.TEXT) for row in part.rows)
        room = self.right - ANSWER_AT - max(ANSWER_ROOM, answers + 4) - (self.left + self.say_at)
        # What is said in every row, and the names of its pictures, broken into lines.
        self.rows = [
            (
                row,
                wrap(row.say, room, SAY_PT, widths),
                wrap(row.names, room, RUNNING_PT, widths) if row.names else [],
            )
            for row in part.rows
        ]
        longest_row = max(len(say) + len(named) for _, say, named in self.rows)
        self.least_row = max(LEAST_ROW, LINE_PITCH * longest_row + ROW_AIR)

    def draw(self, y: float, pitch: float) -> list[Item]:
        left, right = self.left, self.right
        sign = symbols.look(left + 5, y - 1.3, 0.8) if self.part.looks else listen(left + 5, y - 1.3, 0.8)
        head = Group(Role.HEADING, (Label(left + 14, y, self.part.head, HEAD_PT, Typeface.BOLD, INK),))
        drawn: list[Item] = [sign, head, Line(left, y + 4.5, right, y + 4.5, 1.0, INK)]
        rows = []
        for number, (row, said, named) in enumerate(self.rows):
            middle = y + 4.5 + pitch * (number + 0.5)
            rows.append(self._row(row, said, named, middle))
            if number + 1 < len(self.rows):
                line = middle + pitch / 2
                drawn.append(Line(left + FINGER_AT, line, right, line, HAIR_PT, TEXT))
        drawn.append(Group(Role.TABLE, tuple(rows)))
        return drawn

    def _row(self, row: ScriptRow, lines: list[str], named: list[str], middle: float) -> Group:
        sign = row_sign(row.sign, self.left + 4.5, middle, 7.5, 0.9)
        first = middle + 1.3 - LINE_PITCH * (len(lines) + len(named) - 1) / 2
        x = self.left + self.say_at
        said = [Label(x, first + LINE_PITCH * i, line, SAY_PT, Typeface.TEXT, INK) for i, line in enumerate(lines)]
        said += [
            Label(x, first + LINE_PITCH * (len(lines) + i), line, RUNNING_PT, Typeface.TEXT, TEXT)
            for i, line in enumerate(named)
        ]
        size, face = (LETTER_PT, Typeface.LEARNING) if row.is_letter else (TABLE_PT, Typeface.TEXT)
        answer = Label(self.right - ANSWER_AT, middle + 1.5, row.answer, size, face, INK, Align.RIGHT)
        box = Panel(Box(self.right - BOX_AT, middle - 2.5, 5, 5), 1.0, None, INK, 0.75)
        finger = Label(self.left + FINGER_AT, first, _finger(row), RUNNING_PT, Typeface.TEXT, TEXT)
        cells: tuple[tuple[Item, ...], ...] = ((sign, finger), tuple(said), (answer, box))
        return Group(Role.ROW, tuple(Group(Role.CELL, cell) for cell in cells))


def _finger(row: ScriptRow) -> str:
    return f"Finger on the {row.sign}."
