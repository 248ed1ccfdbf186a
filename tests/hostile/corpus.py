"""Valid files of every kind that is read, small: what the damaged ones are made from."""

from functools import cache
from io import BytesIO
from zlib import compress, crc32

from PIL import Image

from cardgen.sources import shelf
from tests.sources import clip_samples, own_samples

LESSON = """title = "Week 9"
sounds = ["h", "f"]
review = ["n"]
class = 6
seed = 5
paper = "letter"
ink = "line"
avoid = ["hat"]
[trace]
words = 0
[sort]
cards = 6
[bingo]
grid = "3x3"
boards = 2
[check]
"""
LAYOUTS = (
    'kind = "cards"\ncard_mm = [70.0, 70.0]\nmargin_mm = 8.0\ngap_mm = 2.0\n',
    'kind = "cards"\nshares = 2\nsheet = "portrait"\n',
    'kind = "boards"\nsheet = "landscape"\nabreast = 2\ndown = 1\nwidest_board_mm = 130.0\nwidest_cell_mm = 40.0\n',
)
WORDS = """[[word]]
word = "mum"
keys = "m"
phones = "M AH1 M"
also = ["us:mom", "mother"]
cautions = ["gb:Say mum."]
looks_like = ["woman"]
alt = "a woman"

[[word]]
word = "sari"
phones = "S AA1 R IY0"
notes = ["A long cloth."]

[names]
"M AH1 DH ER0" = "mother"

[groups]
family = "mum"
"""
LINKS = 'word,link\nmoon,https://clips.example.org/moon\nsun;x,https://clips.example.org/sun?a=1\n"map",http://a.example/b\n'
ADDRESSES = ("https://clips.example.org:8080/year1/week-2/", "HTTP://a.example", "https://a.example/index?q=1#a")
SVG = (
    own_samples.SVG.format(
        '<g transform="translate(5 5) rotate(10)" style="fill:#aabbcc;stroke:none"><path d="M10 10h30a5 5 0 1 1 9 9z"/>'
        '<rect x="1" y="2" width="30" height="40" rx="3"/><circle cx="50" cy="50" r="9" fill="red"/></g>'
        '<polygon points="0,0 10,0 10,10" stroke="black" stroke-width="2"/><ellipse cx="5" cy="5" rx="3" ry="2"/>'
    ),
    shelf.read_text("art/pictures/moon.svg"),
)
CONTENTS = '{"made by": "cardgen", "files": ["01-running-order.pdf", "contents.json"]}'


@cache
def pictures() -> dict[str, tuple[bytes, ...]]:
    """Return pictures of pixels by the suffix of their files."""
    photo, clear = own_samples.noise(60, 40), own_samples.noise(40, 60, "RGBA")
    exif = Image.Exif()
    exif[0x0112], exif[0x8825] = 6, {1: "N", 2: (52.0, 30.0, 0.0)}
    palette = photo.convert("P")
    return {
        ".png": (
            *map(own_samples.saved, (photo, clear, palette, photo.convert("1"), photo.convert("L"))),
            own_samples.saved(palette, transparency=0),
        ),
        ".jpg": (
            own_samples.saved(photo, "JPEG", exif=exif),
            own_samples.saved(photo, "JPEG", progressive=True),
            own_samples.saved(photo.convert("CMYK"), "JPEG"),
        ),
        ".webp": (own_samples.saved(photo, "WEBP"), own_samples.saved(clear, "WEBP", lossless=True)),
    }


@cache
def recordings() -> dict[str, bytes]:
    """Return a short recording of every kind, by suffix."""
    sound = clip_samples.tone(0.4)
    return {f".{kind}": clip_samples.clip(kind, sound, {"artist": "A", "title": "B"}) for kind in clip_samples.KINDS}


@cache
def font() -> bytes:
    """Return a whole TrueType font."""
    return shelf.read_bytes("art/letters/CardgenInfant-Regular.ttf")


def png_bomb(side: int) -> bytes:
    """Return a small PNG file that holds side × side white pixels, truly."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return len(data).to_bytes(4, "big") + kind + data + crc32(kind + data).to_bytes(4, "big")

    head = side.to_bytes(4, "big") * 2 + b"\x08\x06\x00\x00\x00"
    pixels = compress(bytes((side * 4 + 1) * side), 9)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", pixels) + chunk(b"IEND", b"")


def text_bomb(length: int) -> bytes:
    """Return a PNG with a compressed remark that unpacks to `length` letters."""
    data = b"note\x00\x00" + compress(b"a" * length, 9)
    chunk = len(data).to_bytes(4, "big") + b"zTXt" + data + crc32(b"zTXt" + data).to_bytes(4, "big")
    file = BytesIO()
    Image.new("L", (20, 20)).save(file, "PNG")
    return file.getvalue()[:33] + chunk + file.getvalue()[33:]
