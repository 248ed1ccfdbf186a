"""Files that appear whole or not at all: written beside their goal, moved into place at the end."""

import errno
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from cardgen.errors import TeacherError
from cardgen.paper.parts import new_part, remove_strays

_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}
_LONGEST_NAME = 255  # bytes; common file systems take no more


@contextmanager
def whole_file(path: Path | str) -> Iterator[Path]:
    """Yield the path of an empty file to write to; it takes the place of `path` when the block ends.

    Whatever goes wrong before, be it an error or Ctrl-C, leaves the old file as it was. What a killed run left behind
    is removed by the next one with the same goal; of two runs at once, the later one's file stays. TeacherError where
    the folder or the disk cannot take the file.
    """
    goal = _goal(path)
    remove_strays(goal)
    part: Path | None = None
    try:
        with new_part(goal, lambda new: _create(new, path)) as part:
            yield part
            _move(part, goal, path)
    except OSError as error:
        if error.errno not in _FULL:
            raise
        raise TeacherError(
            f"There is no room left on the disk for {path}.", "Make room, or choose another place with --out."
        ) from error
    finally:
        if part is not None:
            with suppress(OSError):
                part.unlink(missing_ok=True)


def _goal(path: Path | str) -> Path:
    """Return where the file shall lie in the end, links followed; TeacherError where no file can lie."""
    if len(os.fsencode(Path(path).name)) > _LONGEST_NAME:
        raise TeacherError(f"The name {Path(path).name[:40]}… is too long.", "Choose a shorter one with --out.")
    try:
        goal = Path(path).resolve()
    except (OSError, ValueError, RuntimeError) as error:  # a NUL in it; a link that leads to itself
        raise TeacherError(f"No file can be called {str(path)[:40]!r}.", "Choose another name with --out.") from error
    try:
        _check_free(goal, path)
    except PermissionError as error:  # not even looked at
        raise _closed(path) from error
    return goal


def _check_free(goal: Path, path: Path | str) -> None:
    if goal.is_dir():
        raise TeacherError(f"{path} is a folder.", f"Name a file in it: --out {Path(path) / 'sheets.pdf'}")
    if not goal.parent.is_dir():
        raise TeacherError(
            f"{path} cannot be written: there is no folder {Path(path).parent}.",
            "Make the folder first, or choose another with --out.",
        )
    if goal.exists() and not goal.is_file():
        raise TeacherError(f"{path} is not a file.", "Choose another name with --out.")


def _closed(path: Path | str) -> TeacherError:
    return TeacherError(
        f"{path} cannot be written: nothing may be saved in that folder.", "Choose another folder with --out."
    )


def _create(part: Path, path: Path | str) -> None:
    try:
        part.touch(exist_ok=False)
    except OSError as error:
        if error.errno in _FULL:
            raise
        raise _closed(path) from error


def _move(part: Path, goal: Path, path: Path | str) -> None:
    """Put the finished file in its place, once it is safe on the disk."""
    with part.open("rb+") as file:
        os.fsync(file.fileno())
    try:
        part.replace(goal)
    except OSError as error:
        if error.errno in _FULL:
            raise
        raise TeacherError(
            f"{path} cannot be replaced: it is open in another program, or protected.",
            "Close it there, or choose another name with --out.",
        ) from error
    _flush_folder(goal.parent)


def _flush_folder(folder: Path) -> None:
    """Make the move itself outlast a power cut, where folders can be opened (not on Windows)."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
