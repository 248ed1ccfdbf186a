"""The table of measurements: `python -m tests.bench [rounds]`, five rounds unless told otherwise.

Everything is measured in one run, each work in a fresh process, one after the other and round by round, so that a busy
machine disturbs all alike; shown are medians. Not a test: seconds depend on the machine, ratios much less. The other
programs are the extra `bench`; what is not installed is left out.
"""
# ruff: noqa: T201

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import median

CLICK = "import click\n@click.command()\ndef main(): pass\nmain(['--help'])"
COMMANDS = {
    "python": ["-c", "pass"],
    "click": ["-c", CLICK],
    "help": ["-m", "cardgen", "--help"],
    "bingo": ["-m", "cardgen", "bingo", "m", "s", "t", "b", "--boards=30", "--grid=4x4", "--seed=7", "--out=b.pdf"],
}
WORKS = ("packs-30", "raw", "typst", "weasyprint", "fpdf2", "proof", "packs-417", "boards-30", "boards-1000", "bank",
         "pictures")  # fmt: skip
SLOW = {"weasyprint": 3, "fpdf2": 3}  # at most so many rounds


@dataclass(frozen=True)
class Sample:
    """What one run took: seconds, bytes written, the most memory in MB."""

    seconds: float
    size: float = 0.0
    peak: float = 0.0


def run(arguments: list[str], folder: Path) -> tuple[str, float, float]:
    """Run Python on some arguments; return what it printed, its seconds and the most memory it took in MB."""
    settings = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    start = time.perf_counter()
    child = subprocess.Popen(
        [sys.executable, *arguments],
        cwd=folder,
        env=settings,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    told = child.stdout.read() if child.stdout else ""
    _, status, usage = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        raise SystemExit(f"{' '.join(arguments)} failed")
    return told, seconds, usage.ru_maxrss / 1024


def measured(name: str, folder: Path) -> Sample | None:
    """Run a work or a command once; None if what it needs is not installed."""
    if name in COMMANDS:
        _, seconds, peak = run(COMMANDS[name], folder)
        return Sample(seconds, peak=peak)
    file = folder / f"{name}.pdf"
    told, _, peak = run(["-m", "tests.bench.works", name, str(file)], folder)
    found = json.loads(told)
    return found and Sample(found["seconds"], found["bytes"], peak)


def samples(rounds: int) -> dict[str, Sample]:
    """Return the medians of all works and commands."""
    found: dict[str, list[Sample]] = defaultdict(list)
    folder = Path(tempfile.mkdtemp())
    try:
        for turn in range(rounds):
            for name in (*COMMANDS, *WORKS):
                if turn < SLOW.get(name, rounds) and (one := measured(name, folder)):
                    found[name].append(one)
            print(f"round {turn + 1} of {rounds}", file=sys.stderr)
    finally:
        shutil.rmtree(folder)
    return {
        name: Sample(*(median(getattr(one, part) for one in those) for part in ("seconds", "size", "peak")))
        for name, those in found.items()
    }


def _nothing(*_: Sample) -> str:
    return ""


@dataclass(frozen=True)
class Row:
    """A line of the table: what, worked out of the samples with these names, against what must and shall be."""

    what: str
    names: tuple[str, ...]
    figure: Callable[..., float]
    unit: str
    must: float | None = None
    stretch: float | None = None
    shown: Callable[..., str] = _nothing

    def cells(self, found: dict[str, Sample]) -> Iterator[str]:
        """Yield the cells of the line."""
        yield self.what
        if missing := [name for name in self.names if name not in found]:
            yield from (f"{', '.join(missing)} not installed", "", "", "", "")
            return
        those = [found[name] for name in self.names]
        value = self.figure(*those)
        yield self.shown(*those)
        yield f"{value:.3g} {self.unit}"
        yield "" if self.must is None else f"≤ {self.must:g}"
        yield "" if self.stretch is None else f"≤ {self.stretch:g}"
        if self.must is None:
            yield ""
        elif value > self.must:
            yield "short"
        else:
            yield "ok" if self.stretch is None or value > self.stretch else "ok, stretch"


def _seconds(ours: Sample, theirs: Sample) -> float:
    return ours.seconds / theirs.seconds


def _both(ours: Sample, theirs: Sample) -> str:
    return f"{ours.seconds:.3f} s / {theirs.seconds:.3f} s"


def _growth(sheets: int) -> Callable[[Sample, Sample], float]:
    return lambda small, large: (large.peak - small.peak) * 1000 / sheets


def _peaks(*those: Sample) -> str:
    return " → ".join(f"{one.peak:.0f} MB" for one in those)


CARDS, MORE = "packs-30", "packs-417"
ROWS = (
    Row("paper step ÷ Typst", (CARDS, "typst"), _seconds, "×", 2.5, 1.5, _both),
    Row("its file ÷ Typst's", (CARDS, "typst"), lambda a, b: a.size / b.size, "×", 0.35,
        shown=lambda a, b: f"{a.size / 1000:.0f} kB / {b.size / 1000:.0f} kB"),
    Row("paper step ÷ WeasyPrint", (CARDS, "weasyprint"), _seconds, "×", 0.08, shown=_both),
    Row("paper step ÷ fpdf2 with SVG", (CARDS, "fpdf2"), _seconds, "×", 0.2, shown=_both),
    Row("paper step ÷ bytes by hand", (CARDS, "raw"), _seconds, "×", 8, 4, _both),
    Row("peak memory, 720 cards", (CARDS,), lambda a: a.peak, "MB", 80),
    Row("peak memory, 10,008 cards", (MORE,), lambda a: a.peak, "MB", 200),
    Row("memory a sheet more, cards", (CARDS, MORE), _growth(417 * 24 // 9 - 80), "kB", 60, shown=_peaks),
    Row("memory a sheet more, boards", ("boards-30", "boards-1000"), _growth(970), "kB", 60, shown=_peaks),
    Row("paper step, 10,008 cards", (MORE,), lambda a: a.seconds, "s"),
    Row("proof of 720 codes, each", ("proof",), lambda a: a.seconds * 1000 / 720, "ms", 4,
        shown=lambda a: f"{a.seconds:.2f} s"),
    Row("cardgen --help ÷ click alone", ("help", "click"), _seconds, "×", shown=_both),
    Row("cardgen --help ÷ bare Python", ("help", "python"), _seconds, "×", 6, shown=_both),
    Row("word bank read", ("bank",), lambda a: a.seconds * 1000, "ms", 20),
    Row("one picture read", ("pictures",), lambda a: a.seconds * 1000 / 24, "ms", 2),
    Row("bingo, 30 boards, whole command", ("bingo",), lambda a: a.seconds, "s", 6, shown=lambda a: f"{a.peak:.0f} MB"),
)  # fmt: skip


def main() -> None:
    """Print the table as Markdown."""
    found = samples(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
    print("| what | seconds, sizes | figure | must | stretch | result |\n|---|---|---|---|---|---|")
    for row in ROWS:
        print(f"| {' | '.join(row.cells(found))} |")


if __name__ == "__main__":
    main()
