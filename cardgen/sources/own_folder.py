"""The teacher's own folder of pictures: which files lie in it and which words they are named after; decodes nothing.

Files are found by listing the folder, never by putting a name together: no word can lead out of it.
"""

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from pathlib import Path
from typing import BinaryIO
from unicodedata import combining, normalize

from cardgen.errors import TeacherError

KINDS = frozenset({".jpeg", ".jpg", ".png", ".svg", ".webp"})
# Pictures all the same: a teacher who puts one in learns why it is not taken.
OTHER_KINDS = frozenset({".avif", ".bmp", ".gif", ".heic", ".heif", ".jxl", ".tif", ".tiff"})
WORD_LIST = "words.toml"
MOST_FILES = 1000
MOST_BYTES = 20 * 1024 * 1024
MOST_LETTERS = 256 * 1024  # of a list of words
LONGEST_WORD, LONGEST_SHOWN = 40, 200  # letters

_WORD = re.compile(r"[^\W\d_]+(?:[-'][^\W\d_]+)*")
_BETWEEN = re.compile(r"[\s_-]+")


def word_of(stem: str) -> str:
    """Return the word a file is named after: ice-cream for "Ice Cream"; empty if the name is no word."""
    word = _BETWEEN.sub("-", normalize("NFKC", stem).strip().lower().replace("’", "'"))
    return word if len(word) <= LONGEST_WORD and _WORD.fullmatch(word) else ""


def picture_name(word: str) -> str:
    """Return the name by which the picture of a word is found: small letters, no accents, hyphens for spaces."""
    letters = normalize("NFKD", word.strip().casefold())
    return _BETWEEN.sub("-", "".join(letter for letter in letters if not combining(letter)))


def shown(text: str) -> str:
    """Return a name as it can be printed: what no screen shows becomes a question mark, what is too long is cut."""
    seen = "".join(letter if letter.isprintable() else "?" for letter in text)
    return seen if len(seen) <= LONGEST_SHOWN else seen[: LONGEST_SHOWN - 1] + "…"


@dataclass(frozen=True, slots=True)
class OwnFile:
    """A picture file: its `name` as it can be shown, where it lies, and its word (empty if the name is none)."""

    name: str
    path: Path
    word: str

    @property
    def picture(self) -> str:
        """The name by which its picture is found."""
        return picture_name(self.word)

    @property
    def suffix(self) -> str:
        """What kind it says it is: `.png`."""
        return self.path.suffix.lower()

    @property
    def is_readable(self) -> bool:
        """Whether it says to be of a kind that can be read."""
        return self.suffix in KINDS


@dataclass(frozen=True)
class OwnFolder:
    """A folder and its picture files, in the order of their names."""

    path: Path
    files: tuple[OwnFile, ...]

    @cached_property
    def by_picture(self) -> Mapping[str, tuple[OwnFile, ...]]:
        """The files for each picture: one, or more where that is too many, or one that no program here can read."""
        found: dict[str, tuple[OwnFile, ...]] = defaultdict(tuple)
        for file in self.files:
            if file.word and file.is_readable:
                found[file.picture] += (file,)
        for file in self.files:
            if file.word and not found[file.picture]:
                found[file.picture] = (file,)
        return dict(found)

    def check_no_twins(self) -> None:
        """Return if no word has two pictures; TeacherError naming them."""
        for files in self.by_picture.values():
            if len(files) > 1:
                raise twins(files)

    def open(self, file: OwnFile) -> BinaryIO:
        """Return a file opened to read; TeacherError if it lies elsewhere, is too large, or cannot be read."""
        return _open(self.path, file.path, file.name)

    def word_list(self) -> str | None:
        """Return the text of the folder's `words.toml`, None if there is none; TeacherError if it cannot be read."""
        path = self.path / WORD_LIST
        if not path.exists() and not path.is_symlink():
            return None
        with _open(self.path, path, WORD_LIST) as stream:
            text = text_of(stream, WORD_LIST)
        if len(text) > MOST_LETTERS:
            raise TeacherError(f"{WORD_LIST} is longer than a list of words can be.", "Keep only your own words in it.")
        return text


def twins(files: tuple[OwnFile, ...]) -> TeacherError:
    """Return the error about several files for one word."""
    names = " and ".join(file.name for file in files)
    return TeacherError(f"{names} are pictures for the same word, {files[0].word}.", "Keep one of them.")


def text_of(stream: BinaryIO, name: str) -> str:
    """Return what a file holds as text; TeacherError if it is not UTF-8."""
    try:
        return stream.read(MOST_BYTES).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise TeacherError(f"{name} is not UTF-8 text.", "Save it again as UTF-8.") from error


def entries(folder: str, most: int, what: str) -> list[Path]:
    """Return what lies in a folder of hers; TeacherError if there is none, or more than `most` files lie in it."""
    path, name = Path(folder), shown(folder)
    try:
        if path.is_file():
            raise TeacherError(f"{name} is a file, not a folder.", "Name the folder in which it lies.")
        if not folder.strip() or not path.is_dir():
            raise TeacherError(f"There is no folder {name}.", "Check how its name is written.")
        inside = list(islice(path.iterdir(), most + 1))
    except (OSError, ValueError) as error:
        raise TeacherError(f"The folder {name} cannot be opened.", "Choose one that you may read.") from error
    if len(inside) > most:
        raise TeacherError(f"{name} holds more than {most} files.", f"Put the {what} into a folder of their own.")
    return inside


def open_folder(folder: str) -> OwnFolder:
    """Return the picture files of a folder; TeacherError if there is no such folder or no picture in it."""
    name = shown(folder)
    inside = entries(folder, MOST_FILES, "pictures")
    files = tuple(
        OwnFile(shown(entry.name), entry, word_of(entry.stem))
        for entry in sorted(inside, key=lambda entry: entry.name)
        if entry.suffix.lower() in KINDS | OTHER_KINDS and not entry.name.startswith(".")
    )
    if not files:
        raise TeacherError(
            f"There is no picture in the folder {name}.",
            "Put PNG, JPEG, WebP or SVG files into it, named after their words, for example moon.png.",
        )
    return OwnFolder(Path(folder), files)


def _open(folder: Path, path: Path, name: str) -> BinaryIO:
    try:
        if not path.resolve().is_relative_to(folder.resolve()):
            raise TeacherError(f"{name} is a link that leads out of the folder.", "Copy the file itself into it.")
        if not path.is_file():
            raise TeacherError(f"{name} is not a file.", "Take it out of the folder, or put the picture in its place.")
        if path.stat().st_size > MOST_BYTES:
            raise TeacherError(
                f"{name} is larger than {MOST_BYTES // 1024**2} MB.", "Save it smaller: 1100 pixels are enough."
            )
        return path.open("rb")
    except (OSError, RuntimeError) as error:  # a RuntimeError is a link that leads to itself
        raise TeacherError(f"{name} cannot be read.", "Copy it again, or take it out of the folder.") from error
