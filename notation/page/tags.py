"""The structure tree of a tagged PDF (ISO 32000-1, 14.7 and 14.8): who is read, in what order, as what.

Three things must agree: the numbered marked content on the pages, the tree of elements, and the ParentTree that leads
from the numbers back to the elements. All three are made here from one list of marks.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFObject, PDFString

from notation.page.compact import PdfFile
from notation.page.frame import Element
from notation.plane import Rect

_GROUPING = ("Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index")
_BLOCKS = ("P", "H1", "H2", "H3", "H4", "H5", "H6", "L", "LI", "Lbl", "LBody")
_TABLES = ("Table", "TR", "TH", "TD", "THead", "TBody", "TFoot")
_INLINE = ("Span", "Quote", "Note", "Reference", "Code", "Link", "Figure", "Formula")
KINDS = frozenset((*_GROUPING, *_BLOCKS, *_TABLES, *_INLINE))
"""Standard structure types of ISO 32000-1, 14.8.4, as far as a page of ours may use them."""

SCOPES = frozenset({"", "Row", "Column", "Both"})


class StructureError(ValueError):
    """The elements are no tree in reading order, or an item names an element that is not there."""


@dataclass(frozen=True, slots=True)
class ContentMark:
    """A marked-content sequence: the element it belongs to, its page (from 0) and its number there (MCID)."""

    key: int
    page: int
    number: int


@dataclass(frozen=True, slots=True)
class LinkMark:
    """A link annotation: its Link element, its page (from 0), its number among all links, its object number."""

    key: int
    page: int
    number: int
    object: int


Mark = ContentMark | LinkMark
Kid = int | Mark


def check_elements(elements: Sequence[Element]) -> None:
    """StructureError unless keys are unique, parents come first, and types and scopes are standard ones."""
    seen: set[int | None] = {None}
    for element in elements:
        if element.key in seen:
            raise StructureError(f"two structure elements have the key {element.key}")
        if element.parent not in seen:
            raise StructureError(f"element {element.key} stands before its parent {element.parent}")
        if element.kind not in KINDS or element.scope not in SCOPES:
            raise StructureError(f"element {element.key}: '{element.kind} {element.scope}' is no standard type")
        seen.add(element.key)


def arrange(elements: Sequence[Element], marks: Iterable[Mark]) -> dict[int | None, list[Kid]]:
    """What each element holds, in reading order: keys of elements and marks; None holds the outermost elements.

    An element takes its place among its parent's content where its own first content stands.
    """
    order = {element.key: place for place, element in enumerate(elements)}
    kids: dict[int | None, list[Kid]] = {None: [], **{element.key: [] for element in elements}}
    placed = 0
    for mark in marks:
        upto = order[mark.key] + 1
        for element in elements[placed:upto]:
            kids[element.parent].append(element.key)
        placed = max(placed, upto)
        kids[mark.key].append(mark)
    for element in elements[placed:]:
        kids[element.parent].append(element.key)
    return kids


class _Written(PDFObject):
    """An indirect object whose text is filled in once the numbers of all objects are known."""

    __RefOnly__ = 1
    text = b""

    def format(self, document: PdfFile) -> bytes:
        return self.text


@dataclass(frozen=True, slots=True)
class _Numbers:
    """Object numbers: of the elements by key (None: the element Document), of the pages in order, of the root."""

    elements: Mapping[int | None, int]
    pages: Sequence[int]
    root: int


def object_number(document: PdfFile, thing: PDFObject) -> int:
    """The number of the indirect object, which it gets now if it has none."""
    name = document.Reference(thing).name
    return int(document.idToObjectNumberAndVersion[name][0])


def write_structure(
    document: PdfFile, elements: Sequence[Element], marks: Sequence[Mark], boxes: Mapping[int, Rect]
) -> None:
    """Add the structure tree to the document, whose pages are all there. boxes: of Figures, in PDF coordinates."""
    objects: dict[int | None, _Written] = {None: _Written(), **{e.key: _Written() for e in elements}}
    root = _Written()
    numbers = _Numbers(
        {key: object_number(document, thing) for key, thing in objects.items()},
        [object_number(document, page) for page in document.Pages.pages],
        object_number(document, root),
    )
    kids = arrange(elements, marks)
    objects[None].text = _element_text("Document", numbers.root, b"", kids[None], numbers)
    for element in elements:
        parent = numbers.elements[element.parent]
        extra = _attributes(document, element, boxes.get(element.key))
        objects[element.key].text = _element_text(element.kind, parent, extra, kids[element.key], numbers)
    root.text = _root_text(document, marks, numbers)
    _claim(document, root)


def _claim(document: PdfFile, root: PDFObject) -> None:
    document.Catalog.StructTreeRoot = root
    document.Catalog.MarkInfo = PDFDictionary({"Marked": "true"})
    for key, page in enumerate(document.Pages.pages):
        page.__Defaults__ = {**page.__Defaults__, "Tabs": "/S", "StructParents": key}


def _element_text(kind: str, parent: int, extra: bytes, kids: Sequence[Kid], numbers: _Numbers) -> bytes:
    page = next((kid.page for kid in kids if not isinstance(kid, int)), None)
    on = "" if page is None else f"/Pg {numbers.pages[page]} 0 R"
    texts = [_kid_text(kid, page, numbers) for kid in kids]
    inside = "" if not texts else f"/K {texts[0]}" if len(texts) == 1 else f"/K[{' '.join(texts)}]"
    return b"<</S/%s/P %d 0 R%s%s%s>>" % (kind.encode(), parent, on.encode(), extra, inside.encode())


def _kid_text(kid: Kid, page: int | None, numbers: _Numbers) -> str:
    match kid:
        case ContentMark() if kid.page == page:
            return str(kid.number)
        case ContentMark():
            return f"<</Type/MCR/Pg {numbers.pages[kid.page]} 0 R/MCID {kid.number}>>"
        case LinkMark():
            return f"<</Type/OBJR/Pg {numbers.pages[kid.page]} 0 R/Obj {kid.object} 0 R>>"
        case _:
            return f"{numbers.elements[kid]} 0 R"


def _attributes(document: PdfFile, element: Element, box: Rect | None) -> bytes:
    """Alternative words, table attributes and the place of a Figure (14.8.5.4.3 and 14.8.5.7)."""
    text = b""
    if element.alt:
        text += b"/Alt" + PDFString(element.alt).format(document)
    if element.scope or element.columns != 1:
        scope = f"/Scope/{element.scope}" if element.scope else ""
        span = f"/ColSpan {element.columns}" if element.columns != 1 else ""
        text += f"/A<</O/Table{scope}{span}>>".encode()
    elif box:
        corners = f"{box.x0:.2f} {box.y0:.2f} {box.x1:.2f} {box.y1:.2f}"
        text += f"/A<</O/Layout/Placement/Block/BBox[{corners}]>>".encode()
    return text


def _root_text(document: PdfFile, marks: Sequence[Mark], numbers: _Numbers) -> bytes:
    """The root with the ParentTree: pages have the keys from 0 on, links those after them."""
    pages: list[list[str]] = [[] for _ in numbers.pages]
    links: list[str] = []
    for mark in marks:
        owner = f"{numbers.elements[mark.key]} 0 R"
        (links if isinstance(mark, LinkMark) else pages[mark.page]).append(owner)
    values = [*(f"[{' '.join(owners)}]" for owners in pages), *links]
    tree = _Written()
    tree.text = f"<</Nums[{' '.join(f'{key} {value}' for key, value in enumerate(values))}]>>".encode()
    return b"<</Type/StructTreeRoot/K %d 0 R/ParentTree %d 0 R/ParentTreeNextKey %d>>" % (
        numbers.elements[None],
        object_number(document, tree),
        len(values),
    )
