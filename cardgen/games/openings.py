"""Choosing the moment of the first win, or of everybody's: what may be asked, what can be had, and how to say so."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from cardgen.errors import TeacherError


@dataclass(frozen=True, slots=True)
class Opening:
    """The calls that decide: those `before` in any order, then those of the `window` in any order."""

    before: tuple[int, ...]
    window: tuple[int, ...]


class Finder(Protocol):
    """Finds openings for one set of boards; `proven` when not to find one proves that there is none."""

    @property
    def proven(self) -> bool:
        """Whether every order was looked at."""

    @property
    def line_game(self) -> bool:
        """Whether the goal is a line, not the full board."""

    @property
    def calls(self) -> int:
        """How many calls there are in all."""

    @property
    def earliest(self) -> int:
        """The fewest calls in which any board can win."""

    @property
    def most_at_once(self) -> int:
        """How many boards one call can concern at most."""

    def first_win(self, winners: int | None, earliest: int, latest: int) -> Opening | None:
        """Return an opening whose window is the one call, `earliest` to `latest`, on which so many boards win first.

        `winners` None: any number of boards from one.
        """

    def elsewhere(self, winners: int | None, earliest: int, latest: int) -> Sequence[int]:
        """Return the calls before `earliest` or after `latest` on which so many boards can win first.

        All of them if proven, else the latest that was found.
        """

    def together(self, span: int) -> Opening | None:
        """Return an opening in whose window, of at most `span` calls, every board wins."""

    def least_span(self) -> int:
        """Return the fewest calls from the first win to the last that can be had, or that were found."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What the teacher asks of the order: so many first winners, between two calls, or all boards within some calls."""

    winners: int | None = None
    first_win: tuple[int, int] | None = None
    together: int | None = None

    def check(self, won_on: Sequence[int]) -> None:
        """Raise AssertionError if a game, played once more from its calls, is not what was asked for."""
        first, last = min(won_on), max(won_on)
        if (
            (self.winners is not None and won_on.count(first) != self.winners)
            or (self.first_win is not None and not self.first_win[0] <= first <= self.first_win[1])
            or (self.together is not None and last - first >= self.together)
        ):
            raise AssertionError(f"boards that win on {won_on} are not {self}")


def asked_opening(finder: Finder, wish: Wish, usual_calls: Callable[[], tuple[int, int]]) -> Opening:
    """Return an opening as wished, TeacherError if none is found; `usual_calls` are where a first win is natural."""
    if wish.together is not None:
        return wanted_together(finder, wish.together)
    if wish.first_win is not None:
        return wanted_first_win(finder, wish.winners, *wish.first_win)
    winners = 1 if wish.winners is None else wish.winners
    found = nearest_first_win(finder, winners, *usual_calls())
    return found or wanted_first_win(finder, winners, finder.earliest, finder.calls)


def wanted_first_win(finder: Finder, winners: int | None, earliest: int, latest: int) -> Opening:
    """Return an opening with `winners` first winners on a call from `earliest` to `latest`.

    `winners` None prefers a single one, but takes any number. TeacherError says what can be had instead.
    """
    if winners is not None and winners > finder.most_at_once:
        raise TeacherError(
            f"{winners} first winners are too many: at most {finder.most_at_once} of these boards can win on one call.",
            f"Choose --winners 1 to {finder.most_at_once}, or fewer words in play.",
        )
    if latest < finder.earliest:
        raise TeacherError(
            f"No board can win before call {finder.earliest}.",
            f"Let --first-win end on call {finder.earliest} or later.",
        )
    if earliest > finder.calls:
        raise TeacherError(
            f"The game has only {finder.calls} calls.",
            f"Let --first-win begin on call {finder.calls} or earlier, or bring more words or letters into play.",
        )
    found = finder.first_win(1 if winners is None else winners, earliest, latest)
    if not found and winners is None:
        found = finder.first_win(None, earliest, latest)
    if not found:
        raise _no_first_win(finder, winners, earliest, latest)
    return found


def nearest_first_win(finder: Finder, winners: int, earliest: int, latest: int) -> Opening | None:
    """Return such an opening as near to the calls `earliest` to `latest` as can be found, None if on no call."""
    distance = 0
    while True:
        found = finder.first_win(winners, max(1, earliest - distance), latest + distance)
        if found or distance > finder.calls:
            return found
        # Where each look is a search of its own, take long steps.
        distance = distance + 1 if finder.proven else 3 * distance + 2


def wanted_together(finder: Finder, span: int) -> Opening:
    """Return an opening after which every board wins within `span` calls; TeacherError says what can be had instead."""
    found = finder.together(span)
    if found:
        return found
    least = finder.least_span()
    within = "1 call" if span == 1 else f"{span} calls"
    choose = f"Choose --together {least}{', or play for the whole board (--goal board)' if finder.line_game else ''}."
    if finder.proven:
        raise TeacherError(
            f"These boards cannot all win within {within}.", f"The fewest possible is {least} calls. {choose}"
        )
    raise TeacherError(
        f"No order was found in which all boards win within {within}.", f"The fewest found is {least} calls. {choose}"
    )


def _no_first_win(finder: Finder, winners: int | None, earliest: int, latest: int) -> TeacherError:
    who = first_winners(winners)
    are = "are" if winners and winners > 1 else "is"
    when = on_calls(range(earliest, min(latest, finder.calls) + 1))
    possible = finder.elsewhere(winners, earliest, latest)
    if not possible:
        message = f"{who} {are} not possible with these boards." if finder.proven else f"No order was found for {who}."
        return TeacherError(_capital(message), f"{_other_winners(finder, winners)}Change --winners.")
    longer = (
        ", bring more words or letters into play, or play for the whole board (--goal board)"
        if finder.line_game
        else ""
    )
    change = f"Change --first-win{' or --winners' if winners else ''}, try another --seed{longer}."
    if finder.proven:
        message = f"{who} {when} {are} not possible with these boards."
        return TeacherError(_capital(message), f"With these boards {who} {are} possible {on_calls(possible)}. {change}")
    return TeacherError(f"No order was found for {who} {when}.", f"The latest found is call {max(possible)}. {change}")


def _other_winners(finder: Finder, winners: int | None) -> str:
    """Return a sentence on the number of first winners nearest to `winners` that is proven possible, "" if unknown."""
    if winners is None or not finder.proven:
        return ""
    others = sorted(range(1, finder.most_at_once + 1), key=lambda other: abs(other - winners))
    other, calls = next((other, calls) for other in others if (calls := finder.elsewhere(other, 0, 0)))
    return f"{_capital(first_winners(other))} {'are' if other > 1 else 'is'} possible {on_calls(calls)}. "


def first_winners(winners: int | None) -> str:
    """Return "one first winner", "3 first winners", or "a first win" for any number."""
    if winners is None:
        return "a first win"
    return "one first winner" if winners == 1 else f"{winners} first winners"


def _capital(sentence: str) -> str:
    return sentence[0].upper() + sentence[1:]


def on_calls(calls: Sequence[int]) -> str:
    """Return rising call numbers as words: "on call 5", "on calls 3 to 7 and 9"."""
    runs: list[list[int]] = []
    for call in calls:
        if runs and call == runs[-1][-1] + 1:
            runs[-1].append(call)
        else:
            runs.append([call])
    parts = [str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs]
    listed = " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)
    return f"on call{'s' if len(calls) > 1 else ''} {listed}"
