"""Bingo: from sounds to boards, caller's list, calling cards and teacher's page."""

import random
from collections.abc import Sequence
from dataclasses import replace

from cardgen import plan
from cardgen.games import bingo as game_of
from cardgen.games import bingo_text as text
from cardgen.games.bingo_rules import BingoRules, settle
from cardgen.games.paper_text import count
from cardgen.games.pieces import BingoGame, Goal, Imprint, PaperUse
from cardgen.games.saying import say_lines
from cardgen.recipes.again import once_more
from cardgen.recipes.common import and_list, check_there, close_sounds, key_pictures
from cardgen.recipes.library import Library
from cardgen.recipes.links import check_clips, fine_codes, open_links
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import BingoRequest, Call, Codes, Cut, Face
from cardgen.sheets import bingo as sheets_of
from cardgen.sheets.block import card_block
from cardgen.sheets.boards import BoardLayout, page_format, widest_word
from cardgen.sheets.caller import code_module
from cardgen.sheets.marks import Document, Page
from cardgen.sources.layouts import board_format, card_format
from cardgen.units import Typeface
from cardgen.words.pool import Pool, choose_pool
from cardgen.words.sounds import Sound
from cardgen.words.spoken import words_to_say

Layouts = tuple[tuple[Face, BoardLayout], ...]


def bingo(request: BingoRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return the sheets of a bingo; TeacherError where the request cannot be met, saying what can."""
    # 2 words: which of them suit the sounds, fit the cells, and go together.
    in_use = key_pictures(request, library)
    library = replace(library, sounds=in_use.sounds)
    sounds = library.sounds.several(request.all_keys)
    rules = settle(request, library.sounds)
    grid = request.grid
    form = board_format(request.layout or page_format(grid.rows, grid.columns, big=request.big))
    layouts = sheets_of.layouts_of(form, request.paper, rules.faces, grid.rows, grid.columns)
    pool = _pool(request, rules, library, layouts, rng)

    # 3 games: who gets which board, in which order the calls come, how long it lasts.
    in_play = game_of.letters_in_play(rules, sounds, pool) if rules.on_letters else game_of.words_in_play(sounds, pool)
    game = game_of.play(request, rules, in_play, rng)
    cards = game_of.cards(rules, in_play, in_use.words)

    # 4 sheets: where everything lies on paper.
    links = open_links(request, Codes.PACK)
    link = links.of_pack() if links else None
    book = sheets_of.BingoSheets(
        game,
        cards,
        request.paper,
        request.ink,
        request.cut or (Cut.SCISSORS if split else Cut.GUILLOTINE),
        layouts,
        card_block(card_format("week-deck"), request.paper),
        card_block(card_format("counters"), request.paper) if request.big else None,
        Imprint("bingo", request.all_keys, request.seed),
        say_lines(sounds),
        link,
    )
    use = sheets_of.paper_use(book, library.widths)
    fine = fine_codes([(link, code_module(link))] if link else [])
    about_codes = (*check_clips(links, request), *fine)
    warnings = (*in_use.notes, *_look_out(request, sounds, library, pool, game), *about_codes)
    calls = len(in_play.symbols) if game.call is not Call.WORD else len({word.word for word in in_play.said if word})
    counters = len(game.boards) * rules.shape.cells if request.big else 0
    again = once_more(request, "bingo")
    telling = _telling(book, sounds, text.paper_lines(use, book.cut, calls, counters), warnings, again)
    pages = sheets_of.all_pages(book, telling, library.widths)
    shown = _only(request.only, book, pages, library)
    title, language = telling.title, LANGUAGES[request.accent]
    return Sheets(
        _documents(book, shown, title, language, library) if split else (("", Document(title, language, shown)),),
        (
            *_summary(request, game, use, pages, shown),
            f"The same sheets again: {again[0]}",
        ),
        warnings,
        plan.bingo_plan(request, game, pool, cards, use, shown),
    )


def _pool(request: BingoRequest, rules: BingoRules, library: Library, layouts: Layouts, rng: random.Random) -> Pool:
    """Choose the words in play; too wide ones are left out where words are printed."""
    if rules.on_letters:
        if rules.call is not Call.WORD:
            return Pool((), ())
        return words_to_say(
            library.bank,
            library.sounds,
            request.all_keys,
            per_key=rules.copies,
            accent=request.accent,
            rng=rng,
            careful=request.careful,
            drawable=library.is_drawn,
        )
    room = [em for face, layout in layouts if (em := widest_word(layout, face)) is not None]
    too_wide = {
        word.word for word in library.bank if room and library.widths.em(word.word, Typeface.LEARNING) > min(room)
    }
    return choose_pool(
        library.bank,
        library.sounds,
        request.all_keys,
        cells=rules.shape.cells,
        total=request.pool,
        accent=request.accent,
        rng=rng,
        careful=request.careful,
        drawable=library.is_drawn,
        leave_out=frozenset(too_wide),
    )


def _look_out(
    request: BingoRequest, sounds: Sequence[Sound], library: Library, pool: Pool, game: BingoGame
) -> tuple[str, ...]:
    """Return what the teacher should know before she plays: close sounds, names children may say, what was odd."""
    lines = [*close_sounds(request, library), *pool.notes, *game.notes]
    if pool.we_say:
        lines.append(" ".join(pool.we_say))
    if game.call is Call.WORD and not game.boards[0].face.is_letter:
        used = {item.id for item in game.items}
        spare = [s.key_picture for s in sounds if s.key_picture and s.key_picture not in used]
        if spare:
            lines.append(f"No key picture is called: {and_list(spare)} can stay on the wall.")
    return tuple(lines)


def _telling(
    book: sheets_of.BingoSheets,
    sounds: Sequence[Sound],
    paper: Sequence[str],
    warnings: tuple[str, ...],
    again: Sequence[str],
) -> sheets_of.Telling:
    """Return all words of the teacher's page and the caller's list."""
    game = book.game
    words = text.saying(game, ends=sounds[0].end)
    example = game.calls[0].say
    return sheets_of.Telling(
        text.title(book.says),
        text.summary(game),
        text.blocks(game, words, example, paper, warnings, again),
        text.kinds(game),
        (f"{text.how_to_call(game, words, example)} Tick each call.", text.how_it_ends(game)),
        "full boards" if game.goal is Goal.BOARD else "new line on board",
        game.call is not Call.CARD,
    )


def _summary(
    request: BingoRequest, game: BingoGame, use: PaperUse, pages: Sequence[Page], shown: Sequence[Page]
) -> tuple[str, ...]:
    if request.only:
        return (f"Only {', '.join(request.only)}, as in the whole set: {count(len(shown), 'page')}.",)
    return (text.one_line(game, use, len(pages)),)


def _only(
    only: tuple[str, ...], book: sheets_of.BingoSheets, pages: tuple[Page, ...], library: Library
) -> tuple[Page, ...]:
    """Return all pages, or those on which the pieces `only` stand, numbered as in the whole set."""
    if not only:
        return pages
    boards = {int(name) for name in only if name.isdecimal()}
    cards = {name for name in only if not name.isdecimal()}
    check_there(boards, [board.number for board in book.game.boards], "board")
    check_there(cards, [card.id for card in book.cards], "card")
    first_board = next(page.number for page in pages if page.cells)
    first_card = next(page.number for page in pages if page.places and not page.cells)
    shown: tuple[Page, ...] = ()
    if boards:
        shown += sheets_of.board_part(book, library.widths, first_board, boards)
    if cards:
        shown += sheets_of.card_part(book, library.widths, first_card, cards)
    return shown


def _documents(
    book: sheets_of.BingoSheets, pages: tuple[Page, ...], title: str, language: str, library: Library
) -> tuple[tuple[str, Document], ...]:
    """Return one document a board, one for the teacher's pages and one for the cards."""
    teacher = tuple(page for page in pages if not page.places and not page.cuts)
    cards = tuple(page for page in pages if not page.cells and page not in teacher)
    digits = max(2, len(str(len(book.game.boards))))
    first = next(page.number for page in pages if page.cells)
    parts = [("teacher", Document(title, language, teacher))]
    for board in book.game.boards:
        name = f"board-{board.number:0{digits}}"
        own = sheets_of.board_part(book, library.widths, first, {board.number})
        parts.append((name, Document(f"{title}: board {board.number}", language, own)))
    parts.append(("cards", Document(f"{title}: calling cards", language, cards)))
    return tuple(parts)
