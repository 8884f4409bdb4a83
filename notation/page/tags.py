"""The structure tree of a tagged PDF (ISO 32000-1, 14.7 and 14.8): who is read, in what order, as what.

Three things must agree: the numbered marked content on the pages, the tree of elements, and the ParentTree that leads
from the numbers back to the elements. The last two are made here from the list of marks that the pages bear. Knows no
PDF library.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True)
class Numbers:
    """Object numbers of the file. root: of the StructTreeRoot; first: the first that is free; pages: in order."""

    root: int
    first: int
    pages: Sequence[int]


@dataclass(frozen=True, slots=True)
class _References:
    """What others call them by ('12 0 R'): elements by key (None: the element Document), pages in order, the root."""

    elements: Mapping[int | None, str]
    pages: Sequence[str]
    root: str


def structure_objects(
    elements: Sequence[Element], marks: Sequence[Mark], boxes: Mapping[int, Rect], numbers: Numbers
) -> dict[int, bytes]:
    """The objects of the structure tree by number: the root, its ParentTree, an object for each element.

    boxes: of Figures, in PDF coordinates. Written straight as text: a page has hundreds of elements, and to build each
    as an object of the PDF library takes longer than to paint the page.
    """
    document, tree = numbers.first, numbers.first + 1
    places: dict[int | None, int] = {None: document}
    places |= {element.key: number for number, element in enumerate(elements, tree + 1)}
    to = _References(
        {key: f"{number} 0 R" for key, number in places.items()},
        [f"{number} 0 R" for number in numbers.pages],
        f"{numbers.root} 0 R",
    )
    kids = arrange(elements, marks)
    owners = _owners(marks, to)
    objects = {
        numbers.root: _root_text(to, tree, len(owners)),
        document: _element_text("Document", to.root, "", kids[None], to),
        tree: f"<</Nums[{' '.join(f'{key} {value}' for key, value in enumerate(owners))}]>>".encode(),
    }
    for element in elements:
        extra = _attributes(element, boxes.get(element.key))
        text = _element_text(element.kind, to.elements[element.parent], extra, kids[element.key], to)
        objects[places[element.key]] = text
    return objects


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


def _owners(marks: Sequence[Mark], to: _References) -> list[str]:
    """The values of the ParentTree: pages have the keys from 0 on, links those after them."""
    pages: list[list[str]] = [[] for _ in to.pages]
    links: list[str] = []
    for mark in marks:
        (links if isinstance(mark, LinkMark) else pages[mark.page]).append(to.elements[mark.key])
    return [*(f"[{' '.join(owners)}]" for owners in pages), *links]


def _root_text(to: _References, tree: int, next_key: int) -> bytes:
    parents = f"/ParentTree {tree} 0 R/ParentTreeNextKey {next_key}"
    return f"<</Type/StructTreeRoot/K {to.elements[None]}{parents}>>".encode()
