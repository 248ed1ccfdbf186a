"""Chooses the words of a game: enough for every sound, the best first, and none that spoils another."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from cardgen.errors import TeacherError
from cardgen.request import Accent
from cardgen.words.bank import Bank, Word
from cardgen.words.case import Fit, Rule
from cardgen.words.cautions import Verdict, judge_known
from cardgen.words.draw import Option, draw
from cardgen.words.set_rule import clash, labels, misleading_name
from cardgen.words.sounds import Sound, SoundTable

# Words a cell: what a game wants, and what still makes a fair one when a sound is scarce.
WANTED, ENOUGH = Fraction(3, 2), Fraction(5, 4)
GRIDS = ((4, 4), (3, 3), (2, 3), (2, 2))  # rows and columns of boards to fall back on


@dataclass(frozen=True, slots=True)
class PoolWord:
    """A word of the game, the key it stands for, and its verdict for that key."""

    word: Word
    key: str
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Pool:
    """The words of a game, sound by sound in the order of choice.

    `notes` say aloud what is not as it should be (unequal numbers, cautions, key pictures that play along); `we_say`
    settles the names of pictures that children are likely to call otherwise.
    """

    entries: tuple[PoolWord, ...]
    notes: tuple[str, ...]
    we_say: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class _Terms:
    """What decides whether a word may come into question."""

    accent: Accent
    careful: bool
    key_pictures: bool
    leave_out: frozenset[str]
    drawable: Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class _Game:
    """The sounds of the game, the words that come into question, and how they may be drawn."""

    sounds: tuple[Sound, ...]
    entries: tuple[PoolWord, ...]
    options: tuple[Option, ...]
    rng: random.Random

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the game."""
        return tuple(sound.key for sound in self.sounds)

    @property
    def key_pictures(self) -> frozenset[str]:
        """The words of the key pictures of these sounds."""
        return frozenset(sound.key_picture for sound in self.sounds if sound.key_picture)

    def drawn(self, targets: Sequence[int]) -> list[PoolWord]:
        """Return as many words a key as the targets ask for, or as many as can be had."""
        wanted = dict(zip(self.keys, targets, strict=True))
        return [self.entries[number] for number in draw(self.options, wanted, self.rng)]

    def level(self, number: int) -> list[PoolWord]:
        """Return up to that many words for every key."""
        return self.drawn([number] * len(self.keys))

    def counts(self, words: Sequence[PoolWord]) -> list[int]:
        """Return how many of the words stand for each key."""
        return [sum(entry.key == key for entry in words) for key in self.keys]


def choose_pool(
    bank: Bank,
    sounds: SoundTable,
    keys: tuple[str, ...],
    *,
    cells: int | None = None,
    total: int | None = None,
    per_key: int | None = None,
    fewer: bool = False,
    key_pictures: bool = True,
    accent: Accent = Accent.US,
    rng: random.Random,
    careful: bool = False,
    leave_out: frozenset[str] = frozenset(),
    drawable: Callable[[str], bool] = lambda _: True,
) -> Pool:
    """Return the words of a game with these keys.

    `per_key` asks for that many words of every sound (with `fewer` a scarce one gives what it has); `total` for
    that many in all, shared as evenly as can be; else `cells` (filled cells of a board) decides: the same number for
    every sound, together the least such number from 1.5 words a cell; where a sound is scarce all come down to its
    number while that makes 1.25 words a cell; beyond that the numbers differ and a note says so.

    Good words go first; key pictures of the game (never with `key_pictures` false) and then words with cautions (never
    when `careful`) only fill up. Only words whose picture is `drawable` count; actions never do. TeacherError for an
    unknown key, or when there are too few words, with the numbers and what would help.
    """
    terms = _Terms(accent=accent, careful=careful, key_pictures=key_pictures, leave_out=leave_out, drawable=drawable)
    game = _game(bank, sounds, keys, terms, rng)
    try:
        if per_key is not None:
            words, notes = _each(game, per_key, fewer=fewer)
        elif total is not None:
            words, notes = _shared(game, total, cells)
        else:
            words, notes = _for_boards(game, cells or 0)
    except _TooFewError as error:
        raise _explained(game, error, cells, careful) from error
    return Pool(tuple(words), (*notes, *_notes(game.key_pictures, words, bank.preferred)), _we_say(words))


def part_of_pool(words: Sequence[PoolWord], sounds: Sequence[Sound]) -> Pool:
    """Return a part of a pool as a pool of its own: what is said is said of these words only."""
    key_pictures = frozenset(sound.key_picture for sound in sounds if sound.key_picture)
    return Pool(tuple(words), tuple(_notes(key_pictures, words, frozenset())), _we_say(words))


def _game(bank: Bank, sounds: SoundTable, keys: tuple[str, ...], terms: _Terms, rng: random.Random) -> _Game:
    chosen = sounds.several(keys)
    pictures = {sound.key_picture for sound in chosen}
    words = (word for word in bank if terms.key_pictures or word.word not in pictures)
    entries = tuple(entry for word in words if (entry := _entry(word, chosen, sounds, terms)) is not None)
    compared = [labels(entry.word, terms.accent) for entry in entries]
    options = tuple(
        Option(
            entry.key,
            _rank(entry, pictures, bank.preferred),
            frozenset(number for number, other in enumerate(compared) if other is not own and clash(own, other)),
        )
        for entry, own in zip(entries, compared, strict=True)
    )
    return _Game(chosen, entries, options, rng)


def _rank(entry: PoolWord, pictures: set[str | None], preferred: frozenset[str]) -> int:
    """Return when a word is taken, 0 first: preferred words, good ones, key pictures, those with a caution."""
    if entry.word.word in preferred:
        return 0
    return 1 + (entry.word.word in pictures) + 2 * (entry.verdict.verdict is Fit.CAUTION)


def _entry(word: Word, game: tuple[Sound, ...], sounds: SoundTable, terms: _Terms) -> PoolWord | None:
    """Return the word under the first of its keys that is in the game, None if it cannot stand in it."""
    by_key = {sound.key: sound for sound in game}
    own = next((by_key[key] for key in word.keys if key in by_key), None)
    if own is None or not word.picture or word.is_action or word.word in terms.leave_out:
        return None
    if misleading_name(word, own, game, terms.accent) or not terms.drawable(word.picture):
        return None
    verdict = judge_known(word, own, sounds, terms.accent)
    if verdict.verdict is Fit.WRONG or (terms.careful and verdict.verdict is Fit.CAUTION):
        return None
    return PoolWord(word, own.key, verdict)


class _TooFewError(Exception):
    """There are too few words: how many there are for each key, and what is needed."""

    def __init__(self, counts: Sequence[int], need: str) -> None:
        super().__init__(need)
        self.counts = counts
        self.need = need


Chosen = tuple[list[PoolWord], list[str]]


def _each(game: _Game, per_key: int, *, fewer: bool) -> Chosen:
    words = game.level(per_key)
    if fewer and min(game.counts(words)) < per_key:
        return words, [_numbers(game, words)]
    if min(game.counts(words)) < per_key:
        raise _TooFewError(game.counts(words), f"every sound needs {per_key}")
    return words, []


def _shared(game: _Game, total: int, cells: int | None) -> Chosen:
    """Return `total` words, shared as evenly as the sounds allow."""
    if cells is not None and total < cells:
        raise TeacherError(f"{total} words cannot fill boards of {cells} cells.", f"Ask for {cells} words or more.")
    share, odd = divmod(total, len(game.keys))
    words = game.drawn([share + (place < odd) for place in range(len(game.keys))])
    if len(words) == total:
        return words, []
    words = _uneven(game, total)
    if len(words) < total:
        raise _TooFewError(game.counts(words), f"{total} are asked for")
    return words, [_numbers(game, words)]


def _for_boards(game: _Game, cells: int) -> Chosen:
    """Return the words for boards of `cells` filled cells by the default rule."""
    sounds = len(game.keys)
    share, enough = ceil(WANTED * cells / sounds), ceil(ENOUGH * cells / sounds)
    for number in range(share, enough - 1, -1):
        words = game.level(number)
        if min(game.counts(words)) == number:
            return words, [] if number == share else [_numbers(game, words)]
    words = _uneven(game, ceil(WANTED * cells))
    if len(words) < cells or min(game.counts(words)) == 0:
        raise _TooFewError(game.counts(words), f"boards of {cells} cells need {cells} different ones")
    return words, [_numbers(game, words)]


def _uneven(game: _Game, total: int) -> list[PoolWord]:
    """Return up to `total` words, as even as can be: scarce sounds give all they have, the others the rest."""
    words: list[PoolWord] = []
    for number in range(total // len(game.keys), total + 1):
        words = max(words, game.level(number), key=len)
        if len(words) >= total:
            break
    while len(words) > total:
        counts = game.counts(words)
        fullest = game.keys[counts.index(max(counts))]
        last = max(place for place, entry in enumerate(words) if entry.key == fullest)
        words = words[:last] + words[last + 1 :]
    return words


def _numbers(game: _Game, words: Sequence[PoolWord]) -> str:
    """Say that there are fewer words than a game wants, or not the same number for every sound."""
    counts = game.counts(words)
    if min(counts) == max(counts):
        each = "Every sound has" if len(counts) > 1 else "There are"
        return f"{each} {counts[0]} words: there are no more that go together."
    return f"The sounds do not have the same number of words: {_listed(game, counts)}."


def _listed(game: _Game, counts: Sequence[int]) -> str:
    return ", ".join(f"{key} {count}" for key, count in zip(game.keys, counts, strict=True))


def _explained(game: _Game, error: _TooFewError, cells: int | None, careful: bool) -> TeacherError:
    """Return the error in the teacher's words: how many there are for which key, and what would help."""
    helps = []
    if careful:
        helps.append("words with a caution (leave out --careful)")
    grid = next(
        (grid for grid in GRIDS if cells and grid[0] * grid[1] < cells and grid[0] * grid[1] <= sum(error.counts)), None
    )
    if grid:
        helps.append(f"smaller boards (--grid {grid[0]}x{grid[1]})")
    if cells is None or error.need.endswith("asked for"):
        helps.append("asking for fewer words (--pool)")
    helps.append("another sound beside these")
    keys = " ".join(game.keys)
    return TeacherError(
        f"There are not enough picture words that go together ({_listed(game, error.counts)}): {error.need}.",
        f"What helps: {', or '.join(helps)}. `cardgen words {keys} --all` shows what was left out, and why.",
    )


def _notes(key_pictures: frozenset[str], words: Sequence[PoolWord], preferred: frozenset[str]) -> list[str]:
    """Say which key pictures play along and which words have a caution, with cautions that are not about a name."""
    playing = [entry.word.word for entry in words if entry.word.word in key_pictures - preferred]
    careful = [entry for entry in words if entry.verdict.verdict is Fit.CAUTION]
    notes = []
    if playing:
        notes.append(f"There are too few other words, so key pictures play along: {', '.join(playing)}.")
    if careful:
        listed = ", ".join(entry.word.word for entry in careful)
        notes.append(f"Too few words are without a caution, so these play along: {listed}.")
    for entry in careful:
        findings = entry.verdict.findings
        notes += [f.text for f in findings if f.weight is Fit.CAUTION and f.rule is not Rule.OTHER_NAME]
    return notes


def _we_say(words: Sequence[PoolWord]) -> tuple[str, ...]:
    """Settle the name of every picture that a child may well call by a word with another first sound."""
    lines = []
    for entry in words:
        names = [finding.names for finding in entry.verdict.findings if finding.weight is Fit.CAUTION]
        strong = [name for group in names for name in group]
        if strong:
            lines.append(f"We say {entry.word.word}, not {' or '.join(strong)}.")
    return tuple(lines)
