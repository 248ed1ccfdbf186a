"""Files that appear whole or not at all: written beside their goal, moved into place at the end."""

import errno
import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path

from cardgen.errors import TeacherError

_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}


@contextmanager
def whole_file(path: Path | str) -> Iterator[Path]:
    """Yield the path of an empty file to write to; it takes the place of `path` when the block ends.

    Whatever goes wrong before, an error or Ctrl-C, leaves the old file as it was. What a killed run left behind is
    removed by the next one with the same goal. TeacherError where the folder or disk cannot take the file.
    """
    goal = Path(path)
    _check(goal)
    _remove_strays(goal)
    part = goal.with_name(f"{_prefix(goal)}{secrets.token_hex(4)}.part")
    try:
        _create(part, goal)
        yield part
        _move(part, goal)
    except OSError as error:
        if error.errno in _FULL:
            raise TeacherError(
                f"There is no room left on the disk for {path}.", "Make room, or choose another place with --out."
            ) from error
        raise
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def _prefix(goal: Path) -> str:
    """Return how the names of all parts for this goal begin, however long its own name is."""
    return f".cardgen-{sha256(os.fsencode(goal.name)).hexdigest()[:12]}-"


def _check(goal: Path) -> None:
    if goal.is_dir():
        raise TeacherError(f"{goal} is a folder.", f"Name a file in it, for example --out {goal / 'sheets.pdf'}")
    if not goal.parent.is_dir():
        raise TeacherError(f"There is no folder {goal.parent}.", "Make it first, or choose another with --out.")
    if goal.exists() and not goal.is_file():
        raise TeacherError(f"{goal} is not a file.", "Choose another name with --out.")


def _remove_strays(goal: Path) -> None:
    prefix = _prefix(goal)
    with suppress(OSError):
        for other in goal.parent.iterdir():
            if other.name.startswith(prefix) and other.suffix == ".part":
                other.unlink(missing_ok=True)


def _create(part: Path, goal: Path) -> None:
    try:
        part.touch(exist_ok=False)
    except OSError as error:
        if error.errno in _FULL:
            raise
        raise TeacherError(
            f"{goal} cannot be written: nothing may be saved in {goal.parent.absolute()}.",
            "Choose another folder with --out.",
        ) from error


def _move(part: Path, goal: Path) -> None:
    """Put the finished file in its place, once it is safe on the disk."""
    with part.open("rb+") as file:
        os.fsync(file.fileno())
    try:
        part.replace(goal)
    except OSError as error:
        raise TeacherError(
            f"{goal} cannot be replaced: another program is using it, or it is protected.",
            "Close it there, or choose another name with --out.",
        ) from error
    _flush_folder(goal.parent)


def _flush_folder(folder: Path) -> None:
    """Make the move itself safe from a power cut, where folders can be opened (not on Windows)."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
