"""What counts as passed: the least number of right answers that guessing alone reaches in under 5 of 100 checks."""

from fractions import Fraction
from functools import cache
from math import comb

from cardgen.errors import TeacherError

MOST_BY_GUESSING = Fraction(5, 100)  # the usual level of a test; as a rule for children's checks ours, no source


def chance(items: int, choices: int, right: int) -> Fraction:
    """Return the exact chance that a child who guesses among `choices` gets `right` or more of `items` right."""
    hit = Fraction(1, choices)
    return sum(
        (comb(items, hits) * hit**hits * (1 - hit) ** (items - hits) for hits in range(right, items + 1)), Fraction(0)
    )


@cache
def pass_mark(items: int, choices: int) -> int | None:
    """Return the least number of right answers whose chance by guessing is under 5 %, None if all right is not."""
    marks = range(1, items + 1)
    return next((mark for mark in marks if chance(items, choices, mark) < MOST_BY_GUESSING), None)


def least_items(choices: int) -> int:
    """Return the least number of items that has a pass mark: 5 of two choices, 3 of three."""
    items = 1
    while pass_mark(items, choices) is None:
        items += 1
    return items


def checked_mark(items: int, choices: int) -> int:
    """Return the pass mark; TeacherError naming the least number of items where there is none."""
    mark = pass_mark(items, choices)
    if mark is None:
        names = {2: "two", 3: "three"}
        raise TeacherError(
            f"{items} items with {names.get(choices, choices)} choices show nothing: a child who only guesses gets all "
            f"of them right {in_1000(chance(items, choices, items))}.",
            f"Take {least_items(choices)} or more: --items {least_items(choices)}",
        )
    return mark


def in_1000(guess: Fraction) -> str:
    """Return a chance in words: "45 times in 1000", "once in 1000", "less than once in 1000"."""
    times = round(guess * 1000)
    if times == 0:
        return "less than once in 1000"
    return "once in 1000" if times == 1 else f"{times} times in 1000"
