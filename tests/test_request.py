import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.request import BingoRequest, Face, Grid, Paper, Show


def asked(**more: object) -> BingoRequest:
    return BingoRequest(**({"keys": ("m", "s"), "seed": 1} | more))  # type: ignore[arg-type]


@pytest.mark.parametrize(("paper", "w", "h"), [(Paper.A4, 210, 297), (Paper.LETTER, 215.9, 279.4)])
def test_paper_has_its_standard_size(paper: Paper, w: float, h: float) -> None:
    # ISO 216 A4; ANSI/ASME Y14.1 size A, 8.5 × 11 inches.
    assert (paper.size.w, paper.size.h) == (w, h)
    assert paper is Paper.A4 or (paper.size.w / 25.4, paper.size.h / 25.4) == pytest.approx((8.5, 11))


@pytest.mark.parametrize("text", ["3x3", "3X3", " 3 x 3 ", "3×3"])
def test_a_grid_is_rows_by_columns(text: str) -> None:
    assert Grid.parse(text) == Grid(3, 3)
    assert Grid.parse("2x5") == Grid(2, 5)


@given(st.text(max_size=12))
def test_anything_else_is_refused_in_one_sentence(text: str) -> None:
    try:
        grid = Grid.parse(text)
    except TeacherError as refusal:
        error = refusal
    else:
        assert 2 <= grid.rows <= 5
        assert 2 <= grid.columns <= 5
        return
    assert error.hint


@pytest.mark.parametrize("text", ["1x9", "9x9", "6x5", "3", "", "x", "0x0", "3x3x3", "-3x3", "99999x2"])
def test_grids_that_cannot_be(text: str) -> None:
    with pytest.raises(TeacherError):
        Grid.parse(text)


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ({"keys": ()}, "No sound"),
        ({"keys": ("m", "m")}, "named twice"),
        ({"review": ("s",)}, "named twice"),
        ({"seed": -1}, "out of range"),
        ({"boards": 0}, "0 boards"),
        ({"boards": 100_000}, "100000 boards"),
        ({"free": True, "grid": Grid(4, 4)}, "no middle cell"),
        ({"free": True, "grid": Grid(2, 3)}, "no middle cell"),
        ({"winners": 0}, "0 winners"),
        ({"winners": 25}, "25 winners"),
        ({"first_win": (0, 4)}, "first win"),
        ({"first_win": (7, 4)}, "first win"),
        ({"together": 0}, "--together"),
        ({"together": 3, "winners": 1}, "cannot be combined"),
        ({"show": (Show(Face.PICTURE, 12), Show(Face.PICTURE, 12))}, "twice"),
        ({"show": (Show(Face.PICTURE, 12), Show(Face.CAPITAL, 12))}, "cannot share"),
        ({"show": (Show(Face.LETTERS, 12), Show(Face.CAPITAL, 12))}, "already mixes"),
        ({"show": (Show(Face.PICTURE, 12), Show(Face.WORD))}, "needs a number"),
        ({"show": (Show(Face.PICTURE, 12), Show(Face.WORD, 11))}, "add up to 23"),
    ],
)
def test_what_cannot_be_is_said_with_a_remedy(more: dict[str, object], message: str) -> None:
    with pytest.raises(TeacherError, match=message) as caught:
        asked(**more)
    assert caught.value.hint


def test_older_sounds_follow_the_lesson_s() -> None:
    assert asked(review=("t", "p")).all_keys == ("m", "s", "t", "p")
