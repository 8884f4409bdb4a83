"""What a book costs: time, memory and size at 10, 100, 1,000 dances. By hand: python tests/bench/bench_book.py 10 100

The dances are those of the example season with other titles and with remarks at steps. Cold: no dance is kept before.
Again: the same book once more. Memory is the peak of the process that paints, those of its workers apart.
With `check` as the last word the book is given to qpdf, pdfua and outloud.
"""
from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench_sheet import COMMAND, ROOT, varied

BOOK = """title: Archive
dances: ['dances/*.yaml']
order: rhythm
indexes: [title, arranger, figure]
paper: A5
"""
DANCES = sorted((ROOT / "examples" / "season").glob("*.yaml"))
CHECKS = (("qpdf", "--check"), ("pdfua", "check"), ("outloud", "--fail-on", "error"))
PAINTER = """
import resource, sys
from notation.cli.main import main
try: main()
finally: print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, file=sys.stderr)
"""


def make(folder: Path, number: int) -> Path:
    (folder / "dances").mkdir()
    for n in range(number):
        (folder / "dances" / f"dance-{n:05}.yaml").write_bytes(varied(DANCES[n % len(DANCES)], n))
    book = folder / "book.yaml"
    book.write_text(BOOK)
    return book


def measured(book: Path) -> tuple[float, float]:
    """Seconds, and peak megabytes of the painting process."""
    settings = {**os.environ, "LODESTEP_CACHE": str(book.parent / "kept")}
    start = time.perf_counter()
    done = subprocess.run([COMMAND[0], "-c", PAINTER, "booklet", book], capture_output=True, text=True, env=settings)
    assert done.returncode == 0, done.stderr
    return time.perf_counter() - start, int(done.stderr.split()[-1]) / 1024


def main() -> None:
    numbers = [int(word) for word in sys.argv[1:] if word.isdecimal()] or [10, 100, 1_000]
    print(f"{'dances':>7} {'cold':>9} {'again':>9} {'memory':>9} {'PDF':>9}")
    for number in numbers:
        with tempfile.TemporaryDirectory() as name:
            book = make(Path(name), number)
            (cold, first), (again, second) = measured(book), measured(book)
            size = book.with_suffix(".pdf").stat().st_size / 1e6
            print(f"{number:7} {cold:7.1f} s {again:7.1f} s {max(first, second):6.0f} MB {size:6.1f} MB", flush=True)
            if sys.argv[-1] == "check":
                _check(book.with_suffix(".pdf"))


def _check(pdf: Path) -> None:
    for words in CHECKS:
        found = shutil.which(words[0], path=f"{Path(sys.executable).parent}:{os.environ['PATH']}")
        if found is None:
            print(f"        {words[0]} is absent")
            continue
        done = subprocess.run([found, *words[1:], pdf], capture_output=True, text=True)
        print(f"        {words[0]}: status {done.returncode}", flush=True)


if __name__ == "__main__":
    main()
