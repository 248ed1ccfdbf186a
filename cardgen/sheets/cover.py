"""The cover of a pack: a code to hear, three drawn steps, a line for a word by hand, how the sounds are said.

The child's part has no words. Places are mm on a card of 63 × 88, from its upper left corner.
"""

from dataclasses import dataclass

from cardgen.games.pieces import Cover, Link, SayLine
from cardgen.sheets import codes, symbols
from cardgen.sheets.marks import Align, Item, Label, Line, Outline
from cardgen.sheets.style import INK, SMALL_PT, TEXT, Style, wrap
from cardgen.units import Box, Size, Typeface, Widths

CARD = Size(63.0, 88.0)
LEFT, ROOM = 7.0, 49.0
CODE_ROOM = 29.2  # a code with the white at its right and below
PLAY_AT, STEPS, NEXT = (44.0, 17.0), (12.5, 31.5, 50.5), (21.2, 40.8)
KEY_PT, FEW, MOST_ROWS = 11.0, 2, 4
PITCH, CLOSE_PITCH, LAST, CLOSE_LAST = 5.0, 4.3, 79.5, 81.0
LINE_AIR, CLOSE_AIR = 7.5, 6.5  # between the line to write on and what stands below it
STEP_AIR, LEAST_STEP_AIR = 18.0, 13.5  # between the middle of the steps and the line
ADDRESS_AIR, STEPS_BELOW = 3.3, 8.5  # white above the address, and from it to the middle of the steps
STEPS_ALONE, LINE_ALONE = 24.0, 52.0  # without a code
TEXT_GAP = 1.5  # above the teacher's own text


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where everything stands: `first` is the baseline of the first line of print, `line` that to write on."""

    says: tuple[tuple[str, str], ...]
    text: tuple[str, ...]
    pitch: float
    first: float
    line: float
    steps: float
    module: float
    address: tuple[str, ...]
    fits: bool


def draw(cover: Cover, box: Box, scale: float, style: Style, widths: Widths) -> list[Item]:
    """Return the marks of a cover in the middle of a card, `scale` times as large as its pattern."""
    plan = _plan(cover, widths)
    x0, y0 = box.cx - CARD.w / 2 * scale, box.cy - CARD.h / 2 * scale

    def x(mm: float) -> float:
        return x0 + mm * scale

    def y(mm: float) -> float:
        return y0 + mm * scale

    drawn: list[Item] = []
    if cover.link:
        drawn += _code(cover.link, cover.code, plan, x(LEFT), y0, scale)
        drawn.append(symbols.play(x(PLAY_AT[0]), y(PLAY_AT[1]), 1.25 * scale))
    steps = (symbols.look, symbols.say, symbols.lay)
    for at, step, size in zip(STEPS, steps, (1.2, 1.2, 1.15), strict=True):
        drawn.append(step(x(at), y(plan.steps), size * scale))
        if at != STEPS[-1]:
            drawn.append(_chevron(x(NEXT[STEPS.index(at)]), y(plan.steps), scale))
    drawn.append(Line(x(LEFT), y(plan.line), x(LEFT + ROOM), y(plan.line), style.thin_pt, style.line))
    rows = _rows(cover)
    for place, (key, text) in enumerate(plan.says):
        at, base = LEFT + place // rows * ROOM / 2, plan.first + place % rows * plan.pitch
        drawn.append(Label(x(at), y(base), key, KEY_PT * scale, Typeface.LEARNING, INK))
        drawn.append(Label(x(at + _key_room(cover, widths)), y(base), text, SMALL_PT * scale, Typeface.TEXT, TEXT))
    base = plan.first + rows * plan.pitch + TEXT_GAP
    for line in plan.text:
        drawn.append(Label(x(LEFT), y(base), line, SMALL_PT * scale, _face(cover), INK))
        base += plan.pitch
    return drawn


def fits(cover: Cover, widths: Widths) -> bool:
    """Return whether everything has its place; the teacher's text may be too long."""
    return _plan(cover, widths).fits


def module(cover: Cover, widths: Widths, scale: float = 1.0) -> float:
    """Return the size of one module in mm of the code on a cover."""
    return _plan(cover, widths).module * scale


def _plan(cover: Cover, widths: Widths) -> _Plan:
    room = ROOM if _rows(cover) == len(cover.says) else ROOM / 2 - 2.0
    says = tuple((say.letter, _said(say, room - _key_room(cover, widths), widths)) for say in cover.says)
    text = tuple(wrap_in(cover.text, ROOM, SMALL_PT, _face(cover), widths)) if cover.text else ()
    count = _rows(cover) + len(text)
    few = count <= FEW
    pitch, last, air = (PITCH, LAST, LINE_AIR) if few else (CLOSE_PITCH, CLOSE_LAST, CLOSE_AIR)
    first = last - pitch * (count - 1) - (TEXT_GAP if text else 0.0)
    line = first - air
    if cover.link is None:
        steps = min(STEPS_ALONE, line - LEAST_STEP_AIR)
        return _Plan(says, text, pitch, first, min(LINE_ALONE, line), steps, 0.0, (), fits=steps >= LEFT + 6.5)
    address = tuple(codes.address_lines(cover.link.shown, ROOM, widths))
    below = ADDRESS_AIR + codes.LINE_PITCH * (len(address) - 1) + STEPS_BELOW + LEAST_STEP_AIR
    wanted = _module_in(cover.link, CODE_ROOM)
    module = min(wanted, _module_in(cover.link, max(1.0, line - LEFT - below)))
    lowest = LEFT + _high(cover.link, module) + below - LEAST_STEP_AIR
    return _Plan(
        says, text, pitch, first, line, max(lowest, line - STEP_AIR), module, address, fits=module >= min(0.6, wanted)
    )


def _rows(cover: Cover) -> int:
    """Return in how many rows the sounds stand: more than four stand in two columns."""
    return len(cover.says) if len(cover.says) <= MOST_ROWS else -(-len(cover.says) // 2)


def _face(cover: Cover) -> Typeface:
    return Typeface.OWN if cover.own_face else Typeface.TEXT


def _module_in(link: Link, room: float) -> float:
    """Return the size of a module of a code that has `room` mm with the white at one side."""
    return min(codes.MODULE, room / (link.modules + codes.QUIET))


def _high(link: Link, module: float) -> float:
    return (link.modules + codes.QUIET) * module


def _code(link: Link, alt: str, plan: _Plan, x: float, y0: float, scale: float) -> list[Item]:
    top = y0 + LEFT * scale
    base = top + (_high(link, plan.module) + ADDRESS_AIR) * scale
    return [
        codes.code_mark(link, x, top, plan.module * scale, alt),
        *codes.address_labels(plan.address, x, base, Align.LEFT, SMALL_PT * scale, codes.LINE_PITCH * scale),
    ]


def _chevron(cx: float, cy: float, s: float) -> Outline:
    """Return the sign between two steps: what comes next."""
    path = (("M", cx - 0.9 * s, cy - 1.8 * s), ("L", cx + 0.9 * s, cy), ("L", cx - 0.9 * s, cy + 1.8 * s))
    return Outline(path, None, INK, 0.9 * s)


def _key_room(cover: Cover, widths: Widths) -> float:
    """Return how far from the letters what is said stands, so that the widest has room."""
    widest = max((widths.mm(say.letter, KEY_PT, Typeface.LEARNING) for say in cover.says), default=0.0)
    return max(7.0, widest + 2.0)


def _said(say: SayLine, room: float, widths: Widths) -> str:
    """Return how a sound is said and what not to say, as much of it as one line takes."""
    parts = [say.say, *(part for part in say.avoid.split(", ") if part)]
    while len(parts) > 1 and widths.mm(", ".join(parts), SMALL_PT, Typeface.TEXT) > room:
        parts.pop()
    return ", ".join(parts)


def wrap_in(text: str, room: float, size_pt: float, face: Typeface, widths: Widths) -> list[str]:
    """Return a text in lines of at most `room` mm in a typeface, also one of the teacher's."""
    if face is Typeface.TEXT:
        return wrap(text, room, size_pt, widths)
    swapped = Widths({Typeface.TEXT: widths.glyphs[face]})
    return wrap(text, room, size_pt, swapped)
