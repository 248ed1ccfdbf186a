"""Pages to draw lines on: orders in which no pair stands straight across, a different one on every page."""

import random
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from cardgen.errors import TeacherError
from cardgen.games.matching import LETTERS_KNOWN, shares
from cardgen.games.pieces import Card, LinePage, Pair
from cardgen.request import PairKind

MOST_ROWS = 6
SHUFFLES = 400
BESIDE = 0.5  # of a row: nearer than that a line would run straight across
LONGEST_RUN = 2  # pictures of one letter one below the other


def line_pages(pairs: Sequence[Pair], kind: PairKind, versions: int, rng: random.Random) -> tuple[LinePage, ...]:
    """Return `versions` times the pages that hold all pairs, at most six a page, no two pages alike.

    TeacherError where there are not as many different orders, saying how many there are.
    """
    few = kind is PairKind.PICTURES and len({pair.key for pair in pairs}) < LETTERS_KNOWN
    dealt = shares(pairs, MOST_ROWS, kind)
    seen: set[LinePage] = set()
    pages = []
    for version in range(versions):
        for share in dealt:
            orders = (_few(share, rng) if few else _rows(share, rng)) if len(share) > 1 else iter(())
            page = next((page for page in orders if page not in seen), None)
            if page is None:
                found = version or 1
                raise TeacherError(
                    f"There are only {found} different orders of {len(share)} pairs in which none stands straight "
                    "across."
                    if version
                    else f"{len(share)} pairs cannot be set so that none stands straight across.",
                    f"Ask for fewer pages (--pages {found}), or for more pairs." if version else "Ask for more pairs.",
                )
            seen.add(page)
            pages.append(page)
    return tuple(_numbered(page, number) for number, page in enumerate(pages, 1))


def _numbered(page: LinePage, number: int) -> LinePage:
    return LinePage(number, page.left, page.right, page.lines, page.few)


def _rows(pairs: Sequence[Pair], rng: random.Random) -> Iterator[LinePage]:
    """Yield pages with one thing on the right for each on the left; the example leads from row 1 to row 2.

    Mates may not share a row. Orders in which all lines run alike are kept for the last: they would be a pattern to
    follow without looking.
    """
    kept = []
    for _ in range(SHUFFLES):
        on_left = rng.sample(range(len(pairs)), len(pairs))
        on_right = rng.sample(range(len(pairs)), len(pairs))
        left, right = [None, *on_left], [on_right[0], None, *on_right[1:]]
        lines = tuple((place, right.index(pair)) for place, pair in enumerate(left) if pair is not None)
        if any(a == b for a, b in lines):
            continue
        page = LinePage(0, _cards(pairs, left, 0), _cards(pairs, right, 1), lines)
        steps = Counter(b - a for a, b in lines)
        if max(steps.values()) > 2:
            kept.append(page)
            continue
        yield page
    yield from kept


def _cards(pairs: Sequence[Pair], order: Sequence[int | None], side: int) -> tuple[Card | None, ...]:
    return tuple(None if pair is None else pairs[pair].cards[side] for pair in order)


def _few(pairs: Sequence[Pair], rng: random.Random) -> Iterator[LinePage]:
    """Yield pages with several pictures to one letter; no picture stands straight across from its own letter.

    Kept for the last: orders with a picture half a row off its letter, and those with long runs of one letter.
    """
    letters = {pair.key: pair.one.front for pair in pairs}
    kept = []
    for _ in range(SHUFFLES):
        keys = rng.sample(list(letters), len(letters))
        order = rng.sample(list(pairs), len(pairs))
        left = tuple(Card(letters[key].letter or "", letters[key]) for key in keys)
        lines = tuple(sorted((keys.index(pair.key), row) for row, pair in enumerate(order)))
        page = LinePage(0, left, tuple(pair.other for pair in order), lines, few=True)
        nearest = min(abs(page.left_rows[letter] - row) for letter, row in lines)
        if nearest < BESIDE:
            continue
        if nearest > BESIDE and _longest_run([pair.key for pair in order]) <= LONGEST_RUN:
            yield page
        else:
            kept.append(page)
    yield from kept


def _longest_run(keys: Sequence[str]) -> int:
    longest = run = 1
    for before, key in pairwise(keys):
        run = run + 1 if key == before else 1
        longest = max(longest, run)
    return longest
