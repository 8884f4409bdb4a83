"""How long reading takes: run by hand, `python tests/bench/bench_reading.py`.

Prints the median time of the longest example, and the time of files made to be slow to read.
"""
from __future__ import annotations

import random
import statistics
import time
from pathlib import Path

from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge

EXAMPLE = Path(__file__).parent.parent.parent / "examples" / "harbour-bell-waltz.yaml"
HEAD = "title: T\nrhythm: waltz\nlength: 4\nsequence:\n  - bars: 1\n"
ROUNDS = 50


def words(count: int) -> str:
    return " ".join("".join(random.choices("abcdefghilmnopqrst", k=6)) for _ in range(count))


def hostile() -> dict[str, str]:
    return {
        "unknown keys": "".join(f"k{i}: 1\n" for i in range(9_000)),
        "unknown words": HEAD + "    gent: |\n" + f"      1  LF {words(100)}\n" * 90,
        "calls of unknown words": HEAD + "".join(f"    gent: {words(100)}\n  - bars: 2\n" for _ in range(900)),
        "brackets": HEAD + f"    gent: {'()' * 45_000}\n",
        "open lists": "[" * 900_000,
        "aliases": "a: &a [x]\n" + "".join(f"b{i}: &b{i} [*a, *a]\n" for i in range(3_000)),
        "anchors": "".join(f"- &a{i} x\n" for i in range(60_000)),
        "blank lines": "\n" * 900_000,
        "escapes": HEAD + '    gent: "' + "\\u0041" * 90_000 + '"\n',
        "step lines": HEAD + "    gent: |\n" + "      1  LF fwd, facing LOD, T, 1/8 L\n" * 2_500,
    }


def seconds(source: bytes) -> float:
    begun = time.perf_counter()
    read_dance(source, "dance.yaml", load_knowledge())
    return time.perf_counter() - begun


def main() -> None:
    source = EXAMPLE.read_bytes()
    print(f"{EXAMPLE.name}, first time: {seconds(source) * 1000:.1f} ms")
    steady = statistics.median(seconds(source) for _ in range(ROUNDS))
    print(f"{EXAMPLE.name}, median of {ROUNDS}: {steady * 1000:.1f} ms")
    for name, text in hostile().items():
        print(f"{name} ({len(text):,} letters): {seconds(text.encode()) * 1000:.0f} ms")


if __name__ == "__main__":
    main()
