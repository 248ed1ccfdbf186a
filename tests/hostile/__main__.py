"""The full run: `python -m tests.hostile [--count N] [--seed S] [--kills K]`; leaves with 1 if anything is found.

Every input is made from the seed and its number alone; `--number N` tries a single one again.
"""
# ruff: noqa: T201

import argparse
import sys
from collections import defaultdict
from collections.abc import Iterable
from random import Random
from time import perf_counter

from tests.hostile.campaign import COMMAND_SHARE, table, trials
from tests.hostile.kills import RUNS, killed
from tests.hostile.watch import Finding, peak_mb

SHOWN = 3  # findings of one kind


def main() -> int:
    """Run the trials that are asked for and print what was found."""
    parser = argparse.ArgumentParser(prog="python -m tests.hostile")
    parser.add_argument("--count", type=int, default=20_000, help="how many inputs")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--number", type=int, help="only the input of that number")
    parser.add_argument("--commands", type=float, default=COMMAND_SHARE, help="share of command lines")
    parser.add_argument("--kills", type=int, default=0, help="how many runs are killed, in place of inputs")
    asked = parser.parse_args()
    if asked.kills:
        return kill(asked.kills, asked.seed)
    start = perf_counter()
    numbers: Iterable[int] = range(asked.count) if asked.number is None else [asked.number]
    found = list(trials(numbers, asked.seed, asked.commands))
    print(table(found))
    faults: defaultdict[str, list[tuple[int, Finding]]] = defaultdict(list)
    for number, one in zip(numbers, found, strict=True):
        if one.fault:
            faults[one.fault[:40] if one.fault.startswith("WrongEnd") else one.fault.rpartition(" at ")[2]].append(
                (number, one)
            )
    for place, those in faults.items():
        print(f"\n{len(those)} × {place}")
        for number, one in those[:SHOWN]:
            print(f"  {number}: {one.kind}: {one.what[:300]}\n      {one.fault[:300]}")
    count = sum(map(len, faults.values()))
    print(f"\n{len(found)} inputs in {perf_counter() - start:.0f} s, {count} faults, at most {peak_mb():.0f} MB")
    return 1 if faults else 0


def kill(times: int, seed: int) -> int:
    """Kill runs at any moment, as many of each kind, and print what was found; return 1 if anything was."""
    each, wrong = -(-times // len(RUNS)), 0
    for kind in RUNS:
        found = list(killed(kind, each, Random(seed)))
        wrong += sum(bool(one.faults) for one in found)
        ends = (
            f"{sum(one.was_killed for one in found)} killed, {sum(one.left > 0 for one in found)} left something behind"
        )
        print(f"{kind:8} {len(found)} runs, {ends}")
        for one in found:
            if one.faults:
                print(f"  {one.moment}: {'; '.join(one.faults)[:300]}")
    print(f"{each * len(RUNS)} runs, {wrong} faults")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
