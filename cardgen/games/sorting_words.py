"""Which pictures are sorted, and which belong to neither sound: none that could lie on two sides."""

import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cardgen.errors import TeacherError
from cardgen.games.pieces import SideSign
from cardgen.request import Accent
from cardgen.request.sort import USUAL_CARDS
from cardgen.words.bank import Bank, Name, Word
from cardgen.words.case import Fit
from cardgen.words.cautions import judge_known
from cardgen.words.contrast import Contrasts, close_by_ear, contrasts, home_notes
from cardgen.words.first_sound import pronounce_known
from cardgen.words.pool import Pool, choose_pool
from cardgen.words.set_rule import Labels, clash, labels
from cardgen.words.sounds import Sound, SoundTable, plain

SIGNS = tuple(SideSign)  # of the sides in their order; the one after the last sound's, or the third, is for neither


@dataclass(frozen=True, kw_only=True, slots=True)
class SortWords:
    """What cards and foils are chosen from: the sounds of the game, its key pictures, and what counts as drawn."""

    bank: Bank
    table: SoundTable
    known: Contrasts
    sounds: tuple[Sound, ...]
    key_words: tuple[Word, ...]
    accent: Accent
    careful: bool
    drawable: Callable[[str], bool]

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the game."""
        return tuple(sound.key for sound in self.sounds)

    @property
    def serving(self) -> tuple[Word, ...]:
        """The words of the bank that serve one of the sounds."""
        keys = set(self.keys)
        return tuple(word for word in self.bank if not keys.isdisjoint(word.keys))

    @property
    def shapes(self) -> frozenset[str]:
        """The names of the signs on the mat: a picture of a star is not sorted where a star is a sign."""
        return frozenset(sign.value for sign in SIGNS[: max(3, len(self.sounds) + 1)])


@dataclass(frozen=True, slots=True)
class Foil:
    """A word that begins with none of the sounds, and its own sound.

    `beside` is the key that sound is easily taken for, with what tells them apart; empty for an easy one.
    """

    word: Word
    sound: Sound
    beside: str = ""
    apart: tuple[str, ...] = ()


def words_to_sort(stock: SortWords, wanted: int | None, *, neither: bool, rng: random.Random) -> Pool:
    """Return the same number of words for every sound: `wanted`, or six, or as many as the scarcest can give.

    No key picture, nothing that looks like one or like a sign, nothing that begins with two of the sounds. With a place
    for `neither` sound, rather none that a child may call by a name with no sound of the game, as far as good words
    go; a note names the others. TeacherError where there are too few, with the number that would do.
    """
    unfit = _unfit(stock)
    number = wanted or USUAL_CARDS
    pool = _even(stock, number, unfit, rng)
    if pool is None or (wanted is not None and _each(pool, stock) < wanted):
        raise _too_few(stock, wanted, _each(pool, stock) if pool else 0, unfit, rng)
    astray = {word.word: names for word in stock.serving if neither and (names := _names_astray(word, stock))}
    if astray:
        pool = _rather_sure(stock, _each(pool, stock), unfit, astray, rng) or pool
    each = _each(pool, stock)
    few = f"Every sound has {_pictures(each)}: there are no more that go together."
    return Pool(pool.entries, ((few,) if each < number else ()) + pool.notes + tuple(_told(pool, astray)), pool.we_say)


def _even(stock: SortWords, most: int, leave_out: frozenset[str], rng: random.Random) -> Pool | None:
    """Return the same number of words for every sound, at most `most`; None where a sound has none."""
    pool = _pool(stock, most, leave_out, rng, fewer=True)
    number = _each(pool, stock) if pool else 0
    if number == most:
        return pool
    return next((found for n in range(number, 0, -1) if (found := _pool(stock, n, leave_out, rng))), None)


def _each(pool: Pool, stock: SortWords) -> int:
    """Return how many words the scarcest sound has."""
    return min(sum(entry.key == key for entry in pool.entries) for key in stock.keys)


def _rather_sure(
    stock: SortWords, each: int, unfit: frozenset[str], astray: Mapping[str, Sequence[str]], rng: random.Random
) -> Pool | None:
    """Return as many words without those that go astray, but for sounds that have too few other good ones."""
    spare = frozenset(astray) - stock.bank.preferred
    sure = _pool(stock, each, unfit | spare, rng, fewer=True)
    good = [entry.key for entry in sure.entries if entry.verdict.verdict is Fit.GOOD] if sure else []
    short = {key for key in stock.keys if good.count(key) < each}
    out = frozenset(word.word for word in stock.serving if word.word in spare and short.isdisjoint(word.keys))
    return _pool(stock, each, unfit | out, rng)


def _pool(
    stock: SortWords, number: int, leave_out: frozenset[str], rng: random.Random, *, fewer: bool = False
) -> Pool | None:
    try:
        return choose_pool(
            replace(stock.bank, words=stock.serving),
            stock.table,
            stock.keys,
            per_key=number,
            fewer=fewer,
            key_pictures=False,
            accent=stock.accent,
            rng=rng,
            careful=stock.careful,
            leave_out=leave_out,
            drawable=stock.drawable,
        )
    except TeacherError:
        return None


def _told(pool: Pool, astray: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """Yield what children may call a picture so that it would belong to neither sound; likely names are told anyway."""
    said = [
        f"{entry.word.word} (not {' or '.join(astray[entry.word.word])})"
        for entry in pool.entries
        if entry.word.word in astray and not any(f"We say {entry.word.word}," in line for line in pool.we_say)
    ]
    if said:
        yield f"Name these first, else they belong to neither: {', '.join(said)}."


def _too_few(
    stock: SortWords, wanted: int | None, most: int, leave_out: frozenset[str], rng: random.Random
) -> TeacherError:
    """Return the error that tells which sound has too few, and what would do."""
    keys = " ".join(stock.keys)
    careful = ", leave out --careful" if stock.careful else ""
    see = f"`cardgen words {keys} --all` shows what was left out, and why."
    if most:
        return TeacherError(
            f"There are not {_pictures(wanted or 1)} for every sound that go together.",
            f"{_pictures(most)} a sound would do: --cards {most}{careful}. {see}",
        )
    alone = [replace(stock, sounds=(sound,)) for sound in stock.sounds]
    empty = [one.keys[0] for one in alone if _pool(one, 1, leave_out, rng) is None]
    which = f"for {' and '.join(empty)}" if empty else "for each sound that goes with the others"
    return TeacherError(
        f"There is no picture {which} beside the key pictures.",
        f"Take another sound{careful}, or add your own pictures: --pictures FOLDER. {see}",
    )


def _pictures(number: int) -> str:
    return "1 picture" if number == 1 else f"{number} pictures"


def _unfit(stock: SortWords) -> frozenset[str]:
    """Return the words that cannot be sorted: heard under two sounds, or mixed up with a key picture on the mat."""
    on_mat, shapes = [labels(word, stock.accent) for word in stock.key_words], stock.shapes
    return frozenset(
        word.word
        for word in stock.serving
        if _is_double(word, stock) or _is_sign(word, shapes) or _clashes(word, on_mat, stock)
    )


def _is_double(word: Word, stock: SortWords) -> bool:
    readings = pronounce_known(word, stock.accent).readings
    return sum(any(sound.is_heard_in(phones) for phones in readings) for sound in stock.sounds) > 1


def _is_sign(word: Word, shapes: frozenset[str]) -> bool:
    return any(text in shapes for text in (word.word, *(n.text for n in word.also + word.also_weak + word.shows)))


def _clashes(word: Word, others: Sequence[Labels], stock: SortWords) -> bool:
    own = labels(word, stock.accent)
    return any(other.word != word.word and clash(own, other) for other in others)


def _names_astray(word: Word, stock: SortWords) -> tuple[str, ...]:
    """Return the names a child may say for a word of the game that have none of its sounds at their beginning."""
    own = next((sound for sound in stock.sounds if sound.key in word.keys), None)
    if own is None:
        return ()
    names = word.strong_names(stock.accent) + word.weak_names(stock.accent)
    return tuple(name.text for name in names if own.end or not own.is_heard_in(name.phones))


def choose_foils(
    stock: SortWords, taken: Sequence[Word], number: int, home_language: str | None, rng: random.Random
) -> tuple[Foil, ...]:
    """Return that many pictures that begin with none of the sounds, by any of their names or by things shown.

    First those whose sound speakers of the first language take for one of the game's, then those that sound close,
    then others; only good words, and none that is mixed up with another picture of the game. TeacherError where there
    are too few.
    """
    hard = _hard(stock, home_language)
    places = [labels(word, stock.accent) for word in (*stock.key_words, *taken)]
    never = stock.shapes | {sound.key_picture for sound in stock.table.sounds if sound.key_picture}
    words = [word for word in stock.bank if _is_outside(word, stock, never)]
    rng.shuffle(words)
    words.sort(key=lambda word: hard[word.keys[0]].rank if word.keys[0] in hard else len(_RANKS))
    found: list[Foil] = []
    for word in words:
        if len(found) == number:
            break
        sound = stock.table.get(word.keys[0])
        if not stock.drawable(word.picture or "") or _clashes(word, places, stock) or not _is_good(word, sound, stock):
            continue
        places.append(labels(word, stock.accent))
        near = hard.get(sound.key)
        found.append(Foil(word, sound, near.beside, near.apart) if near else Foil(word, sound))
    if len(found) < number:
        raise TeacherError(
            f"Only {_pictures(len(found))} of the bank can stand for neither sound.",
            f"Ask for fewer: --foils {len(found)}",
        )
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Near:
    rank: int
    beside: str
    apart: tuple[str, ...]


_RANKS = ("home language", "very close by ear", "close by ear")


def _hard(stock: SortWords, home_language: str | None) -> Mapping[str, _Near]:
    """Return the sounds that make hard foils, by key: how hard, beside which key of the game, and what differs."""
    at_home = [set(note.keys) for note in home_notes(stock.known, home_language)] if home_language else []
    found: dict[str, _Near] = {}
    for sound in stock.table.sounds:
        if sound.end or stock.sounds[0].end:
            continue
        ranked = []
        for own in stock.sounds:
            pair = close_by_ear(stock.known, own, sound)
            if {own.name, sound.name} in at_home:
                ranked.append((0, own))
            elif pair:
                ranked.append((1 if pair.very else 2, own))
        if ranked:
            rank, own = min(ranked, key=lambda one: one[0])
            both = contrasts(stock.table, stock.known, (own.key, sound.key), home_language)
            texts = tuple(c.text for c in both if c.by.value in ("ear", "home") and len(c.keys) > 1)
            found[sound.key] = _Near(rank, own.key, texts)
    return found


def _is_outside(word: Word, stock: SortWords, never: frozenset[str]) -> bool:
    """Return whether nothing about a word is heard, or written, as one of the sounds, whatever the accent.

    Nor is it called, or does it show, what is `never` sorted: a sign, a key picture.
    """
    if not word.picture or word.is_action or not word.keys or _is_sign(word, never):
        return False
    own = stock.table.get(word.keys[0])
    if own.end or own.key not in (own.name, own.letter):  # not by a rarer spelling: circle for s
        return False
    names = word.also + word.also_weak + word.shows
    if stock.sounds[0].end:
        # Of other names only the beginning is known: a word with one may end with anything.
        return not names and not any(sound.is_heard_in(word.phones) for sound in stock.sounds)
    firsts = {phones[0] for sound in stock.sounds for phones in sound.phones}
    letters = {sound.letter for sound in stock.sounds}
    return own.letter not in letters and not any(first in firsts for first in _first_phones(word, names))


def _first_phones(word: Word, names: Sequence[Name]) -> Iterator[str]:
    for accent in Accent:
        for phones in pronounce_known(word, accent).readings:
            yield plain(phones)[0]
    for name in names:
        yield plain(name.phones)[0]


def _is_good(word: Word, sound: Sound, stock: SortWords) -> bool:
    return judge_known(word, sound, stock.table, stock.accent).verdict is Fit.GOOD
