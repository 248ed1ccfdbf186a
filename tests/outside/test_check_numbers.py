"""Published and worked-out values for the checks: orders without long runs, and what guessing gets."""

from collections import Counter
from fractions import Fraction
from random import Random

import pytest

from cardgen.games.checking_marks import chance, in_1000, least_items, pass_mark
from cardgen.games.orders import count_orders, even_order, orders_without_runs

# Binary words of n zeros and n ones without three alike in a row begin so up to exchange of the two: OEIS A003440,
# n = 1 to 8. Both of each pair count here.
A003440 = (1, 3, 7, 17, 42, 104, 259, 648)


def test_orders_of_two_kinds_are_twice_the_published_sequence() -> None:
    assert [count_orders([n, n], 2) for n in range(1, 9)] == [2 * term for term in A003440]


# Binomial, worked out by hand: all right of five is 1/2^5, seven or eight of eight (8 + 1)/2^8, nine or ten of ten
# (10 + 1)/2^10, four or five of five of three choices (5 × 2 + 1)/3^5, three of three of four choices 1/4^3.
@pytest.mark.parametrize(
    ("items", "choices", "mark", "guess"),
    [
        (5, 2, 5, Fraction(1, 32)),
        (8, 2, 7, Fraction(9, 256)),
        (10, 2, 9, Fraction(11, 1024)),
        (5, 3, 4, Fraction(11, 243)),
        (3, 4, 3, Fraction(1, 64)),
    ],
)
def test_what_a_child_who_guesses_gets(items: int, choices: int, mark: int, guess: Fraction) -> None:
    assert chance(items, choices, mark) == guess
    # 3 of 4 choices: two right of three would be 10/64, so three is the least mark there too.
    assert pass_mark(items, choices) == mark


@pytest.mark.parametrize("choices", [2, 3])
@pytest.mark.parametrize("items", range(3, 11))
def test_the_chance_is_that_of_every_way_to_answer(items: int, choices: int) -> None:
    # A child who guesses gives each of choices^items answers equally often: count those with so many right.
    ways = Counter[int]()
    for number in range(choices**items):
        right = 0
        for _ in range(items):
            number, answer = divmod(number, choices)
            right += answer == 0
        ways[right] += 1
    at_least = [Fraction(sum(ways[r] for r in ways if r >= mark), choices**items) for mark in range(items + 1)]
    assert [chance(items, choices, mark) for mark in range(items + 1)] == at_least
    below = [mark for mark in range(items + 1) if at_least[mark] < Fraction(1, 20)]
    assert pass_mark(items, choices) == (below[0] if below else None)


def test_the_least_number_of_items_with_a_mark() -> None:
    assert least_items(2) == 5
    assert least_items(3) == 3


def test_chances_in_words() -> None:
    assert in_1000(Fraction(11, 243)) == "45 times in 1000"
    assert in_1000(Fraction(1, 1024)) == "once in 1000"
    assert in_1000(Fraction(1, 3**10)) == "less than once in 1000"


def quantile(degrees: int) -> float:
    """The 0.999 quantile of chi-square by Wilson and Hilferty's approximation (33 degrees: 63.87 in tables)."""
    return float(degrees * (1 - 2 / (9 * degrees) + 3.0902 * (2 / (9 * degrees)) ** 0.5) ** 3)


def chi_square(drawn: Counter[tuple[int, ...]], orders: int) -> float:
    mean = drawn.total() / orders
    return sum((count - mean) ** 2 / mean for count in drawn.values()) + (orders - len(drawn)) * mean


@pytest.mark.parametrize(("counts", "orders"), [([4, 4], 34), ([2, 2, 1], 30), ([3, 2, 2], 180)])
def test_every_order_is_drawn_as_often(counts: list[int], orders: int) -> None:
    rng = Random(1)
    drawn = Counter(orders_without_runs(counts, 2, rng) for _ in range(100 * orders))
    assert count_orders(counts, 2) == orders
    assert chi_square(drawn, orders) < quantile(orders - 1)


def test_every_even_order_of_the_places_is_drawn_as_often() -> None:
    # Five rows of three places: three choices of the place that comes once, each with the 30 orders of 2, 2, 1.
    rng = Random(2)
    drawn = Counter(even_order(5, 3, 2, rng) for _ in range(9000))
    assert chi_square(drawn, 90) < quantile(89)


def test_the_quantile_is_that_of_the_tables() -> None:
    assert quantile(33) == pytest.approx(63.87, abs=0.2)
    assert quantile(29) == pytest.approx(58.30, abs=0.2)
