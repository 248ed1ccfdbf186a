"""Writing sheets: from sounds to letters as roads, rows to write, and the words on the back."""

import random
from collections.abc import Sequence
from dataclasses import replace

from cardgen import plan
from cardgen.errors import TeacherError
from cardgen.games import trace_text as text
from cardgen.games.pieces import Imprint, WritingSheet, WritingWord
from cardgen.games.saying import say_lines
from cardgen.games.tracing import Hand, dotted, road
from cardgen.games.writing import letters_of, rows, word_rows
from cardgen.games.writing_words import words_to_write
from cardgen.recipes.again import once_more
from cardgen.recipes.common import check_there, close_sounds, key_pictures
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import TraceRequest
from cardgen.request.trace import X_HEIGHTS
from cardgen.sheets.marks import Document, Page, Side
from cardgen.sheets.teacher import TeacherPage, teacher_pages
from cardgen.sheets.trace import WritingForm, sheet_pages
from cardgen.sources.letterforms import letterforms
from cardgen.units import Typeface
from cardgen.words.bank import Word
from cardgen.words.sounds import Sound

Pages = tuple[Page, ...]


def trace(request: TraceRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return writing sheets, one a sound; TeacherError where the request cannot be met, saying what can."""
    # 2 words: the sounds, their key pictures, and which words are written.
    sounds = library.sounds.several(request.all_keys)
    check_there(request.only, request.all_keys, "sound")
    pictures = key_pictures(request, library)
    key_words = dict(pictures.words)
    form = WritingForm(request.paper, request.ink, request.row_x_height, request.big, request.left_handed)
    hand = Hand(letterforms(lift=request.lift).strokes, library.widths)
    words = {sound.key: _words(request, sound, key_words.get(sound.key), form, hand, library, rng) for sound in sounds}
    word_form, notes = _word_form(form, [word.word for some in words.values() for word in some], hand)
    missing = [sound.key for sound in sounds if len(words[sound.key]) < request.words]
    if missing:
        notes += (f"There are not enough good words to write for {', '.join(missing)}.",)

    # 3 games: roads, dotted letters, and what stands in each row.
    made = [
        _sheet(request, sound, key_words.get(sound.key), words[sound.key], form, word_form, hand) for sound in sounds
    ]

    # 4 sheets: where everything lies on paper.
    warnings = (*close_sounds(request, library), *pictures.notes, *notes)
    imprint = Imprint("writing", request.all_keys, request.seed)
    again = once_more(request, "trace")
    says = say_lines(sounds)
    content = TeacherPage(
        text.title(says), text.summary(request, made), says, text.blocks(request, made, says, warnings, again)
    )
    teacher = teacher_pages(content, request.paper.size, imprint=imprint, widths=library.widths, first_page=1)
    children = _children(made, form, word_form, imprint, library, len(teacher) + 1)
    shown = _shown(request, teacher, children)
    return Sheets(
        _documents(request, content.title, teacher, children, shown, split=split),
        (_told(request, made, len(teacher), shown), f"The same sheets again: {again[0]}"),
        warnings,
        _plan(request, made, form, word_form, shown),
        for_you=len(teacher),
    )


def _words(
    request: TraceRequest,
    sound: Sound,
    key_word: Word | None,
    form: WritingForm,
    hand: Hand,
    library: Library,
    rng: random.Random,
) -> tuple[Word, ...]:
    smallest = replace(form, x_height=min(X_HEIGHTS))

    def writable(word: str) -> bool:
        strange = hand.missing(word) or hand.widths.missing(word, Typeface.LEARNING)
        return " " not in word and not strange and smallest.times(hand.widths.em(word, Typeface.LEARNING)) > 0

    return words_to_write(
        sound,
        request.words,
        key_word,
        library.bank,
        library.sounds,
        accent=request.accent,
        rng=rng,
        drawable=library.is_drawn,
        writable=writable,
    )


def _word_form(form: WritingForm, words: Sequence[str], hand: Hand) -> tuple[WritingForm, tuple[str, ...]]:
    """Return the form of the backs: the largest lines, no higher than the rows', on which every word has room."""
    ems = [hand.widths.em(word, Typeface.LEARNING) for word in words]
    sizes = [replace(form, x_height=size) for size in X_HEIGHTS if size <= form.x_height]
    found = next(size for size in sizes if all(size.times(em) for em in ems))
    if found.x_height == form.x_height:
        return found, ()
    longest = max(words, key=lambda word: hand.widths.em(word, Typeface.LEARNING))
    return found, (
        f"The words have lines with an x-height of {found.x_height:g} mm: {longest} is too long for {form.x_height:g}.",
    )


def _sheet(
    request: TraceRequest,
    sound: Sound,
    key_word: Word | None,
    words: Sequence[Word],
    form: WritingForm,
    word_form: WritingForm,
    hand: Hand,
) -> WritingSheet:
    letters = letters_of(sound, request.case)
    strange = hand.missing("".join(letters))
    if strange:
        raise TeacherError(f"There are no pen strokes for {strange}.", f"Leave {sound.key} out.")
    in_dots = [dotted(letter, hand, form.dot_gap()) for letter in letters]
    widest = max(letter.right - letter.left for letter in in_dots)
    places = form.place_count(widest, several=len(sound.letter) > 1)
    # Twice three letters (air Air) would be small on their road; the capital then stands in its rows alone.
    big = letters[:1] if request.big or len(letters[0]) > 2 else letters
    return WritingSheet(
        sound.key,
        letters,
        tuple(road(letter, hand) for letter in big),
        rows(in_dots, form.row_count(), places),
        key_word.picture if key_word else None,
        key_word.alt if key_word else "",
        tuple(_word(word, word_form, len(words), hand) for word in words),
    )


def _word(word: Word, form: WritingForm, words: int, hand: Hand) -> WritingWord:
    times = form.times(hand.widths.em(word.word, Typeface.LEARNING))
    return WritingWord(
        dotted(word.word, hand, form.dot_gap()), word.picture, word.alt, word_rows(times, form.word_row_count(words))
    )


def _children(
    made: Sequence[WritingSheet],
    form: WritingForm,
    word_form: WritingForm,
    imprint: Imprint,
    library: Library,
    first: int,
) -> dict[str, Pages]:
    """Return the pages of every sound, numbered from `first` on."""
    found: dict[str, Pages] = {}
    for index, sheet in enumerate(made):
        which = f"sheet {index + 1} of {len(made)}"
        found[sheet.key] = sheet_pages(sheet, form, word_form, imprint, which, library.widths, first)
        first += len(found[sheet.key])
    return found


def _shown(request: TraceRequest, teacher: Pages, children: dict[str, Pages]) -> Pages:
    """Return all pages, or those of the sounds `--only` asks for, numbered as in the whole set."""
    wanted = [pages for key, pages in children.items() if not request.only or key in request.only]
    return (*(() if request.only else teacher), *(page for pages in wanted for page in pages))


def _documents(
    request: TraceRequest, title: str, teacher: Pages, children: dict[str, Pages], shown: Pages, *, split: bool
) -> tuple[tuple[str, Document], ...]:
    """Return one document, or with `split` one for the teacher and one a sound."""
    language = LANGUAGES[request.accent]
    if not split:
        return (("", Document(title, language, shown)),)
    parts = [("teacher", Document(title, language, teacher))]
    parts += [(f"sound-{key}", Document(f"Writing {key}", language, pages)) for key, pages in children.items()]
    return tuple(parts)


def _told(request: TraceRequest, made: Sequence[WritingSheet], for_you: int, shown: Pages) -> str:
    if request.only:
        pages = "1 page" if len(shown) == 1 else f"{len(shown)} pages"
        return f"Only {', '.join(request.only)}, as in the whole set: {pages}."
    return text.one_line(request, made, for_you)


def _plan(
    request: TraceRequest, made: Sequence[WritingSheet], form: WritingForm, word_form: WritingForm, shown: Pages
) -> plan.Plan:
    """Return the plan: what stands in every row of every sheet, and where the sheets lie."""
    flip = {"flip": "long"} if any(page.side is Side.BACK for page in shown) else {}
    return (
        plan.head(request, "trace")
        | flip
        | {
            "case": request.case.value,
            "x_height_mm": form.x_height,
            "words_x_height_mm": word_form.x_height,
            "big": request.big,
            "lift": request.lift,
            "left_handed": request.left_handed,
            "writing": [
                {
                    "key": sheet.key,
                    "letters": list(sheet.letters),
                    "rows": [
                        {"letter": r.letters.text, "places": [fill.value for fill in r.fills]} for r in sheet.rows
                    ],
                    "words": [
                        {"word": w.letters.text, "rows": [[fill.value for fill in fills] for fills in w.rows]}
                        for w in sheet.words
                    ],
                }
                for sheet in made
            ],
            "sheets": len(made),
            "cuts": 0,
            "pages": [plan.page_plan(page) for page in shown],
        }
    )
