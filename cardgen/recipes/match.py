"""Matching: from sounds to pairs, as loose cards, as halves that fit together, or as pages to draw lines on."""

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace

from cardgen import plan
from cardgen.games import matching as game_of
from cardgen.games import matching_text as text
from cardgen.games.matching_pages import line_pages
from cardgen.games.paper_text import count, in_short
from cardgen.games.pieces import Card, Imprint, LinePage, Pair, PaperUse
from cardgen.games.saying import say_lines
from cardgen.recipes.again import once_more
from cardgen.recipes.common import check_there, close_sounds, key_pictures
from cardgen.recipes.decks import deck, on_whole_sheets
from cardgen.recipes.library import Library
from cardgen.recipes.match_plan import match_plan
from cardgen.recipes.match_words import NO_WORDS, layout, pictures
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import Backs, Cut, MatchForm, MatchRequest, PairKind
from cardgen.sheets import cards, draw_lines, halves
from cardgen.sheets.block import card_block
from cardgen.sheets.cards import CardSheets
from cardgen.sheets.draw_lines import LineSheets
from cardgen.sheets.halves import HalfSheets
from cardgen.sheets.ink_use import ink_share
from cardgen.sheets.marks import Document, Page
from cardgen.sheets.style import Style
from cardgen.sheets.teacher import TeacherPage, teacher_pages
from cardgen.sources.layouts import card_format

Pages = tuple[Page, ...]
Book = CardSheets | HalfSheets | LineSheets


@dataclass(frozen=True, slots=True)
class _Made:
    """A finished game: what is matched, its pairs (and pages), and the sheets they lie on."""

    kind: PairKind
    pairs: tuple[Pair, ...]
    pages: tuple[LinePage, ...]
    book: Book


def match(request: MatchRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return the sheets of a matching game; TeacherError where the request cannot be met, saying what can."""
    # 2 words: which letters and pictures can stand in one game.
    in_use = key_pictures(request, library)
    library = replace(library, sounds=in_use.sounds)
    sounds = library.sounds.several(request.all_keys)
    kind = game_of.settle(request, library.sounds)
    pool = NO_WORDS if kind is PairKind.LETTERS else pictures(request, kind, library, rng)

    # 3 games: what belongs together; 4 sheets: where it lies.
    if kind is PairKind.LETTERS:
        pairs = game_of.letter_pairs(sounds)
    else:
        pairs = game_of.picture_pairs(sounds, pool) if kind is PairKind.PICTURES else game_of.word_pairs(pool)
    made = _made(request, kind, pairs, rng, split=split)
    use = _paper_use(request, made.book, library)
    notes = in_use.notes if kind is PairKind.PICTURES else ()
    said = [" ".join(pool.we_say)] if pool.we_say else []
    warnings = (*close_sounds(request, library), *notes, *pool.notes, *said)
    again = once_more(request, "match", made.book.cards[0].id if isinstance(made.book, CardSheets) else "")
    says = say_lines(sounds)
    cut = Cut.GUILLOTINE if isinstance(made.book, LineSheets) else made.book.cut
    content = TeacherPage(
        text.title(kind, says),
        text.summary(request, made.pairs, made.pages),
        says,
        text.blocks(
            text.how_to_play(request, kind, made.pairs, says[0].say),
            text.practises(kind, ends=sounds[0].end),
            text.paper_lines(request, use, cut, _waves(made.book), apart=split),
            warnings,
            again,
            cutting=request.form is not MatchForm.PAGE,
        ),
    )
    teacher = teacher_pages(
        content,
        request.paper.size,
        imprint=Imprint("match", request.all_keys, request.seed),
        widths=library.widths,
        first_page=1,
    )
    for_you = len(teacher)
    if isinstance(made.book, CardSheets) and made.book.two_sided:
        teacher = on_whole_sheets(teacher)
    shown = _pages(made.book, library, len(teacher) + 1, request.only)
    if not request.only:
        shown = (*teacher, *shown)
    language = LANGUAGES[request.accent]
    return Sheets(
        _documents(request, made, teacher, content.title, language, library)
        if split
        else (("", Document(content.title, language, shown)),),
        (*_told(request, made, use, for_you, shown), f"The same sheets again: {again[0]}"),
        warnings,
        match_plan(request, kind, pool, made.pairs, made.pages) | plan.paper_plan(use, shown),
    )


def _made(request: MatchRequest, kind: PairKind, pairs: tuple[Pair, ...], rng: random.Random, *, split: bool) -> _Made:
    """Return the game in the form that was asked for, laid on its sheets."""
    imprint = Imprint("match", request.all_keys, request.seed)
    foot = text.foot(request, kind)
    if request.form is MatchForm.PAGE:
        pages = line_pages(pairs, kind, request.pages, rng)
        _check_pages(request.only, pages)
        return _Made(kind, pairs, pages, LineSheets(pages, request.paper, request.ink, imprint, foot))
    if request.form is MatchForm.HALVES:
        pairs = game_of.with_curves(pairs, kind, request.cut_line)
        return _Made(kind, pairs, (), _half_book(request, pairs, imprint, foot, split=split))
    if request.self_check:
        pairs = game_of.with_signs(pairs, kind)
    cut = Cut.SCISSORS if split else Cut.GUILLOTINE
    backs = Backs.DUPLEX_LONG if request.self_check else Backs.NONE
    book = deck(request, _cards(pairs), "match", foot, layout=layout(request), backs=backs, cut=cut)
    return _Made(kind, pairs, (), replace(book, apart=split))


def _cards(pairs: Sequence[Pair]) -> list[Card]:
    return [card for pair in pairs for card in pair.cards]


def _half_book(
    request: MatchRequest, pairs: tuple[Pair, ...], imprint: Imprint, foot: str, *, split: bool
) -> HalfSheets:
    block = card_block(card_format(layout(request)), request.paper, margin=request.margin, gap=request.gap)
    _check_pieces(request, pairs)
    cut = request.cut or (Cut.SCISSORS if split else Cut.GUILLOTINE)
    return HalfSheets(pairs, request.sets, block, cut, imprint, Style.of(request.ink), foot, split)


def _check_pieces(request: MatchRequest, pairs: Sequence[Pair]) -> None:
    numbers = [name for name in request.only if name.isdecimal()]
    check_there([int(name) for name in numbers], range(1, request.sets + 1), "set")
    check_there([name for name in request.only if name not in numbers], [card.id for card in _cards(pairs)], "piece")


def _check_pages(only: tuple[str, ...], pages: Sequence[LinePage]) -> None:
    strange = [name for name in only if not name.isdecimal()]
    there = [page.number for page in pages]
    check_there(strange, list(map(str, there)), "page")
    check_there([int(name) for name in only], there, "page")


def _pages(book: Book, library: Library, first: int, only: tuple[str, ...] = ()) -> Pages:
    """Return all sheets but the teacher's, or those on which the pieces `only` stand."""
    if isinstance(book, CardSheets):
        return cards.card_pages(book, library.widths, first, only)
    if isinstance(book, HalfSheets):
        return halves.half_pages(book, library.widths, first, only)
    pages, keys = draw_lines.line_sheets(book, library.widths, first)
    wanted = {int(name) for name in only}
    shown = [page.number in wanted or not wanted for page in book.pages]
    return tuple(page for part in (pages, keys) for page, is_shown in zip(part, shown, strict=True) if is_shown)


def _paper_use(request: MatchRequest, book: Book, library: Library) -> PaperUse:
    pages = _pages(book, library, 1)
    if isinstance(book, LineSheets):
        number = len(book.pages)
        return PaperUse(
            (("draw-a-line pages", number),), 0, 0, 0, ink_share(pages[:number], request.ink, library.widths)
        )
    if isinstance(book, HalfSheets):
        use = halves.paper_use(book, pages, library.widths, request.ink)
    else:
        use = cards.paper_use(book, pages, library.widths, request.ink)
    # The foot line says more than what lies on the sheets.
    return replace(use, parts=((request.form.value, use.sheets),))


def _waves(book: Book) -> int:
    return book.waves if isinstance(book, HalfSheets) else 0


def _told(request: MatchRequest, made: _Made, use: PaperUse, for_you: int, shown: Pages) -> tuple[str, ...]:
    """Return what the teacher reads before anything is written."""
    if request.only:
        return (f"Only {', '.join(request.only)}, as in the whole set: {count(len(shown), 'page')}.",)
    what = text.summary(request, made.pairs, made.pages)
    waves = f", {count(_waves(made.book), 'curve')} with scissors" if _waves(made.book) else ""
    key = f", {count(len(made.pages), 'page')} with the key" if made.pages else ""
    lines = [
        f"Matching {text.WHAT[made.kind]}: {what}. {in_short(use)}{waves}{key}, and {count(for_you, 'page')} for you."
    ]
    if request.self_check:
        lines.append(text.NOT_FOR_MEMORY)
    room = text.room_line(request.sets, _fitting(made.book))
    return (*lines, room) if room else tuple(lines)


def _fitting(book: Book) -> int:
    """Return how many sets go on as many sheets as are used."""
    if isinstance(book, LineSheets) or book.apart:
        return 0
    most = book.sets
    while most < book.block.places and len(replace(book, sets=most + 1).layers) == len(book.layers):
        most += 1
    return most


def _documents(
    request: MatchRequest, made: _Made, teacher: Pages, title: str, language: str, library: Library
) -> tuple[tuple[str, Document], ...]:
    """Return one document for the teacher (with the keys of pages), and one a set or page."""
    first = len(teacher) + 1
    if isinstance(made.book, LineSheets):
        pages, keys = draw_lines.line_sheets(made.book, library.widths, first)
        digits = max(2, len(str(len(pages))))
        own = [(f"page-{n:0{digits}}", Document(f"{title}: page {n}", language, (p,))) for n, p in enumerate(pages, 1)]
        return (("teacher", Document(title, language, (*teacher, *keys))), *own)
    digits = max(2, len(str(request.sets)))
    parts = [("teacher", Document(title, language, teacher))]
    for number in range(1, request.sets + 1):
        own_pages = _pages(made.book, library, first, (str(number),))
        parts.append((f"set-{number:0{digits}}", Document(f"{title}: set {number}", language, own_pages)))
    return tuple(parts)
