"""The order of calls of a game by counts: left to chance, or with the win when it is wanted.

Whether a board is full depends on how often each symbol has been called: openings are looked for among these count
vectors. Up to 100,000 of them are looked at one and all, so that a refusal is proven; beyond, those that random games
come by.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import product
from math import comb, prod
from operator import and_
from random import Random

from cardgen.games.calls import Order, everyone_won
from cardgen.games.counts import Needs, check_counts, full_groups, length_by_counts, replay_counts
from cardgen.games.openings import Opening, Wish, asked_opening

MOST_VECTORS = 100_000
SAMPLED_GAMES = 1_000
REPAIRS = 2_000

Vector = tuple[int, ...]


def order_by_counts(
    needs: Needs,
    supply: Sequence[int],
    rng: Random,
    *,
    winners: int | None = None,
    first_win: tuple[int, int] | None = None,
    together: int | None = None,
) -> Order:
    """Return an order of the symbols' calls, no symbol more than twice in a row wherever that is possible.

    Chance decides unless something is asked for, as in `choose_order`; TeacherError says what can be had instead.
    ValueError for boards without cells, or with more of a symbol than can be called.
    """
    check_counts(needs, supply)
    wish = Wish(winners, first_win, together)

    def usual_calls() -> tuple[int, int]:
        first = length_by_counts(needs, supply, rng).first
        return first.p50, first.p90

    opening = Opening((), ())
    if wish != Wish():
        opening = asked_opening(CountFinder(needs, supply, rng), wish, usual_calls)
    opened = Counter(opening.before + opening.window)
    rest = [symbol for symbol, copies in enumerate(supply) for _ in range(copies - opened[symbol])]
    calls = without_runs([opening.before, opening.window, rest], rng)
    won_on = everyone_won(replay_counts(needs, calls))
    wish.check(won_on)
    return Order(tuple(calls[: max(won_on)]), won_on)


def without_runs(parts: Sequence[Sequence[int]], rng: Random) -> list[int]:
    """Return the parts one after the other, each by chance, with as few threes in a row as exchanges can reach."""
    calls: list[int] = []
    part_at: list[range] = []
    for part in parts:
        part_at += [range(len(calls), len(calls) + len(part))] * len(part)
        calls += rng.sample(part, len(part))
    threes = _threes(calls)
    for _ in range(REPAIRS):
        if not threes:
            break
        here = rng.choice(threes) + rng.randrange(3)
        there = rng.choice(part_at[here])
        calls[here], calls[there] = calls[there], calls[here]
        changed = _threes(calls)
        if len(changed) <= len(threes):
            threes = changed
        else:
            calls[here], calls[there] = calls[there], calls[here]
    return calls


def _threes(calls: Sequence[int]) -> list[int]:
    """Return the places at which three equal calls in a row begin."""
    triples = zip(calls, calls[1:], calls[2:], strict=False)
    return [place for place, triple in enumerate(triples) if len(set(triple)) == 1]


class CountFinder:
    """Finds openings among count vectors, each as likely as chance would bring it about on that call."""

    line_game = False

    def __init__(self, needs: Needs, supply: Sequence[int], rng: Random) -> None:
        self._supply = tuple(supply)
        self._rng = rng
        self._full = [
            full_groups([board[symbol] for board in needs], copies) for symbol, copies in enumerate(self._supply)
        ]
        self._everything = tuple(map(max, zip(*needs, strict=True)))
        self.calls = sum(supply)
        self.earliest = min(map(sum, needs))
        self.most_at_once = max(sum(map(bool, of_symbol)) for of_symbol in zip(*needs, strict=True))
        self.proven = prod(copies + 1 for copies in supply) <= MOST_VECTORS
        vectors = product(*(range(copies + 1) for copies in supply)) if self.proven else self._visited()
        self._nobody = [vector for vector in dict.fromkeys(vectors) if not self._boards_full(vector)]
        self._winning: dict[int | None, dict[int, list[tuple[Vector, int]]]] = {}

    def _visited(self) -> Iterator[Vector]:
        """Yield the count vectors of random games, each up to its first full board."""
        copies = [symbol for symbol, number in enumerate(self._supply) for _ in range(number)]
        for _ in range(SAMPLED_GAMES):
            vector = (0,) * len(self._supply)
            for symbol in self._rng.sample(copies, len(copies)):
                if self._boards_full(vector):
                    break
                yield vector
                vector = _one_more(vector, symbol)

    def _boards_full(self, vector: Vector) -> int:
        return reduce(and_, [full[called] for full, called in zip(self._full, vector, strict=True)])

    def _chance(self, vector: Vector) -> int:
        """Return in how many ways the copies can have been called so often."""
        return prod(map(comb, self._supply, vector))

    def _first_wins(self, winners: int | None) -> dict[int, list[tuple[Vector, int]]]:
        """Return by the call of the first win, with so many winners, the vectors before it and the symbol called."""
        if winners not in self._winning:
            wins: dict[int, list[tuple[Vector, int]]] = {}
            for vector in self._nobody:
                for symbol, full in self._next_full(vector):
                    if winners in (None, full):
                        wins.setdefault(sum(vector) + 1, []).append((vector, symbol))
            self._winning[winners] = wins
        return self._winning[winners]

    def _next_full(self, vector: Vector) -> Iterator[tuple[int, int]]:
        """Yield the symbols whose next call fills the first boards, with the number of these boards."""
        for symbol, (called, full) in enumerate(zip(vector, self._full, strict=True)):
            if called + 1 < len(full) and full[called + 1] != full[called]:
                boards = self._boards_full(_one_more(vector, symbol)).bit_count()
                if boards:
                    yield symbol, boards

    def first_win(self, winners: int | None, earliest: int, latest: int) -> Opening | None:
        """Return an opening with so many first winners on a call in that range, None if none was found."""
        wins = self._first_wins(winners)
        calls = [call for call in sorted(wins) if earliest <= call <= latest]
        if not calls:
            return None
        found = wins[self._rng.choice(calls)]
        chances = [self._chance(vector) * (self._supply[symbol] - vector[symbol]) for vector, symbol in found]
        vector, symbol = self._rng.choices(found, chances)[0]
        return Opening(_symbols(vector), (symbol,))

    def elsewhere(self, winners: int | None, earliest: int, latest: int) -> list[int]:
        """Return the calls before `earliest` or after `latest` on which so many boards were found to win first."""
        return [call for call in sorted(self._first_wins(winners)) if not earliest <= call <= latest]

    def _missing(self, vector: Vector) -> Vector:
        """Return how often each symbol must still be called until every board is full."""
        return tuple(max(0, need - called) for need, called in zip(self._everything, vector, strict=True))

    def together(self, span: int) -> Opening | None:
        """Return an opening in whose window of at most `span` calls every board is filled, None if none was found."""
        near = [vector for vector in self._nobody if sum(self._missing(vector)) <= span]
        if not near:
            return None
        vector = self._rng.choices(near, [self._chance(vector) for vector in near])[0]
        return Opening(_symbols(vector), _symbols(self._missing(vector)))

    def least_span(self) -> int:
        """Return the fewest calls from the first win to the last that were found, both included."""
        return min(sum(self._missing(vector)) for vector in self._nobody)


def _one_more(vector: Vector, symbol: int) -> Vector:
    return (*vector[:symbol], vector[symbol] + 1, *vector[symbol + 1 :])


def _symbols(vector: Vector) -> tuple[int, ...]:
    """Return each symbol as often as the vector says."""
    return tuple(symbol for symbol, called in enumerate(vector) for _ in range(called))
