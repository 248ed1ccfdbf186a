"""Quick checks: from sounds to the children's half sheets, the script with its answers, and the class grid."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from cardgen.errors import TeacherError
from cardgen.games import check_text as text
from cardgen.games import checking
from cardgen.games.checking_oral import oral_check, show_me
from cardgen.games.checking_signs import SignName
from cardgen.games.checking_words import Picker, Terms, open_stock
from cardgen.games.pieces import Imprint, QuickCheck, SayLine
from cardgen.games.saying import say_lines
from cardgen.recipes.again import once_more
from cardgen.recipes.check_plan import check_plan
from cardgen.recipes.common import and_list, close_sounds, key_pictures
from cardgen.recipes.library import Library
from cardgen.recipes.sheets import LANGUAGES, Sheets
from cardgen.request import CheckRequest, Cut
from cardgen.sheets import check as sheets_of
from cardgen.sheets import check_grids as grids
from cardgen.sheets import check_script, teacher
from cardgen.sheets.marks import Document, Page
from cardgen.sheets.row_signs import SIGNS
from cardgen.sheets.style import Style
from cardgen.units import Widths
from cardgen.words.case import Fit, Rule
from cardgen.words.contrast import check_by_ear, contrasts
from cardgen.words.key_pictures import KeyPictures
from cardgen.words.pool import PoolWord, choose_pool
from cardgen.words.sounds import Sound

EVERY_ROW = "Tick: right. Dash: wrong or nothing ringed. In the wide column: how many were right."
ONLY_SUMS = "Write how many were right in each part."
BINGO_CELLS = 9  # of a bingo board, when nothing else is asked for
FOOT, ORAL_FOOT, CARDS_FOOT = "quick check", "oral check", "show me"
POINT = 'Point to a letter: "What does it say?"  Tick: right.  Dash: right, but slow.  Else write what was said.'


def check(request: CheckRequest, library: Library, rng: random.Random, split: bool) -> Sheets:
    """Return the sheets of a check; TeacherError where the request cannot be met, saying what can."""
    found = asked(request, library, rng)

    # 4 sheets: where everything lies on paper.
    book = _Book(request, found.check, found.sounds, library.widths, split)
    warnings = _look_out(request, library, found)
    again = once_more(request, "check")
    front = book.teachers(warnings, again)
    children = book.children(len(front) + 1, request.only)
    pages = front + children
    shown = children if request.only else pages
    title, language = text.title(found.check, request.all_keys), LANGUAGES[request.accent]
    sides = sheets_of.side_count(found.check.parts)
    summary = (
        f"Only version {and_list(request.only)}, as in the whole set: {len(shown)} pages."
        if request.only
        else text.one_line(found.check, sides, len(pages))
    )
    return Sheets(
        book.documents(front, title, language) if split else (("", Document(title, language, shown)),),
        (summary, f"The same sheets again: {again[0]}"),
        warnings,
        check_plan(request, found.check, found.words, -(-sides // 2), shown),
        for_you=len(front),
    )


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked: the check, its words, its sounds (the lesson's first)."""

    check: QuickCheck
    words: tuple[PoolWord, ...]
    sounds: tuple[Sound, ...]


def asked(request: CheckRequest, library: Library, rng: random.Random) -> Asked:
    """Return what a check asks, before anything has a place on paper; TeacherError where the request cannot be met."""
    # 2 words: which of them suit the sounds and no other sound of the check.
    sounds = library.sounds.several(request.all_keys)
    _check_ends(sounds, library)
    in_use = key_pictures(request, library)
    game = _game(request, library, sounds, in_use)

    # 3 games: what is asked in every row, and where the right answer stands.
    made = checking.check(request, game, rng) if request.wanted_parts else checking.Checked((), (), ())
    words = {entry.word.word: entry for entry in made.words}
    oral = oral_check(sounds, rng) if request.say else None
    lifted = show_me(game.lesson, game.review, Picker(game.stock, rng, set(words)), rng) if request.show_me else None
    if not lifted:
        return Asked(QuickCheck(made.versions, oral, None, made.notes), tuple(words.values()), sounds)
    words |= {entry.word.word: entry for entry in lifted.words}
    check = QuickCheck(made.versions, oral, lifted.game, made.notes + lifted.notes)
    return Asked(check, tuple(words.values()), sounds)


def _check_ends(sounds: Sequence[Sound], library: Library) -> None:
    """Refuse sounds at the start and at the end of words in one check; two with one sound are kept apart in rows."""
    by_name = {(sound.name, sound.end): sound.key for sound in sounds}
    check_by_ear(library.sounds, tuple(by_name.values()))


def _game(
    request: CheckRequest, library: Library, sounds: tuple[Sound, ...], in_use: KeyPictures
) -> checking.CheckGame:
    """Return what the check is made of; no key picture is asked, neither the usual one nor what stands in for it."""
    usual = {sound.key_picture for sound in sounds if sound.key_picture}
    table, bank, known = library.sounds, library.bank, library.contrasts
    terms = Terms(
        accent=request.accent,
        careful=request.careful,
        drawable=library.is_drawn,
        never=frozenset(usual | {word.word for _, word in in_use.words}),
        lesson=lesson_words(request, replace(library, sounds=in_use.sounds)),
    )
    return checking.CheckGame(
        sounds[: len(request.keys)],
        sounds[len(request.keys) :],
        open_stock(bank, table, sounds, terms),
        contrasts(table, known, request.all_keys, request.home_language),
        tuple(SignName(sign.name, sign.begins) for sign in SIGNS),
    )


def lesson_words(request: CheckRequest, library: Library) -> frozenset[str]:
    """Return the words that a bingo of these sounds and this seed takes by default; empty if there is none."""
    try:
        pool = choose_pool(
            library.bank,
            library.sounds,
            request.all_keys,
            cells=BINGO_CELLS,
            accent=request.accent,
            rng=random.Random(request.seed),
            careful=request.careful,
            drawable=library.is_drawn,
        )
    except TeacherError:
        return frozenset()
    return frozenset(entry.word.word for entry in pool.entries)


def _look_out(request: CheckRequest, library: Library, found: Asked) -> tuple[str, ...]:
    """Return what the teacher should know before she asks: close sounds, words with a caution.

    Other names of a picture matter only where she does not name it.
    """
    lines = close_sounds(request, library)
    unnamed = request.silent and bool(found.check.parts)
    blends = []
    for entry in found.words:
        for finding in entry.verdict.findings:
            if finding.rule is Rule.BLEND:
                blends.append(entry.word.word)
            elif finding.weight is Fit.CAUTION and (unnamed or finding.rule is not Rule.OTHER_NAME):
                name = "" if entry.word.word in finding.text else f"{entry.word.word}: "
                lines.append(name + finding.text)
    if blends:
        lines.append(f"These begin with a blend, for later lessons: {', '.join(blends)}.")
    return tuple(dict.fromkeys(lines))


@dataclass(frozen=True, slots=True)
class _Book:
    """All pages of one check, in printing order: for the teacher, then for the children."""

    request: CheckRequest
    check: QuickCheck
    sounds: tuple[Sound, ...]
    widths: Widths
    split: bool

    @property
    def imprint(self) -> Imprint:
        return Imprint("check", self.request.all_keys, self.request.seed)

    @property
    def says(self) -> tuple[SayLine, ...]:
        return say_lines(self.sounds)

    @property
    def ends(self) -> bool:
        return self.sounds[0].end

    @property
    def look(self) -> sheets_of.CheckLook:
        cut = self.request.cut or (Cut.SCISSORS if self.split else Cut.GUILLOTINE)
        sheet = self.request.paper.size.turned
        return sheets_of.CheckLook(sheet, self.imprint, Style.of(self.request.ink), self.widths, cut)

    def teachers(self, look_out: Sequence[str], again: Sequence[str]) -> tuple[Page, ...]:
        """Return the teacher's page, script, class grids, calls, the letters to point at, and the answer pages."""
        # The teacher's page names the pages to print often, which come after it and all the others for her.
        made = self._with_first(look_out, again, 1)
        count = len(made)
        while True:
            made = self._with_first(look_out, again, count + 1)
            if len(made) == count:
                return made
            count = len(made)

    def _with_first(self, look_out: Sequence[str], again: Sequence[str], first_child: int) -> tuple[Page, ...]:
        paper = text.paper_lines(self.check, sheets_of.side_count(self.check.parts), first_child)
        content = teacher.TeacherPage(
            text.title(self.check, self.request.all_keys),
            text.summary(self.check),
            self.says,
            text.blocks(self.check, paper, look_out, again, ends=self.ends),
        )
        size, imprint, widths = self.request.paper.size, self.imprint, self.widths
        pages = teacher.teacher_pages(content, size, imprint=imprint, widths=widths, first_page=1)
        steps: tuple[Callable[[int], tuple[Page, ...]], ...] = (self._script, self._oral, self._cards, self._answers)
        for step in steps:
            pages += step(len(pages) + 1)
        return pages

    def _script(self, first: int) -> tuple[Page, ...]:
        if not self.check.parts:
            return ()
        ends, silent, right = self.ends, self.request.silent, self._right()
        size, imprint, widths = self.request.paper.size, self.imprint, self.widths
        parts = tuple(
            check_script.ScriptPart(
                part.kind.is_seen,
                text.head(part, ends=ends),
                tuple(
                    check_script.ScriptRow(
                        task.sign,
                        text.line(part.kind, task, ends=ends, silent=silent),
                        text.names(part.kind, task, silent=silent),
                        task.answer.text,
                        not part.kind.rings_pictures,
                    )
                    for task in part.tasks
                ),
            )
            for part in self.check.parts
        )
        lead = "Say each line twice if a child asks. Give no help with the sound. Tick each right answer."
        foot = text.passed(self.check.parts)
        script = check_script.Script("Quick check: what you say", right, lead, self.says, parts, foot)
        pages = check_script.script_pages(script, size, imprint=imprint, widths=widths, first_page=first)
        grid = grids.Teaching(
            "Quick check: the class",
            right,
            (EVERY_ROW if grids.has_every_row(self.check.parts, size) else ONLY_SUMS,),
            FOOT,
            "class grid",
        )
        number = first + len(pages)
        result = grids.result_page(grid, self.check.parts, size, imprint=imprint, widths=widths, number=number)
        return (*pages, result)

    def _oral(self, first: int) -> tuple[Page, ...]:
        if not self.check.oral:
            return ()
        teaching = grids.Teaching(
            "Oral check: the class",
            self._right(),
            (POINT,),
            ORAL_FOOT,
            "the teacher's page",
        )
        size = self.request.paper.size
        return grids.oral_pages(
            teaching, self.check.oral, size, imprint=self.imprint, widths=self.widths, first_page=first
        )

    def _cards(self, first: int) -> tuple[Page, ...]:
        game = self.check.show_me
        if not game:
            return ()
        lay = f"Each child lays {and_list(game.cards)} from the pack on the table."
        lines = (
            f'{lay} Say the word twice, wait, then: "Show me."',
            "Write only who lifts the wrong card or looks round first.",
        )
        title = "Show me: the class answers with cards"
        teaching = grids.Teaching(title, self._right(), lines, CARDS_FOOT, "page 1 of 1")
        says = tuple(say for say in self.says if any(call.key == say.key for call in game.calls))
        page = grids.show_me_page(
            teaching,
            says,
            game,
            text.lifted(game),
            Style.of(self.request.ink),
            self.request.paper.size,
            imprint=self.imprint,
            widths=self.widths,
            number=first,
        )
        return (page,)

    def _answers(self, first: int) -> tuple[Page, ...]:
        if not self.request.full:
            return ()
        return sheets_of.answer_pages(self.check.versions, self.look, first_page=first)

    def _right(self) -> str:
        return f"{' '.join(self.request.all_keys)} · seed {self.request.seed}"

    def children(self, first: int, only: Sequence[str] = ()) -> tuple[Page, ...]:
        """Return the pages for the children, one version on both halves, or one on each."""
        if not self.check.parts:
            return ()
        versions = self.check.versions
        return sheets_of.check_pages((versions[0], versions[-1]), self.look, first_page=first, only=only)

    def documents(self, front: tuple[Page, ...], title: str, language: str) -> tuple[tuple[str, Document], ...]:
        """Return a document for the teacher, one for the letters to point at, one a version with it on both halves."""
        letters = tuple(page for page in front if page.places)
        parts = [("teacher", Document(title, language, tuple(page for page in front if not page.places)))]
        if letters:
            parts.append(("letters", Document(f"{title}: letters", language, letters)))
        for version in self.check.versions:
            pages = sheets_of.check_pages((version, version), self.look, first_page=len(front) + 1)
            name = f"version-{version.name}" if version.name else "check"
            parts.append((name, Document(f"{title} {version.name}".strip(), language, pages)))
        return tuple(parts)
