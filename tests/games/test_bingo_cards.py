from cardgen.games.bingo_cards import both_letters, calling_cards, letter_cards, picture_cards
from cardgen.games.pieces import Card, CardFace
from cardgen.sources.bank_file import read_bank, read_sounds


def test_letters_that_come_more_than_once_are_numbered() -> None:
    assert [card.id for card in letter_cards(["m", "s", "m"])] == ["m-1", "s", "m-2"]


def test_picture_cards_are_named_by_sound_and_word_each_once() -> None:
    bank = read_bank()
    words = [("m", bank.get("moon")), ("s", bank.get("sun")), ("m", bank.get("moon"))]
    cards = picture_cards([(key, word) for key, word in words if word])
    assert [card.id for card in cards] == ["m-moon", "s-sun"]
    assert all(card.front.alt for card in cards)


def test_sounds_that_share_a_letter_have_one_pair_of_cards() -> None:
    sounds = read_sounds().several(("i", "long-i"))
    assert [card.front.letter for card in both_letters(sounds)] == ["i", "I"]


def test_extras_fill_the_last_sheet_but_never_begin_another() -> None:
    core = [Card(f"c{i}", CardFace(picture=f"c{i}")) for i in range(12)]
    fits = [Card(f"a{i}", CardFace(picture=f"a{i}")) for i in range(8)]
    too_many = [Card(f"b{i}", CardFace(picture=f"b{i}")) for i in range(5)]
    small = [Card("d0", CardFace(picture="d0"))]
    cards = calling_cards(core, (fits, too_many, small))
    assert len(cards) == 24
    assert [card.id for card in cards[12:]] == [*(f"a{i}" for i in range(8)), "d0", "blank-1", "blank-2", "blank-3"]


def test_a_card_stands_in_the_deck_once() -> None:
    core = [Card("m-1", CardFace(letter="m")), Card("m-2", CardFace(letter="m"))]
    cards = calling_cards(core, ([Card("m", CardFace(letter="m")), Card("M", CardFace(letter="M"))],))
    assert [card.id for card in cards[:3]] == ["m-1", "m-2", "M"]
