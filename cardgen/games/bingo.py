"""From sounds and words to a whole class set of bingo: boards, call order, length, as plain data."""

import random
from collections.abc import Sequence
from dataclasses import dataclass

from cardgen.games import deal
from cardgen.games.bingo_rules import BingoRules
from cardgen.games.pieces import BingoGame, Item
from cardgen.request import BingoRequest
from cardgen.words.pool import Pool
from cardgen.words.sounds import Sound


@dataclass(frozen=True, slots=True)
class _Pool:
    """The items of the game with what is called for each: symbols[i] is what pool item i looks like on a board."""

    items: tuple[Item, ...]
    symbols: tuple[int, ...]
    groups: tuple[int, ...] | None
    says: tuple[tuple[str, str | None, str], ...]  # by pool item: what is said, its picture, the picture's alt text


def play(
    request: BingoRequest, rules: BingoRules, sounds: Sequence[Sound], pool: Pool, rng: random.Random
) -> BingoGame:
    """Return the class set for a settled game; TeacherError if what was asked of boards or order cannot be had."""
    made = _letter_pool(rules, sounds, pool) if rules.on_letters else _word_pool(pool)
    dealt = deal.deal(rules.shape, request.boards, made.symbols, rng, groups=made.groups)
    raise NotImplementedError(dealt)
