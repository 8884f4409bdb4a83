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
    """Object numbers of the file. root: of the StructTreeRoot; document: of the element above all others; tree: of the
    ParentTree; pages: of the pages painted so far, in order."""

    root: int
    document: int
    tree: int
    pages: list[int]


@dataclass(frozen=True, slots=True)
class Tagged:
    """The structure of one part of a document.

    bodies: of its elements' objects, in order. tops: the elements of it that stand under the root. owners: what the
    ParentTree says of each of its pages; links: and of its links, by their number.
    """

    bodies: list[bytes]
    tops: list[str]
    owners: dict[int, bytes]
    links: dict[int, str]


@dataclass(frozen=True, slots=True)
class _References:
    """What others call them by ('12 0 R'): elements by key (None: the element Document), pages in order."""

    elements: Mapping[int | None, str]
    pages: Sequence[int]


def structure_of(
    elements: Sequence[Element], marks: Sequence[Mark], boxes: Mapping[int, Rect], first: int, numbers: Numbers
) -> Tagged:
    """The structure of a part whose elements get the object numbers from `first` on.

    boxes: of Figures, in PDF coordinates. Written straight as text: a page has hundreds of elements, and to build each
    as an object of the PDF library takes longer than to paint the page.
    """
    places: dict[int | None, str] = {None: f"{numbers.document} 0 R"}
    places |= {element.key: f"{number} 0 R" for number, element in enumerate(elements, first)}
    to = _References(places, numbers.pages)
    kids = arrange(elements, marks)
    bodies = [
        _element_text(
            element.kind, to.elements[element.parent], _attributes(element, boxes.get(element.key)),
            kids[element.key], to,
        )
        for element in elements
    ]  # fmt: skip
    return Tagged(bodies, [_kid_text(kid, None, to) for kid in kids[None]], *_owners(marks, to))


def root_objects(tops: Sequence[str], owners: Sequence[int], links: Sequence[str], numbers: Numbers
                 ) -> dict[int, bytes]:
    """The StructTreeRoot, the element Document and the ParentTree by number. owners: the objects that say so of each
    page, links: of each link."""
    values = (*(f"{number} 0 R" for number in owners), *links)
    nums = " ".join(f"{key} {value}" for key, value in enumerate(values))
    parents = f"/ParentTree {numbers.tree} 0 R/ParentTreeNextKey {len(values)}"
    inside = f"/K {tops[0]}" if len(tops) == 1 else f"/K[{' '.join(tops)}]" if tops else ""
    return {
        numbers.root: f"<</Type/StructTreeRoot/K {numbers.document} 0 R{parents}>>".encode(),
        numbers.document: f"<</S/Document/P {numbers.root} 0 R{inside}>>".encode(),
        numbers.tree: f"<</Nums[{nums}]>>".encode(),
    }


def _element_text(kind: str, parent: str, extra: str, kids: Sequence[Kid], references: _References) -> bytes:
    page, texts = None, []
    for kid in kids:
        if page is None and not isinstance(kid, int):
            page = kid.page
        texts.append(_kid_text(kid, page, references))
    on = "" if page is None else f"/Pg {references.pages[page]} 0 R"
    inside = f"/K {texts[0]}" if len(texts) == 1 else f"/K[{' '.join(texts)}]" if texts else ""
    return f"<</S/{kind}/P {parent}{on}{extra}{inside}>>".encode("latin-1")


def _kid_text(kid: Kid, page: int | None, references: _References) -> str:
    if isinstance(kid, int):
        return references.elements[kid]
    if isinstance(kid, LinkMark):
        return f"<</Type/OBJR/Pg {references.pages[kid.page]} 0 R/Obj {kid.object} 0 R>>"
    if kid.page == page:
        return str(kid.number)
    return f"<</Type/MCR/Pg {references.pages[kid.page]} 0 R/MCID {kid.number}>>"


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


def _owners(marks: Sequence[Mark], to: _References) -> tuple[dict[int, bytes], dict[int, str]]:
    """The elements of the marked content of each page, and those of the links."""
    pages: dict[int, list[str]] = {}
    links: dict[int, str] = {}
    for mark in marks:
        if isinstance(mark, LinkMark):
            links[mark.number] = to.elements[mark.key]
        else:
            pages.setdefault(mark.page, []).append(to.elements[mark.key])
    return {page: f"[{' '.join(owners)}]".encode() for page, owners in pages.items()}, links
