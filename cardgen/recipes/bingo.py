"""Bingo: from sounds to boards, caller's list, calling cards and teacher's page."""

import random
from collections.abc import Collection, Sequence

from cardgen import __version__, plan
from cardgen.errors import TeacherError
from cardgen.games import bingo as game_of
from cardgen.games import bingo_text as text
from cardgen.games.bingo_rules import BingoRules, settle
from cardgen.games.pieces import BingoGame, Goal, Imprint, PaperUse
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import Accent, BingoRequest, Call, Cut, Face, Ink, Paper
from cardgen.sheets import bingo as sheets_of
from cardgen.sheets.boards import BoardLayout, page_format, widest_word
from cardgen.sheets.marks import Document, Page
from cardgen.sources.layouts import board_format, card_format
from cardgen.units import Typeface
from cardgen.words.bank import Word
from cardgen.words.contrast import By, contrasts
from cardgen.words.pool import Pool, choose_pool
from cardgen.words.sounds import Sound
from cardgen.words.spoken import words_to_say

MOST_EXPLAINED = 4
Layouts = tuple[tuple[Face, BoardLayout], ...]


def bingo(request: BingoRequest, library: Library, rng: random.Random, *, split: bool) -> Sheets:
    """Return the sheets of a bingo; TeacherError where the request cannot be met, saying what can."""
    # 2 words: which of them suit the sounds, fit the cells, and go together.
    sounds = library.sounds.several(request.all_keys)
    rules = settle(request, library.sounds)
    grid = request.grid
    form = board_format(page_format(grid.rows, grid.columns, big=request.big))
    layouts = sheets_of.layouts_of(form, request.paper, rules.faces, grid.rows, grid.columns)
    pool = _pool(request, rules, library, layouts, rng)

    # 3 games: who gets which board, in which order the calls come, how long it lasts.
    in_play = game_of.letters_in_play(rules, sounds, pool) if rules.on_letters else game_of.words_in_play(sounds, pool)
    game = game_of.play(request, rules, in_play, rng)
    cards = game_of.cards(rules, in_play, _key_pictures(sounds, library))

    # 4 sheets: where everything lies on paper.
    book = sheets_of.BingoSheets(
        game,
        cards,
        request.paper,
        request.ink,
        request.cut or (Cut.SCISSORS if split else Cut.GUILLOTINE),
        layouts,
        card_format("week-deck").block(request.paper),
        card_format("counters").block(request.paper) if request.big else None,
        Imprint("bingo", request.all_keys, request.seed),
        game_of.say_lines(sounds),
    )
    use = sheets_of.paper_use(book)
    warnings = _look_out(request, sounds, library, pool, game)
    calls = len(in_play.symbols) if game.call is not Call.WORD else len({word.word for word in in_play.said if word})
    counters = len(game.boards) * rules.shape.cells if request.big else 0
    again = (command(request), f"Made with cardgen {__version__}; another version may know other words.")
    telling = _telling(book, sounds, text.paper_lines(use, calls, counters), warnings, again)
    pages = sheets_of.all_pages(book, telling, library.widths)
    shown = _only(request.only, book, pages, library)
    title, language = telling.title, LANGUAGES[request.accent]
    return Sheets(
        _documents(book, shown, title, language, library) if split else (("", Document(title, language, shown)),),
        (
            *_summary(request, game, use, pages, shown),
            f"The same sheets again: {command(request)}",
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


def _key_pictures(sounds: Sequence[Sound], library: Library) -> list[tuple[str, Word]]:
    """Return the key picture of every sound that has one drawn."""
    pairs = ((sound.key, library.bank.get(sound.key_picture or "")) for sound in sounds)
    return [(key, word) for key, word in pairs if word and word.picture and library.is_drawn(word.picture)]


def _look_out(
    request: BingoRequest, sounds: Sequence[Sound], library: Library, pool: Pool, game: BingoGame
) -> tuple[str, ...]:
    """Return what the teacher should know before she plays: close sounds, names children may say, what was odd."""
    lines = [*_close_sounds(request, library), *pool.notes, *game.notes]
    if pool.we_say:
        lines.append(" ".join(pool.we_say))
    if game.call is Call.WORD and not game.boards[0].face.is_letter:
        used = {item.id for item in game.items}
        spare = [s.key_picture for s in sounds if s.key_picture and s.key_picture not in used]
        if spare:
            lines.append(f"No key picture is called: {_and(spare)} can stay on the wall.")
    return tuple(lines)


def _close_sounds(request: BingoRequest, library: Library) -> list[str]:
    """Return what tells close sounds and letters apart; many pairs are only named, or they would fill the page."""
    every = contrasts(library.sounds, library.contrasts, request.all_keys, request.home_language)
    at_home = [contrast.text for contrast in every if contrast.by is By.HOME]
    found = [contrast for contrast in every if contrast.by is not By.HOME]
    if len(found) <= MOST_EXPLAINED:
        return [contrast.text for contrast in found] + at_home
    heads = {By.SOUND: "Same sound", By.EAR: "Close by ear", By.EYE: "Close by eye"}
    lines = []
    for by, head in heads.items():
        pairs = dict.fromkeys("–".join(contrast.keys) for contrast in found if contrast.by is by)
        if pairs:
            lines.append(f"{head}: {', '.join(pairs)}.")
    return lines + at_home


def _and(words: Sequence[str]) -> str:
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))


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
        return (f"Only {', '.join(request.only)}, as in the whole set: {text.count(len(shown), 'page')}.",)
    return (text.one_line(game, use, len(pages)),)


def command(request: BingoRequest) -> str:
    """Return the command that makes the same set again: everything that decides what is on the sheets."""
    parts = ["cardgen bingo", *request.keys]
    if request.review:
        parts.append(f"--review {','.join(request.review)}")
    parts.append(f"--boards {request.boards} --grid {request.grid.rows}x{request.grid.columns}")
    if request.show:
        kinds = (kind.face.value + (f":{kind.boards}" if kind.boards else "") for kind in request.show)
        parts.append(f"--show {','.join(kinds)}")
    values = {
        "--call": request.call and request.call.value,
        "--goal": request.goal and request.goal.value,
        "--winners": request.winners,
        "--first-win": request.first_win and f"{request.first_win[0]}-{request.first_win[1]}",
        "--together": request.together,
        "--pool": request.pool,
        "--paper": None if request.paper is Paper.A4 else request.paper.value,
        "--ink": None if request.ink is Ink.COLOUR else request.ink.value,
        "--accent": None if request.accent is Accent.US else request.accent.value,
        "--cut": request.cut and request.cut.value,
        "--pictures": request.pictures and "FOLDER",
    }
    parts += [f"{option} {value}" for option, value in values.items() if value]
    parts += [f"--{flag}" for flag in ("free", "big", "careful") if getattr(request, flag)]
    parts += ["--open-pictures"] * request.open_pictures
    return " ".join([*parts, f"--seed {request.seed}"])


def _only(
    only: tuple[str, ...], book: sheets_of.BingoSheets, pages: tuple[Page, ...], library: Library
) -> tuple[Page, ...]:
    """Return all pages, or those on which the pieces `only` stand, numbered as in the whole set."""
    if not only:
        return pages
    boards = {int(name) for name in only if name.isdecimal()}
    cards = {name for name in only if not name.isdecimal()}
    _check_there(boards, [board.number for board in book.game.boards], "board")
    _check_there(cards, [card.id for card in book.cards], "card")
    first_board = next(page.number for page in pages if page.cells)
    first_card = next(page.number for page in pages if page.places and not page.cells)
    shown: tuple[Page, ...] = ()
    if boards:
        shown += sheets_of.board_part(book, library.widths, first_board, boards)
    if cards:
        shown += sheets_of.card_part(book, library.widths, first_card, cards)
    return shown


def _check_there(wanted: Collection[int] | Collection[str], there: Sequence[int] | Sequence[str], what: str) -> None:
    for name in wanted:
        if name not in there:
            some = ", ".join(map(str, there[:30])) + (" …" if len(there) > 30 else "")
            raise TeacherError(
                f"There is no {what} {name} in this set.",
                f"The {what}s are {some}. Give the same sounds, options and --seed as on the sheet.",
            )


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
