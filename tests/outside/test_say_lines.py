"""Every sound's say-it line fits where the sheets set it, measured with the typefaces that are printed."""

import pytest

from cardgen.paper.fonts import measure
from cardgen.sheets.say_head import HELD_AT, LETTER_PT, MOUTH_AT, SAY_AT
from cardgen.sheets.style import HEAD_PT, RUNNING_PT, TABLE_PT
from cardgen.sources.bank_file import read_sounds
from cardgen.sources.shelf import read_bytes
from cardgen.units import Typeface
from cardgen.words.sounds import Sound

WIDTHS = measure(read_bytes("art/letters/CardgenInfant-Regular.ttf"))


@pytest.mark.parametrize("sound", read_sounds().sounds, ids=lambda sound: sound.key)
def test_a_say_it_line_runs_into_nothing(sound: Sound) -> None:
    # The say-it head: the letter, the sound in bold, held or short, the mouth; 180 mm on A4.
    assert WIDTHS.mm(sound.letter, LETTER_PT, Typeface.LEARNING) <= SAY_AT - 1
    assert WIDTHS.mm(sound.say, HEAD_PT, Typeface.BOLD) <= HELD_AT - SAY_AT - 1
    hint = "; ".join([sound.mouth, *(f"not {wrong}" for wrong in sound.avoid)])
    assert WIDTHS.mm(hint, RUNNING_PT, Typeface.TEXT) <= 180 - MOUTH_AT
    # The caller's list: the first sound from 86 to 114 mm.
    assert WIDTHS.mm(f"{sound.say}, short", TABLE_PT, Typeface.TEXT) <= 28
