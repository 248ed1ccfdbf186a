"""Folders that appear whole or not at all; what others have put into them stays as it is."""

import errno
import os
import secrets
import shutil
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path

from cardgen.errors import TeacherError

_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}
_SUFFIX = ".part"


def write_folder(path: Path | str, files: Mapping[str, bytes], may_replace: Collection[str] = ()) -> None:
    """Write files into a folder, all or none of them; see `whole_folder`."""
    with whole_folder(path, files, may_replace) as part:
        for name, data in files.items():
            _write(part / name, data)


@contextmanager
def whole_folder(path: Path | str, names: Collection[str], may_replace: Collection[str] = ()) -> Iterator[Path]:
    """Yield an empty folder to write the files `names` into; they appear in `path`, all or none, when the block ends.

    The folder is made if it is not there. A file that is there already is replaced only if it is one of `may_replace`;
    TeacherError if another is in the way, or where the folder or the disk cannot take the files. Whatever goes wrong,
    be it an error or Ctrl-C, leaves the folder as it was. What a killed run left behind is removed by the next one with
    the same goal.
    """
    goal = _goal(path)
    _remove_strays(goal)
    there = {path.name.casefold() for path in goal.iterdir()} if goal.is_dir() else set()
    for name in names:
        if name.casefold() in there and name not in may_replace:
            raise TeacherError(
                f"{Path(path) / name} is there already, and was not made by this command.",
                "Choose another folder with --out.",
            )
    part = goal.with_name(_prefix(goal) + secrets.token_hex(4) + _SUFFIX)
    try:
        part.mkdir()
        yield part
        if goal.is_dir():
            _install(part, goal, names)
        else:
            part.replace(goal)
    except OSError as error:
        if error.errno in _FULL:
            raise TeacherError(
                f"There is no room left on the disk for {path}.", "Make room, or choose another place with --out."
            ) from error
        raise TeacherError(
            f"The folder {path} cannot be written.", "Choose another with --out, in a folder you may write to."
        ) from error
    finally:
        shutil.rmtree(part, ignore_errors=True)


def _goal(path: Path | str) -> Path:
    """Return where the folder shall lie in the end, links followed; TeacherError where none can lie."""
    try:
        goal = Path(path).resolve()
        if goal.exists() and not goal.is_dir():
            raise TeacherError(f"{path} is a file, not a folder.", "Name a folder with --out.")
        if not goal.parent.is_dir():
            raise TeacherError(
                f"{path} cannot be made: there is no folder {Path(path).parent}.", "Make that folder first."
            )
    except (OSError, ValueError, RuntimeError) as error:
        raise TeacherError(f"No folder can be called {str(path)[:40]!r}.", "Choose another name with --out.") from error
    return goal


def _prefix(goal: Path) -> str:
    return f".cardgen-{sha256(os.fsencode(goal.name)).hexdigest()[:12]}-"


def _remove_strays(goal: Path) -> None:
    with suppress(OSError):
        for other in goal.parent.iterdir():
            if other.name.startswith(_prefix(goal)) and other.name.endswith(_SUFFIX) and other.is_dir():
                shutil.rmtree(other, ignore_errors=True)


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _install(part: Path, goal: Path, names: Collection[str]) -> None:
    """Move the files into a folder where others lie; those that are replaced wait in `part` until all are there."""
    done: list[str] = []
    try:
        for name in names:
            if (goal / name).exists():
                (goal / name).replace(part / f"{name}.old")
            done.append(name)
            (part / name).replace(goal / name)
    except BaseException:
        for name in reversed(done):
            with suppress(OSError):
                if (part / f"{name}.old").exists():
                    (part / f"{name}.old").replace(goal / name)
                elif not (part / name).exists():
                    (goal / name).unlink()
        raise
