"""What a tired or a wicked hand may write where a word, a number or a name is expected."""

from random import Random

LONG = 10_000
WORDS = (
    "", " ", "-", "--", "=", ",", ",,,", ".", "..", "/", "~", "*", "?", "%s", "%n", "{}", "{0}", "$HOME", "`id`",
    "; ls", "moon", "m", "s", "M", "mm", "qu", "ss", "../moon", "../../etc/passwd", "/dev/null", "/dev/zero",
    "C:\\moon.pdf",
    "\\\\server\\share", "a\0b", "\0", "a\nb", "a\r\nb", "\t", "\x1b[31mred\x1b[0m", "\x07", "\x7f", "\x85", "\u2028",
    "\u202emoon\u202c", "\u2066a\u2069", "\u200b", "\u200d", "\ufeff", "\ufffe", "e\u0301", "é", "ﬁ", "ß", "İ", "ı",
    "Ω", "мама", "猫", "🌙", "👩‍👩‍👧", "\U0010ffff", "\ue000", "a" * LONG, "é" * LONG, "a," * (LONG // 2), "m " * 300,
    "<b>moon</b>", "&amp;", "]]>", "'", '"', "'''", '"""', "\\", "\\u0000", "#", "[", "[[", "]", "{", "nan",
    "None", "null", "true", "CON", "con.pdf", "NUL", "aux.pdf", "COM1.pdf", "LPT9.pdf", "a.pdf.", "a.pdf ", "A.PDF",
    "a.pdf", ".pdf",
    "a:b.pdf", "a|b.pdf", "a" * 251 + ".pdf", "x/" * 200 + "a.pdf", "-.pdf", "--help.pdf", "\udcff.pdf", "\udc80",
)  # fmt: skip
NUMBERS = (
    "0", "-0", "1", "-1", "2", "3", "4", "5", "7", "24", "100", "101", "500", "501", "999", "1000", "100000", "-100000",
    "2147483647", "2147483648", "-2147483649", "9223372036854775808", "1" + "0" * 400, "9" * 4301, "nan", "NaN", "inf",
    "-inf", "Infinity", "1e308", "1e309", "-1e309", "1e-320", "0.5", "0.1", "1.5", "5.0001", "1_000", "0x10", "१२", "²",
    "1,5", "+3", " 3 ", "３", "", "x",
)  # fmt: skip
# For the places where two things are written in one.
PAIRS = ("0x0", "3x3", "2x5", "-3x3", "3x", "x3", "9x9", "nanxnan", "3X3", "1,1", "nan,nan", "inf,0", "-1,5", "1,2,3",
         "1-2", "2-1", "0-0", "-1--2", "9999-9999", "picture:1", "picture:-1", "picture:", ":3", "word:1,word:1",
         "picture:99999999", "letters", "m-moon", "board 1", "1", "1,1,1", "99")  # fmt: skip


def text(rng: Random) -> str:
    """Return one text of many kinds, at times two put together."""
    kind = rng.random()
    if kind < 0.7:
        return rng.choice(WORDS)
    if kind < 0.8:
        return rng.choice(WORDS) + rng.choice(WORDS)
    if kind < 0.9:
        return rng.choice(NUMBERS + PAIRS)
    return "".join(chr(letter) for letter in (rng.randrange(0x3000) for _ in range(rng.randint(1, 30))))


def number(rng: Random) -> str:
    """Return a number as it is typed, or what is none."""
    kind = rng.random()
    if kind < 0.6:
        return rng.choice(NUMBERS)
    return str(rng.randint(-3, 40)) if kind < 0.9 else text(rng)


def file_name(rng: Random, suffix: str) -> bytes:
    """Return a name that a file system takes, however odd: control letters, no UTF-8, reserved on other systems."""
    odd = (
        b"moon", b"Moon", b"MOON", b" moon ", b"moon.", b"CON", b"nul", b"aux", b"-rf", b"--help", b"mo\non",
        b"mo\x1b[2Jon", b"mo\xff\xfeon", "\u202enoom".encode(), "mo\u200bon".encode(), "é".encode(), "e\u0301".encode(),
        b"%s%n", b"$(id)", b"m" * 240, b".moon", b"..moon", b"moon sun", b"ice-cream", b"sn-m-moon", b"7", b"'",
        b'"', "猫".encode(),
    )  # fmt: skip
    return rng.choice(odd) + suffix.encode()
