"""A small sheet as a Document, made by hand: what the painters are tested with. All names are invented."""
from __future__ import annotations

from datetime import date
from pathlib import Path as File

from notation.page.frame import (
    Anchor,
    Artifact,
    Attachment,
    Document,
    Element,
    Frame,
    Item,
    Metadata,
    OutlineEntry,
    PlacedLink,
    PlacedShape,
    PlacedText,
)
from notation.page.path import Close, Curve, Move, Path
from notation.plane import Affine, Point, Rect

FONTS = File(__file__).parents[2] / "fonts"
REGULAR, SEMIBOLD, BOLD = "SourceSans3-Regular", "SourceSans3-SemiBold", "SourceSans3-Bold"
SOURCE = "title: Harbour Lights Saunter\nbars: 16\n# caf\u00e9, \u00bd turn\n".encode()
WIDTH, HEIGHT = 595.28, 841.89
COLUMNS = (("Bar", 42.0), ("Count", 72.0), ("Gent", 112.0), ("Lady", 292.0), ("Hold", 472.0))
SOLE = Path(
    (
        Move(Point(-1.2, 0)),
        Curve(Point(-2.4, -2.5), Point(-2.6, -6), Point(-0.6, -6.8)),
        Curve(Point(1.6, -7.2), Point(2.2, -4.5), Point(1.3, 0)),
        Close(),
        Move(Point(-1.2, 0.6)),
        Curve(Point(-1.4, 3), Point(1.4, 3), Point(1.2, 0.6)),
        Close(),
    )
)
STEPS = (
    ("1", "LF forward, HT", "RF back, TH", "Closed"),
    ("2", "RF to side, T, \u00bd turn to R", "LF to side, T", ""),
    ("3&", "LF closes to RF (LOD \u2192)", "RF closes to LF", ""),
)


class Sheet:
    """Gathers elements and items page by page."""

    def __init__(self) -> None:
        self.elements: list[Element] = []
        self.pages: list[list[Item]] = [[]]

    def element(self, kind: str, parent: int | None = None, **more: object) -> int:
        self.elements.append(Element(len(self.elements), kind, parent, **more))  # type: ignore[arg-type]
        return len(self.elements) - 1

    def text(self, x: float, y: float, text: str, tag: int | Artifact, face: str = REGULAR, size: float = 9.5) -> None:
        self.pages[-1].append(PlacedText(x, y, text, face, size, tag))

    def add(self, item: Item) -> None:
        self.pages[-1].append(item)


def heading(sheet: Sheet) -> None:
    sheet.add(Anchor("top", Point(42, 40)))
    sheet.text(42, 62, "Harbour Lights Saunter", sheet.element("H1"), BOLD, 20)
    particulars = sheet.element("L")
    for line, (label, body) in enumerate((("Rhythm", "Saunter, 4/4"), ("Music", "any, 28 bars a minute"))):
        item = sheet.element("LI", particulars)
        sheet.text(42, 84 + 13 * line, label, sheet.element("Lbl", item), SEMIBOLD)
        sheet.text(100, 84 + 13 * line, body, sheet.element("LBody", item))
    words = sheet.element("P")
    sheet.text(42, 112, "Arranged by A. Example, ", words)
    link = sheet.element("Link", words)
    sheet.text(150, 112, "example.org/dances", link)
    sheet.add(PlacedLink(Rect(150, 103, 232, 115), "https://example.org/dances", "Dances at example.org", link))
    sheet.text(236, 112, "and ", words)
    inner = sheet.element("Link", words)
    sheet.text(256, 112, "figure B", inner)
    sheet.add(PlacedLink(Rect(256, 103, 292, 115), "#part B", "To figure B", inner))


def diagram(sheet: Sheet) -> None:
    figure = sheet.element("Figure", alt="Both dancers face the line of dance")
    for turn, x in ((0, 470), (180, 500)):
        place = Affine.translation(x, 70).after(Affine.rotation(turn).after(Affine.scaling(2, 2)))
        sheet.add(PlacedShape(SOLE.mapped(place), figure, fill=None if turn else 0.0, stroke=0.0, line_width=0.6))
    sheet.add(PlacedShape(Path.line(Point(530, 90), Point(530, 50)), figure, stroke=0.3, dash=(2.0, 1.5)))


def column_heads(sheet: Sheet, y: float, row: int | None) -> None:
    for name, x in COLUMNS:
        tag = Artifact.HEADER if row is None else sheet.element("TH", row, scope="Column")
        sheet.text(x, y, name, tag, SEMIBOLD, 8.5)


def bar(sheet: Sheet, body: int, number: int, y: float) -> None:
    rule = Path.line(Point(42, y - 10), Point(553, y - 10))
    sheet.add(PlacedShape(rule, Artifact.LAYOUT, stroke=0.6, line_width=0.3))
    for line, (count, gent, lady, hold) in enumerate(STEPS):
        row, at = sheet.element("TR", body), y + 12.5 * line
        bar_number = sheet.element("TH", row, scope="Row")
        if not line:
            sheet.text(42, at, str(number), bar_number, SEMIBOLD, 11)
        for text, (_, x) in zip((count, gent, lady, hold), COLUMNS[1:], strict=True):
            cell = sheet.element("TD", row)
            if x in (112.0, 292.0):
                sheet.add(PlacedShape(SOLE.mapped(Affine.translation(x - 6, at - 1)), Artifact.LAYOUT, fill=0.0))
            if text:
                sheet.text(x, at, text, cell)


def section(sheet: Sheet, table: int, name: str, first_bar: int, bars: int, y: float) -> None:
    body = sheet.element("TBody", table)
    cell = sheet.element("TH", sheet.element("TR", body), scope="Row", columns=len(COLUMNS))
    sheet.add(Anchor(f"part {name}", Point(42, y - 14)))
    sheet.text(42, y, f"Figure {name}", sheet.element("H2", cell), SEMIBOLD, 11)
    for offset in range(bars):
        bar(sheet, body, first_bar + offset, y + 20 + 40 * offset)


def footer(sheet: Sheet, page: int, pages: int) -> None:
    sheet.text(42, 815, "Harbour Lights Saunter", Artifact.FOOTER, size=8)
    sheet.text(520, 815, f"page {page} of {pages}", Artifact.FOOTER, size=8)


def sample(tagged: bool = True, bars: int = 8, written: date | None = date(2024, 5, 1)) -> Document:
    """Two pages; with eight bars each 24 rows of five cells and two footprints."""
    sheet = Sheet()
    heading(sheet)
    diagram(sheet)
    table = sheet.element("Table")
    column_heads(sheet, 140, sheet.element("TR", sheet.element("THead", table)))
    section(sheet, table, "A", 1, bars, 165)
    footer(sheet, 1, 2)
    sheet.pages.append([])
    column_heads(sheet, 60, None)
    section(sheet, table, "B", bars + 1, bars, 85)
    footer(sheet, 2, 2)
    return Document(
        pages=tuple(Frame(WIDTH, HEIGHT, tuple(items), str(n)) for n, items in enumerate(sheet.pages, 1)),
        metadata=Metadata(
            "Harbour Lights Saunter", "A. Example", "A sequence dance, bar by bar", ("saunter", "4/4"), written=written
        ),
        elements=tuple(sheet.elements),
        outline=(
            OutlineEntry("Harbour Lights Saunter", 0, "top"),
            OutlineEntry("Figure A", 1, "part A"),
            OutlineEntry("Figure B", 1, "part B"),
        ),
        attachments=(Attachment("harbour-lights.yaml", SOURCE, description="The script this sheet was set from"),),
        tagged=tagged,
    )
