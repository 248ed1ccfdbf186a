"""The order of calls of a bingo game: left to chance, or chosen so that the win comes when it is wanted."""

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from cardgen.games.call_search import SearchFinder
from cardgen.games.exact_calls import ExactFinder
from cardgen.games.goals import Goals, check_goals
from cardgen.games.length import length as random_length
from cardgen.games.openings import Finder, Opening, Wish, asked_opening, nearest_first_win, on_calls
from cardgen.games.pieces import Length
from cardgen.games.subsets import can_be_listed


@dataclass(frozen=True, slots=True)
class Order:
    """The calls of one game, up to the one on which the last board reaches its goal.

    `calls` are items (in a game by counts: symbols) by number; `won_on` is each board's call, counted from 1; `notes`
    are for the teacher.
    """

    calls: tuple[int, ...]
    won_on: tuple[int, ...]
    notes: tuple[str, ...] = ()


def replay(goals: Goals, calls: Sequence[int]) -> tuple[int | None, ...]:
    """Play a game and return for every board the call (from 1) on which it reached its goal, None if it did not."""
    won_on: list[int | None] = [None] * len(goals)
    called = 0
    waiting = list(range(len(goals)))
    for number, item in enumerate(calls, start=1):
        called |= 1 << item
        for board in waiting:
            if any(not line & ~called for line in goals[board]):
                won_on[board] = number
        waiting = [board for board in waiting if won_on[board] is None]
    return tuple(won_on)


def choose_order(
    goals: Goals,
    pool: int,
    rng: Random,
    *,
    winners: int | None,
    first_win: tuple[int, int] | None,
    together: int | None,
) -> Order:
    """Return an order of the pool's items in which the win comes as the teacher asks.

    `winners`: exactly so many boards win first; `first_win`: on a call between these two. Without `winners` a single
    one is preferred; without `first_win` a call between the 50th and the 90th percentile of a game left to chance.
    `together` alone: all boards win within so many calls. TeacherError says what can be had instead. For class sets
    with a pool of at most 24 items a refusal is proven; else it says that none was found. ValueError for boards
    without lines or outside the pool.
    """
    check_goals(goals, pool)
    wish = Wish(winners, first_win, together)

    def usual_calls() -> tuple[int, int]:
        first = random_length(goals, pool, rng).first
        return first.p50, first.p90

    order = _played(goals, pool, asked_opening(_finder(goals, pool, rng), wish, usual_calls), rng)
    wish.check(order.won_on)
    return order


def default_order(goals: Goals, pool: int, rng: Random, line_goal: bool, length: Length) -> Order:
    """Return a good order when the teacher asks for nothing.

    In a line game one board alone wins first, between the 50th and the 90th percentile of `length.first`; where that
    cannot be had, on the nearest call that was found, with a note. A game for full boards is left to chance.
    """
    check_goals(goals, pool)
    if not line_goal:
        return _played(goals, pool, Opening((), ()), rng)
    first = length.first
    opening = nearest_first_win(_finder(goals, pool, rng), 1, first.p50, first.p90)
    order = _played(goals, pool, opening or Opening((), ()), rng)
    call = min(order.won_on)
    if opening:
        Wish(winners=1).check(order.won_on)
    if opening and first.p50 <= call <= first.p90:
        return order
    wanted = f"One first winner {on_calls(range(first.p50, first.p90 + 1))} was not found with these boards"
    winners = order.won_on.count(call)
    note = f"{wanted}: the first win is on call {call}, by {'one board' if winners == 1 else f'{winners} boards'}."
    return Order(order.calls, order.won_on, (note,))


def _finder(goals: Goals, pool: int, rng: Random) -> Finder:
    return ExactFinder(goals, pool, rng) if can_be_listed(goals, pool) else SearchFinder(goals, pool, rng)


def _played(goals: Goals, pool: int, opening: Opening, rng: Random) -> Order:
    """Return the game that begins with the opening and goes on by chance until every board has won."""
    opened = {*opening.before, *opening.window}
    rest = [item for item in range(pool) if item not in opened]
    calls = [item for part in (opening.before, opening.window, rest) for item in rng.sample(part, len(part))]
    won_on = everyone_won(replay(goals, calls))
    return Order(tuple(calls[: max(won_on)]), won_on)


def everyone_won(won_on: Sequence[int | None]) -> tuple[int, ...]:
    """Return the calls on which the boards won; with all items called every board must have."""
    calls = tuple(call for call in won_on if call is not None)
    if len(calls) < len(won_on):
        raise AssertionError("a board cannot be won although everything was called")
    return calls
