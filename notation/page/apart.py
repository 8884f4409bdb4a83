"""A stranger's PDF read in a process of its own, so that whatever it does ends with that process."""
from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from notation import bounds

TOO_MUCH = 3
"""Exit status of a process that was given too little memory."""


class Unopened(ValueError):
    """The file could not be read; the message says why."""


@dataclass(frozen=True, slots=True)
class Opened:
    """words: of the pages, in the order they are drawn. texts: every text of the file, seen or not."""

    words: tuple[str, ...]
    texts: tuple[str, ...]


def opened_apart(
    pdf: bytes, seconds: float = bounds.PDF_SECONDS.most, memory: int = bounds.PDF_MEMORY.most
) -> Opened:
    """What a PDF says. Raises Unopened where it is damaged, too large, takes too long or too much memory.

    memory: bytes, where the system can hold a process to that.
    """
    if len(pdf) > bounds.PDF_BYTES.most:
        raise Unopened(bounds.PDF_BYTES.words)
    command = [sys.executable, "-P", "-c", f"from {__name__} import main; main()", str(memory)]
    try:
        done = subprocess.run(command, input=pdf, capture_output=True, timeout=seconds, check=True,
                              env=_environment())
        said = json.loads(done.stdout)
    except subprocess.TimeoutExpired as fault:
        raise Unopened(bounds.PDF_SECONDS.words) from fault
    except (subprocess.CalledProcessError, ValueError) as fault:
        short = isinstance(fault, subprocess.CalledProcessError) and fault.returncode == TOO_MUCH
        raise Unopened(bounds.PDF_MEMORY.words if short else "the PDF is damaged, it cannot be read") from fault
    return Opened(tuple(said["words"]), tuple(said["texts"]))


def _environment() -> dict[str, str]:
    import os

    return {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}


def main() -> None:
    """In the process apart: the PDF at the standard input, what it says as JSON at the standard output."""
    from notation.page.revealed import pages_and_texts

    _hold_memory(int(sys.argv[1]))
    try:
        pages, texts = pages_and_texts(sys.stdin.buffer.read())
        print(json.dumps({"words": [word for text in pages for word in text.split()], "texts": list(texts)}))
    except MemoryError:
        sys.exit(TOO_MUCH)


def _hold_memory(most: int) -> None:
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (most, most))
