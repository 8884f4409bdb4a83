"""One command in a child process of its own, with its time, its memory and what it said.

The child is forked from a process that has everything loaded, so that thousands can be run.
"""
from __future__ import annotations

import os
import resource
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from hostile import Hostile

MOST_SECONDS, MOST_MEGABYTES = 2.0, 300
KILLED_AFTER = 20  # seconds of processor time


@dataclass(frozen=True, slots=True)
class Outcome:
    """status: as the shell sees it, negative for a signal. seconds: of processor time. megabytes: the peak."""

    status: int
    seconds: float
    megabytes: float
    said: str

    @property
    def faults(self) -> tuple[str, ...]:
        """What must not be, in words; nothing where the command ended as it should."""
        found = []
        if self.status not in (0, 1, 2):
            found.append(f"status {self.status}")
        if "Traceback" in self.said or "[unforeseen]" in self.said:
            found.append("unforeseen")
        if self.status and not self.said.strip():
            found.append("no word of why")
        if self.seconds > MOST_SECONDS:
            found.append(f"{self.seconds:.1f} s")
        if self.megabytes > MOST_MEGABYTES:
            found.append(f"{self.megabytes:.0f} MB")
        if any(ord(c) < 32 and c not in "\n\t\r" or c in "\u202a\u202b\u202d\u202e\u2066\u2067" for c in self.said):
            found.append("control characters on the terminal")
        return tuple(found)


def run_contained(what: Hostile) -> Outcome:
    """Lay the files out in an empty folder and run the command there."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for path, data in what.files.items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_bytes(data)
        said = folder.parent / f"{folder.name}.said"
        child = os.fork()
        if child == 0:
            _child(folder, what.words, said)
        _, status, usage = os.wait4(child, 0)
        text = said.read_text("utf-8", "replace")
        said.unlink()
    return Outcome(os.waitstatus_to_exitcode(status), usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, text)


def _child(folder: Path, words: tuple[str, ...], said: Path) -> None:
    """Never comes back."""
    status = 70
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (KILLED_AFTER, KILLED_AFTER))
        handle = os.open(said, os.O_WRONLY | os.O_CREAT)
        os.dup2(handle, 1)
        os.dup2(handle, 2)
        os.chdir(folder)
        # A test's own standard output may be no file at all.
        sys.stdin, sys.stdout, sys.stderr = open(os.devnull), os.fdopen(1, "w"), os.fdopen(2, "w")  # noqa: SIM115
        sys.argv = ["lodestep", *words]
        from notation.cli.main import main

        main()
    except SystemExit as end:
        status = end.code if isinstance(end.code, int) else 1
    except BaseException:
        import traceback

        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)


def warmed() -> None:
    """Load what the commands need, once."""
    import notation.cli.main
    import notation.cli.setting
    import notation.cli.sheet
    import notation.page.pdf
    import notation.page.recover
    import notation.sheet.floor  # noqa: F401
