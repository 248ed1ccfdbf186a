"""Packs to take home: what is in each, which earlier sounds come back, and who gets which words."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from random import Random

from cardgen.errors import TeacherError
from cardgen.games.balance import q_bound
from cardgen.games.concurrence import spread_meetings
from cardgen.games.pieces import BLANK, Card, CardFace, Cover, Link
from cardgen.games.quota import Pool as Stock
from cardgen.games.quota import deal_sets
from cardgen.request import Face, PackRequest, ReviewMode
from cardgen.request.pack import USUAL_CARDS
from cardgen.words.pool import PoolWord
from cardgen.words.sounds import Sound

REVIEW_SHARE = 3  # one picture of so many is of an earlier sound
MOVES = 150_000  # exchanges weighed to let words meet evenly
WORDS_APART = 2  # packs that differ choose from so many times the words of one

# The link to the recording of a sound (by its key) or of one of its words; None where there is none.
LinkOf = Callable[[str, str | None], Link | None]


@dataclass(frozen=True, slots=True)
class Makeup:
    """What a pack has: letters of the lesson's sounds (`capitals` too), pictures of them and of earlier sounds."""

    cards: int
    capitals: bool
    new: int
    earlier: int
    comebacks: tuple[str, ...]

    @property
    def pictures(self) -> int:
        """All pictures of a pack."""
        return self.new + self.earlier


def makeup(request: PackRequest) -> Makeup:
    """Return what the packs of a request have; TeacherError where so few cards do not take so many sounds."""
    sounds = len(request.keys)
    least = 1 + 2 * sounds + bool(request.review)
    cards = request.cards or -(-least // USUAL_CARDS) * USUAL_CARDS
    if cards < least:
        raise TeacherError(
            f"A pack of {cards} cards is too small for {sounds} sounds: each needs its letter and a picture.",
            f"Ask for {least} or more: --cards {least}",
        )
    # Pairs of letters where there is room for them, and where one sound alone leaves a place free.
    capitals = sounds == 1 or (request.is_large and cards >= 1 + 4 * sounds)
    pictures = cards - 1 - sounds * (2 if capitals else 1)
    earlier = max(1, pictures // REVIEW_SHARE) if request.review else 0
    comebacks = coming_back(request.review, request.review_mode, earlier, vary=request.vary)
    return Makeup(cards, capitals, pictures - earlier, earlier, comebacks)


def coming_back(review: Sequence[str], mode: ReviewMode, places: int, *, vary: bool) -> tuple[str, ...]:
    """Return which earlier sounds come back, given in the order they were taught, the latest last.

    Evenly: all of them where packs differ, else as many as there are places, from the latest evenly back to the first.
    At growing gaps: that of the last lesson, and of 2, 4, 8 … lessons ago.
    """
    back = list(reversed(review))
    if mode is ReviewMode.GROWING:
        ago = [2**power for power in range(len(back)) if 2**power <= len(back)]
        return tuple(back[lessons - 1] for lessons in ago)[: places or None]
    if vary or len(back) <= places:
        return tuple(back)
    return tuple(back[place * (len(back) - 1) // max(1, places - 1)] for place in range(places))


def quotas(total: int, keys: Sequence[str]) -> dict[str, int]:
    """Return how many of `total` pictures each key has, as even as can be, the first keys taking what is over."""
    share, over = divmod(total, len(keys)) if keys else (0, 0)
    return {key: share + (place < over) for place, key in enumerate(keys)}


def same_words(stock: Sequence[PoolWord], wanted: Mapping[str, int]) -> list[PoolWord]:
    """Return the words of packs that are all the same: as many of each key as wanted, or as there are.

    What a scarce key lacks is taken from the others of the same sort, in their order.
    """
    chosen = [entry for key, number in wanted.items() for entry in _of(stock, key)[:number]]
    spare = [entry for entry in stock if entry.key in wanted and entry not in chosen]
    chosen += spare[: sum(wanted.values()) - len(chosen)]
    return sorted(chosen, key=lambda entry: list(wanted).index(entry.key))


def _of(stock: Sequence[PoolWord], key: str) -> list[PoolWord]:
    return [entry for entry in stock if entry.key == key]


def varied_words(
    stock: Sequence[PoolWord], parts: Sequence[tuple[Sequence[str], int]], packs: int, rng: Random
) -> list[list[PoolWord]]:
    """Return the words of each pack: of every part (some keys, how many pictures), each word as often as any other.

    Within a part a word is in ⌊n⌋ or ⌈n⌉ packs, n its exact share; two words meet in as few or many packs as any two,
    as far as a fixed number of exchanges brings it.
    """
    dealt: list[list[PoolWord]] = [[] for _ in range(packs)]
    for keys, pictures in parts:
        words = [entry for key in keys for entry in _of(stock, key)]
        cells = min(pictures, len(words))
        if not cells:
            continue
        groups = [list(keys).index(entry.key) for entry in words]
        items = Stock.of(range(len(words)), groups)
        sets = deal_sets(packs, cells, items, rng)
        places = Counter(item for taken in sets for item in taken)
        spread_meetings(sets, items.groups, q_bound(packs, cells, items, places), rng, MOVES)
        for pack, taken in zip(dealt, sets, strict=True):
            pack += [words[item] for item in sorted(taken)]
    return dealt


def pack_cards(
    made: Makeup,
    sounds: Sequence[Sound],
    words: Sequence[PoolWord],
    cover: Cover,
    request: PackRequest,
    link_of: LinkOf,
    *,
    backs: bool,
) -> tuple[Card, ...]:
    """Return the cards of one pack: cover, letters, pictures sound by sound, empty ones to draw where words run out."""
    letters = {sound.key: sound.letter for sound in sounds}
    cards = [Card("cover", CardFace(cover=cover))]
    for sound in sounds:
        if sound.key in request.keys:
            shown = dict.fromkeys((sound.letter, sound.capital) if made.capitals else (sound.letter,))
            back = _coded(link_of(sound.key, None), sound.letter) if backs else BLANK
            cards += [Card(letter, CardFace(letter=letter), back) for letter in shown]
    for entry in words:
        word = entry.word
        note = word.word if request.show is Face.PICTURE_WORD and not backs else ""
        link = link_of(entry.key, word.word) if backs else None
        back = _coded(link, letters[entry.key]) if link else CardFace(word=word.word) if backs else BLANK
        cards.append(Card(f"{entry.key}-{word.word}", CardFace(picture=word.picture, alt=word.alt, note=note), back))
    empty = made.cards - len(cards)
    cards += [Card(f"draw-{number}", CardFace(to_draw=True)) for number in range(1, empty + 1)]
    return tuple(cards)


def _coded(link: Link | None, letter: str) -> CardFace:
    return CardFace(code=link, letter=letter) if link else BLANK
