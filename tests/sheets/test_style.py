from hypothesis import given
from hypothesis import strategies as st

from cardgen.games.pieces import Ink
from cardgen.sheets.style import INK, LINE, TEXT, Style, widest_word_em, word_size_pt, wrap
from cardgen.units import Glyph, Typeface, Widths, points_of_mm

LETTERS = "abcdefghij "
EVEN = Widths({face: {letter: Glyph(0.5, 0.05, 0.45) for letter in LETTERS} for face in Typeface})


def contrast_on_white(colour: str) -> float:
    """WCAG 2.2, relative luminance and contrast ratio, written from the formula."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 1.05 / (0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2] + 0.05)


def test_the_formula_gives_the_published_ratios() -> None:
    # WCAG 2.2 formula, ratios as commonly published for these greys.
    assert round(contrast_on_white("#595959"), 3) == 7.005
    assert round(contrast_on_white("#767676"), 3) == 4.542


def test_text_has_seven_to_one_and_lines_three_to_one() -> None:
    assert contrast_on_white(INK) >= 7
    assert contrast_on_white(TEXT) >= 7
    assert contrast_on_white(LINE) >= 3
    for ink in Ink:
        style = Style.of(ink)
        assert contrast_on_white(style.line) >= 3
        assert contrast_on_white(style.scissors) >= 3


@given(st.text(LETTERS, max_size=120), st.floats(25, 200))
def test_wrapped_lines_keep_every_word_and_the_width(text: str, width: float) -> None:
    lines = wrap(text, width, 10, EVEN)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(EVEN.mm(line, 10, Typeface.TEXT) <= width for line in lines)
    # Only a word that is wider than a line is broken.
    words = [word for word in text.split() if EVEN.mm(word, 10, Typeface.TEXT) <= width]
    whole = " ".join(lines).split()
    assert all(whole.count(word) >= words.count(word) for word in words)


@given(st.lists(st.text("abcdefghij", min_size=1, max_size=12), min_size=1), st.floats(15, 60))
def test_one_size_fits_every_word(words: list[str], room: float) -> None:
    size = word_size_pt(words, room, 28.0, EVEN)
    assert size * 2 == int(size * 2)
    assert all(EVEN.mm(word, size, Typeface.LEARNING) <= room + 1e-9 for word in words)


def test_the_widest_word_just_fits_at_the_least_size() -> None:
    assert abs(widest_word_em(35.0) - points_of_mm(35.0) / 20.5) < 1e-12
    # A cell of 40 mm with 5 mm of air takes 4.8 em: "umbrella" as this typeface sets it.
    assert 4.8 < widest_word_em(35.0) < 4.9


def test_a_word_wider_than_the_line_is_broken_and_nothing_is_lost() -> None:
    link = "a" * 40
    lines = wrap(f"bad {link} egg", 20.0, 9.0, EVEN)
    assert "".join("".join(lines).split()) == f"bad{link}egg"
    assert all(EVEN.mm(line, 9.0, Typeface.TEXT) <= 20.0 for line in lines)
