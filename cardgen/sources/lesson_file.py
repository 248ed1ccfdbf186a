"""Reads a lesson file: what it says of the whole lesson, and which sheets it asks for with which options.

Every option is written as on the command line, without the two dashes; a table is a command:

    title = "Week 9"
    sounds = ["h", "f"]
    class = 24

    [bingo]
    grid = "3x3"
"""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from cardgen.errors import TeacherError
from cardgen.sources import shelf
from cardgen.sources.own_text import read_own_text

LARGEST = 200_000  # bytes
_NO_NUMBER = 10**18  # longer ones cannot even be written out
Value = str | int | float | bool


@dataclass(frozen=True, slots=True)
class LessonTable:
    """One table of the file: its name ("" for what stands before the first), the line it begins on, its options."""

    name: str
    line: int
    options: tuple[tuple[str, tuple[Value, ...]], ...]
    lines: Mapping[str, int]


def read_lesson(path: str) -> tuple[LessonTable, ...]:
    """Return the tables of a lesson file in its order, the head first; TeacherError naming file and line if it is none.

    A list is several values; tables in tables, dates and the like are refused.
    """
    text = read_own_text(Path(path), "lesson", LARGEST)
    try:
        found = shelf.toml_tables(text)
    except (ValueError, RecursionError) as error:
        what = str(error)[:120] if isinstance(error, tomllib.TOMLDecodeError) else "a number or brackets without end"
        raise TeacherError(
            f"{Path(path).name}: {what}.", "`cardgen lesson --new m s` writes one to start from."
        ) from error
    head = {name: value for name, value in found.items() if not isinstance(value, dict)}
    tables = [("", head), *((name, value) for name, value in found.items() if isinstance(value, dict))]
    return tuple(_table(Path(path).name, name, values, text) for name, values in tables)


def _table(file: str, name: str, values: Mapping[str, Any], text: str) -> LessonTable:
    first, lines = _lines(name, text)
    options = []
    for key, value in values.items():
        every = value if isinstance(value, list) else [value]
        for one in every:
            if not _is_plain(one):
                what = {int: "so large a number", list: "a list in a list", dict: "a table"}
                shown = what.get(type(one)) or repr(str(one)[:40])
                raise TeacherError(
                    f"{file}, line {lines.get(key, first)}: {key[:40]} cannot be {shown}.",
                    "Write a text on one line, a number, true or false, or a list of them.",
                )
        options.append((key, tuple(every)))
    return LessonTable(name, first, tuple(options), lines)


def _is_plain(value: object) -> bool:
    """Return whether a value can be typed after an option: a text on one line, a number that is written out, a flag."""
    if isinstance(value, int):
        return abs(value) < _NO_NUMBER
    return isinstance(value, Value) and "\n" not in str(value)


def _lines(table: str, text: str) -> tuple[int, dict[str, int]]:
    """Return the line a table begins on, and the line of each of its keys, counted from 1."""
    found: dict[str, int] = {}
    first, inside = 1, table == ""
    for number, line in enumerate(text.splitlines(), 1):
        if head := re.match(r"\s*\[\s*[\"']?([\w -]+?)[\"']?\s*\]", line):
            inside = head[1] == table
            first = number if inside else first
        elif inside and (key := re.match(r"\s*[\"']?([\w-]+)[\"']?\s*=", line)):
            found.setdefault(key[1], number)
    return first, found
