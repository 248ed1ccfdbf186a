"""What stands on one side of a card, fitted to its size: 63 × 88 mm and 45 mm squares are the patterns. All in mm."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cardgen.errors import TeacherError
from cardgen.games.pieces import Card, CardFace, Link, SayLine
from cardgen.sheets import codes, cover, faces, pack, signs, symbols
from cardgen.sheets.marks import Align, Item, Label, Line, Picture
from cardgen.sheets.style import INK, LEAST_WORD_PT, SMALL_PT, TEXT, Style, word_size_pt
from cardgen.units import Box, Size, Typeface, Widths, mm_of_points

LEAST_PICTURE = 25.0  # a child names it at this size
WORD_PT, BACK_WORD_PT, LEAST_BACK_WORD_PT = 34.0, 34.0, 14.0
FOOT_LINE_AIR, LETTER_AIR, DOTTED = 9.0, 10.0, 26.0
TALL = frozenset("bdfhkltBCDEFGHIJKLMNOPQRSTUVWXYZA")
SQUARE_CODE = 22.0  # a code on a square card of 45 mm, without its quiet zone
NOTED, NOTED_AT = 52.0, -4.0  # a picture over small print


@dataclass(frozen=True, slots=True)
class Frame:
    """Where things stand on a card of one shape: shares of a pattern card, from the middle of the real one.

    `scale` is how much larger than its pattern the card is; places are mm on the pattern from the card's middle.
    """

    scale: float
    picture: float
    picture_at: float
    worded: float
    worded_at: float
    word_base: float
    letter_em: float
    letter_base: float
    pair_em: float
    foot_line: float
    back_base: float
    sign_at: float
    word_room: float

    @classmethod
    def of(cls, card: Size) -> "Frame":
        """Return the frame for a card of that size: the tall pattern where it is clearly higher than wide."""
        if card.h >= 1.2 * card.w:
            scale = min(card.w / 63, card.h / 88)
            return cls(scale, 53, 0.0, 51, -9.5, 32.0, 56, 18.0, 27.5, 43, 0.0, 18.0, 53)
        side = min(card.w, card.h)
        scale = side / 45
        return cls(scale, 34, 0.0, 27, -4.5, 18.5, 27, 0.0, 16.5, 45 - 2 * FOOT_LINE_AIR / scale, 2.4, 12.0, 39)


@dataclass(frozen=True, slots=True)
class Setting:
    """The one size of letters and words on all cards of a deck: em in mm, points; and what draws them."""

    frame: Frame
    letter_em: float
    pair_em: float
    word_pt: float
    back_word_pt: float
    style: Style
    widths: Widths


def setting(cards: Sequence[Card], card: Size, style: Style, widths: Widths) -> Setting:
    """Return the setting of a deck; TeacherError where a picture or word would be too small to know, saying how large.

    Words on fronts are for children, those on backs for grown-ups.
    """
    frame = Frame.of(card)
    fronts, backs = [c.front for c in cards], [c.back for c in cards]
    _check_pictures(fronts, frame, card)
    room = word_room(card)
    wanted = WORD_PT * frame.scale if frame.picture > 40 else 22.0 * frame.scale
    words = sorted({face.word for face in fronts if face.word})
    word_pt = word_size_pt(words, room, max(wanted, LEAST_WORD_PT), widths)
    if words and word_pt < LEAST_WORD_PT:
        widest = max(words, key=lambda text: widths.em(text, Typeface.LEARNING))
        need = widths.mm(widest, LEAST_WORD_PT, Typeface.LEARNING) / room * card.w
        raise TeacherError(
            f'"{widest}" is too wide for a card of {card.w:g} mm: it could not be read.',
            f"Choose cards at least {need:.0f} mm wide (--layout), or pictures without words.",
        )
    on_backs = sorted({face.word for face in backs if face.word})
    back_pt = word_size_pt(on_backs, room, max(BACK_WORD_PT * frame.scale * 0.6, 20.0), widths)
    letters = [face.letter for c in cards for face in (c.front, c.back) if face.letter]
    pairs = [" ".join(face.pair) for c in cards for face in (c.front, c.back) if face.pair]
    return Setting(
        frame,
        _em(letters, frame.letter_em * frame.scale, card.w - LETTER_AIR * frame.scale, widths),
        _em(pairs, frame.pair_em * frame.scale, card.w - LETTER_AIR * frame.scale, widths),
        word_pt,
        max(back_pt, LEAST_BACK_WORD_PT),
        style,
        widths,
    )


def word_room(card: Size) -> float:
    """Return how many mm a word may be wide on a card of that size."""
    frame = Frame.of(card)
    return frame.word_room * frame.scale + (card.w - 45 * frame.scale if card.w > card.h else 0.0)


def _em(texts: Iterable[str], wanted: float, room: float, widths: Widths) -> float:
    """Return the em in mm at which every text's ink has room, at most the wanted one."""
    inks = [widths.ink(text, Typeface.LEARNING) for text in texts]
    widest = max((right - left for left, right in inks), default=0.0)
    return min(wanted, room / widest) if widest else wanted


def _check_pictures(fronts: Sequence[CardFace], frame: Frame, card: Size) -> None:
    shown = [frame.worded if face.word else frame.picture for face in fronts if face.picture]
    side = min(shown, default=LEAST_PICTURE) * frame.scale
    if shown and side < LEAST_PICTURE - 0.01:
        ratio = LEAST_PICTURE / side
        raise TeacherError(
            f"On cards of {card.w:g} × {card.h:g} mm a picture would be only {side:.0f} mm wide; a child needs "
            f"{LEAST_PICTURE:.0f}.",
            f"Cards of this shape must be at least {card.w * ratio:.0f} × {card.h * ratio:.0f} mm.",
        )


def draw(face: CardFace, box: Box, how: Setting, *, back: bool = False) -> list[Item]:
    """Return the marks of one side of a card that lies in `box`."""
    if face.cover:
        return cover.draw(face.cover, box, how.frame.scale, how.style, how.widths)
    if face.strip:
        return pack.strip(face.strip, box, how.style, how.widths)
    if face.say:
        return _saying(face, face.say, box, how.widths)
    frame, s = how.frame, how.frame.scale
    drawn: list[Item] = []
    if face.to_draw:
        side = DOTTED * s
        drawn.append(signs.dotted_square(Box.around(box.cx, box.cy, side, side), "empty card to draw on"))
    if face.picture:
        side, at = _picture_in(face, frame)
        side, at = side * s, box.cy + at * s
        drawn.append(Picture(face.picture, Box.around(box.cx, at, side, side), face.alt))
    if face.word:
        drawn.append(_word(face, box, how, back=back))
    if face.code:
        return [*drawn, *_code(face, face.code, box, how)]
    if face.letter:
        drawn += _letter(face.letter, box, how)
    elif face.pair:
        drawn += _pair(face.pair, box, how)
    if face.sign:
        at = box.cy + (frame.sign_at if face.word or face.picture else 0.0) * s
        drawn.append(symbols.side_sign(face.sign, box.cx, at, 10.0 * min(1.0, s), 1.6))
    if face.pattern is not None:
        drawn.append(symbols.block_pattern(box.cx, box.cy, face.pattern))
    if face.note:
        label = Label(box.cx, box.cy + 38 * s, face.note, SMALL_PT, Typeface.TEXT, TEXT, Align.CENTRE)
        drawn.append(label)
    return drawn


def _picture_in(face: CardFace, frame: Frame) -> tuple[float, float]:
    """Return the side of the picture, and how far its middle lies below the card's, on the pattern card."""
    if face.word:
        return frame.worded, frame.worded_at
    return (NOTED, NOTED_AT) if face.note and frame.letter_base else (frame.picture, frame.picture_at)


def _word(face: CardFace, box: Box, how: Setting, *, back: bool) -> Label:
    frame, s = how.frame, how.frame.scale
    size = how.back_word_pt if back else how.word_pt
    if face.picture:
        base = box.cy + frame.word_base * s
    else:
        base = box.cy + mm_of_points(size) * faces.SMALL_BASE - (4.0 * s if face.sign else 0.0)
    return Label(box.cx, base, str(face.word), size, Typeface.LEARNING, INK, Align.CENTRE)


def _letter(text: str, box: Box, how: Setting) -> list[Item]:
    """Return a letter over a foot line: b and q, d and p, n and u are decided."""
    frame, em = how.frame, how.letter_em
    if frame.letter_base:
        base = box.cy + frame.letter_base * frame.scale
    else:
        base = box.cy + em * (0.36 if TALL & set(text) else faces.SMALL_BASE)
    return [_foot_line(box, base, text, em, how), faces.letter(box.cx, base, text, em, how.widths)]


def _pair(pair: tuple[str, str], box: Box, how: Setting) -> list[Item]:
    em = how.pair_em
    base = box.cy + 0.38 * em
    text = " ".join(pair)
    return [_foot_line(box, base, text, em, how), faces.letter(box.cx, base, text, em, how.widths)]


def _foot_line(box: Box, base: float, text: str, em: float, how: Setting) -> Line:
    """Return the line under letters, as long as they are at the least."""
    left, right = how.widths.ink(text, Typeface.LEARNING)
    half = max(how.frame.foot_line * how.frame.scale, (right - left) * em) / 2
    return Line(box.cx - half, base, box.cx + half, base, how.style.thin_pt, how.style.line)


def code_module(link: Link, card: Size) -> float:
    """Return the size of one module in mm of a code that stands alone on the back of a card of that size."""
    frame = Frame.of(card)
    return codes.module_in(link, (codes.SIDE if frame.letter_base else SQUARE_CODE) * frame.scale, codes.MODULE)


def _code(face: CardFace, link: Link, box: Box, how: Setting) -> list[Item]:
    """Return a square code for the grown-up's camera, its address in letters, and the letter it is about."""
    frame, s = how.frame, how.frame.scale
    module = code_module(link, Size(box.w, box.h))
    side = module * link.modules
    tall = frame.letter_base > 0
    middle, first, letter_base, em = (-6.0, 18.0, 33.5, 12.0) if tall else (-7.0, 11.6, 20.5, 6.0)
    at = box.cy + middle * s
    drawn: list[Item] = [codes.code_mark(link, box.cx - side / 2, at - side / 2, module, f"code to hear {link.shown}")]
    size = SMALL_PT * max(1.0, min(s, 1.4))
    lines = codes.address_lines(link.shown, box.w - 4 * s, how.widths, size)
    pitch = codes.LINE_PITCH * size / SMALL_PT
    top = box.cy + first * s - (pitch * (len(lines) - 1) / 2 if tall else 0.0)
    drawn += codes.address_labels(lines, box.cx, top, Align.CENTRE, size, pitch)
    if face.letter and (tall or len(lines) == 1):
        drawn.append(faces.letter(box.cx, box.cy + letter_base * s, face.letter, em * s, how.widths))
    return drawn


def _saying(face: CardFace, say: SayLine, box: Box, widths: Widths) -> list[Item]:
    """Return how a sound is said, for the teacher who holds the card up: a pattern of half a sheet, 148.5 mm wide."""
    s, x = box.w / 148.5, box.x + 20 * box.w / 148.5
    large, small, least = max(SMALL_PT, 20 * s), 16 * s, SMALL_PT
    held = "held" if say.held else "short"
    hints = [(94, f"{held}: {say.mouth}" if say.mouth else held), (102, say.avoid)]
    if face.word:
        hints.append((118, f"key picture: {face.word}"))
    link = face.code
    # One size for all hints, so that the longest stays on the card.
    widest = max(widths.mm(text, 1.0, Typeface.TEXT) for _, text in hints)
    small = max(least, min(small, (box.right - x - 6) / widest))
    drawn: list[Item] = []
    if face.pair:
        drawn.append(Label(x, box.y + 62 * s, " ".join(face.pair), 40 * s, Typeface.LEARNING, INK))
    drawn.append(Label(x, box.y + 82 * s, say.say, large, Typeface.BOLD, INK))
    drawn += [Label(x, box.y + at * s, text, small, Typeface.TEXT, INK) for at, text in hints if text]
    if link:
        module = codes.module_in(link, codes.SIDE * s, codes.MODULE * s)
        y = box.y + 130 * s
        drawn.append(codes.code_mark(link, x, y, module, f"code to hear {link.shown}"))
        beside = x + (link.modules + 2 * codes.QUIET) * module
        lines = codes.address_lines(link.shown, box.right - 6 - beside, widths)
        drawn += codes.address_labels(lines, beside, y + 5 * s, Align.LEFT)
    return drawn
