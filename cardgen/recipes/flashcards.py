"""Flashcards: from sounds to letter cards and picture cards with their backs."""

import random
from collections.abc import Sequence
from dataclasses import replace

from cardgen import plan
from cardgen.errors import TeacherError
from cardgen.games import flashcards_text as text
from cardgen.games.flashcards import Lesson, LinkOf, flashcards, letter_height, readable_from
from cardgen.games.paper_text import cards_lines, count, in_short
from cardgen.games.pieces import Backs, Card
from cardgen.games.saying import say_lines
from cardgen.recipes.again import once_more
from cardgen.recipes.common import close_sounds, key_pictures
from cardgen.recipes.decks import deck, on_whole_sheets, set_documents
from cardgen.recipes.library import Library
from cardgen.recipes.links import Links, check_clips, fine_codes, open_links
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request.common import Codes, Face
from cardgen.request.flashcards import BackFace, CardCase, FlashcardsRequest
from cardgen.sheets import card_faces, cards
from cardgen.sheets.cards import CardSheets
from cardgen.sheets.style import LEAST_WORD_PT, X_HEIGHT
from cardgen.sheets.teacher import TeacherPage, teacher_pages
from cardgen.units import Typeface
from cardgen.words.bank import Word
from cardgen.words.pool import choose_pool

LAYOUTS = ("cards", "cards-quarter", "cards-half", "cards-page")  # from small to large
LARGE = 100.0  # mm; wide enough for how the sound is said


def flashcard_sheets(request: FlashcardsRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return the sheets of the cards; TeacherError where the request cannot be met, saying what can."""
    # 2 words: the key picture of every sound, then as many more as are asked for.
    sounds = library.sounds.several(request.all_keys)
    pictures = key_pictures(request, library)
    first = dict(pictures.words)
    words, notes = _words(request, library, rng, first)
    says = say_lines(sounds)
    lessons = [Lesson(sound, say, words.get(sound.key, ())) for sound, say in zip(sounds, says, strict=True)]

    # 3 games: what is on every card. 4 sheets: where it lies; large cards have more on their backs.
    links = open_links(request, Codes.CARD)
    made, book = _sized(request, lessons, library, links)
    pages = cards.card_pages(book, library.widths, 1)
    use = cards.paper_use(book, pages, library.widths, request.ink)
    warnings = (*close_sounds(request, library), *pictures.notes, *notes, *_codes(book, links, request))
    again = once_more(request, "cards", made[0].id)
    content = TeacherPage(
        text.title(says),
        text.summary(made, request),
        says,
        text.blocks(request, cards_lines(use, book.cut, sets=request.sets), warnings, again, _how_far(book, library)),
    )
    teacher = teacher_pages(content, request.paper.size, imprint=book.imprint, widths=library.widths, first_page=1)
    for_you = len(teacher)
    teacher = on_whole_sheets(teacher) if book.two_sided else teacher
    shown = cards.card_pages(book, library.widths, len(teacher) + 1, request.only)
    summary = f"{content.right}; {in_short(use)}, and {count(for_you, 'page')} for you."
    return Sheets(
        set_documents(book, teacher, shown, content.title, LANGUAGES[request.accent], library, request, split=split),
        (summary, f"The same sheets again: {again[0]}"),
        warnings,
        plan.head(request, "cards")
        | {"cards": plan.cards_plan(made), "sets": request.sets, **plan.backs_plan(book.backs, book.shift)}
        | plan.paper_plan(use, shown if request.only else (*teacher, *shown)),
    )


def _words(
    request: FlashcardsRequest, library: Library, rng: random.Random, first: dict[str, Word]
) -> tuple[dict[str, tuple[Word, ...]], tuple[str, ...]]:
    """Return the words of every key, its key picture first, and what there is to say of the choice."""
    if not request.words:
        return {}, ()
    too_wide = frozenset[str]()
    if request.face is not Face.PICTURE and request.distance is None:
        room = 53.0
        too_wide = frozenset(
            word.word
            for word in library.bank
            if library.widths.missing(word.word, Typeface.LEARNING)
            or library.widths.mm(word.word, LEAST_WORD_PT, Typeface.LEARNING) > room
        )
    pool = choose_pool(
        library.bank,
        library.sounds,
        request.all_keys,
        per_key=request.words,
        fewer=True,
        accent=request.accent,
        rng=rng,
        careful=request.careful,
        leave_out=too_wide,
        drawable=library.is_drawn,
    )
    found: dict[str, tuple[Word, ...]] = {}
    for key in request.all_keys:
        words = [entry.word for entry in pool.entries if entry.key == key]
        lead = [first[key]] if key in first and first[key].word not in too_wide else []
        found[key] = tuple(dict.fromkeys([*lead, *words]))[: request.words]
    return found, (*pool.notes, *([" ".join(pool.we_say)] if pool.we_say else []))


def _codes(book: CardSheets, links: Links | None, request: FlashcardsRequest) -> tuple[str, ...]:
    """Return what there is to know of the codes; TeacherError where they have no place or no recording."""
    found = [card.back.code for card in book.cards if card.back.code]
    if found and book.backs is Backs.NONE:
        raise TeacherError("Codes stand on the backs of cards.", "Leave out --backs none, or add --codes none.")
    card = book.block.card
    return (*check_clips(links, request), *fine_codes([(link, card_faces.code_module(link, card)) for link in found]))


def _sized(
    request: FlashcardsRequest, lessons: Sequence[Lesson], library: Library, links: Links | None
) -> tuple[tuple[Card, ...], CardSheets]:
    """Return the cards and their sheets in the size asked for, or the smallest that can be read from far enough."""
    backs = Backs.NONE if request.back is BackFace.BLANK and not links else Backs.DUPLEX_LONG
    link_of: LinkOf = links.of_clip if links else lambda _key, _word: None

    def sized(layout: str) -> tuple[tuple[Card, ...], CardSheets]:
        made = flashcards(lessons, request, large=False, link_of=link_of)
        book = deck(request, made, "cards", "cards", layout=layout, backs=backs)
        if book.block.card.w < LARGE:
            return made, book
        made = flashcards(lessons, request, large=True, link_of=link_of)
        return made, replace(book, cards=made)

    if request.distance is None:
        return sized(LAYOUTS[0])
    needed = letter_height(request.distance)
    for layout in LAYOUTS:
        made, book = sized(layout)
        if _small_letter(book, library) >= needed:
            return made, book
    apart = "" if request.case is not CardCase.BOTH else ", or show one letter a card: --case apart"
    raise TeacherError(
        f"From {request.distance:g} m a letter must be {needed:.0f} mm high, more than fits on a sheet.",
        f"Come nearer: at most {readable_from(_small_letter(book, library)):.1f} m{apart}.",
    )


def _small_letter(book: CardSheets, library: Library) -> float:
    """Return how high a small letter without a stem stands on the cards, in mm."""
    setting = card_faces.setting(book.cards, book.block.card, book.style, library.widths)
    alone = any(card.front.letter for card in book.cards)
    return (setting.letter_em if alone else setting.pair_em) * X_HEIGHT


def _how_far(book: CardSheets, library: Library) -> str:
    if not any(card.front.letter or card.front.pair for card in book.cards):
        return ""
    height = _small_letter(book, library)
    if height < letter_height(0):
        return ""
    metres = readable_from(height)
    return (
        f"Small letters are {height:.0f} mm high: enough to be read from {metres:.1f} m (a rule for signs, "
        "ADA 2010, 703.5.5; for children who learn to read come nearer)."
    )
