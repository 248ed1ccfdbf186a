from fractions import Fraction
from itertools import permutations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games import count_calls, counts
from cardgen.games.calls import Order, replay
from cardgen.games.count_calls import CountFinder, order_by_counts, without_runs
from cardgen.games.counts import length_by_counts, replay_counts
from cardgen.games.length import length, spread

Needs = list[list[int]]
SMALL: Needs = [[2, 1, 1], [1, 2, 1], [2, 2, 0], [0, 1, 2]]
SUPPLY = [3, 3, 2]


def all_orders(supply: list[int]) -> list[tuple[int, ...]]:
    """Every order of the copies, copies of a symbol counted as different."""
    return list(permutations([symbol for symbol, copies in enumerate(supply) for _ in range(copies)]))


def wins_of_all_orders(needs: Needs, supply: list[int]) -> list[list[int]]:
    """The calls on which the boards win, by another way of counting than the games': one order after the other."""
    return [
        [next(n for n in range(len(order) + 1) if is_full(board, order[:n])) for board in needs]
        for order in dict.fromkeys(all_orders(supply))
    ]


def is_full(board: list[int], calls: tuple[int, ...]) -> bool:
    return all(calls.count(symbol) >= need for symbol, need in enumerate(board))


def long_game(boards: int, symbols: int, cells: int, seed: int) -> Needs:
    rng = Random(seed)
    return [
        [base + (symbol in extra) for symbol in range(symbols)]
        for base, odd in [divmod(cells, symbols)] * boards
        for extra in [rng.sample(range(symbols), odd)]
    ]


def check_whole(order: Order, needs: Needs, supply: list[int]) -> None:
    assert all(order.calls.count(symbol) <= copies for symbol, copies in enumerate(supply))
    assert len(order.calls) == max(order.won_on)
    for board, won_on in zip(needs, order.won_on, strict=True):
        for number in range(len(order.calls) + 1):
            assert is_full(board, order.calls[:number]) == (number >= won_on)


def test_replay_covers_one_cell_a_call() -> None:
    assert replay_counts([[2, 1], [0, 1], [3, 0]], [0, 1, 1, 0]) == (4, 2, None)


def test_length_by_playing_every_order() -> None:
    # Each order of the symbols is equally likely, so that orders of symbols serve as well as orders of copies.
    games = wins_of_all_orders(SMALL, SUPPLY)
    found = length_by_counts(SMALL, SUPPLY, Random(1))
    for got, calls in ((found.first, list(map(min, games))), (found.last, list(map(max, games)))):
        cdf = [Fraction(sum(call <= n for call in calls), len(calls)) for n in range(sum(SUPPLY) + 1)]
        assert got == spread(cdf)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.lists(st.booleans(), min_size=5, max_size=5).filter(any), min_size=1, max_size=5))
def test_with_one_call_a_symbol_it_is_the_game_with_items(boards: list[list[bool]]) -> None:
    goals = [[sum(1 << item for item, held in enumerate(board) if held)] for board in boards]
    needs = [[int(held) for held in board] for board in boards]
    assert length_by_counts(needs, [1] * 5, Random(1)) == length(goals, 5, Random(1))
    calls = [3, 1, 4, 0, 2]
    assert replay_counts(needs, calls) == replay(goals, calls)


def test_a_hypergeometric_game_on_paper() -> None:
    # Two boards, one symbol each, three calls of each: the first call fills the first board, the last is full when
    # both symbols have come. P(only one symbol in n calls) = 2·C(3, n)/C(6, n): 1, 2/5, 1/10 for n = 1, 2, 3.
    found = length_by_counts([[1, 0], [0, 1]], [3, 3], Random(1))
    assert found.first.mean == 1
    assert found.last.mean == 1 + 1 + Fraction(2, 5) + Fraction(1, 10)
    assert (found.last.p10, found.last.p50, found.last.p90) == (2, 2, 3)


def test_played_games_are_within_four_standard_errors(monkeypatch: pytest.MonkeyPatch) -> None:
    needs, supply = long_game(24, 4, 13, seed=1), [6] * 4
    exact = length_by_counts(needs, supply, Random(1))
    assert exact.first.games is None
    monkeypatch.setattr(counts, "MOST_GROUPS", 1)
    played = length_by_counts(needs, supply, Random(1))
    assert played.first.games == 20_000
    assert played.last == exact.last
    # The standard deviation is well below 4 calls: four games of five end within 6 calls of each other.
    assert exact.first.p90 - exact.first.p10 <= 6
    assert abs(float(played.first.mean - exact.first.mean)) <= 4 * 4 / 20_000**0.5
    assert (played.first.p10, played.first.p50, played.first.p90) == (
        exact.first.p10,
        exact.first.p50,
        exact.first.p90,
    )


def test_letters_in_great_number_are_played() -> None:
    rng = Random(4)
    needs = [[int(symbol in board) for symbol in range(24)] for board in [rng.sample(range(24), 9) for _ in range(30)]]
    found = length_by_counts(needs, [2] * 24, Random(1))
    assert found.first.games == 20_000
    assert found.last.games is None
    assert found.first.p10 <= found.first.p50 <= found.first.p90 <= found.last.p90 <= 48


@pytest.mark.parametrize("most_vectors", [100_000, 10], ids=["all vectors", "vectors of random games"])
def test_a_first_win_is_found_where_one_exists(most_vectors: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(count_calls, "MOST_VECTORS", most_vectors)
    possible = {(min(wins), wins.count(min(wins))) for wins in wins_of_all_orders(SMALL, SUPPLY)}
    assert len(possible) > 4
    for call in range(1, sum(SUPPLY) + 1):
        for winners in range(1, len(SMALL) + 1):
            if (call, winners) in possible:
                order = order_by_counts(SMALL, SUPPLY, Random(1), winners=winners, first_win=(call, call))
                check_whole(order, SMALL, SUPPLY)
                assert (min(order.won_on), order.won_on.count(min(order.won_on))) == (call, winners)
            else:
                with pytest.raises(TeacherError):
                    order_by_counts(SMALL, SUPPLY, Random(1), winners=winners, first_win=(call, call))


def test_all_together_within_the_fewest_calls() -> None:
    fewest = min(max(wins) - min(wins) + 1 for wins in wins_of_all_orders(SMALL, SUPPLY))
    assert fewest > 1
    for span in range(fewest, 9):
        order = order_by_counts(SMALL, SUPPLY, Random(span), together=span)
        check_whole(order, SMALL, SUPPLY)
        assert max(order.won_on) - min(order.won_on) < span
    with pytest.raises(TeacherError, match="cannot all win") as refused:
        order_by_counts(SMALL, SUPPLY, Random(1), together=fewest - 1)
    assert f"--together {fewest}" in refused.value.hint
    assert "--goal board" not in refused.value.hint


def test_a_class_set_by_sounds() -> None:
    needs, supply = long_game(24, 4, 9, seed=1), [4] * 4
    finder = CountFinder(needs, supply, Random(1))
    assert finder.proven
    assert finder.earliest == 9
    for seed in range(10):
        order = order_by_counts(needs, supply, Random(seed))
        check_whole(order, needs, supply)
        assert not any(len(set(order.calls[i : i + 3])) == 1 for i in range(len(order.calls) - 2))
    assert len({order_by_counts(needs, supply, Random(seed)).calls for seed in range(10)}) == 10


def test_what_random_games_did_not_come_by_is_never_called_impossible(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(count_calls, "MOST_VECTORS", 10)
    with pytest.raises(TeacherError) as refused:
        order_by_counts(SMALL, SUPPLY, Random(1), winners=1, first_win=(8, 8))
    assert refused.value.message == "No order was found for one first winner on call 8."
    assert "possible" not in refused.value.hint


def test_a_refusal_names_a_number_of_winners_that_is_possible() -> None:
    with pytest.raises(TeacherError, match="One first winner is not possible") as refused:
        order_by_counts([[1, 1], [1, 1]], [2, 2], Random(1), winners=1)
    assert refused.value.hint == "2 first winners are possible on calls 2 to 3. Change --winners."


@given(st.integers(0, 1000))
def test_no_three_in_a_row_where_that_can_be_had(seed: int) -> None:
    calls = without_runs([[0] * 4 + [1] * 4, [1], [0] * 2 + [1] * 3 + [2] * 2], Random(seed))
    assert sorted(calls[:8]) == [0] * 4 + [1] * 4
    assert calls[8] == 1
    assert not any(len(set(calls[i : i + 3])) == 1 for i in range(len(calls) - 2))


@pytest.mark.parametrize("seed", range(20))
def test_no_three_in_a_row_in_a_tight_case(seed: int) -> None:
    calls = without_runs([[0] * 26 + [1] * 16], Random(seed))
    assert not any(len(set(calls[i : i + 3])) == 1 for i in range(len(calls) - 2))


def test_openings_are_as_likely_as_chance_makes_them() -> None:
    # The board is full on call 5 by one call of symbol 0 and three of 1, then 0: 3·20·2 = 120 ways; or by three calls
    # of symbol 0 and one of 1, then 1: 1·6·5 = 30 ways. Four standard deviations of 200 draws are 23.
    lasts = [order_by_counts([[2, 2]], [3, 6], Random(seed), first_win=(5, 5)).calls[-1] for seed in range(200)]
    assert abs(lasts.count(0) - 160) <= 23


def test_a_single_symbol_cannot_be_spread() -> None:
    assert order_by_counts([[4]], [4], Random(1)) == Order((0, 0, 0, 0), (4,))


@pytest.mark.parametrize(
    ("needs", "supply"), [([], [1]), ([[0, 0]], [1, 1]), ([[2, 0]], [1, 1]), ([[1]], [1, 1]), ([[-1, 2]], [2, 2])]
)
def test_games_that_cannot_be_played_are_our_bug(needs: Needs, supply: list[int]) -> None:
    with pytest.raises(ValueError, match="needs"):
        length_by_counts(needs, supply, Random(1))
    with pytest.raises(ValueError, match="needs"):
        order_by_counts(needs, supply, Random(1))
