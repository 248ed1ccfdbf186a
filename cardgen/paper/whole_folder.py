"""Folders that appear whole or not at all; what others have put into them stays as it is."""

import errno
import os
import shutil
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from cardgen.errors import TeacherError
from cardgen.paper.parts import locked, new_part, remove_strays

_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}


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
    # A folder that is there takes the part into itself: what is around it may be closed, or another disk.
    beside = goal / "files" if goal.is_dir() else goal
    remove_strays(goal)
    remove_strays(beside)
    there = {path.name.casefold() for path in goal.iterdir()} if goal.is_dir() else set()
    for name in names:
        if name.casefold() in there and name not in may_replace:
            raise TeacherError(
                f"{Path(path) / name} is there already, and was not made by this command.",
                "Choose another folder with --out.",
            )
    part: Path | None = None
    try:
        with new_part(beside, Path.mkdir) as part:
            yield part
            if goal.is_dir():
                with locked(goal):  # two runs at once follow each other
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
        if part is not None:
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


def _write(path: Path, data: bytes) -> None:
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _install(part: Path, goal: Path, names: Collection[str]) -> None:
    """Move the files into a folder where others lie; those that are replaced are kept in `part` until all are there.

    Each old file stays in its place until the new one takes it: a run that is killed leaves one or the other.
    """
    done: list[str] = []
    try:
        for name in names:
            if (goal / name).exists():
                _keep(goal / name, part / f"{name}.old")
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


def _keep(path: Path, copy: Path) -> None:
    try:
        copy.hardlink_to(path)
    except OSError:  # USB sticks know no second names
        shutil.copy2(path, copy)
