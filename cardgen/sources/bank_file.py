"""Reads the bank, the sounds and what is mixed up: `words.toml`, `sounds.toml`, `contrasts.toml`, made into records.

A record that does not fit is told with file and line, so that a teacher who adds a word finds it.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any, TypeVar

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources import plain_records, shelf
from cardgen.words.bank import Bank, Name, Override, Remark, Word
from cardgen.words.contrast import ClosePair, Contrasts, HomeNote, LookAlikes
from cardgen.words.sounds import Phones, Sound, SoundTable

SOUNDS_FILE = "art/sounds.toml"
CONTRASTS_FILE = "art/contrasts.toml"
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
    tables = shelf.read_toml(CONTRASTS_FILE)
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
    tables = plain_records.parse_toml(text, name, "word")
    groups = {word: group for group, words in tables.get("groups", {}).items() for word in listed("groups", words)}
    names = _names(tables)
    words = tuple(_records(tables, "word", lambda table: _word(table, groups, names), text, name))
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
    for field in table:
        if field not in SOUND_FIELDS:
            raise ValueError(f'the field "{field}" is not known')
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


class _Names(dict[str, Name]):
    """Every name a picture may be called by, "couch" and "us:couch" alike, made when it is first asked for."""

    def __init__(self, phones: Mapping[str, Phones]) -> None:
        super().__init__()
        self.phones = phones

    def __missing__(self, text: str) -> Name:
        label, accent = _split_accent(text)
        if label not in self.phones:
            raise ValueError(f'the first sound of "{label}" is not given: add it to [names]')
        name = self[text] = Name(label, self.phones[label], accent)
        return name


def _names(tables: Table) -> _Names:
    """Return the names of a bank: those in its table [names] by their first sound, and its words."""
    given = tables.get("names", {}).items()
    phones = {label: phones_of(first) for first, labels in given for label in listed("names", labels)}
    for table in tables.get("word", []):
        phones[table.get("word")] = phones_of(str(table.get("phones", "")))
    return _Names(phones)


def _word(table: Table, groups: Mapping[str, str], names: _Names) -> Word:
    word = table["word"]
    made: dict[str, Any] = {"picture": word, "group": groups.get(word, "")}
    for field, value in table.items():
        if field not in WORD_FIELDS:
            raise ValueError(f'the field "{field}" is not known')
        made[field] = WORD_FIELDS[field](field, value, names)
    made["phones"] = names.phones[word]
    for field in ("keys", "phones"):
        if field not in table:
            raise KeyError(field)
    return Word(**made)


def _override(table: Table) -> Override:
    us, gb = (phones_of(table[field]) if field in table else None for field in ("phones_us", "phones_gb"))
    return Override(table["word"], table["reason"], us, gb)


def _text(field: str, value: object, _: _Names) -> str | None:
    """Return a text; None for `picture = false`, a word that is not drawn."""
    if isinstance(value, str):
        return value
    if field == "picture" and value is False:
        return None
    raise ValueError(f"{field} is not a text in quotes")


def _list(field: str, value: object, _: _Names) -> tuple[str, ...]:
    return tuple(listed(field, value))


def _name_list(field: str, value: object, names: _Names) -> tuple[Name, ...]:
    return tuple([names[text] for text in listed(field, value)])


def _remarks(field: str, value: object, _: _Names) -> tuple[Remark, ...]:
    return tuple([Remark(*_split_accent(text)) for text in _texts(field, value)])


def listed(field: str, value: object) -> list[str]:
    """Return what a field lists: keys "f x", names "hat, cap", or TOML's own lists of such texts."""
    between = None if field == "keys" else ", "
    if isinstance(value, str):
        return value.split(between)
    return [name for text in _texts(field, value) for name in text.split(between)]


def _texts(field: str, value: object) -> list[str]:
    if not isinstance(value, list) or not all(isinstance(text, str) for text in value):
        raise ValueError(f'{field} is not a list like ["one", "two"]')
    return value


def _split_accent(text: str) -> tuple[str, Accent | None]:
    """Split "us:couch" into the name and its accent."""
    head, colon, rest = text.partition(":")
    if colon and head in ("us", "gb"):
        return rest, Accent(head)
    return text, None


# What the fields of a word are made into.
WORD_FIELDS: Mapping[str, Callable[[str, object, _Names], object]] = {
    **dict.fromkeys(("word", "phones", "picture", "alt", "group", "cue", "reason", "source", "licence"), _text),
    **dict.fromkeys(("keys", "looks_like"), _list),
    **dict.fromkeys(("also", "also_weak", "shows"), _name_list),
    **dict.fromkeys(("cautions", "notes"), _remarks),
}
