"""Reads the bank and the sounds: `art/words.toml` and `art/sounds.toml`, turned into records.

A record that does not fit is told with file and line, so that a teacher who adds a word finds it.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from functools import cache
from typing import Any, TypeVar

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources import shelf
from cardgen.words.bank import Bank, Name, Override, Remark, Word
from cardgen.words.contrast import ClosePair, Contrasts, HomeNote, LookAlikes
from cardgen.words.sounds import Phones, Sound, SoundTable

SOUNDS_FILE = "art/sounds.toml"
WORDS_FILE = "art/words.toml"

Table = dict[str, Any]
Record = TypeVar("Record")


@cache
def read_sounds() -> SoundTable:
    """Return the letter-sounds of the shipped file, with the sounds that have no key and the sight words."""
    return sounds_from(shelf.read_text(SOUNDS_FILE), SOUNDS_FILE)


@cache
def read_contrasts() -> Contrasts:
    """Return what the shipped file says about sounds and letters that are easily mixed up."""
    tables = shelf.read_toml(SOUNDS_FILE)
    ears = tables["by_ear"]
    pairs = [_close_pair(pair, level) for level in ("close", "fairly") for pair in ears[level]]
    looks = [LookAlikes(tuple(look["letters"].split()), look["why"]) for look in tables["by_eye"]]
    home = [
        HomeNote(language, tuple(note["keys"]), note["text"], note["source"])
        for group in tables["home"]
        for language in group["language"]
        for note in group["notes"]
    ]
    return Contrasts(tuple(pairs), tuple(looks), tuple(home))


def _close_pair(pair: str, level: str) -> ClosePair:
    a, b = pair.split()
    return ClosePair(a, b, level == "close")


@cache
def read_bank() -> Bank:
    """Return every word of the shipped bank."""
    return bank_from(shelf.read_text(WORDS_FILE), WORDS_FILE)


def sounds_from(text: str, name: str) -> SoundTable:
    """Return the sounds written in TOML; TeacherError with `name` and line for a record that does not fit."""
    tables = shelf.parse_toml(text, name)
    sounds = tuple(_records(tables, "sound", _sound, text, name))
    unkeyed = {phones_of(phones): label for label, phones in tables.get("unkeyed", {}).items()}
    return SoundTable(sounds, unkeyed, tuple(tables.get("sight_words", ())))


def bank_from(text: str, name: str) -> Bank:
    """Return the bank written in TOML; TeacherError with `name` and line for a record that does not fit."""
    tables = shelf.parse_toml(text, name)
    phones = {label: phones_of(first) for first, labels in tables.get("names", {}).items() for label in labels}
    phones |= {table["word"]: phones_of(table["phones"]) for table in tables["word"] if "phones" in table}

    def word(table: Table) -> Word:
        return _word(table, phones)

    words = tuple(_records(tables, "word", word, text, name))
    return Bank(words, tuple(_records(tables, "override", _override, text, name)))


def phones_of(text: str) -> Phones:
    """Return the ARPABET symbols of a string."""
    return tuple(text.split())


def _records(tables: Table, kind: str, make: Callable[[Table], Record], text: str, name: str) -> Iterator[Record]:
    """Yield one record a table of that kind; TeacherError with the line where the faulty one begins."""
    seen: set[str] = set()
    for index, table in enumerate(tables.get(kind, [])):
        try:
            label = table["key" if kind == "sound" else "word"]
            if label in seen:
                raise ValueError(f'"{label}" stands twice')
            seen.add(label)
            yield make(table)
        except (KeyError, ValueError) as error:
            what = f"{error} is missing" if isinstance(error, KeyError) else str(error)
            raise TeacherError(
                f"{name}, line {_line_of(text, kind, index)}: {what}.", "Mend that record, or put the old file back."
            ) from error


def _line_of(text: str, kind: str, index: int) -> int:
    heads = [number for number, line in enumerate(text.splitlines(), 1) if line.strip() == f"[[{kind}]]"]
    return heads[index]


SOUND_FIELDS = frozenset(
    {
        "key", "letter", "spellings", "phones", "sound", "at", "held", "say", "mouth", "avoid", "made", "key_picture",
    }
)  # fmt: skip


def _sound(table: Table) -> Sound:
    _check_fields(table, SOUND_FIELDS)
    key: str = table["key"]
    letter: str = table.get("letter", key)
    return Sound(
        key=key,
        letter=letter,
        spellings=tuple(table.get("spellings", [letter])),
        phones=tuple(phones_of(phones) for phones in table["phones"]),
        name=table.get("sound", key),
        end=_end(table.get("at", "start")),
        held=table.get("held", False),
        say=table["say"],
        mouth=table["mouth"],
        avoid=tuple(table.get("avoid", ())),
        made=tuple(table.get("made", ())),
        key_picture=table.get("key_picture"),
    )


def _end(at: str) -> bool:
    if at not in ("start", "end"):
        raise ValueError(f'`at` is "start" or "end", not "{at}"')
    return at == "end"


WORD_FIELDS = frozenset(field.name for field in fields(Word))


def _word(table: Table, phones: Mapping[str, Phones]) -> Word:
    _check_fields(table, WORD_FIELDS)
    return Word(
        word=table["word"],
        keys=tuple(table["keys"]),
        phones=phones_of(table["phones"]),
        picture=table.get("picture"),
        alt=table.get("alt", ""),
        group=table.get("group", ""),
        also=_names(table.get("also"), phones),
        also_weak=_names(table.get("also_weak"), phones),
        shows=_names(table.get("shows"), phones),
        looks_like=tuple(table.get("looks_like", ())),
        cautions=_remarks(table.get("cautions")),
        notes=_remarks(table.get("notes")),
        cue=table.get("cue", ""),
        reason=table.get("reason", ""),
        source=table.get("source", ""),
        licence=table.get("licence", ""),
    )


def _override(table: Table) -> Override:
    us, gb = (phones_of(table[field]) if field in table else None for field in ("phones_us", "phones_gb"))
    return Override(table["word"], table["reason"], us, gb)


def _check_fields(table: Table, known: frozenset[str]) -> None:
    for field in table:
        if field not in known:
            raise ValueError(f'the field "{field}" is not known')


def _names(texts: list[str] | None, phones: Mapping[str, Phones]) -> tuple[Name, ...]:
    """Return the names with their phones; ValueError for one whose first sound stands nowhere."""
    if not texts:
        return ()
    found = []
    for text in texts:
        label, accent = _split_accent(text)
        if label not in phones:
            raise ValueError(f'the first sound of "{label}" is not given: add it to [names]')
        found.append(Name(label, phones[label], accent))
    return tuple(found)


def _remarks(texts: list[str] | None) -> tuple[Remark, ...]:
    return tuple(Remark(*_split_accent(text)) for text in texts) if texts else ()


def _split_accent(text: str) -> tuple[str, Accent | None]:
    """Split "us:couch" into the name and its accent."""
    head, colon, rest = text.partition(":")
    if colon and head in ("us", "gb"):
        return rest, Accent(head)
    return text, None
