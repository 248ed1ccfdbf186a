"""The pictures of a matching game: which of them go with one letter only, how many fill a sheet, and fit on it."""

import random
from collections import Counter

from cardgen.errors import TeacherError
from cardgen.games.matching import heard_twice, how_many
from cardgen.games.matching_pages import MOST_ROWS
from cardgen.recipes.common import and_list
from cardgen.recipes.library import Library
from cardgen.request import Backs, MatchForm, MatchRequest, PairKind
from cardgen.sheets import card_faces, draw_lines, halves
from cardgen.sheets.block import CardBlock, card_block
from cardgen.sheets.style import LEAST_WORD_PT
from cardgen.sources.layouts import card_format
from cardgen.units import Typeface
from cardgen.words.pool import Pool, choose_pool

NO_WORDS = Pool((), ())


def pictures(request: MatchRequest, kind: PairKind, library: Library, rng: random.Random) -> Pool:
    """Return the pictures of the game; TeacherError where there are too few, saying of what and what would help.

    As many of every sound as fill a sheet, unless the request says how many; where a sound has hardly fewer, all come
    down to its number.
    """
    left_out = _wide(request, library) if kind is PairKind.WORDS else _heard_twice(request, library)

    def chosen(per_key: int | None, *, fewer: bool = False) -> Pool:
        return choose_pool(
            library.bank,
            library.sounds,
            request.all_keys,
            total=request.count,
            per_key=per_key,
            fewer=fewer,
            accent=request.accent,
            rng=rng,
            careful=request.careful,
            drawable=library.is_drawn,
            leave_out=left_out,
        )

    if request.count or request.pairs_per:
        try:
            pool = chosen(request.pairs_per)
        except TeacherError as error:
            # There the number of words is asked for by another option than here.
            option = "--count" if request.count else "--pairs-per"
            raise TeacherError(error.message, error.hint.replace("--pool", option)) from error
    else:
        wanted = how_many(request, _room(request))
        pool = chosen(wanted, fewer=True)
        counts = Counter(entry.key for entry in pool.entries)
        least = min(counts[key] for key in request.all_keys)
        if 2 * wanted <= 3 * least < 3 * wanted:
            pool = chosen(least, fewer=True)
    _check(request, pool)
    return pool


def _check(request: MatchRequest, pool: Pool) -> None:
    there = {entry.key for entry in pool.entries}
    missing = [key for key in request.all_keys if key not in there]
    if missing:
        raise TeacherError(
            f"There is no picture for {and_list(missing)} that goes with the others.",
            f"Leave {missing[0]} out; `cardgen words {' '.join(request.all_keys)} --all` shows what was left out, and "
            "why. Your own pictures: --pictures FOLDER. Letters need none: --pairs letters",
        )
    if len(pool.entries) < 2:
        raise TeacherError("One pair is no game.", "Ask for more pairs, or name another sound beside it.")


def _heard_twice(request: MatchRequest, library: Library) -> frozenset[str]:
    return heard_twice(library.bank, library.sounds, request.all_keys, request.accent)


def _wide(request: MatchRequest, library: Library) -> frozenset[str]:
    """Return the words that are too wide for their place, or have letters that the learning type does not have."""
    widths, room = library.widths, _word_room(request)
    return frozenset(
        word.word
        for word in library.bank
        if widths.missing(word.word, Typeface.LEARNING) or widths.mm(word.word, LEAST_WORD_PT, Typeface.LEARNING) > room
    )


def layout(request: MatchRequest) -> str:
    """Return the name of the cards' format."""
    usual = "pairs" if request.form is MatchForm.HALVES else "cards-big" if request.big else "week-deck"
    return request.layout or usual


def _block(request: MatchRequest) -> CardBlock:
    return card_block(
        card_format(layout(request)),
        request.paper,
        fold=request.backs is Backs.FOLD,
        margin=request.margin,
        gap=request.gap,
        laminate=request.laminate,
    )


def _room(request: MatchRequest) -> int:
    """Return how many pairs fill a sheet."""
    if request.form is MatchForm.PAGE:
        return MOST_ROWS
    places = _block(request).places
    return places if request.form is MatchForm.HALVES else max(1, places // 2)


def _word_room(request: MatchRequest) -> float:
    """Return how many mm a word may be wide where it stands."""
    if request.form is MatchForm.PAGE:
        return draw_lines.COLUMN_ROOM
    block = _block(request)
    return halves.word_room(block) if request.form is MatchForm.HALVES else card_faces.word_room(block.card)
