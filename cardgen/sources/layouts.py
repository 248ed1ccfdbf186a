"""Reads the formats of boards, cards and mats: those of `layouts/`, and the teacher's own files."""

import tomllib
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import TypeVar

from cardgen.errors import TeacherError
from cardgen.sheets.layout import BoardFormat, CardFormat, Format, MatFormat, StripFormat, read_format
from cardgen.sources import shelf
from cardgen.sources.own_text import read_own_text

Kind = TypeVar("Kind", BoardFormat, CardFormat, MatFormat, StripFormat)

LARGEST_FILE = 100_000  # bytes
INDEX = "layouts/index.toml"


@cache
def names() -> tuple[str, ...]:
    """Return the names of all formats, in the order of the index."""
    return tuple(shelf.read_toml(INDEX)["layouts"])


def board_format(name: str) -> BoardFormat:
    """Return the board format of that name or file; TeacherError if there is none, or its file is damaged."""
    return _found(name, BoardFormat, "boards")


def card_format(name: str) -> CardFormat:
    """Return the card format of that name or file; TeacherError if there is none, or its file is damaged."""
    return _found(name, CardFormat, "cards")


def mat_format(name: str) -> MatFormat:
    """Return the mat format of that name; TeacherError if there is none, or its file is damaged."""
    return _found(name, MatFormat, "mats")


def strip_format(name: str) -> StripFormat:
    """Return the format of sorting strips of that name; TeacherError if there is none, or its file is damaged."""
    return _found(name, StripFormat, "strips")


def _found(name: str, kind: type[Kind], what: str) -> Kind:
    form = find(name)
    if isinstance(form, kind):
        return form
    ours = ", ".join(other for other in names() if isinstance(find(other), kind))
    raise TeacherError(f"The layout {name} is not for {what}.", f"{what.capitalize()}: {ours}.")


@cache
def find(name: str) -> Format:
    """Return the format of that name, or of the teacher's own file if the name ends in .toml."""
    if name.lower().endswith(".toml"):
        return read_format(_own(Path(name)), Path(name).stem, Path(name).name)
    if name not in names():
        near = get_close_matches(name, names(), 1)
        hint = f"Did you mean {near[0]}?" if near else f"There are {', '.join(names())}; or a file of yours, name.toml."
        raise TeacherError(f'There is no layout "{name}".', hint)
    file = f"layouts/{name}.toml"
    return read_format(shelf.read_toml(file), name, file)


def _own(path: Path) -> dict[str, object]:
    text = read_own_text(path, "layout", LARGEST_FILE)
    try:
        return shelf.toml_tables(text)
    except (ValueError, RecursionError) as error:
        what = str(error)[:100] if isinstance(error, tomllib.TOMLDecodeError) else "a number or brackets without end"
        raise TeacherError(
            f"{path.name} is not a TOML file: {what}.", "`cardgen layouts --help` shows how to write one."
        ) from error
