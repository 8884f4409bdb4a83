"""How long painting takes, and how large a page becomes. Run by hand: python tests/bench/bench_paint.py

One page of 48 rows with 5 cells and 2 footprints a row, all times in one process after a first run, best of many.
The bare canvas draws the same texts with drawString and the same curves with path objects, unkerned and untagged.
"""
from __future__ import annotations

import io
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path as File

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from notation.page.frame import Artifact, Document, Element, Frame, Item, Metadata, PlacedShape, PlacedText
from notation.page.path import Close, Curve, Move, Path
from notation.page.pdf import paint_pdf
from notation.plane import Affine, Point

FONTS = File(__file__).parents[2] / "fonts"
REGULAR, HEIGHT = "SourceSans3-Regular", 841.89
COLUMNS = (42.0, 72.0, 112.0, 292.0, 472.0)
ROWS = tuple(
    (str(n // 3 + 1), str(n % 3 + 1), f"LF forward, HT, {n}/8 turn to R", f"RF back, TH, row {n}", "Closed")
    for n in range(48)
)
SOLE = Path(
    (
        Move(Point(-1.2, 0)),
        Curve(Point(-2.4, -2.5), Point(-2.6, -6), Point(-0.6, -6.8)),
        Curve(Point(0.4, -7.3), Point(1.4, -7.1), Point(1.7, -5.6)),
        Curve(Point(2.0, -3.5), Point(1.6, -1.5), Point(1.3, 0)),
        Close(),
        Move(Point(-1.2, 0.6)),
        Curve(Point(-1.4, 3), Point(1.4, 3), Point(1.2, 0.6)),
        Close(),
    )
)


def page_items() -> tuple[list[Element], list[Item]]:
    elements, items = [Element(0, "Table", None), Element(1, "TBody", 0)], []
    for line, cells in enumerate(ROWS):
        y, row = 60 + 15.5 * line, len(elements)
        elements.append(Element(row, "TR", 1))
        for number, (x, words) in enumerate(zip(COLUMNS, cells, strict=True)):
            key = len(elements)
            elements.append(Element(key, "TD" if number else "TH", row, scope="" if number else "Row"))
            if number in (2, 3):
                items.append(PlacedShape(SOLE.mapped(Affine.translation(x - 6, y)), Artifact.LAYOUT, fill=0.0))
            items.append(PlacedText(x, y, words, REGULAR, 9.5, key))
    return elements, items


def document(tagged: bool, pages: int = 1, kerned: bool = False) -> Document:
    elements, items = page_items()
    if kerned:
        items = [
            replace(item, adjust=tuple(-4.0 * (n % 5 == 2) for n in range(len(item.text))))
            if isinstance(item, PlacedText)
            else item
            for item in items
        ]
    frames = (Frame(595.28, HEIGHT, tuple(items)),) * pages
    return Document(frames, Metadata("Bench"), tuple(elements), tagged=tagged)


def bare_canvas(items: list[Item]) -> bytes:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(595.28, HEIGHT), initialFontName=REGULAR, pageCompression=1, invariant=1)
    for item in items:
        if isinstance(item, PlacedText):
            canvas.setFont(item.face, item.size)
            canvas.drawString(item.x, HEIGHT - item.y, item.text)
        elif isinstance(item, PlacedShape):
            draw_path(canvas, item.path)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def draw_path(canvas: Canvas, path: Path) -> None:
    pen = canvas.beginPath()
    for segment in path.segments:
        match segment:
            case Move(to):
                pen.moveTo(to.x, HEIGHT - to.y)
            case Curve(a, b, to):
                pen.curveTo(a.x, HEIGHT - a.y, b.x, HEIGHT - b.y, to.x, HEIGHT - to.y)
            case _:
                pen.close()
    canvas.drawPath(pen, stroke=0, fill=1)


def best(run: Callable[[], bytes], times: int = 40) -> tuple[float, int]:
    """Milliseconds and bytes."""
    size, least = len(run()), float("inf")
    for _ in range(times):
        begun = time.perf_counter()
        run()
        least = min(least, time.perf_counter() - begun)
    return 1000 * least, size


def main() -> None:
    pdfmetrics.registerFont(TTFont(REGULAR, str(FONTS / f"{REGULAR}.ttf")))
    _, items = page_items()
    plain, tagged = document(False), document(True)
    kerned, book = document(True, kerned=True), document(False, 50)
    runs: dict[str, Callable[[], bytes]] = {
        "bare canvas, drawString": lambda: bare_canvas(items),
        "paint_pdf, untagged": lambda: paint_pdf(plain, FONTS),
        "paint_pdf, tagged": lambda: paint_pdf(tagged, FONTS),
        "paint_pdf, tagged, kerned": lambda: paint_pdf(kerned, FONTS),
        "paint_pdf, untagged, 50 pages": lambda: paint_pdf(book, FONTS),
    }
    for name, run in runs.items():
        taken, size = best(run, 5 if "50" in name else 40)
        print(f"{name:32} {taken:7.2f} ms {size / 1000:7.1f} kB")


if __name__ == "__main__":
    main()
