"""A teacher's own pictures in three inks, and what is said of them."""

from pathlib import Path

import pytest
from PIL import Image

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Photo
from cardgen.sources import pictures, shelf
from cardgen.sources.own_pictures import OwnPictures, open_own
from cardgen.sources.own_report import FileLine, State, look_out, report
from tests.sources.own_samples import SVG, bomb, corner, folder, known, noise, saved

PHOTO = saved(noise(600, 400), "JPEG")
PLAIN = SVG.format('<rect x="10" y="10" width="80" height="80" fill="#FF0000" stroke="black"/>')
BLACK = SVG.format('<path d="M10 10H90" stroke="black" fill="white"/>')


def own(path: Path, **files: bytes | str) -> OwnPictures:
    return open_own(str(folder(path / "own", **files)), known())


def test_a_picture_is_found_by_its_word_however_it_is_written(tmp_path: Path) -> None:
    hers = own(tmp_path, moon_png=PHOTO)
    assert hers.file("moon") is hers.file("Moon")
    assert hers.file("moon") is not None
    assert hers.file("sun") is None
    (hers.folder.path / "Ice Cream.JPG").write_bytes(PHOTO)
    again = open_own(str(hers.folder.path), known())
    assert again.file("ice cream") == again.file("ice-cream") is not None


@pytest.mark.parametrize("ink", list(Ink))
def test_photos_are_coloured_or_grey(tmp_path: Path, ink: Ink) -> None:
    photo = own(tmp_path, moon_jpg=PHOTO).drawing("moon", ink)
    assert isinstance(photo, Photo)
    assert (photo.name, photo.grey) == ("moon", ink is not Ink.COLOUR)


def test_plain_svg_is_coloured_or_grey(tmp_path: Path) -> None:
    hers = own(tmp_path, moon_svg=PLAIN)
    shades = {ink: hers.drawing("moon", ink) for ink in Ink}
    assert all(isinstance(drawing, Drawing) and drawing.box == 100 for drawing in shades.values())
    fills = {ink: drawing.shapes[0].fill for ink, drawing in shades.items() if isinstance(drawing, Drawing)}
    # The grey of pure red's luminance (IEC 61966-2-1): 0.2126, as sRGB 127.
    assert fills == {Ink.COLOUR: "#FF0000", Ink.GREY: "#7F7F7F", Ink.LINE: "#7F7F7F"}


def test_a_picture_drawn_in_roles_has_all_inks(tmp_path: Path) -> None:
    hers = own(tmp_path, moon_svg=shelf.read_text("art/pictures/mop.svg"))
    for ink in Ink:
        drawing, ours = hers.drawing("moon", ink), pictures.drawing("mop", ink)
        assert isinstance(drawing, Drawing)
        assert (drawing.name, drawing.shapes) == ("moon", ours.shapes)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("moon_png", "hello", "moon.png is not a picture"),
        ("moon_jpg", PHOTO[:5000], "moon.jpg is damaged"),
        ("moon_png", bomb(20000, 20000), "moon.png is too large"),
        ("moon_heic", PHOTO, "moon.heic is of a kind that cannot be read, HEIC"),
        ("moon_svg", PHOTO, "moon.svg is not UTF-8"),
        ("moon_svg", "hello", "moon.svg is not a well-formed SVG"),
        ("moon_svg", SVG.format("<script/>"), "moon.svg holds a program"),
        ("moon_svg", SVG.format(f"<path d='{'M0 0' * 2_600_000}'/>"), "moon.svg is longer than 512 kB"),
        ("moon_svg", SVG.format('<path class="z" d="M0 0"/>'), "moon.svg, element 1 <svg>"),
    ],
)
def test_what_cannot_be_read_is_named(tmp_path: Path, name: str, data: bytes | str, said: str) -> None:
    hers = own(tmp_path, **{name: data})
    with pytest.raises(TeacherError) as caught:
        hers.drawing("moon", Ink.COLOUR)
    assert caught.value.message.startswith(said)
    assert caught.value.hint
    (line,) = report(hers)
    assert line.state is State.UNREADABLE
    assert line.state.is_wrong
    assert caught.value.message in line.text


def lines(hers: OwnPictures, key: str | None = None) -> dict[str, FileLine]:
    return {line.file: line for line in report(hers, key)}


WORDS = """
[[word]]
word = "zorp"
keys = "m"
phones = "Z AO1 R P"

[[word]]
word = "mum"
also = "lady"

[[word]]
word = "samosa"
"""


def test_every_file_has_its_line(tmp_path: Path) -> None:
    hers = own(
        tmp_path,
        moon_jpg=PHOTO,
        milk_png=saved(corner(120, 80)),
        mop_svg=PLAIN,
        mango_png=PHOTO,
        truck_png=PHOTO,
        mum_png=PHOTO,
        giraffe_png=PHOTO,
        unicorn_png=PHOTO,
        gnome_png=PHOTO,
        glorx_png=PHOTO,
        zorp_png=PHOTO,
        IMG1_png=PHOTO,
        sun_png=PHOTO,
        words_toml=WORDS,
    )
    (hers.folder.path / "Sun.jpg").write_bytes(PHOTO)
    found = lines(open_own(str(hers.folder.path), known()))
    told = {name: (line.key, line.state) for name, line in found.items()}
    assert told == {
        "moon.jpg": ("m", State.FINE),
        "milk.png": ("m", State.SMALL),
        "mop.svg": ("m", State.FINE),
        "mango.png": ("m", State.FINE),
        "truck.png": ("t", State.CAUTION),
        "mum.png": ("m", State.CAUTION),  # her own other name begins with l
        "giraffe.png": ("g", State.OTHER_SOUND),
        "unicorn.png": ("u", State.OTHER_SOUND),
        "gnome.png": ("g", State.OTHER_SOUND),
        "glorx.png": (None, State.UNKNOWN),
        "zorp.png": ("m", State.OTHER_SOUND),  # whatever she wrote: it does not begin with m
        "IMG1.png": (None, State.NAMELESS),
        "sun.png": (None, State.TWICE),
        "Sun.jpg": (None, State.TWICE),
        "words.toml": ("s", State.NO_PICTURE),
    }
    assert "sharp up to 10 mm" in found["milk.png"].text  # 120 dots at 300 an inch
    assert found["milk.png"].sharp_mm == 10
    assert found["mop.svg"].size_px is None
    assert 'word = "glorx" | keys = "g" | phones = ' in found["glorx.png"].text
    assert 'keys = "long-u"' in found["unicorn.png"].text
    assert "keys" not in found["giraffe.png"].text  # it is no word for j either: the letter is g
    assert "Sun.jpg and sun.png" in found["sun.png"].text
    assert "lady" in found["mum.png"].text


def test_lines_can_be_those_of_one_sound(tmp_path: Path) -> None:
    hers = own(tmp_path, moon_png=PHOTO, fox_png=PHOTO, cake_png=PHOTO, kite_png=PHOTO, glorx_png=PHOTO, IMG1_png=PHOTO)
    assert set(lines(hers, "m")) == {"moon.png", "IMG1.png"}
    assert lines(hers, "k")["kite.png"].state is State.FINE
    assert lines(hers, "x")["fox.png"].key == "x"
    assert lines(hers, "g")["glorx.png"].state is State.UNKNOWN
    with pytest.raises(TeacherError, match="There is no sound"):
        list(report(hers, "mm"))


def heard(hers: OwnPictures, ink: Ink, *names: str, keys: tuple[str, ...] = ("m", "s")) -> list[str]:
    return list(look_out(hers, {name: hers.drawing(name, ink) for name in names}, keys, ink))


def test_printing_tells_what_to_look_out_for(tmp_path: Path) -> None:
    hers = own(
        tmp_path,
        moon_jpg=PHOTO,
        milk_png=saved(corner(120, 80)),
        mop_svg=BLACK,
        map_svg=PLAIN,
        sun_png=PHOTO[:5000],
        soap_png="hello",
        gnome_png=PHOTO,
        mnemonic_png=PHOTO,
        IMG1_png=PHOTO,
        IMG2_png=PHOTO,
    )
    assert heard(hers, Ink.COLOUR, "moon", "milk", "mop", "map") == [
        "milk.png is too small. It is 120 pixels long: sharp up to 10 mm (300 dpi).",
        "mnemonic.png is left out (another sound). The m of mnemonic is silent.",
        (
            "soap.png is not a picture: there is no PNG, JPEG or WebP in it. It is left out. "
            "Open it in a picture program and save it as PNG or JPEG."
        ),
        "IMG1.png and 1 more files are named after no word and left out.",
    ]
    in_lines = heard(hers, Ink.LINE, "moon", "mop", "map")
    assert (
        "Your own pictures have no version in lines and are printed in greys: moon, map; --ink colour shows them."
        in in_lines
    )
    assert any(text.startswith("gnome.png") for text in heard(hers, Ink.COLOUR, keys=("g",)))


def test_what_is_fine_needs_no_words(tmp_path: Path) -> None:
    hers = own(tmp_path, moon_jpg=PHOTO, mango_png=PHOTO, giraffe_png=PHOTO)
    assert heard(hers, Ink.COLOUR, "moon") == []
    assert heard(hers, Ink.GREY, "moon") == []


def test_a_photo_twice_read_is_the_same(tmp_path: Path) -> None:
    hers = own(tmp_path, moon_png=saved(Image.new("RGBA", (50, 50), (9, 9, 9, 99))), sun_jpg=PHOTO)
    for name in ("moon", "sun"):
        assert hers.drawing(name, Ink.COLOUR) == hers.drawing(name, Ink.COLOUR)
