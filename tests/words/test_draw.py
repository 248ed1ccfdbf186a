import random
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from cardgen.words.draw import Option, draw

KINDS = ("m", "s")


@st.composite
def options(draw_from: st.DrawFn) -> list[Option]:
    size = draw_from(st.integers(1, 9))
    kinds = draw_from(st.lists(st.sampled_from(KINDS), min_size=size, max_size=size))
    ranks = draw_from(st.lists(st.integers(0, 2), min_size=size, max_size=size))
    pairs = draw_from(st.sets(st.sampled_from(list(combinations(range(size + 1), 2))), max_size=size))
    return [
        Option(kinds[i], ranks[i], frozenset(j for j in range(size) if (min(i, j), max(i, j)) in pairs and i != j))
        for i in range(size)
    ]


def best_by_trying_all(choice: list[Option], wanted: dict[str, int]) -> int:
    """The most options that can be had, by trying every subset."""
    best = 0
    for bits in range(1 << len(choice)):
        chosen = [number for number in range(len(choice)) if bits >> number & 1]
        apart = all(other not in choice[one].clashes for one, other in combinations(chosen, 2))
        within = all(sum(choice[n].kind == kind for n in chosen) <= count for kind, count in wanted.items())
        if apart and within:
            best = max(best, len(chosen))
    return best


@settings(deadline=None)
@given(options(), st.integers(0, 5), st.integers(0, 5), st.integers(0, 99))
def test_as_many_as_can_be_had_and_none_that_clash(choice: list[Option], m: int, s: int, seed: int) -> None:
    wanted = {"m": m, "s": s}
    chosen = draw(choice, wanted, random.Random(seed))
    assert len(set(chosen)) == len(chosen)
    assert not any(choice[one].clashes & set(chosen) for one in chosen)
    for kind, count in wanted.items():
        assert sum(choice[number].kind == kind for number in chosen) <= count
    assert [choice[n].kind for n in chosen] == sorted(choice[n].kind for n in chosen)
    assert len(chosen) == best_by_trying_all(choice, wanted)


def test_lower_ranks_go_first() -> None:
    choice = [Option("m", rank, frozenset()) for rank in (2, 0, 1, 0)]
    assert sorted(draw(choice, {"m": 2}, random.Random(1))) == [1, 3]
    assert sorted(draw(choice, {"m": 3}, random.Random(1))) == [1, 2, 3]


def test_chance_decides_among_equals_and_a_seed_repeats_it() -> None:
    choice = [Option("m", 0, frozenset()) for _ in range(20)]
    drawn = [tuple(draw(choice, {"m": 5}, random.Random(seed))) for seed in range(5)]
    assert len(set(drawn)) == 5
    assert drawn == [tuple(draw(choice, {"m": 5}, random.Random(seed))) for seed in range(5)]
