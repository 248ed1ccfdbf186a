"""Where things stand on a sorting mat: key row on top, a place for every card below. All in mm."""

from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games.pieces import Paper, SortSide
from cardgen.sheets.layout import MatFormat
from cardgen.units import Box, Size

KEY_ROW = 45.0
UNDER_LINE, LEAST_GAP, SIDE_AIR = 2.0, 0.5, 2.0
NEITHER_LINE = 11.0  # from the frame of the sheet for neither sound down to its sign


@dataclass(frozen=True, slots=True)
class MatSide:
    """One side of a mat in its frame: the places of letters and key picture, the line below, a place a card.

    The side for neither sound has no key row.
    """

    side: SortSide
    frame: Box
    key_row: tuple[Box, Box] | None
    line: float
    places: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class MatSheet:
    """One sheet of a mat: its size and the sides on it, left to right."""

    size: Size
    sides: tuple[MatSide, ...]


def sheets_of_sides(
    form: MatFormat, paper: Paper, card: Size, sides: Sequence[SortSide], *, blank: bool
) -> tuple[MatSheet, ...] | None:
    """Return the sheets for some sides, as many a sheet as the format has; None where the cards do not fit.

    On a `blank` mat cards lie in the key row too.
    """
    frames = form.frames(paper)
    laid = []
    for index, side in enumerate(sides):
        made = _side(form, frames[index % form.abreast], card, side, blank=blank)
        if made is None:
            return None
        laid.append(made)
    size = form.size(paper)
    starts = range(0, len(laid), form.abreast)
    return tuple(MatSheet(size, tuple(laid[start : start + form.abreast])) for start in starts)


def _side(form: MatFormat, frame: Box, card: Size, side: SortSide, *, blank: bool) -> MatSide | None:
    """Return a side with even gaps; where the usual number of rows does not fit, with the rows that are needed."""
    columns = min(form.columns, int((frame.w - 2 * SIDE_AIR) / card.w), side.places)
    if columns < 1 or (blank and frame.w < 2 * (card.w + SIDE_AIR)):
        return None
    key_row = card.h if blank else min(card.h, KEY_ROW)
    needed = -(-side.places // columns)
    room = frame.h - key_row - 2 * UNDER_LINE
    rows = next((n for n in (max(form.rows, needed), needed) if (room - n * card.h) / (n + 1) >= LEAST_GAP), None)
    if rows is None:
        return None
    gap = (room - rows * card.h) / (rows + 1)
    line = frame.y + gap + key_row + UNDER_LINE
    wide = card.w if blank else min(card.w, KEY_ROW)
    left, right = (Box(x, frame.y + gap, wide, key_row) for x in _across(frame, wide, 2))
    places = grid(frame, line + UNDER_LINE, card, side.places, columns, gap)
    return MatSide(side, frame, (left, right), line, places)


def neither_sheet(form: MatFormat, paper: Paper, card: Size, side: SortSide) -> MatSheet | None:
    """Return the sheet for neither sound: one frame, no letters; None where the cards do not fit."""
    frame = form.frames(paper)[0]
    line = frame.y + NEITHER_LINE
    for rows in range(1, form.rows + 1):
        columns = -(-side.places // rows)
        gap = (frame.bottom - line - rows * card.h) / (rows + 1)
        fits = frame.w - columns * card.w >= 2 * SIDE_AIR and gap >= LEAST_GAP
        if columns <= min(form.columns, rows + 2) and fits:
            places = grid(frame, line + gap, card, side.places, columns, gap)
            return MatSheet(form.size(paper), (MatSide(side, frame, None, line, places),))
    return None


def grid(frame: Box, top: float, card: Size, places: int, columns: int, gap: float) -> tuple[Box, ...]:
    """Return the places row by row with even gaps across; a last row that is not full stands in the middle."""
    boxes = []
    for start in range(0, places, columns):
        in_row = min(columns, places - start)
        aside = (frame.w - columns * card.w) / (columns + 1)
        left = frame.cx - (in_row * card.w + (in_row - 1) * aside) / 2
        y = top + start // columns * (card.h + gap)
        boxes += [Box(left + column * (card.w + aside), y, card.w, card.h) for column in range(in_row)]
    return tuple(boxes)


def _across(frame: Box, wide: float, count: int) -> list[float]:
    """Return the left edges of so many boxes of one width, with even gaps between and beside them."""
    aside = (frame.w - count * wide) / (count + 1)
    return [frame.x + aside + index * (wide + aside) for index in range(count)]
