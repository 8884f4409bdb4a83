"""The structure tree of a tagged PDF (ISO 32000-1, 14.7 and 14.8): who is read, in what order, as what.

Three things must agree: the numbered marked content on the pages, the tree of elements, and the ParentTree that leads
from the numbers back to the elements. All three are made here from one list of marks.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFObject

from notation.page.compact import PdfFile
from notation.page.frame import Element
from notation.plane import Rect

_GROUPING = ("Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index")
_BLOCKS = ("P", "H1", "H2", "H3", "H4", "H5", "H6", "L", "LI", "Lbl", "LBody")
_TABLES = ("Table", "TR", "TH", "TD", "THead", "TBody", "TFoot")
_INLINE = ("Span", "Quote", "Reference", "Code", "Link", "Figure", "Formula")
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
    """StructureError unless keys are unique, parents come first, types are standard ones and Figures have words."""
    seen: set[int | None] = {None}
    for element in elements:
        if element.key in seen:
            raise StructureError(f"two structure elements have the key {element.key}")
        if element.parent not in seen:
            raise StructureError(f"element {element.key} stands before its parent {element.parent}")
        if element.kind not in KINDS or element.scope not in SCOPES:
            raise StructureError(f"element {element.key}: '{element.kind} {element.scope}' is no standard type")
        if element.kind in ("Figure", "Formula") and not element.alt:
            raise StructureError(f"the {element.kind} {element.key} has no words for those who do not see it")
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
class _References:
    """What others call them by ('12 0 R'): elements by key (None: the element Document), pages in order, the root."""

    elements: Mapping[int | None, str]
    pages: Sequence[str]
    root: str


def object_number(document: PdfFile, thing: PDFObject) -> int:
    """The number of the indirect object, which it gets now if it has none."""
    name = document.Reference(thing).name
    return int(document.idToObjectNumberAndVersion[name][0])


def _reference(document: PdfFile, thing: PDFObject) -> str:
    return f"{object_number(document, thing)} 0 R"


def write_structure(
    document: PdfFile, elements: Sequence[Element], marks: Sequence[Mark], boxes: Mapping[int, Rect]
) -> None:
    """Add the structure tree to the document, whose pages are all there. boxes: of Figures, in PDF coordinates."""
    objects: dict[int | None, _Written] = {None: _Written(), **{e.key: _Written() for e in elements}}
    root = _Written()
    references = _References(
        {key: _reference(document, thing) for key, thing in objects.items()},
        [_reference(document, page) for page in document.Pages.pages],
        _reference(document, root),
    )
    kids = arrange(elements, marks)
    objects[None].text = _element_text("Document", references.root, "", kids[None], references)
    for element in elements:
        parent = references.elements[element.parent]
        extra = _attributes(element, boxes.get(element.key))
        objects[element.key].text = _element_text(element.kind, parent, extra, kids[element.key], references)
    root.text = _root_text(document, marks, references)
    _claim(document, root)


def _claim(document: PdfFile, root: PDFObject) -> None:
    document.Catalog.StructTreeRoot = root
    document.Catalog.MarkInfo = PDFDictionary({"Marked": "true"})
    for key, page in enumerate(document.Pages.pages):
        page.__Defaults__ = {**page.__Defaults__, "Tabs": "/S", "StructParents": key}


def _element_text(kind: str, parent: str, extra: str, kids: Sequence[Kid], references: _References) -> bytes:
    page, texts = None, []
    for kid in kids:
        if page is None and not isinstance(kid, int):
            page = kid.page
        texts.append(_kid_text(kid, page, references))
    on = "" if page is None else f"/Pg {references.pages[page]}"
    inside = f"/K {texts[0]}" if len(texts) == 1 else f"/K[{' '.join(texts)}]" if texts else ""
    return f"<</S/{kind}/P {parent}{on}{extra}{inside}>>".encode("latin-1")


def _kid_text(kid: Kid, page: int | None, references: _References) -> str:
    if isinstance(kid, int):
        return references.elements[kid]
    if isinstance(kid, LinkMark):
        return f"<</Type/OBJR/Pg {references.pages[kid.page]}/Obj {kid.object} 0 R>>"
    if kid.page == page:
        return str(kid.number)
    return f"<</Type/MCR/Pg {references.pages[kid.page]}/MCID {kid.number}>>"


def _attributes(element: Element, box: Rect | None) -> str:
    """Alternative words, table attributes and the place of a Figure (14.8.5.4.3 and 14.8.5.7)."""
    text = f"/Alt{text_string(element.alt)}" if element.alt else ""
    if element.scope or element.columns != 1:
        scope = f"/Scope/{element.scope}" if element.scope else ""
        span = f"/ColSpan {element.columns}" if element.columns != 1 else ""
        text += f"/A<</O/Table{scope}{span}>>"
    elif box:
        corners = f"{box.x0:.2f} {box.y0:.2f} {box.x1:.2f} {box.y1:.2f}"
        text += f"/A<</O/Layout/Placement/Block/BBox[{corners}]>>"
    return text


def text_string(text: str) -> str:
    """A text string in UTF-16 (7.9.2.2), written in hexadecimal."""
    return f"<FEFF{text.encode('utf-16-be', 'replace').hex().upper()}>"


def _root_text(document: PdfFile, marks: Sequence[Mark], references: _References) -> bytes:
    """The root with the ParentTree: pages have the keys from 0 on, links those after them."""
    pages: list[list[str]] = [[] for _ in references.pages]
    links: list[str] = []
    for mark in marks:
        (links if isinstance(mark, LinkMark) else pages[mark.page]).append(references.elements[mark.key])
    values = [*(f"[{' '.join(owners)}]" for owners in pages), *links]
    tree = _Written()
    tree.text = f"<</Nums[{' '.join(f'{key} {value}' for key, value in enumerate(values))}]>>".encode()
    parents, size = f"/ParentTree {_reference(document, tree)}", f"/ParentTreeNextKey {len(values)}"
    return f"<</Type/StructTreeRoot/K {references.elements[None]}{parents}{size}>>".encode()
