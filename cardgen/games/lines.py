"""No line twice: two boards with the same line, or all the same items, always win together.

The boards come in balanced and stay so. Two kinds of move keep every item as frequent, and as often in each cell, as
rounding allows: a *chain* exchanges the same two cells on a few boards, an *exchange* lets two boards give each other
the items of one cell.
"""

from collections.abc import Sequence
from math import comb
from random import Random

from cardgen.games.concurrence import exchange_change, meetings, note_exchange
from cardgen.games.quota import Pool
from cardgen.games.shape import Shape

# Of five moves four are chains, which leave the items of every board, and so Q, as they are.
CHAINS = 0.8
# A chain takes in no more boards than this.
LONGEST_CHAIN = 6
# Two equal lines weigh as much as this many points of Q.
PRICE = 2
# A move may make things worse by 1 with this chance, by 2 with its square, and so on; not in the last fifth of a walk.
SLIP = 1 / 4
STEADY = 0.8
# The list of crowded lines is made anew after this many moves.
ROUND = 32

# A board, one of its lines, and what is added to that line's key.
Change = tuple[int, int, int]


def goals(shape: Shape, boards: int, pool: int) -> tuple[tuple[int, ...], ...]:
    """Return the lines of cells that no two boards should share: the winning ones, and the whole board if it can be."""
    whole = tuple(range(shape.cells))
    return (*shape.lines, whole) if boards <= comb(pool, shape.cells) else shape.lines


def part_lines(boards: list[list[int]], shape: Shape, pool: Pool, rng: Random, moves: int) -> None:
    """Move items on and between `boards` (rows of pool items), in place, until no two lines are equal or moves end.

    Every item stays as frequent and every group keeps its cells on each board; positions stay even if they were. Two
    boards that differ are never made to carry the same items, and Q rises by little.
    """
    state = _State(boards, goals(shape, len(boards), len(pool.symbols)), pool)
    crowded: list[tuple[int, int]] = []
    for move in range(moves):
        if move % ROUND == 0:
            crowded = state.crowded()
            if not crowded:
                return
        board, line = crowded[rng.randrange(len(crowded))]
        if not state.is_crowded(board, line):
            continue
        slip = draw_slip(rng) if move < STEADY * moves else 0
        cells = state.lines[line]
        cell = cells[rng.randrange(len(cells))]
        if len(cells) < shape.cells and rng.random() < CHAINS:
            other = rng.choice(state.outside[line])
            state.try_chain(board, cell, other, slip, rng)
        else:
            state.try_exchange(board, rng.randrange(len(boards)), cell, slip)


def draw_slip(rng: Random) -> int:
    """Return how much worse the next move may be: a whole number, so that every machine decides alike."""
    slip = 0
    while rng.random() < SLIP:
        slip += 1
    return slip


class _State:
    """The boards, and what must be known of them to weigh a move without counting everything anew."""

    def __init__(self, boards: list[list[int]], lines: Sequence[tuple[int, ...]], pool: Pool) -> None:
        self.boards = boards
        self.lines = lines
        self.symbols = pool.symbols
        self.groups = pool.groups
        self.sets = [set(row) for row in boards]
        self.table = meetings(self.sets, len(pool.symbols))
        cells = range(len(boards[0]))
        self.outside = [[cell for cell in cells if cell not in line] for line in lines]
        self.through = [[number for number, line in enumerate(lines) if cell in line] for cell in cells]
        self.apart = [
            [[line for line in lines_here if line not in there] for there in self.through]
            for lines_here in self.through
        ]
        self.standing: dict[int, list[list[int]]] = {symbol: [[] for _ in cells] for symbol in pool.symbols}
        for board, row in enumerate(boards):
            for cell, item in enumerate(row):
                self.standing[self.symbols[item]][cell].append(board)
        totals = {symbol: sum(map(len, places)) for symbol, places in self.standing.items()}
        self.least = {symbol: total // len(cells) for symbol, total in totals.items()}
        self.most = {symbol: -(-total // len(cells)) for symbol, total in totals.items()}
        # A line's key is the sum of its items' weights: three bits count each symbol, the whole board may need more.
        bits = max(3, len(cells).bit_length())
        number = {symbol: index for index, symbol in enumerate(dict.fromkeys(pool.symbols))}
        self.weight = [1 << (bits * number[symbol]) for symbol in pool.symbols]
        self.keys = [[sum(self.weight[row[cell]] for cell in line) for line in lines] for row in boards]
        self.carriers: dict[int, int] = {}
        for key in (key for keys in self.keys for key in keys):
            self.carriers[key] = self.carriers.get(key, 0) + 1

    def crowded(self) -> list[tuple[int, int]]:
        """Return every (board, line) whose items another line holds too."""
        return [
            (board, line)
            for board, keys in enumerate(self.keys)
            for line, key in enumerate(keys)
            if self.carriers[key] > 1
        ]

    def is_crowded(self, board: int, line: int) -> bool:
        """Whether another line holds the same items."""
        return self.carriers[self.keys[board][line]] > 1

    def try_chain(self, board: int, cell: int, other: int, slip: int, rng: Random) -> None:
        """Exchange two cells on this board, and on as many more as keep the positions even, if that is no worse."""
        chain = self._chain(board, cell, other, rng)
        if not chain:
            return
        changes = []
        for link in chain:
            row = self.boards[link]
            gain = self.weight[row[other]] - self.weight[row[cell]]
            changes += [(link, line, gain) for line in self.apart[cell][other]]
            changes += [(link, line, -gain) for line in self.apart[other][cell]]
        if PRICE * self._rekey(changes) > slip:
            self._unkey(changes)
            return
        for link in chain:
            row = self.boards[link]
            for item, origin, goal in ((row[cell], cell, other), (row[other], other, cell)):
                places = self.standing[self.symbols[item]]
                places[origin].remove(link)
                places[goal].append(link)
            row[cell], row[other] = row[other], row[cell]

    def _chain(self, board: int, cell: int, other: int, rng: Random) -> list[int]:
        """Return boards on which exchanging `cell` and `other` together keeps every position even; [] if none is found.

        `out` has moved from `cell` to `other` on the boards so far, `back` the other way, and everything between
        them has moved both ways. While one of the two is then too often in its new cell, a further board moves it back.
        """
        symbols, boards = self.symbols, self.boards
        out, back = symbols[boards[board][cell]], symbols[boards[board][other]]
        chain = [board]
        while out != back:
            out_fits, back_fits = self._fits(out, cell, other), self._fits(back, other, cell)
            if out_fits and back_fits:
                break
            if len(chain) == LONGEST_CHAIN:
                return []
            mover, origin, goal, closes = (back, other, cell, out) if out_fits else (out, cell, other, back)
            links = [link for link in self.standing[mover][goal] if link not in chain]
            other_fits = out_fits or back_fits
            ends = [
                link
                for link in links
                if (follower := symbols[boards[link][origin]]) == closes
                or (other_fits and self._fits(follower, origin, goal))
            ]
            if not links:
                return []
            chain.append(rng.choice(ends or links))
            follower = symbols[boards[chain[-1]][origin]]
            out, back = (out, follower) if out_fits else (follower, back)
        return chain if len(chain) > 1 or out != back else []

    def _fits(self, symbol: int, origin: int, goal: int) -> bool:
        """Whether a symbol may go once from one cell to another and still stand evenly."""
        places = self.standing[symbol]
        return len(places[origin]) > self.least[symbol] and len(places[goal]) < self.most[symbol]

    def try_exchange(self, one: int, two: int, cell: int, slip: int) -> None:
        """Let two boards give each other their items of one cell, if equal lines and Q together are no worse."""
        mine, yours = self.boards[one][cell], self.boards[two][cell]
        if mine in self.sets[two] or yours in self.sets[one] or self.groups[mine] != self.groups[yours]:
            return
        only_one, only_two = self.sets[one] - self.sets[two], self.sets[two] - self.sets[one]
        gain = self.weight[yours] - self.weight[mine]
        if self._makes_twins(one, gain) or self._makes_twins(two, -gain):
            return
        changes = [(one, line, gain) for line in self.through[cell]]
        changes += [(two, line, -gain) for line in self.through[cell]]
        more_equal = self._rekey(changes)
        more_meetings = exchange_change(self.table, mine, yours, only_one, only_two)
        if PRICE * more_equal + more_meetings > slip:
            self._unkey(changes)
            return
        note_exchange(self.table, mine, yours, only_one, only_two)
        for board, other, loss, gained in ((one, two, mine, yours), (two, one, yours, mine)):
            self.boards[board][cell] = gained
            self.sets[board] ^= {loss, gained}
            places = self.standing[self.symbols[loss]][cell]
            places.remove(board)
            places.append(other)

    def _makes_twins(self, board: int, gain: int) -> bool:
        """Whether a board would carry the same items as another, where all boards can differ."""
        last = len(self.lines) - 1
        return (
            len(self.lines[last]) == len(self.boards[board]) and self.carriers.get(self.keys[board][last] + gain, 0) > 0
        )

    def _rekey(self, changes: list[Change]) -> int:
        """Add to the keys of lines (board, line, gain); return how many more pairs of lines are equal afterwards."""
        carriers, keys, more = self.carriers, self.keys, 0
        for board, line, _ in changes:
            key = keys[board][line]
            held = carriers[key] - 1
            carriers[key] = held
            more -= held
        for board, line, gain in changes:
            key = keys[board][line] + gain
            keys[board][line] = key
            held = carriers.get(key, 0)
            carriers[key] = held + 1
            more += held
        return more

    def _unkey(self, changes: list[Change]) -> None:
        self._rekey([(board, line, -gain) for board, line, gain in changes])
