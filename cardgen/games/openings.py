"""Choosing the moment of the first win, or of everybody's: what may be asked, what can be had, and how to say so."""

from collections.abc import Sequence
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

    def calls_with(self, winners: int | None) -> Sequence[int]:
        """Return the calls on which so many boards can win first: all of them if proven, else the latest found."""

    def together(self, span: int) -> Opening | None:
        """Return an opening in whose window, of at most `span` calls, every board wins."""

    def least_span(self) -> int:
        """Return the fewest calls from the first win to the last that can be had, or that were found."""


def wanted_first_win(finder: Finder, winners: int | None, earliest: int, latest: int) -> Opening:
    """Return an opening with `winners` first winners on a call from `earliest` to `latest`.

    `winners` None prefers a single one, but takes any number. TeacherError says what can be had instead.
    """
    if winners is not None and winners > finder.most_at_once:
        raise TeacherError(
            f"{winners} first winners are too many: at most {finder.most_at_once} of these boards can win on one call.",
            f"Choose --winners 1 to {finder.most_at_once}, or a smaller --pool.",
        )
    if latest < finder.earliest:
        raise TeacherError(
            f"No board can win before call {finder.earliest}.", f"Let --first-win end on call {finder.earliest} or later."
        )
    found = finder.first_win(1 if winners is None else winners, earliest, latest)
    if not found and winners is None:
        found = finder.first_win(None, earliest, latest)
    if not found:
        raise _refusal(finder, winners, earliest, latest)
    return found


def nearest_first_win(finder: Finder, winners: int, earliest: int, latest: int) -> Opening | None:
    """Return such an opening as near to the calls `earliest` to `latest` as can be found, None if on no call."""
    if winners > finder.most_at_once:
        return None
    distance = 0
    while True:
        found = finder.first_win(winners, max(1, earliest - distance), latest + distance)
        if found or distance > finder.calls:
            return found
        # Where each look is a search of its own, take longer steps.
        distance = distance + 1 if finder.proven else 2 * distance + 1


def wanted_together(finder: Finder, span: int) -> Opening:
    """Return an opening after which every board wins within `span` calls; TeacherError says what can be had instead."""
    found = finder.together(span)
    if found:
        return found
    least = finder.least_span()
    larger = ", or play for the whole board (--goal board)" if finder.line_game else ""
    if finder.proven:
        raise TeacherError(
            f"These boards cannot all win within {_count(span, 'call')}.",
            f"With these boards it takes {least} calls at least: choose --together {least}{larger}.",
        )
    raise TeacherError(
        f"No order was found in which all boards win within {_count(span, 'call')}.",
        f"The best found is {_count(least, 'call')}: choose --together {least}{larger}.",
    )


def _refusal(finder: Finder, winners: int | None, earliest: int, latest: int) -> TeacherError:
    who = first_winners(winners)
    when = on_calls(range(earliest, latest + 1))
    possible = finder.calls_with(winners)
    longer = ", take a larger --pool, or play for the whole board (--goal board)" if finder.line_game else ""
    if not possible:
        cannot = "cannot be had" if finder.proven else "was not found"
        return TeacherError(
            f"With these boards {who.lower()} {cannot}, on any call.", "Change --winners, or draw other boards (--seed)."
        )
    if finder.proven:
        return TeacherError(
            f"{who} {when} cannot be had with these boards.",
            f"With these boards {who.lower()} can be had {on_calls(possible)}: change --first-win{longer}.",
        )
    return TeacherError(
        f"{who} {when} was not found with these boards.",
        f"The latest found is on call {max(possible)}: change --first-win{longer}.",
    )


def first_winners(winners: int | None) -> str:
    """Return "One first winner", "3 first winners", or "A first win" for any number."""
    if winners is None:
        return "A first win"
    return "One first winner" if winners == 1 else f"{winners} first winners"


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


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
