"""A Document as a PDF file: pages, fonts, links, outline, page labels; tags and archive claims where it is tagged.

The same document and fonts give the same bytes on any day and machine with the same versions of reportlab and zlib.
"""
from __future__ import annotations

import io
from collections.abc import Iterable, Mapping, Sequence
from hashlib import md5
from pathlib import Path
from typing import Any

from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFObject, PDFObjectReference, PDFString
from reportlab.pdfgen.canvas import Canvas

from notation.page.archive import (
    Info,
    attach,
    claim_archival,
    clean,
    info_entries,
    packed_stream,
)
from notation.page.compact import PdfFile, object_number, write_file
from notation.page.frame import (
    Anchor,
    Document,
    Frame,
    OutlineEntry,
    PlacedLink,
    PlacedPicture,
    PlacedShape,
    PlacedText,
)
from notation.page.growing import StructureTree
from notation.page.operators import drawn_items, page_content
from notation.page.parts import Part, Places, Prospect
from notation.page.raster import read_picture
from notation.page.tags import (
    ContentMark,
    LinkMark,
    Mark,
    StructureError,
    check_elements,
)
from notation.page.typefaces import Typefaces
from notation.plane import Point, Rect


class LinkError(ValueError):
    """A link or a line of the outline leads to an anchor that no page has, or a link belongs to no element."""


class _Canvas(Canvas):
    def _make_preamble(self) -> None:
        """Nothing: the usual one names a font on every page, used or not."""
        self._preamble = ""


class _Painter:
    """One document being written."""

    def __init__(self, ahead: Prospect, fonts_folder: Path) -> None:
        self.ahead = ahead
        self.outlined = _outlined(ahead.outline, ahead.places)
        language = ahead.metadata.language
        self.canvas: Any = _Canvas(io.BytesIO(), pdfVersion=(1, 7), invariant=1, pageCompression=1, lang=language)
        self.file: PdfFile = self.canvas._doc  # type: ignore[attr-defined]
        self.file.signature = md5(usedforsecurity=False)
        self.faces = Typefaces(self.file, fonts_folder)
        self.pictures: dict[bytes, tuple[str, PDFObjectReference]] = {}
        self.used_pictures: set[str] = set()
        self.labels: list[str] = []
        self.links = 0
        self.tree = StructureTree(self.file, ahead) if ahead.tagged else None

    def register_picture(self, data: bytes) -> str:
        if data not in self.pictures:
            raster = read_picture(data)
            colours = "/DeviceGray" if raster.channels == 1 else "/DeviceRGB"
            stream = packed_stream(
                raster.data, Type="/XObject", Subtype="/Image", Width=raster.width, Height=raster.height,
                BitsPerComponent=8, ColorSpace=colours, Filter=f"/{raster.coding}",
            )  # fmt: skip
            self.pictures[data] = (f"Picture{len(self.pictures)}", self.file.Reference(stream))
        name = self.pictures[data][0]
        self.used_pictures.add(name)
        return f"/{name}"

    def paint_part(self, part: Part) -> None:
        kinds = {element.key: element.kind for element in part.elements} if self.tree else None
        marks: list[Mark] = []
        first = len(self.labels)
        for frame in part.pages:
            marks += self.paint_page(frame, kinds)
        if self.tree is not None:
            pages = self.file.Pages.pages[first:]
            self.tree.add(part, marks, figure_boxes(part), [object_number(self.file, page) for page in pages])

    def paint_page(self, frame: Frame, kinds: dict[int, str] | None) -> list[Mark]:
        """Paint a page; the marks it bears."""
        page = len(self.labels)
        self.labels.append(frame.label)
        self.used_pictures.clear()
        content = page_content(frame, self.faces.encode, self.register_picture, kinds)
        self.file.updateSignature(content.stream)
        self.canvas.setPageSize((frame.width, frame.height))
        for line, at in self.outlined.get(page, ()):
            self.canvas.bookmarkHorizontalAbsolute(str(line), round(at.y, 2), left=round(at.x, 2))
        marks: list[Mark] = [ContentMark(key, page, number) for number, key in enumerate(content.marks)]
        for link in (item for item in frame.items if isinstance(item, PlacedLink)):
            marks.append(self._link(page, frame.height, link, kinds))
        self.canvas.showPage()
        written = self.file.Pages.pages[-1]
        written.Contents = packed_stream(content.stream)
        used = {name: picture for name, picture in self.pictures.values() if name in self.used_pictures}
        written.XObjects = PDFDictionary(used) if used else None
        return marks

    def _link(self, page: int, height: float, link: PlacedLink, kinds: Mapping[int, str] | None) -> LinkMark:
        entries: dict[str, object] = {
            "Type": "/Annot", "Subtype": "/Link", "Border": "[0 0 0]", "F": 4, "Contents": PDFString(clean(link.text)),
            "Rect": _rectangle(upright(link.box, height)), **self._leading_to(link.target),
        }  # fmt: skip
        annotation = PDFDictionary(entries)
        self.file.updateSignature(link.target)
        key = 0
        if kinds is not None:
            annotation["StructParent"] = self.ahead.pages + self.links
            key = _link_element(link, kinds)
        mark = LinkMark(key, page, self.links, object_number(self.file, annotation))
        self.links += 1
        self.canvas._annotationrefs.append(self.file.Reference(annotation))
        return mark

    def _leading_to(self, target: str) -> dict[str, PDFObject]:
        if not target.startswith("#"):
            return {"A": PDFDictionary({"Type": "/Action", "S": "/URI", "URI": PDFString(target)})}
        page, at = anchored(self.ahead.places, target[1:])
        return {"Dest": PDFArray([PDFObjectReference(f"Page{page + 1}"), "/XYZ", round(at.x, 2), round(at.y, 2), 0])}

    def finish(self) -> bytes:
        ahead, metadata = self.ahead, self.ahead.metadata
        if len(self.labels) != ahead.pages:
            raise ValueError(f"{len(self.labels)} pages where {ahead.pages} were announced")
        info = self.file.info = Info(info_entries(metadata, self.file.info.producer))
        for part in (repr(metadata), *(f"{item.name}\n{md5(item.data).hexdigest()}" for item in ahead.attachments)):
            self.file.updateSignature(part)
        _outline(self.canvas, self.file, ahead.outline)
        _page_labels(self.canvas, self.labels)
        self.canvas.setViewerPreference("DisplayDocTitle", "true")
        attach(self.file, ahead.attachments, info.entries.get("ModDate", ""))
        self.faces.embed()
        if self.tree is None:
            return write_file(self.file)
        claim_archival(self.file, metadata, info.entries["Producer"])
        bodies = self.tree.closed()
        return write_file(self.file, (self.tree.elements, self.tree.owners), bodies)


def paint_pdf(document: Document, fonts_folder: Path) -> bytes:
    """The document as a PDF 1.7 file; where it is tagged, PDF/UA-1 and PDF/A-3a.

    Errors (all ValueError): FaceError, PictureError, LinkError, StructureError; no pages.
    """
    ahead = Prospect(
        document.metadata, len(document.pages), len(document.elements), anchor_places(document), document.outline,
        document.attachments, document.tagged,
    )  # fmt: skip
    return paint_parts(ahead, (Part(document.pages, document.elements),), fonts_folder)


def paint_parts(ahead: Prospect, parts: Iterable[Part], fonts_folder: Path) -> bytes:
    """The document of those parts as a PDF file, as `paint_pdf` does. Only one part is held at a time.

    ValueError also where there are more or fewer pages or elements than announced.
    """
    if not ahead.pages:
        raise ValueError("a document without pages")
    painter = _Painter(ahead, fonts_folder)
    for part in parts:
        if ahead.tagged:
            check_elements(part.elements)
            _check_tags(part)
        painter.paint_part(part)
    return painter.finish()


def anchored(places: Places, name: str) -> tuple[int, Point]:
    """The place of that name. Raises LinkError."""
    if name not in places:
        raise LinkError(f"no page has the anchor '{name}'")
    return places[name]


def anchor_places(document: Document) -> dict[str, tuple[int, Point]]:
    """Where each anchor is, in PDF coordinates; the first of a name counts."""
    places: dict[str, tuple[int, Point]] = {}
    for page, frame in enumerate(document.pages):
        for item in frame.items:
            if isinstance(item, Anchor):
                places.setdefault(item.name, (page, Point(item.at.x, frame.height - item.at.y)))
    return places


def _outlined(outline: Sequence[OutlineEntry], places: Places) -> dict[int, list[tuple[int, Point]]]:
    """The lines of the outline by the page they lead to: their number and where to. Raises LinkError."""
    found: dict[int, list[tuple[int, Point]]] = {}
    for line, entry in enumerate(outline):
        page, at = anchored(places, entry.anchor)
        found.setdefault(page, []).append((line, at))
    return found


def _check_tags(part: Part) -> None:
    keys = {element.key for element in part.elements}
    for frame in part.pages:
        for item in drawn_items(frame):
            if isinstance(item.tag, int) and item.tag not in keys:
                raise StructureError(f"an item belongs to element {item.tag}, which is not there")


def _link_element(link: PlacedLink, kinds: Mapping[int, str]) -> int:
    if not isinstance(link.tag, int) or kinds.get(link.tag) != "Link":
        raise LinkError(f"the link to '{link.target}' does not belong to an element Link")
    return link.tag


def upright(box: Rect, height: float) -> Rect:
    """A rectangle of a Frame in the coordinates of a PDF page of that height."""
    return Rect(box.x0, height - box.y1, box.x1, height - box.y0)


def _rectangle(box: Rect) -> PDFArray:
    return PDFArray([round(value, 2) for value in (box.x0, box.y0, box.x1, box.y1)])


def item_box(item: PlacedText | PlacedShape | PlacedPicture) -> Rect:
    """About the room an item takes; for a text reckoned from the number of its characters."""
    match item:
        case PlacedText():
            wide, tall, deep = 0.5 * item.size * len(item.text), item.size, 0.2 * item.size
            if item.turned:
                return Rect(item.x - wide, item.y - deep, item.x, item.y + tall)
            return Rect(item.x, item.y - tall, item.x + wide, item.y + deep)
        case PlacedShape():
            return item.bounds
        case _:
            return item.box


def figure_boxes(part: Part) -> dict[int, Rect]:
    """The rectangle around each Figure on its first page, in PDF coordinates."""
    figures = {element.key for element in part.elements if element.kind == "Figure"}
    boxes: dict[int, Rect] = {}
    for frame in part.pages if figures else ():
        here: dict[int, Rect] = {}
        for item in drawn_items(frame):
            if isinstance(item.tag, int) and item.tag in figures:
                box = item_box(item)
                here[item.tag] = here[item.tag].union(box) if item.tag in here else box
        for key, box in here.items():
            boxes.setdefault(key, upright(box, frame.height))
    return boxes


def _outline(canvas: Canvas, file: PdfFile, outline: tuple[OutlineEntry, ...]) -> None:
    if not outline:
        file.Catalog.Outlines = None
        return
    level = -1
    for line, entry in enumerate(outline):
        level = min(entry.level, level + 1)
        canvas.addOutlineEntry(clean(entry.text), str(line), level)
    canvas.showOutline()
    file.Outlines.prepare(file, canvas)


def label_ranges(labels: list[str]) -> list[tuple[int, str, int]]:
    """Page labels as (first page from 0, prefix, first number or 0 for none).

    >>> label_ranges(["cover", "1", "2", "3"])
    [(0, 'cover', 0), (1, '', 1)]
    """
    ranges: list[tuple[int, str, int]] = []
    due = ""
    for page, label in enumerate(labels):
        numeral = label if label.isdecimal() and label.isascii() and not label.startswith("0") else ""
        if not numeral or label != due:
            ranges.append((page, "" if numeral else label, int(numeral or 0)))
        due = str(int(numeral) + 1) if numeral else ""
    return ranges


def _page_labels(canvas: Canvas, labels: list[str]) -> None:
    for page, prefix, first in label_ranges(labels) if any(labels) else ():
        canvas.addPageLabel(page, style="ARABIC" if first else None, start=first or None, prefix=prefix or None)
