"""The teacher's own words: her list `words.toml`, written like the bank's, and the words her pictures are named after.

A word that neither she nor the bank has judged is looked up in the pronouncing dictionary and stands for the sound of
its own first letters, if it truly begins with it.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.sources import shelf
from cardgen.sources.bank_file import phones_of
from cardgen.sources.own_folder import WORD_LIST, picture_name, shown, word_of
from cardgen.words.bank import Bank, Name, Remark, Word
from cardgen.words.case import Fit
from cardgen.words.cautions import Verdict, judge
from cardgen.words.first_sound import Dictionary, own_key, parts, pronounce
from cardgen.words.sounds import VOWELS, Phones, SoundTable, plain

CONSONANTS = frozenset(phones_of("B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH"))

TEXTS = frozenset({"word", "alt", "cue", "reason", "source", "licence"})
NAMES = frozenset({"also", "also_weak", "shows"})
REMARKS = frozenset({"cautions", "notes"})
TABLES = frozenset({"word", "names", "groups"})
MOST_PARTS, LEAST_LETTERS = 2, 2
_HEAD = re.compile(r"\s*\[\[\s*word\s*\]\]")

Table = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Known:
    """What words are judged by: the sounds, the bank so far, the dictionary, whose English is spoken."""

    sounds: SoundTable
    bank: Bank
    dictionary: Dictionary
    accent: Accent

    def say(self, word: str) -> tuple[Phones, ...]:
        """Return every way in which a word may be said; empty if nobody knows it."""
        said = pronounce(word, self.bank, partial(without_accents, self.dictionary), self.accent)
        return said.readings if said else ()


def without_accents(dictionary: Dictionary, word: str) -> tuple[Phones, ...]:
    """Return the readings of a word, or of the same letters without accents: café is in no American dictionary."""
    return dictionary(word) or dictionary(picture_name(word))


def words_from(text: str, known: Known) -> tuple[Word, ...]:
    """Return the words of a teacher's list; TeacherError with the line of the record that does not fit."""
    try:
        tables = shelf.parse_toml(text, WORD_LIST)
    except (ValueError, RecursionError):  # numbers and brackets without end, which no list of words needs
        raise _error(WORD_LIST, "it cannot be read") from None
    records = tables.get("word", [])
    if not isinstance(records, list) or not all(isinstance(record, dict) for record in records):
        raise _error(WORD_LIST, "its words are not written one by one")
    for name in tables:
        if name not in TABLES:
            raise _error(WORD_LIST, f'"{name}" stands outside of any word')
    try:
        names = _Names(_table("names", tables), records, known)
        groups = {word: group for group, words in _table("groups", tables).items() for word in _listed("groups", words)}
    except ValueError as error:
        raise _error(WORD_LIST, str(error)) from None
    return tuple(
        replace(word, group=groups.get(word.word, word.group)) for word in _records(records, names, text, known)
    )


def _records(records: Sequence[Table], names: "_Names", text: str, known: Known) -> Iterator[Word]:
    lines = [number for number, line in enumerate(text.splitlines(), 1) if _HEAD.match(line)]
    seen: set[str] = set()
    for place, record in enumerate(records):
        where = f"{WORD_LIST}, line {lines[place]}" if len(lines) == len(records) else f"{WORD_LIST}, word {place + 1}"
        try:
            word = _word(record, names, known)
            if word.picture in seen:
                raise ValueError(f'"{word.word}" stands twice')
        except ValueError as error:
            raise _error(where, str(error)) from None
        except TeacherError as error:
            raise TeacherError(f"{where}: {error.message}", error.hint) from None
        seen.add(picture_name(word.word))
        yield word


def _error(where: str, what: str) -> TeacherError:
    return TeacherError(f"{where}: {what}.", "Every word begins with a line [[word]]; the README shows one.")


class _Names:
    """The first sounds of other names: from the list's own table, its words, the bank, or the dictionary."""

    def __init__(self, table: Table, records: Sequence[Table], known: Known) -> None:
        self._own = {label: _phones(first) for first, labels in table.items() for label in _listed("names", labels)}
        for record in records:
            if isinstance(record.get("word"), str) and isinstance(record.get("phones"), str):
                self._own[record["word"]] = phones_of(record["phones"])
        self._known = known

    def name(self, text: str) -> Name:
        """Return a name written `couch` or `us:couch`."""
        remark = _remark(text)
        readings = (self._own[remark.text],) if remark.text in self._own else self._known.say(remark.text)
        if not readings:
            raise ValueError(f'the first sound of "{remark.text}" is not known: add it to [names]')
        return Name(remark.text, readings[0], remark.accent)


def _word(record: Table, names: _Names, known: Known) -> Word:
    made: dict[str, Any] = {}
    for field, value in record.items():
        if field in TEXTS:
            made[field] = _text(field, value)
        elif field == "keys":
            made[field] = tuple(_listed(field, value, " "))
        elif field == "looks_like":
            made[field] = tuple(_listed(field, value))
        elif field in NAMES:
            made[field] = tuple(names.name(text) for text in _listed(field, value))
        elif field in REMARKS:
            made[field] = tuple(map(_remark, _sentences(field, value)))
        elif field not in ("phones", "picture"):
            raise ValueError(f'the field "{field}" is not known')
    word = made.get("word", "").strip()
    if not word_of(word):
        raise ValueError(f'"{shown(word)}" is no word' if word else "the word is missing")
    if record.get("picture", word) != word:
        raise ValueError(f"picture is not needed: the file is named after the word, {picture_name(word)}.png")
    made |= {"word": word, "picture": picture_name(word), "alt": made.get("alt") or word}
    return _sounded(made, record.get("phones"), known)


def _sounded(made: dict[str, Any], phones: object, known: Known) -> Word:
    """Return the word with its keys and how it is said."""
    word = made["word"]
    readings = known.say(word) if phones is None else (_phones(_text("phones", phones)),)
    if not readings:
        raise ValueError(f'no dictionary knows how "{word}" is said: add for example phones = "M AH1 M" for mum')
    sounds = known.sounds.several(made["keys"]) if made.get("keys") else (own_key(word, known.sounds, readings),)
    if sounds[0] is None:
        raise ValueError(f'keys is missing: add for example keys = "{word[0]}"')
    made["keys"] = tuple(sound.key for sound in sounds if sound)
    heard = [reading for reading in readings if sounds[0].is_heard_in(reading)]
    return Word(**made, phones=(heard or readings)[0])


def _phones(text: str) -> Phones:
    found = phones_of(text)
    odd = [phone for phone in plain(found) if phone not in VOWELS | CONSONANTS]
    if odd or not found:
        raise ValueError(f'"{" ".join(odd) or text}" is no sound in phones: write ARPABET, like "M AH1 M" for mum')
    return found


def _text(field: str, value: object) -> str:
    if not isinstance(value, str):
        raise ValueError(f"{field} is not a text in quotes")
    return value


def _table(name: str, tables: Table) -> Table:
    table = tables.get(name, {})
    if not isinstance(table, dict):
        raise ValueError(f"[{name}] is not a table")
    return table


def _listed(field: str, value: object, between: str = ",") -> list[str]:
    """Return the names in a text ("hat, cap") or in a list of such texts."""
    texts = [value] if isinstance(value, str) else _sentences(field, value)
    return [name.strip() for text in texts for name in text.split(between) if name.strip()]


def _sentences(field: str, value: object) -> list[str]:
    if not isinstance(value, list) or not all(isinstance(text, str) for text in value):
        raise ValueError(f'{field} is not a list like ["one", "two"]')
    return value


def _remark(text: str) -> Remark:
    """Split "us:couch" into the text and its accent."""
    head, colon, rest = text.partition(":")
    return Remark(rest, Accent(head)) if colon and head in ("us", "gb") else Remark(text)


def verdict_on(word: str, key: str | None, known: Known) -> Verdict | None:
    """Return the verdict on a word that only a file's name tells, None if it is not known.

    Of two parts (ice-cream) both must be words; more are taken for a file's name (moon-photo-final), not for a word,
    and so are single letters.
    """
    names = parts(word)
    if len(names) > MOST_PARTS or min(map(len, names)) < LEAST_LETTERS or not all(map(known.say, names)):
        return None
    return judge(word, key, known.bank, known.sounds, partial(without_accents, known.dictionary), known.accent)


def judged(word: str, known: Known) -> Word | None:
    """Return the word as its picture's file names it, for the sound of its own letters; None if it does not begin so.

    All that speaks against it stays with it as a caution.
    """
    verdict = verdict_on(word, None, known)
    if verdict is None or verdict.verdict is Fit.WRONG:
        return None
    sound = known.sounds.get(verdict.key)
    phones = next((reading for reading in verdict.readings if sound.is_heard_in(reading)), verdict.readings[0])
    cautions = tuple(map(Remark, verdict.cautions))
    return Word(word=word, keys=(sound.key,), phones=phones, picture=picture_name(word), alt=word, cautions=cautions)


def with_own(bank: Bank, listed: Sequence[Word], files: Mapping[str, str], known: Known) -> Bank:
    """Return the bank with the teacher's own words and pictures; `files` are words by the name of their picture.

    A record of hers takes the place of the bank's; a picture of hers is described by its word alone.
    """
    hers = {picture_name(word.word): word for word in listed}
    words = []
    for word in bank:
        name = picture_name(word.word)
        own = hers.pop(name, None)
        words.append(own or (replace(word, picture=name, alt=word.word) if name in files else word))
    there = {picture_name(word.word) for word in words} | set(hers)
    new = (judged(word, known) for name, word in files.items() if name not in there)
    return Bank((*words, *hers.values(), *filter(None, new)), bank.overrides)
