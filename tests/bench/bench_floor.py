"""Working out a dance with both partners' places on the floor, against setting and painting its sheet.

    python tests/bench/bench_floor.py [DANCE]

Medians of one process. The dance is worked out afresh each time (repeats, derived parts, turn, the floor); the sheet is
set and painted in the standard layout on A4, with fonts and measured words kept from the sheet before.
"""
from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

from notation.cli.setting import faces
from notation.dance.checks import check
from notation.dance.floor import dance_floor
from notation.dance.script import Worked
from notation.dance.work import work_out
from notation.installed import data_folder
from notation.page.pdf import paint_pdf
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import load_layout
from notation.sheet import set_sheet

EXAMPLE = Path(__file__).parent.parent.parent / "examples" / "harbour-bell-waltz.yaml"
TIMES = 21


def median(done: Callable[[], object]) -> float:
    """Milliseconds."""
    taken = []
    for _ in range(TIMES):
        begun = time.perf_counter()
        done()
        taken.append((time.perf_counter() - begun) * 1000)
    return statistics.median(taken)


def main() -> None:
    path = Path(sys.argv[1]) if len(sys.argv) > 1 else EXAMPLE
    knowledge, layout = load_knowledge(), load_layout("script")
    dance = read_dance(path.read_bytes(), path.name, knowledge).dance
    assert dance is not None

    def out() -> Worked:
        worked = work_out(dance, knowledge)
        dance_floor(worked, knowledge)
        return worked

    def checked() -> None:
        check(work_out(dance, knowledge), knowledge)

    def sheet() -> None:
        paint_pdf(set_sheet(worked, knowledge, layout, paper("A4"), faces()), data_folder("fonts"))

    worked = out()
    sheet()
    working, checking, setting = median(out), median(checked), median(sheet)
    print(f"{path.name}: {dance.length} bars")
    print(f"worked out, floor included  {working:8.1f} ms")
    print(f"worked out and checked      {checking:8.1f} ms")
    print(f"set and painted             {setting:8.1f} ms")
    print(f"working out against setting {working / setting:8.3f}")


if __name__ == "__main__":
    main()
