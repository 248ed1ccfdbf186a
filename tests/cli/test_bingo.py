import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.cli.bingo import shows, span
from cardgen.cli.common import names
from cardgen.errors import TeacherError
from cardgen.request import Face, Show


def test_show_takes_one_kind_or_several_with_numbers() -> None:
    assert shows(None) == ()
    assert shows("capital") == (Show(Face.CAPITAL),)
    mixed = (Show(Face.PICTURE, 19), Show(Face.PICTURE_WORD, 2), Show(Face.WORD, 3))
    assert shows("picture:19,picture-word:2,word:3") == mixed
    assert shows("mixed: picture:19, picture-word:2, word:3") == mixed


@pytest.mark.parametrize("text", ["photo", "", "picture:", "picture:x", "picture:-3", "picture:3,", "picture:99999"])
def test_show_refuses_the_rest(text: str) -> None:
    if text == "picture:":
        assert shows(text) == (Show(Face.PICTURE),)
        return
    with pytest.raises(TeacherError) as caught:
        shows(text)
    assert caught.value.hint


@given(st.text(max_size=20))
def test_no_text_breaks_the_readers(text: str) -> None:
    for reader in (shows, span):
        try:
            reader(text)
        except TeacherError as refusal:
            error = refusal
        else:
            continue
        assert error.message


def test_first_win_is_a_span_of_calls() -> None:
    assert span("5-8") == (5, 8)
    assert span(" 5 – 8 ") == (5, 8)
    assert span("6") == (6, 6)
    assert span(None) is None
    with pytest.raises(TeacherError, match="not a span"):
        span("soon")


def test_lists_are_repeated_or_comma_separated() -> None:
    assert names(("t,p", "n", " b ")) == ("t", "p", "n", "b")
    assert names(("",)) == ()
