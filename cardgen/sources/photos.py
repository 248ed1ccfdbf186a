"""Reads pictures of pixels (PNG, JPEG, WebP) for print: upright, on white, no larger than print needs, nothing else.

What comes back holds the pixels alone: no place, no date, no camera, no name of a file, no comment. Colours are taken
as sRGB. Everything a file says of itself is looked at before its pixels are decoded.
"""

import struct
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import BinaryIO

from PIL import Image, ImageOps, UnidentifiedImageError

from cardgen.errors import TeacherError
from cardgen.sheets.marks import Photo

DPI = 300
LARGEST_MM = 90.0  # the largest square in which a picture stands on any sheet
MOST_PX = round(LARGEST_MM / 25.4 * DPI)
LEAST_PX = 300  # the smallest square, 25 mm, at 300 dpi

_FORMATS = ("PNG", "JPEG", "WEBP")
_MOST_MEGAPIXELS = 50
_MEMORY = 160_000_000  # bytes; the whole program stays below 300 MB
# Bytes that decoding takes for a pixel, at most, as measured. Plain JPEGs are scaled down while they are decoded.
_COSTS = {"JPEG": 1, "MPO": 1, "PNG": 8, "WEBP": 16}
_PLAIN_PNG, _PROGRESSIVE_JPEG = 4, 6
_QUALITY = 85


def sharp_mm(longer_side_px: int) -> int:
    """Return the width in mm up to which a picture of that many pixels is printed at 300 dpi."""
    return int(longer_side_px / DPI * 25.4)


def measure(stream: BinaryIO, name: str, *, decode: bool = False) -> tuple[int, int]:
    """Return the width and height of a picture in pixels; TeacherError if it is none or too large.

    Only its head is read, unless `decode` asks for all of it, to find out whether it is whole.
    """
    with _opened(stream, name) as picture:
        size = picture.size
        if decode:
            picture.draft(None, (1, 1))
            picture.load()
        return size


def read_photo(stream: BinaryIO, file: str, name: str, *, grey: bool) -> Photo:
    """Return the picture `name` ready for print, in colour or `grey`; TeacherError naming `file` if it cannot be read.

    It stands upright as its camera meant, lies on white where it is see-through, and is scaled down to 300 dpi on 90 mm
    where it is larger. It is kept without loss where that takes less room than a JPEG.
    """
    with _opened(stream, file) as picture:
        pixels = _on_white(_upright(_scaled(picture)))
    pixels = pixels.convert("L") if grey else pixels
    deflated, jpeg = zlib.compress(pixels.tobytes()), _as_jpeg(pixels)
    lossless = len(deflated) <= len(jpeg)
    return Photo(name, *pixels.size, deflated if lossless else jpeg, not lossless, pixels.mode == "L")


@contextmanager
def _opened(stream: BinaryIO, name: str) -> Iterator[Image.Image]:
    """Yield a picture whose head is read and allowed; TeacherError for all that goes wrong with it in the block."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of odd metadata, which is dropped, and of the size, which is checked
            with Image.open(stream, formats=_FORMATS) as picture:
                _check_size(picture, name)
                yield picture
    except TeacherError:
        raise
    except UnidentifiedImageError as error:
        raise TeacherError(
            f"{name} is not a picture: there is no PNG, JPEG or WebP in it.",
            "Open it in a picture program and save it as PNG or JPEG.",
        ) from error
    except Image.DecompressionBombError as error:
        raise _too_large(name, "hundreds of megapixels", _MOST_MEGAPIXELS) from error
    except Exception as error:  # a decoder fails in as many ways as a file can be damaged
        raise TeacherError(
            f"{name} is damaged: it cannot be read to its end.", "Copy it again, or save it anew."
        ) from (error)


def _check_size(picture: Image.Image, name: str) -> None:
    """Raise TeacherError for a picture that takes too much memory to decode."""
    cost = _COSTS[picture.format or ""]
    if picture.format == "PNG" and picture.mode in ("L", "RGB") and "transparency" not in picture.info:
        cost = _PLAIN_PNG
    if "progressive" in picture.info:
        cost = _PROGRESSIVE_JPEG
    most = min(_MOST_MEGAPIXELS, _MEMORY // cost // 1_000_000)
    megapixels = picture.width * picture.height / 1_000_000
    if megapixels > most:
        raise _too_large(name, f"{megapixels:.0f} megapixels", most)


def _too_large(name: str, size: str, most: int) -> TeacherError:
    return TeacherError(
        f"{name} is too large: it has {size}, and {most} are the most for its kind.",
        f"Save it smaller: {MOST_PX} pixels on the longer side are enough.",
    )


def _scaled(picture: Image.Image) -> Image.Image:
    """Return a picture scaled down to what print needs, with its own proportions; a small one stays as it is."""
    share = 1.5 * MOST_PX / max(picture.size)
    # A JPEG is decoded at a half, a quarter or an eighth, with no less than these pixels; other kinds take no notice.
    picture.draft(None, (max(1, int(picture.width * share)), max(1, int(picture.height * share))))
    picture.load()
    smooth = _smooth(picture)
    smooth.thumbnail((MOST_PX, MOST_PX), Image.Resampling.LANCZOS, reducing_gap=3)
    return smooth


def _smooth(picture: Image.Image) -> Image.Image:
    """Return a picture in a mode that can be scaled smoothly: no palette, 8 bits a channel."""
    if picture.mode.startswith("I"):
        return picture.convert("I").point(lambda level: level * (1 / 256)).convert("L")
    if picture.mode == "1":
        return picture.convert("L")
    if picture.mode in ("P", "PA") or "transparency" in picture.info:
        return picture.convert("RGBA" if picture.mode == "PA" or "transparency" in picture.info else "RGB")
    return picture


def _upright(picture: Image.Image) -> Image.Image:
    """Return a picture turned as its camera noted; as it is, if the note cannot be read."""
    try:
        return ImageOps.exif_transpose(picture)
    except (SyntaxError, ValueError, LookupError, TypeError, struct.error):
        return picture


def _on_white(picture: Image.Image) -> Image.Image:
    """Return the bare pixels, grey or RGB, in a new picture that knows nothing of the old one's file."""
    grey = picture.mode in ("L", "LA")
    page = Image.new("L" if grey else "RGB", picture.size, "white")
    if picture.mode in ("LA", "RGBA"):
        page.paste(picture.convert(page.mode), mask=picture.getchannel("A"))
    else:
        page.paste(picture.convert(page.mode))
    return page


def _as_jpeg(pixels: Image.Image) -> bytes:
    file = BytesIO()
    pixels.save(file, "JPEG", quality=_QUALITY)
    return file.getvalue()
