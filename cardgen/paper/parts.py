"""Unfinished files and folders: what they are called, which of them a run still writes, which were left behind."""

import os
import secrets
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path

if sys.platform != "win32":
    import fcntl

_SUFFIX = ".part"


def prefix(goal: Path) -> str:
    """Return how the names of all parts for a goal begin: short, however long its own name is."""
    return f".cardgen-{sha256(os.fsencode(goal.name)).hexdigest()[:12]}-"


@contextmanager
def new_part(goal: Path, make: Callable[[Path], object]) -> Iterator[Path]:
    """Yield the path of a part beside its goal, made by `make`; no other run removes it while the block lasts."""
    while True:
        part = goal.with_name(prefix(goal) + secrets.token_hex(4) + _SUFFIX)
        make(part)
        with locked(part):
            if part.exists():  # another run may have taken it for a stray before it was locked
                yield part
                return


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Keep a file or folder to this run in the block; the lock goes with the process, however that ends.

    Where locks are not to be had (Windows, some network drives) nothing is kept.
    """
    handle = _opened(path)
    try:
        if handle is not None and sys.platform != "win32":
            with suppress(OSError):
                fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        if handle is not None:
            os.close(handle)


def remove_strays(goal: Path) -> None:
    """Remove the parts that killed runs with the same goal left behind."""
    with suppress(OSError):
        for other in goal.parent.iterdir():
            if other.name.startswith(prefix(goal)) and other.name.endswith(_SUFFIX):
                _remove_unless_locked(other)


def _remove_unless_locked(part: Path) -> None:
    handle = _opened(part)
    try:
        if handle is not None and sys.platform != "win32":
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                return
            except OSError:
                pass  # no locks here: what looks left behind is taken for it
        if part.is_dir() and not part.is_symlink():
            shutil.rmtree(part, ignore_errors=True)
        else:
            with suppress(OSError):
                part.unlink(missing_ok=True)
    finally:
        if handle is not None:
            os.close(handle)


def _opened(path: Path) -> int | None:
    """Return a handle to lock by; none on Windows, where an open file cannot be moved."""
    if sys.platform == "win32":
        return None
    try:
        return os.open(path, os.O_RDONLY | os.O_NONBLOCK)
    except OSError:
        return None
