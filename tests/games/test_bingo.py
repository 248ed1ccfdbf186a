"""A class set as a whole: what is on the boards, what is called, and what the words on the sheets claim of it."""

import random
from collections import Counter
from typing import Any

import pytest

from cardgen.games import bingo_text as text
from cardgen.games.bingo import InPlay, cards, letters_in_play, play, words_in_play
from cardgen.games.bingo_rules import BingoRules, settle
from cardgen.games.pieces import BingoGame, PaperUse
from cardgen.games.saying import say_lines
from cardgen.request import Accent, BingoRequest, Call, Cut, Face, Goal, Grid, Show
from cardgen.sources.bank_file import read_bank, read_sounds
from cardgen.words.pool import Pool, choose_pool
from cardgen.words.spoken import words_to_say

SOUNDS, BANK = read_sounds(), read_bank()


def said(keys: tuple[str, ...], per_key: int, rng: random.Random) -> Pool:
    return words_to_say(
        BANK,
        SOUNDS,
        keys,
        per_key=per_key,
        accent=Accent.US,
        rng=rng,
        careful=False,
        drawable=lambda name: bool(name),
    )


def played(*keys: str, seed: int = 1, **more: Any) -> tuple[BingoGame, BingoRules, InPlay]:
    asked: dict[str, Any] = {"keys": keys, "seed": seed, "boards": 12}
    request = BingoRequest(**(asked | more))
    rules, sounds, rng = settle(request, SOUNDS), SOUNDS.several(request.all_keys), random.Random(seed)
    if rules.on_letters:
        called = rules.call is Call.WORD
        pool = said(keys, rules.copies, rng) if called else None
        game = letters_in_play(rules, sounds, pool)
    else:
        game = words_in_play(sounds, choose_pool(BANK, SOUNDS, keys, cells=rules.shape.cells, rng=rng))
    return play(request, rules, game, rng), rules, game


def test_every_cell_holds_an_item_of_the_game_and_words_stand_once_on_a_board() -> None:
    game, _, _ = played("m", "s", "t", "b")
    known = {item.id for item in game.items}
    for board in game.boards:
        assert set(board.cells) <= known
        assert len(set(board.cells)) == 9
    by_key = Counter(item.key for item in game.items)
    assert set(by_key.values()) == {4}


def test_the_free_cell_is_in_the_middle() -> None:
    game, _, _ = played("m", "s", free=True, call=Call.WORD)
    for board in game.boards:
        assert [place for place, cell in enumerate(board.cells) if cell is None] == [4]


def test_a_called_sound_fills_boards_by_counts_alone() -> None:
    game, rules, _ = played("m", "s", "t", "b")
    assert rules.by_counts
    key_of = {item.id: item.key for item in game.items}
    called: Counter[str] = Counter()
    open_boards = {b.number: Counter(key_of[cell] for cell in b.cells if cell) for b in game.boards}
    for step in game.calls:
        called[step.item] += 1
        full = {number for number, needs in open_boards.items() if all(called[k] >= n for k, n in needs.items())}
        assert set(step.winners) == full
        for number in full:
            del open_boards[number]
    assert not open_boards


def test_called_words_name_pictures_of_the_game() -> None:
    game, _, _ = played("m", "s", call=Call.WORD, goal=Goal.LINE)
    assert all(step.say == step.item == step.picture for step in game.calls)
    assert len({step.item for step in game.calls}) == len(game.calls)
    assert len(game.calls[[bool(step.winners) for step in game.calls].index(True)].winners) == 1


def test_letters_repeat_evenly_and_every_call_has_its_word() -> None:
    game, rules, _ = played("m", "s", "t", "p", show=(Show(Face.LOWERCASE),))
    counts = Counter(cell for board in game.boards for cell in board.cells)
    assert max(counts.values()) - min(counts.values()) <= 1
    for step in game.calls:
        word = BANK.get(step.say)
        assert word
        assert step.key in word.keys
        assert step.letter == step.item
    assert max(Counter(step.item for step in game.calls).values()) <= rules.copies


def test_small_letters_and_capitals_are_cells_of_their_own() -> None:
    game, _, _ = played("m", "qu", show=(Show(Face.LETTERS),), call=Call.SOUND)
    assert {cell for board in game.boards for cell in board.cells} == {"m", "M", "qu", "Qu"}


@pytest.mark.parametrize(
    ("more", "core"),
    [
        ({}, {"letter": 16}),
        ({"call": Call.WORD}, {"picture": 16}),
        ({"call": Call.NAME}, {"letter": 12}),
    ],
)
def test_the_deck_has_a_card_for_every_call_a_bag_must_hold(more: dict[str, Any], core: dict[str, int]) -> None:
    _, rules, game = played("m", "s", "t", "b", **more)
    deck = cards(rules, game, [])
    assert len(deck) % 24 == 0
    for kind, least in core.items():
        assert sum(1 for card in deck if getattr(card.front, kind)) >= least
    assert len({card.id for card in deck}) == len(deck)


def test_the_words_on_the_sheets_are_the_counted_figures() -> None:
    game, _, _ = played("m", "s", "t", "b", call=Call.WORD)
    words = text.saying(game, ends=False)
    won = [step.number for step in game.calls if step.winners]
    assert f"call {won[0]}" in text.how_it_ends(game)
    assert f"call {won[-1]}" in text.how_it_ends(game)
    low, high = game.balance.frequency
    assert f"{low} or {high} of the 12 boards" in text.how_fair(game, words)[0]
    assert "No two boards are alike." in text.how_fair(game, words)
    shown = " ".join(text.in_play(game))
    assert all(item.id in shown for item in game.items)


@pytest.mark.parametrize(
    ("more", "phrase"),
    [
        ({}, "cover one picture that begins with it"),
        ({"call": Call.WORD}, "say its first sound, then cover its picture"),
        ({"call": Call.CARD}, "Show the letter card and say nothing"),
        ({"show": (Show(Face.LOWERCASE),)}, "cover that letter, one each time"),
        ({"show": (Show(Face.LETTERS),)}, "small or capital as the list says"),
        ({"call": Call.NAME}, "letter's name twice"),
        ({"show": (Show(Face.WORD),)}, "find it and cover it"),
        ({"show": (Show(Face.WORD),), "call": Call.SOUND}, "cover one word that begins with it"),
    ],
)
def test_how_to_call_fits_the_game(more: dict[str, Any], phrase: str) -> None:
    game, _, _ = played("m", "s", **more)
    assert phrase in text.how_to_call(game, text.saying(game, ends=False), game.calls[0].say)


def test_a_short_line_game_says_so() -> None:
    game, _, _ = played("m", "s", call=Call.WORD, goal=Goal.LINE, boards=24)
    assert game.length.first.p50 <= 4
    assert any("short" in line for line in text.how_long(game))


def test_boards_that_all_win_at_once_say_so() -> None:
    game, _, _ = played("m", "s", "t", "p", "n", "h", grid=Grid(5, 5), call=Call.WORD)
    first = next(step.winners for step in game.calls if step.winners)
    at_once = len(first) > len(game.boards) / 2
    assert at_once == any("Most boards win at once" in line for line in text.how_long(game))


def test_numbers_read_well() -> None:
    use = PaperUse((("boards", 1), ("cards", 1)), cuts=1, minutes=1, scissors=1, ink=0.06)
    lines = text.paper_lines(use, Cut.GUILLOTINE, 12, 0)
    assert lines[0].startswith("1 sheet of boards, 1 of cards; about 6 % of the paper is inked")
    assert "1 guillotine cut in stacks of ten, about 1 minute " in lines[0]
    assert any("The first 12 cards are the calls" in line for line in lines)
    assert "print the last page 4 times" in text.paper_lines(use, Cut.GUILLOTINE, 12, 96)[-1]


def test_say_lines_come_from_the_sounds() -> None:
    (line,) = say_lines(SOUNDS.several(("m",)))
    assert (line.say, line.held) == ("mmm", True)
    assert line.avoid.startswith("not ")


def test_two_rows_of_three_are_possible() -> None:
    game, _, _ = played("m", "s", grid=Grid(2, 3))
    assert all((board.rows, board.columns, len(board.cells)) == (2, 3, 6) for board in game.boards)
