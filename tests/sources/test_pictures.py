"""Pictures by name: only names are looked up, and a look-up is cheap the second time."""

import pytest

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sources import pictures, shelf


@pytest.mark.parametrize("ink", list(Ink))
def test_a_picture_is_found_by_its_word(ink: Ink) -> None:
    assert pictures.exists("moon")
    drawing = pictures.drawing("moon", ink)
    assert (drawing.name, drawing.box) == ("moon", 100)
    assert drawing.shapes
    assert pictures.drawing("moon", ink) is drawing


@pytest.mark.parametrize(
    "name",
    [
        "",
        "moons",
        "Moon",
        "moon.svg",
        "../pictures/moon",
        "./moon",
        "/etc/passwd",
        "moon\n",
        "moon/",
        "mo on",
        "mo..on",
        "..",
        "moon\x00",
        "ｍoon",
        "-moon",
        "..\\moon",
        "C:moon",
    ],
)
def test_what_is_no_name_of_a_picture_is_never_opened(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def opened(path: str) -> str:
        raise AssertionError(path)

    monkeypatch.setattr(shelf, "read_text", opened)
    assert not pictures.exists(name)
    with pytest.raises(TeacherError) as caught:
        pictures.drawing(name, Ink.COLOUR)
    assert "There is no picture called" in caught.value.message


def test_a_damaged_picture_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shelf, "read_text", lambda path: f"<svg>{path}")
    pictures.drawing.cache_clear()
    monkeypatch.setattr(pictures, "_parts", pictures._parts.__wrapped__)
    with pytest.raises(TeacherError) as caught:
        pictures.drawing("moon", Ink.COLOUR)
    assert caught.value.message.startswith("art/pictures/moon.svg")
    pictures.drawing.cache_clear()
