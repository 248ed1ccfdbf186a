"""Sorting by first sound: which sounds can be sorted, in which order the cards are drawn, where each belongs."""

import random
from collections.abc import Sequence
from itertools import combinations

from cardgen.errors import TeacherError
from cardgen.games.orders import orders_without_runs
from cardgen.games.pieces import Card, CardFace, SideSign, SortGame, SortItem, SortSide
from cardgen.games.sorting_words import SIGNS, Foil
from cardgen.words.bank import Word
from cardgen.words.pool import PoolWord
from cardgen.words.sounds import Sound

LONGEST_RUN = 2
MOST_DRAWS = 1000  # at worst one order in three goes round by turns: so many in a row never happen


def check_sounds(sounds: Sequence[Sound]) -> None:
    """Refuse sounds that no ear can sort, by TeacherError: one sound with two letters, starts mixed with ends."""
    ends = [sound.key for sound in sounds if sound.end]
    starts = [sound.key for sound in sounds if not sound.end]
    if ends and starts:
        raise TeacherError(
            f"{' and '.join(ends)} can be heard only at the end of words, {' and '.join(starts)} at the start: they "
            "cannot be sorted by ear in one game (fox begins with f and ends with x).",
            "Sort by sounds at the start, for example m s, or by sounds at the end: x ng",
        )
    for a, b in combinations(sounds, 2):
        if a.name == b.name:
            raise TeacherError(
                f"{a.key} and {b.key} sound the same, so nobody can sort them by ear.",
                "Take only one of them, and a sound that differs, for example: "
                f"cardgen sort {a.key} {'m' if a.key != 'm' else 's'}",
            )
        for one, other in ((a, b), (b, a)):
            if not one.end and other.is_heard_in(one.phones[0]):
                raise TeacherError(
                    f"Words with {one.key} begin with the sound of {other.key}, so nobody can sort them by ear.",
                    f"Sort {one.key} and {other.key} in different weeks, each beside another sound.",
                )


def goes_round(order: Sequence[int], kinds: int) -> bool:
    """Return whether an order goes by turns from end to end, at least twice round: m s m s; m s t m s t."""
    return len(order) >= 2 * kinds and all(order[i] == order[i - kinds] for i in range(kinds, len(order)))


def drawing_order(counts: Sequence[int], rng: random.Random) -> tuple[int, ...]:
    """Return an order of things of several kinds, `counts[k]` of kind k, by their numbers.

    No kind comes more than twice in a row, and the kinds do not go by turns from end to end. Every such order is
    equally likely: one that goes round is drawn anew. ValueError where there is none.
    """
    for _ in range(MOST_DRAWS):
        order = orders_without_runs(counts, LONGEST_RUN, rng)
        if not goes_round(order, len(counts)):
            return order
    raise ValueError(f"{list(counts)} can only go by turns")


def most_foils(cards: int) -> int:
    """Return how many foils can stand among so many cards without more than two in a row."""
    return LONGEST_RUN * (cards + 1)


def sort_game(
    sounds: Sequence[Sound],
    words: Sequence[PoolWord],
    foils: Sequence[Foil],
    key_words: dict[str, Word],
    *,
    with_letters: bool,
    rng: random.Random,
) -> SortGame:
    """Return the game: every word on a card, its side's sign on the back, in a fair drawing order.

    `with_letters` adds the letter card and key picture of every sound, for a blank mat.
    """
    sides = tuple(
        _side(sound, sign, key_words.get(sound.key), sum(entry.key == sound.key for entry in words))
        for sound, sign in zip(sounds, SIGNS, strict=False)
    )
    sign = SIGNS[max(2, len(sounds))]
    neither = SortSide(None, sign, None, None, "", len(foils)) if foils else None
    heaps = [
        [(f"{sound.key}-{entry.word.word}", entry.word, side, sound) for entry in words if entry.key == sound.key]
        for sound, side in zip(sounds, sides, strict=True)
    ]
    if neither:
        heaps.append([(f"{foil.sound.key}-{foil.word.word}", foil.word, neither, foil.sound) for foil in foils])
    order = drawing_order([len(heap) for heap in heaps], rng)
    for heap in heaps:
        rng.shuffle(heap)
    ends = sounds[0].end
    items = tuple(_item(number, *heaps[kind].pop(), ends=ends) for number, kind in enumerate(order, 1))
    lay = tuple(card for side in sides for card in _to_lay(side)) if with_letters else ()
    return SortGame(sides, neither, items, lay, ends)


def _side(sound: Sound, sign: SideSign, key_word: Word | None, places: int) -> SortSide:
    picture, alt = (key_word.picture, key_word.alt) if key_word else (None, "")
    return SortSide(sound.key, sign, (sound.capital, sound.letter), picture, alt, places)


def _item(number: int, card_id: str, word: Word, side: SortSide, sound: Sound, *, ends: bool) -> SortItem:
    card = Card(card_id, CardFace(picture=word.picture, alt=word.alt), CardFace(word=word.word, sign=side.sign))
    # Of a word that ends with none of the sounds only the first sound is known.
    said = "" if ends and side.key is None else f"{sound.say}, {'held' if sound.held else 'short'}"
    return SortItem(number, card, word.word, side.key, side.sign, said)


def _to_lay(side: SortSide) -> list[Card]:
    """Return the letter card and the key picture that lie in the dotted squares of a blank mat."""
    found = []
    if side.letters:
        found.append(Card("".join(side.letters), CardFace(pair=side.letters), CardFace(sign=side.sign)))
    if side.picture:
        found.append(
            Card(f"{side.key}-{side.picture}", CardFace(picture=side.picture, alt=side.alt), CardFace(sign=side.sign))
        )
    return found
