import random
from collections import Counter
from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.matching import (
    heard_twice,
    letter_pairs,
    picture_pairs,
    settle,
    shares,
    with_curves,
    with_signs,
    word_pairs,
)
from cardgen.games.matching_pages import line_pages
from cardgen.games.pieces import Card, CardFace, LinePage, Pair
from cardgen.request import Accent, CutLine, MatchRequest, PairKind
from cardgen.sources import bank_file
from cardgen.words.pool import choose_pool

SOUNDS, BANK = bank_file.read_sounds(), bank_file.read_bank()
REQUEST = MatchRequest(keys=("m", "s"), seed=1)


def letters(keys: str) -> tuple[Pair, ...]:
    return letter_pairs(SOUNDS.several(tuple(keys)))


def pictures(counts: dict[str, int]) -> tuple[Pair, ...]:
    return tuple(
        Pair(key, Card(key, CardFace(letter=key)), Card(f"{key}-{n}", CardFace(picture=f"{key}{n}")))
        for key, count in counts.items()
        for n in range(count)
    )


@pytest.mark.parametrize(
    ("change", "kind"),
    [
        ({}, PairKind.PICTURES),
        ({"keys": ("m", "s", "t")}, PairKind.PICTURES),
        ({"review": ("t", "b")}, PairKind.LETTERS),
        ({"keys": ("m", "s", "t", "b"), "count": 8}, PairKind.PICTURES),
        ({"keys": ("m",), "pairs": PairKind.WORDS}, PairKind.WORDS),
        ({"keys": ("c", "k"), "pairs": PairKind.LETTERS}, PairKind.LETTERS),
        ({"keys": ("m", "x"), "pairs": PairKind.LETTERS}, PairKind.LETTERS),
        ({"keys": ("x", "ng")}, PairKind.PICTURES),
    ],
)
def test_what_is_matched_with_what(change: dict[str, object], kind: PairKind) -> None:
    assert settle(replace(REQUEST, **change), SOUNDS) is kind  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("keys", "kind", "said"),
    [
        (("m",), None, "nothing to choose"),
        (("c", "k"), None, "sound the same"),
        (("s", "soft-c"), PairKind.PICTURES, "sound the same"),
        (("i", "long-i"), PairKind.LETTERS, "both written i"),
        (("i", "long-i"), PairKind.PICTURES, "both written i"),
        (("m", "x"), PairKind.PICTURES, "at the end of words"),
    ],
)
def test_what_does_not_go_together(keys: tuple[str, ...], kind: PairKind | None, said: str) -> None:
    with pytest.raises(TeacherError, match=said) as caught:
        settle(replace(REQUEST, keys=keys, pairs=kind), SOUNDS)
    assert "--pairs" in caught.value.hint


def test_a_word_that_begins_with_two_sounds_is_left_out() -> None:
    assert heard_twice(BANK, SOUNDS, ("m", "s", "t"), Accent.US) == frozenset()
    # A sound none of whose words is left is refused: every word of qu begins like kite.
    with pytest.raises(TeacherError, match="would go with both"):
        heard_twice(BANK, SOUNDS, ("qu", "k"), Accent.US)


def test_a_letter_card_for_every_picture() -> None:
    keys = ("m", "sh")
    pool = choose_pool(BANK, SOUNDS, keys, per_key=2, rng=random.Random(1))
    pairs = picture_pairs(SOUNDS.several(keys), pool)
    assert [pair.one.id for pair in pairs] == ["m-1", "m-2", "sh-1", "sh-2"]
    assert [pair.one.front.letter for pair in pairs] == ["m", "m", "sh", "sh"]
    assert [pair.other.id for pair in pairs] == [f"{entry.key}-{entry.word.word}" for entry in pool.entries]
    single = choose_pool(BANK, SOUNDS, keys, per_key=1, rng=random.Random(1))
    assert [pair.one.id for pair in picture_pairs(SOUNDS.several(keys), single)] == ["m", "sh"]
    assert all(pair.one.front.picture and pair.other.front.word == pair.word for pair in word_pairs(pool))


def test_right_halves_share_a_curve_and_no_others_do() -> None:
    pairs = with_curves(pictures({"m": 3, "s": 2, "sh": 2}), PairKind.PICTURES, CutLine.WAVE)
    curves = {pair.key: {other.curve for other in pairs if other.key == pair.key} for pair in pairs}
    assert all(len(own) == 1 for own in curves.values())
    assert len({pair.curve for pair in pairs}) == 3
    words = with_curves(pictures({"m": 30, "s": 22}), PairKind.WORDS, CutLine.WAVE)
    assert len({pair.curve for pair in words}) == 52
    with pytest.raises(TeacherError, match="52 pairs, not for 53"):
        with_curves(pictures({"m": 53}), PairKind.WORDS, CutLine.WAVE)
    straight = with_curves(pictures({"m": 53}), PairKind.WORDS, CutLine.STRAIGHT)
    assert {pair.curve for pair in straight} == {()}


def test_both_backs_of_a_pair_carry_its_sign() -> None:
    for pair in with_signs(letters("mstb"), PairKind.LETTERS):
        assert pair.one.back == pair.other.back == CardFace(pattern=pair.sign)
    # Any m goes with any m-picture, so these share a sign; a word goes with its own picture only.
    shared = with_signs(pictures({"m": 3, "s": 2}), PairKind.PICTURES)
    assert [pair.sign for pair in shared] == [1, 1, 1, 2, 2]
    own = pictures({"m": 36})
    own = tuple(replace(pair, one=replace(pair.one, id=pair.other.id)) for pair in own)
    assert [pair.sign for pair in with_signs(own[:35], PairKind.WORDS)] == list(range(1, 36))
    with pytest.raises(TeacherError, match="signs for 35"):
        with_signs(own, PairKind.WORDS)


@given(st.dictionaries(st.sampled_from("mstbpfd"), st.integers(1, 5), min_size=2), st.sampled_from(list(PairKind)))
def test_pages_share_the_pairs_evenly(counts: dict[str, int], kind: PairKind) -> None:
    if kind is PairKind.LETTERS:
        counts = dict.fromkeys(counts, 1)
    pairs = pictures(counts)
    try:
        dealt = shares(pairs, 6, kind)
    except TeacherError:
        # One letter has so many more pictures than the others that a page would hold nothing else.
        assert max(counts.values()) > min(counts.values())
        return
    assert sorted(pair.other.id for share in dealt for pair in share) == sorted(pair.other.id for pair in pairs)
    sizes = [len(share) for share in dealt]
    assert 2 <= min(sizes) <= max(sizes) <= min(6, min(sizes) + 1)
    if kind is PairKind.PICTURES and len(counts) >= 4:
        assert all(max(Counter(pair.key for pair in share).values()) == 1 for share in dealt)


def straight_across(page: LinePage) -> bool:
    return any(abs(page.left_rows[left] - right) < 0.5 for left, right in page.lines)


@given(st.integers(2, 9), st.integers(0, 10**6))
def test_no_letter_stands_straight_across_from_its_capital(count: int, seed: int) -> None:
    pairs = letters("mstbpfdgn"[:count])
    pages = line_pages(pairs, PairKind.LETTERS, 1, random.Random(seed))
    drawn = []
    for page in pages:
        assert not page.few
        assert page.left[0] is None
        assert page.right[1] is None
        assert not straight_across(page)
        for a, b in page.lines:
            left, right = page.left[a], page.right[b]
            assert left
            assert right
            assert left.id.upper() == right.id
            drawn.append(left.id)
    assert sorted(drawn) == sorted(pair.one.id for pair in pairs)


FEW: list[dict[str, int]] = [
    {"m": 3, "s": 3},
    {"m": 2, "s": 2, "t": 2},
    {"m": 2, "s": 2},
    {"m": 4, "s": 2},
    {"m": 1, "s": 1},
]


@given(st.sampled_from(FEW), st.integers(0, 10**6))
def test_few_letters_have_several_pictures(counts: dict[str, int], seed: int) -> None:
    (page,) = line_pages(pictures(counts), PairKind.PICTURES, 1, random.Random(seed))
    assert page.few
    assert sorted(card.id for card in page.left if card) == sorted(counts)
    assert not straight_across(page)
    if counts in ({"m": 3, "s": 3}, {"m": 2, "s": 2, "t": 2}):
        # Not even half a row off: with six pictures there is room enough.
        assert min(abs(page.left_rows[left] - right) for left, right in page.lines) > 0.5
        order = [left for left, _ in sorted(page.lines, key=lambda line: line[1])]
        assert all(len(set(order[at : at + 3])) > 1 for at in range(4))


def test_every_page_is_another_and_the_number_is_told_when_there_are_no_more() -> None:
    pages = line_pages(letters("mstb"), PairKind.LETTERS, 40, random.Random(1))
    assert len({(page.left, page.right) for page in pages}) == 40
    assert [page.number for page in pages] == list(range(1, 41))
    # Three rows, the squares in rows 1 and 2: by hand, m s | S . M and s m | M . S.
    assert count_by_trying(2) == 2
    assert len(line_pages(letters("ms"), PairKind.LETTERS, 2, random.Random(1))) == 2
    with pytest.raises(TeacherError, match="only 2 different orders of 2 pairs"):
        line_pages(letters("ms"), PairKind.LETTERS, 3, random.Random(1))
    three = count_by_trying(3)
    assert len(line_pages(letters("mst"), PairKind.LETTERS, three, random.Random(1))) == three
    with pytest.raises(TeacherError, match=f"only {three} different"):
        line_pages(letters("mst"), PairKind.LETTERS, three + 1, random.Random(1))


def test_three_pictures_of_two_letters() -> None:
    # Letters lie a quarter of a row off rows 1 and 3: by hand, s m m beside m s, and m m s beside s m; m m either way.
    pairs = pictures({"m": 2, "s": 1})
    assert not any(map(straight_across, line_pages(pairs, PairKind.PICTURES, 4, random.Random(1))))
    with pytest.raises(TeacherError, match="only 4 different"):
        line_pages(pairs, PairKind.PICTURES, 5, random.Random(1))


def count_by_trying(pairs: int) -> int:
    """How many pages there are: all orders of both columns, the squares where they belong."""
    found = 0
    for left in permutations(range(pairs)):
        for right in permutations(range(pairs)):
            rows = zip([-1, *left], [right[0], -2, *right[1:]], strict=True)
            found += all(a != b for a, b in rows)
    return found
