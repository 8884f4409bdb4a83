"""A Document as a PDF file: pages, fonts, links, outline, page labels; tags and archive claims where it is tagged.

The same document and fonts give the same bytes on any day and machine with the same versions of reportlab and zlib.
"""
from __future__ import annotations

import io
from collections.abc import Callable, Iterator, Mapping, Sequence
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
from notation.page.compact import PdfFile, Reserved, object_number, write_file
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
from notation.page.operators import drawn_items, page_content
from notation.page.raster import read_picture
from notation.page.tags import (
    ContentMark,
    LinkMark,
    Mark,
    Numbers,
    StructureError,
    check_elements,
    structure_objects,
)
from notation.page.typefaces import Typefaces
from notation.plane import Point, Rect

Places = Mapping[str, tuple[int, Point]]
"""Anchors by name: page (from 0) and place on it, in a Frame's coordinates."""


class LinkError(ValueError):
    """A link or a line of the outline leads to an anchor that no page has, or a link belongs to no element."""


class _Canvas(Canvas):
    def _make_preamble(self) -> None:
        """Nothing: the usual one names a font on every page, used or not."""
        self._preamble = ""


class _Painter:
    """One document being written."""

    def __init__(self, document: Document, fonts_folder: Path) -> None:
        self.document = document
        self.places = anchor_places(document)
        self.outlined = _outlined(document.outline, self.places)
        self.kinds = {element.key: element.kind for element in document.elements} if document.tagged else None
        language = document.metadata.language
        self.canvas: Any = _Canvas(io.BytesIO(), pdfVersion=(1, 7), invariant=1, pageCompression=1, lang=language)
        self.file: PdfFile = self.canvas._doc  # type: ignore[attr-defined]
        self.file.signature = md5(usedforsecurity=False)
        self.faces = Typefaces(self.file, fonts_folder)
        self.pictures: dict[bytes, tuple[str, PDFObjectReference]] = {}
        self.used_pictures: set[str] = set()
        self.marks: list[Mark] = []
        self.links = 0

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

    def paint_page(self, page: int, frame: Frame) -> None:
        self.used_pictures.clear()
        content = page_content(frame, self.faces.encode, self.register_picture, self.kinds)
        self.file.updateSignature(content.stream)
        self.canvas.setPageSize((frame.width, frame.height))
        self._bookmarks(page, frame.height)
        if self.kinds is not None:
            self.marks += (ContentMark(key, page, number) for number, key in enumerate(content.marks))
        for link in (item for item in frame.items if isinstance(item, PlacedLink)):
            self._link(page, frame.height, link)
        self.canvas.showPage()
        written = self.file.Pages.pages[-1]
        written.Contents = packed_stream(content.stream)
        used = {name: picture for name, picture in self.pictures.values() if name in self.used_pictures}
        written.XObjects = PDFDictionary(used) if used else None

    def _bookmarks(self, page: int, height: float) -> None:
        for line, at in self.outlined.get(page, ()):
            self.canvas.bookmarkHorizontalAbsolute(str(line), round(height - at.y, 2), left=round(at.x, 2))

    def _link(self, page: int, height: float, link: PlacedLink) -> None:
        entries: dict[str, object] = {
            "Type": "/Annot", "Subtype": "/Link", "Border": "[0 0 0]", "F": 4, "Contents": PDFString(clean(link.text)),
            "Rect": _rectangle(upright(link.box, height)), **self._leading_to(link.target),
        }  # fmt: skip
        annotation = PDFDictionary(entries)
        self.file.updateSignature(link.target)
        if self.kinds is not None:
            annotation["StructParent"] = len(self.document.pages) + self.links
            key = _link_element(link, self.kinds)
            self.marks.append(LinkMark(key, page, self.links, object_number(self.file, annotation)))
        self.links += 1
        self.canvas._annotationrefs.append(self.file.Reference(annotation))

    def _leading_to(self, target: str) -> dict[str, PDFObject]:
        if not target.startswith("#"):
            return {"A": PDFDictionary({"Type": "/Action", "S": "/URI", "URI": PDFString(target)})}
        page, at = self.places[target[1:]]
        x, y = round(at.x, 2), round(self.document.pages[page].height - at.y, 2)
        return {"Dest": PDFArray([PDFObjectReference(f"Page{page + 1}"), "/XYZ", x, y, 0])}

    def finish(self) -> bytes:
        document, metadata = self.document, self.document.metadata
        info = self.file.info = Info(info_entries(metadata, self.file.info.producer))
        for part in (repr(metadata), *(f"{item.name}\n{md5(item.data).hexdigest()}" for item in document.attachments)):
            self.file.updateSignature(part)
        _outline(self.canvas, self.file, document.outline)
        _page_labels(self.canvas, [page.label for page in document.pages])
        self.canvas.setViewerPreference("DisplayDocTitle", "true")
        attach(self.file, document.attachments, info.entries.get("ModDate", ""))
        self.faces.embed()
        if not document.tagged:
            return write_file(self.file, lambda first: {})
        claim_archival(self.file, metadata, info.entries["Producer"])
        return write_file(self.file, self._structure())

    def _structure(self) -> Callable[[int], Mapping[int, bytes]]:
        """Claim that the document is tagged, and make its structure tree once the first free number is known."""
        root, catalog, pages = Reserved(), self.file.Catalog, self.file.Pages.pages
        catalog.StructTreeRoot, catalog.MarkInfo = root, PDFDictionary({"Marked": "true"})
        for key, page in enumerate(pages):
            page.__Defaults__ = {**page.__Defaults__, "Tabs": "/S", "StructParents": key}
        numbers = [object_number(self.file, page) for page in pages]
        root_number, boxes = object_number(self.file, root), figure_boxes(self.document)

        def objects(first: int) -> Mapping[int, bytes]:
            return structure_objects(self.document.elements, self.marks, boxes, Numbers(root_number, first, numbers))

        return objects


def paint_pdf(document: Document, fonts_folder: Path) -> bytes:
    """The document as a PDF 1.7 file; where it is tagged, PDF/UA-1 and PDF/A-3a.

    Errors (all ValueError): FaceError, PictureError, LinkError, StructureError; no pages.
    """
    if not document.pages:
        raise ValueError("a document without pages")
    if document.tagged:
        check_elements(document.elements)
        _check_tags(document)
    _check_targets(document)
    painter = _Painter(document, fonts_folder)
    for page, frame in enumerate(document.pages):
        painter.paint_page(page, frame)
    return painter.finish()


def anchor_places(document: Document) -> dict[str, tuple[int, Point]]:
    """Where each anchor is; the first of a name counts."""
    places: dict[str, tuple[int, Point]] = {}
    for page, frame in enumerate(document.pages):
        for item in frame.items:
            if isinstance(item, Anchor):
                places.setdefault(item.name, (page, item.at))
    return places


def _outlined(outline: Sequence[OutlineEntry], places: Mapping[str, tuple[int, Point]]
              ) -> dict[int, list[tuple[int, Point]]]:
    """The lines of the outline by the page they lead to: their number and where to."""
    found: dict[int, list[tuple[int, Point]]] = {}
    for line, entry in enumerate(outline):
        page, at = places[entry.anchor]
        found.setdefault(page, []).append((line, at))
    return found


def _targets(document: Document) -> Iterator[str]:
    yield from (entry.anchor for entry in document.outline)
    for frame in document.pages:
        for item in frame.items:
            if isinstance(item, PlacedLink) and item.target.startswith("#"):
                yield item.target[1:]


def _check_targets(document: Document) -> None:
    places = anchor_places(document)
    for target in _targets(document):
        if target not in places:
            raise LinkError(f"no page has the anchor '{target}'")


def _check_tags(document: Document) -> None:
    keys = {element.key for element in document.elements}
    for frame in document.pages:
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


def figure_boxes(document: Document) -> dict[int, Rect]:
    """The rectangle around each Figure on its first page, in PDF coordinates."""
    figures = {element.key for element in document.elements if element.kind == "Figure"}
    boxes: dict[int, Rect] = {}
    for frame in document.pages if figures else ():
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
