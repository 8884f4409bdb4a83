"""A child that writes a file slowly, killed at a random moment."""
from __future__ import annotations

import os
import random
import signal
import time
from collections import Counter
from pathlib import Path
from typing import Any

SLICE, PAUSE = 4_000, 0.01  # bytes written at once, seconds before each and around what ends the writing
OLD, NEW = b"old" * 30_000, b"new sheet" * 12_000


class _Slow:
    """A file that is written a slice at a time."""

    def __init__(self, file: Any) -> None:
        self.file = file

    def __enter__(self) -> _Slow:
        return self

    def __exit__(self, *fault: object) -> None:
        self.file.close()

    def write(self, data: bytes) -> None:
        for start in range(0, len(data), SLICE):
            time.sleep(PAUSE)
            self.file.write(data[start : start + SLICE])
            self.file.flush()

    def flush(self) -> None:
        self.file.flush()

    def fileno(self) -> int:
        return int(self.file.fileno())


def _slowly(was: Any) -> Any:
    def slow(*words: Any, **more: Any) -> Any:
        time.sleep(PAUSE)
        done = was(*words, **more)
        time.sleep(PAUSE)
        return done

    return slow


def _write(out: Path) -> None:
    """In the child: the writing of every command, slowed. Never comes back."""
    from notation.cli import output

    opened = os.fdopen
    os.fdopen = lambda *words, **more: _Slow(opened(*words, **more))  # type: ignore[assignment]
    for name in ("fsync", "chmod", "replace"):
        setattr(os, name, _slowly(getattr(os, name)))
    output.write_whole(out, NEW)
    os._exit(0)


def killed_at_random(folder: Path, count: int, seed: int = 1) -> Counter[str]:
    """How often the old file, the new one, or a mix stood there after the kill."""
    chance, found = random.Random(seed), Counter[str]()
    lasting = (len(NEW) / SLICE + 8) * PAUSE * 1.2
    for number in range(count):
        out = folder / f"{number}.pdf"
        out.write_bytes(OLD)
        child = os.fork()
        if child == 0:
            _write(out)
        time.sleep(chance.uniform(0, lasting))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        found[{OLD: "old", NEW: "new"}.get(out.read_bytes(), "mixed")] += 1
    return found
