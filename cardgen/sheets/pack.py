"""What packs have beside their cards: the sorting strip, and a page for the family. All in mm."""

from cardgen.games.pieces import Cover, FamilyLetter, Imprint, StripField
from cardgen.sheets import codes, cover, faces, signs, symbols
from cardgen.sheets.marks import Align, Item, Label, Line, Page, Picture
from cardgen.sheets.style import HEAD_PT, INK, PAGE_MARGIN, RUNNING_PT, Style
from cardgen.units import Box, Size, Typeface, Widths

# Beside each other: letters left, picture right; in narrower fields the picture stands above the letters.
WIDE, PICTURE, EM = 80.0, 42.0, 24.0
STACKED_PICTURE, STACKED_EM, STACKED_BASE = 34.0, 14.0, 7.5
AIR = 8.0  # between a side's line and the strip's edge
LETTER_PT, LETTER_PITCH, LETTER_TOP = 14.0, 8.0, 30.0


def strip(sides: tuple[StripField, ...], box: Box, style: Style, widths: Widths) -> list[Item]:
    """Return a strip for the table: a field a sound with its letters and key picture; cards are laid below it."""
    w = box.w / len(sides)
    em = _em(sides, w, widths)
    drawn: list[Item] = []
    for place, side in enumerate(sides):
        field = Box(box.x + place * w, box.y, w, box.h)
        drawn += _side(side, field, em, widths)
        if place:
            drawn.append(Line(field.x, box.y + AIR, field.x, box.bottom - AIR, style.thin_pt, style.line))
    return drawn


def _em(sides: tuple[StripField, ...], width: float, widths: Widths) -> float:
    """Return the one em in mm for the letters of all sides, so that the widest have room."""
    inks = [widths.ink(" ".join(side.letters), Typeface.LEARNING) for side in sides]
    widest = max(right - left for left, right in inks)
    if width >= WIDE:
        return min(EM, (width - PICTURE - 2.5 * AIR) / widest)
    return min(STACKED_EM, (width - AIR) / widest)


def _side(side: StripField, field: Box, em: float, widths: Widths) -> list[Item]:
    text = " ".join(side.letters)
    if not side.picture:
        return [faces.letter(field.cx, field.cy + faces.MIXED_BASE * em, text, em, widths)]
    if field.w >= WIDE:
        x = field.x + (field.w - PICTURE - 0.5 * AIR) / 2
        box = Box(field.right - PICTURE - AIR / 2, field.cy - PICTURE / 2, PICTURE, PICTURE)
        letters = faces.letter(x, field.cy + faces.MIXED_BASE * em, text, em, widths)
    else:
        box = Box.around(field.cx, field.y + 5.0 + STACKED_PICTURE / 2, STACKED_PICTURE, STACKED_PICTURE)
        letters = faces.letter(field.cx, field.bottom - STACKED_BASE, text, em, widths)
    return [letters, Picture(side.picture, box, side.alt)]


def letter_page(letter: FamilyLetter, paper: Size, *, imprint: Imprint, widths: Widths, number: int) -> Page:
    """Return the page for the family: the teacher's text, the code, how the sounds are said."""
    told: Cover = letter.cover
    left, room = PAGE_MARGIN + 5, paper.w - 2 * PAGE_MARGIN - 10
    face = Typeface.OWN if told.own_face else Typeface.TEXT
    y = LETTER_TOP
    drawn: list[Item] = []
    for line in cover.wrap_in(told.text, room, LETTER_PT, face, widths):
        drawn.append(Label(left, y, line, LETTER_PT, face, INK))
        y += LETTER_PITCH
    y += 6.0
    for at, step in zip((8.0, 32.0, 56.0), (symbols.look, symbols.say, symbols.lay), strict=True):
        drawn.append(step(left + at, y + 4, 1.6))
    y += 22.0
    for say in told.says:
        drawn.append(Label(left, y, say.letter, 15.0, Typeface.LEARNING, INK))
        drawn.append(Label(left + 12, y, ", ".join(filter(None, (say.say, say.avoid))), HEAD_PT, Typeface.TEXT, INK))
        y += 7.0
    if told.link:
        module = codes.module_in(told.link, 30.0)
        drawn.append(codes.code_mark(told.link, left, y + 4, module, told.code))
        beside = left + (told.link.modules + 2 * codes.QUIET) * module
        drawn.append(symbols.play(beside + 8, y + 12, 1.25))
        lines = codes.address_lines(told.link.shown, room - (beside - left), widths, RUNNING_PT)
        drawn += codes.address_labels(lines, beside, y + 26, Align.LEFT, RUNNING_PT, 5.0)
    text = signs.imprint_text(imprint, 110, widths, "for the family")
    feet = signs.foot(text, letter.title, PAGE_MARGIN, paper.w - PAGE_MARGIN, paper.h - 8)
    return Page(number, paper, (*drawn, *feet))
