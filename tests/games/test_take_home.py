import random
from collections import Counter
from itertools import combinations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.take_home import coming_back, makeup, quotas, same_words, varied_words
from cardgen.request import PackRequest, ReviewMode
from cardgen.words.bank import Word
from cardgen.words.case import Fit
from cardgen.words.cautions import Verdict
from cardgen.words.pool import PoolWord


def entry(key: str, number: int) -> PoolWord:
    word = Word(word=f"{key}{number}", keys=(key,), phones=("M",), picture=f"{key}{number}")
    return PoolWord(word, key, Verdict(word.word, key, Fit.GOOD, key, (), ()))


def stock(**counts: int) -> list[PoolWord]:
    return [entry(key, number) for key, count in counts.items() for number in range(count)]


@pytest.mark.parametrize(
    ("keys", "options", "cards", "letters", "pictures"),
    [
        ("m", {}, 9, 2, 6),  # small and capital
        ("m s", {}, 9, 2, 6),
        ("m s b", {}, 9, 3, 5),
        ("m s b t", {}, 9, 4, 4),
        ("m s b t p", {}, 18, 5, 12),
        ("m s", {"cards": 18}, 18, 4, 13),
        ("m s", {"cards": 12}, 12, 4, 7),
    ],
)
def test_what_a_pack_has(keys: str, options: dict[str, Any], cards: int, letters: int, pictures: int) -> None:
    made = makeup(PackRequest(keys=tuple(keys.split()), seed=1, **options))
    assert (made.cards, made.pictures) == (cards, pictures)
    assert 1 + letters + made.pictures == made.cards
    assert made.capitals == (letters > len(keys.split()))


def test_a_pack_that_is_too_small_says_how_many_would_do() -> None:
    with pytest.raises(TeacherError) as caught:
        makeup(PackRequest(keys=("m", "s", "b"), cards=6, seed=1))
    assert "--cards 7" in caught.value.hint
    assert makeup(PackRequest(keys=("m", "s", "b"), cards=7, seed=1)).pictures == 3


def test_a_third_of_the_pictures_is_of_earlier_sounds() -> None:
    made = makeup(PackRequest(keys=("m", "s"), review=("t", "p", "n"), seed=1))
    assert (made.new, made.earlier) == (4, 2)
    assert made.comebacks == ("n", "t")


@pytest.mark.parametrize(
    ("mode", "places", "vary", "back"),
    [
        (ReviewMode.EVEN, 9, False, "i h g f e d c b a"),
        (ReviewMode.EVEN, 3, False, "i e a"),
        (ReviewMode.EVEN, 1, False, "i"),
        (ReviewMode.EVEN, 2, True, "i h g f e d c b a"),
        (ReviewMode.GROWING, 9, False, "i h f b"),  # 1, 2, 4, 8 lessons ago
        (ReviewMode.GROWING, 2, True, "i h"),
    ],
)
def test_which_earlier_sounds_come_back(mode: ReviewMode, places: int, vary: bool, back: str) -> None:
    assert coming_back(tuple("abcdefghi"), mode, places, vary=vary) == tuple(back.split())


def test_nothing_comes_back_where_nothing_was() -> None:
    for mode in ReviewMode:
        assert coming_back((), mode, 0, vary=False) == ()


@given(st.integers(0, 40), st.integers(1, 6))
def test_quotas_are_as_even_as_can_be(total: int, keys: int) -> None:
    shares = quotas(total, "abcdef"[:keys])
    assert sum(shares.values()) == total
    assert max(shares.values()) - min(shares.values()) <= 1


def test_what_a_scarce_sound_lacks_comes_from_the_others() -> None:
    words = same_words(stock(m=1, s=6), {"m": 3, "s": 3})
    assert Counter(word.key for word in words) == {"m": 1, "s": 5}
    assert len(set(words)) == 6
    assert len(same_words(stock(m=1, s=2), {"m": 3, "s": 3})) == 3


@given(st.integers(1, 40), st.integers(1, 8), st.integers(2, 9), st.integers(2, 9), st.integers(0, 99))
def test_each_word_is_in_as_many_packs_as_any(packs: int, pictures: int, ms: int, ss: int, seed: int) -> None:
    words = stock(m=ms, s=ss, t=3)
    dealt = varied_words(words, ((("m", "s"), pictures), (("t",), 1)), packs, random.Random(seed))
    assert len(dealt) == packs
    new = min(pictures, ms + ss)
    for pack in dealt:
        assert len(set(pack)) == len(pack) == new + 1
        assert sum(word.key == "t" for word in pack) == 1
    often = Counter(word for pack in dealt for word in pack)
    for keys, total, kinds in ((("m", "s"), packs * new, ms + ss), (("t",), packs, 3)):
        counts = [often[word] for word in words if word.key in keys]
        assert sum(counts) == total
        assert {total // kinds, -(-total // kinds)} >= set(counts)
    by_key = [Counter(word.key for word in pack) for pack in dealt]
    assert max(keys["m"] for keys in by_key) - min(keys["m"] for keys in by_key) <= 1


def test_words_meet_evenly_and_the_same_seed_deals_the_same() -> None:
    words = stock(m=6, s=6)
    dealt = varied_words(words, ((("m", "s"), 6),), 24, random.Random(7))
    assert dealt == varied_words(words, ((("m", "s"), 6),), 24, random.Random(7))
    met = Counter(pair for pack in dealt for pair in combinations(sorted(word.word.word for word in pack), 2))
    within = [met[pair] for pair in combinations([f"m{n}" for n in range(6)], 2)]
    across = [met[(f"m{a}", f"s{b}")] for a in range(6) for b in range(6)]
    # 24 packs of 3 m-words: 72 meetings over 15 pairs, 4.8 each; 216 meetings over 36 pairs of m and s, 6 each.
    assert (sum(within), sum(across)) == (72, 216)
    assert max(within) - min(within) <= 2
    assert max(across) - min(across) <= 2
