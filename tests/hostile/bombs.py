"""Files that are small and unpack to a lot, each read by a whole command of its own with little memory to be had."""

import os
import resource
import subprocess
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from zlib import compress

from PIL import Image

from tests.hostile import corpus
from tests.sources import clip_samples, own_samples

ROOT = Path(__file__).parents[2]
RESIDENT_MB = 500
# Addresses, not memory: libraries reserve more than they use.
ADDRESSES_MB = 1500
PICTURES, SOUNDS, LESSON, LAYOUT, LINKS = (
    "pictures test mine", "clips test mine", "lesson week.toml", "layouts mine.toml",
    "cards m s --links links.csv --dry-run",
)  # fmt: skip

_LAUGHS = '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">{}]>'.format(
    "".join(f'<!ENTITY {name} "{f"&{before};" * 10}">' for before, name in zip("abcdefghi", "bcdefghij", strict=True))
)
_OUTSIDE = '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>'


def svg(inside: str, head: str = "") -> bytes:
    """Return an SVG with something in it, and before it."""
    return (head + own_samples.SVG.format(inside)).encode()


def _attributes(count: int) -> str:
    return "".join(f" a{number}=''" for number in range(count))


def _huge_jpeg() -> bytes:
    file = bytearray(own_samples.saved(own_samples.noise(60, 40), "JPEG"))
    at = file.index(b"\xff\xc0") + 5
    file[at : at + 4] = b"\xff\xff\xff\xff"
    return bytes(file)


def _huge_webp() -> bytes:
    file = bytearray(own_samples.saved(Image.new("RGB", (20, 20)), "WEBP", lossless=True))
    at = file.index(b"VP8L") + 9  # behind the length and a sign: 14 bits each of width and height, less one
    file[at : at + 4] = (int.from_bytes(file[at : at + 4], "little") | 0x0FFFFFFF).to_bytes(4, "little")
    return bytes(file)


def _long_flac() -> bytes:
    return clip_samples.clip("flac", [0] * (48_000 * 100))


# Command, and the files that it reads.
BOMBS: Mapping[str, tuple[str, Callable[[], Mapping[str, bytes]]]] = {
    "png of 20,000 × 20,000": (PICTURES, lambda: {"mine/moon.png": own_samples.bomb(20_000, 20_000)}),
    "png of 2^31 × 2^31": (PICTURES, lambda: {"mine/moon.png": own_samples.bomb(2**31 - 1, 2**31 - 1)}),
    "png that is as large as it says": (PICTURES, lambda: {"mine/moon.png": corpus.png_bomb(4600)}),
    "png with a remark of 200 MB": (PICTURES, lambda: {"mine/moon.png": corpus.text_bomb(200_000_000)}),
    "jpeg of 65,535 × 65,535": (PICTURES, lambda: {"mine/moon.jpg": _huge_jpeg()}),
    "webp of 16,384 × 16,384": (PICTURES, lambda: {"mine/moon.webp": _huge_webp()}),
    "svg with a billion laughs": (PICTURES, lambda: {"mine/moon.svg": svg("<g>&j;</g>", _LAUGHS)}),
    "svg with a file in an entity": (PICTURES, lambda: {"mine/moon.svg": svg("<g>&a;</g>", _OUTSIDE)}),
    "svg nested 60,000 deep": (PICTURES, lambda: {"mine/moon.svg": svg("<g>" * 60_000 + "</g>" * 60_000)}),
    "svg with a path of 500 kB": (PICTURES, lambda: {"mine/moon.svg": svg(f'<path d="M0 0{"h1v1" * 125_000}"/>')}),
    "svg with arcs of 500 kB": (
        PICTURES, lambda: {"mine/moon.svg": svg(f'<path d="M0 0{"a9 9 0 0 1 1 1" * 35_000}"/>')}),
    "svg with 40,000 attributes": (PICTURES, lambda: {"mine/moon.svg": svg(f"<g{_attributes(40_000)}/>")}),
    "svg, zipped": (PICTURES, lambda: {"mine/moon.svg": compress(bytes(10**8))}),
    "words nested without end": (
        PICTURES, lambda: {"mine/moon.svg": svg(""), "mine/words.toml": b"a = " + b"[" * 200_000}),
    "words with a number without end": (
        PICTURES, lambda: {"mine/moon.svg": svg(""), "mine/words.toml": b"a = " + b"9" * 250_000}),
    "lesson nested without end": (LESSON, lambda: {"week.toml": b"a = " + b"{a=" * 60_000}),
    "lesson with dots without end": (LESSON, lambda: {"week.toml": b"a" + b".a" * 90_000 + b" = 1"}),
    "words with dots without end": (
        PICTURES, lambda: {"mine/moon.svg": svg(""), "mine/words.toml": b"a" + b".a" * 100_000 + b" = 1"}),
    "layout with dots without end": (LAYOUT, lambda: {"mine.toml": b"x = {a" + b".a" * 45_000 + b" = 1}"}),
    "lesson with many long keys": (
        LESSON, lambda: {"week.toml": b"".join(b"a%d" % n + b".a" * 99 + b"=1\n" for n in range(900))}),
    "layout with a number without end": (
        LAYOUT, lambda: {"mine.toml": b'kind = "cards"\ncard_mm = 0x' + b"f" * 90_000}),
    "links in one cell": (LINKS, lambda: {"links.csv": b'"' + b"a" * 400_000}),
    "a hundred seconds of silence": (SOUNDS, lambda: {"mine/m.flac": _long_flac()}),
    "wav that says it is endless": (
        SOUNDS, lambda: {"mine/m.wav": clip_samples.wav()[:40] + b"\xff\xff\xff\x7f" + bytes(50_000)}),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Blast:
    """How a command went that reads a file: its code, what it said, seconds of work, the most memory it took in MB."""

    file: str
    code: int
    said: str
    seconds: float
    peak_mb: float


def _little_memory() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (ADDRESSES_MB * 1024**2,) * 2)
    resource.setrlimit(resource.RLIMIT_CPU, (30, 30))


def set_off(name: str, folder: Path) -> Blast:
    """Return how the command went that reads a bomb."""
    command, make = BOMBS[name]
    files = make()
    for file, data in files.items():
        (folder / file).parent.mkdir(exist_ok=True)
        (folder / file).write_bytes(data)
    with (folder / "said").open("w+b") as said:
        run = subprocess.Popen(
            [sys.executable, "-c", "from cardgen.cli import main; main()", *command.split()],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            stdin=subprocess.DEVNULL,
            stdout=said,
            stderr=said,
            preexec_fn=_little_memory,
        )
        _, status, usage = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
        said.seek(0)
        text = said.read().decode("utf-8", "replace")
    return Blast(
        Path(list(files)[-1]).name, run.returncode, text, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024
    )
