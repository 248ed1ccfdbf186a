"""Bingo boards on sheets of paper: two on a landscape page or one on a portrait page."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.games.pieces import Board, Cut, Face, Imprint, Item, Paper
from cardgen.sheets import faces, signs
from cardgen.sheets.layout import BoardFormat
from cardgen.sheets.marks import CellPlace, Group, Line, Page, Panel, Place, Role
from cardgen.sheets.marks import Item as SheetItem
from cardgen.sheets.style import (
    CUT_MARK_PT,
    EDGE,
    FRAME_PT,
    INK,
    LEAST_WORD_PT,
    WORD_PT,
    Style,
    widest_word_em,
    word_size_pt,
)
from cardgen.units import Box, Size, Widths

HEAD, HEAD_GAP, FOOT = 10.0, 4.0, 14.0
MARK = 6.6  # how long the cut marks at the sheet's edge are
LEAST_TOP, MOST_TOP = 9.0, 38.0
WORD_FACE_PT = 28.0
LEAST_CELL = 31.5  # a box a child can dab or cover, and a picture of 25 mm


@dataclass(frozen=True, slots=True)
class BoardLayout:
    """How boards of one face lie on their sheet: its size, how many side by side and below, one cell's size (mm)."""

    sheet: Size
    abreast: int
    down: int
    cell: Size

    @property
    def places(self) -> int:
        """How many boards go on a sheet."""
        return self.abreast * self.down

    def room(self, slot: int) -> Box:
        """Return the part of the sheet that a board has to itself, counted row by row from 0."""
        w, h = self.sheet.w / self.abreast, self.sheet.h / self.down
        return Box(slot % self.abreast * w, slot // self.abreast * h, w, h)

    @property
    def cuts(self) -> int:
        """How many straight cuts part the boards of a sheet."""
        return self.abreast + self.down - 2


def page_format(rows: int, columns: int, *, big: bool) -> str:
    """Return the name of the format for a grid: half a page up to 3 × 3, else a page; TeacherError if too big.

    Big boards of three rows or columns have a page of their own; larger grids fill the page already.
    """
    if max(rows, columns) > 3:
        if big:
            raise TeacherError(
                f"A grid of {rows} × {columns} cannot be made bigger: it fills the page already.",
                "--big goes with grids up to 3 × 3.",
            )
        return "bingo-page"
    return "bingo-page" if big and max(rows, columns) == 3 else "bingo-half"


def board_layout(form: BoardFormat, paper: Paper, rows: int, columns: int, *, with_words: bool) -> BoardLayout:
    """Return the layout for a grid in a format; TeacherError if its cells get too small.

    `with_words` makes cells a quarter higher, for the word under the picture.
    """
    sheet = form.size(paper)
    ratio = 1.25 if with_words else 1.0
    highest = (sheet.h / form.down - FOOT - HEAD - HEAD_GAP - LEAST_TOP) / rows / ratio
    width = min(form.widest_cell_mm, form.widest_board_mm / columns, highest) * 2 // 1 / 2
    if width < LEAST_CELL:
        raise TeacherError(
            f"The cells of a {rows} × {columns} board would be only {width:.0f} mm wide.",
            "Choose fewer rows or columns, or pictures without words.",
        )
    return BoardLayout(sheet, form.abreast, form.down, Size(width, width * ratio))


def widest_word(layout: BoardLayout, face: Face) -> float | None:
    """Return how wide a word may be on such a board, in em of the learning typeface; None where no word is printed."""
    if face is Face.WORD:
        return widest_word_em(layout.cell.w - 5)
    if face is Face.PICTURE_WORD:
        return widest_word_em(layout.cell.w - 3)
    return None


@dataclass(frozen=True, slots=True)
class _Setting:
    """One size for all boards of a game: words in points, letters in mm."""

    word_pt: float
    picture_word_pt: float
    letter_em: float


def _setting(boards: tuple[Board, ...], layouts: Mapping[Face, BoardLayout], widths: Widths) -> _Setting:
    def shown(*kinds: Face) -> list[str]:
        cells = {cell for board in boards if board.face in kinds for cell in board.cells if cell is not None}
        return sorted(cells)

    def size(face: Face, air: float, wanted: float) -> float:
        if face not in layouts:
            return wanted
        points = word_size_pt(shown(face), layouts[face].cell.w - air, wanted, widths)
        if points < LEAST_WORD_PT:
            raise ValueError("a word too wide for its cell was not left out of the pool")
        return points

    letter_faces = (Face.LOWERCASE, Face.CAPITAL, Face.LETTERS)
    side = min((layouts[face].cell.w for face in letter_faces if face in layouts), default=0.0)
    return _Setting(
        size(Face.WORD, 5, WORD_FACE_PT),
        size(Face.PICTURE_WORD, 3, WORD_PT),
        faces.letter_em(side, shown(*letter_faces), widths),
    )


def board_pages(
    boards: tuple[Board, ...],
    items: Mapping[str, Item],
    layouts: Mapping[Face, BoardLayout],
    *,
    imprint: Imprint,
    style: Style,
    widths: Widths,
    cut: Cut,
    first_page: int,
    only: Collection[int] = (),
) -> tuple[Page, ...]:
    """Return the pages of all boards, or only those pages on which the boards `only` stand, other places empty.

    Boards of one face fill a page before the next face begins, so that no page mixes layouts.
    """
    setting = _setting(boards, layouts, widths)
    pages: list[Page] = []
    number = first_page
    for face in dict.fromkeys(board.face for board in boards):
        layout = layouts[face]
        same = [board for board in boards if board.face is face]
        for start in range(0, len(same), layout.places):
            row = same[start : start + layout.places]
            if not only or any(board.number in only for board in row):
                painter = _Painter(items, layout, setting, imprint, style, widths, len(boards))
                slots = [(slot, board) for slot, board in enumerate(row) if not only or board.number in only]
                pages.append(painter.page(number, slots, cut))
            number += 1
    return tuple(pages)


def page_count(boards: tuple[Board, ...], layouts: Mapping[Face, BoardLayout]) -> int:
    """Return how many pages all the boards take."""
    counts: dict[Face, int] = {}
    for board in boards:
        counts[board.face] = counts.get(board.face, 0) + 1
    return sum(-(-count // layouts[face].places) for face, count in counts.items())


@dataclass(frozen=True, slots=True)
class _Painter:
    items: Mapping[str, Item]
    layout: BoardLayout
    setting: _Setting
    imprint: Imprint
    style: Style
    widths: Widths
    of: int

    def page(self, number: int, slots: list[tuple[int, Board]], cut: Cut) -> Page:
        sheet = self.layout.sheet
        drawn: list[SheetItem] = []
        cells: list[CellPlace] = []
        for slot, board in slots:
            drawn += self.board(slot, board, cells)
        places = tuple(
            Place(f"board {board.number}", board.face.value, self.layout.room(slot)) for slot, board in slots
        )
        return Page(number, sheet, tuple(drawn), places=places, cells=tuple(cells), cuts=self.cuts(cut))

    def cuts(self, cut: Cut) -> tuple[Line, ...]:
        """Return the lines between the boards, or marks that say where the guillotine cuts, no line through."""
        sheet, one = self.layout.sheet, self.layout.room(0)
        upright = [i * one.w for i in range(1, self.layout.abreast)]
        level = [i * one.h for i in range(1, self.layout.down)]
        if cut is Cut.SCISSORS:
            weight, colour = self.style.scissors_pt, self.style.scissors
            return (
                *(Line(x, y + EDGE, x, y + one.h - EDGE, weight, colour) for x in upright for y in (0.0, *level)),
                *(Line(x + EDGE, y, x + one.w - EDGE, y, weight, colour) for y in level for x in (0.0, *upright)),
            )
        ends = ((EDGE, EDGE + MARK), (-EDGE - MARK, -EDGE))
        return (
            *(Line(x, a % sheet.h, x, b % sheet.h, CUT_MARK_PT, INK) for x in upright for a, b in ends),
            *(Line(a % sheet.w, y, b % sheet.w, y, CUT_MARK_PT, INK) for y in level for a, b in ends),
        )

    def board(self, slot: int, board: Board, cells: list[CellPlace]) -> list[SheetItem]:
        cell, room = self.layout.cell, self.layout.room(slot)
        width, height = cell.w * board.columns, cell.h * board.rows
        top = (room.h - FOOT - HEAD - HEAD_GAP - height) / 2
        top = room.y + min(max(top, LEAST_TOP), MOST_TOP)
        frame = Box(self.left(room, width), top + HEAD + HEAD_GAP, width, height)
        drawn: list[SheetItem] = [
            *signs.ring_number(frame.right - 5, top + 5, board.number, self.widths),
            signs.kind_sign(frame.right - 13, top + 5, board.face),
            Panel(frame, 5.0, None, INK, FRAME_PT),
            *self.inner_lines(frame, board),
            self.cells(frame, board, cells),
        ]
        # The foot is flush with wide boards, and at least 100 mm wide under narrow ones.
        wide = max(width, min(100.0, room.w - 2 * EDGE))
        left = self.left(room, wide)
        text = signs.imprint_text(self.imprint, wide - 32, self.widths)
        which = f"board {board.number} of {self.of}"
        drawn += signs.foot(text, which, left, left + wide, room.bottom - 8)
        return drawn

    def left(self, room: Box, width: float) -> float:
        """Return where something begins that stands in the middle of its room.

        What is wide comes nearer to the cut than to the sheet's edge, which printers leave blank.
        """
        return min(max(room.cx - width / 2, EDGE), self.layout.sheet.w - EDGE - width)

    def inner_lines(self, frame: Box, board: Board) -> list[SheetItem]:
        """Our sign: one piece a cell side, stopping short of every crossing and of the frame."""
        cell, weight, colour = self.layout.cell, self.style.thin_pt, self.style.line
        gap = max(2.5, 0.07 * cell.w)
        lines: list[SheetItem] = []
        for column in range(1, board.columns):
            x = frame.x + column * cell.w
            for row in range(board.rows):
                y = frame.y + row * cell.h
                lines.append(Line(x, y + gap, x, y + cell.h - gap, weight, colour))
        for row in range(1, board.rows):
            y = frame.y + row * cell.h
            for column in range(board.columns):
                x = frame.x + column * cell.w
                lines.append(Line(x + gap, y, x + cell.w - gap, y, weight, colour))
        return lines

    def cells(self, frame: Box, board: Board, cells: list[CellPlace]) -> Group:
        cell = self.layout.cell
        rows = []
        for row in range(board.rows):
            row_groups = []
            for column in range(board.columns):
                box = Box(frame.x + column * cell.w, frame.y + row * cell.h, cell.w, cell.h)
                item = board.cells[row * board.columns + column]
                cells.append(CellPlace(board.number, row + 1, column + 1, item, box))
                row_groups.append(Group(Role.CELL, self.face(box, board, item)))
            rows.append(Group(Role.ROW, tuple(row_groups)))
        return Group(Role.TABLE, tuple(rows))

    def face(self, box: Box, board: Board, item_id: str | None) -> tuple[SheetItem, ...]:
        if item_id is None:
            side = 0.56 * min(box.w, box.h)
            return (signs.dotted_square(Box.around(box.cx, box.cy, side, side), "free place"),)
        item = self.items[item_id]
        if board.face is Face.PICTURE:
            return (faces.picture(box, item.id, item.alt),)
        if board.face is Face.WORD:
            return (faces.word(box, item.id, self.setting.word_pt),)
        if board.face is Face.PICTURE_WORD:
            return faces.picture_word(box, item.id, item.alt, self.setting.picture_word_pt)
        base = {Face.LOWERCASE: faces.SMALL_BASE, Face.CAPITAL: faces.CAPITAL_BASE}.get(board.face, faces.MIXED_BASE)
        em = self.setting.letter_em
        return (faces.letter(box.cx, box.cy + em * base, item.id, em, self.widths),)
