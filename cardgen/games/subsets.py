"""Every set of called items at once: one bit for each of the 2^W call sets of a pool of at most 24 items.

Who has reached the goal after some calls depends on the set of called items alone, not on their order. A family of
call sets is kept in blocks, one integer a block: the block's number says which of the high items are called, the bit's
number which of the low ones. Small blocks stay in the processor's cache; a pool of 24 makes 256 of 2^16 bits.
"""

from collections.abc import Iterator
from functools import cache, reduce
from itertools import pairwise
from operator import and_, or_
from random import Random

from cardgen.games.goals import Goals, items_of

MOST_ITEMS = 24
LOW_ITEMS = 16
# Lines of all boards times call sets: a second or two. A class set is far below, a thousand boards can be above.
MOST_WORK = 2_500 << MOST_ITEMS

Family = tuple[int, ...]


def can_be_listed(goals: Goals, pool: int) -> bool:
    """Return whether the pool, and the number of lines, are small enough to look at every call set."""
    return pool <= MOST_ITEMS and sum(map(len, goals)) << pool <= MOST_WORK


class CallSets:
    """The call sets of a pool of `pool` items (at most 24; more would need too much memory)."""

    def __init__(self, pool: int) -> None:
        if not 1 <= pool <= MOST_ITEMS:
            raise ValueError(f"call sets of {pool} items cannot be listed")
        self.pool = pool
        self._low = min(pool, LOW_ITEMS)
        self._blocks = range(1 << (pool - self._low))
        self._whole = (1 << (1 << self._low)) - 1
        # Blocks of 2^item ones and 2^item zeros in turn: the call sets without that item.
        self._without = [self._whole // ((1 << (1 << item)) + 1) for item in range(self._low)]
        self._of_size = self._sizes()

    def _sizes(self) -> list[int]:
        """Return for every number of low items the bits of the call sets that have so many."""
        of_size = [1] + [0] * self._low
        for item in range(self._low):
            step = 1 << item
            of_size = [of_size[0]] + [more | (less << step) for less, more in pairwise(of_size)]
        return of_size

    def _reached(self, goals: Goals) -> Iterator[list[int]]:
        """Yield block by block, for every board, the call sets that hold one of its lines."""

        @cache
        def holding(items: int) -> int:
            called = (self._without[item] << (1 << item) for item in items_of(items))
            return reduce(and_, called, self._whole)

        low_items = (1 << self._low) - 1
        boards = [[(line >> self._low, holding(line & low_items)) for line in lines] for lines in goals]
        for called in self._blocks:
            yield [reduce(or_, [sets for high, sets in lines if not high & ~called], 0) for lines in boards]

    def any_and_all_reached(self, goals: Goals) -> tuple[Family, Family]:
        """Return the call sets after which at least one board has reached its goal, and those after which all have."""
        blocks = [(reduce(or_, boards), reduce(and_, boards)) for boards in self._reached(goals)]
        return tuple(some for some, _ in blocks), tuple(every for _, every in blocks)

    def exactly_reached(self, goals: Goals, number: int) -> Family:
        """Return the call sets after which exactly `number` boards have reached their goal."""
        return tuple(self._exactly(boards, number) for boards in self._reached(goals))

    def _exactly(self, boards: list[int], number: int) -> int:
        # A binary counter for every call set at once: counter[d] holds the d-th digits; what runs over is too many.
        counter = [0] * number.bit_length()
        over = 0
        for carry in boards:
            for digit, sets in enumerate(counter):
                counter[digit] = sets ^ carry
                carry &= sets
            over |= carry
        found = self._whole & ~over
        for digit, sets in enumerate(counter):
            found &= sets if number >> digit & 1 else ~sets
        return found

    def after_one_call(self, family: Family) -> Family:
        """Return the call sets that one more call makes from those of `family`."""
        return tuple(self._grown(family, called) for called in self._blocks)

    def _grown(self, family: Family, called: int) -> int:
        grown = 0
        for item, without in enumerate(self._without):
            grown |= (family[called] & without) << (1 << item)
        for item in items_of(called):
            grown |= family[called ^ (1 << item)]
        return grown

    def outside(self, family: Family) -> Family:
        """Return the call sets that are not in `family`."""
        return tuple(self._whole ^ block for block in family)

    def counts(self, family: Family) -> list[int]:
        """Return for every number of called items, 0 to the pool, how many call sets of that size are in `family`."""
        counts = [0] * (self.pool + 1)
        for called, block in enumerate(family):
            for size, sets in enumerate(self._of_size):
                counts[called.bit_count() + size] += (block & sets).bit_count()
        return counts

    def draw(self, family: Family, size: int, rng: Random) -> int:
        """Return a call set of `size` items drawn uniformly from `family`, as a mask; it must have one."""
        sized = [
            block & self._of_size[size - called.bit_count()] if 0 <= size - called.bit_count() <= self._low else 0
            for called, block in enumerate(family)
        ]
        rank = rng.randrange(sum(block.bit_count() for block in sized))
        for called, block in enumerate(sized):
            if rank < block.bit_count():
                return (called << self._low) | _place_of(block, rank, 1 << self._low)
            rank -= block.bit_count()
        raise AssertionError("a drawn call set must lie in some block")

    def contains(self, family: Family, called: int) -> bool:
        """Return whether the call set `called`, a mask, is in `family`."""
        return bool(family[called >> self._low] >> (called & ((1 << self._low) - 1)) & 1)


def both(one: Family, other: Family) -> Family:
    """Return the call sets that are in both families."""
    return tuple(map(and_, one, other))


def _place_of(block: int, rank: int, width: int) -> int:
    """Return which bit of `block` (2^n = `width` bits) is its set bit number `rank`, counted from 0: by halving."""
    place = 0
    while width > 1:
        width //= 2
        lower = block & ((1 << width) - 1)
        if rank < lower.bit_count():
            block = lower
        else:
            rank -= lower.bit_count()
            block >>= width
            place += width
    return place
