import random
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.errors import TeacherError
from cardgen.games.pieces import SideSign
from cardgen.games.sorting import check_sounds, drawing_order, goes_round, most_foils
from cardgen.games.sorting_words import SortWords, words_to_sort
from cardgen.recipes.library import open_library
from cardgen.recipes.sort import Played, play
from cardgen.request import Accent, Mat, SortRequest
from cardgen.words.bank import Bank, Word

LIBRARY = open_library()


def played(keys: str, seed: int = 1, **more: Any) -> Played:
    return play(SortRequest(keys=tuple(keys.split()), seed=seed, **more), LIBRARY, random.Random(seed))


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ("c k", "c and k sound the same"),
        ("s m soft-c", "s and soft-c sound the same"),
        ("wh w", "wh and w sound the same"),
        ("k qu", "Words with qu begin with the sound of k"),
        ("long-u y", "Words with long-u begin with the sound of y"),
        ("m x", "x can be heard only at the end"),
        ("ng s", "ng can be heard only at the end"),
    ],
)
def test_sounds_that_no_ear_can_sort_are_refused(keys: str, said: str) -> None:
    with pytest.raises(TeacherError, match=said) as caught:
        check_sounds(LIBRARY.sounds.several(tuple(keys.split())))
    assert caught.value.hint


@pytest.mark.parametrize("keys", ["m n", "b d", "sh ch", "x ng", "s z sh", "i e"])
def test_close_sounds_are_sorted(keys: str) -> None:
    check_sounds(LIBRARY.sounds.several(tuple(keys.split())))


@given(st.lists(st.integers(1, 6), min_size=2, max_size=4), st.integers(0, 9999))
def test_no_order_has_three_alike_or_goes_round(counts: list[int], seed: int) -> None:
    if max(counts) > most_foils(sum(counts) - max(counts)):
        with pytest.raises(ValueError, match="cannot be set in a row"):
            drawing_order(counts, random.Random(seed))
        return
    order = drawing_order(counts, random.Random(seed))
    assert [order.count(kind) for kind in range(len(counts))] == counts
    assert all(len(set(order[i : i + 3])) > 1 for i in range(len(order) - 2))
    assert not goes_round(order, len(counts))


def test_one_card_a_sound_comes_in_any_order() -> None:
    assert {drawing_order([1, 1], random.Random(seed)) for seed in range(40)} == {(0, 1), (1, 0)}
    assert len({drawing_order([1, 1, 1], random.Random(seed)) for seed in range(200)}) == 6


@pytest.mark.parametrize(
    ("order", "round_"),
    [((0, 1, 0, 1), True), ((0, 1, 0), False), ((0, 1, 1, 0), False), ((2, 0, 1, 2, 0, 1, 2), True), ((0, 1), False)],
)
def test_turns_from_end_to_end(order: tuple[int, ...], round_: bool) -> None:
    assert goes_round(order, max(order) + 1) is round_


def test_each_sound_has_the_same_number_and_its_own_sign() -> None:
    game = played("m s", foils=4).game
    assert [side.sign for side in game.all_sides] == [SideSign.SQUARE, SideSign.TRIANGLE, SideSign.HEXAGON]
    assert [side.places for side in game.all_sides] == [6, 6, 4]
    for side in game.all_sides:
        items = game.items_of(side)
        assert len(items) == side.places
        assert {item.card.back.sign for item in items} == {side.sign}
        assert all(item.card.back.word == item.word and item.card.front.word is None for item in items)
    assert [item.number for item in game.items] == list(range(1, 17))


def test_three_sounds_and_neither_have_four_signs() -> None:
    assert len({side.sign for side in played("m s t", foils=3).game.all_sides}) == 4


def test_a_scarce_sound_brings_both_down_and_it_is_said() -> None:
    made = played("qu m")
    assert [side.places for side in made.game.sides] == [4, 4]
    assert any("Every sound has 4 pictures" in line for line in made.look_out)
    with pytest.raises(TeacherError, match="There are not 6 pictures") as caught:
        played("qu m", cards=6)
    assert "--cards 4" in caught.value.hint


def test_a_sound_without_pictures_is_named() -> None:
    with pytest.raises(TeacherError, match="no picture for aw") as caught:
        played("aw m", careful=True)
    assert "--careful" in caught.value.hint


def test_foils_are_hard_on_purpose_and_it_is_told_why() -> None:
    hard = played("m s", foils=4).foils
    assert all(foil.beside in ("m", "s") for foil in hard)
    assert any("sound close" in text for foil in hard for text in foil.apart)
    at_home = played("b m", foils=2, home_language="Spanish").foils
    assert {foil.sound.key for foil in at_home} == {"v"}
    assert any("Spanish" in text for foil in at_home for text in foil.apart)


def test_close_sounds_are_told_apart_in_the_mouth_however_they_are_close() -> None:
    assert any("lips together" in line for line in played("b d").look_out)  # by ear
    assert any(line.startswith("In the mouth: u – ") for line in played("u n").look_out)  # by eye


def test_a_blank_mat_has_its_letter_cards_and_key_pictures() -> None:
    game = played("m s", mat=Mat.BLANK).game
    assert [card.id for card in game.lay] == ["Mm", "m-mouse", "Ss", "s-sun"]
    assert played("m s").game.lay == ()


def test_with_neither_what_children_may_call_otherwise_is_named_first() -> None:
    made = played("b d", foils=4)
    (line,) = [line for line in made.look_out if line.startswith("Name these first")]
    words = {item.word: LIBRARY.bank.get(item.word) for item in made.game.items if item.key == "d"}
    others = {word: [name.text for name in record.also_weak] for word, record in words.items() if record}
    assert "dog" not in others or "dog (not puppy)" in line
    assert all(f"{word} (not" in line for word in ("deer", "donkey", "diamond") if word in others)
    assert not any(line.startswith("Name these") for line in played("b d").look_out)


def test_words_come_in_any_order_whatever_order_they_were_chosen_in() -> None:
    backwards = []
    for seed in range(8):
        made = played("m s", seed)
        chosen = [entry.word.word for entry in made.pool.entries if entry.key == "m"]
        drawn = [item.word for item in made.game.items if item.key == "m"]
        assert sorted(drawn) == sorted(chosen)
        backwards.append(drawn in (chosen, chosen[::-1]))
    assert not all(backwards)


def test_a_word_heard_under_two_sounds_is_never_sorted() -> None:
    strange = Word(word="hwoo", keys=("w",), phones=("HH", "W", "UW1"), picture="whale")
    sounds = LIBRARY.sounds.several(("h", "w"))
    ours = [word for word in LIBRARY.bank if "h" in word.keys or word.word == "worm"]
    stock = SortWords(
        bank=Bank((strange, *ours)),
        table=LIBRARY.sounds,
        known=LIBRARY.contrasts,
        sounds=sounds,
        key_words=(),
        accent=Accent.US,
        careful=False,
        drawable=LIBRARY.is_drawn,
    )
    words = {entry.word.word for entry in words_to_sort(stock, None, neither=False, rng=random.Random(1)).entries}
    assert "worm" in words
    assert "hwoo" not in words


def test_the_same_seed_gives_the_same_game() -> None:
    assert played("m s", 5, foils=3).game == played("m s", 5, foils=3).game
    assert played("m s", 5).game != played("m s", 6).game


def test_no_picture_of_a_sign_is_sorted() -> None:
    for seed in range(12):
        for keys in ("s t", "sh qu m"):
            made = played(keys, seed, foils=3)
            signs = {side.sign.value for side in made.game.all_sides}
            for item in made.game.items:
                word = LIBRARY.bank.get(item.word)
                assert word
                names = {name.text for name in word.also + word.also_weak + word.shows}
                assert not signs & {item.word, *names}, item.word


def test_only_sounds_with_too_few_other_words_take_what_may_go_astray() -> None:
    for seed in range(6):
        made = played("b d", seed, foils=3)
        told = " ".join(line for line in made.look_out if line.startswith("Name these first"))
        items = {key: [item.word for item in made.game.items if item.key == key] for key in "bd"}
        assert any(f"{word} (not" in told for word in items["d"])
        assert not any(f"{word} (not" in told for word in items["b"])


@pytest.mark.parametrize("foils", [0, 3])
def test_preferred_words_are_taken_first_and_avoided_ones_never(foils: int) -> None:
    wished = replace(LIBRARY, bank=LIBRARY.bank.chosen(frozenset(["deer", "dog"]), frozenset(["bear", "bus"])))
    for seed in range(4):
        game = play(SortRequest(keys=("b", "d"), seed=seed, foils=foils), wished, random.Random(seed)).game
        words = {item.word for item in game.items}
        assert {"deer", "dog"} <= words
        assert words.isdisjoint(["bear", "bus"])
