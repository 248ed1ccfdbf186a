"""Runs that are killed while they write: afterwards every file is the old one or a whole new one."""

import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random

from cardgen.clip_folder import listed
from cardgen.request import ClipListRequest
from tests.hostile import corpus

ROOT = Path(__file__).parents[2]
# Each turn writes something else, so that it can be told from what stood there before; turn 1 is there at the start.
RUNS = {
    "file": "bingo m s --boards 2 --grid 2x2 --plan out.json --preview --out out.pdf --seed {turn}",
    "pieces": "bingo m s --boards 3 --grid 2x2 --split --out out.pdf --seed {turn}",
    "lesson": "lesson m s --class 2 --out out --seed {turn}",
    "pages": "clips pages sounds m s --out out --words {less}",
}
WORDS = 4
RUN = "from cardgen.cli import main; main()"
# Before the step of that number which changes the disk, the run kills itself; at its end it tells how many there were.
STEPS = """
import atexit, os, signal, sys
last, steps = int(sys.argv.pop(1)), 0
def step(event, args):
    global steps
    writes = event == "open" and isinstance(args[2], int) and args[2] & (os.O_WRONLY | os.O_RDWR)
    if writes or event in ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.link"):
        steps += 1
        if steps == last:
            os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(step)
atexit.register(lambda: print("steps", steps))
"""


def start(kind: str, folder: Path, turn: int, kill_at: int | None = None) -> subprocess.Popen[bytes]:
    """Start a run in a folder; it kills itself before it changes the disk for the `kill_at`th time."""
    command = RUNS[kind].format(turn=turn, less=1 + turn % WORDS).split()
    code = [RUN] if kill_at is None else [STEPS + RUN, str(kill_at)]
    return subprocess.Popen(
        [sys.executable, "-c", *code, *command],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )


def finish(run: subprocess.Popen[bytes]) -> tuple[int, str]:
    """Return the code with which a command left, and what it said."""
    said, _ = run.communicate(timeout=60)
    return run.returncode, said.decode("utf-8", "replace")


@contextmanager
def workplace(kind: str) -> Iterator[Path]:
    """Yield a folder in which a run of that kind was done once, with seed 1."""
    folder = Path(tempfile.mkdtemp(prefix="killed-"))
    try:
        (folder / "sounds").mkdir()
        for clip in listed(ClipListRequest(keys=("m", "s"), seed=1, words=WORDS)):
            (folder / "sounds" / f"{clip.name}.wav").write_bytes(corpus.recordings()[".wav"])
        code, said = finish(start(kind, folder, 1))
        assert code == 0, said
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def held(folder: Path) -> dict[str, bytes]:
    """Return what every file in a folder and below holds, parts of runs that were killed left out."""
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    names = ((path, path.relative_to(folder).as_posix()) for path in files)
    return {name: path.read_bytes() for path, name in names if ".part" not in name and not name.startswith("sounds/")}


def strays(folder: Path) -> list[str]:
    """Return the names of what a run left behind that was killed."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.part*"))


def faults(before: dict[str, bytes], after: dict[str, bytes], *, may_grow: bool = False) -> list[str]:
    """Return what is wrong: files that are gone, and new ones that are not whole."""
    wrong = [f"{name} is gone" for name in before if name not in after]
    for name, data in after.items():
        if name not in before and not may_grow:
            wrong.append(f"{name} is new")
        elif before.get(name) != data and (fault := _fault(name, data)):
            wrong.append(f"{name}: {fault}")
    return wrong


def _fault(name: str, data: bytes) -> str:
    """Return what a file lacks to be whole; empty if nothing."""
    if name.endswith(".pdf"):
        check = subprocess.run(["qpdf", "--check", "-"], input=data, capture_output=True, check=False)
        if check.returncode == 2 and b"-" in check.stderr:  # older ones read no standard input
            return _checked_as_file(data)
        return "" if check.returncode == 0 else check.stdout.decode() + check.stderr.decode()
    if name.endswith(".json"):
        try:
            json.loads(data)
        except ValueError as error:
            return str(error)
    if name.endswith(".html") and not data.rstrip().endswith(b"</html>"):
        return "has no end"
    if name.endswith(".png") and not data.endswith(b"IEND\xaeB`\x82"):
        return "has no end"
    return "" if data else "is empty"


def _checked_as_file(data: bytes) -> str:
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(data)
        file.flush()
        check = subprocess.run(["qpdf", "--check", file.name], capture_output=True, text=True, check=False)
    return "" if check.returncode == 0 else check.stdout + check.stderr


@dataclass(frozen=True, slots=True)
class Killed:
    """How a run ended that was to be killed at some moment, how much it left behind, and what was wrong afterwards."""

    kind: str
    moment: str
    was_killed: bool
    left: int  # parts, of this run and of those before it
    faults: tuple[str, ...]


def killed(kind: str, times: int, rng: Random) -> Iterator[Killed]:
    """Yield how runs of a kind went that were killed, by the clock or at a step of theirs; in between others end.

    At the end, and after every fifth, comes a run that must clear up what was left behind.
    """
    with workplace(kind) as folder:
        begun = time.perf_counter()
        _, said = finish(start(kind, folder, 1, kill_at=-1))
        whole, steps = time.perf_counter() - begun, int(said.split()[-1])
        for turn in range(2, times + 2):
            before = held(folder)
            if turn % 4:
                at = rng.randint(1, steps)
                code, _ = finish(start(kind, folder, turn, kill_at=at))
                moment = f"step {at} of {steps}"
            else:
                moment = f"{whole * rng.uniform(0.1, 1.0):.2f} s"
                run = start(kind, folder, turn)
                time.sleep(float(moment.split()[0]))
                run.send_signal(signal.SIGKILL)
                code, _ = finish(run)
            left, wrong = len(strays(folder)), faults(before, held(folder), may_grow=kind == "pages")
            if left and (turn % 5 == 1 or turn == times + 1):
                code_after, said = finish(start(kind, folder, turn + 1))
                wrong += [said] if code_after else []
                wrong += [f"{name} is left behind" for name in strays(folder)]
                wrong += faults(before, held(folder), may_grow=kind == "pages")
            yield Killed(kind, moment, code == -signal.SIGKILL, left, tuple(wrong))
