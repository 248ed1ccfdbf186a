"""The pages of a quick check that the children write on: half a landscape sheet a child, one column of rows. In mm."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from cardgen.games.pieces import CheckPart, CheckTask, CheckVersion, Cut, Imprint, PartKind
from cardgen.sheets import faces, signs, symbols
from cardgen.sheets.marks import CellPlace, Group, Item, Label, Line, Outline, Page, Panel, Picture, Place, Role
from cardgen.sheets.marks import Side as PageSide
from cardgen.sheets.row_signs import listen, row_sign
from cardgen.sheets.style import CUT_MARK_PT, EDGE, FRAME_PT, HEAD_PT, INK, SMALL_PT, TEXT, Style
from cardgen.units import Box, Size, Typeface, Widths

MARGIN, TOP, BELOW, GAP, MOST_ROW = 12.0, 27.0, 15.0, 4.0, 31.0
FRAME_AT, RADIUS = 15.0, 5.0
SIGN_AT, SIGN = 6.0, 11.5
ASKED, MOST_PICTURE = 27.0, 28.0
LETTER_SHARE, LOW_LETTER_SHARE, LOW_ROW = 0.62, 0.72, 20.0
CUT_MARK = 6.6
# A picture to name is at least 25 mm wide, so five rows of them fill a side; letters may stand closer.
MOST_ROWS = {True: 5, False: 8}
RING_AIR = 1.5
CLOSER = 8.0  # answers are not cut apart: so the page can be moved aside for holes


@dataclass(frozen=True, slots=True)
class CheckLook:
    """What every child's page has in common. `answers` rings the right choice, for the teacher."""

    sheet: Size
    imprint: Imprint
    style: Style
    widths: Widths
    cut: Cut
    answers: bool = False


@dataclass(frozen=True, slots=True)
class PartSide:
    """The rows of a part that stand on one side of the paper: its first row (from 0), and which side of how many."""

    part: CheckPart
    tasks: tuple[CheckTask, ...]
    first: int
    number: int
    of: int


def part_sides(part: CheckPart) -> tuple[PartSide, ...]:
    """Return the sides a part takes, its rows shared as evenly as can be."""
    with_pictures = part.kind.is_seen or part.kind.rings_pictures
    count = -(-len(part.tasks) // MOST_ROWS[with_pictures])
    rows = -(-len(part.tasks) // count)
    return tuple(
        PartSide(part, part.tasks[side * rows : (side + 1) * rows], side * rows, side + 1, count)
        for side in range(count)
    )


def side_count(parts: Sequence[CheckPart]) -> int:
    """Return how many sides of paper the parts take."""
    return sum(len(part_sides(part)) for part in parts)


def check_pages(
    halves: tuple[CheckVersion, CheckVersion], look: CheckLook, *, first_page: int, only: Collection[str] = ()
) -> tuple[Page, ...]:
    """Return a page for every side of the parts, with the left and the right half's version on it.

    Printed on both sides and turned on the short edge, a half has the same version on its back: on every other page the
    halves change places. Versions not in `only` (if it names any) leave their half empty.
    """
    sides = [[side for part in half.parts for side in part_sides(part)] for half in halves]
    pages = []
    for index, pair in enumerate(zip(*sides, strict=True)):
        on_back = index % 2 == 1
        painter = _Painter(look)
        for slot in (0, 1):
            number = 1 - slot if on_back else slot
            if not only or halves[number].name in only:
                painter.half(slot, pair[number], halves[number].name, number + 1)
        pages.append(
            Page(
                first_page + index,
                look.sheet,
                tuple(painter.items),
                side=PageSide.BACK if on_back else PageSide.FRONT,
                places=tuple(painter.places),
                cells=tuple(painter.cells),
                cuts=_cuts(look),
            )
        )
    return tuple(pages)


def answer_pages(versions: Sequence[CheckVersion], look: CheckLook, *, first_page: int) -> tuple[Page, ...]:
    """Return every side of every version with the right answers ringed, two a page, for marking."""
    sides = [[(side, version.name) for part in version.parts for side in part_sides(part)] for version in versions]
    # Versions stand side by side; one version alone has its parts side by side.
    in_order = [half for together in zip(*sides, strict=True) for half in together]
    pages = []
    for start in range(0, len(in_order), 2):
        painter = _Painter(replace(look, answers=True))
        for slot, (side, name) in enumerate(in_order[start : start + 2]):
            painter.half(slot, side, name, slot + 1)
        pages.append(Page(first_page + start // 2, look.sheet, tuple(painter.items)))
    return tuple(pages)


def _cuts(look: CheckLook) -> tuple[Line, ...]:
    x, height = look.sheet.w / 2, look.sheet.h
    if look.cut is Cut.SCISSORS:
        return (Line(x, EDGE, x, height - EDGE, look.style.scissors_pt, look.style.scissors),)
    # Marks only, no line through: they say where the guillotine cuts.
    return (
        Line(x, EDGE, x, EDGE + CUT_MARK, CUT_MARK_PT, INK),
        Line(x, height - EDGE - CUT_MARK, x, height - EDGE, CUT_MARK_PT, INK),
    )


class _Painter:
    """Draws the halves of one page, and notes where they and their choices lie."""

    def __init__(self, look: CheckLook) -> None:
        self.look = look
        self.items: list[Item] = []
        self.places: list[Place] = []
        self.cells: list[CellPlace] = []

    def half(self, slot: int, side: PartSide, version: str, number: int) -> None:
        """Draw one half: the sign of the part, the name line, the rows, the foot."""
        room = self.look.sheet.w / 2
        closer = slot * CLOSER if self.look.answers else 0.0
        box = Box(slot * room + MARGIN - closer, 0, room - 2 * MARGIN, self.look.sheet.h)
        name = f"part {side.part.number}" + (f", side {side.number} of {side.of}" if side.of > 1 else "")
        self.places.append(
            Place(f"version {version}, {name}" if version else name, "check", Box(slot * room, 0, room, box.h))
        )
        self.head(box, side.part.kind, version)
        rows = _Rows(side, box, self.look)
        frames = [Panel(rows.frame(row), RADIUS, None, self.look.style.line, self.look.style.thin_pt)
                  for row in range(len(side.tasks))]  # fmt: skip
        self.items += frames
        groups = []
        for row, task in enumerate(side.tasks):
            cells, lines = rows.row(row, task, number, self.cells)
            groups.append(Group(Role.ROW, cells))
            self.items += lines
        self.items.append(Group(Role.TABLE, tuple(groups)))
        text = signs.imprint_text(self.look.imprint, box.w - 40, self.look.widths, "quick check")
        which = f"{version} · {name}" if version else name
        self.items += signs.foot(text, which, box.x, box.right, self.look.sheet.h - 7.5)

    def head(self, box: Box, kind: PartKind, version: str) -> None:
        at = (box.x + 6.5, 16.5, 1.3)
        self.items.append(symbols.look(*at) if kind.is_seen else listen(*at))
        left, base = box.x + 20, 18.0
        if self.look.answers:
            text = f"Answers {version}".strip()
            self.items.append(Group(Role.HEADING, (Label(left, base, text, HEAD_PT, Typeface.BOLD, INK),)))
            return
        self.items.append(Label(left, base, "Name", SMALL_PT, Typeface.TEXT, TEXT))
        start = left + self.look.widths.mm("Name", SMALL_PT, Typeface.TEXT) + 2
        style = self.look.style
        self.items.append(Line(start, base + 0.6, box.right, base + 0.6, style.thin_pt, style.line))


class _Rows:
    """Where the rows of one half lie, and what stands in them."""

    def __init__(self, side: PartSide, box: Box, look: CheckLook) -> None:
        self.kind, self.box, self.look, self.first = side.part.kind, box, look, side.first
        count = len(side.tasks)
        self.height = min(MOST_ROW, (look.sheet.h - TOP - BELOW - GAP * (count - 1)) / count)
        self.choices = side.part.choices
        # One size for all letters of the part, on all its sides.
        letters = [choice.text for task in side.part.tasks for choice in task.choices]
        share = LETTER_SHARE if self.height >= LOW_ROW else LOW_LETTER_SHARE
        self.em = min(share * self.height, faces.letter_em(self._step(), letters, look.widths))

    def frame(self, row: int) -> Box:
        """Return the frame of a row."""
        y = TOP + row * (self.height + GAP)
        return Box(self.box.x + FRAME_AT, y, self.box.w - FRAME_AT, self.height)

    def _start(self) -> float:
        """Return where the choices begin, from the frame's left edge."""
        return 2.0 + (self._asked() + 4.0 if self.kind.is_seen else 0.0)

    def _asked(self) -> float:
        return min(ASKED, self.height - 3)

    def _step(self) -> float:
        return (self.box.w - FRAME_AT - 2.0 - self._start()) / self.choices

    def row(
        self, row: int, task: CheckTask, version: int, places: list[CellPlace]
    ) -> tuple[tuple[Group, ...], list[Item]]:
        """Return the cells of a row (sign, picture asked about, choices) and its lines; note where the choices lie."""
        frame = self.frame(row)
        sign = row_sign(task.sign, self.box.x + SIGN_AT, frame.cy, SIGN, FRAME_PT)
        cells = [Group(Role.CELL, (sign,))]
        lines: list[Item] = []
        if task.shown:
            cells.append(Group(Role.CELL, (self._asked_picture(frame, task.shown, row),)))
            x = frame.x + self._start() - 1
            style = self.look.style
            lines.append(Line(x, frame.y + 4, x, frame.bottom - 4, style.thin_pt, style.line))
        step = self._step()
        for number, choice in enumerate(task.choices):
            middle = frame.x + self._start() + step * (number + 0.5)
            drawn = self._choice(middle, frame.cy, choice.text, choice.picture, number)
            cells.append(Group(Role.CELL, (drawn,)))
            box = Box(middle - step / 2, frame.y, step, frame.h)
            places.append(CellPlace(version, self.first + row + 1, number + 1, choice.text, box))
            if self.look.answers and number == task.place:
                lines.append(_ring(middle, frame.cy, step - RING_AIR, frame.h - RING_AIR))
        return tuple(cells), lines

    def _asked_picture(self, frame: Box, name: str, row: int) -> Picture:
        # What is seen is what is asked: the words behind the picture must not give the answer away.
        side = self._asked()
        box = Box(frame.x + 3, frame.cy - side / 2, side, side)
        return Picture(name, box, f"picture {self.first + row + 1}")

    def _choice(self, cx: float, cy: float, text: str, picture: str | None, number: int) -> Picture | Label:
        if picture is not None:
            side = min(MOST_PICTURE, self._step() - 3, self.height - 3)
            return Picture(picture, Box.around(cx, cy, side, side), f"picture {number + 1}")
        share = faces.CAPITAL_BASE if self.kind is PartKind.SEE_CAPITAL else faces.SMALL_BASE
        return faces.letter(cx, cy + self.em * share, text, self.em, self.look.widths)


def _ring(cx: float, cy: float, width: float, height: float) -> Outline:
    """Return the ring a child draws round the right choice."""
    k = 0.5522847498
    rx, ry = width / 2, height / 2
    path = (
        ("M", cx + rx, cy),
        ("C", cx + rx, cy + k * ry, cx + k * rx, cy + ry, cx, cy + ry),
        ("C", cx - k * rx, cy + ry, cx - rx, cy + k * ry, cx - rx, cy),
        ("C", cx - rx, cy - k * ry, cx - k * rx, cy - ry, cx, cy - ry),
        ("C", cx + k * rx, cy - ry, cx + rx, cy - k * ry, cx + rx, cy),
        ("Z",),
    )
    return Outline(path, None, INK, FRAME_PT)
