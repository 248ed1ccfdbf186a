"""Many trials after each other, each from its own number: the same seed and number make the same input."""

import os
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from tests.hostile import commands, readers
from tests.hostile.watch import Finding, Trial, tried

Maker = Callable[[Random, Path], Trial]
COMMAND_SHARE = 0.1


@contextmanager
def playground() -> Iterator[Path]:
    """Yield an empty folder that is the current one in the block, with a file beside it that nobody may touch."""
    root, here = Path(tempfile.mkdtemp(prefix="hostile-")).resolve(), Path.cwd()
    (root / "outside").write_text("hers")
    (root / "out").mkdir()
    os.chdir(root / "out")
    try:
        yield root / "out"
        assert (root / "outside").read_text() == "hers"
        assert sorted(path.name for path in root.iterdir()) == ["out", "outside"]
    finally:
        os.chdir(here)
        shutil.rmtree(root, ignore_errors=True)


def trials(numbers: Iterable[int], seed: int, share: float = COMMAND_SHARE) -> Iterator[Finding]:
    """Yield how the trials of some numbers went; `share` of them are command lines, the others files."""
    with playground() as folder:
        for number in numbers:
            rng = Random(f"{seed} {number}")
            _empty(folder)
            maker = commands.command_line if rng.random() < share else _reader(rng)
            if maker is commands.command_line:
                commands.furnish(folder)
            yield tried(maker(rng, folder), folder)


def _reader(rng: Random) -> Maker:
    if rng.random() < 0.002:
        return readers.many
    weights = [weight for weight, _ in readers.READERS]
    return rng.choices([maker for _, maker in readers.READERS], weights)[0]


def _empty(folder: Path) -> None:
    for path in folder.iterdir():
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink()


def table(findings: Iterable[Finding]) -> str:
    """Return how many of each kind were tried, refused and read, and the slowest of them."""
    tried_of: Counter[str] = Counter()
    told_of: Counter[str] = Counter()
    slowest: dict[str, Finding] = {}
    for one in findings:
        kind = one.kind.split(" ")[0] if one.kind.startswith("$") else one.kind
        tried_of[kind] += 1
        told_of[kind] += one.told
        if kind not in slowest or one.seconds > slowest[kind].seconds:
            slowest[kind] = one
    lines = [f"{'kind':12} {'tried':>7} {'refused':>8} {'slowest':>9}"]
    for kind, count in sorted(tried_of.items()):
        one = slowest[kind]
        lines.append(f"{kind:12} {count:7} {told_of[kind]:8} {one.seconds:7.2f} s  {one.what[:80]}")
    lines.append(f"{'all':12} {sum(tried_of.values()):7} {sum(told_of.values()):8}")
    return "\n".join(lines)
