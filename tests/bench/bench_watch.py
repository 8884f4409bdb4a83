"""From a save to the whole new PDF. Run by hand: python tests/bench/bench_watch.py [TIMES]

`lodestep watch` runs in a process of its own; the dance is saved with another remark, and the time is taken until
another PDF stands in its place (looked for every millisecond). Beside it the processor time of the process for each
save, which does not depend on what else the machine does, and the bare canvas.
"""
from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from canvas import bare_canvas, processor_time

EXAMPLES = Path(__file__).parents[2] / "examples"
PATIENCE = 20.0  # seconds


def another(pdf: Path, than: int) -> int:
    """The number of the file that takes the place of the one of that number."""
    end = time.perf_counter() + PATIENCE
    while time.perf_counter() < end:
        if pdf.exists() and pdf.stat().st_ino != than:
            return pdf.stat().st_ino
        time.sleep(0.001)
    raise SystemExit("watch wrote no new PDF")


def measured(name: str, times: int) -> tuple[list[float], float]:
    """Milliseconds from each save to its PDF, after three that are not counted; of the processor, a save."""
    folder = Path(tempfile.mkdtemp())
    dance, pdf = folder / name, folder / f"{Path(name).stem}.pdf"
    text, found, spent = (EXAMPLES / name).read_text().rstrip(), [], 0.0
    dance.write_text(text)
    with subprocess.Popen([sys.executable, "-m", "notation.cli.main", "watch", str(dance)],
                          stdout=subprocess.DEVNULL) as watching:
        number = another(pdf, 0)
        for time_ in range(times + 3):
            time.sleep(0.5)
            if time_ == 3:
                spent = processor_time(watching.pid)
            begun = time.perf_counter()
            dance.write_text(f"{text} (x{time_})\n")
            number = another(pdf, number)
            found.append((time.perf_counter() - begun) * 1000)
        time.sleep(0.5)
        spent = processor_time(watching.pid) - spent
        watching.terminate()
    return found[3:], spent / times


def main(times: int) -> None:
    for name in ("lantern-quay-waltz.yaml", "harbour-bell-waltz.yaml"):
        found, spent = measured(name, times)
        print(f"{name}: save to PDF, median {statistics.median(found):.0f} ms, {min(found):.0f} to {max(found):.0f}; "
              f"{spent:.0f} ms of the processor")
    print(bare_canvas())


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
