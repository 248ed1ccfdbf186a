"""The calling cards of a bingo: one for every call a bag must hold, and what else the sheet has room for."""

from collections import Counter
from collections.abc import Iterable, Sequence

from cardgen.games.pieces import Card, CardFace
from cardgen.words.bank import Word
from cardgen.words.sounds import Sound

A_SHEET = 24


def calling_cards(core: Sequence[Card], extras: Iterable[Sequence[Card]]) -> tuple[Card, ...]:
    """Return the cards of whole sheets: all of `core`, then each group of `extras` that fits, then empty ones to draw.

    Groups come in order of use; one that would need another sheet of paper is left out whole. A card that is in the
    deck already is not added again.
    """
    cards = list(core)
    places = -(-len(cards) // A_SHEET) * A_SHEET
    for group in extras:
        known = {card.front for card in cards}
        new = [card for card in group if card.front not in known]
        if len(cards) + len(new) <= places:
            cards += new
    cards += [Card(f"blank-{number}", CardFace(to_draw=True)) for number in range(1, places - len(cards) + 1)]
    return tuple(cards)


def picture_cards(words: Iterable[tuple[str, Word]]) -> list[Card]:
    """Return a picture card for each (key, word), named like `m-moon`; a word twice in play has one card only."""
    cards = {word.word: Card(f"{key}-{word.word}", CardFace(picture=word.picture, alt=word.alt)) for key, word in words}
    return list(cards.values())


def letter_cards(letters: Sequence[str]) -> list[Card]:
    """Return a letter card for each letter, named by the letter; repeated ones are `m-1`, `m-2` and so on."""
    often, seen = Counter(letters), Counter[str]()
    cards = []
    for letter in letters:
        seen[letter] += 1
        name = letter if often[letter] == 1 else f"{letter}-{seen[letter]}"
        cards.append(Card(name, CardFace(letter=letter)))
    return cards


def both_letters(sounds: Sequence[Sound]) -> list[Card]:
    """Return the small letter and the capital of every sound, each letter once."""
    return letter_cards(list(dict.fromkeys(letter for s in sounds for letter in (s.letter, s.capital))))
