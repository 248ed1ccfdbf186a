"""Which lines of a class set hold the same items, kept up to date while items move."""

from collections.abc import Sequence
from math import comb

from cardgen.games.shape import Shape

# A board, one of its lines, and what is added to that line's key.
Change = tuple[int, int, int]


def goals(shape: Shape, boards: int, pool: int) -> tuple[tuple[int, ...], ...]:
    """Return the lines of cells that no two boards should share: the winning ones, and the whole board if it can be."""
    whole = tuple(range(shape.cells))
    return (*shape.lines, whole) if boards <= comb(pool, shape.cells) else shape.lines


class LineKeys:
    """Every line of every board as one number, its key: the sum of the weights of its items.

    A weight leaves room to count its symbol, so that two lines have one key only if they hold the same symbols, each
    equally often. When an item leaves a line for another, the key changes by the difference of two weights.
    """

    def __init__(self, boards: Sequence[Sequence[int]], lines: Sequence[Sequence[int]], symbols: Sequence[int]) -> None:
        bits = max(map(len, lines)).bit_length()
        place = {symbol: index for index, symbol in enumerate(dict.fromkeys(symbols))}
        self.weight = [1 << (bits * place[symbol]) for symbol in symbols]
        self.keys = [[sum(self.weight[board[cell]] for cell in line) for line in lines] for board in boards]
        self.carriers: dict[int, int] = {}
        for keys in self.keys:
            for key in keys:
                self.carriers[key] = self.carriers.get(key, 0) + 1

    def crowded(self) -> list[tuple[int, int]]:
        """Return every (board, line) whose items another line holds too."""
        carriers = self.carriers
        return [
            (board, line) for board, keys in enumerate(self.keys) for line, key in enumerate(keys) if carriers[key] > 1
        ]

    def is_crowded(self, board: int, line: int) -> bool:
        """Whether another line holds the same items."""
        return self.carriers[self.keys[board][line]] > 1

    def is_taken(self, board: int, line: int, gain: int) -> bool:
        """Whether a line holds what this one would hold if its key changed by `gain`."""
        return self.carriers.get(self.keys[board][line] + gain, 0) > 0

    def change(self, changes: Sequence[Change]) -> int:
        """Change the keys of some lines, each once; return how many more pairs of lines are equal afterwards."""
        carriers, keys, more = self.carriers, self.keys, 0
        for board, line, _ in changes:
            key = keys[board][line]
            others = carriers[key] - 1
            carriers[key] = others
            more -= others
        for board, line, gain in changes:
            key = keys[board][line] + gain
            keys[board][line] = key
            others = carriers.get(key, 0)
            carriers[key] = others + 1
            more += others
        return more

    def undo(self, changes: Sequence[Change]) -> None:
        """Take `changes` back."""
        self.change([(board, line, -gain) for board, line, gain in changes])
