"""Small damage to valid data: of bytes, as a bad disk or a wicked hand does it, and of the lines of a text."""

import re
from random import Random

from tests.hostile import nasty

_EDGES = (
    b"\x00",
    b"\xff",
    b"\x7f\xff\xff\xff",
    b"\x80\x00\x00\x00",
    b"\xff\xff\xff\xff",
    b"\x00\x00\x00\x00",
    b"\xff" * 8,
)
_TOML = (
    "1979-05-27T07:32:00Z", "07:32:00", "nan", "-inf", "1e999", "0x" + "f" * 5000, "9" * 5000, "[" * 300, "[" * 5000,
    "{}", "{a = 1}", "[]", "[[]]", "[1, 'a', true]", "true", "false", '""', "'''\n'''", '"\\u0000"', '"\\U0010ffff"',
    "0o17",
    "-1", "0", "1.5", "[1.0, nan]", "[300.0, 300.0]", "[1e-9, 1e9]", '["m", "m"]', '["m", 1]', "[\n", '"', "",
)  # fmt: skip
_VALUE = re.compile(r"(?<==)[^\n]*")


def damaged(data: bytes, rng: Random) -> bytes:
    """Return data with one to eight small wounds."""
    wounded = bytearray(data)
    for _ in range(rng.choice((1, 1, 2, 4, 8))):
        _wound(wounded, rng)
    return bytes(wounded)


def _wound(data: bytearray, rng: Random) -> None:
    if not data:
        data += rng.randbytes(8)
        return
    # Heads are where readers decide: half of the wounds are there.
    at = rng.randrange(min(len(data), 128) if rng.random() < 0.5 else len(data))
    end = min(len(data), at + rng.choice((1, 2, 4, 16, 200, len(data))))
    match rng.randrange(7):
        case 0:
            data[at] ^= 1 << rng.randrange(8)
        case 1:
            data[at] = rng.randrange(256)
        case 2:
            edge = rng.choice(_EDGES)
            data[at : at + len(edge)] = edge
        case 3:
            del data[at:]
        case 4:
            del data[at:end]
        case 5:
            data[at:at] = data[at:end] * rng.choice((1, 2, 50)) if end - at < 1000 else rng.randbytes(16)
        case 6:
            data[at:end] = rng.randbytes(end - at)


def rewritten(text: str, rng: Random) -> str:
    """Return a text of lines with one to four of them changed: other values, twice, gone, in another order."""
    lines = text.split("\n")
    for _ in range(rng.choice((1, 1, 2, 4))):
        at = rng.randrange(len(lines))
        match rng.randrange(8):
            case 0 | 1 | 2:
                value = rng.choice(_TOML) if rng.random() < 0.6 else quoted(nasty.text(rng))
                lines[at] = _VALUE.sub(lambda _, value=value: f" {value}", lines[at], count=1)  # type: ignore[misc]
            case 3:
                lines[at:at] = [lines[at]] * rng.choice((1, 2, 1000))
            case 4:
                lines[at] = ""
            case 5:
                lines[at], lines[0] = lines[0], lines[at]
            case 6:
                lines.insert(at, rng.choice((f"{quoted(nasty.text(rng))} = {rng.choice(_TOML)}", nasty.text(rng))))
            case 7:
                place = rng.randrange(len(lines[at]) + 1)
                lines[at] = lines[at][:place] + nasty.text(rng) + lines[at][place:]
    return "\n".join(lines)


def quoted(text: str) -> str:
    """Return a text as TOML and JSON write it."""
    escaped = "".join(
        letter if letter.isprintable() and letter not in '"\\' else f"\\u{min(ord(letter), 0xD7FF):04x}"
        for letter in text
    )
    return f'"{escaped}"'
