"""The letterforms as strokes: what the file's little language means, and what every letter must keep to."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.sheets.marks import Path
from cardgen.sources.letterforms import Letterforms, letterforms, read_letterforms

LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
SIGNS = ".,:;…·!?¡¿'\"‘’“”()-–—/+×=&%€"
ACCENTED = "áéíóúàèìòùâêîôûäëïöüãñõçÁÉÍÓÚÀÈÌÒÙÂÊÎÔÛÄËÏÖÜÃÑÕÇ"

HEAD = """
[metrics]
ascender = 760
xheight = 500
descender = -260
pen = 86
dot = 1.4
[spacing]
small = 96
tall = 104
least_small = 30
least_tall = 46
depth = 150
other = 60
space = 330
"""


def read(glyphs: str, *, lift: bool = False) -> Letterforms:
    return read_letterforms(f"{HEAD}[glyphs]\n{glyphs}", "mine.toml", lift=lift)


def points(stroke: Path, steps: int = 40) -> list[tuple[float, float]]:
    """Points along a stroke, by de Casteljau's construction: not the formula of the program."""
    found: list[tuple[float, float]] = []
    at = (0.0, 0.0)
    for _, *numbers in stroke:
        corners = [at, *zip(numbers[::2], numbers[1::2], strict=True)] if found else [(numbers[0], numbers[1])]
        for step in range(1, steps + 1):
            t, row = step / steps, corners
            while len(row) > 1:
                row = [(a + (c - a) * t, b + (d - b) * t) for (a, b), (c, d) in pairwise(row)]
            found.append(row[0])
        at = found[-1]
    return found


def test_every_letter_that_the_sheets_need_is_there() -> None:
    assert set(letterforms().strokes) >= set(LETTERS + SIGNS + ACCENTED)


@pytest.mark.parametrize("lift", [False, True])
@pytest.mark.parametrize("letter", LETTERS)
def test_letters_keep_between_the_guides_and_off_their_stems(letter: str, lift: bool) -> None:
    forms = letterforms(lift=lift)
    metrics = forms.metrics
    strokes = forms.strokes[letter]
    everywhere = [point for stroke in strokes for point in points(stroke)]
    assert min(y for _, y in everywhere) >= metrics.descender - 0.5
    assert max(y for _, y in everywhere) <= metrics.ascender + 0.5
    xs = [x for x, _ in everywhere]
    for stroke in strokes:
        for (_, *start), (command, *end) in pairwise(stroke):
            if command == "L" and start[-2] == end[0] and abs(start[-1] - end[1]) > 200:
                stem = end[0]
                # A bowl that swings past its own stem by a hair makes a bump on the stem.
                assert not 0.05 < stem - min(xs) < 6
                assert not 0.05 < max(xs) - stem < 6


def test_strokes_begin_with_the_pen_set_down_and_go_on_without_a_jump() -> None:
    for strokes in letterforms().strokes.values():
        for stroke in strokes:
            commands = "".join(segment[0] for segment in stroke)
            assert commands == "D" or (commands[0] == "M" and set(commands[1:]) <= set("LC") and len(commands) > 1)


def test_a_school_that_lifts_the_pen_writes_b_in_two_strokes() -> None:
    assert [len(letterforms(lift=lift).strokes["b"]) for lift in (False, True)] == [1, 2]
    down, bowl = letterforms(lift=True).strokes["b"]
    assert down == (("M", 0.0, 760.0), ("L", 0.0, 0.0))
    assert bowl[0] == ("M", 0.0, 381.0)


def test_lifting_the_pen_changes_no_letter_but_for_the_way_back() -> None:
    for letter in LETTERS:
        plain = {segment for stroke in letterforms().strokes[letter] for segment in stroke if segment[0] == "C"}
        lifted = {
            segment for stroke in letterforms(lift=True).strokes[letter] for segment in stroke if segment[0] == "C"
        }
        assert plain == lifted


@given(
    rx=st.integers(20, 400),
    ry=st.integers(20, 400),
    start=st.integers(-360, 360),
    sweep=st.integers(-400, 400).filter(lambda sweep: abs(sweep) > 5),
)
def test_arcs_lie_on_their_ellipse_and_run_from_angle_to_angle(rx: int, ry: int, start: int, sweep: int) -> None:
    (stroke,) = read(f'o = ["A 10,20 {rx},{ry} {start} {start + sweep}"]').strokes["o"]
    way = points(stroke)
    for x, y in way:
        assert math.hypot((x - 10) / rx, (y - 20) / ry) == pytest.approx(1, abs=1e-4)
    for (x, y), angle in ((way[0], start), (way[-1], start + sweep)):
        assert x == pytest.approx(10 + rx * math.cos(math.radians(angle)))
        assert y == pytest.approx(20 + ry * math.sin(math.radians(angle)))
    turned = sum(
        math.remainder(math.atan2((d - 20) / ry, (c - 10) / rx) - math.atan2((b - 20) / ry, (a - 10) / rx), 2 * math.pi)
        for (a, b), (c, d) in pairwise(way)
    )
    assert math.degrees(turned) == pytest.approx(sweep, abs=0.01)


def test_a_line_leads_to_an_arc_that_starts_elsewhere_but_no_hair_of_a_line_to_one_close_by() -> None:
    (far,), (near,) = (read(f'n = ["M 0,0 A {x},0 50,50 180 90"]').strokes["n"] for x in (150, 52))
    assert [segment[0] for segment in far] == ["M", "L", "C", "C"]
    assert [segment[0] for segment in near] == ["M", "C", "C"]


def test_an_accent_stands_over_the_middle_of_its_letter() -> None:
    forms = read(
        'a = ["M 0,500 L 0,0 L 200,0"]\nA = ["M 0,0 L 100,760 L 200,0"]\n[marks.ring]\nletters = "áÁ"\n'
        'strokes = ["D 0,100"]'
    )
    assert forms.strokes["á"][-1] == (("D", 0.0, 600.0),)
    assert forms.strokes["Á"][-1] == (("D", 100.0, 860.0),)
    assert forms.bases == {"á": "a", "Á": "A"}


def test_an_accent_takes_the_place_of_the_dot() -> None:
    forms = letterforms()
    assert forms.bases["í"] == "ı"
    assert all(stroke[0][0] != "D" for stroke in forms.strokes["í"])


@pytest.mark.parametrize(
    ("glyphs", "said"),
    [
        ('a = ["M 0,0 X 5"]', 'mine.toml, letter "a", stroke "M 0,0 X 5": does not know the command X.'),
        ('a = ["M 0,0 L 5"]', 'mine.toml, letter "a", stroke "M 0,0 L 5": L takes 2 numbers, not 1.'),
        ('a = ["M 0,0 L 5,1e"]', "does not know the command e"),
        ('a = ["M 0,0 L 5,1.2.3"]', '"5,1.2.3" are not numbers'),
        ('a = ["L 0,0 L 5,5"]', "must begin with M, A or D"),
        ('a = ["C 0,0 5,5 6,6"]', "must begin with M, A or D"),
        ('a = ["M 0,0 L 1,1 M 5,5"]', "M must come first"),
        ('a = ["12 M 0,0"]', 'cannot be read from "12 M 0,0" on'),
        ('a = [""]', "has nothing to draw"),
        ("a = []", "the strokes are missing"),
        ('a = "M 0,0"', "the strokes are missing"),
        ('ab = ["M 0,0 L 5,5"]', '"ab" is not one letter'),
        ('a = ["M 0,0 L 5,5"]\n[marks.acute]\nletters = "é"\nstrokes = ["D 0,9"]', '"é" needs the letter "e"'),
        ('a = ["M 0,0 L 5,5"]\n[marks.acute]\nletters = "á"', 'mark "acute": the strokes are missing'),
        ("a = [", "mine.toml cannot be read"),
    ],
)
def test_a_damaged_file_is_named_with_the_letter_and_the_stroke(glyphs: str, said: str) -> None:
    with pytest.raises(TeacherError) as caught:
        read(glyphs)
    assert said in caught.value.message
    assert caught.value.message.startswith("mine.toml")
    assert caught.value.hint


def test_missing_tables_and_measures_are_named() -> None:
    for text, said in (
        ("", "no table [metrics]"),
        (HEAD.replace("pen = 86", ""), "[metrics] has no number for pen"),
        (HEAD.replace("depth = 150", 'depth = "deep"'), "[spacing] has no number for depth"),
        (HEAD, "no table [glyphs]"),
    ):
        with pytest.raises(TeacherError) as caught:
            read_letterforms(text, "mine.toml")
        assert said in caught.value.message
