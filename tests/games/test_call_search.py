from random import Random

import pytest

from cardgen.errors import TeacherError
from cardgen.games import call_search
from cardgen.games.call_search import AFTER, BEFORE, WINDOW, Lines, SearchFinder, Zones
from cardgen.games.calls import choose_order, replay
from cardgen.games.exact_calls import ExactFinder
from cardgen.games.openings import Opening
from tests.games.class_sets import boards_reached, full_goals, line_goals, mask

Goals = list[list[int]]


def check_first_win(goals: Goals, opening: Opening | None, call: int, winners: int | None) -> None:
    assert opening is not None
    assert (len(opening.before), len(opening.window)) == (call - 1, 1)
    wins = [won for won in replay(goals, opening.before + opening.window) if won is not None]
    assert set(wins) == {call}
    assert winners in (None, len(wins))


def test_tallies_follow_every_shift() -> None:
    goals = line_goals(6, 3, 14, seed=1)
    rng = Random(1)
    zones = Zones(Lines(goals, 14), (range(5), range(5, 8), range(8, 14)))
    for _ in range(300):
        source = rng.choice([zone for zone in (BEFORE, WINDOW, AFTER) if zones.items[zone]])
        goal = rng.choice([zone for zone in (BEFORE, WINDOW, AFTER) if zone != source])
        zones.shift(rng.choice(zones.items[source]), source, goal)
        before, window = (mask(zones.items[zone]) for zone in (BEFORE, WINDOW))
        assert zones.early.won == boards_reached(goals, before)
        assert zones.late.won == boards_reached(goals, before | window)


@pytest.mark.parametrize(
    ("goals", "pool"),
    [
        (line_goals(10, 3, 26, seed=1), 26),
        (line_goals(24, 5, 30, seed=2, free=12), 30),
        (line_goals(8, 5, 75, seed=3, free=12), 75),
        (full_goals(10, 9, 26, seed=4), 26),
    ],
    ids=["3x3 from 26", "5x5 free from 30", "5x5 free from 75", "full boards from 26"],
)
def test_one_winner_on_every_call_up_to_the_longest_set_without_a_win(goals: Goals, pool: int) -> None:
    finder = SearchFinder(goals, pool, Random(5))
    longest = finder.longest_without()
    assert longest > finder.earliest
    for call in range(finder.earliest, longest + 1):
        check_first_win(goals, finder.first_win(1, call, call), call, 1)


@pytest.mark.parametrize(
    ("goals", "pool"),
    [(line_goals(10, 3, 14, seed=5), 14), (full_goals(10, 6, 14, seed=7), 14)],
    ids=["3x3 from 14", "full boards"],
)
def test_the_search_finds_what_looking_at_all_call_sets_finds(goals: Goals, pool: int) -> None:
    exact, search = ExactFinder(goals, pool, Random(1)), SearchFinder(goals, pool, Random(1))
    for winners in (1, 2, None):
        calls = exact.calls_with(winners)
        for call in calls:
            check_first_win(goals, search.first_win(winners, call, call), call, winners)
        assert search.elsewhere(winners, 0, 0) == calls[-1:]
    assert search.longest_without() == exact.calls_with(None)[-1] - 1
    span = exact.least_span()
    assert search.together(span - 1) is None
    assert search.together(span) is not None
    assert search.least_span() == span


def test_a_range_of_calls_is_kept() -> None:
    goals = line_goals(10, 3, 30, seed=1)
    finder = SearchFinder(goals, 30, Random(1))
    for low, high in ((3, 5), (8, 12), (10, 30)):
        opening = finder.first_win(2, low, high)
        assert opening is not None
        assert low <= len(opening.before) + 1 <= high
        check_first_win(goals, opening, len(opening.before) + 1, 2)


def test_everybody_within_a_few_calls_on_a_large_pool() -> None:
    goals = line_goals(12, 3, 30, seed=2)
    order = choose_order(goals, 30, Random(1), winners=None, first_win=None, together=6)
    assert max(order.won_on) - min(order.won_on) < 6


def test_what_was_not_found_is_never_called_impossible(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(call_search, "MOST_MOVES", 500)
    goals = line_goals(30, 3, 26, seed=2)
    with pytest.raises(TeacherError) as late:
        choose_order(goals, 26, Random(1), winners=1, first_win=(24, 26), together=None)
    assert late.value.message == "No order was found for one first winner on calls 24 to 26."
    assert late.value.hint.startswith("The latest found is call ")
    with pytest.raises(TeacherError) as close:
        choose_order(goals, 26, Random(1), winners=None, first_win=None, together=1)
    assert close.value.message == "No order was found in which all boards win within 1 call."
    assert close.value.hint.startswith("The fewest found is ")
    with pytest.raises(TeacherError, match="No order was found for one first winner"):
        choose_order([[0b11]] * 2, 26, Random(1), winners=1, first_win=None, together=None)
    assert "possible" not in late.value.message + late.value.hint + close.value.message + close.value.hint


def test_the_same_seed_finds_the_same_order() -> None:
    goals = line_goals(20, 4, 40, seed=2)
    orders = [choose_order(goals, 40, Random(seed), winners=2, first_win=(9, 14), together=None) for seed in (1, 1, 2)]
    assert orders[0] == orders[1] != orders[2]
