"""The same sheet drawn by several libraries. Run by hand: python tests/bench/bench_peers.py

One A4 page: a title, 48 rows in 16 bars (bar, count, gent, lady, hold) and two small vector footprints a row. Cold: a
whole process that sets one sheet, its modules compiled. Steady: milliseconds a sheet over 100 different sheets in one
process. `bench_peers.py books` sets 10, 100 and 1,000 sheets as one document instead. A library that is not installed
is left out, and one that takes minutes is asked for less. Lodestep breaks lines optimally, searches column widths,
kerns and tags; typst tags too; the others break greedily or not at all and write no tags. `untagged` is Lodestep
without tags.
"""
from __future__ import annotations

import importlib.util
import io
import json
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

FONT = Path(__file__).parents[2] / "fonts" / "SourceSans3-Regular.ttf"
COLUMNS = (42.0, 72.0, 112.0, 292.0, 472.0)
STEP = 14.0  # points from row to row; 48 rows, the title and the column heads fill one page
SOLE = ((4, 1), ((1, 0), (1, -6), (3, -8)), ((6, -9), (7, -5), (5, -3)), ((5, -1), (5, 1), (4, 1)))
"""A footprint in points, y downwards: where it starts, then three Bezier curves by their control points and end."""
PLACES = ("forward", "back", "side", "side and slightly forward", "closes", "crosses behind")
ENDS = ("facing wall", "facing LOD", "backing DW", "1/4 turn R", "small", "3/8 turn L")

CACHE = os.path.join(tempfile.gettempdir(), "bench-peers-pycache")

Cells = tuple[str, str, str, str, str]

Book = Callable[[Sequence[int]], bytes]
"""Sets a sheet for each seed, all in one document."""


def rows(seed: int) -> list[Cells]:
    chance = random.Random(seed)

    def step(foot: str) -> str:
        return f"{foot} {chance.choice(PLACES)}, {chance.choice(ENDS)}"

    held = ("closed", "double hold", "open")
    return [
        (str(n // 3 + 1) if n % 3 == 0 else "", str(n % 3 + 1), step("LF"), step("RF"), chance.choice(held))
        for n in range(48)
    ]


def canvas() -> Book:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    pdfmetrics.registerFont(TTFont("F", str(FONT)))

    def draw(page: Canvas, seed: int) -> None:
        page.setFont("F", 20)
        page.drawString(42, 800, f"Sheet {seed}")
        page.setFont("F", 9.5)
        for n, cells in enumerate(rows(seed)):
            y = 770 - STEP * n
            for x, text in zip(COLUMNS, cells, strict=True):
                page.drawString(x, y, text)
            for x in (100, 280):
                path = page.beginPath()
                path.moveTo(x + SOLE[0][0], y - SOLE[0][1])
                for a, b, c in SOLE[1:]:
                    path.curveTo(x + a[0], y - a[1], x + b[0], y - b[1], x + c[0], y - c[1])
                page.drawPath(path, stroke=0, fill=1)
        page.showPage()

    def book(seeds: Sequence[int]) -> bytes:
        out = io.BytesIO()
        page = Canvas(out)
        for seed in seeds:
            draw(page, seed)
        page.save()
        return out.getvalue()

    return book


def platypus() -> Book:
    from reportlab.graphics.shapes import Drawing
    from reportlab.graphics.shapes import Path as Shape
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.platypus import Flowable, PageBreak, Paragraph, SimpleDocTemplate, Table

    pdfmetrics.registerFont(TTFont("F", str(FONT)))
    plain = ParagraphStyle("plain", fontName="F", fontSize=9.5, leading=12)
    large = ParagraphStyle("title", fontName="F", fontSize=20)
    widths = (30, 30, 12, 168, 12, 168, 80)

    def words(text: str) -> Paragraph:
        return Paragraph(text, plain)

    def sole() -> Drawing:
        shape = Shape(fillColor="black", strokeColor=None)
        shape.moveTo(SOLE[0][0], -SOLE[0][1])
        for a, b, c in SOLE[1:]:
            shape.curveTo(a[0], -a[1], b[0], -b[1], c[0], -c[1])
        shape.closePath()
        return Drawing(10, 10, shape)

    def sheet(seed: int) -> list[Flowable]:
        cells = [
            [words(bar), words(count), sole(), words(gent), sole(), words(lady), words(hold)]
            for bar, count, gent, lady, hold in rows(seed)
        ]
        table = Table(cells, colWidths=widths, style=[("PADDING", (0, 0), (-1, -1), 0)])
        return [Paragraph(f"Sheet {seed}", large), table, PageBreak()]

    def book(seeds: Sequence[int]) -> bytes:
        out = io.BytesIO()
        flow = [part for seed in seeds for part in sheet(seed)]
        SimpleDocTemplate(out, topMargin=36, bottomMargin=36).build(flow)
        return out.getvalue()

    return book


def fpdf2() -> Book:
    from fpdf import FPDF

    def draw(page: FPDF, seed: int) -> None:
        page.add_page()
        page.set_font("F", size=20)
        page.text(42, 50, f"Sheet {seed}")
        page.set_font("F", size=9.5)
        for n, cells in enumerate(rows(seed)):
            y = 80 + STEP * n
            for x, text in zip(COLUMNS, cells, strict=True):
                page.text(x, y, text)
            for x in (100, 280):
                with page.new_path(x + SOLE[0][0], y + SOLE[0][1]) as path:
                    path.style.fill_color, path.style.stroke_color = "#000", None
                    for a, b, c in SOLE[1:]:
                        path.curve_to(x + a[0], y + a[1], x + b[0], y + b[1], x + c[0], y + c[1])

    def book(seeds: Sequence[int]) -> bytes:
        page = FPDF(unit="pt", format="A4")
        page.add_font("F", fname=str(FONT))
        for seed in seeds:
            draw(page, seed)
        return bytes(page.output())

    return book


def svg() -> str:
    curves = "".join(f"C{a[0]} {a[1] + 9} {b[0]} {b[1] + 9} {c[0]} {c[1] + 9}" for a, b, c in SOLE[1:])
    path = f"M{SOLE[0][0]} {SOLE[0][1] + 9}{curves}Z"
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="8" height="11" viewBox="0 0 8 11"><path d="{path}"/></svg>'


def weasyprint() -> Book:
    from weasyprint import HTML

    def body(seed: int) -> str:
        lines = "".join(
            f"<tr><th>{bar}<td>{count}<td>{svg()}<td>{gent}<td>{svg()}<td>{lady}<td>{hold}"
            for bar, count, gent, lady, hold in rows(seed)
        )
        return f"<h1>Sheet {seed}</h1><table>{lines}</table>"

    def book(seeds: Sequence[int]) -> bytes:
        style = (
            f"@font-face{{font-family:F;src:url({FONT.as_uri()})}}@page{{size:A4;margin:36pt}}"
            "body{font:9.5pt F}td,th{padding:0 3pt}h1{break-before:page}"
        )
        made = HTML(string=f"<style>{style}</style>{''.join(map(body, seeds))}").write_pdf()
        assert made is not None
        return bytes(made)

    return book


def typst() -> Book:
    import typst

    compiler = typst.Compiler(font_paths=[str(FONT.parent)], ignore_system_fonts=True)

    def body(seed: int) -> str:
        cells = ",".join(
            f"[{bar}],[{count}],sole,[{gent}],sole,[{lady}],[{hold}]" for bar, count, gent, lady, hold in rows(seed)
        )
        return f"= Sheet {seed}\n#table(columns: 7, stroke: none, inset: 1pt, {cells})"

    def book(seeds: Sequence[int]) -> bytes:
        curves = ",".join(f"curve.cubic({pt(a)},{pt(b)},{pt(c)})" for a, b, c in SOLE[1:])
        sole = f"#let sole = curve(fill: black, curve.move({pt(SOLE[0])}),{curves},curve.close())\n"
        set_up = '#set page(paper: "a4", margin: 36pt)\n#set text(font: "Source Sans 3", size: 9.5pt)\n'
        source = set_up + sole + "\n#pagebreak()\n".join(map(body, seeds))
        return bytes(compiler.compile(input=source.encode(), format="pdf"))

    def pt(point: tuple[float, float]) -> str:
        return f"({point[0]}pt, {point[1] + 9}pt)"

    return book


def writer() -> Book:
    """Flat OpenDocument text, set by the word processor without a window."""
    home = Path(tempfile.mkdtemp())
    d = f"M{SOLE[0][0]} {SOLE[0][1] + 9}" + "".join(
        f"C{a[0]} {a[1] + 9} {b[0]} {b[1] + 9} {c[0]} {c[1] + 9}" for a, b, c in SOLE[1:]
    ) + "Z"
    sole = (
        '<draw:path text:anchor-type="as-char" draw:style-name="S" svg:width="8pt" svg:height="11pt"'
        f' svg:viewBox="0 0 8 11" svg:d="{d}"/>'
    )
    spaces = " ".join(
        f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{urn}:1.0"'
        for name, urn in (("office", "office"), ("text", "text"), ("table", "table"), ("draw", "drawing"),
                          ("style", "style"), ("svg", "svg-compatible"), ("fo", "xsl-fo-compatible"))
    )

    def body(seed: int) -> str:
        lines = "".join(
            "<table:table-row>" + "".join(
                f"<table:table-cell><text:p text:style-name='P'>{inside}</text:p></table:table-cell>"
                for inside in (bar, count, sole, gent, sole, lady, hold)
            ) + "</table:table-row>"
            for bar, count, gent, lady, hold in rows(seed)
        )
        return (
            f"<text:h text:style-name='H' text:outline-level='1'>Sheet {seed}</text:h>"
            f"<table:table><table:table-column table:number-columns-repeated='7'/>{lines}</table:table>"
        )

    def book(seeds: Sequence[int]) -> bytes:
        source = home / "book.fodt"
        source.write_text(
            f'<office:document {spaces} office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.text">'
            "<office:automatic-styles>"
            "<style:style style:name='P' style:family='paragraph'><style:text-properties fo:font-size='9.5pt'"
            " style:font-name='Source Sans 3'/></style:style>"
            "<style:style style:name='H' style:family='paragraph'><style:paragraph-properties fo:break-before='page'/>"
            "</style:style>"
            "<style:style style:name='S' style:family='graphic'><style:graphic-properties draw:fill='solid'"
            " draw:fill-color='#000000' draw:stroke='none'/></style:style>"
            f"</office:automatic-styles><office:body><office:text>{''.join(map(body, seeds))}</office:text>"
            "</office:body></office:document>"
        )
        command = ["soffice", "--headless", "--convert-to", "pdf", "--outdir", str(home), str(source)]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        return (home / "book.pdf").read_bytes()

    return book


def lodestep(tagged: bool = True) -> Book:
    from notation.page.content import (
        Block,
        Cell,
        Column,
        Drawing,
        Flow,
        Margins,
        PageBreak,
        Paragraph,
        Row,
        Run,
        Running,
        Section,
        Story,
        Style,
        Table,
    )
    from notation.page.fonts import Faces
    from notation.page.frame import Artifact, Metadata, PlacedShape
    from notation.page.paginate import set_story
    from notation.page.path import Close, Curve, Move
    from notation.page.path import Path as Outline
    from notation.page.pdf import paint_pdf
    from notation.page.units import paper
    from notation.plane import Point

    faces, plain, title = Faces(FONT.parent), Style("SourceSans3-Regular", 9.5), Style("SourceSans3-Regular", 20)
    curves = tuple(Curve(*(Point(*p) for p in curve)) for curve in SOLE[1:])
    outline = Outline((Move(Point(*SOLE[0])), *curves, Close()))
    sole = Drawing(8, 8.5, 1.2, (PlacedShape(outline, Artifact.LAYOUT, fill=0.0),))
    columns = tuple(
        Column(key, Paragraph((Run(key.title(), plain),)), slot=12.0 if key in ("gent", "lady") else 0.0)
        for key in ("bar", "count", "gent", "lady", "hold")
    )

    def words(text: str) -> Paragraph:
        return Paragraph((Run(text, plain),))

    def row(cells: Cells) -> Row:
        keys = ("bar", "count", "gent", "lady", "hold")
        return Row(tuple(
            Cell(key, words(text), sole if key in ("gent", "lady") else None, header=key == "bar")
            for key, text in zip(keys, cells, strict=True) if text
        ))

    def sheet(seed: int) -> tuple[Flow, ...]:
        made = [row(cells) for cells in rows(seed)]
        bars = tuple(Block(tuple(made[n : n + 3])) for n in range(0, 48, 3))
        head = Paragraph((Run(f"Sheet {seed}", title),), kind="H1", line_steps=2, space_after=1)
        table = Table(columns, (Section(None, bars),))
        return head, table, PageBreak()

    def book(seeds: Sequence[int]) -> bytes:
        flow = tuple(part for seed in seeds for part in sheet(seed))
        story = Story(paper("A4"), Margins(36, 36, 36, 36), STEP, flow, Running("", "", "page {page}"))
        document = set_story(story, Metadata("Sheets"), faces)
        return paint_pdf(replace(document, tagged=tagged), FONT.parent)

    return book


PEERS: dict[str, tuple[str, Callable[[], Book]]] = {
    "canvas": ("reportlab", canvas),
    "lodestep": ("notation", lodestep),
    "untagged": ("notation", lambda: lodestep(tagged=False)),
    "typst": ("typst", typst),
    "platypus": ("reportlab", platypus),
    "fpdf2": ("fpdf", fpdf2),
    "weasyprint": ("weasyprint", weasyprint),
    "writer": ("soffice", writer),
}

STEADY = {"weasyprint": 11, "writer": 11}
"""Sheets to set where a hundred and one would take minutes."""

BOOKS = {"fpdf2": 100, "weasyprint": 10, "writer": 100}
"""The longest book of those that would take minutes over a longer one."""


def worker(name: str, sheets: int) -> None:
    """Set so many sheets, each by itself, and print what it took as JSON."""
    draw = PEERS[name][1]()
    size, times = len(draw([0])), []
    for seed in range(1, sheets):
        start = time.perf_counter()
        draw([seed])
        times.append((time.perf_counter() - start) * 1000)
    print(json.dumps({"size": size, "steady": statistics.median(times) if times else None}))


def binder(name: str, sheets: int) -> None:
    """Set one book of so many sheets and print its size as JSON."""
    print(json.dumps({"size": len(PEERS[name][1]()(range(sheets)))}))


def run(name: str, sheets: int, what: str) -> tuple[dict[str, float], float, float]:
    """What the worker or binder says, milliseconds of the whole process, its peak megabytes or a child's."""
    start = time.perf_counter()
    compiled = {**os.environ, "PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": CACHE}
    command = [sys.executable, __file__, what, name, str(sheets)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, env=compiled) as child:
        assert child.stdout is not None
        said = child.stdout.read()
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    return json.loads(said), (time.perf_counter() - start) * 1000, usage.ru_maxrss / 1024


def there(library: str) -> bool:
    return importlib.util.find_spec(library) is not None or shutil.which(library) is not None


def sheets() -> None:
    print(f"{'':<12}{'cold':>10}{'memory':>10}{'steady':>12}{'one page':>11}")
    for name in filter(lambda name: there(PEERS[name][0]), PEERS):
        run(name, 1, "sheets")
        cold = [run(name, 1, "sheets") for _ in range(5)]
        steady, _, _ = run(name, STEADY.get(name, 101), "sheets")
        wall, memory = statistics.median(c[1] for c in cold), max(c[2] for c in cold)
        size = cold[0][0]["size"] / 1000
        print(f"{name:<12}{wall:>7.0f} ms{memory:>7.0f} MB{steady['steady']:>9.1f} ms{size:>8.1f} kB", flush=True)


def books() -> None:
    print(f"{'':<12}{'sheets':>8}{'time':>10}{'memory':>10}{'size':>11}")
    for name in filter(lambda name: there(PEERS[name][0]), PEERS):
        for count in (10, 100, 1000):
            if count <= BOOKS.get(name, 1000):
                said, wall, memory = run(name, count, "book")
                size = said["size"] / 1_000_000
                print(f"{name:<12}{count:>8}{wall / 1000:>8.1f} s{memory:>7.0f} MB{size:>8.2f} MB", flush=True)


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["sheets", name, count]:
            worker(name, int(count))
        case ["book", name, count]:
            binder(name, int(count))
        case ["books"]:
            books()
        case _:
            sheets()
