"""Class sets with a round symmetry, for when the boards are a multiple of the pool.

A few *base boards* are written with the numbers 0 to W − 1; shifting every number by 1, 2, … W − 1 (modulo W) gives W
boards of each. Every item then stands in every cell exactly as often as there are base boards, whatever these look
like, so that only Q and equal lines are left to search for, and on a few boards instead of all. How often two items
meet depends on their difference alone (cyclic difference families); whether two lines become equal depends on the
gaps between their numbers alone.
"""

from collections.abc import Collection, Sequence
from functools import lru_cache
from math import comb
from random import Random

from cardgen.games.balance import q_bound
from cardgen.games.concurrence import draw_slip
from cardgen.games.line_keys import goals
from cardgen.games.lines import PRICE, SLIP
from cardgen.games.quota import Pool
from cardgen.games.shape import Shape

# Perfect difference sets, by pool: all pairs differ by every number equally often. Boards are their complements.
# Singer's planes of order 3, 4 and 5, and the points of a projective space, 15 = 2⁴ − 1.
PERFECT = {13: (0, 1, 3, 9), 21: (0, 1, 4, 14, 16), 31: (0, 1, 3, 8, 12, 18), 15: (0, 1, 2, 4, 5, 8, 10)}
Gaps = tuple[int, ...]
# A line's cells, its gaps, and how many shifts leave it as it is.
Key = tuple[int, Gaps, int]


def can_be_developed(pool: Pool) -> bool:
    """Whether a pool has the symmetry that is needed: items all different, groups alike in size and share."""
    sizes = {len(pool.members(group)) for group, _ in pool.shares}
    shares = {share for _, share in pool.shares}
    return len(set(pool.symbols)) == len(pool.symbols) and len(sizes) == len(shares) == 1


def develop(boards: int, shape: Shape, pool: Pool, rng: Random, moves: int) -> list[list[int]]:
    """Return `boards` (a multiple of the pool's size) rows of pool items with few equal lines and a low Q."""
    size = len(pool.symbols)
    groups = [pool.members(group) for group, _ in pool.shares]
    bound = q_bound(boards, shape.cells, pool, dict.fromkeys(pool.symbols, boards * shape.cells // size))
    base = _Base(boards // size, shape, size, len(groups), goals(shape, boards, size), rng)
    best, best_cost = [list(row) for row in base.rows], base.cost
    for _ in range(moves):
        if base.equal == 0 and base.q <= bound:
            break
        base.try_move(rng)
        if base.cost < best_cost:
            best, best_cost = [list(row) for row in base.rows], base.cost
    # Group g has the numbers g, g + G, g + 2 G …, so that a shift hands its place on every board to the next group.
    item_of = [0] * size
    order = rng.sample(range(len(groups)), len(groups))
    for first, group in enumerate(order):
        item_of[first :: len(groups)] = rng.sample(groups[group], len(groups[group]))
    return [[item_of[(number + shift) % size] for number in row] for row in best for shift in range(size)]


@lru_cache(maxsize=1 << 16)
def gap_cycle(numbers: tuple[int, ...], size: int) -> tuple[Gaps, int]:
    """Return what all shifts of numbers modulo `size` share: their gaps, and how many shifts leave them as they are."""
    gaps = [(after - before) % size or size for before, after in zip(numbers, (*numbers[1:], numbers[0]), strict=True)]
    turns = [(*gaps[start:], *gaps[:start]) for start in range(len(gaps))]
    least = min(turns)
    return least, turns.count(least)


class _Base:
    """The base boards, and what must be known of them to weigh a move."""

    def __init__(
        self, number: int, shape: Shape, size: int, groups: int, lines: Sequence[tuple[int, ...]], rng: Random
    ) -> None:
        self.size, self.groups, self.lines, self.cells = size, groups, lines, shape.cells
        self.least, self.most = self.cells // groups, -(-self.cells // groups)
        self.rows = [self._start(rng) for _ in range(number)]
        self.absent = [set(range(size)) - set(row) for row in self.rows]
        self.filled = [self._fill(row) for row in self.rows]
        self.differences = [
            sum((b - a) % size == d for row in self.rows for a in row for b in row) for d in range(size)
        ]
        # Difference d and W − d belong to the same pairs: W of them, or W/2 for d = W/2. Hence the half of both.
        self.q = size * sum(comb(times, 2) for times in self.differences[1:]) // 2
        self.through = [[number for number, line in enumerate(lines) if cell in line] for cell in range(self.cells)]
        self.carriers: dict[Key, int] = {}
        self.keys = [[self._key(row, line) for line in lines] for row in self.rows]
        self.equal = 0
        for board in range(number):
            self.equal += self._count(self.keys[board], 1)

    @property
    def cost(self) -> int:
        """Equal lines and Q in one number."""
        return PRICE * self.equal + self.q

    def _start(self, rng: Random) -> list[int]:
        perfect = PERFECT.get(self.size, ())
        if self.groups == 1 and self.cells == self.size - len(perfect):
            row = [number for number in range(self.size) if number not in perfect]
        else:
            row = []
            for place, group in enumerate(rng.sample(range(self.groups), self.groups)):
                share = self.least + (place < self.cells - self.least * self.groups)
                row += rng.sample(range(group, self.size, self.groups), share)
        rng.shuffle(row)
        return row

    def _fill(self, row: list[int]) -> list[int]:
        """Return how many cells each group fills."""
        return [sum(number % self.groups == group for number in row) for group in range(self.groups)]

    def _key(self, row: list[int], line: tuple[int, ...]) -> Key:
        numbers: Collection[int] = [row[cell] for cell in line]
        # Whole boards are equal when what they lack is; that is fewer numbers.
        if 2 * len(line) > self.size:
            numbers = set(range(self.size)).difference(numbers)
        return len(line), *gap_cycle(tuple(sorted(numbers)), self.size)

    def _count(self, keys: Collection[Key], step: int) -> int:
        """Count lines in (1) or out (−1); return how many more pairs of lines are equal afterwards."""
        more, carriers = 0, self.carriers
        for key in keys:
            before = carriers.get(key, 0)
            carriers[key] = before + step
            others, stable = min(before, before + step), key[2]
            # A line that `stable` shifts leave as it is equals its own shifts too: stable − 1 of them.
            more += step * self.size * (2 * others * stable + stable - 1) // 2
        return more

    def try_move(self, rng: Random) -> None:
        """Exchange two cells of a base board, or one of its numbers for an absent one, unless that is worse."""
        # Q changes by multiples of W, or W/2.
        slip = self.size * draw_slip(rng, SLIP)
        board, cell = rng.randrange(len(self.rows)), rng.randrange(self.cells)
        row = self.rows[board]
        if rng.random() < 0.5:
            other = rng.randrange(self.cells)
            after = list(row)
            after[cell], after[other] = row[other], row[cell]
            touched = set(self.through[cell]) ^ set(self.through[other])
            self._weigh(board, after, sorted(touched), None, slip)
        elif self.absent[board]:
            leaving, entering = row[cell], rng.choice(sorted(self.absent[board]))
            if self._keeps_shares(board, leaving, entering):
                after = list(row)
                after[cell] = entering
                self._weigh(board, after, self.through[cell], self._changes(board, leaving, entering), slip)

    def _keeps_shares(self, board: int, leaving: int, entering: int) -> bool:
        loser, winner = leaving % self.groups, entering % self.groups
        filled = self.filled[board]
        return loser == winner or (filled[loser] > self.least and filled[winner] < self.most)

    def _changes(self, board: int, leaving: int, entering: int) -> dict[int, int]:
        """Return how often each difference comes more often; the absent numbers tell the same, and may be fewer."""
        company: Collection[int] = [number for number in self.rows[board] if number != leaving]
        if len(self.absent[board]) <= len(company):
            company = self.absent[board] - {entering}
            leaving, entering = entering, leaving
        changes: dict[int, int] = {}
        for number in company:
            for difference, step in ((number - leaving, -1), (number - entering, 1)):
                for way in (difference % self.size, -difference % self.size):
                    changes[way] = changes.get(way, 0) + step
        return changes

    def _weigh(
        self, board: int, after: list[int], touched: Sequence[int], changes: dict[int, int] | None, slip: int
    ) -> None:
        """Carry a move out if it costs no more than `slip`."""
        row, keys = self.rows[board], self.keys[board]
        old = [keys[line] for line in touched]
        new = [self._key(after, self.lines[line]) for line in touched]
        equal = self._count(old, -1) + self._count(new, 1)
        rise = sum(step * (2 * self.differences[way] + step - 1) for way, step in (changes or {}).items())
        q = self.size * rise // 4
        if PRICE * equal + q > slip:
            self._count(new, -1)
            self._count(old, 1)
            return
        self.equal += equal
        self.q += q
        for line, key in zip(touched, new, strict=True):
            keys[line] = key
        self.rows[board] = after
        if changes is not None:
            for way, step in changes.items():
                self.differences[way] += step
            self.absent[board] ^= set(row) ^ set(after)
            self.filled[board] = self._fill(after)
