"""Matching games of every kind against the tables of words and sounds: nothing may be paired in two ways."""

import random
from dataclasses import replace
from typing import Any

import pytest

from cardgen.errors import TeacherError
from cardgen.games.matching import picture_pairs, settle, word_pairs
from cardgen.recipes.library import open_library
from cardgen.recipes.match import match
from cardgen.recipes.match_plan import match_plan
from cardgen.recipes.match_words import pictures
from cardgen.request import Accent, MatchForm, MatchRequest, PairKind
from cardgen.words import pool
from cardgen.words.cautions import judge_known
from tests.outside.match_plans import faults, goes_with, letter_of, piece_faults, sounds

LIBRARY = open_library()
REQUEST = MatchRequest(keys=("m", "s"), seed=1)


@pytest.fixture(autouse=True)
def judged_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Words are judged by rules that depend on nothing else, so a thousand games need not judge them anew."""
    known: dict[Any, Any] = {}

    def judge_once(word: Any, sound: Any, table: Any, accent: Any) -> Any:
        key = (word.word, sound.key, accent)
        if key not in known:
            known[key] = judge_known(word, sound, table, accent)
        return known[key]

    monkeypatch.setattr(pool, "judge_known", judge_once)


def plan_of(request: MatchRequest) -> dict[str, Any]:
    """The words and pairs of a game of cards, without laying them on sheets."""
    in_play = LIBRARY.sounds.several(request.all_keys)
    kind = settle(request, LIBRARY.sounds)
    chosen = pictures(request, kind, LIBRARY, random.Random(request.seed))
    pairs = picture_pairs(in_play, chosen) if kind is PairKind.PICTURES else word_pairs(chosen)
    return match_plan(request, kind, chosen, pairs, ())


@pytest.mark.parametrize("part", range(4))
def test_no_picture_goes_with_two_letters_in_a_thousand_games(part: int) -> None:
    chance = random.Random(part)
    keys = list(LIBRARY.sounds.keys)
    made = refused = 0
    while made < 260:
        request = replace(
            REQUEST,
            keys=tuple(chance.sample(keys, chance.choice((2, 2, 3, 4, 6)))),
            seed=chance.randrange(10**6),
            accent=chance.choice(list(Accent)),
            pairs=PairKind.WORDS if chance.random() < 0.1 else PairKind.PICTURES,
            careful=chance.random() < 0.2,
        )
        try:
            plan = plan_of(request)
        except TeacherError:
            refused += 1
            continue
        assert faults(plan) == [], request
        made += 1
    assert refused < 400


def whole(**change: Any) -> dict[str, Any]:
    request = replace(REQUEST, **change)
    return match(request, LIBRARY, random.Random(request.seed), False).plan


def test_no_pair_stands_straight_across_on_any_page() -> None:
    chance = random.Random(7)
    single = list("mnpbtdcgfsvhlrwaeou")
    for number in range(70):
        keys = tuple(chance.sample(single, chance.choice((2, 2, 3, 3, 4, 5, 6, 7, 9))))
        kind = chance.choice(list(PairKind))
        versions = 1 if len(keys) == 2 else 3
        plan = whole(keys=keys, pairs=kind, form=MatchForm.PAGE, pages=versions, seed=number)
        assert faults(plan) == []
        orders = [(order["left"], order["right"]) for order in plan["orders"]]
        assert all(one != other for at, one in enumerate(orders) for other in orders[:at])


@pytest.mark.parametrize("kind", list(PairKind))
@pytest.mark.parametrize("keys", [("m", "s"), ("sh", "th", "qu"), tuple("msatpnhdfbc")])
def test_halves_and_decks(kind: PairKind, keys: tuple[str, ...]) -> None:
    for form in (MatchForm.CARDS, MatchForm.HALVES):
        plan = whole(keys=keys, pairs=kind, form=form)
        assert faults(plan) == []
        shown = {place["id"] for page in plan["pages"] for place in page["places"]}
        assert shown == {card["id"] for card in plan["cards"]}


def test_the_judge_sees_planted_faults() -> None:
    good = plan_of(replace(REQUEST, pairs=PairKind.PICTURES))
    assert faults(good) == []
    assert any("goes with" in fault for fault in faults(good | {"pairs": [["s", "moon"], *good["pairs"]]}))
    assert any("comes twice" in fault for fault in faults(good | {"pairs": [*good["pairs"], good["pairs"][0]]}))
    # Queen begins like kite, glove is another name of mitten, and a medal shows a star.
    assert any("goes with" in f for f in faults(good | {"sounds": ["qu", "k"], "pairs": [["qu", "queen"]]}))
    assert any("called" in f for f in faults(good | {"sounds": ["m", "g"], "pairs": [["m", "mitten"]]}))
    assert any("called star" in f for f in faults(good | {"sounds": ["m", "s"], "pairs": [["m", "medal"]]}))
    page = whole(keys=("m", "s", "t", "b"), form=MatchForm.PAGE)
    for order in page["orders"]:
        order["lines"][0], order["lines"][1] = (
            [order["lines"][0][0], order["lines"][1][1]],
            [order["lines"][1][0], order["lines"][0][1]],
        )
    assert any("no pair" in fault for fault in faults(page))
    halves = whole(keys=("m", "s", "t", "b"), form=MatchForm.HALVES)
    assert piece_faults(halves) == []
    assert any("curve" in fault for fault in piece_faults(halves | {"curves": [[0, 0, 0, 1]] * 4}))


def test_the_judge_hears_by_itself() -> None:
    assert goes_with("k", "queen")
    assert goes_with("qu", "queen")
    assert not goes_with("o", "arm")
    assert goes_with("x", "fox")
    assert not goes_with("x", "moon")
    assert letter_of("long-i") == "i"
    assert len(sounds()) == len(LIBRARY.sounds.keys)
