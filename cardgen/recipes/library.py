"""Everything a recipe reads: sounds, words, letterforms, pictures; opened once for a request."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path

from cardgen.errors import TeacherError
from cardgen.paper.embedding import check_own
from cardgen.paper.fonts import Fonts
from cardgen.recipes.sheets import Sheets
from cardgen.request import Accent, Ink, SheetRequest
from cardgen.sheets.credit import Credit, credited
from cardgen.sheets.marks import Document, Drawing, Label, Photo, Picture, marks_of
from cardgen.sources import bank_file, dictionary, own_report, pictures, shelf
from cardgen.sources.clip_files import open_clips
from cardgen.sources.open_pictures import OpenPictures, open_set
from cardgen.sources.own_font import read_font
from cardgen.sources.own_pictures import OwnPictures, open_own
from cardgen.sources.own_words import Known
from cardgen.units import Widths
from cardgen.words.bank import Bank
from cardgen.words.clip_names import clip_name
from cardgen.words.contrast import Contrasts
from cardgen.words.sounds import SoundTable

# A licence asks that changes be told.
CHANGED = {Ink.COLOUR: "", Ink.GREY: "; turned into greys", Ink.LINE: "; only the lines"}
LEARNING_FONT = "art/letters/CardgenInfant-Regular.ttf"


@dataclass(frozen=True, slots=True)
class Library:
    """What the sources hold, as plain records for the pure rooms.

    `own` are the teacher's own pictures, `open` those of an openly licensed set; None where she has not asked for them.
    """

    sounds: SoundTable
    bank: Bank
    contrasts: Contrasts
    fonts: Fonts
    own: OwnPictures | None = None
    open: OpenPictures | None = None

    @property
    def widths(self) -> Widths:
        """The measures of the three typefaces."""
        return self.fonts.widths

    def is_drawn(self, name: str) -> bool:
        """Return whether there is a picture of that name, the teacher's own, the project's, or an open one."""
        return bool(self.own and self.own.file(name)) or pictures.exists(name) or self.is_open(name)

    def is_open(self, name: str) -> bool:
        """Return whether the picture of that name is taken from the openly licensed set, which is asked last."""
        there = (self.own and self.own.file(name)) or pictures.exists(name)
        return not there and self.open is not None and name in self.open

    def drawing(self, name: str, ink: Ink) -> Drawing | Photo:
        """Return a picture in one ink, the teacher's own before ours before an open one; TeacherError if damaged."""
        if self.own and self.own.file(name):
            return self.own.drawing(name, ink)
        if self.open and self.is_open(name):
            return self.open.drawing(name, ink)
        return pictures.drawing(name, ink)

    def drawings(self, documents: Sequence[tuple[str, Document]], ink: Ink) -> Mapping[str, Drawing | Photo]:
        """Return every picture that stands in some documents, by name; TeacherError for the first that is damaged."""
        marks = (mark for _, document in documents for page in document.pages for mark in marks_of(page.items))
        names = dict.fromkeys(mark.name for mark in marks if isinstance(mark, Picture))
        return {name: self.drawing(name, ink) for name in names}

    def credited(self, sheets: Sheets, ink: Ink) -> Sheets:
        """Return the sheets with the credit of every open picture on them, where it stands and for the teacher."""
        if not self.open:
            return sheets
        found = self.open
        names = frozenset(name for name in found.pictures if self.is_open(name))
        credit = Credit(names, found.name, found.site, found.licence, found.terms + CHANGED[ink])
        return replace(sheets, documents=credited(sheets.documents, credit, self.widths))

    def look_out(self, drawings: Mapping[str, Drawing | Photo], request: SheetRequest) -> tuple[str, ...]:
        """Return what the teacher should know of pictures that are not ours before they are printed."""
        hers = own_report.look_out(self.own, drawings, request.all_keys, request.ink) if self.own else ()
        taken = ", ".join(name for name in drawings if self.is_open(name))
        if not self.open or not taken:
            return tuple(hers)
        credit = f"{self.open.name} ({self.open.site}), {self.open.licence}"
        return (*hers, f"From {credit}: {taken}. Leave the credit on the sheets when you hand them on.")


def open_library(
    folder: str | None = None, accent: Accent = Accent.US, *, open_pictures: bool = False, font: str | None = None
) -> Library:
    """Return the shipped sounds, words and letterforms, and what is in a teacher's own folder; TeacherError for that.

    The folder's words are judged for one accent. `open_pictures` adds the openly licensed set; TeacherError if it is
    not installed. `font` is the file of her own typeface; TeacherError where it cannot be used.
    """
    sounds, bank = bank_file.read_sounds(), bank_file.read_bank()
    taken = open_set() if open_pictures else None
    bank = taken.bank(bank) if taken else bank
    own = open_own(folder, Known(sounds, bank, dictionary.readings, accent)) if folder is not None else None
    if own:
        own.folder.check_no_twins()
    fonts = Fonts(shelf.read_bytes(LEARNING_FONT), read_font(font) if font is not None else None)
    check_own(fonts, Path(font or "").name)
    return Library(sounds, own.bank if own else bank, bank_file.read_contrasts(), fonts, own, taken)


def library_for(request: SheetRequest) -> Library:
    """Return the library as a request asks for it: with her own pictures, without the words she avoids.

    Words she prefers, those of her own pictures and those she has recorded are taken first. TeacherError for a word
    that is not known, or has no picture.
    """
    library = open_library(request.pictures, request.accent, open_pictures=request.open_pictures, font=request.font)
    for word in (*request.prefer, *request.avoid):
        if word not in library.bank:
            near = get_close_matches(word, [known.word for known in library.bank], 1)
            hint = f"Did you mean {near[0]}?" if near else "See `cardgen words` for those that are."
            raise TeacherError(f'"{word}" is not one of the words.', hint)
    for word in request.prefer:
        if word in request.avoid:
            raise TeacherError(f"{word} is to be preferred and avoided.", "Choose one of the two.")
        record = library.bank.get(word)
        if not record or not record.picture or not library.is_drawn(record.picture):
            raise TeacherError(f"There is no picture of {word} yet.", "Prefer another, or add yours: --pictures FOLDER")
    first = (*request.prefer, *hers(request, library), *_recorded(request, library.bank))
    return replace(library, bank=library.bank.chosen(frozenset(first), frozenset(request.avoid)))


def hers(request: SheetRequest, library: Library) -> tuple[str, ...]:
    """Return the words of the request's sounds of which she has a picture of her own."""
    own = library.own
    if not own:
        return ()
    words = (word for key in request.all_keys for word in library.bank.words_for(key))
    return tuple(word.word for word in words if word.picture and own.file(word.picture))


def _recorded(request: SheetRequest, bank: Bank) -> tuple[str, ...]:
    """Return the words of the request's sounds of which there is a recording."""
    if not request.clips:
        return ()
    there = open_clips(request.clips, may_be_empty=True).by_name
    return tuple(
        word.word for key in request.all_keys for word in bank.words_for(key) if clip_name(key, word.word) in there
    )


def not_used(request: SheetRequest, library: Library, documents: Sequence[tuple[str, Document]]) -> tuple[str, ...]:
    """Return what is to be said of words she prefers or has a picture of, and that stand on no page."""
    marks = [mark for _, document in documents for page in document.pages for mark in marks_of(page.items)]
    shown = {mark.name for mark in marks if isinstance(mark, Picture)}
    said = " ".join(mark.text for mark in marks if isinstance(mark, Label)).split()
    wanted = dict.fromkeys((*request.prefer, *hers(request, library)))
    records = [record for word in wanted if (record := library.bank.get(word))]
    left = [record.word for record in records if record.picture not in shown and record.word not in said]
    if not left:
        return ()
    return (f"Not used, though you would rather have them: {', '.join(left)}. They do not go with the others here.",)
