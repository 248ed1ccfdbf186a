"""Imposition, proven by cutting: sheets are stacked, the stack is cut, and the piles are looked at."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cardgen.games.pieces import Paper
from cardgen.sheets.block import card_block
from cardgen.sheets.impose import impose, sets_apart, split_sets
from cardgen.sources.layouts import card_format

Piece = tuple[int, int]


def cut(sets: int, cards: int, places: int) -> list[list[Piece]]:
    """Stack the printed sheets (the first on top) and cut: one pile a place, top to bottom."""
    piles: list[list[Piece]] = [[] for _ in range(places)]
    for layer in impose(sets, cards, places):
        for pile, piece in zip(piles, layer, strict=True):
            if piece:
                pile.append(piece)
    return piles


@pytest.mark.parametrize("places", [1, 2, 4, 8, 9, 10, 12, 24])
def test_every_card_of_every_set_is_printed_once(places: int) -> None:
    for sets, cards in product(range(1, 32), (1, 2, 5, 8, 9, 12, 24, 25)):
        printed = [piece for layer in impose(sets, cards, places) for piece in layer if piece]
        assert sorted(printed) == [(number, card) for number in range(sets) for card in range(cards)]
        assert len(impose(sets, cards, places)) == -(-sets * cards // places)  # and takes no more paper than it must


@pytest.mark.parametrize("places", [2, 4, 8, 9, 10, 12, 24])
def test_each_pile_of_a_full_run_is_one_pack_in_order(places: int) -> None:
    for runs, cards in product((1, 2, 3), range(1, 27)):
        layers = impose(runs * places, cards, places)
        for run in range(runs):
            piles: list[list[Piece]] = [[] for _ in range(places)]
            for layer in layers[run * cards : (run + 1) * cards]:
                for pile, piece in zip(piles, layer, strict=True):
                    assert piece
                    pile.append(piece)
            assert piles == [[(run * places + place, card) for card in range(cards)] for place in range(places)]


@given(st.integers(1, 60), st.integers(1, 30), st.sampled_from([1, 2, 4, 8, 9, 10, 12, 24]))
def test_the_rest_laid_pile_on_pile_is_in_order(sets: int, cards: int, places: int) -> None:
    rest = sets % places
    piles = cut(rest, cards, places) if rest else []
    together = [piece for pile in piles for piece in pile]
    assert together == [(number, card) for number in range(rest) for card in range(cards)]
    mixed = any(len({number for number, _ in pile}) > 1 for pile in piles)
    assert split_sets(sets, cards, places) == mixed


def test_sets_have_piles_of_their_own_where_that_costs_no_paper() -> None:
    # 12 pairs of children, 12 cards a set, 24 a sheet: six sheets, every set two piles.
    piles = cut(12, 12, 24)
    assert all(len({number for number, _ in pile}) == 1 for pile in piles)
    assert not split_sets(12, 12, 24)
    assert not split_sets(30, 24, 9)  # three left over: eight sheets, every pack three piles
    assert split_sets(5, 8, 9)  # 40 cards on 5 sheets; piles of their own would take 8


def test_a_back_meets_its_front_when_the_sheet_is_turned_over() -> None:
    # The paper itself is turned over here, edge by edge, instead of asking the program where backs go: hold the front
    # against the light, and a point at x of the back side is seen at W − x of the front.
    for name, paper in product(("week-deck", "cards", "cards-bank", "cards-half", "cards-quarter"), Paper):
        block = card_block(card_format(name), paper)
        for slot in range(block.places):
            front, back = block.box(slot), block.back_box(slot)
            seen = (block.sheet.w - back.right, back.y, block.sheet.w - back.x, back.bottom)
            assert seen == pytest.approx((front.x, front.y, front.right, front.bottom))


@pytest.mark.parametrize(("sets", "cards", "places"), [(1, 4, 24), (3, 24, 24), (2, 52, 24), (3, 5, 2)])
def test_sets_apart_have_sheets_of_their_own(sets: int, cards: int, places: int) -> None:
    layers = sets_apart(sets, cards, places)
    assert len(layers) == sets * -(-cards // places)
    assert all(len(layer) == places for layer in layers)
    assert [there for layer in layers for there in layer if there] == [
        (s, c) for s in range(sets) for c in range(cards)
    ]
    assert all(len({there[0] for there in layer if there}) == 1 for layer in layers)
