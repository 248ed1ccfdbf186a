"""Photos on paper: stored once however often they are placed, whole and unstretched, with nothing beside the pixels."""

import zlib
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
import pytest
from PIL import Image

from cardgen.paper.operators import drawing_operators, photo_operators
from cardgen.paper.pdf import write
from cardgen.paper.proof import ProofError, prove
from cardgen.sheets.marks import Document, Drawing, Group, Photo, Picture, Role, Shape
from cardgen.units import Box, mm_of_points
from tests.paper.reading import drawn, opened
from tests.paper.samples import code, drawing, fonts, one_page

RED, BLUE = (220, 20, 20), (20, 20, 220)


def photo(name: str, width: int = 40, height: int = 20, *, jpeg: bool = False, grey: bool = False) -> Photo:
    """Red, the top left quarter blue; wider than high unless told otherwise."""
    picture = Image.new("RGB", (width, height), RED)
    picture.paste(BLUE, (0, 0, width // 2, height // 2))
    picture = picture.convert("L") if grey else picture
    file = BytesIO()
    picture.save(file, "JPEG", quality=95, subsampling=0)
    data = file.getvalue() if jpeg else zlib.compress(picture.tobytes())
    return Photo(name, width, height, data, jpeg, grey)


def pictured(name: str) -> Drawing | Photo:
    made = {
        "wide": photo("wide"),
        "tall": photo("tall", 20, 40, jpeg=True),
        "grey": photo("grey", grey=True),
        "grey jpeg": photo("grey jpeg", grey=True, jpeg=True),
    }
    return made.get(name) or drawing(name)


def written(document: Document) -> bytes:
    file = BytesIO()
    write(document, pictured, code, fonts(), file)
    return file.getvalue()


def page(*names: str) -> Document:
    """Pictures of 30 mm side by side, from 10 mm on."""
    return one_page(*(Picture(name, Box(10 + 35 * i, 10, 30, 30), f"a {name}") for i, name in enumerate(names)))


def streams(pdf: pikepdf.Pdf, kind: str) -> list[pikepdf.Stream]:
    return [o for o in pdf.objects if isinstance(o, pikepdf.Stream) and o.get("/Subtype") == kind]


def test_a_photo_is_stored_once_however_often_it_is_placed() -> None:
    document = page("wide", "wide", "moon", "wide")
    document = Document("x", "en-US", document.pages * 2)
    data = written(document)
    with opened(data) as pdf:
        assert len(streams(pdf, "/Image")) == 1
        forms = streams(pdf, "/Form")
        assert len(forms) == 2
        inside = [form for form in forms if "/XObject" in form.Resources]
        assert [len(form.Resources.XObject) for form in inside] == [1]
    assert [thing.kind for thing in drawn(data)] == ["form"] * 4


@pytest.mark.parametrize(
    ("name", "filtered", "space", "size"),
    [
        ("wide", "/FlateDecode", "/DeviceRGB", (40, 20)),
        ("tall", "/DCTDecode", "/DeviceRGB", (20, 40)),
        ("grey", "/FlateDecode", "/DeviceGray", (40, 20)),
        ("grey jpeg", "/DCTDecode", "/DeviceGray", (40, 20)),
    ],
)
def test_an_image_tells_its_size_and_nothing_else(name: str, filtered: str, space: str, size: tuple[int, int]) -> None:
    known = {"/Type", "/Subtype", "/Width", "/Height", "/BitsPerComponent", "/ColorSpace", "/Filter", "/Length"}
    with opened(written(page(name))) as pdf:
        (image,) = streams(pdf, "/Image")
        assert (str(image["/Filter"]), str(image["/ColorSpace"])) == (filtered, space)
        assert (int(image["/Width"]), int(image["/Height"])) == size
        assert set(image.keys()) == known


def test_the_pixels_arrive_as_they_were() -> None:
    with opened(written(page("wide", "tall"))) as pdf:
        raw = {str(image["/Filter"]): image.read_raw_bytes() for image in streams(pdf, "/Image")}
    wide, tall = pictured("wide"), pictured("tall")
    assert isinstance(wide, Photo)
    assert isinstance(tall, Photo)
    assert raw == {"/FlateDecode": wide.data, "/DCTDecode": tall.data}


def looks(data: bytes, x: float, y: float) -> tuple[int, int, int]:
    """The colour at a place in mm from the page's top left, as PDFium renders it at 10 pixels a mm."""
    with pdfium.PdfDocument(data) as pdf:
        image = pdf[0].render(scale=10 * mm_of_points(1)).to_pil().convert("RGB")
    found = image.getpixel((round(x * 10), round(y * 10)))
    assert isinstance(found, tuple)
    return found[0], found[1], found[2]


def near(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return all(abs(a - b) <= 8 for a, b in zip(one, other, strict=True))


def test_a_photo_stands_whole_in_the_middle_of_its_square() -> None:
    data = written(page("wide", "tall"))
    white = (255, 255, 255)
    # The wide one fills its width: 30 × 15 mm, from 17.5 mm down.
    places = {(11, 18): BLUE, (24, 24): BLUE, (26, 24): RED, (39, 31): RED, (24, 17): white, (24, 33): white}
    # The tall one, one box on, fills its height: 15 × 30 mm, from 52.5 mm on.
    places |= {(53, 11): BLUE, (59, 24): BLUE, (67, 39): RED, (52, 25): white, (68, 25): white}
    for (x, y), colour in places.items():
        assert near(looks(data, x, y), colour), (x, y)


def test_operators_fit_any_photo_into_its_square() -> None:
    assert photo_operators(photo("a", 40, 20), "X1") == "40 0 0 20 0 10 cm /X1 Do"
    assert photo_operators(photo("a", 3, 4), "X1") == "3 0 0 4 0.5 0 cm /X1 Do"


def test_even_odd_shapes_keep_their_holes() -> None:
    square = (("M", 1.0, 1.0), ("L", 9.0, 1.0), ("L", 9.0, 9.0), ("Z",))
    assert drawing_operators(Drawing("a", (Shape(square, "#000000", even_odd=True),))).endswith(" f*")
    assert drawing_operators(Drawing("a", (Shape(square, "#000000", "#000000", 1, True),))).endswith(" B*")
    assert drawing_operators(Drawing("a", (Shape(square, None, "#000000", 1, True),))).endswith(" S")


def test_the_proof_counts_photos(tmp_path: Path) -> None:
    path = tmp_path / "file.pdf"
    path.write_bytes(written(page("wide", "tall", "moon")))
    prove(path, page("wide", "tall", "moon"))
    with pytest.raises(ProofError, match="3 pictures and codes instead of 4"):
        prove(path, page("wide", "tall", "moon", "grey"))


def test_same_photos_same_bytes() -> None:
    assert written(page("wide", "tall", "grey")) == written(page("wide", "tall", "grey"))


def test_a_photo_in_a_figure_keeps_its_alt_text() -> None:
    figure = Group(Role.FIGURE, (Picture("wide", Box(10, 10, 30, 30), "a moon"),), alt="a moon on a card")
    with opened(written(one_page(figure))) as pdf:
        element = pdf.Root.StructTreeRoot.K.K[0].K[0]
        assert (str(element.S), str(element.Alt)) == ("/Figure", "a moon on a card")
