"""Thousands of hostile files, by hand: python tests/fuzz/run_hostile.py [HOW MANY [FIRST]]

Each is read by a command in a process of its own, which must end with status 0, 1 or 2, without a traceback, within
2 seconds of processor time and 300 MB. What does not is printed with its number: `run_hostile.py 1 NUMBER` runs it
again and shows what it said.
"""
from __future__ import annotations

import sys
import time
from collections import Counter
from multiprocessing import Pool

from contained import Outcome, run_contained, warmed
from hostile import hostile


def one(seed: int) -> tuple[int, str, tuple[str, ...], Outcome]:
    what = hostile(seed)
    return seed, what.kind, what.words, run_contained(what)


def main(count: int, first: int) -> int:
    faults, slowest, largest, kinds, statuses = 0, 0.0, 0.0, Counter[str](), Counter[int]()
    started = time.monotonic()
    with Pool(2, initializer=warmed) as pool:
        for seed, kind, words, outcome in pool.imap_unordered(one, range(first, first + count), chunksize=10):
            kinds[kind] += 1
            statuses[outcome.status] += 1
            slowest, largest = max(slowest, outcome.seconds), max(largest, outcome.megabytes)
            if outcome.faults:
                faults += 1
                print(f"{seed}: {' '.join(words)}: {', '.join(outcome.faults)}: {outcome.said[-300:]!r}", flush=True)
            if count == 1:
                print(outcome)
    print(f"{count} files {dict(kinds)}, statuses {dict(statuses)}, slowest {slowest:.2f} s, largest {largest:.0f} MB,"
          f" {faults} faults, {time.monotonic() - started:.0f} s in all")
    return 1 if faults else 0


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:]]
    sys.exit(main(*numbers, *(10_000, 0)[len(numbers):]))
