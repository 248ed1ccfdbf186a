"""The printer test: bars to measure, samples to look at, lines up to the edge, a cross to hold against a window.

All in mm. The lines near the edge are nearer than anything else may be printed: the sheet is there to find out which of
them come through. Its greys and weights are the samples themselves and are the same in every ink.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cardgen.sheets import signs
from cardgen.sheets.marks import Align, Code, Group, Item, Label, Line, Outline, Page, Panel, Picture, Role, Side
from cardgen.sheets.style import (
    HAIR_PT,
    INK,
    LEAST_WORD_PT,
    LINE,
    RUNNING_PT,
    SMALL_PT,
    TEXT,
    TITLE_PT,
    WORD_PT,
    wrap,
)
from cardgen.units import MM_PER_INCH, Box, Size, Typeface, Widths

LEFT, BESIDE_BARS, RIGHT_COLUMN = 20.0, 38.0, 112.0
LEAST_HEIGHT = 279.4  # Letter; what a higher sheet has more goes between the questions
PITCH, QUESTION_PITCH = 4.4, 5.0
BAR_PT = 0.75
EDGE_LINES, EDGE_LENGTH, EDGE_PITCH, EDGE_NUMBER = (3, 4, 5, 6, 8, 10), 7.0, 10.0, 13.0
WEIGHTS_PT = (0.25, 0.5, 0.75, 1.25)
TINTS = ("#FFFFFF", "#EEF1F5", "#E3E7EC", "#A9B1BC", LINE, INK)
PICTURE, CODE_GAP, TINT_BOX, TINT_PITCH = 28.0, 6.0, 11.0, 13.0
CROSS_FROM_BELOW, CROSS_ARM, CROSS_REACH, RING, DOT = 62.0, 18.0, 5, 18.0, 1.0
FOOT_FROM_BELOW = 22.0

# Each question, and in paragraphs what to do with the answer; what is to be typed as it stands has a line of its own.
QUESTIONS: Mapping[int, tuple[str, tuple[str, ...]]] = {
    1: (
        "Are the bars 100 mm and 4 inches long, across and down?",
        ("If not: print again at 100 % (“actual size”), without “fit to page”.",),
    ),
    2: ("Are words and pictures sharp?", ("Blurred: set a better print quality.", "Streaked or pale: --ink line")),
    3: ("Which lines are whole?", ("0.25 pt is broken: --cut scissors", "Grey ones are broken: --ink line")),
    4: ("Which boxes differ?", ("Some look alike: --ink line",)),
    5: (
        "Which codes open?",
        (
            "Your phone shows the size in the address; no page is behind it.",
            "Small ones fail: a shorter --link makes larger squares.",
        ),
    ),
    6: (
        "Which lines near the edge are missing?",
        (
            "Find the first number that is whole on all four sides, front and back.",
            "Up to 6: nothing to do. Else, for example: --margin 8",
        ),
    ),
    7: (
        "Hold the sheet against a window, this side towards you. Where on the cross is the dot of the back?",
        (
            "In the middle: nothing to do.",
            "Else, for example 1 mm right and 2 mm up:",
            "--back-shift 1,2",
            "No dot near the cross: print again, flipped on the long edge.",
        ),
    ),
}


@dataclass(frozen=True, slots=True)
class TestCode:
    """A code to try: its text, how wide one module is in mm, how many modules it has on a side."""

    __test__ = False  # not a test, whatever its name begins with

    text: str
    module: float
    modules: int


def ruler_pages(
    paper: Size, pictures: Sequence[tuple[str, str]], codes: Sequence[TestCode], widths: Widths
) -> tuple[Page, Page]:
    """Return front and back of the sheet; `pictures` are four names with their alt texts."""
    air = (paper.h - LEAST_HEIGHT) / 4
    middle = 70 + 2 * air
    ask = _Asker(widths)
    front: list[Item] = [
        Group(Role.TITLE, (Label(LEFT, 26 + air / 2, "Printer test", TITLE_PT, Typeface.BOLD, INK),)),
        Label(
            LEFT,
            32 + air / 2,
            "Print at 100 %, on both sides, flipped on the long edge. Then look and measure.",
            RUNNING_PT,
            Typeface.TEXT,
            TEXT,
        ),
        *_size_question(ask, 42 + air, middle),
        *_word_question(ask, middle, pictures),
        *_line_question(ask, middle, paper.w - LEFT - RIGHT_COLUMN),
        *_tint_question(ask, middle + 40, paper.w - LEFT - RIGHT_COLUMN),
        *_code_question(ask, middle + 68.5, paper.w - LEFT - RIGHT_COLUMN, codes),
        *ask(6, LEFT, 178 + 3 * air, RIGHT_COLUMN - LEFT - 6),
        *_cross_question(ask, paper),
        *_edge_lines(paper),
        *_foot(paper, "printer test", 1),
    ]
    back: list[Item] = [
        Label(LEFT, _cross(paper)[1] - 26, "Back of the printer test", RUNNING_PT, Typeface.TEXT, INK),
        _dot(paper),
        *_edge_lines(paper),
        *_foot(paper, "printer test · back", 2),
    ]
    return Page(1, paper, tuple(front)), Page(2, paper, tuple(back), Side.BACK)


class _Asker:
    """Sets a question at a place, with what to do with its answer below it."""

    def __init__(self, widths: Widths) -> None:
        self.widths = widths

    def __call__(self, number: int, x: float, y: float, room: float) -> tuple[Item, ...]:
        """Return a question and, broken into lines of at most `room` mm, its answer."""
        return (self.question(number, x, y, room), *self.answer(number, x + 5, y + PITCH + 0.4, room - 5))

    def question(self, number: int, x: float, y: float, room: float) -> Group:
        """Return a question with its number, in lines of at most `room` mm."""
        lines = wrap(QUESTIONS[number][0], room - 5, RUNNING_PT, self.widths)
        words = (
            Label(x + 5, y + QUESTION_PITCH * i, line, RUNNING_PT, Typeface.TEXT, INK) for i, line in enumerate(lines)
        )
        return Group(Role.HEADING, (Label(x, y, str(number), RUNNING_PT, Typeface.BOLD, INK), *words))

    def answer(self, number: int, x: float, y: float, room: float) -> list[Group]:
        """Return what to do with the answer, in lines of at most `room` mm."""
        drawn = []
        for paragraph in QUESTIONS[number][1]:
            lines = wrap(paragraph, room, SMALL_PT, self.widths)
            drawn.append(Group(Role.TEXT, tuple(_small(x, y + PITCH * i, line) for i, line in enumerate(lines))))
            y += PITCH * len(lines)
        return drawn


def _small(x: float, y: float, text: str, align: Align = Align.LEFT, turn: int = 0) -> Label:
    return Label(x, y, text, SMALL_PT, Typeface.TEXT, TEXT, align, turn)


@dataclass(frozen=True, slots=True)
class _Scale:
    """A bar's `steps` of `step` mm, of which every `long`-th has a long tick; `text` is its length in words."""

    step: float
    steps: int
    long: int
    text: str

    @property
    def length(self) -> float:
        return self.step * self.steps


_MILLIMETRES = _Scale(10.0, 10, 5, "100 mm")
_INCHES = _Scale(MM_PER_INCH / 2, 8, 2, "4 inches")


def _size_question(ask: _Asker, y: float, top_of_upright: float) -> list[Item]:
    drawn: list[Item] = [*ask(1, LEFT, y, 150)]
    for scale, below in ((_MILLIMETRES, 12.0), (_INCHES, 19.0)):
        drawn.append(_bar(scale, LEFT, y + below, across=True))
        drawn.append(_small(LEFT + 105, y + below, scale.text))
    for scale, x in ((_MILLIMETRES, LEFT), (_INCHES, LEFT + 8)):
        drawn.append(_bar(scale, x, top_of_upright - 3, across=False))
        drawn.append(_small(x + 6, top_of_upright + 47, scale.text, Align.CENTRE, 90))
    return drawn


def _bar(scale: _Scale, x: float, y: float, *, across: bool) -> Group:
    """Return a bar from (x, y) to the right with its ticks above it, or down with its ticks on its right."""
    length = scale.length
    lines = [Line(x, y, x + length, y, BAR_PT, INK) if across else Line(x, y, x, y + length, BAR_PT, INK)]
    for i in range(scale.steps + 1):
        at, long = scale.step * i, i % scale.long == 0
        tick, weight = (2.4, BAR_PT) if long else (1.4, HAIR_PT)
        if across:
            lines.append(Line(x + at, y, x + at, y - tick, weight, INK))
        else:
            lines.append(Line(x, y + at, x + tick, y + at, weight, INK))
    return Group(Role.FIGURE, tuple(lines), f"bar of {scale.text}, {'across' if across else 'down'}")


def _word_question(ask: _Asker, y: float, pictures: Sequence[tuple[str, str]]) -> list[Item]:
    left, pitch = BESIDE_BARS, PICTURE + 5
    drawn: list[Item] = [*ask(2, left, y, RIGHT_COLUMN - left - 4)]
    for place, (name, alt) in enumerate(pictures):
        row, column = divmod(place, 2)
        drawn.append(Picture(name, Box(left + column * pitch, y + 12 + row * pitch, PICTURE, PICTURE), alt))
    for column, (size_pt, note) in enumerate(((WORD_PT, "5.0 mm"), (LEAST_WORD_PT, "4.2 mm"))):
        middle = left + column * pitch + PICTURE / 2
        word = Label(middle, y + 84, pictures[0][0], size_pt, Typeface.LEARNING, INK, Align.CENTRE)
        drawn += [word, _small(middle, y + 90, note, Align.CENTRE)]
    return drawn


def _line_question(ask: _Asker, y: float, room: float) -> list[Item]:
    drawn: list[Item] = [*ask(3, RIGHT_COLUMN, y, room)]
    for row, weight in enumerate(WEIGHTS_PT):
        at = y + 14.5 + 5 * row
        drawn.append(_small(RIGHT_COLUMN + 14, at + 1, f"{weight:.2f} pt", Align.RIGHT))
        for x, colour in ((RIGHT_COLUMN + 18, INK), (RIGHT_COLUMN + 50, LINE)):
            drawn.append(Line(x, at, x + 26, at, weight, colour))
    return drawn


def _tint_question(ask: _Asker, y: float, room: float) -> list[Item]:
    boxes = [
        Panel(Box(RIGHT_COLUMN + TINT_PITCH * place, y + 9, TINT_BOX, TINT_BOX), 2.0, tint, INK, HAIR_PT)
        for place, tint in enumerate(TINTS)
    ]
    figure = Group(Role.FIGURE, tuple(boxes), "six boxes from white to black")
    return [*ask(4, RIGHT_COLUMN, y, room), figure]


def _code_question(ask: _Asker, y: float, room: float, codes: Sequence[TestCode]) -> list[Item]:
    """Return the codes side by side; the gap between them is wider than the quiet zone of the largest."""
    drawn: list[Item] = [*ask(5, RIGHT_COLUMN, y, room)]
    x, bottom = RIGHT_COLUMN, y + 22.5 + max(code.module * code.modules for code in codes)
    for code in codes:
        side = code.module * code.modules
        alt = f"code with modules of {code.module} mm, for {code.text}"
        drawn.append(Code(code.text, Box(x, bottom - side, side, side), alt))
        drawn.append(_small(x, bottom + 5, f"{code.module} mm"))
        x += side + CODE_GAP
    return drawn


def _cross(paper: Size) -> tuple[float, float]:
    """Return the middle of the cross on the front, which is that of the dot on the back: on the sheet's middle line."""
    return paper.w / 2, paper.h - CROSS_FROM_BELOW


def _cross_question(ask: _Asker, paper: Size) -> list[Item]:
    cx, cy = _cross(paper)
    lines = [
        Line(cx - CROSS_ARM, cy, cx + CROSS_ARM, cy, HAIR_PT, INK),
        Line(cx, cy - CROSS_ARM, cx, cy + CROSS_ARM, HAIR_PT, INK),
    ]
    for mm in (place for place in range(-CROSS_REACH, CROSS_REACH + 1) if place):
        tick = 2.6 if abs(mm) == CROSS_REACH else 0.7
        lines.append(Line(cx + mm, cy - tick, cx + mm, cy + tick, HAIR_PT, INK))
        lines.append(Line(cx - tick, cy + mm, cx + tick, cy + mm, HAIR_PT, INK))
    return [
        ask.question(7, LEFT, cy - 12, cx - CROSS_ARM - 12 - LEFT),
        Group(Role.FIGURE, tuple(lines), "cross with a tick every millimetre, 5 mm to each side"),
        _small(cx, cy - 19.5, "up +", Align.CENTRE),
        _small(cx - 19.5, cy + 1, "left −", Align.RIGHT),
        _small(cx + 19.5, cy + 1, "right +"),
        _small(cx, cy + 22, "down −", Align.CENTRE),
        _small(LEFT + 5, cy + 15, "Short ticks 1 mm, long 5 mm"),
        *ask.answer(7, cx + 38, cy - 12, paper.w - LEFT - cx - 38),
    ]


def _dot(paper: Size) -> Group:
    cx, cy = _cross(paper)
    dot = Outline(signs.circle(cx, cy, DOT / 2), INK)
    ring = Outline(signs.circle(cx, cy, RING / 2), None, INK, BAR_PT)
    return Group(Role.FIGURE, (dot, ring), "dot in a ring")


def _edge_lines(paper: Size) -> list[Item]:
    """Return the lines near the four edges, each side a figure; the numbers say how far in mm they are from theirs."""
    w, h = paper.w, paper.h
    half = (EDGE_PITCH * (len(EDGE_LINES) - 1) + EDGE_LENGTH) / 2
    sides: dict[str, list[Item]] = {"top": [], "left": [], "right": [], "bottom": []}
    for place, mm in enumerate(EDGE_LINES):
        start = EDGE_PITCH * place - half
        x1, y1 = w / 2 + start, h / 2 + start
        x2, y2 = x1 + EDGE_LENGTH, y1 + EDGE_LENGTH
        x, y, text = (x1 + x2) / 2, (y1 + y2) / 2 + 1.1, str(mm)
        sides["top"] += [Line(x1, mm, x2, mm, HAIR_PT, INK), _small(x, EDGE_NUMBER + 2.4, text, Align.CENTRE)]
        sides["left"] += [Line(mm, y1, mm, y2, HAIR_PT, INK), _small(EDGE_NUMBER, y, text)]
        sides["right"] += [Line(w - mm, y1, w - mm, y2, HAIR_PT, INK), _small(w - EDGE_NUMBER, y, text, Align.RIGHT)]
        sides["bottom"] += [Line(x1, h - mm, x2, h - mm, HAIR_PT, INK), _small(x, h - EDGE_NUMBER, text, Align.CENTRE)]
    distances = ", ".join(map(str, EDGE_LINES))
    return [
        Group(Role.FIGURE, tuple(items), f"lines {distances} mm from the {side} edge") for side, items in sides.items()
    ]


def _foot(paper: Size, text: str, number: int) -> tuple[Item, ...]:
    return signs.foot(text, f"page {number} of 2", LEFT, paper.w - LEFT, paper.h - FOOT_FROM_BELOW)
