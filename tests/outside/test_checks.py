"""A thousand checks of random sounds and seeds: no wrong choice that may be right, and all else fair."""

import random
from collections import Counter
from functools import cache
from typing import Any

import pytest

from cardgen.errors import TeacherError
from cardgen.recipes.check import asked
from cardgen.recipes.check_plan import check_plan
from cardgen.recipes.library import Library, open_library
from cardgen.request import Accent, CheckRequest, PartKind
from cardgen.words.bank import Word
from cardgen.words.cautions import Verdict, judge_known
from cardgen.words.sounds import Sound, SoundTable
from tests.outside.check_plans import Plan, ambiguous, sounds, unfair, words

CHECKS, LISTS = 1000, 20


@cache
def library(accent: Accent) -> Library:
    return open_library(accent=accent)


@cache
def common_keys() -> list[str]:
    """The sounds at the start of words that have enough words for most checks."""
    own = Counter(key for word in words().values() if word.get("picture", True) for key in word["keys"].split()[:1])
    return [key for key, sound in sounds().items() if sound.get("at") != "end" and own[key] >= 4]


def a_check(seed: int) -> tuple[CheckRequest, Plan]:
    """A random request that can be met, and its plan."""
    rng = random.Random(seed)
    for _ in range(60):
        keys = rng.sample(common_keys(), rng.choice((2, 2, 3, 3, 4, 5)))
        taught = rng.randint(1, len(keys))
        options: dict[str, Any] = {"versions": ("A", "B") if rng.random() < 0.3 else ()}
        if rng.random() < 0.3:
            options |= {"home_language": "Spanish"}
        request = CheckRequest(
            keys=tuple(keys[:taught]),
            review=tuple(keys[taught:]),
            seed=rng.randrange(10**6),
            accent=rng.choice(list(Accent)),
            parts=tuple(rng.sample(list(PartKind), 2)),
            **options,
        )
        try:
            found = asked(request, library(request.accent), random.Random(request.seed))
        except TeacherError:
            continue
        return request, check_plan(request, found.check, found.words, 0, ())
    raise AssertionError("no request could be met")


VERDICTS: dict[tuple[str, str, Accent], Verdict] = {}


def remembered(word: Word, sound: Sound, table: SoundTable, accent: Accent) -> Verdict:
    known = (word.word, sound.key, accent)
    if known not in VERDICTS:
        VERDICTS[known] = judge_known(word, sound, table, accent)
    return VERDICTS[known]


@pytest.fixture
def fast(monkeypatch: pytest.MonkeyPatch) -> None:
    # Which words a bingo took changes the order of choice only, and a verdict is always the same.
    monkeypatch.setattr("cardgen.recipes.check.lesson_words", lambda *_: frozenset())
    monkeypatch.setattr("cardgen.games.checking_words.judge_known", remembered)


@pytest.mark.usefixtures("fast")
@pytest.mark.parametrize("part", range(LISTS))
def test_no_wrong_choice_is_right_and_all_is_fair(part: int) -> None:
    found: list[str] = []
    seen = Counter[int]()
    for seed in range(part, CHECKS, LISTS):
        request, plan = a_check(seed)
        found += [f"{request}: {line}" for line in (*ambiguous(plan), *unfair(plan))]
        seen.update(task_part["choices"] for task_part in plan["parts"])
    assert found == []
    assert seen[2]
    assert seen[3]


def test_what_is_not_right_would_be_seen() -> None:
    task = {"kind": "sound-picture", "part": 1, "key": "m", "say": "mmm", "sign": "cup"}
    plan: Plan = {
        "sounds": ["m", "s", "g", "c", "k"],
        "accent": "us",
        "parts": [{"choices": 2}],
        "tasks": [task | {"choices": ["moon", "sock"], "keys": ["m", "s"], "answer": "moon"}],
    }
    assert ambiguous(plan) == []
    # A mitten is also called a glove; a cup a mug.
    assert "glove" in words()["mitten"]["also"]
    planted: list[dict[str, Any]] = [
        {"kind": "see-small", "say": "mitten", "choices": ["m", "g"], "keys": ["m", "g"], "answer": "m"},
        {"kind": "hear-letter", "say": "kite", "key": "k", "choices": ["c", "k"], "keys": ["c", "k"], "answer": "k"},
        {"kind": "see-small", "say": "ship", "key": "sh", "choices": ["s", "sh"], "keys": ["s", "sh"], "answer": "sh"},
        {"choices": ["moon", "monkey"], "keys": ["m", "s"], "answer": "moon"},
        {"choices": ["moon", "moon"], "keys": ["m", "m"], "answer": "moon"},
        {"choices": ["moon", "tap"], "keys": ["m", "t"], "answer": "moon"},
        # Mitten and gloves look alike.
        {"choices": ["mitten", "gloves"], "keys": ["m", "g"], "answer": "mitten"},
    ]
    for wrong in planted:
        assert ambiguous(plan | {"tasks": [task | wrong]}), wrong
    row = plan["tasks"][0]
    assert any("places" in line for line in unfair(plan | {"tasks": [row] * 3}))
    assert any("a word twice" in line for line in unfair(plan | {"tasks": [row] * 3}))
    assert any("a sign twice" in line for line in unfair(plan | {"tasks": [row] * 3}))
    key_picture = row | {"choices": ["mouse", "sock"], "answer": "mouse"}
    assert any("key picture" in line for line in unfair(plan | {"tasks": [key_picture]}))
