"""How balanced class sets come out, and how long they take: `python -m tests.bench.bench_boards [seeds]`.

Not a test: times depend on the machine. Prints, for each kind of set, over all seeds: frequency and positions (least
and most), how far Q lies above its bound, equal lines, boards with the same items, and seconds of processor time.
"""
# ruff: noqa: T201

import sys
import time
from random import Random

from cardgen.games.deal import deal
from cardgen.games.shape import Shape, line_density

FREE = True
# Name, shape, boards, pool, groups (0: none asked for).
SETS = [
    ("30 boards from 24", Shape(4, 4), 30, 24, 0),
    ("  four sounds", Shape(4, 4), 30, 24, 4),
    ("24 boards from 12", Shape(3, 3), 24, 12, 0),
    ("  two sounds", Shape(3, 3), 24, 12, 2),
    ("  three sounds", Shape(3, 3), 24, 12, 3),
    ("  four sounds", Shape(3, 3), 24, 12, 4),
    ("30 boards from 30", Shape(5, 5, FREE), 30, 30, 0),
    ("  five sounds", Shape(5, 5, FREE), 30, 30, 5),
    ("design of 13", Shape(3, 3), 13, 13, 0),
    ("design of 21", Shape(4, 4), 21, 21, 0),
    ("design of 31", Shape(5, 5), 31, 31, 0),
    ("design of 15", Shape(3, 3, FREE), 15, 15, 0),
    ("20 boards from 12", Shape(3, 3), 20, 12, 3),
    ("25 boards from 12", Shape(3, 3), 25, 12, 3),
    ("30 boards from 12", Shape(3, 3), 30, 12, 3),
    ("24 boards from 14", Shape(3, 3), 24, 14, 2),
    ("24 boards from 16", Shape(3, 3), 24, 16, 4),
    ("30 boards from 75", Shape(5, 5, FREE), 30, 75, 0),
]
BIG = [
    ("1000 boards from 75", Shape(5, 5, FREE), 1000, 75, 0),
    ("1062 boards from 24", Shape(5, 5, FREE), 1062, 24, 0),
    ("2000 boards from 75", Shape(5, 5, FREE), 2000, 75, 5),
    ("2000 boards from 12", Shape(3, 3), 2000, 12, 3),
]


def row(name: str, shape: Shape, boards: int, pool: int, groups: int, seeds: int) -> str:
    """Deal the set with each seed and return what came out as one line of the table."""
    sounds = [item * groups // pool for item in range(pool)] if groups else None
    found, times = [], []
    for seed in range(seeds):
        start = time.process_time()
        found.append(deal(shape, boards, range(pool), Random(seed), groups=sounds).measures)
        times.append(time.process_time() - start)
    last = found[-1]
    gaps = [measures.q - measures.q_bound for measures in found]
    return (
        f"{name:20} {shape.rows} × {shape.columns}{' free' if shape.free else '     '} "
        f"{line_density(boards, pool, shape):6.2f} {last.frequency!s:>10} {last.positions!s:>8} {last.q_bound:>9} "
        f"{min(gaps):>6} {max(gaps):>6} {max(measures.equal_lines for measures in found):>6} "
        f"{max(measures.equal_boards for measures in found):>5} {sum(times) / seeds:>6.2f} {max(times):>6.2f}"
    )


def main() -> None:
    """Print the table."""
    seeds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    print(
        f"{'set':20} {'shape':10} {'lines':>6} {'frequency':>10} {'in cell':>8} {'Q bound':>9} "
        f"{'gap':>6} {'most':>6} {'equal':>6} {'twins':>5} {'s':>6} {'most':>6}"
    )
    for name, shape, boards, pool, groups in SETS:
        print(row(name, shape, boards, pool, groups, seeds), flush=True)
    for name, shape, boards, pool, groups in BIG:
        print(row(name, shape, boards, pool, groups, 1), flush=True)


if __name__ == "__main__":
    main()
