"""Openings by local search: for pools too large to look at every call set. Not to find one proves nothing.

The items stand in three zones: called before the window, in it, and after it. A move exchanges items of two zones, or
slides the window one call earlier or later. A move that makes it worse is taken now and then, so that the search gets
out of dead ends. It stops after a number of moves and starts anew a few times.
"""

from collections.abc import Callable, Sequence
from functools import reduce
from operator import or_
from random import Random

from cardgen.games.goals import Goals, full_boards, items_of, most_at_once, shortest_line
from cardgen.games.openings import Opening

STARTS = 4
# Moves in one start, and lines counted anew by them: large sets get fewer moves.
MOST_MOVES = 10_000
WORK = 500_000
# One in so many moves that make it worse by one is taken; by two, one in the square of it; by more than MUCH, none.
RARELY = 40
MUCH = 3

BEFORE, WINDOW, AFTER = range(3)
# From the boards that have won before the window, and by its end, to how far that is from what is wanted.
Cost = Callable[[int, int], int]


class Lines:
    """The lines of all boards: each one's board and number of items, and by item the lines that it stands in."""

    def __init__(self, goals: Goals, pool: int) -> None:
        self.boards = len(goals)
        self.board_of = [board for board, lines in enumerate(goals) for _ in lines]
        self.sizes = [line.bit_count() for lines in goals for line in lines]
        self.with_item: list[list[int]] = [[] for _ in range(pool)]
        for number, line in enumerate(line for lines in goals for line in lines):
            for item in items_of(line):
                self.with_item[item].append(number)


class Tally:
    """What a set of called items means for the boards, kept up to date call by call: `won` boards have a line."""

    def __init__(self, lines: Lines) -> None:
        self.won = 0
        self._lines_with = lines.with_item
        self._board_of = lines.board_of
        self._missing = lines.sizes.copy()
        self._complete = [0] * lines.boards

    def call(self, item: int) -> None:
        """Count the item as called."""
        for line in self._lines_with[item]:
            self._missing[line] -= 1
            if not self._missing[line]:
                board = self._board_of[line]
                self._complete[board] += 1
                self.won += self._complete[board] == 1

    def take_back(self, item: int) -> None:
        """Count the item as not called."""
        for line in self._lines_with[item]:
            if not self._missing[line]:
                board = self._board_of[line]
                self._complete[board] -= 1
                self.won -= self._complete[board] == 0
            self._missing[line] += 1


class Zones:
    """Which items are called before the window, in it and after it."""

    def __init__(self, lines: Lines, zones: Sequence[Sequence[int]]) -> None:
        self.items = [list(zone) for zone in zones]
        self.early, self.late = Tally(lines), Tally(lines)
        for item in self.items[BEFORE]:
            self.early.call(item)
        for item in self.items[BEFORE] + self.items[WINDOW]:
            self.late.call(item)

    def shift(self, item: int, source: int, goal: int) -> None:
        """Move an item from one zone to another."""
        self.items[source].remove(item)
        self.items[goal].append(item)
        if source == BEFORE:
            self.early.take_back(item)
        elif goal == BEFORE:
            self.early.call(item)
        if goal == AFTER:
            self.late.take_back(item)
        elif source == AFTER:
            self.late.call(item)


class SearchFinder:
    """Finds openings by local search."""

    proven = False

    def __init__(self, goals: Goals, pool: int, rng: Random) -> None:
        self._goals = goals
        self._rng = rng
        self.calls = pool
        self.line_game = not full_boards(goals)
        self.earliest = shortest_line(goals)
        self.most_at_once = most_at_once(goals, pool)
        self._lines = Lines(goals, pool)
        # A move counts the lines through two items anew, and through both again if it is taken back.
        self._moves = min(MOST_MOVES, WORK * pool // (4 * sum(self._lines.sizes)))
        self._closest: Opening | None = None

    def first_win(self, winners: int | None, earliest: int, latest: int) -> Opening | None:
        """Return an opening with so many first winners on a call in that range, None if none was found."""
        earliest, latest = max(earliest, self.earliest), min(latest, self.calls)
        if earliest > latest or (winners or 1) > self.most_at_once:
            return None

        def cost(early: int, late: int) -> int:
            return 2 * early + (abs(late - winners) if winners is not None else late == 0)

        for _ in range(STARTS):
            call = self._rng.randint(earliest, latest)
            items = self._with_lines(winners or 1, call)
            zones = Zones(self._lines, (items[: call - 1], items[call - 1 : call], items[call:]))
            if self._improve(zones, cost, range(earliest - 1, latest)):
                return Opening(tuple(zones.items[BEFORE]), tuple(zones.items[WINDOW]))
        return None

    def _with_lines(self, winners: int, calls: int) -> list[int]:
        """Return all items by chance, but the first `calls` of them complete lines of so many boards, if they fit.

        The boards share the last of these items, so that they win on the same call.
        """
        rng = self._rng
        boards = rng.sample(self._goals, len(self._goals))
        last = self._shared_item(winners)
        wanted = 1 << last
        for lines in boards:
            fitting = [line for line in lines if line >> last & 1 and (line | wanted).bit_count() <= calls]
            if fitting and winners:
                wanted |= min(rng.sample(fitting, len(fitting)), key=lambda line: (line & ~wanted).bit_count())
                winners -= 1
        first = [item for item in items_of(wanted) if item != last]
        rest = [item for item in range(self.calls) if not wanted >> item & 1]
        items = first + rng.sample(rest, len(rest))
        items.insert(calls - 1, last)
        return items

    def _shared_item(self, boards: int) -> int:
        """Return an item that stands on at least so many boards, drawn by chance."""
        items = [reduce(or_, lines) for lines in self._goals]
        return self._rng.choice(
            [item for item in range(self.calls) if sum(board >> item & 1 for board in items) >= boards]
        )

    def _improve(self, zones: Zones, cost: Cost, before: range) -> bool:
        """Make moves until the cost is nought; return whether it has come to that."""
        now = cost(zones.early.won, zones.late.won)
        for _ in range(self._moves):
            if not now:
                return True
            shifts = self._moves_of(zones, before)
            for shift in shifts:
                zones.shift(*shift)
            then = cost(zones.early.won, zones.late.won)
            worse = then - now
            if worse <= 0 or (worse <= MUCH and not self._rng.randrange(RARELY**worse)):
                now = then
            else:
                for item, source, goal in shifts:
                    zones.shift(item, goal, source)
        return not now

    def _moves_of(self, zones: Zones, before: range) -> list[tuple[int, int, int]]:
        """Return one move, drawn by chance, as shifts of an item from one zone to another."""
        size, window, after = map(len, zones.items)
        pairs = ((BEFORE, WINDOW), (BEFORE, AFTER), (WINDOW, AFTER))
        moves = [(one, other, one) for one, other in pairs if zones.items[one] and zones.items[other]]
        if window and size > before[0]:
            moves.append((BEFORE, WINDOW, AFTER))
        if window and size < before[-1] and after:
            moves.append((AFTER, WINDOW, BEFORE))
        source, via, goal = self._rng.choice(moves)
        return [
            (self._rng.choice(zones.items[source]), source, via),
            (self._rng.choice(zones.items[via]), via, goal),
        ]

    def elsewhere(self, winners: int | None, earliest: int, latest: int) -> list[int]:
        """Return, in a list, the latest other call on which so many boards were found to win first, if any."""
        last = self.longest_without() + 1
        found = self._latest(winners, latest + 1, last) or self._latest(winners, self.earliest, min(earliest - 1, last))
        return [found] if found else []

    def _latest(self, winners: int | None, low: int, high: int) -> int | None:
        """Return the latest call found from `low` to `high`: on any of them first, then in ever shorter ends."""
        latest = None
        while low <= high:
            middle = (low + high + 1) // 2 if latest else low
            opening = self.first_win(winners, middle, high)
            if opening:
                latest = len(opening.before) + 1
                low = latest + 1
            else:
                high = middle - 1
        return latest

    def longest_without(self) -> int:
        """Return the most calls without a win that were found: from a few calls on, one more at a time."""
        zones = Zones(self._lines, ([], [], self._shuffled()))
        while zones.items[AFTER] and self._improve(zones, _boards_too_early, range(1)):
            zones.shift(self._rng.choice(zones.items[AFTER]), AFTER, BEFORE)
        return len(zones.items[BEFORE]) - 1

    def together(self, span: int) -> Opening | None:
        """Return an opening in whose window of at most `span` calls every board wins, None if none was found."""
        for _ in range(STARTS):
            if self._closest is None or len(self._closest.window) > span:
                self._draw_together(span)
        return self._closest if self._closest and len(self._closest.window) <= span else None

    def _draw_together(self, span: int) -> None:
        """Shorten the window from the whole game call by call, down to `span`, and remember the shortest found."""

        def cost(early: int, late: int) -> int:
            return early + self._lines.boards - late

        zones = Zones(self._lines, ([], self._shuffled(), []))
        while self._improve(zones, cost, range(self.calls)):
            window = len(zones.items[WINDOW])
            if self._closest is None or window < len(self._closest.window):
                self._closest = Opening(tuple(zones.items[BEFORE]), tuple(zones.items[WINDOW]))
            if window <= span:
                return
            zones.shift(self._rng.choice(zones.items[WINDOW]), WINDOW, self._rng.choice((BEFORE, AFTER)))

    def least_span(self) -> int:
        """Return the fewest calls from the first win to the last that were found."""
        return len(self._closest.window) if self._closest else self.calls

    def _shuffled(self) -> list[int]:
        return self._rng.sample(range(self.calls), self.calls)


def _boards_too_early(early: int, _late: int) -> int:
    return early
