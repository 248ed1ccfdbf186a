"""What stands in the rows of a writing sheet: much help, less, none; small letters before the capital."""

from collections.abc import Sequence

from cardgen.games.pieces import DottedLetters, Fill, WritingRow
from cardgen.request import LetterCase
from cardgen.words.sounds import Sound

Fills = tuple[Fill, ...]
MOST_HELP, LESS, STARTS, ALONE, MIXED, FEW = range(6)

# The rows of one letter by how many there are; see `fills`.
LADDERS = {
    1: (MIXED,),
    2: (MIXED, FEW),
    3: (MIXED, FEW, ALONE),
    4: (MOST_HELP, LESS, STARTS, ALONE),
    5: (MOST_HELP, LESS, STARTS, ALONE, ALONE),
    6: (MOST_HELP, MOST_HELP, LESS, STARTS, ALONE, ALONE),
    7: (MOST_HELP, MOST_HELP, LESS, LESS, STARTS, ALONE, ALONE),
    8: (MOST_HELP, MOST_HELP, LESS, LESS, STARTS, STARTS, ALONE, ALONE),
    9: (MOST_HELP, MOST_HELP, LESS, LESS, STARTS, STARTS, ALONE, ALONE, ALONE),
    10: (MOST_HELP, MOST_HELP, LESS, LESS, STARTS, STARTS, ALONE, ALONE, ALONE, ALONE),
}
# Of so many rows, these belong to the capital.
CAPITAL_ROWS = {2: 1, 3: 1, 4: 1, 5: 1, 6: 2, 7: 3, 8: 4, 9: 4, 10: 4}
FOUR_WITH_CAPITAL = (MOST_HELP, STARTS, ALONE)


def letters_of(sound: Sound, case: LetterCase) -> tuple[str, ...]:
    """Return the letters of a sound as printed, the small one first: ("m", "M"), ("sh", "Sh")."""
    both = (sound.letter, sound.capital)
    return {LetterCase.BOTH: both, LetterCase.SMALL: both[:1], LetterCase.CAPITAL: both[1:]}[case]


def rows(letters: Sequence[DottedLetters], count: int, places: int) -> tuple[WritingRow, ...]:
    """Return `count` rows (1 to 10; 2 to 10 for two letters) of `places` places each, the model first."""
    if len(letters) == 1:
        return tuple(WritingRow(letters[0], fills(step, places)) for step in LADDERS[count])
    capital_rows = CAPITAL_ROWS[count]
    small = FOUR_WITH_CAPITAL if count == 4 else LADDERS[count - capital_rows]
    steps = [(letters[0], step) for step in small] + [(letters[1], step) for step in LADDERS[capital_rows]]
    return tuple(WritingRow(letter, fills(step, places)) for letter, step in steps)


def fills(step: int, places: int) -> Fills:
    """Return what stands in the places of a row, the model first; with few places the help comes before the rest."""
    rest = places - 1
    half = max(1, rest // 2)
    dots, starts = {
        MOST_HELP: (rest, 0),
        LESS: (half, rest - half),
        STARTS: (0, max(1, rest - 1)),
        ALONE: (0, 0),
        MIXED: (half, min(1, rest - half)),
        FEW: (0, half),
    }[step]
    return (Fill.MODEL, *[Fill.DOTS] * dots, *[Fill.STARTS] * starts, *[Fill.EMPTY] * (rest - dots - starts))


def word_rows(times: int, count: int) -> tuple[Fills, ...]:
    """Return `count` rows of a word that fits `times` times into a row: with the model first, or below it if once."""
    if times == 1:
        return ((Fill.MODEL,), (Fill.DOTS,), *[(Fill.EMPTY,)] * (count - 2))[:count]
    # With two rows the second is already for writing alone.
    steps = (MOST_HELP, ALONE)[:count] if count <= 2 else (MOST_HELP, LESS, *[ALONE] * (count - 2))
    # Nobody writes a whole word from the starts of its strokes.
    return tuple(tuple(Fill.EMPTY if f is Fill.STARTS else f for f in fills(step, times)) for step in steps)
