"""Everything a recipe reads: sounds, words, letterforms, pictures; opened once for a request."""

from dataclasses import dataclass
from functools import partial

from cardgen.paper.fonts import Fonts
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing
from cardgen.sources import bank_file, pictures, shelf
from cardgen.units import Widths
from cardgen.words.bank import Bank
from cardgen.words.contrast import Contrasts
from cardgen.words.sounds import SoundTable

LEARNING_FONT = "art/letters/CardgenInfant-Regular.ttf"


@dataclass(frozen=True, slots=True)
class Library:
    """What the sources hold, as plain records for the pure rooms."""

    sounds: SoundTable
    bank: Bank
    contrasts: Contrasts
    fonts: Fonts

    @property
    def widths(self) -> Widths:
        """The measures of the three typefaces."""
        return self.fonts.widths

    def drawing(self, name: str, ink: Ink) -> Drawing:
        """Return a picture in one ink."""
        return pictures.drawing(name, ink)


def open_library() -> Library:
    """Return the shipped sounds, words and letterforms."""
    return Library(
        bank_file.read_sounds(),
        bank_file.read_bank(),
        bank_file.read_contrasts(),
        Fonts(shelf.read_bytes(LEARNING_FONT)),
    )


is_drawn = partial(pictures.exists)
