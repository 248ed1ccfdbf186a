"""Where the project's own data lies: `art/` and `layouts/`, beside the package in a checkout, else inside it."""

import tomllib
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from cardgen.errors import TeacherError

MOST_DOTS = 100  # in one line: a key of parts without end takes time and memory by the square of their number


@cache
def folder(name: str) -> Traversable:
    """Return the data folder `art` or `layouts`; it may lie in a zip, so read files by name and never list it."""
    package = files("cardgen")
    inside = package / name
    if inside.is_dir():
        return inside
    return package.joinpath("..", name)


def read_bytes(path: str) -> bytes:
    """Return the content of a data file named like `art/words.toml`; TeacherError if it is missing or unreadable."""
    first, *rest = path.split("/")
    try:
        return folder(first).joinpath(*rest).read_bytes()
    except OSError as error:
        raise TeacherError(
            f"The file {path} of the program cannot be read.", "Install cardgen again: a part of it is missing."
        ) from error


def read_text(path: str) -> str:
    """Return the content of a data file as text; TeacherError if it is missing or not UTF-8."""
    try:
        return read_bytes(path).decode("utf-8")
    except UnicodeDecodeError as error:
        raise TeacherError(f"The file {path} is not UTF-8 text.", "Save it again as UTF-8.") from error


def read_toml(path: str) -> dict[str, Any]:
    """Return a TOML data file as tables; TeacherError with file and line if it is damaged."""
    return parse_toml(read_text(path), path)


def parse_toml(text: str, name: str) -> dict[str, Any]:
    """Return TOML text as tables; TeacherError naming `name` and the line if it does not parse."""
    try:
        return toml_tables(text)
    except tomllib.TOMLDecodeError as error:
        raise TeacherError(f"{name} cannot be read: {error}.", "Mend that line, or put the old file back.") from error


def toml_tables(text: str) -> dict[str, Any]:
    """Return TOML text as tables; TOMLDecodeError with the line, ValueError or RecursionError for what has no end."""
    for number, line in enumerate(text.splitlines(), 1):
        if line.count(".") > MOST_DOTS:
            raise tomllib.TOMLDecodeError(f"Too many dots (at line {number})")
    return tomllib.loads(text)
