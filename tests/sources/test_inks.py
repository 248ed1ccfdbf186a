"""The table of colours and roles."""

import pytest

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sources.inks import inks, read_inks

COLOURS = '[colours]\nink = "#000000"\nwhite = "#FFFFFF"\n'


def luminance(colour: str) -> float:
    """Relative luminance by the formula of WCAG 2.2."""
    levels = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4 for level in levels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("colour", list(inks().colours))
def test_a_grey_is_as_light_as_its_colour(colour: str) -> None:
    grey = inks().shade(colour, Ink.GREY)
    assert grey[1:3] == grey[3:5] == grey[5:7]
    # One step of 255 changes the luminance of a light grey by 0.009.
    assert luminance(grey) == pytest.approx(luminance(inks().shade(colour, Ink.COLOUR)), abs=0.005)


def test_line_ink_knows_ink_and_white() -> None:
    assert {inks().shade(colour, Ink.LINE) for colour in inks().colours} == {"#2A2A35", "#FFFFFF"}


def test_ink_stands_out_from_paper_and_from_large_areas() -> None:
    """Outlines at 3:1 or more on white and on every colour for large areas (WCAG 2.2, 1.4.11)."""
    ink = luminance(inks().colours["ink"])
    assert (1 + 0.05) / (ink + 0.05) >= 7
    for colour in ("orange", "grey", "lilac", "pink", "tan", "sky", "lime", "yellow", "skin1", "pale", "ice", "cream"):
        assert (luminance(inks().colours[colour]) + 0.05) / (ink + 0.05) >= 3


def test_roles_that_may_be_merged_have_a_brush_for_each_of_the_two_passes() -> None:
    assert {name: len(role.merged) for name, role in inks().roles.items() if role.merged} == {"a": 2, "p": 2}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "the colour ink is not well written"),
        (COLOURS + 'red = "red"', "the colour red is not well written"),
        (COLOURS + "red = 5", "the colour red is not well written"),
        (COLOURS + '[roles.a]\npaint = [{ fill = "mauve" }]', "role a: there is no colour mauve"),
        (COLOURS + '[roles.a]\npaint = [{ brush = "own" }]', "role a: its paint cannot be read"),
        (COLOURS + "[roles.a]\nwidth = 3.0", "role a: its paint cannot be read"),
        (COLOURS + '[roles.a]\nwidth = "wide"\npaint = []', "role a: wide is no width"),
        (COLOURS + '[roles.a]\npaint = []\nmerged = [{ fill = "own" }]', "role a: merged needs two brushes"),
    ],
)
def test_a_damaged_table_is_named(text: str, said: str) -> None:
    with pytest.raises(TeacherError) as caught:
        read_inks(text, "colours.toml")
    assert said in caught.value.message
    assert caught.value.message.startswith("colours.toml")
