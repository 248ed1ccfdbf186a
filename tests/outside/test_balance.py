"""Balanced boards against a second, plain count, and against published values of design theory."""

from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.games.cyclic import PERFECT
from cardgen.games.deal import Effort, deal
from cardgen.games.shape import Shape
from tests.outside.recompute import Plan, balance, disagreements, lines_of, recompute

QUICK = Effort(exchanges=20_000, base_moves=200, line_moves=200)


def plan_of(shape: Shape, boards: int, groups: list[int], seed: int) -> tuple[Plan, Plan]:
    """Deal a set and return it as a plan, with its own "balance" and without."""
    words = [f"{chr(97 + group)}{item}" for item, group in enumerate(groups)]
    dealt = deal(shape, boards, range(len(groups)), Random(seed), groups=groups, effort=QUICK)
    plan: Plan = {"free": shape.free, "words": [{"word": word, "key": word[0]} for word in words], "boards": []}
    for number, board in enumerate(dealt.boards, 1):
        cells: list[str | None] = [words[item] for item in board]
        if shape.free:
            cells.insert(len(cells) // 2, None)
        rows = [cells[start : start + shape.columns] for start in range(0, len(cells), shape.columns)]
        plan["boards"].append({"number": number, "face": "picture", "cells": rows})
    m = dealt.measures
    own = {
        "frequency": list(m.frequency),
        "frequency_by_key": {chr(97 + group): list(ends) for group, ends in m.frequency_by_group},
        "positions": list(m.positions),
        "q": m.q,
        "equal_lines": m.equal_lines,
        "q_bound": m.q_bound,
    }
    return plan, own


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_every_measure_is_what_a_second_count_finds(data: st.DataObject) -> None:
    shape = data.draw(st.sampled_from([Shape(2, 2), Shape(2, 3), Shape(3, 3), Shape(3, 3, True), Shape(4, 3)]))
    pool = data.draw(st.integers(shape.cells, 20))
    groups = data.draw(st.lists(st.integers(0, 3), min_size=pool, max_size=pool))
    plan, own = plan_of(shape, data.draw(st.integers(1, 16)), groups, data.draw(st.integers(0, 99)))
    assert balance(plan) == own


def test_a_plan_that_lies_is_found_out() -> None:
    plan, own = plan_of(Shape(3, 3), 6, [0, 1, 2] * 4, 1)
    plan["balance"] = own | {"q": own["q"] - 1}
    assert [line.split(":")[0] for line in disagreements(plan)] == ["balance.q"]
    plan["balance"] = own
    plan["boards"][0]["cells"][0].reverse()
    assert disagreements(plan)


BOARDS = [
    {"number": 1, "face": "picture", "cells": [["m1", "m2"], ["s1", "s2"]]},
    {"number": 2, "face": "picture", "cells": [["m1", "s1"], ["m3", "s3"]]},
]
WORDS = [{"word": word, "key": word[0]} for word in ("m1", "m2", "m3", "s1", "s2", "s3")]


@pytest.mark.parametrize(
    ("goal", "calls", "expected"),
    [
        # Worked out by hand. On a board of 2 × 2 any two items make a line.
        ("line", ["m2", "m3", "s3", "s1", "s2", "m1"], [(3, [2]), (4, [1])]),
        ("line", ["m1", "s1", "m2", "m3", "s2", "s3"], [(2, [1, 2])]),
        ("board", ["m1", "s1", "m3", "s3", "m2", "s2"], [(4, [2]), (6, [1])]),
        # Sounds called over pictures: both boards need m twice and s twice.
        ("board", ["m", "s", "m", "m", "s", "s"], [(5, [1, 2])]),
    ],
)
def test_winners_by_hand(goal: str, calls: list[str], expected: list[tuple[int, list[int]]]) -> None:
    plan: Plan = {"goal": goal, "free": False, "words": WORDS, "boards": BOARDS, "calls": calls}
    assert recompute(plan)["winners"] == [{"call": call, "boards": boards} for call, boards in expected]


def test_letters_that_stand_twice_are_covered_one_each_time() -> None:
    words = [{"word": "m", "key": "m"}, {"word": "s", "key": "s"}]
    boards = [
        {"number": 1, "face": "lowercase", "cells": [["m", "m"], ["s", "m"]]},
        {"number": 2, "face": "lowercase", "cells": [["s", "m"], ["m", "s"]]},
    ]
    plan: Plan = {"goal": "board", "words": words, "boards": boards, "calls": ["m", "s", "m", "s", "m"]}
    assert recompute(plan)["winners"] == [{"call": 4, "boards": [2]}, {"call": 5, "boards": [1]}]


def test_lines_of_a_board_with_a_free_centre() -> None:
    cells: list[list[str | None]] = [["a", "b", "c"], ["d", None, "e"], ["f", "g", "h"]]
    assert sorted(map("".join, lines_of(cells))) == ["abc", "adf", "ah", "bg", "ceh", "cf", "de", "fgh"]


@pytest.mark.parametrize(("points", "size", "index"), [(13, 4, 1), (21, 5, 1), (31, 6, 1), (15, 7, 3)])
def test_perfect_difference_sets(points: int, size: int, index: int) -> None:
    # (13,4,1) {0,1,3,9} and (21,5,1) {0,1,4,14,16}: projective planes of order 3 and 4, in every table of designs;
    # (31,6,1) the plane of order 5 and (15,7,3) from memory. Here every pair is counted.
    block = PERFECT[points]
    assert len(block) == size
    assert index * (points - 1) == size * (size - 1)
    for one, two in combinations(range(points), 2):
        shifts = [{(point + shift) % points for point in block} for shift in range(points)]
        assert sum({one, two} <= shifted for shifted in shifts) == index


@pytest.mark.parametrize(
    ("shape", "points", "index"),
    # The complement of a (v, k, λ) design of v blocks has v − 2k + λ blocks through each pair of points.
    [
        (Shape(3, 3), 13, 13 - 8 + 1),
        (Shape(4, 4), 21, 21 - 10 + 1),
        (Shape(5, 5), 31, 31 - 12 + 1),
        (Shape(3, 3, free=True), 15, 15 - 14 + 3),
    ],
)
def test_as_many_boards_as_items_can_be_a_design(shape: Shape, points: int, index: int) -> None:
    dealt = deal(shape, points, range(points), Random(5))
    for one, two in combinations(range(points), 2):
        assert sum(one in board and two in board for board in dealt.boards) == index
    # Any two blocks of a symmetric design share as many points (Ryser 1950).
    assert {len(set(one) & set(two)) for one, two in combinations(dealt.boards, 2)} == {index}


@pytest.mark.parametrize("boards", range(2, 13))
def test_fisher_fewer_boards_than_items_cannot_let_all_pairs_meet_equally_often(boards: int) -> None:
    # Fisher's inequality (1940): a design with fewer points on a block than there are has as many blocks as points.
    dealt = deal(Shape(3, 3), boards, range(13), Random(boards), effort=QUICK)
    pairs = combinations(range(13), 2)
    assert len({sum(one in board and two in board for board in dealt.boards) for one, two in pairs}) > 1
