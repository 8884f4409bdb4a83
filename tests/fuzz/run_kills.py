"""Killed while it writes, by hand: python tests/fuzz/run_kills.py [HOW MANY]

Writing is slowed so that it takes about a third of a second, and the process is killed at random moments of it. The old
file or the new one must stand there, whole, and the next run must not be hindered by what was left.
"""
from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from killing import killed_at_random


def main(count: int) -> int:
    with tempfile.TemporaryDirectory() as name:
        outcomes = killed_at_random(Path(name), count)
    print(f"killed at {count} moments: {outcomes}")
    return 1 if outcomes["mixed"] else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200))
