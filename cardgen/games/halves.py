"""Which curve cuts which pair in two: every pair of a game has its own, so that only the right halves fit together.

A curve is told by a word of digits, -1, 0 or +1: where the cut swings to, from top to bottom. The words are chosen so
that wrong halves never seem right:

- The digits of every word add up to 1 more than a multiple of 3 (one check digit, as in a ternary code). So two words
  of one length differ in two places at least, and one slip of the eye turns no word into another.
- A half turned upside down shows its word reversed and negated, and that adds up to 2 more than a multiple of 3: so
  turned, no half is the mate of any other on its side, nor of itself.

How far the curves lie apart on paper is measured in `tests/sheets/test_wave.py`.
"""

from collections.abc import Sequence
from itertools import pairwise, product
from string import ascii_lowercase

from cardgen.errors import TeacherError

CurveWord = tuple[int, ...]

LETTER_DIGITS, OTHER_DIGITS = 4, 5
# The 27th of the words; of these it alone swings to one side all the way down.
_LEFT_OUT = (1, 1, 1, 1)
# Of the longer words these lie nearer than 4 mm to the curve of a letter, as it is or turned.
_NEAR_A_LETTER = {
    (0, 0, 0, -1, -1),
    (0, 0, 1, 0, 0),
    (0, 0, -1, -1, 0),
    (0, -1, -1, 0, 0),
    (1, 1, 0, 1, 1),
    (-1, -1, 0, 0, 0),
}


def letter_words() -> tuple[CurveWord, ...]:
    """Return the 26 words of four digits, in a fixed order: one for each letter from a to z."""
    return tuple(word for word in _checked(LETTER_DIGITS) if word != _LEFT_OUT)


def other_words() -> tuple[CurveWord, ...]:
    """Return the 26 words of five digits for what is spelled with more than one letter, in a fixed order.

    Five swings lie closer together than four, so a word that goes all the way from -1 to +1 in one step would have
    bends too tight for scissors; and words too near to a letter's curve are left out.
    """
    gentle = (word for word in _checked(OTHER_DIGITS) if all(abs(a - b) < 2 for a, b in pairwise(word)))
    return tuple(word for word in gentle if word not in _NEAR_A_LETTER)


def words_for(keys: Sequence[str]) -> tuple[CurveWord, ...]:
    """Return the word of every key of a game, in the keys' order: never the same twice.

    A single letter has the same word in every game, so that halves of two games can be mixed. Other keys (sh, long-a)
    take the longer words in the order in which they come. TeacherError for more of these than there are words;
    ValueError for a key that comes twice.
    """
    if len(set(keys)) < len(keys):
        raise ValueError("a key comes twice: its halves would fit those of its double")
    others = [key for key in keys if not _is_letter(key)]
    longer = other_words()
    if len(others) > len(longer):
        raise TeacherError(
            f"{len(others)} of these sounds are not written with one letter; there are cut lines for {len(longer)}.",
            "Take fewer such sounds, or straight cuts: --cut-line straight",
        )
    words = dict(zip(others, longer, strict=False)) | dict(zip(ascii_lowercase, letter_words(), strict=True))
    return tuple(words[key] for key in keys)


def _is_letter(key: str) -> bool:
    return len(key) == 1 and key in ascii_lowercase


def _checked(digits: int) -> tuple[CurveWord, ...]:
    """Return every word of that many digits whose sum is 1 more than a multiple of 3; 0 goes before +1 and -1."""
    return tuple(word for word in product((0, 1, -1), repeat=digits) if sum(word) % 3 == 1)
