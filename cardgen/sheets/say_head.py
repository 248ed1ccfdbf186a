"""The say-it head of a teacher's sheet: how each sound of the game is said. Lengths in mm."""

from cardgen.games.pieces import SayLine
from cardgen.sheets.marks import Item, Label
from cardgen.sheets.style import HEAD_PT, INK, RUNNING_PT, TEXT
from cardgen.units import Typeface

PITCH = 6.2
LETTER_PT = 15.0
# From the left: the sound, held or short, the mouth. The widest letters ("ear") end 9.2 mm from the left.
SAY_AT, HELD_AT, MOUTH_AT = 11.0, 25.0, 37.0
MOST_FULL = 6


def say_head(says: tuple[SayLine, ...], x: float, y: float, width: float) -> tuple[list[Item], float]:
    """Return the lines, the first on baseline `y`, and the baseline after the last.

    Up to six sounds have a line each, with the mouth and what not to say; more stand side by side, without.
    """
    drawn: list[Item] = []
    if len(says) <= MOST_FULL:
        for index, say in enumerate(says):
            base = y + index * PITCH
            drawn += _sound(say, x, base)
            hint = "; ".join(part for part in (say.mouth, say.avoid) if part)
            drawn.append(Label(x + MOUTH_AT, base, hint, RUNNING_PT, Typeface.TEXT, INK))
        return drawn, y + len(says) * PITCH
    columns = 4
    rows = -(-len(says) // columns)
    for index, say in enumerate(says):
        column, row = divmod(index, rows)
        drawn += _sound(say, x + column * width / columns, y + row * PITCH)
    return drawn, y + rows * PITCH


def _sound(say: SayLine, x: float, base: float) -> list[Item]:
    held = "held" if say.held else "short"
    return [
        Label(x, base, say.letter, LETTER_PT, Typeface.LEARNING, INK),
        Label(x + SAY_AT, base, say.say, HEAD_PT, Typeface.BOLD, INK),
        Label(x + HELD_AT, base, held, RUNNING_PT, Typeface.TEXT, TEXT),
    ]
