import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.pack_text import family_text
from cardgen.units import Glyph, Typeface, Widths

LATIN = dict.fromkeys(map(chr, [*range(32, 127), *range(0xA0, 0x180)]), Glyph(0.5, 0.05, 0.45))
WIDTHS = Widths(dict.fromkeys(Typeface, LATIN))


def test_the_text_is_set_in_one_line_with_whole_letters() -> None:
    assert family_text(" Cafe\u0301,\n\tplaît ", Typeface.TEXT, WIDTHS) == "Café, plaît"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("שלום", "from right to left"),
        ("مرحبا", "from right to left"),
        ("नमस्ते", "joins"),
        ("สวัสดี", "joins"),
        ("a\u202eb", "U\\+202E"),
    ],
)
def test_scripts_that_cannot_be_set_letter_by_letter_are_refused(text: str, why: str) -> None:
    with pytest.raises(TeacherError, match=why) as caught:
        family_text(text, Typeface.OWN, WIDTHS)
    assert "--family" in caught.value.hint


def test_letters_that_are_missing_are_named_once() -> None:
    with pytest.raises(TeacherError) as caught:
        family_text("Дідо a", Typeface.TEXT, WIDTHS)
    assert caught.value.message.endswith(": Д і д о")
    assert "--font FILE.ttf" in caught.value.hint


@given(st.text(max_size=30))
def test_whatever_comes_back_can_be_set(text: str) -> None:
    try:
        told = family_text(text, Typeface.TEXT, WIDTHS)
    except TeacherError as refusal:
        error = refusal
    else:
        assert set(told) <= set(LATIN)
        return
    assert error.hint
