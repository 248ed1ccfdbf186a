"""Matching: which things make a pair, and in which order they stand on a page to draw lines on.

Every picture goes with one letter of the game only, by its first sound: two sounds that no ear tells apart, or that are
written alike, cannot stand in one game.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from cardgen.errors import TeacherError
from cardgen.games.halves import CurveWord, letter_words, other_words, words_for
from cardgen.games.pieces import Card, CardFace, Pair
from cardgen.request import Accent, CutLine, MatchRequest, PairKind
from cardgen.words.bank import Bank
from cardgen.words.contrast import same_sound
from cardgen.words.first_sound import pronounce_known
from cardgen.words.pool import Pool
from cardgen.words.sounds import Sound, SoundTable

LETTERS_KNOWN = 4  # common practice, no source: with fewer, matching letters is over in a moment
MOST_SIGNS = 35  # patterns of 2 × 3 blocks, no two alike when turned


def settle(request: MatchRequest, table: SoundTable) -> PairKind:
    """Return what is matched with what; TeacherError where it would not be clear what belongs together."""
    sounds = table.several(request.all_keys)
    kind = request.pairs or _usual(request)
    if kind is PairKind.WORDS:
        return kind
    if len(sounds) < 2:
        raise TeacherError(
            f"With {sounds[0].key} alone everything belongs together: there is nothing to choose.",
            "Name another sound, or an older one: --review t. With one sound, pictures and words: --pairs words",
        )
    _check_letters(sounds)
    if kind is PairKind.PICTURES:
        _check_ear(table, request.all_keys)
    return kind


def _usual(request: MatchRequest) -> PairKind:
    counted = request.count is not None or request.pairs_per is not None
    return PairKind.LETTERS if len(request.all_keys) >= LETTERS_KNOWN and not counted else PairKind.PICTURES


def _check_letters(sounds: Sequence[Sound]) -> None:
    by_letter: dict[str, str] = {}
    for sound in sounds:
        other = by_letter.setdefault(sound.letter, sound.key)
        if other != sound.key:
            raise TeacherError(
                f"{other} and {sound.key} are both written {sound.letter}: nobody can tell which card is meant.",
                "Take only one of them, or match pictures with words: --pairs words",
            )


def _check_ear(table: SoundTable, keys: tuple[str, ...]) -> None:
    for a, b in same_sound(table, keys):
        raise TeacherError(
            f"{a} and {b} sound the same, so a picture would go with both letters.",
            "Take only one of them, or match small letters with capitals: --pairs letters",
        )
    ends = [sound.key for sound in table.several(keys) if sound.end]
    starts = [sound.key for sound in table.several(keys) if not sound.end]
    if ends and starts:
        raise TeacherError(
            f"{' and '.join(ends)} is heard at the end of words, {' and '.join(starts)} at the start: a picture of a "
            "fox would go with f and with x.",
            "Make two games, or match small letters with capitals: --pairs letters",
        )


def heard_twice(bank: Bank, table: SoundTable, keys: tuple[str, ...], accent: Accent) -> frozenset[str]:
    """Return the words that begin with two sounds of the game: queen goes with qu and with k.

    TeacherError where a sound has no other words.
    """
    sounds = table.several(keys)
    found: dict[str, Sound] = {}
    for sound in sounds:
        others = [other for other in sounds if other.name != sound.name]
        own = [word for word in bank.words_for(sound.key) if word.picture]
        twice = {}
        for word in own:
            reading = pronounce_known(word, accent).readings[0]
            both = next((other for other in others if other.is_heard_in(reading)), None)
            if both:
                twice[word.word] = both
        if own and len(twice) == len(own):
            example, other = next(iter(twice.items()))
            raise TeacherError(
                f"Every word of {sound.key} begins with the sound of {other.key} too: {example} would go with both.",
                "Take only one of them, or match small letters with capitals: --pairs letters",
            )
        found |= twice
    return frozenset(found)


def how_many(request: MatchRequest, room: int) -> int:
    """Return how many pairs of each sound fill `room` places for pairs well: at least one."""
    return max(1, room // len(request.all_keys))


def letter_pairs(sounds: Sequence[Sound]) -> tuple[Pair, ...]:
    """Return the small letter and the capital of every sound."""
    return tuple(Pair(sound.key, _letter(sound.letter), _letter(sound.capital)) for sound in sounds)


def _letter(letter: str, name: str = "") -> Card:
    return Card(name or letter, CardFace(letter=letter))


def picture_pairs(sounds: Sequence[Sound], pool: Pool) -> tuple[Pair, ...]:
    """Return a letter card with every picture: `m`, or `m-1`, `m-2` where a letter has several pictures."""
    letters = {sound.key: sound.letter for sound in sounds}
    often, seen = Counter(entry.key for entry in pool.entries), Counter[str]()
    pairs = []
    for entry in pool.entries:
        seen[entry.key] += 1
        letter = letters[entry.key]
        name = letter if often[entry.key] == 1 else f"{letter}-{seen[entry.key]}"
        picture = Card(f"{entry.key}-{entry.word.word}", CardFace(picture=entry.word.picture, alt=entry.word.alt))
        pairs.append(Pair(entry.key, _letter(letter, name), picture, entry.word.word))
    return tuple(pairs)


def word_pairs(pool: Pool) -> tuple[Pair, ...]:
    """Return a word card with every picture."""
    return tuple(
        Pair(
            entry.key,
            Card(f"{entry.key}-{entry.word.word}", CardFace(picture=entry.word.picture, alt=entry.word.alt)),
            Card(entry.word.word, CardFace(word=entry.word.word)),
            entry.word.word,
        )
        for entry in pool.entries
    )


def with_curves(pairs: Sequence[Pair], kind: PairKind, cut_line: CutLine) -> tuple[Pair, ...]:
    """Return the pairs of halves, each with the digits of its cut; TeacherError for more pairs than there are curves.

    A letter has one curve: where several pictures go with it, every right half fits, and no wrong one.
    """
    if cut_line is CutLine.STRAIGHT:
        return tuple(pairs)
    if kind is PairKind.WORDS:
        curves: Sequence[CurveWord] = (*letter_words(), *other_words())
        if len(pairs) > len(curves):
            raise TeacherError(
                f"There are cut lines for {len(curves)} pairs, not for {len(pairs)}.",
                f"Ask for fewer pairs (--count {len(curves)}), or straight cuts: --cut-line straight",
            )
        return tuple(replace(pair, curve=curve) for pair, curve in zip(pairs, curves, strict=False))
    keys = tuple(dict.fromkeys(pair.key for pair in pairs))
    of_key = dict(zip(keys, words_for(keys), strict=True))
    return tuple(replace(pair, curve=of_key[pair.key]) for pair in pairs)


def with_signs(pairs: Sequence[Pair], kind: PairKind) -> tuple[Pair, ...]:
    """Return the pairs with a common sign on both backs; all cards of one letter share theirs.

    TeacherError for more than there are signs.
    """
    groups = [pair.one.id if kind is PairKind.WORDS else pair.key for pair in pairs]
    number = {group: place for place, group in enumerate(dict.fromkeys(groups), 1)}
    if len(number) > MOST_SIGNS:
        raise TeacherError(
            f"There are signs for {MOST_SIGNS} pairs, not for {len(number)}.",
            f"Ask for fewer pairs (--count {MOST_SIGNS}), or leave out --self-check.",
        )
    return tuple(_signed(pair, number[group]) for pair, group in zip(pairs, groups, strict=True))


def _signed(pair: Pair, number: int) -> Pair:
    back = CardFace(pattern=number)
    return replace(pair, one=replace(pair.one, back=back), other=replace(pair.other, back=back), sign=number)


def shares(pairs: Sequence[Pair], most: int, kind: PairKind) -> tuple[tuple[Pair, ...], ...]:
    """Return the pairs dealt out to as few pages of at most `most` as can be, as evenly as can be.

    With few letters every page has pictures of all of them; else no letter stands on a page twice, except with words.
    TeacherError where a page would be left with one pair.
    """
    often = Counter(pair.key for pair in pairs)
    pages = -(-len(pairs) // most)
    if kind is PairKind.PICTURES and len(often) >= LETTERS_KNOWN:
        pages = max(pages, *often.values())
    order = list(dict.fromkeys(pair.key for pair in pairs))
    by_key = sorted(pairs, key=lambda pair: order.index(pair.key))
    dealt = tuple(tuple(by_key[page::pages]) for page in range(pages))
    if any(len(share) < 2 or (kind is PairKind.PICTURES and len({pair.key for pair in share}) < 2) for share in dealt):
        raise TeacherError(
            f"{len(pairs)} pairs do not make {pages} pages to draw lines on: one would have nothing to choose.",
            f"Ask for another number, for example --count {most}.",
        )
    return dealt
