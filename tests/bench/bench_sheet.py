"""What a sheet costs, from the command line and inside one process. Run by hand: python tests/bench/bench_sheet.py

Whole processes: wall time (median of several), peak resident memory and size of the PDF. A hundred different dances are
the examples with other titles and with remarks at their steps. The bare canvas is a process that only loads a face and
writes 48 rows of five cells with drawString, untagged: no sheet can be cheaper with this PDF library. Modules are
loaded compiled, as they are after an installation.
"""
from __future__ import annotations

import os
import random
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))
FIRST = ROOT / "examples" / "lantern-quay-waltz.yaml"
Made = TypeVar("Made")
CACHE = os.path.join(tempfile.gettempdir(), "bench-sheet-pycache")
COMMAND = (sys.executable, "-m", "notation.cli.main")
BARE = f"""
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
pdfmetrics.registerFont(TTFont("F", {str(ROOT / "fonts" / "SourceSans3-Regular.ttf")!r}))
canvas = Canvas("bare.pdf")
canvas.setFont("F", 9.5)
for n in range(48):
    cells = (n // 3 + 1, n % 3 + 1, f"LF forward, HT, {{n}}/8 R", f"RF back, TH, {{n}}", "closed")
    for x, text in zip((42, 72, 112, 292, 472), cells):
        canvas.drawString(x, 780 - 15 * n, str(text))
canvas.save()
"""


def process(*words: str) -> tuple[float, float]:
    """Milliseconds and peak megabytes of a process and those that it waited for."""
    start = time.perf_counter()
    silent = [(os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)]
    compiled = {**os.environ, "PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": CACHE}
    child = os.posix_spawn(words[0], words, compiled, file_actions=silent)
    _, status, usage = os.wait4(child, 0)
    assert os.waitstatus_to_exitcode(status) == 0, words
    return (time.perf_counter() - start) * 1000, usage.ru_maxrss / 1024


def report(what: str, words: tuple[str, ...], times: int = 5, each: int = 1) -> None:
    process(*words)
    runs = [process(*words) for _ in range(times)]
    wall, memory = statistics.median(t for t, _ in runs), max(m for _, m in runs)
    print(f"{what:<44} {wall / each:8.1f} ms{' each' if each > 1 else '':<6} {memory:6.1f} MB")


def varied(path: Path, number: int) -> bytes:
    """An example with another title and remarks at some steps, so that its words differ."""
    chance = random.Random(number)

    def word() -> str:
        return "".join(chance.choice("abcdefghijklmnoprstuvw") for _ in range(chance.randint(3, 9)))

    lines = path.read_text("utf-8").splitlines()
    for n, line in enumerate(lines):
        if line.startswith("title:"):
            lines[n] = f"title: {word().title()} {word()} {number}"
        elif line.startswith("      ") and ("LF " in line or "RF " in line) and chance.random() < 0.3:
            lines[n] = f"{line.split(' #')[0]} ({word()} {word()})"
    return "\n".join(lines).encode()


def commands(folder: Path) -> None:
    print("Whole processes: wall time, peak memory of the largest process")
    report("bare canvas", (sys.executable, "-c", BARE))
    report("check, first example", (*COMMAND, "check", str(FIRST)))
    report("sheet, first example", (*COMMAND, "sheet", str(FIRST), "-o", "first.pdf"))
    print(f"{'its PDF':<44} {Path('first.pdf').stat().st_size / 1000:8.1f} kB")
    many = []
    for number in range(100):
        many.append(str(folder / f"dance-{number}.yaml"))
        Path(many[-1]).write_bytes(varied(EXAMPLES[number % len(EXAMPLES)], number))
    report("sheet, 100 different dances in one call", (*COMMAND, "sheet", *many), 3, 100)


def stages() -> None:
    """Median milliseconds of each stage over 100 different dances in one process, after the first."""
    # Loaded only here: what this process holds would count as memory of those that it starts.
    from notation.cli.setting import faces
    from notation.cli.sources import worked_source
    from notation.dance.script import Worked
    from notation.page.pdf import paint_pdf
    from notation.page.units import paper
    from notation.reading.knowledge import load_knowledge
    from notation.reading.layout import load_layout
    from notation.sheet import set_sheet

    knowledge, layout, a4 = load_knowledge(), load_layout("script"), paper("A4")
    spent: dict[str, list[float]] = {"read, work out, check": [], "set": [], "paint": []}

    def timed(stage: str, work: Callable[[], Made]) -> Made:
        start = time.perf_counter()
        made = work()
        spent[stage].append((time.perf_counter() - start) * 1000)
        return made

    for number in range(101):
        data = varied(EXAMPLES[number % len(EXAMPLES)], number)
        worked = timed("read, work out, check", lambda data=data: worked_source("dance.yaml", data)).worked
        assert isinstance(worked, Worked)
        document = timed("set", lambda worked=worked: set_sheet(worked, knowledge, layout, a4, faces()))
        timed("paint", lambda document=document: paint_pdf(document, ROOT / "fonts"))
    print("\nOne process, 100 different dances: median, and the first")
    for stage, times in spent.items():
        print(f"{stage:<44} {statistics.median(times[1:]):8.1f} ms {times[0]:8.1f} ms")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        commands(Path(folder))
    os.chdir(ROOT)
    stages()


if __name__ == "__main__":
    main()
