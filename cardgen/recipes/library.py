"""Everything a recipe reads: sounds, words, letterforms, pictures; opened once for a request."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cardgen.paper.fonts import Fonts
from cardgen.request import Accent, Ink, SheetRequest
from cardgen.sheets.marks import Document, Drawing, Photo, Picture, marks_of
from cardgen.sources import bank_file, dictionary, own_report, pictures, shelf
from cardgen.sources.own_pictures import OwnPictures, open_own
from cardgen.sources.own_words import Known
from cardgen.units import Widths
from cardgen.words.bank import Bank
from cardgen.words.contrast import Contrasts
from cardgen.words.sounds import SoundTable

LEARNING_FONT = "art/letters/CardgenInfant-Regular.ttf"


@dataclass(frozen=True, slots=True)
class Library:
    """What the sources hold, as plain records for the pure rooms; `own` are the teacher's own pictures."""

    sounds: SoundTable
    bank: Bank
    contrasts: Contrasts
    fonts: Fonts
    own: OwnPictures | None = None

    @property
    def widths(self) -> Widths:
        """The measures of the three typefaces."""
        return self.fonts.widths

    def is_drawn(self, name: str) -> bool:
        """Return whether there is a picture of that name, the teacher's own or the project's."""
        return bool(self.own and self.own.file(name)) or pictures.exists(name)

    def drawing(self, name: str, ink: Ink) -> Drawing | Photo:
        """Return a picture in one ink, the teacher's own before the project's; TeacherError if it cannot be read."""
        if self.own and self.own.file(name):
            return self.own.drawing(name, ink)
        return pictures.drawing(name, ink)

    def drawings(self, documents: Sequence[tuple[str, Document]], ink: Ink) -> Mapping[str, Drawing | Photo]:
        """Return every picture that stands in some documents, by name; TeacherError for the first that is damaged."""
        marks = (mark for _, document in documents for page in document.pages for mark in marks_of(page.items))
        names = dict.fromkeys(mark.name for mark in marks if isinstance(mark, Picture))
        return {name: self.drawing(name, ink) for name in names}

    def look_out(self, drawings: Mapping[str, Drawing | Photo], request: SheetRequest) -> tuple[str, ...]:
        """Return what the teacher should know of her own pictures before they are printed."""
        return tuple(own_report.look_out(self.own, drawings, request.all_keys, request.ink)) if self.own else ()


def open_library(folder: str | None = None, accent: Accent = Accent.US) -> Library:
    """Return the shipped sounds, words and letterforms, and what is in a teacher's own folder; TeacherError for that.

    The folder's words are judged for one accent.
    """
    sounds, bank = bank_file.read_sounds(), bank_file.read_bank()
    own = open_own(folder, Known(sounds, bank, dictionary.readings, accent)) if folder is not None else None
    if own:
        own.folder.check_no_twins()
    fonts = Fonts(shelf.read_bytes(LEARNING_FONT))
    return Library(sounds, own.bank if own else bank, bank_file.read_contrasts(), fonts, own)
