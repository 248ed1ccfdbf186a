"""The teacher's own pictures: a folder of PNG, JPEG, WebP and SVG files named after their words, and her list of words.

Her picture goes before the project's own. Nothing of a file is kept but what it shows.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Photo
from cardgen.sources import photos
from cardgen.sources.inks import inks
from cardgen.sources.own_folder import OwnFile, OwnFolder, open_folder, picture_name, text_of
from cardgen.sources.own_words import Known, with_own, words_from
from cardgen.sources.plain_svg import BOX, in_greys, is_role_picture, parse_svg, read_plain_svg
from cardgen.sources.svg import paint, read_svg
from cardgen.words.bank import Bank, Word


@dataclass(frozen=True)
class OwnPictures:
    """A teacher's folder, the words of her list, and what is known of words besides."""

    folder: OwnFolder
    listed: tuple[Word, ...]
    known: Known

    @cached_property
    def bank(self) -> Bank:
        """The bank with her words and her pictures in it."""
        files = {name: files[0].word for name, files in self.folder.by_picture.items() if files[0].is_readable}
        return with_own(self.known.bank, self.listed, files, self.known)

    @cached_property
    def records(self) -> Mapping[str, Word]:
        """Every word of the bank by the name its picture has."""
        return {picture_name(word.word): word for word in self.bank}

    def file(self, name: str) -> OwnFile | None:
        """Return the file that holds her picture of that name, None if there is none."""
        files = self.folder.by_picture.get(picture_name(name))
        return files[0] if files else None

    def drawing(self, name: str, ink: Ink) -> Drawing | Photo:
        """Return her picture of that name, which must be there; TeacherError naming its file if it cannot be read."""
        return read(self.folder, self.folder.by_picture[picture_name(name)][0], name, ink)


def open_own(folder: str, known: Known) -> OwnPictures:
    """Return a teacher's pictures and words; TeacherError for the folder as a whole or her list of words."""
    opened = open_folder(folder)
    text = opened.word_list()
    return OwnPictures(opened, words_from(text, known) if text else (), known)


def read(folder: OwnFolder, file: OwnFile, name: str, ink: Ink) -> Drawing | Photo:
    """Return the picture in a file under that name, in one ink; TeacherError naming the file if it cannot be read.

    Only a picture drawn in roles has a version in lines; all others are printed in greys then.
    """
    _check_kind(file)
    with folder.open(file) as stream:
        if file.suffix != ".svg":
            return photos.read_photo(stream, file.name, name, grey=ink is not Ink.COLOUR)
        text = text_of(stream, file.name)
    root = parse_svg(text, file.name)
    if is_role_picture(root):
        return paint(name, read_svg(text, file.name, inks()), ink, inks())
    shapes = read_plain_svg(root, file.name)
    return Drawing(name, shapes if ink is Ink.COLOUR else in_greys(shapes), BOX)


def measure(folder: OwnFolder, file: OwnFile, *, decode: bool = False) -> tuple[int, int] | None:
    """Return the size of a file's picture in pixels, None for an SVG; TeacherError if it cannot be read.

    Of pixels only the head is read, unless `decode` asks for all of them.
    """
    if file.suffix == ".svg":
        read(folder, file, file.picture, Ink.COLOUR)
        return None
    _check_kind(file)
    with folder.open(file) as stream:
        return photos.measure(stream, file.name, decode=decode)


def _check_kind(file: OwnFile) -> None:
    if not file.is_readable:
        raise TeacherError(
            f"{file.name} is of a kind that cannot be read, {file.suffix[1:].upper()}.", "Save it as PNG or JPEG."
        )
