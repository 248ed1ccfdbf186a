"""Openings by looking at every call set: pools of at most 24 items, so that what is refused is proven impossible."""

from functools import cached_property
from random import Random

from cardgen.games.goals import Goals, full_boards, items_of, most_at_once, shortest_line
from cardgen.games.openings import Opening
from cardgen.games.subsets import CallSets, Family, both


class ExactFinder:
    """Finds openings among all call sets; among those with the same number of calls each is equally likely."""

    proven = True

    def __init__(self, goals: Goals, pool: int, rng: Random) -> None:
        self._goals = goals
        self._sets = CallSets(pool)
        self._rng = rng
        self._some, self._every = self._sets.any_and_all_reached(goals)
        self._winning: dict[int | None, Family] = {}
        self.calls = pool
        self.line_game = not full_boards(goals)
        self.earliest = shortest_line(goals)
        self.most_at_once = most_at_once(goals, pool)

    @cached_property
    def _nobody(self) -> Family:
        return self._sets.outside(self._some)

    @cached_property
    def _after_nobody(self) -> Family:
        return self._sets.after_one_call(self._nobody)

    def _first_wins(self, winners: int | None) -> Family:
        """Return the call sets, the deciding call included, with which a first win by so many boards can come."""
        if winners not in self._winning:
            won = self._some if winners is None else self._sets.exactly_reached(self._goals, winners)
            self._winning[winners] = both(self._after_nobody, won)
        return self._winning[winners]

    def calls_with(self, winners: int | None) -> list[int]:
        """Return all calls on which so many boards can win first."""
        return [call for call, number in enumerate(self._sets.counts(self._first_wins(winners))) if number]

    def elsewhere(self, winners: int | None, earliest: int, latest: int) -> list[int]:
        """Return the calls before `earliest` or after `latest` on which so many boards can win first."""
        return [call for call in self.calls_with(winners) if not earliest <= call <= latest]

    def first_win(self, winners: int | None, earliest: int, latest: int) -> Opening | None:
        """Return an opening with so many first winners on a call from `earliest` to `latest`, None if there is none."""
        calls = [call for call in self.calls_with(winners) if earliest <= call <= latest]
        if not calls:
            return None
        called = self._sets.draw(self._first_wins(winners), self._rng.choice(calls), self._rng)
        return self._opening(called, [self._nobody])

    def _opening(self, called: int, steps: list[Family]) -> Opening:
        """Take from `called` one item a step, backwards, so that what is left lies in that step's family."""
        window = []
        for family in reversed(steps):
            items = [item for item in items_of(called) if self._sets.contains(family, called ^ (1 << item))]
            window.append(self._rng.choice(items))
            called ^= 1 << window[-1]
        return Opening(tuple(items_of(called)), tuple(window))

    def together(self, span: int) -> Opening | None:
        """Return an opening in whose window of `span` calls (or all there are) every board wins, None if none can."""
        steps = [self._nobody]
        while len(steps) < min(span, self.calls):
            steps.append(self._sets.after_one_call(steps[-1]))
        done = both(self._sets.after_one_call(steps[-1]), self._every)
        sizes = [size for size, number in enumerate(self._sets.counts(done)) if number]
        if not sizes:
            return None
        return self._opening(self._sets.draw(done, self._rng.choice(sizes), self._rng), steps)

    def least_span(self) -> int:
        """Return the fewest calls from the first win to the last, both included."""
        span, family = 1, self._after_nobody
        while not any(both(family, self._every)):
            span, family = span + 1, self._sets.after_one_call(family)
        return span
