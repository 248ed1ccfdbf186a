"""Sorting: from two or three sounds to mats, cards with their signs, and the list with the answers."""

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace

from cardgen.errors import TeacherError
from cardgen.games import sorting as game_of
from cardgen.games import sorting_text as text
from cardgen.games.paper_text import cards_lines, count, in_short
from cardgen.games.pieces import Imprint, PaperUse, SayLine, SortGame
from cardgen.games.saying import say_lines
from cardgen.games.sorting_words import Foil, SortWords, choose_foils, words_to_sort
from cardgen.recipes.again import once_more
from cardgen.recipes.common import close_sounds, key_pictures
from cardgen.recipes.decks import deck, empty_back, on_whole_sheets
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.recipes.sort_plan import sort_plan
from cardgen.request import Backs, Cut, Mat, SortRequest
from cardgen.sheets import cards, mats, sort_list
from cardgen.sheets.block import card_block
from cardgen.sheets.cards import CardSheets
from cardgen.sheets.ink_use import ink_share
from cardgen.sheets.marks import Document, Page
from cardgen.sheets.mat_layout import MatSheet, neither_sheet, sheets_of_sides
from cardgen.sheets.mats import MatLook
from cardgen.sheets.style import Style
from cardgen.sheets.teacher import TeacherPage, teacher_pages
from cardgen.sources.layouts import card_format, mat_format
from cardgen.words.contrast import By, contrasts
from cardgen.words.pool import Pool
from cardgen.words.sounds import Sound

Pages = tuple[Page, ...]
MATS = {2: ("mat", "mat-page"), 3: ("mat-three", "mat-page")}  # by number of sounds, the first that takes the cards


@dataclass(frozen=True, slots=True)
class Played:
    """A game before it has a place on paper: the words it was made from, and what the teacher should look out for."""

    game: SortGame
    sounds: tuple[Sound, ...]
    pool: Pool
    foils: tuple[Foil, ...]
    look_out: tuple[str, ...]


def sort(request: SortRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return the sheets of a sorting game; TeacherError where the request cannot be met, saying what can."""
    # 2 words, 3 games: which pictures belong where, and in which order they come.
    played = play(request, library, rng)
    # 4 sheets: where everything lies on paper.
    book = _book(request, played, library, split=split)
    teacher = book.teacher()
    pages = (*teacher, *book.shown(len(teacher) + 1))
    shown = book.shown(len(teacher) + 1, request.only) if request.only else pages
    use = book.use
    told = (
        f"Only {', '.join(request.only)}, as in the whole set: {count(len(shown), 'page')}."
        if request.only
        else f"{text.summary(request, played.game)}: {text.side_names(played.game.all_sides)}. {in_short(use)}, "
        f"and {count(len(teacher), 'page')} for you."
    )
    return Sheets(
        book.documents(teacher, shown, split=split),
        (told, f"The same sheets again: {book.again[0]}"),
        played.look_out,
        sort_plan(request, played.game, played.pool, played.foils, book.mats, book.deck, use, shown),
    )


def play(request: SortRequest, library: Library, rng: random.Random) -> Played:
    """Return the game: steps 2 and 3; TeacherError for sounds that nobody can sort, or too few pictures."""
    in_use = key_pictures(request, library)
    sounds = in_use.sounds.several(request.all_keys)
    game_of.check_sounds(sounds)
    key_words = dict(in_use.words)
    stock = SortWords(
        bank=library.bank,
        table=in_use.sounds,
        known=library.contrasts,
        sounds=sounds,
        key_words=tuple(key_words.values()),
        accent=request.accent,
        careful=request.careful,
        drawable=library.is_drawn,
    )
    pool = words_to_sort(stock, request.cards, neither=bool(request.foils), rng=rng)
    if request.foils > game_of.most_foils(len(pool.entries)):
        most = game_of.most_foils(len(pool.entries))
        raise TeacherError(
            f"{request.foils} cards for neither sound are too many beside {len(pool.entries)} others: more than two "
            "would come in a row.",
            f"Ask for at most {most}: --foils {most}",
        )
    taken = [entry.word for entry in pool.entries]
    foils = choose_foils(stock, taken, request.foils, request.home_language, rng) if request.foils else ()
    game = game_of.sort_game(
        sounds, pool.entries, foils, key_words, with_letters=request.mat is not Mat.PRINTED, rng=rng
    )
    said = [" ".join(pool.we_say)] if pool.we_say else []
    library = replace(library, sounds=in_use.sounds)
    hard = dict.fromkeys(foil.sound.key for foil in foils if foil.beside)
    for_speakers = []
    if hard and request.home_language:
        for_speakers.append(
            f"The cards for neither ({', '.join(hard)}) are hard on purpose for speakers of {request.home_language}. "
            "Begin without them: --foils 0"
        )
    look_out = (*_close(request, library, sounds), *for_speakers, *in_use.notes, *pool.notes, *said)
    return Played(game, sounds, pool, foils, look_out)


def _close(request: SortRequest, library: Library, sounds: Sequence[Sound]) -> list[str]:
    """Return what tells the sounds apart; of pairs that are close in another way than by ear, also in the mouth."""
    found = contrasts(library.sounds, library.contrasts, request.all_keys, request.home_language)
    pairs = dict.fromkeys(contrast.keys for contrast in found if len(contrast.keys) > 1)
    told = {contrast.keys for contrast in found if contrast.by is By.EAR and " – " in contrast.text}
    says = {say.key: say for say in say_lines(tuple(sounds))}
    known = {tuple(sorted(keys)) for keys in told}
    missing = [(says[a], says[b]) for a, b in pairs if tuple(sorted((a, b))) not in known]
    return [*close_sounds(request, library), *dict.fromkeys(text.mouth(missing))]


@dataclass(frozen=True, slots=True)
class _Book:
    """All pages of one sorting game, in printing order: for the teacher, then mats, then cards."""

    request: SortRequest
    played: Played
    mats: tuple[MatSheet, ...]
    deck: CardSheets
    library: Library
    again: tuple[str, ...]

    @property
    def imprint(self) -> Imprint:
        return Imprint("sort", self.request.all_keys, self.request.seed)

    @property
    def says(self) -> tuple[SayLine, ...]:
        return say_lines(self.played.sounds)

    @property
    def look(self) -> MatLook:
        blank = self.request.mat is Mat.BLANK
        return MatLook(blank, self.imprint, Style.of(self.request.ink), self.library.widths)

    @property
    def with_mats(self) -> bool:
        return self.request.mat is not Mat.NONE

    @property
    def use(self) -> PaperUse:
        """What mats and cards take in paper, cuts, minutes and ink."""
        pages = self.shown(1)
        use = cards.paper_use(self.deck, pages, self.library.widths, self.request.ink)
        if not self.with_mats:
            return use
        printed = [page for page in pages if page.items]
        share = ink_share(printed, self.request.ink, self.library.widths)
        return replace(use, parts=(("mats", len(self.mats) * self.request.sets), *use.parts), ink=share)

    def teacher(self) -> Pages:
        """Return the teacher's page, the list, and with `--key` the answers; an even number before two-sided sheets."""
        request, game, widths, size = self.request, self.played.game, self.library.widths, self.request.paper.size
        right = text.summary(request, game)
        lines = cards_lines(self.use, self.deck.cut, sets=request.sets)
        content = TeacherPage(
            text.title(self.says),
            right,
            self.says,
            text.blocks(
                game,
                text.how_to_play(request, game, checked=text.is_checked(self.deck.backs)),
                self.played.foils,
                text.paper_lines(request, game, lines, two_sided=self.deck.two_sided),
                self.played.look_out,
                self.again,
            ),
        )
        pages = teacher_pages(content, size, imprint=self.imprint, widths=widths, first_page=1)
        sound = "last sound" if game.ends else "first sound"
        listed = sort_list.ListPage("Sorting list", right, text.list_lines(game), self.says, sound)
        pages += sort_list.list_pages(
            listed, game, size, imprint=self.imprint, widths=widths, first_page=len(pages) + 1
        )
        if request.key:
            pages += mats.answer_pages(self.mats, self.look, game.items, first_page=len(pages) + 1)
        return on_whole_sheets(pages) if self.deck.two_sided else pages

    def shown(self, first: int, only: Sequence[str] = ()) -> Pages:
        """Return mats and cards of all sets, or the pages on which the sets and cards `only` stand."""
        numbers = [int(name) for name in only if name.isdecimal()] or range(1, self.request.sets + 1)
        some_cards = any(not name.isdecimal() for name in only)
        found: list[Page] = []
        step = 2 if self.deck.two_sided else 1
        each = step * len(self.mats) if self.with_mats else 0
        for number in numbers if each and not some_cards else ():
            found += self._mat(number, first + (number - 1) * each, step)
        first_card = first + self.request.sets * each
        return (*found, *cards.card_pages(self.deck, self.library.widths, first_card, only))

    def _mat(self, number: int, first: int, step: int) -> list[Page]:
        """Return the mat of one set, each sheet with its empty back where all is printed on both sides."""
        several = number if self.request.sets > 1 else None
        pages = mats.mat_pages(self.mats, self.look, number=several, first_page=first)
        numbered = [replace(page, number=first + index * step) for index, page in enumerate(pages)]
        if step == 1:
            return numbered
        return [side for page in numbered for side in (page, empty_back(page))]

    def documents(self, teacher: Pages, shown: Pages, *, split: bool) -> tuple[tuple[str, Document], ...]:
        """Return one document, or with `split` one for the teacher and one a set."""
        title, language = text.title(self.says), LANGUAGES[self.request.accent]
        if not split:
            return (("", Document(title, language, shown)),)
        parts = [("teacher", Document(title, language, teacher))]
        digits = max(2, len(str(self.request.sets)))
        for number in range(1, self.request.sets + 1):
            pages = self.shown(len(teacher) + 1, (str(number),))
            parts.append((f"set-{number:0{digits}}", Document(f"{title}: set {number}", language, pages)))
        return tuple(parts)


def _book(request: SortRequest, played: Played, library: Library, *, split: bool) -> _Book:
    """Choose the first mat that takes the cards; TeacherError where none does, saying how many cards would fit."""
    forms = MATS[len(played.sounds)]
    for name in forms:
        layout = request.layout or mat_format(name).cards
        laid = _mats(request, played.game, name, layout)
        if laid:
            book = deck(
                request,
                played.game.cards,
                "sort",
                "cards to sort",
                layout=layout,
                backs=Backs.DUPLEX_LONG,
                cut=Cut.SCISSORS if split else Cut.GUILLOTINE,
            )
            again = once_more(request, "sort", book.cards[0].id)
            return _Book(request, played, laid, replace(book, apart=split), library, again)
    raise _too_large(request, played)


def _mats(request: SortRequest, game: SortGame, form: str, layout: str) -> tuple[MatSheet, ...] | None:
    card = card_block(card_format(layout), request.paper).card
    sides = sheets_of_sides(mat_format(form), request.paper, card, game.sides, blank=request.mat is not Mat.PRINTED)
    if sides is None or game.neither is None:
        return sides
    beside = neither_sheet(mat_format("mat-neither"), request.paper, card, game.neither)
    return (*sides, beside) if beside else None


def _too_large(request: SortRequest, played: Played) -> TeacherError:
    """Return the error for cards that do not fit their mat: how many of them would."""
    layout = request.layout or "week-deck"
    card = card_block(card_format(layout), request.paper).card
    game = played.game

    def fits(each: int, foils: int) -> bool:
        sides = tuple(replace(side, places=each) for side in game.sides)
        neither = replace(game.neither, places=foils) if game.neither and foils else None
        smaller = replace(game, sides=sides, neither=neither)
        return any(_mats(request, smaller, form, layout) for form in MATS[len(played.sounds)])

    each, foils = game.sides[0].places, game.neither.places if game.neither else 0
    most = next((n for n in range(each, 0, -1) if fits(n, 0)), 0)
    most_foils = next((n for n in range(foils, 0, -1) if fits(most, n)), 0) if most else 0
    hint = "Choose smaller cards, or leave out --layout."
    if most:
        foiled = f" --foils {most_foils}" if most_foils else ""
        hint = f"With cards of this size a mat takes --cards {most}{foiled}. Or leave out --layout."
    return TeacherError(
        f"Cards of {card.w:g} × {card.h:g} mm do not fit the places of a mat for {each} cards a sound"
        + (f" and {foils} for neither." if foils else "."),
        hint,
    )
