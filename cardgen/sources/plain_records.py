"""TOML that is mostly one long list of plain records, read faster: a bank of hundreds of words is read at every start.

A record is plain when each of its lines is a field and a text without escapes, a list of such texts, or `false`: a
regular expression reads that as TOML does. If all records of the list are plain, only what else stands in the file is
left to `tomllib`; if not, the whole file.
"""

import re
import tomllib
from typing import Any

from cardgen.sources import shelf

Value = str | bool | list[str]

TEXT = r"""(?:'[^'\x00-\x08\n-\x1f\x7f]*'|"[^"\\\x00-\x08\n-\x1f\x7f]*")"""
VALUE = rf"(?:{TEXT}|false|\[{TEXT}(?:, {TEXT})*\])"
# The fields of a record; after blank lines and remarks must come the next head, or the end.
FIELDS = rf"((?:[a-z_]+ = {VALUE}\n)+)(?=(?:#.*\n|\n)*(?:\[|\Z))"
FIELD = re.compile(r"([a-z_]+) = (.+)")
TEXTS = re.compile(TEXT)


def parse_toml(text: str, name: str, kind: str) -> dict[str, Any]:
    """Return the tables of TOML text, most of them records `[[kind]]`; TeacherError as of `shelf.parse_toml`."""
    records: list[dict[str, Value]] = []

    def taken_out(record: re.Match[str]) -> str:
        """Keep a plain record and leave nothing of it; one with a field twice is left for the error."""
        fields = FIELD.findall(record[1])
        table = {field: written[1:-1] if written[0] in "'\"" else _value(written) for field, written in fields}
        if len(table) < len(fields):
            return record[0]
        records.append(table)
        return ""

    if "'''" in text or '"""' in text:  # what looks like a record may stand in a longer text
        return shelf.parse_toml(text, name)
    rest = re.sub(rf"^\[\[{kind}\]\]\n{FIELDS}", taken_out, text, flags=re.MULTILINE)
    try:
        tables = tomllib.loads(rest)
    except tomllib.TOMLDecodeError:
        return shelf.parse_toml(text, name)
    if kind in tables:  # not every record is plain, or more belongs to one
        return shelf.parse_toml(text, name)
    return {**tables, kind: records} if records else tables


def _value(written: str) -> Value:
    return written != "false" and [text[1:-1] for text in TEXTS.findall(written)]
