"""Square codes on paper: how large they are, and the address beside them for those without a camera. All in mm."""

import re
from collections.abc import Sequence

from cardgen.games.pieces import Link
from cardgen.sheets.marks import Align, Code, Label
from cardgen.sheets.style import SMALL_PT, TEXT
from cardgen.units import Box, Typeface, Widths

QUIET = 4  # modules of white round a code (ISO/IEC 18004)
MODULE, SIDE = 0.8, 26.0  # a code is at most so wide where it stands alone on a card
LINE_PITCH = 4.0
MOST_LINES = 2
_BREAKS = re.compile(r"(?<=[/._?&=-])")


def module_in(link: Link, side: float = SIDE, widest: float = MODULE) -> float:
    """Return the size of one module of a code that is at most `side` mm wide without its quiet zone."""
    return min(widest, side / link.modules)


def code_mark(link: Link, x: float, y: float, module: float, alt: str) -> Code:
    """Return the code of an address, its upper left module at (x, y), `module` mm a module."""
    side = module * link.modules
    return Code(link.address, Box(x, y, side, side), alt)


def quiet_box(box: Box, modules: int) -> Box:
    """Return a code's box with its quiet zone, which nothing else may enter."""
    quiet = QUIET * box.w / modules
    return Box(box.x - quiet, box.y - quiet, box.w + 2 * quiet, box.h + 2 * quiet)


def address_lines(shown: str, room: float, widths: Widths, size_pt: float = SMALL_PT) -> list[str]:
    """Return an address in at most two lines of `room` mm, broken after its signs.

    Where that does not do, the folders between its site and its last name become an ellipsis.
    """
    lines = _broken(shown, room, widths, size_pt)
    if len(lines) == 1:
        return lines
    folder, slash, last = shown.rpartition("/")
    in_two = [folder + slash, last]
    if last and all(widths.mm(line, size_pt, Typeface.TEXT) <= room for line in in_two):
        return in_two
    if len(lines) <= MOST_LINES:
        return lines
    site, _, _ = shown.partition("/")
    return [_cut(f"{site}/…/", room, widths, size_pt), _cut(last, room, widths, size_pt)]


def one_line(shown: str, room: float, widths: Widths, size_pt: float = SMALL_PT) -> str:
    """Return an address in one line of `room` mm; where it is longer, its middle becomes an ellipsis."""
    if widths.mm(shown, size_pt, Typeface.TEXT) <= room:
        return shown
    site, last = shown.partition("/")[0], shown.rpartition("/")[2]
    return _cut(f"{site}/…/{last}", room, widths, size_pt)


def _broken(text: str, room: float, widths: Widths, size_pt: float) -> list[str]:
    lines = [""]
    for part in _BREAKS.split(text):
        if lines[-1] and widths.mm(lines[-1] + part, size_pt, Typeface.TEXT) > room:
            lines.append("")
        lines[-1] += part
        if widths.mm(lines[-1], size_pt, Typeface.TEXT) > room:
            return [text] * (MOST_LINES + 1)
    return lines


def _cut(text: str, room: float, widths: Widths, size_pt: float) -> str:
    """Return a text as far as it fits, an ellipsis at its end where it does not."""
    if widths.mm(text, size_pt, Typeface.TEXT) <= room:
        return text
    while text and widths.mm(f"{text}…", size_pt, Typeface.TEXT) > room:
        text = text[:-1]
    return f"{text}…"


def address_labels(
    lines: Sequence[str], x: float, y: float, align: Align, size_pt: float = SMALL_PT, pitch: float = LINE_PITCH
) -> list[Label]:
    """Return the lines of an address, the first on the baseline `y`."""
    return [Label(x, y + pitch * i, line, size_pt, Typeface.TEXT, TEXT, align) for i, line in enumerate(lines)]
