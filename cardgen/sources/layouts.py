"""Reads the formats of boards, cards and mats: those of `layouts/`, and the teacher's own files."""

import tomllib
from difflib import get_close_matches
from functools import cache
from pathlib import Path

from cardgen.errors import TeacherError
from cardgen.sheets.layout import BoardFormat, CardFormat, Format, MatFormat, StripFormat, read_format
from cardgen.sources import shelf

LARGEST_FILE = 100_000  # bytes
INDEX = "layouts/index.toml"


@cache
def names() -> tuple[str, ...]:
    """Return the names of all formats, in the order of the index."""
    return tuple(shelf.read_toml(INDEX)["layouts"])


@cache
def board_format(name: str) -> BoardFormat:
    """Return the board format of that name or file; TeacherError if there is none, or its file is damaged."""
    form = find(name)
    if not isinstance(form, BoardFormat):
        raise TeacherError(f"The layout {name} is not for boards.", f"Boards: {_of_kind(BoardFormat)}.")
    return form


@cache
def card_format(name: str) -> CardFormat:
    """Return the card format of that name or file; TeacherError if there is none, or its file is damaged."""
    form = find(name)
    if not isinstance(form, CardFormat):
        raise TeacherError(f"The layout {name} is not for cards.", f"Cards: {_of_kind(CardFormat)}.")
    return form


@cache
def mat_format(name: str) -> MatFormat:
    """Return the mat format of that name; TeacherError if there is none, or its file is damaged."""
    form = find(name)
    if not isinstance(form, MatFormat):
        raise TeacherError(f"The layout {name} is not for mats.", f"Mats: {_of_kind(MatFormat)}.")
    return form


@cache
def strip_format(name: str) -> StripFormat:
    """Return the format of sorting strips of that name; TeacherError if there is none."""
    form = find(name)
    if not isinstance(form, StripFormat):
        raise TeacherError(f"The layout {name} is not for strips.", f"Strips: {_of_kind(StripFormat)}.")
    return form


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
    try:
        if not path.is_file():  # a pipe or a device would never end
            raise FileNotFoundError(path)
        if path.stat().st_size > LARGEST_FILE:
            raise TeacherError(f"{path.name} is too large to be a layout.", "A layout has a handful of lines.")
        return shelf.toml_tables(path.read_text("utf-8"))
    except UnicodeDecodeError as error:
        raise TeacherError(f"{path.name} is not a text file.", "Save it as UTF-8 text.") from error
    except (ValueError, RecursionError) as error:
        what = str(error)[:100] if isinstance(error, tomllib.TOMLDecodeError) else "a number or brackets without end"
        raise TeacherError(
            f"{path.name} is not a TOML file: {what}.", "`cardgen layouts --help` shows how to write one."
        ) from error
    except OSError as error:
        raise TeacherError(
            f"The layout {path.name} cannot be read.", "Check the name; `cardgen layouts` lists ours."
        ) from error


def _of_kind(kind: type[Format]) -> str:
    return ", ".join(name for name in names() if isinstance(find(name), kind))
