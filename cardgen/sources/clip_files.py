"""A teacher's folder of recordings: which files lie in it, in which order, and their new names. Decodes nothing.

Files are found by listing the folder, never by putting a name together: no name can lead out of it.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from unicodedata import normalize

from cardgen.errors import TeacherError
from cardgen.sources.own_folder import entries, shown

KINDS = frozenset({".aac", ".flac", ".m4a", ".mp3", ".mp4", ".oga", ".ogg", ".opus", ".wav"})
# Recordings all the same: a teacher who puts one in learns why it is not taken.
OTHER_KINDS = frozenset({".3gp", ".aif", ".aiff", ".amr", ".caf", ".mka", ".mov", ".qta", ".weba", ".webm", ".wma"})
MOST_FILES = 2000
MOST_BYTES = 50 * 1024 * 1024

_NUMBERS = re.compile(r"(\d+)")
_LONGEST_NUMBER = 18  # digits; a longer row of them is compared as text


@dataclass(frozen=True, slots=True)
class ClipFile:
    """A recording: its `name` as it can be shown, and where it lies."""

    name: str
    path: Path

    @property
    def stem(self) -> str:
        """The name by which it is found: without suffix, in small letters."""
        return normalize("NFC", self.path.stem).casefold()

    @property
    def suffix(self) -> str:
        """What kind it says it is: `.m4a`."""
        return self.path.suffix.lower()


@dataclass(frozen=True)
class ClipFolder:
    """A folder and its recordings in their natural order: 2 before 10, earlier before later."""

    path: Path
    files: tuple[ClipFile, ...]

    @cached_property
    def by_name(self) -> Mapping[str, tuple[ClipFile, ...]]:
        """The recordings of each name: one, or more where that is too many."""
        found: dict[str, list[ClipFile]] = defaultdict(list)
        for file in self.files:
            found[file.stem].append(file)
        return {name: tuple(files) for name, files in found.items()}

    def read(self, file: ClipFile) -> bytes:
        """Return what is in a file; TeacherError if it lies elsewhere, is too large, empty, or cannot be read."""
        try:
            if not file.path.resolve().is_relative_to(self.path.resolve()):
                raise TeacherError(
                    f"{file.name} is a link that leads out of the folder.", "Copy the file itself into it."
                )
            if not file.path.is_file():
                raise TeacherError(f"{file.name} is not a file.", "Take it out of the folder.")
            if file.path.stat().st_size > MOST_BYTES:
                raise TeacherError(
                    f"{file.name} is larger than {MOST_BYTES // 1024**2} MB.",
                    "A recording lasts a few seconds: cut it, or record it again.",
                )
            data = file.path.read_bytes()
        except (OSError, RuntimeError) as error:  # a RuntimeError is a link that leads to itself
            raise TeacherError(
                f"{file.name} cannot be read.", "Copy it again, or take it out of the folder."
            ) from error
        if not data:
            raise TeacherError(f"{file.name} is empty.", "Record it again.")
        return data


def twins(files: Sequence[ClipFile]) -> TeacherError:
    """Return the error about several recordings of one name."""
    return TeacherError(f"{' and '.join(file.name for file in files)} are the same recording.", "Keep one of them.")


def open_clips(folder: str, *, may_be_empty: bool = False) -> ClipFolder:
    """Return the recordings of a folder; TeacherError if there is no such folder, or (by itself) none in it."""
    path, name = Path(folder), shown(folder)
    inside = entries(folder, MOST_FILES, "recordings")
    files = [
        ClipFile(shown(entry.name), entry)
        for entry in inside
        if entry.suffix.lower() in KINDS | OTHER_KINDS and not entry.name.startswith(".")
    ]
    if not files and not may_be_empty:
        raise TeacherError(
            f"There is no recording in the folder {name}.",
            "Put your M4A, MP3, WAV, OGG or FLAC files into it. `cardgen clips list` says what to record.",
        )
    return ClipFolder(path, tuple(sorted(files, key=lambda file: natural(file.path.name))))


def natural(name: str) -> tuple[tuple[tuple[int, int | str], ...], str]:
    """Return what sorts names as people number them: "Recording", "Recording 2", "Recording 10", and dates by time."""
    stem, dot, suffix = name.rpartition(".")
    stem, suffix = (stem, suffix) if dot else (suffix, "")
    parts: list[tuple[int, int | str]] = []
    for part in _NUMBERS.split(normalize("NFKC", stem).casefold()):
        if part.isdecimal() and len(part) <= _LONGEST_NUMBER:
            parts.append((0, int(part)))
        elif text := part.strip(" ._-()[],:"):
            parts.append((1, text))
    return tuple(parts), name


Renames = tuple[tuple[ClipFile, str], ...]


def new_names(folder: ClipFolder, wanted: Iterable[str], others: frozenset[str]) -> Renames:
    """Return which recording gets which name (with its own suffix): as they follow each other, so do the names.

    What bears a name already, a wanted one or one of `others`, keeps it, and its name is not given again. TeacherError
    when there are not as many recordings as names, or one is a link.
    """
    names = list(wanted)
    done = [name for name in names if name in folder.by_name]
    missing = [name for name in names if name not in folder.by_name]
    waiting = [file for file in folder.files if file.stem not in others and file.stem not in names]
    if not missing:
        raise TeacherError("Every recording of the list is there already.", "`cardgen clips test` looks them through.")
    if len(waiting) != len(missing):
        there = f" besides the {len(done)} that have their names" if done else ""
        raise TeacherError(
            f"There {_are(len(waiting), 'recording')} to name{there}, but the list wants {len(missing)}.",
            f"{_first_and_last(waiting)}The list begins with {missing[0]} and ends with {missing[-1]}. Take out what "
            "was recorded twice, record what is missing, or give the same sounds and options as for the list.",
        )
    for file in waiting:
        if file.path.is_symlink() or not file.path.is_file():
            raise TeacherError(f"{file.name} is not a file of its own.", "Copy the recording itself into the folder.")
    return tuple((file, f"{name}{file.suffix}") for file, name in zip(waiting, missing, strict=True))


def _are(number: int, noun: str) -> str:
    return f"is 1 {noun}" if number == 1 else f"are {number} {noun}s"


def _first_and_last(files: Sequence[ClipFile]) -> str:
    if not files:
        return ""
    return f"The first is {files[0].name}, the last {files[-1].name}. "


def rename(folder: ClipFolder, renames: Renames) -> None:
    """Give recordings their new names, all or none; nothing is overwritten. TeacherError if one cannot be renamed."""
    done: list[tuple[Path, Path]] = []
    try:
        for file, name in renames:
            goal = folder.path / name
            _move(file.path, goal)
            done.append((goal, file.path))
    except BaseException as error:  # Ctrl-C too: half a folder of new names would be worse than none
        for goal, old in reversed(done):
            with suppress(OSError):
                _move(goal, old)
        if isinstance(error, OSError):
            raise TeacherError(
                f"{renames[len(done)][0].name} cannot be renamed to {renames[len(done)][1]}; nothing was changed.",
                "See whether it is open in another program, or the folder is protected.",
            ) from error
        raise


def _move(path: Path, goal: Path) -> None:
    """Rename a file where nothing of the new name lies; FileExistsError where something does."""
    # An empty file of that name, made only where there is none, holds the place: a plain rename would overwrite.
    goal.touch(exist_ok=False)
    try:
        path.replace(goal)
    except BaseException:
        goal.unlink(missing_ok=True)
        raise
