"""Pictures of pixels: what is printed of them, and what is refused before or while it is decoded."""

import subprocess
import sys
import zlib
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from cardgen.errors import TeacherError
from cardgen.sheets.marks import Photo
from cardgen.sources.photos import LEAST_PX, MOST_PX, measure, read_photo, sharp_mm
from tests.sources.own_samples import BLUE, RED, bomb, corner, noise, saved


def read(data: bytes, *, grey: bool = False) -> Photo:
    return read_photo(BytesIO(data), "moon.png", "moon", grey=grey)


def pixels(photo: Photo) -> Image.Image:
    """What a reader of PDF makes of the data."""
    if photo.jpeg:
        return Image.open(BytesIO(photo.data))
    rows = zlib.decompress(photo.data)
    return Image.frombytes("L" if photo.grey else "RGB", (photo.width_px, photo.height_px), rows)


def near(one: object, other: tuple[int, ...]) -> bool:
    assert isinstance(one, tuple)
    return all(abs(a - b) <= 6 for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
def test_a_picture_of_every_kind_is_read(kind: str) -> None:
    photo = read(saved(corner(400, 300), kind, quality=95))
    assert (photo.name, photo.width_px, photo.height_px, photo.grey) == ("moon", 400, 300, False)
    image = pixels(photo)
    assert image.size == (400, 300)
    assert near(image.getpixel((20, 20)), BLUE)
    assert near(image.getpixel((380, 280)), RED)


@pytest.mark.parametrize(
    ("size", "printed"),
    [
        ((2000, 1500), (1063, 797)),  # 90 mm at 300 dpi are 1063 pixels
        ((1500, 3000), (532, 1063)),
        ((1063, 10), (1063, 10)),
        ((1064, 1064), (1063, 1063)),
        ((8, 5), (8, 5)),  # never enlarged
        ((4000, 1), (1063, 1)),
    ],
)
def test_it_is_scaled_to_what_print_needs_and_never_stretched(size: tuple[int, int], printed: tuple[int, int]) -> None:
    assert MOST_PX == 1063
    for kind in ("PNG", "JPEG"):
        photo = read(saved(corner(*size), kind))
        assert abs(photo.width_px - printed[0]) <= 1
        assert abs(photo.height_px - printed[1]) <= 1


# Where the red and the blue end of the picture come to lie (Exif 2.32, 4.6.4 A, Orientation): first row, first column.
TURNS = {1: (0, 0), 2: (1, 0), 3: (1, 1), 4: (0, 1), 5: (0, 0), 6: (1, 0), 7: (1, 1), 8: (0, 1)}


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP", "P"])
def test_it_stands_as_the_camera_meant(turn: int, kind: str) -> None:
    exif = Image.Exif()
    exif[0x0112] = turn
    source = corner(400, 200).quantize(8) if kind == "P" else corner(400, 200)
    photo = read(saved(source, "PNG" if kind == "P" else kind, exif=exif, quality=95))
    wide = (photo.width_px, photo.height_px) == (400, 200)
    assert wide == (turn <= 4)
    right, low = TURNS[turn]
    place = (photo.width_px - 9 if right else 8, photo.height_px - 9 if low else 8)
    image = pixels(photo)
    assert near(image.getpixel(place), BLUE)
    assert near(image.getpixel((photo.width_px - 1 - place[0], photo.height_px - 1 - place[1])), RED)


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
@pytest.mark.parametrize("note", [b"garbage", b"Exif\0\0garbage", b"Exif\0\0II*\0\xff\xff\xff\x7f"])
def test_a_damaged_note_of_the_camera_does_no_harm(kind: str, note: bytes) -> None:
    photo = read(saved(corner(400, 200), kind, exif=note))
    assert (photo.width_px, photo.height_px) == (400, 200)


@pytest.mark.parametrize(
    ("picture", "seen"),
    [
        (Image.new("RGBA", (400, 400), (200, 0, 0, 0)), (255, 255, 255)),
        (Image.new("RGBA", (400, 400), (200, 0, 0, 128)), (227, 127, 127)),
        (Image.new("RGB", (400, 400), (200, 0, 0)), (200, 0, 0)),
        (Image.new("CMYK", (400, 400), (0, 255, 255, 0)), (255, 0, 0)),
        (Image.new("1", (400, 400), 1), (255,)),
        (Image.new("L", (400, 400), 100), (100,)),
        (Image.new("LA", (400, 400), (0, 0)), (255,)),
        (Image.new("I;16", (400, 400), 100 * 256 + 255), (100,)),
    ],
    ids=lambda value: value.mode if isinstance(value, Image.Image) else "",
)
def test_whatever_its_mode_it_is_seen_as_on_white_paper(picture: Image.Image, seen: tuple[int, ...]) -> None:
    photo = read(saved(picture, "JPEG" if picture.mode == "CMYK" else "PNG"))
    assert photo.grey == (len(seen) == 1)
    found = pixels(photo).getpixel((200, 200))
    assert near(found if isinstance(found, tuple) else (found,), seen)


def test_a_colour_named_as_see_through_becomes_white() -> None:
    palette = Image.new("P", (10, 10), 1)
    palette.putpalette([0, 0, 0, 200, 0, 0])
    assert pixels(read(saved(palette))).getpixel((5, 5)) == (200, 0, 0)
    assert pixels(read(saved(palette, transparency=1))).getpixel((5, 5)) == (255, 255, 255)
    assert pixels(read(saved(Image.new("RGB", (10, 10)), transparency=(0, 0, 0)))).getpixel((5, 5)) == (255,) * 3


def test_grey_ink_keeps_no_colour() -> None:
    photo = read(saved(noise(500, 500), "JPEG"), grey=True)
    assert photo.grey
    assert pixels(photo).mode == "L"


def test_flat_drawings_are_kept_without_loss_and_photos_as_jpeg() -> None:
    assert not read(saved(corner(900, 900))).jpeg
    assert read(saved(noise(900, 900))).jpeg


SECRETS = (b"SecretCam", b"XmpSecret", b"My comment", b"photoshop", b"ICC_PROFILE", b"Exif", b"xmp", b"2024:05:06")


def full_of_secrets(kind: str) -> bytes:
    exif = Image.Exif()
    exif[0x010F], exif[0x0132], exif[0x9286] = "SecretCam", "2024:05:06 10:00:00", "My comment"
    exif.get_ifd(0x8825)[2] = (52.0, 30.0, 1.5)
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/">photoshop XmpSecret</x:xmpmeta>'
    extras = {"comment": b"My comment"} if kind == "JPEG" else {}
    return saved(noise(500, 400), kind, exif=exif, xmp=xmp, icc_profile=b"ICC_PROFILE" * 20, dpi=(72, 72), **extras)


@pytest.mark.parametrize("kind", ["JPEG", "WEBP", "PNG"])
def test_nothing_but_pixels_is_kept(kind: str) -> None:
    data = full_of_secrets(kind)
    assert b"SecretCam" in data
    photo = read(data)
    assert not any(secret in photo.data for secret in SECRETS)
    image = pixels(photo)
    assert not image.getexif()
    assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def with_note(text: bytes) -> bytes:
    """A PNG with a compressed note (PNG 1.2, 4.2.3.2)."""
    png = saved(corner(30, 20))
    note = b"zTXta\0\0" + zlib.compress(text)
    return png[:-12] + (len(note) - 4).to_bytes(4, "big") + note + zlib.crc32(note).to_bytes(4, "big") + png[-12:]


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"hello, I am no picture", "is not a picture"),
        (b"", "is not a picture"),
        (b"\x89PNG\r\n\x1a\n", "is not a picture"),
        (saved(Image.new("L", (9, 9)), "GIF"), "is not a picture"),
        (saved(noise(400, 400), "JPEG")[:4000], "is damaged"),
        (saved(noise(400, 400), "PNG")[:4000], "is damaged"),
        (saved(noise(400, 400), "WEBP")[:4000], "is damaged"),
        (bomb(20000, 20000), "hundreds of megapixels"),
        (bomb(9000, 6000), "54 megapixels"),
        (bomb(2**31 - 1, 2**31 - 1), "megapixels"),
        (bomb(7000, 7000), "49 megapixels"),  # a PNG is decoded whole
        (bomb(0, 5), "is "),
        (with_note(b"0" * 200_000_000), "is damaged"),  # a note that unfolds without end
    ],
)
def test_what_cannot_be_printed_is_refused_in_one_sentence(data: bytes, said: str) -> None:
    with pytest.raises(TeacherError) as caught:
        read(data)
    assert caught.value.message.startswith("moon.png ")
    assert said in caught.value.message
    assert caught.value.message.count(". ") == 0
    assert caught.value.hint


def test_size_is_read_from_the_head_alone_unless_asked_for_more() -> None:
    whole = saved(noise(400, 300), "JPEG")
    cut = whole[: len(whole) // 2]
    assert measure(BytesIO(cut), "moon.jpg") == (400, 300)
    assert measure(BytesIO(whole), "moon.jpg", decode=True) == (400, 300)
    with pytest.raises(TeacherError, match=r"moon\.jpg is damaged"):
        measure(BytesIO(cut), "moon.jpg", decode=True)


def test_how_large_a_picture_may_be_printed() -> None:
    # 300 dots an inch: 300 pixels are an inch, the picture of the smallest board.
    assert sharp_mm(LEAST_PX) == 25
    assert sharp_mm(150) == 12


@given(data=st.binary(max_size=40), at=st.integers(0, 3000), kind=st.sampled_from(["PNG", "JPEG", "WEBP"]))
@settings(max_examples=60, deadline=None)
def test_no_damage_breaks_the_reader(data: bytes, at: int, kind: str) -> None:
    file = bytearray(DAMAGED[kind])
    file[at : at + len(data)] = data
    try:
        photo = read(bytes(file))
    except TeacherError as error:
        refusal = error
    else:
        assert max(photo.width_px, photo.height_px) <= MOST_PX
        return
    assert refusal.hint


DAMAGED = {kind: saved(noise(60, 50), kind) for kind in ("PNG", "JPEG", "WEBP")}

PEAK = """
import sys
from cardgen.sources.photos import read_photo
with open(sys.argv[1], "rb") as file:
    photo = read_photo(file, "big", "big", grey=False)
with open("/proc/self/status") as status:
    print(next(int(line.split()[1]) // 1024 for line in status if line.startswith("VmHWM")), photo.width_px)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="the peak of memory is read from /proc")
@pytest.mark.parametrize(
    ("size", "kind", "more"),
    [
        ((5000, 5000), "JPEG", {"progressive": True}),
        ((3900, 2500), "WEBP", {"method": 0}),
        ((5000, 3900), "PNG", {"compress_level": 1}),
    ],
)
def test_the_largest_pictures_take_less_than_300_mb(
    tmp_path: Path, size: tuple[int, int], kind: str, more: dict[str, int]
) -> None:
    path = tmp_path / "big"
    path.write_bytes(saved(Image.new("RGBA" if kind == "PNG" else "RGB", size, RED), kind, **more))
    told = subprocess.run([sys.executable, "-c", PEAK, path], check=True, capture_output=True, text=True).stdout
    peak, width = map(int, told.split())
    assert width == MOST_PX
    assert peak < 260  # the rest of the program takes some more
