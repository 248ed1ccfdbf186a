"""QR codes (ISO/IEC 18004) at level M: the modules that stand for a text."""

from functools import lru_cache

from cardgen.errors import TeacherError

QUIET_ZONE = 4  # modules of white on every side (ISO/IEC 18004, 5.3.8)

Matrix = tuple[tuple[bool, ...], ...]


@lru_cache(maxsize=512)
def matrix(text: str) -> Matrix:
    """Return the modules of a code, row by row, True = dark, without the quiet zone.

    The smallest version that holds the text is taken; TeacherError where none does (2331 bytes at level M).
    """
    import qrcode

    code = qrcode.QRCode(error_correction=qrcode.constants.ERROR_CORRECT_M, border=0)
    code.add_data(text)
    try:
        code.make(fit=True)
    except (ValueError, qrcode.exceptions.DataOverflowError) as error:
        raise TeacherError(
            f"A code cannot hold the {len(text)} letters that begin with {text[:40]!r}.", "Use a shorter link."
        ) from error
    return tuple(tuple(map(bool, row)) for row in code.get_matrix())


def modules(text: str) -> int:
    """Return how many modules the code for `text` has on a side, without its quiet zone: 21 to 177."""
    return len(matrix(text))


def version(text: str) -> int:
    """Return the version of the code for `text`, 1 to 40: a code has 17 + 4 · version modules on a side."""
    return (modules(text) - 17) // 4
