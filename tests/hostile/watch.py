"""Tries one input and watches: no traceback, no hang, no memory without end, nothing written or sent elsewhere."""

import os
import resource
import signal
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import click

from cardgen.errors import TeacherError
from cardgen.sources.own_folder import shown

SECONDS, MEMORY_MB = 10.0, 500
ROOM_MB = 1000  # more than this is not to be had, so that the machine stays whole
# What changes something on the disk, and which of its arguments are paths.
_CHANGES = {
    "os.rename": (0, 1), "os.remove": (0,), "os.rmdir": (0,), "os.mkdir": (0,), "os.link": (1,), "os.symlink": (1,),
    "os.truncate": (0,), "os.chmod": (0,), "os.utime": (0,), "shutil.move": (1,), "shutil.rmtree": (0,),
}  # fmt: skip
_SENDS = ("socket.", "urllib.", "http.", "ftplib.", "smtplib.", "subprocess.", "os.system", "os.exec", "os.spawn",
          "os.posix_spawn", "os.fork", "webbrowser.")  # fmt: skip


class Escaped(BaseException):
    """Something was written outside of its folder, started, or sent."""


class Hung(BaseException):
    """It took too long."""


@dataclass
class _Fence:
    """Where may be written while it stands; None where all may be done."""

    folder: str | None = None
    is_set: bool = field(default=False)

    def __call__(self, event: str, args: tuple[Any, ...]) -> None:
        if self.folder is None:
            return
        if event == "open":
            path, mode, flags = args
            writes = any(letter in (mode or "") for letter in "wax+") or (
                mode is None and flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
            )
            if writes:
                self._check(event, path)
        elif event in _CHANGES:
            for place in _CHANGES[event]:
                self._check(event, args[place])
        elif event.startswith(_SENDS):
            raise Escaped(f"{event} {args!r:.200}")

    def _check(self, event: str, path: object) -> None:
        if not isinstance(path, str | bytes | os.PathLike) or self.folder is None:
            return
        name = os.path.realpath(os.path.dirname(os.path.abspath(os.fsdecode(path))))  # noqa: PTH100, PTH120
        if not f"{name}/".startswith(f"{self.folder}/") and "__pycache__" not in name and name != "/dev":
            raise Escaped(f"{event} {path!r:.200}")


_fence = _Fence()


@contextmanager
def fenced(folder: Path) -> Iterator[None]:
    """Let nothing be written outside of a folder, nothing be started and no connection be opened in the block."""
    if not _fence.is_set:
        sys.addaudithook(_fence)
        _fence.is_set = True
    _fence.folder = os.path.realpath(folder)
    try:
        yield
    finally:
        _fence.folder = None


@dataclass(frozen=True)
class Trial:
    """An input: its kind, what it is in words, how it is read; the names of its files, one of which must be told."""

    kind: str
    what: str
    call: Callable[[], object]
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """How a trial went: `fault` is empty where all is well; `told` whether it was refused."""

    kind: str
    what: str
    seconds: float
    told: bool
    fault: str = ""


def tried(trial: Trial, folder: Path) -> Finding:
    """Return how an input went that may write in a folder only."""
    before, start = peak_mb(), time.process_time()
    fault, told = "", False
    limit = resource.getrlimit(resource.RLIMIT_AS)
    resource.setrlimit(resource.RLIMIT_AS, (_memory_now() + ROOM_MB * 1024**2, limit[1]))
    try:
        with _alarm(), fenced(folder):
            told = trial.call() in (1, 2)  # the codes of a command line
    except TeacherError as error:
        fault, told = _badly_told(error, trial.names), True
    except click.UsageError:
        told = True
    except (Escaped, Hung) as error:
        fault = f"{type(error).__name__}: {error}"
    except Exception as error:
        fault = _where(error)
    finally:
        resource.setrlimit(resource.RLIMIT_AS, limit)
    seconds, peak = time.process_time() - start, peak_mb()
    if peak > max(before, MEMORY_MB):
        fault = fault or f"takes {peak:.0f} MB"
    return Finding(trial.kind, trial.what, seconds, told, fault)


@contextmanager
def _alarm() -> Iterator[None]:
    """Raise Hung in the block after some seconds of work, or six times as long of waiting: the machine may be busy."""

    def hang(*_: object) -> None:
        raise Hung(f"more than {SECONDS} s")

    clocks = ((signal.SIGPROF, signal.ITIMER_PROF, SECONDS), (signal.SIGALRM, signal.ITIMER_REAL, 6 * SECONDS))
    old = [signal.signal(number, hang) for number, _, _ in clocks]
    for _, clock, seconds in clocks:
        signal.setitimer(clock, seconds)
    try:
        yield
    finally:
        for (number, clock, _), handler in zip(clocks, old, strict=True):
            signal.setitimer(clock, 0)
            signal.signal(number, handler)


def _memory_now() -> int:
    return int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()


def peak_mb() -> float:
    """Return the most memory that this process has taken, in MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def _badly_told(error: TeacherError, names: tuple[str, ...]) -> str:
    """Return what is wrong with a message; empty if it is one sentence that names the file."""
    if not error.message.rstrip().endswith((".", "!", "?")):
        return f"no sentence: {error.message[-200:]!r}"
    if names and not any(name in error.message or shown(name)[:40] in error.message for name in names):
        return f"no file is named: {error.message[:200]!r}"
    return ""


def _where(error: BaseException) -> str:
    """Return an error and the last two places of ours on its way."""
    places, trace = [], error.__traceback__
    while trace:
        code = trace.tb_frame.f_code
        if "cardgen" in code.co_filename.rsplit("/", 3)[-3:]:
            places.append(f"{Path(code.co_filename).name}:{trace.tb_lineno}")
        trace = trace.tb_next
    ours = [place for place in places if place]
    return f"{type(error).__name__}: {str(error)[:150]!r} at {' > '.join(ours[-2:])}"
