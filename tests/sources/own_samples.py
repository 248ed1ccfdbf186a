"""Folders of a teacher's own pictures, made for a test."""

from io import BytesIO
from pathlib import Path
from random import Random
from typing import Any

from PIL import Image

from cardgen.request import Accent
from cardgen.sources import dictionary
from cardgen.sources.bank_file import read_bank, read_sounds
from cardgen.sources.own_words import Known
from cardgen.words.bank import Bank

RED, BLUE = (200, 30, 30), (30, 30, 200)
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">{}</svg>'


# A few words of the bank: every other word is one that only the dictionary knows.
JUDGED = ("fox", "kite", "map", "milk", "moon", "mop", "soap", "sun")


def known(accent: Accent = Accent.US) -> Known:
    bank = read_bank()
    few = Bank(tuple(word for word in bank if word.word in JUDGED), bank.overrides)
    return Known(read_sounds(), few, dictionary.readings, accent)


def noise(width: int, height: int, mode: str = "RGB") -> Image.Image:
    """Something like a photo, the same each time."""
    grain = Random(7).randbytes(len(mode) * 120 * 90)
    return Image.frombytes(mode, (120, 90), grain).resize((width, height), Image.Resampling.BILINEAR)


def corner(width: int, height: int) -> Image.Image:
    """Red, the top left quarter blue."""
    picture = Image.new("RGB", (width, height), RED)
    picture.paste(BLUE, (0, 0, width // 2, height // 2))
    return picture


def saved(picture: Image.Image, kind: str = "PNG", **more: Any) -> bytes:
    file = BytesIO()
    picture.save(file, kind, **more)
    return file.getvalue()


def bomb(width: int, height: int) -> bytes:
    """A PNG whose head tells of more pixels than there are."""
    from zlib import crc32

    png = bytearray(saved(Image.new("L", (1, 1))))
    png[16:24] = width.to_bytes(4, "big") + height.to_bytes(4, "big")
    png[29:33] = crc32(bytes(png[12:29])).to_bytes(4, "big")
    return bytes(png)


def folder(path: Path, **files: bytes | str) -> Path:
    """A folder with a picture for each word, `moon_png=…`, two underlines for a point in the name."""
    path.mkdir(exist_ok=True)
    for name, content in files.items():
        stem, _, suffix = name.rpartition("_")
        data = content.encode() if isinstance(content, str) else content
        (path / f"{stem}.{suffix}").write_bytes(data)
    return path
