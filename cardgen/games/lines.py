"""No line twice: two boards with the same line, or all the same items, always win together.

The boards come in balanced and stay so. Two kinds of move keep every item as frequent, and as often in each cell, as
rounding allows: a *chain* exchanges the same two cells on a few boards, an *exchange* lets two boards give each other
their items of one cell.
"""

from collections.abc import Sequence
from random import Random

from cardgen.games.concurrence import draw_slip, exchange_change, meetings, note_exchange
from cardgen.games.line_keys import Change, LineKeys, goals
from cardgen.games.quota import Pool, odd_cells
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
# The list of crowded lines is made anew after this many moves; on large sets after one for every eight boards.
ROUND = 32


def part_lines(boards: list[list[int]], shape: Shape, pool: Pool, rng: Random, moves: int) -> None:
    """Move items on and between `boards` (rows of pool items), in place, until no two lines are equal or moves end.

    Every item stays as frequent and every group keeps its share of each board; positions stay even if they were. Where
    all boards can differ, none is made to carry the same items as another. Q rises by little.
    """
    state = _State(boards, goals(shape, len(boards), len(pool.symbols)), pool)
    crowded: list[tuple[int, int]] = []
    round_of_moves = max(ROUND, len(boards) // 8)
    for move in range(moves):
        if move % round_of_moves == 0:
            crowded = state.keys.crowded()
            if not crowded:
                return
        board, line = crowded[rng.randrange(len(crowded))]
        if not state.keys.is_crowded(board, line):
            continue
        slip = draw_slip(rng, SLIP) if move < STEADY * moves else 0
        cell = rng.choice(state.lines[line])
        if state.outside[line] and rng.random() < CHAINS:
            state.try_chain(board, cell, rng.choice(state.outside[line]), slip, rng)
        else:
            state.try_exchange(board, rng.randrange(len(boards)), cell, slip)


class _State:
    """The boards, and what must be known of them to weigh a move without counting everything anew."""

    def __init__(self, boards: list[list[int]], lines: Sequence[tuple[int, ...]], pool: Pool) -> None:
        cells = range(len(boards[0]))
        self.boards, self.lines = boards, lines
        self.symbols, self.groups = pool.symbols, pool.groups
        self.keys = LineKeys(boards, lines, pool.symbols)
        self.sets = [set(row) for row in boards]
        self.odd = odd_cells(self.sets, pool.groups)
        self.table = meetings(self.sets, len(pool.symbols))
        self.outside = [[cell for cell in cells if cell not in line] for line in lines]
        self.through = [[number for number, line in enumerate(lines) if cell in line] for cell in cells]
        self.whole = next((number for number, line in enumerate(lines) if len(line) == len(cells)), None)
        # On which boards a symbol stands in a cell, and how many those should be.
        self.standing: dict[int, list[list[int]]] = {symbol: [[] for _ in cells] for symbol in pool.symbols}
        for board, row in enumerate(boards):
            for cell, item in enumerate(row):
                self.standing[self.symbols[item]][cell].append(board)
        totals = {symbol: sum(map(len, places)) for symbol, places in self.standing.items()}
        self.least = {symbol: total // len(cells) for symbol, total in totals.items()}
        self.most = {symbol: -(-total // len(cells)) for symbol, total in totals.items()}

    def try_chain(self, board: int, cell: int, other: int, slip: int, rng: Random) -> None:
        """Exchange two cells on this board, and on as many more as keep the positions even, if that is no worse."""
        chain = self._chain(board, cell, other, rng)
        changes = [change for link in chain for change in self._swap_changes(link, cell, other)]
        if PRICE * self.keys.change(changes) > slip:
            self.keys.undo(changes)
            return
        for link in chain:
            row = self.boards[link]
            for item, origin, goal in ((row[cell], cell, other), (row[other], other, cell)):
                places = self.standing[self.symbols[item]]
                places[origin].remove(link)
                places[goal].append(link)
            row[cell], row[other] = row[other], row[cell]

    def _swap_changes(self, board: int, cell: int, other: int) -> list[Change]:
        """Return what exchanging two cells does to the lines that go through one of them only."""
        row, here, there = self.boards[board], self.through[cell], self.through[other]
        gain = self.keys.weight[row[other]] - self.keys.weight[row[cell]]
        changes = [(board, line, gain) for line in here if line not in there]
        return changes + [(board, line, -gain) for line in there if line not in here]

    def _chain(self, board: int, cell: int, other: int, rng: Random) -> list[int]:
        """Return boards on which exchanging `cell` and `other` together keeps every position even; [] if none is found.

        `out` has moved from `cell` to `other` on the boards so far, `back` the other way, and everything between
        them has moved both ways. While one of the two does not fit its new cell, a further board moves it back.
        """
        chain = [board]
        out, back = self._symbol(board, cell), self._symbol(board, other)
        if out == back:
            return []
        while out != back:
            out_fits, back_fits = self._fits(out, cell, other), self._fits(back, other, cell)
            if out_fits and back_fits:
                break
            if out_fits:
                link = self._link(chain, back, other, cell, out, True, rng)
            else:
                link = self._link(chain, out, cell, other, back, back_fits, rng)
            if link is None or len(chain) == LONGEST_CHAIN:
                return []
            chain.append(link)
            if out_fits:
                back = self._symbol(link, other)
            else:
                out = self._symbol(link, cell)
        return chain

    def _link(
        self, chain: list[int], mover: int, origin: int, goal: int, closing: int, closing_fits: bool, rng: Random
    ) -> int | None:
        """Return a board where `mover` goes back from `goal` to `origin`, if possible one that ends the chain.

        The chain ends when what takes its place is `closing`, the symbol at the chain's other end, or when both fit.
        """
        links = [link for link in self.standing[mover][goal] if link not in chain]
        ends = []
        for link in links:
            follower = self._symbol(link, origin)
            if follower == closing or (closing_fits and self._fits(follower, origin, goal)):
                ends.append(link)
        return rng.choice(ends or links) if links else None

    def _symbol(self, board: int, cell: int) -> int:
        return self.symbols[self.boards[board][cell]]

    def _fits(self, symbol: int, origin: int, goal: int) -> bool:
        """Whether a symbol may go once from one cell to another and still stand evenly."""
        places = self.standing[symbol]
        return len(places[origin]) > self.least[symbol] and len(places[goal]) < self.most[symbol]

    def try_exchange(self, one: int, two: int, cell: int, slip: int) -> None:
        """Let two boards give each other their items of one cell, if equal lines and Q together are no worse.

        Boards with the same items are parted at any price: if the whole board is the goal, they always win together.
        """
        mine, yours = self.boards[one][cell], self.boards[two][cell]
        gain = self.keys.weight[yours] - self.keys.weight[mine]
        if not self._may_exchange(one, two, mine, yours) or self._makes_twins(one, two, gain):
            return
        parts_twins = self._is_twin(one) or self._is_twin(two)
        changes = [(one, line, gain) for line in self.through[cell]]
        changes += [(two, line, -gain) for line in self.through[cell]]
        only_one, only_two = self.sets[one] - self.sets[two], self.sets[two] - self.sets[one]
        worse = PRICE * self.keys.change(changes) + exchange_change(self.table, mine, yours, only_one, only_two)
        if worse > slip and not parts_twins:
            self.keys.undo(changes)
            return
        note_exchange(self.table, mine, yours, only_one, only_two)
        for board, other, loss, gained in ((one, two, mine, yours), (two, one, yours, mine)):
            self.boards[board][cell] = gained
            self.sets[board] ^= {loss, gained}
            if self.groups[loss] != self.groups[gained]:
                self.odd[board] ^= {self.groups[loss], self.groups[gained]}
            places = self.standing[self.symbols[loss]][cell]
            places.remove(board)
            places.append(other)

    def _may_exchange(self, one: int, two: int, mine: int, yours: int) -> bool:
        """Whether each board lacks the other's item, and the exchange is within a group or of two odd cells."""
        if mine in self.sets[two] or yours in self.sets[one]:
            return False
        loss, gain = self.groups[mine], self.groups[yours]
        odd_one, odd_two = self.odd[one], self.odd[two]
        return loss == gain or (loss in odd_one and loss not in odd_two and gain in odd_two and gain not in odd_one)

    def _is_twin(self, board: int) -> bool:
        """Whether a board carries the same items as another, where all boards can differ."""
        return self.whole is not None and self.keys.is_crowded(board, self.whole)

    def _makes_twins(self, one: int, two: int, gain: int) -> bool:
        """Whether one of two boards would carry the same items as another, where all boards can differ."""
        if self.whole is None:
            return False
        return self.keys.is_taken(one, self.whole, gain) or self.keys.is_taken(two, self.whole, -gain)
