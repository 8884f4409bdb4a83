"""The bare canvas beside a measurement: what the machine is worth at that moment, and how busy it is."""
from __future__ import annotations

import io
import os
import statistics
import time
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

FONT = Path(__file__).parents[2] / "fonts" / "SourceSans3-Regular.ttf"
TICKS = os.sysconf("SC_CLK_TCK")


def sheet() -> None:
    """48 rows of five cells with drawString, untagged, as in bench_sheet."""
    canvas = Canvas(io.BytesIO())
    canvas.setFont("F", 9.5)
    for n in range(48):
        cells = (n // 3 + 1, n % 3 + 1, f"LF forward, HT, {n}/8 R", f"RF back, TH, {n}", "closed")
        for x, text in zip((42, 72, 112, 292, 472), cells, strict=True):
            canvas.drawString(x, 780 - 15 * n, str(text))
    canvas.save()


def bare_canvas() -> str:
    """Its time on the clock and on the processor, medians of 20."""
    pdfmetrics.registerFont(TTFont("F", str(FONT)))
    clock, processor = [], []
    for _ in range(20):
        begun, spent = time.perf_counter(), time.process_time()
        sheet()
        clock.append((time.perf_counter() - begun) * 1000)
        processor.append((time.process_time() - spent) * 1000)
    return (f"bare canvas beside it {statistics.median(clock):.1f} ms, {statistics.median(processor):.1f} of the "
            f"processor; load {os.getloadavg()[0]:.1f}")


def processor_time(process: int) -> float:
    """Milliseconds of the processor that a process has taken, its threads included."""
    said = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(said[11]) + int(said[12])) * 1000 / TICKS
