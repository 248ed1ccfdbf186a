"""The words of a check: which may be said, which shown, and which are fresh because the lesson has not used them."""

import random
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from cardgen.errors import TeacherError
from cardgen.games.checking_choices import begin_alike
from cardgen.request import Accent
from cardgen.words.bank import Bank, Word
from cardgen.words.case import Fit, Rule
from cardgen.words.cautions import judge_known
from cardgen.words.draw import Option, draw
from cardgen.words.pool import PoolWord
from cardgen.words.set_rule import clash, labels, misleading_name
from cardgen.words.sounds import Sound, SoundTable

ByKey = Mapping[str, tuple[PoolWord, ...]]


@dataclass(frozen=True, kw_only=True, slots=True)
class Terms:
    """What decides whether a word may be asked: `never` names key pictures, `lesson` the words of its games."""

    accent: Accent
    careful: bool
    drawable: Callable[[str], bool]
    never: frozenset[str]
    lesson: frozenset[str]


@dataclass(frozen=True, slots=True)
class Stock:
    """For every key the words that may be said and those whose picture may be shown; none that is a key picture."""

    said: ByKey
    shown: ByKey
    lesson: frozenset[str]
    clashes: Mapping[str, frozenset[str]]

    def goes_with(self, word: Word, others: Sequence[Word]) -> bool:
        """Return whether a picture is not in the row yet, nor mixed up with one there or called by its name."""
        return not any(other.word == word.word or other.word in self.clashes[word.word] for other in others)


def open_stock(bank: Bank, table: SoundTable, sounds: Sequence[Sound], terms: Terms) -> Stock:
    """Return the words of these sounds that a check may use."""
    said: dict[str, list[PoolWord]] = {sound.key: [] for sound in sounds}
    shown: dict[str, list[PoolWord]] = {sound.key: [] for sound in sounds}
    by_key = {sound.key: sound for sound in sounds}
    for word in bank:
        own = next((by_key[key] for key in word.keys if key in by_key), None)
        if own is None or word.is_action or word.word in terms.never:
            continue
        entry = PoolWord(word, own.key, judge_known(word, own, table, terms.accent))
        if not _is_clear(entry, own, sounds, careful=terms.careful):
            continue
        said[own.key].append(entry)
        drawn = word.picture is not None and terms.drawable(word.picture)
        if drawn and not misleading_name(word, own, sounds, terms.accent):
            shown[own.key].append(entry)
    return Stock(
        {key: tuple(words) for key, words in said.items()},
        {key: tuple(words) for key, words in shown.items()},
        terms.lesson,
        _clashes([entry.word for words in shown.values() for entry in words], terms.accent),
    )


def _clashes(words: Sequence[Word], accent: Accent) -> dict[str, frozenset[str]]:
    """Return with which other pictures each one cannot stand together."""
    found: dict[str, set[str]] = {word.word: set() for word in words}
    for one, other in combinations([labels(word, accent) for word in words], 2):
        if clash(one, other):
            found[one.word].add(other.word)
            found[other.word].add(one.word)
    return {word: frozenset(others) for word, others in found.items()}


def _is_clear(entry: PoolWord, own: Sound, sounds: Sequence[Sound], *, careful: bool) -> bool:
    """Return whether a word may be asked, and no other sound of the check is heard in its beginning."""
    fit = entry.verdict.verdict
    if fit is Fit.WRONG or (careful and fit is Fit.CAUTION):
        return False
    others = [sound for sound in sounds if sound.key != own.key and not begin_alike(sound, own)]
    # Many children hear ch in tree and j in drum.
    affricated = any(finding.rule is Rule.AFFRICATED for finding in entry.verdict.findings)
    return not (affricated and any(sound.name in ("ch", "j") for sound in others))


def rank(entry: PoolWord, stock: Stock, *, seen: bool) -> int:
    """Return how far back a word stands (0 first): fresh before used in the lesson, good before one with a caution.

    A caution about other names of the picture does not count where it is not seen.
    """
    weighty = [finding for finding in entry.verdict.findings if finding.weight is Fit.CAUTION]
    cautioned = any(seen or finding.rule is not Rule.OTHER_NAME for finding in weighty)
    return 2 * (entry.word.word in stock.lesson) + cautioned


@dataclass(frozen=True, slots=True)
class Picker:
    """Takes words for the parts of one check; `asked` are those of earlier parts, which come last."""

    stock: Stock
    rng: random.Random
    asked: set[str]

    def take(self, wanted: Mapping[str, int], taken: set[str], *, seen: bool, part: str) -> dict[str, list[PoolWord]]:
        """Return so many words a key, in an order of chance, and add them to `taken` (the words of this part).

        `seen` takes only pictures, no two that are mixed up. TeacherError naming the key that has too few.
        """
        words = self.stock.shown if seen else self.stock.said
        entries = [e for key, count in wanted.items() if count for e in words[key] if e.word.word not in taken]
        options = [self._option(entry, entries, seen=seen) for entry in entries]
        chosen = [entries[number] for number in draw(options, wanted, self.rng)]
        found = {key: [entry for entry in chosen if entry.key == key] for key in wanted}
        for key, count in wanted.items():
            if len(found[key]) < count:
                raise _too_few(key, count, len(found[key]), part, seen=seen)
            self.rng.shuffle(found[key])
        taken.update(entry.word.word for entry in chosen)
        self.asked.update(entry.word.word for entry in chosen)
        return found

    def _option(self, entry: PoolWord, entries: Sequence[PoolWord], *, seen: bool) -> Option:
        names = self.stock.clashes[entry.word.word] if seen else frozenset()
        clashes = frozenset(number for number, other in enumerate(entries) if other.word.word in names)
        again = 4 * (entry.word.word in self.asked)
        return Option(entry.key, again + rank(entry, self.stock, seen=seen), clashes)

    def foil(self, key: str, row: Sequence[Word], shown: Counter[str], part: str) -> PoolWord:
        """Return a wrong picture for a row: one that stands nowhere else in the part, if there is one.

        `shown` counts how often each word has stood in the part. TeacherError if no picture goes with the row.
        """
        fit = [entry for entry in self.stock.shown[key] if self.stock.goes_with(entry.word, row)]
        if not fit:
            raise _too_few(key, 1, 0, part, seen=True)
        self.rng.shuffle(fit)
        best = min(fit, key=lambda entry: (shown[entry.word.word], entry.verdict.verdict is not Fit.GOOD))
        shown[best.word.word] += 1
        return best


def _too_few(key: str, wanted: int, there: int, part: str, *, seen: bool) -> TeacherError:
    what = "picture words" if seen else "words"
    return TeacherError(
        f"There are too few {what} for {key}: the part {part} asks for {wanted}, and {there or 'none'} can be asked "
        "(never the key picture, and nothing that may be taken for another sound of the check).",
        f"Leave {key} out, ask for fewer --items, or leave this part out (--parts hear-letter needs the fewest words). "
        f"`cardgen words {key} --all` shows what there is.",
    )
