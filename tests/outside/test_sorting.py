"""Sorting games against a second reading of the data, and their orders against published counts."""

import random
from collections import Counter
from itertools import permutations
from math import comb
from typing import Any

import pytest

from cardgen.errors import TeacherError
from cardgen.games.sorting import drawing_order
from cardgen.recipes.library import open_library
from cardgen.recipes.sort import play
from cardgen.recipes.sort_plan import game_plan
from cardgen.request import Accent, SortRequest
from tests.outside.sorting_plans import SOUNDS, faults

LIBRARY = open_library()
STARTS = [key for key, sound in SOUNDS.items() if sound.get("at") != "end"]
LANGUAGES = (None, None, "Spanish", "Arabic", "Korean")


def planned(keys: tuple[str, ...], seed: int, **more: Any) -> dict[str, Any]:
    request = SortRequest(keys=keys, seed=seed, **more)
    played = play(request, LIBRARY, random.Random(seed))
    return game_plan(request, played.game, played.pool, played.foils)


def same_sound(keys: tuple[str, ...]) -> bool:
    """Whether one of the sounds is the other, or begins with it, whichever way it is said."""
    phones = [[written.split() for written in SOUNDS[key]["phones"]] for key in keys]
    return any(
        longer[: len(own)] == own
        for a in range(len(keys))
        for b in range(len(keys))
        if a != b
        for own in phones[a]
        for longer in phones[b][:1]
    )


@pytest.mark.parametrize("part", range(4))
def test_no_card_of_a_thousand_random_games_is_ambiguous(part: int) -> None:
    made, refused = 0, dict[tuple[str, ...], str]()
    for seed in range(part * 285, (part + 1) * 285):
        rng = random.Random(f"sorting {seed}")
        keys = tuple(rng.sample(STARTS, 3 if seed % 11 == 0 else 2))
        more: dict[str, Any] = {
            "foils": rng.choice((0, 0, 0, 0, 3)),
            "accent": rng.choice(list(Accent)),
            "home_language": rng.choice(LANGUAGES),
        }
        try:
            plan = planned(keys, seed, **more)
        except TeacherError as error:
            refused[keys] = error.message
            continue
        assert list(faults(plan)) == [], (keys, seed, more)
        assert sum(item["key"] is None for item in plan["items"]) == more["foils"]
        made += 1
    assert made >= 240
    for keys, message in refused.items():
        assert same_sound(keys) or "no picture" in message, keys


def test_end_sounds_are_sorted_by_the_end() -> None:
    for seed in range(20):
        assert list(faults(planned(("x", "ng"), seed, foils=seed % 4))) == []


def test_a_spoilt_plan_is_found_out() -> None:
    plan = planned(("m", "s"), 1)
    for change, said in (
        ({"word": "mouse", "key": "m"}, "key picture"),
        ({"word": "medal", "key": "m"}, "star, which begins with s"),
        ({"word": "sun", "key": None}, "lies under None"),
        (plan["items"][1], "comes twice"),
    ):
        spoilt = plan | {"items": [change, *plan["items"][1:]]}
        assert any(said in fault for fault in faults(spoilt)), said
    by_turns = sorted(plan["items"], key=lambda item: item["key"])
    mixed = [item for pair in zip(by_turns[:6], by_turns[6:], strict=True) for item in pair]
    assert "the sides go by turns from end to end" in list(faults(plan | {"items": mixed}))
    assert "three of one side in a row" in list(faults(plan | {"items": by_turns}))


def fair_orders(counts: list[int]) -> set[tuple[int, ...]]:
    """Every order without three in a row and without turns from end to end, by trying all."""
    if len(counts) == 2:
        n = sum(counts)
        whole = {tuple(int(bits >> i & 1) for i in range(n)) for bits in range(1 << n) if bits.bit_count() == counts[1]}
    else:
        whole = set(permutations([kind for kind, count in enumerate(counts) for _ in range(count)]))
    return {order for order in whole if no_three(order) and not by_turns(order, len(counts))}


def by_turns(order: tuple[int, ...], kinds: int) -> bool:
    return order == (order[:kinds] * len(order))[: len(order)]


def no_three(order: tuple[int, ...]) -> bool:
    return not any(a == b == c for a, b, c in zip(order, order[1:], order[2:], strict=False))


def rows(runs: int, things: int) -> int:
    """In how many ways so many things fall into so many runs of one or two."""
    return comb(runs, things - runs) if things >= runs else 0


@pytest.mark.parametrize(
    ("each", "with_turns", "fair"), [(2, 6, 4), (3, 14, 12), (4, 34, 32), (5, 84, 82), (6, 208, 206)]
)
def test_the_orders_are_as_many_as_published(each: int, with_turns: int, fair: int) -> None:
    # OEIS A003440 doubled counts the orders of n and n things with runs of at most two: 2 6 14 34 84 208; two of them
    # go by turns from end to end. The general formula: Σ (C(k,n−k) + C(k+1,n−k−1))².
    assert sum((rows(k, each) + rows(k + 1, each)) ** 2 for k in range(each + 1)) == with_turns
    orders = fair_orders([each, each])
    assert len(orders) == fair
    rng = random.Random(each)
    drawn = {drawing_order([each, each], rng) for _ in range(12 * fair)}
    assert drawn == orders


# The 99.9 % points of chi-square, from memory of any table: 31 degrees of freedom 61.1, 83 degrees 125.4.
@pytest.mark.parametrize(("counts", "draws", "bound"), [([4, 4], 6400, 61.1), ([2, 2, 2], 4200, 125.4)])
def test_every_fair_order_is_equally_likely(counts: list[int], draws: int, bound: float) -> None:
    orders = fair_orders(counts)
    rng = random.Random(11)
    seen = Counter(drawing_order(counts, rng) for _ in range(draws))
    assert set(seen) == orders
    expected = draws / len(orders)
    chi_square = sum((seen[order] - expected) ** 2 / expected for order in orders)
    assert len(orders) - 1 == {61.1: 31, 125.4: 83}[bound]
    assert chi_square < bound
