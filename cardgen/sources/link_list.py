"""Reads the teacher's table of links: a word or the name of a recording, and its address, line by line."""

import csv
from collections.abc import Mapping
from io import StringIO
from pathlib import Path

from cardgen.errors import TeacherError
from cardgen.sources.own_text import read_own_text
from cardgen.words.links import check_address

LARGEST_FILE = 500_000  # bytes
_HEADS = frozenset({"link", "links", "address", "url"})


def read_links(file: str) -> Mapping[str, str]:
    """Return the address of every name in a CSV file, names in small letters; TeacherError naming the line if wrong.

    Commas, semicolons and tabs part the two columns; a first line of heads is passed over.
    """
    path = Path(file)
    lines = csv.reader(StringIO(text := _text(path)), delimiter=_delimiter(text))
    found: dict[str, str] = {}
    try:
        for number, cells in enumerate(lines, start=1):
            cells = [cell.strip() for cell in cells]
            if not any(cells) or (number == 1 and len(cells) > 1 and cells[1].casefold() in _HEADS):
                continue
            _add(found, cells, f"{path.name}, line {number}")
    except csv.Error as error:
        raise TeacherError(
            f"{path.name} is no table that can be read.", "Save it from the spreadsheet as CSV."
        ) from error
    if not found:
        raise TeacherError(f"There is no link in {path.name}.", "Each line has a word and its link: moon,https://…")
    return found


def _add(found: dict[str, str], cells: list[str], where: str) -> None:
    name, address = (*cells, "", "")[:2]
    if not name or not address or any(cells[2:]):
        raise TeacherError(f"{where} has not a word and a link.", "Write it like: moon,https://clips.example.org/moon")
    key = name.casefold()
    if key in found:
        raise TeacherError(f'{where} names "{name}" again.', "Keep one line for each word.")
    found[key] = check_address(address, where)


def _text(path: Path) -> str:
    if path.suffix.lower() != ".csv":
        raise TeacherError(f"{path.name} does not end in .csv.", "Save the table from the spreadsheet as CSV.")
    return read_own_text(path, "table of links", LARGEST_FILE)


def _delimiter(text: str) -> str:
    first = next((line for line in text.splitlines() if line.strip()), "")
    return max(",;\t", key=first.count)
