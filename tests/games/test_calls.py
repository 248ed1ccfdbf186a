from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.calls import Order, choose_order, default_order, replay
from cardgen.games.exact_calls import ExactFinder
from cardgen.games.length import length
from cardgen.games.openings import Wish, on_calls
from tests.games.class_sets import boards_reached, full_goals, least_span, line_goals, possible_first_wins

Goals = list[list[int]]


def first_win(order: Order) -> tuple[int, int]:
    """Return the call of the first win and the number of boards that win on it."""
    call = min(order.won_on)
    return call, order.won_on.count(call)


def check_whole(order: Order, goals: Goals, pool: int) -> None:
    """The order must be a game: no item twice, just as long as the last board needs, the wins where they are said."""
    assert len(set(order.calls)) == len(order.calls)
    assert set(order.calls) <= set(range(pool))
    assert len(order.calls) == max(order.won_on)
    for number in range(len(order.calls) + 1):
        called = sum(1 << item for item in order.calls[:number])
        assert boards_reached(goals, called) == sum(call <= number for call in order.won_on)


def choose(
    goals: Goals,
    pool: int,
    seed: int = 1,
    winners: int | None = None,
    first_win: tuple[int, int] | None = None,
    together: int | None = None,
) -> Order:
    order = choose_order(goals, pool, Random(seed), winners=winners, first_win=first_win, together=together)
    check_whole(order, goals, pool)
    return order


def test_replay_says_on_which_call_each_board_wins() -> None:
    goals = [[0b0011, 0b1100], [0b0101], [0b10000]]
    assert replay(goals, [0, 2, 3, 1]) == (3, 2, None)


@pytest.mark.parametrize(
    ("goals", "pool"),
    [
        (line_goals(4, 2, 7, seed=1), 7),
        (line_goals(3, 3, 9, seed=2), 9),
        (full_goals(4, 4, 7, seed=3), 7),
        ([[0b0011], [0b0011]], 4),
    ],
    ids=["2x2", "3x3", "full boards", "equal boards"],
)
def test_a_first_win_is_found_where_one_exists_and_refused_elsewhere(goals: Goals, pool: int) -> None:
    possible = possible_first_wins(goals, pool)
    assert possible
    for call in range(1, pool + 1):
        for winners in range(1, len(goals) + 1):
            if (call, winners) in possible:
                order = choose(goals, pool, winners=winners, first_win=(call, call))
                assert first_win(order) == (call, winners)
            else:
                with pytest.raises(TeacherError):
                    choose(goals, pool, winners=winners, first_win=(call, call))


@settings(max_examples=30, deadline=None)
@given(st.lists(st.lists(st.integers(1, 63), min_size=1, max_size=3), min_size=1, max_size=5), st.integers(0, 99))
def test_all_calls_of_any_boards_are_known(goals: Goals, seed: int) -> None:
    finder = ExactFinder(goals, 6, Random(seed))
    possible = possible_first_wins(goals, 6)
    for winners in range(1, len(goals) + 1):
        assert finder.calls_with(winners) == sorted(call for call, number in possible if number == winners)
    assert finder.calls_with(None) == sorted({call for call, _ in possible})
    assert finder.least_span() == least_span(goals, 6)


@pytest.mark.parametrize("goals", [line_goals(8, 2, 8, seed=1), full_goals(8, 3, 8, seed=1)], ids=["line", "board"])
def test_all_together_within_the_fewest_calls(goals: Goals) -> None:
    fewest = least_span(goals, 8)
    assert fewest > 1
    for span in range(fewest, 10):
        for seed in range(5):
            order = choose(goals, 8, seed, together=span)
            assert max(order.won_on) - min(order.won_on) < span
    with pytest.raises(TeacherError, match=f"cannot all win within {fewest - 1} call") as refused:
        choose(goals, 8, together=fewest - 1)
    assert f"Choose --together {fewest}" in refused.value.hint


def test_chance_chooses_among_the_calls_of_a_range() -> None:
    goals = line_goals(8, 3, 12, seed=1)
    assert {first_win(choose(goals, 12, seed, first_win=(4, 6)))[0] for seed in range(20)} == {4, 5, 6}
    usual = length(goals, 12, Random(1))
    by_default = {first_win(default_order(goals, 12, Random(seed), True, usual))[0] for seed in range(20)}
    assert by_default == set(range(usual.first.p50, usual.first.p90 + 1))
    assert len(by_default) > 1


def test_only_a_range_of_calls_prefers_a_single_winner() -> None:
    goals = line_goals(24, 3, 12, seed=1)
    assert all(first_win(choose(goals, 12, seed, first_win=(3, 4)))[1] == 1 for seed in range(20))
    # With equal boards there is no single winner: any number is better than none.
    assert first_win(choose([[0b0011], [0b0011]], 4, first_win=(3, 3))) == (3, 2)


def test_only_a_number_of_winners_comes_at_a_usual_time() -> None:
    goals = line_goals(30, 4, 20, seed=1)
    usual = length(goals, 20, Random(1)).first
    for seed in range(3):
        call, winners = first_win(choose(goals, 20, seed, winners=2))
        assert winners == 2
        assert usual.p50 <= call <= usual.p90


def test_the_orders_of_two_seeds_differ_and_those_of_one_do_not() -> None:
    goals = line_goals(12, 3, 15, seed=1)
    assert choose(goals, 15, 1, first_win=(4, 5)) == choose(goals, 15, 1, first_win=(4, 5))
    assert choose(goals, 15, 1, first_win=(4, 5)) != choose(goals, 15, 2, first_win=(4, 5))


def test_a_proven_refusal_names_the_calls_that_are_possible() -> None:
    goals = line_goals(24, 3, 12, seed=1)
    calls = sorted(call for call, winners in possible_first_wins(goals, 12) if winners == 1)
    assert calls == [3, 4]
    with pytest.raises(TeacherError) as refused:
        choose(goals, 12, winners=1, first_win=(7, 9))
    assert refused.value.message == "One first winner on calls 7 to 9 is not possible with these boards."
    assert refused.value.hint == (
        "With these boards one first winner is possible on calls 3 to 4. Change --first-win or --winners, "
        "try another --seed, bring more words or letters into play, or play for the whole board (--goal board)."
    )


def test_too_many_winners() -> None:
    goals = [[0b0011], [0b0110], [0b1100]]
    with pytest.raises(TeacherError, match="at most 2 of these boards") as refused:
        choose(goals, 4, winners=3)
    assert "--winners 1 to 2" in refused.value.hint


def test_a_number_of_winners_that_never_comes() -> None:
    with pytest.raises(TeacherError, match="One first winner is not possible with these boards") as refused:
        choose([[0b0011], [0b0011]], 4, winners=1)
    assert refused.value.hint == "2 first winners are possible on calls 2 to 4. Change --winners."


def test_calls_before_any_win_and_after_the_last_call() -> None:
    goals = line_goals(3, 3, 10, seed=1)
    with pytest.raises(TeacherError, match="No board can win before call 3"):
        choose(goals, 10, first_win=(1, 2))
    with pytest.raises(TeacherError, match="only 10 calls"):
        choose(goals, 10, first_win=(11, 12))


def test_a_game_that_is_not_what_was_asked_is_our_bug() -> None:
    Wish(winners=1, first_win=(2, 3), together=3).check([3, 4, 5])
    for wish in (Wish(winners=2), Wish(first_win=(4, 9)), Wish(first_win=(1, 2)), Wish(together=2)):
        with pytest.raises(AssertionError):
            wish.check([3, 4, 5])


@pytest.mark.parametrize(
    ("calls", "words"),
    [([5], "on call 5"), ([3, 4, 5], "on calls 3 to 5"), ([3, 4, 6, 8, 9], "on calls 3 to 4, 6 and 8 to 9")],
)
def test_calls_in_words(calls: list[int], words: str) -> None:
    assert on_calls(calls) == words


@pytest.mark.parametrize(("goals", "pool"), [(line_goals(20, 4, 20, seed=2), 20), (line_goals(20, 5, 40, 3, 12), 40)])
def test_by_default_a_line_game_has_one_first_winner_at_a_good_time(goals: Goals, pool: int) -> None:
    usual = length(goals, pool, Random(1))
    for seed in range(3):
        order = default_order(goals, pool, Random(seed), True, usual)
        check_whole(order, goals, pool)
        call, winners = first_win(order)
        assert winners == 1
        assert usual.first.p50 <= call <= usual.first.p90
        assert order.notes == ()


def test_by_default_the_nearest_call_with_one_winner_is_taken_and_noted() -> None:
    # Items 0 and 1 win for two boards each: only a game that begins with the eight others has a single first winner.
    goals = [[0b01], [0b01], [0b10], [0b10], [0b1111111100]]
    usual = length(goals, 10, Random(1))
    assert (usual.first.p50, usual.first.p90) == (3, 7)
    order = default_order(goals, 10, Random(1), True, usual)
    check_whole(order, goals, 10)
    assert first_win(order) == (8, 1)
    note = "One first winner on calls 3 to 7 was not found with these boards: the first win is on call 8, by one board."
    assert order.notes == (note,)


def test_by_default_equal_boards_are_left_to_chance_with_a_note() -> None:
    goals = [[0b0011, 0b1100]] * 2
    order = default_order(goals, 4, Random(1), True, length(goals, 4, Random(1)))
    check_whole(order, goals, 4)
    assert order.notes[0].endswith(f"the first win is on call {min(order.won_on)}, by 2 boards.")


def test_by_default_full_boards_are_left_to_chance() -> None:
    goals = full_goals(24, 9, 12, seed=1)
    usual = length(goals, 12, Random(1))
    orders = [default_order(goals, 12, Random(seed), False, usual) for seed in range(30)]
    for order in orders:
        check_whole(order, goals, 12)
    assert {order.calls[0] for order in orders} > set(range(8))
    assert len({first_win(order) for order in orders}) > 3
