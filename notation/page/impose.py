"""Imposing a finished PDF: its pages drawn on the panels of larger sheets, as the order and the forme say.

The imposed file is for a printer: it makes no claim to be tagged or archival, and carries no links and no attachments.
The reading version is left as it is. The same file and plan give the same bytes.
"""
from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pypdf import PageObject, PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    RectangleObject,
    StreamObject,
)

from notation import bounds
from notation.page.fonts import Faces
from notation.page.forme import Forme, Plan, make_forme
from notation.page.frame import Frame
from notation.page.imposition import Edge, Order, Panel, duplex
from notation.page.marks import SheetWords, marks, proof_document
from notation.page.operators import page_content
from notation.page.recover import RecoverError, TimedBytes
from notation.plane import Affine, Point, Rect

SHEERNESS = 0.6
"""How much of the page shines through the numbers of a proof."""


class ImposeError(ValueError):
    """This file cannot be imposed; the message says why."""


@dataclass(frozen=True, slots=True)
class Imposed:
    """The imposed file, and how it was made. pages: of the reading version; edge: about which sheets are turned."""

    data: bytes
    order: Order
    forme: Forme
    pages: int
    edge: Edge


@dataclass(frozen=True, slots=True)
class _Page:
    """A page of the file. width, height: as it is trimmed and seen; upright: from its own coordinates to these."""

    page: PageObject
    width: float
    height: float
    upright: Affine


def impose(pdf: bytes, plan: Plan, fonts_folder: Path, words: SheetWords) -> Imposed:
    """The pages of a PDF on sheets. Panels are as large as the largest page; smaller ones stand in their middle.

    Raises ImposeError for a file that cannot be used, LayoutError for a plan that does not suit its pages.
    """
    read, pages = _opened(pdf)
    title = words.imposed.replace("{title}", read) if read else words.untitled
    order = plan.order(len(pages))
    forme = make_forme(order, max(p.width for p in pages), max(p.height for p in pages), plan)
    edge = plan.edge or (Edge.LONG if forme.tall else Edge.SHORT)
    order = duplex(order, edge, forme.tall)
    proofs = _opened(_proof_pdf(order, forme, fonts_folder, words))[1] if plan.proof else []
    try:
        data = _written(title, edge if order.double else None, order, forme, plan, pages, proofs)
    except RecoverError as fault:
        raise ImposeError(str(fault)) from fault
    # A damaged page can make the library fail in any way whatever.
    except Exception as fault:
        raise ImposeError("a page of the PDF is damaged and cannot be drawn on a sheet") from fault
    return Imposed(data, order, forme, len(pages), edge)


def _opened(pdf: bytes) -> tuple[str, list[_Page]]:
    """The title and the pages of a file. Raises ImposeError."""
    if len(pdf) > bounds.PDF_BYTES.most:
        raise ImposeError(bounds.PDF_BYTES.words)
    if b"%PDF-" not in pdf[:1024]:
        raise ImposeError("this is no PDF file; name a finished sheet or booklet")
    try:
        reader = PdfReader(TimedBytes(pdf, bounds.IMPOSED_SECONDS.most, bounds.IMPOSED_SECONDS), strict=False)
        locked, count = reader.is_encrypted, 0 if reader.is_encrypted else len(reader.pages)
        pages = [_page(page) for page in reader.pages] if 0 < count <= bounds.IMPOSED_PAGES.most else []
        title = "" if locked or reader.metadata is None else str(reader.metadata.title or "")
    except (ImposeError, RecoverError) as fault:
        raise ImposeError(str(fault)) from fault
    except Exception as fault:
        raise ImposeError("the PDF is damaged; its pages cannot be read") from fault
    if locked:
        raise ImposeError("the PDF is locked by a password; save it without one first")
    if not pages:
        raise ImposeError(f"{bounds.IMPOSED_PAGES.words}; this PDF has {count:,}")
    return title, pages


def _page(page: PageObject) -> _Page:
    box = _rect(page.trimbox)
    quarters = (page.rotation // 90) % 4
    size = (box.width, box.height) if quarters % 2 == 0 else (box.height, box.width)
    if min(size) <= 0:
        raise ImposeError("a page of the PDF has no size")
    return _Page(page, *size, _upright(box, quarters))


def _rect(box: RectangleObject) -> Rect:
    return Rect.around((Point(float(box.left), float(box.bottom)), Point(float(box.right), float(box.top))))


def _upright(box: Rect, quarters: int) -> Affine:
    """From a page's coordinates to those of the page as it is seen, its lower left corner at the origin.

    quarters: clockwise turns (ISO 32000-1, table 30, Rotate).

    >>> _upright(Rect(0, 0, 2, 3), 1)(Point(0, 0))
    Point(x=0.0, y=2.0)
    """
    match quarters:
        case 1:
            return Affine(0.0, -1.0, 1.0, 0.0, -box.y0, box.x1)
        case 2:
            return Affine(-1.0, 0.0, 0.0, -1.0, box.x1, box.y1)
        case 3:
            return Affine(0.0, 1.0, -1.0, 0.0, box.y1, -box.x0)
        case _:
            return Affine.translation(-box.x0, -box.y0)


def _proof_pdf(order: Order, forme: Forme, fonts_folder: Path, words: SheetWords) -> bytes:
    from notation.page.pdf import paint_pdf

    return paint_pdf(proof_document(order, forme, Faces(fonts_folder), words), fonts_folder)


def _writer(title: str, edge: Edge | None) -> PdfWriter:
    """An empty file with that title. edge: asked of the printer; None where one side is printed."""
    writer = PdfWriter()
    writer.pdf_header = "%PDF-1.7"
    writer.metadata = {"/Producer": "Lodestep", "/Title": title}
    turning = "/Simplex" if edge is None else f"/DuplexFlip{edge.value.title()}Edge"
    wishes = {"/PrintScaling": "/None", "/Duplex": turning}
    names = {NameObject(key): NameObject(value) for key, value in wishes.items()}
    writer.root_object[NameObject("/ViewerPreferences")] = DictionaryObject(names)
    return writer


def _written(
    title: str, edge: Edge | None, order: Order, forme: Forme, plan: Plan, pages: Sequence[_Page],
    proofs: Sequence[_Page],
) -> bytes:  # fmt: skip
    writer = _writer(title, edge)
    printed = marks(forme, order, plan)
    numbers = iter(proofs)
    for side in order.sides:
        sheet = _Sheet(writer, writer.add_blank_page(forme.paper.width, forme.paper.height))
        for panel in side.panels:
            if panel.page is not None:
                shift = forme.shift(panel, plan.creep, order.depth)
                sheet.place(pages[panel.page - 1], panel, forme, forme.scale, shift)
            if proofs:
                sheet.place(next(numbers), panel, forme, 1.0, 0.0, "/Sheer gs ")
        sheet.finish(printed)
        sheet.boxes(forme)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


class _Sheet:
    """One side being drawn."""

    def __init__(self, writer: PdfWriter, page: PageObject) -> None:
        self.writer, self.page = writer, page
        self.operators: list[str] = []
        self.forms = DictionaryObject()
        self.sheer = False

    def place(
        self, source: _Page, panel: Panel, forme: Forme, scale: float, shift: float, state: str = ""
    ) -> None:
        """Draw a page on its panel, in the middle but for the shift to the right, and nothing beyond its bleed."""
        name = f"/P{len(self.forms)}"
        self.forms[NameObject(name)] = _form(source, self.writer)
        window = _up(forme.printed_box(panel), forme.paper.height)
        matrix = placing(source, _up(forme.panel_box(panel), forme.paper.height), panel.turned, scale, shift)
        numbers = " ".join(_number(v) for v in (matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f))
        clip = " ".join(_number(v) for v in (window.x0, window.y0, window.width, window.height))
        self.sheer = self.sheer or bool(state)
        self.operators.append(f"q {clip} re W n {state}{numbers} cm {name} Do Q")

    def finish(self, printed: Frame) -> None:
        """Draw the marks and write the page."""
        strokes = page_content(printed, lambda face, text: (), lambda data: "", None).stream.decode("latin-1")
        content = "\n".join([*self.operators, "q", strokes.rstrip(), "Q", ""] if printed.items else self.operators)
        self.page[NameObject("/Contents")] = self.writer._add_object(_stream(content.encode("latin-1")))
        resources = DictionaryObject({NameObject("/XObject"): self.forms})
        if self.sheer:
            state = DictionaryObject({NameObject("/ca"): FloatObject(SHEERNESS)})
            resources[NameObject("/ExtGState")] = DictionaryObject({NameObject("/Sheer"): state})
        self.page[NameObject("/Resources")] = resources

    def boxes(self, forme: Forme) -> None:
        """The boxes of ISO 32000-1, 14.11.2: what is trimmed, and that with its bleed."""
        block = _up(forme.block, forme.paper.height)
        self.page.trimbox = RectangleObject((block.x0, block.y0, block.x1, block.y1))
        bled = block.inset(-forme.bleed)
        self.page.bleedbox = RectangleObject((bled.x0, bled.y0, bled.x1, bled.y1))


def placing(source: _Page, box: Rect, turned: bool, scale: float, shift: float) -> Affine:
    """From the page's own coordinates to the sheet's. box: the panel, y upwards."""
    width, height = source.width * scale, source.height * scale
    middle = box.centre
    sized = Affine.scaling(scale, scale).after(source.upright)
    half = Affine.translation(-width / 2, -height / 2).after(sized)
    faced = Affine(-1.0, 0.0, 0.0, -1.0).after(half) if turned else half
    return Affine.translation(middle.x + shift, middle.y).after(faced)


def _up(box: Rect, height: float) -> Rect:
    return Rect(box.x0, height - box.y1, box.x1, height - box.y0)


def _number(value: float) -> str:
    return f"{round(value, 4) + 0.0:.8g}"


def _stream(data: bytes) -> StreamObject:
    stream = DecodedStreamObject()
    stream.set_data(data)
    return stream.flate_encode()


def _form(source: _Page, writer: PdfWriter) -> Any:
    """The page as a form that can be drawn on another (ISO 32000-1, 8.10)."""
    page = source.page
    contents = page.get_contents()
    form = _stream(contents.get_data() if contents is not None else b"")
    box = _rect(page.mediabox)
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = ArrayObject(FloatObject(_number(v)) for v in (box.x0, box.y0, box.x1, box.y1))
    form[NameObject("/Resources")] = page["/Resources"].clone(writer) if "/Resources" in page else DictionaryObject()
    if "/Group" in page:
        form[NameObject("/Group")] = page["/Group"].clone(writer)
    return writer._add_object(form)
