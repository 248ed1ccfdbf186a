"""Imposition: which card of which set lies on which sheet, so that cutting a stack of sheets leaves sets in order.

A stack cut along all lines becomes one pile a place; the first sheet is on top.
"""

from math import ceil

# One sheet: for every place the (set, card) that lies there, both counted from 0, or nothing.
Layer = tuple[tuple[int, int] | None, ...]


def impose(sets: int, cards: int, places: int) -> tuple[Layer, ...]:
    """Return the sheets for `sets` sets of `cards` cards at `places` places a sheet.

    As many sets as there are places make a run: each pile is one whole set in order. What is left is cut and stacked:
    the piles laid onto one another, place by place, give the sets in order; each set has piles of its own wherever
    that takes no more paper.
    """
    runs, rest = divmod(sets, places)
    sheets: list[Layer] = [
        tuple((run * places + place, card) for place in range(places)) for run in range(runs) for card in range(cards)
    ]
    if rest:
        sheets += _stacked(rest, cards, places, runs * places)
    return tuple(sheets)


def sets_apart(sets: int, cards: int, places: int) -> tuple[Layer, ...]:
    """Return the sheets for sets that have sheets of their own, one set after the other, card by card."""
    starts = range(0, cards, places)
    return tuple(
        tuple((number, card) if card < cards else None for card in range(start, start + places))
        for number in range(sets)
        for start in starts
    )


def _stacked(sets: int, cards: int, places: int, first: int) -> list[Layer]:
    deep = ceil(sets * cards / places)
    piles = places // sets  # that each set may have to itself
    own = ceil(cards / piles)
    sheets = []
    for sheet in range(deep):
        layer: list[tuple[int, int] | None] = []
        for place in range(places):
            if own == deep:
                number, card = place // piles, place % piles * own + sheet
            else:
                number, card = divmod(place * deep + sheet, cards)
            there = number < sets and card < cards
            layer.append((first + number, card) if there else None)
        sheets.append(tuple(layer))
    return sheets


def split_sets(sets: int, cards: int, places: int) -> bool:
    """Return whether some pile holds cards of two sets, so that the numbers on the cards must part them."""
    piles: list[set[int]] = [set() for _ in range(places)]
    rest = impose(sets % places, cards, places)
    for layer in rest:
        for pile, card in zip(piles, layer, strict=True):
            if card:
                pile.add(card[0])
    return any(len(pile) > 1 for pile in piles)
