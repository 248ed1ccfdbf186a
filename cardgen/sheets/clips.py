"""The recording list: what to say, in which order, and how the file is called. Lengths in mm."""

from collections.abc import Sequence

from cardgen.games.pieces import Clip, ClipList, Imprint
from cardgen.sheets import signs
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Panel, Role
from cardgen.sheets.style import (
    CALL_PT,
    HAIR_PT,
    HEAD_PT,
    INK,
    PAGE_MARGIN,
    RUNNING_PT,
    SMALL_PT,
    TEXT,
    TITLE_PT,
    wrap,
)
from cardgen.units import Box, Size, Typeface, Widths

ROW, SOUND_ROW, LINE_PITCH, PARAGRAPH_PITCH = 6.6, 9.0, 4.2, 5.2
TOP, BOTTOM = 19.0, 15.0
NUMBER_AT, TICK_AT, LETTER_AT, SAY_AT, HOW_AT, FILE_AT = 7.0, 9.5, 18.0, 33.0, 62.0, 132.0  # from the left margin
TICK, LETTER_PT, AIR, GROUP_GAP = 4.5, 15.0, 3.0, 1.6
SUFFIX = ".m4a"


def clip_pages(listed: ClipList, paper: Size, *, imprint: Imprint, widths: Widths) -> tuple[Page, ...]:
    """Return the recording list: how to record, then one line a recording, no sound parted from its first word."""
    bodies: list[list[Item]] = [[]]
    y = _head(listed, bodies[0], paper, widths)
    rows = [_Row(clip, paper, widths) for clip in listed.clips]
    table, y = [_heads(y)], y + 2.5
    bottom = paper.h - BOTTOM
    for number, row in enumerate(rows):
        following = rows[number + 1].height if row.begins and number + 1 < len(rows) else 0.0
        gap = GROUP_GAP if row.begins and len(table) > 1 else 0.0
        if y + gap + row.height + following > bottom:
            bodies[-1].append(Group(Role.TABLE, tuple(table)))
            bodies.append([])
            table, y, gap = [_heads(TOP)], TOP + 2.5, 0.0
        y += gap
        if row.begins:
            bodies[-1].append(Line(PAGE_MARGIN, y, paper.w - PAGE_MARGIN, y, HAIR_PT, INK))
        table.append(row.draw(y))
        y += row.height
    bodies[-1].append(Group(Role.TABLE, tuple(table)))
    text = signs.imprint_text(imprint, 110, widths, "recording list")
    return signs.bound(bodies, paper, text, 1, with_bar=False)


def _head(listed: ClipList, drawn: list[Item], paper: Size, widths: Widths) -> float:
    """Draw the title and how to record; return the baseline of the table's head."""
    left, right = PAGE_MARGIN, paper.w - PAGE_MARGIN
    drawn.append(Group(Role.TITLE, (Label(left, TOP, "What to record", TITLE_PT, Typeface.BOLD, INK),)))
    count = f"{len(listed.clips)} recordings" if len(listed.clips) > 1 else "1 recording"
    drawn.append(Label(right, TOP, count, RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT))
    y = TOP + 8
    for paragraph in listed.notes:
        lines = wrap(paragraph, right - left, RUNNING_PT, widths)
        labels = (
            Label(left, y + PARAGRAPH_PITCH * i, line, RUNNING_PT, Typeface.TEXT, INK) for i, line in enumerate(lines)
        )
        drawn.append(Group(Role.TEXT, tuple(labels)))
        y += PARAGRAPH_PITCH * len(lines) + 1
    return y + 4


def _heads(y: float) -> Group:
    heads = ((LETTER_AT, "letter"), (SAY_AT, "say"), (HOW_AT, "how"), (FILE_AT, "name of the file"))
    cells = (Group(Role.HEAD, (Label(PAGE_MARGIN + at, y, text, SMALL_PT, Typeface.TEXT, TEXT),)) for at, text in heads)
    # The first column holds the number and the box to tick.
    return Group(Role.ROW, (Group(Role.HEAD, (Label(PAGE_MARGIN, y, "done", SMALL_PT, Typeface.TEXT, TEXT),)), *cells))


class _Row:
    """One recording, its long texts broken into lines. `begins` tells that a sound, or the languages, begin here."""

    def __init__(self, clip: Clip, paper: Size, widths: Widths) -> None:
        self.clip = clip
        self.begins = clip.word is None
        self.how = wrap(clip.how, FILE_AT - HOW_AT - AIR, SMALL_PT, widths) if clip.how else []
        room = paper.w - 2 * PAGE_MARGIN - FILE_AT
        self.file = _broken(f"{clip.name}{SUFFIX}", room, widths)
        lines = max(len(self.how), len(self.file), 1)
        self.height = (SOUND_ROW if self.begins else ROW) + LINE_PITCH * (lines - 1)

    def draw(self, y: float) -> Group:
        clip, left = self.clip, PAGE_MARGIN
        base = y + (5.8 if self.begins else 4.7)
        number = Label(left + NUMBER_AT, base, str(clip.number), RUNNING_PT, Typeface.TEXT, TEXT, Align.RIGHT)
        tick = Panel(Box(left + TICK_AT, base - 3.8, TICK, TICK), 1.0, None, INK, 0.75)
        letter: tuple[Item, ...] = ()
        if clip.key and self.begins:
            letter = (Label(left + LETTER_AT, base, clip.letter, LETTER_PT, Typeface.LEARNING, INK),)
        face, size = (Typeface.BOLD, HEAD_PT) if self.begins else (Typeface.TEXT, CALL_PT)
        cells: tuple[tuple[Item, ...], ...] = (
            (number, tick),
            letter,
            (Label(left + SAY_AT, base, clip.say, size, face, INK),),
            _lines(left + HOW_AT, base, self.how, SMALL_PT),
            _lines(left + FILE_AT, base, self.file, RUNNING_PT),
        )
        return Group(Role.ROW, tuple(Group(Role.CELL, cell) for cell in cells))


def _lines(x: float, base: float, lines: Sequence[str], size_pt: float) -> tuple[Item, ...]:
    return tuple(Label(x, base + LINE_PITCH * i, line, size_pt, Typeface.TEXT, INK) for i, line in enumerate(lines))


def _broken(name: str, room: float, widths: Widths) -> list[str]:
    """Return the name of a file in as few lines as it needs, broken after a hyphen where there is one."""
    lines = [""]
    for part in name.replace("-", "- ").split(" "):
        if lines[-1] and widths.mm(lines[-1] + part, RUNNING_PT, Typeface.TEXT) > room:
            lines.append("")
        lines[-1] += part
    return lines
