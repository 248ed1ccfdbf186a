"""Which cell each item stands in: every item in every cell equally often.

Boards and items form a bipartite graph; giving each edge (item on board) a cell is colouring the edges, so that every
board meets each colour once (König's theorem) and every item meets each colour ⌊r/k⌋ or ⌈r/k⌉ times, r = its places
on the set, k = cells (de Werra's equitable colouring: items are split into copies of at most k edges). This can always
be done, whatever stands on the boards, even when a symbol stands on one board twice.
"""

from collections.abc import Collection, Sequence
from random import Random


class _Colouring:
    """Edges between boards and parts (of at most `cells` edges), coloured so that no colour meets at an end twice."""

    def __init__(self, boards: int, cells: int) -> None:
        self.cells = cells
        self.part_on: list[list[int | None]] = [[None] * cells for _ in range(boards)]
        self.board_of: list[list[int | None]] = []

    def add_part(self) -> int:
        """Return the number of a new part without edges."""
        self.board_of.append([None] * self.cells)
        return len(self.board_of) - 1

    def join(self, board: int, part: int, rng: Random) -> None:
        """Add an edge in a colour free at both ends; if there is none, exchange two colours along a path."""
        at_board, at_part = self.part_on[board], self.board_of[part]
        free_there = [cell for cell in range(self.cells) if at_board[cell] is None]
        free_here = [cell for cell in free_there if at_part[cell] is None]
        if free_here:
            cell = rng.choice(free_here)
        else:
            cell = rng.choice(free_there)
            spare = rng.choice([other for other in range(self.cells) if at_part[other] is None])
            self._exchange_along_path(part, cell, spare)
        at_board[cell] = part
        at_part[cell] = board

    def _exchange_along_path(self, part: int, cell: int, spare: int) -> None:
        """Exchange two colours on the path that leaves `part` by `cell`; `spare` is free at `part`.

        The path alternates cell, spare, cell …; it reaches boards by `cell` only, so it cannot end at the board that
        has `cell` free, and after the exchange `cell` is free at `part` too.
        """
        path: list[tuple[int, int, int]] = []
        here, there = cell, spare
        board = self.board_of[part][here]
        while board is not None:
            path.append((part, board, here))
            onward = self.part_on[board][there]
            if onward is None:
                break
            part = onward
            path.append((part, board, there))
            board = self.board_of[part][here]
        for its_part, its_board, colour in path:
            self.board_of[its_part][colour] = self.part_on[its_board][colour] = None
        for its_part, its_board, colour in path:
            other = there if colour == here else here
            self.board_of[its_part][other] = its_board
            self.part_on[its_board][other] = its_part


def lay_out(sets: Sequence[Collection[int]], symbols: Sequence[int], cells: int, rng: Random) -> list[list[int]]:
    """Return the boards as rows of `cells` items, each symbol in each cell ⌊r/k⌋ or ⌈r/k⌉ times, else at random.

    `sets` are the items of each board (`cells` of them), `symbols[item]` what is printed for an item.
    """
    colouring = _Colouring(len(sets), cells)
    parts: dict[int, int] = {}
    edges: dict[int, int] = {}
    symbol_of: list[int] = []
    for board, items in enumerate(sets):
        for item in rng.sample(sorted(items), len(items)):
            symbol = symbols[item]
            if edges.get(symbol, 0) % cells == 0:
                parts[symbol] = colouring.add_part()
                symbol_of.append(symbol)
            edges[symbol] = edges.get(symbol, 0) + 1
            colouring.join(board, parts[symbol], rng)
    boards = []
    for items, row in zip(sets, colouring.part_on, strict=True):
        copies: dict[int, list[int]] = {}
        for item in sorted(items):
            copies.setdefault(symbols[item], []).append(item)
        boards.append([copies[symbol_of[part]].pop() for part in row if part is not None])
    return boards
