"""Sorting mats on paper: the sides with letters, key picture and sign, and the places for the cards. All in mm."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cardgen.games.pieces import Imprint, SortItem
from cardgen.sheets import faces, signs, symbols
from cardgen.sheets.marks import Align, Group, Item, Label, Line, Page, Panel, Picture, Place, Role
from cardgen.sheets.mat_layout import MatSheet, MatSide
from cardgen.sheets.style import CAPITAL_HEIGHT, FRAME_PT, INK, SMALL_PT, TEXT, Style
from cardgen.units import Box, Typeface, Widths

RADIUS = 6.0
KEY_PICTURE, KEY_SHARE, KEY_EM, KEY_AIR = 40.0, 0.94, 31.0, 4.0
DOTTED_AIR = 4.0  # the card laid on a dotted square covers it
LINE_AIR, SIGN_GAP = 6.0, 8.0  # the line begins so far inside the frame, and ends so far beside the sign
SIGN, SIGN_PT, PLACE_SIGN = 9.0, 1.6, 8.0
FOOT_AT, FOOT_X = 7.5, 10.0
ANSWER_PICTURE, ANSWER_BASE = 0.68, 3.2  # share of the card's width; its word's baseline above the card's lower edge


@dataclass(frozen=True, slots=True)
class MatLook:
    """How all mats of a game are drawn: blank ones have dotted squares for letter card and key picture."""

    blank: bool
    imprint: Imprint
    style: Style
    widths: Widths


def mat_pages(sheets: Sequence[MatSheet], look: MatLook, *, number: int | None, first_page: int) -> tuple[Page, ...]:
    """Return one mat, sheet by sheet; `number` is its set where there are several."""
    return tuple(
        _page(sheet, look, first_page + index, _which(number, index, len(sheets)), number, {})
        for index, sheet in enumerate(sheets)
    )


def answer_pages(
    sheets: Sequence[MatSheet], look: MatLook, items: Sequence[SortItem], *, first_page: int
) -> tuple[Page, ...]:
    """Return the same mat with every card in its place, for the teacher."""
    laid: dict[str | None, list[SortItem]] = {}
    for item in items:
        laid.setdefault(item.key, []).append(item)
    return tuple(
        _page(sheet, look, first_page + index, _which(None, index, len(sheets)), None, laid)
        for index, sheet in enumerate(sheets)
    )


def _which(number: int | None, index: int, sheets: int) -> str:
    sheet = f"sheet {index + 1} of {sheets}" if sheets > 1 else ""
    return " · ".join(filter(None, [f"set {number}" if number else "", sheet]))


def _page(
    sheet: MatSheet,
    look: MatLook,
    page: int,
    which: str,
    number: int | None,
    laid: Mapping[str | None, Sequence[SortItem]],
) -> Page:
    em = _letter_em(sheet, look.widths)
    drawn: list[Item] = []
    for side in sheet.sides:
        drawn += _side(side, em, look, laid.get(side.side.key, ()), blank=look.blank and not laid)
    size = sheet.size
    if laid:
        what = signs.imprint_text(look.imprint, size.w / 2, look.widths, "sorting, answers")
    elif look.blank:
        what = "blank mat · laminate once, lay the week's letter and key picture"
    else:
        what = signs.imprint_text(look.imprint, size.w / 2, look.widths, "sorting mat")
    drawn += signs.foot(what, which, FOOT_X, size.w - FOOT_X, size.h - FOOT_AT)
    places = () if laid else (Place(f"mat {number or 1}", "front", Box(0.0, 0.0, size.w, size.h), pack=number),)
    return Page(page, size, tuple(drawn), places=places)


def _side(side: MatSide, em: float, look: MatLook, items: Sequence[SortItem], *, blank: bool) -> list[Item]:
    style, frame = look.style, side.frame
    drawn: list[Item] = [Panel(frame, RADIUS, None, INK, FRAME_PT)]
    if side.key_row and blank:
        left, right = side.key_row
        drawn += [_dotted(left, "place for the letter card"), _dotted(right, "place for the key picture")]
    elif side.key_row:
        drawn += _key_row(side, em, look)
    middle = frame.cx
    for x1, x2 in ((frame.x + LINE_AIR, middle - SIGN_GAP), (middle + SIGN_GAP, frame.right - LINE_AIR)):
        drawn.append(Line(x1, side.line, x2, side.line, style.thin_pt, style.line))
    drawn.append(symbols.side_sign(side.side.sign, middle, side.line, SIGN, SIGN_PT))
    for index, place in enumerate(side.places):
        if index < len(items):
            drawn += _answer(place, items[index])
        else:
            sign = symbols.side_sign(side.side.sign, place.cx, place.cy, PLACE_SIGN, style.thin_pt, style.line)
            # Many alike: for a screen reader the one in the line is enough.
            drawn += sign.items
    return drawn


def _dotted(box: Box, alt: str) -> Item:
    side = min(box.w, box.h) - DOTTED_AIR
    return signs.dotted_square(Box.around(box.cx, box.cy, side, side), alt)


def _pair(side: MatSide) -> str:
    """Return capital and small letter; letter pairs need air between them: Mm, but Sh sh."""
    capital, small = side.side.letters or ("", "")
    return f"{capital} {small}" if len(small) > 1 else capital + small


def _key_picture(side: MatSide) -> Box | None:
    if not (side.key_row and side.side.picture):
        return None
    box = side.key_row[1]
    width = min(KEY_PICTURE, KEY_SHARE * box.h)
    return Box.around(box.cx, box.cy, width, width)


def _letter_room(side: MatSide) -> Box | None:
    """Return the part of the key row that the letters have: up to the key picture, or all of it without one."""
    if not side.key_row:
        return None
    row, picture = side.key_row[0], _key_picture(side)
    if picture is None:
        return Box(side.frame.x + KEY_AIR, row.y, side.frame.w - 2 * KEY_AIR, row.h)
    half = min(row.cx - side.frame.x - KEY_AIR, picture.x - KEY_AIR - row.cx)
    return Box(row.cx - half, row.y, 2 * half, row.h)


def _letter_em(sheet: MatSheet, widths: Widths) -> float:
    """Return the one em in mm at which the letters of every side of the sheet have room."""
    sizes = [KEY_EM]
    for side in sheet.sides:
        room = _letter_room(side)
        if room and side.side.letters:
            left, right = widths.ink(_pair(side), Typeface.LEARNING)
            sizes.append(room.w / (right - left))
    return min(sizes)


def _key_row(side: MatSide, em: float, look: MatLook) -> list[Item]:
    drawn: list[Item] = []
    room, picture = _letter_room(side), _key_picture(side)
    if room and side.side.letters:
        base = room.cy + em * CAPITAL_HEIGHT / 2
        drawn.append(Group(Role.HEADING, (faces.letter(room.cx, base, _pair(side), em, look.widths),)))
    if picture and side.side.picture:
        drawn.append(Picture(side.side.picture, picture, side.side.alt))
    return drawn


def _answer(place: Box, item: SortItem) -> list[Item]:
    """Return a card as it lies in its place: its picture, and its word in small print."""
    width = ANSWER_PICTURE * min(place.w, place.h)
    box = Box(place.cx - width / 2, place.y + (place.h - width - 6.0) / 2, width, width)
    label = Label(place.cx, place.bottom - ANSWER_BASE, item.word, SMALL_PT, Typeface.TEXT, TEXT, Align.CENTRE)
    name = item.card.front.picture
    return [Picture(name, box, item.card.front.alt), label] if name else [label]
