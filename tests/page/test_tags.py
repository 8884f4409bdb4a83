"""The structure tree, read back with pypdf: pages, ParentTree and elements must agree (ISO 32000-1, 14.7)."""
from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream
from sample_sheet import FONTS, REGULAR, sample

from notation.page.frame import Artifact, Document, Element, Frame, Metadata, PlacedLink, PlacedText
from notation.page.pdf import LinkError, paint_pdf
from notation.page.tags import ContentMark, StructureError, arrange, check_elements
from notation.plane import Rect


def read(document: Document) -> PdfReader:
    return PdfReader(io.BytesIO(paint_pdf(document, FONTS)))


def root(reader: PdfReader) -> Any:
    return reader.trailer["/Root"]["/StructTreeRoot"]  # type: ignore[index]


def numbers_on(page: Any, reader: PdfReader) -> list[int]:
    """The MCIDs opened on a page, in order; every sequence is closed before the next begins."""
    found, depth = [], 0
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        if operator == b"BDC":
            depth += 1
            assert depth == 1
            if "/MCID" in operands[1]:
                found.append(int(operands[1]["/MCID"]))
        elif operator == b"EMC":
            depth -= 1
        elif operator in (b"Tj", b"TJ", b"f", b"S", b"B", b"Do"):
            assert depth == 1, "something is drawn outside of all tags"
    assert depth == 0
    return found


def kids(element: Any) -> list[Any]:
    held = element.get("/K", [])
    return [kid for kid in (held if isinstance(held, list) else [held])]


def content_of(element: Any) -> Iterator[tuple[Any, int]]:
    """Page and MCID of an element's own marked content."""
    for kid in kids(element):
        thing = kid.get_object()
        if isinstance(thing, int):
            yield element.raw_get("/Pg"), thing
        elif thing.get("/Type") == "/MCR":
            yield thing.raw_get("/Pg"), thing["/MCID"]


def test_every_mark_leads_to_its_element_and_back() -> None:
    reader = read(sample())
    tree = root(reader)["/ParentTree"]["/Nums"]
    parents = dict(zip(tree[::2], tree[1::2], strict=True))
    for page in reader.pages:
        owners = parents[page["/StructParents"]].get_object()
        assert numbers_on(page, reader) == list(range(len(owners)))
        for number, owner in enumerate(owners):
            assert (page.indirect_reference, number) in list(content_of(owner.get_object()))


def test_every_link_leads_to_its_element_and_back() -> None:
    reader = read(sample())
    tree = root(reader)["/ParentTree"]["/Nums"]
    parents = dict(zip(tree[::2], tree[1::2], strict=True))
    annotations = [reference for page in reader.pages for reference in page.get("/Annots", [])]
    assert len(annotations) == 2
    for reference in annotations:
        owner = parents[reference.get_object()["/StructParent"]].get_object()
        assert owner["/S"] == "/Link"
        assert reference in [kid.raw_get("/Obj") for kid in kids(owner) if hasattr(kid, "raw_get")]
    assert root(reader)["/ParentTreeNextKey"] == len(parents)


def told(element: Any) -> list[Any]:
    """The tree as nested lists of types."""
    inside = [kid.get_object() for kid in kids(element)]
    return [element["/S"][1:], *(told(kid) for kid in inside if not isinstance(kid, int) and "/S" in kid)]


def expected(document: Document, parent: int | None = None) -> list[Any]:
    return [[e.kind, *expected(document, e.key)] for e in document.elements if e.parent == parent]


def test_the_tree_is_the_documents() -> None:
    document = sample()
    assert told(root(read(document))["/K"]) == ["Document", *expected(document)]


def walk(element: Any) -> Iterator[Any]:
    yield element
    for kid in kids(element):
        thing = kid.get_object()
        if not isinstance(thing, int) and "/S" in thing:
            yield from walk(thing)


def test_header_cells_figures_and_spans_say_what_they_are() -> None:
    elements = list(walk(root(read(sample()))["/K"]))
    heads = [e["/A"] for e in elements if e["/S"] == "/TH"]
    assert [head["/Scope"] for head in heads][:6] == ["/Column"] * 5 + ["/Row"]
    assert [head["/ColSpan"] for head in heads if "/ColSpan" in head] == [5, 5]
    (figure,) = (e for e in elements if e["/S"] == "/Figure")
    assert figure["/Alt"] == "Both dancers face the line of dance"
    x0, y0, x1, y1 = (float(x) for x in figure["/A"]["/BBox"])
    assert 440 < x0 < 470 and 745 < y0 < 770 and x1 == 530 and 785 < y1 < 800


def test_an_untagged_document_claims_nothing() -> None:
    pdf = paint_pdf(sample(tagged=False), FONTS)
    reader = PdfReader(io.BytesIO(pdf))
    catalog: Any = reader.trailer["/Root"]
    assert not {"/StructTreeRoot", "/MarkInfo", "/Metadata", "/OutputIntents"} & set(catalog)
    assert b"pdfaid" not in pdf and b"pdfuaid" not in pdf
    for page in reader.pages:
        assert not {"/StructParents", "/Tabs"} & set(page)
        assert b"BDC" not in page.get_contents().get_data()  # type: ignore[union-attr]


def test_words_around_a_link_keep_their_order() -> None:
    """A paragraph 'See [this] now' holds: content, the link, content."""
    elements = (Element(1, "P", None), Element(2, "Link", 1), Element(3, "P", None))
    marks = [ContentMark(1, 0, 0), ContentMark(2, 0, 1), ContentMark(1, 0, 2)]
    kids_of = arrange(elements, marks)
    assert kids_of == {None: [1, 3], 1: [marks[0], 2, marks[2]], 2: [marks[1]], 3: []}


def test_empty_cells_stand_between_full_ones() -> None:
    elements = (Element(1, "TR", None), Element(2, "TD", 1), Element(3, "TD", 1), Element(4, "TD", 1))
    marks = [ContentMark(2, 0, 0), ContentMark(4, 0, 1)]
    assert arrange(elements, marks)[1] == [2, 3, 4]


def test_an_element_may_go_on_over_the_page() -> None:
    words = [PlacedText(10, 20, "one", REGULAR, 9, 1), PlacedText(10, 20, "two", REGULAR, 9, 1)]
    document = Document(tuple(Frame(99, 99, (w,)) for w in words), Metadata("T"), (Element(1, "P", None),))
    reader = read(document)
    paragraph = root(reader)["/K"]["/K"].get_object()
    assert list(content_of(paragraph)) == [(page.indirect_reference, 0) for page in reader.pages]


@pytest.mark.parametrize(
    ("elements", "fault"),
    [
        ((Element(1, "P", None), Element(1, "P", None)), "key 1"),
        ((Element(1, "P", 2), Element(2, "Div", None)), "before its parent"),
        ((Element(1, "Paragraph", None),), "no standard type"),
        ((Element(1, "TH", None, scope="Col"),), "no standard type"),
        ((Element(1, "Figure", None),), "no words"),
    ],
)
def test_faulty_trees(elements: tuple[Element, ...], fault: str) -> None:
    with pytest.raises(StructureError, match=fault):
        check_elements(elements)


def test_an_item_of_no_element_is_an_error() -> None:
    stray = PlacedText(10, 20, "x", REGULAR, 9, 77)
    with pytest.raises(StructureError, match="77"):
        paint_pdf(Document((Frame(99, 99, (stray,)),), Metadata("T")), FONTS)


def test_a_link_needs_a_link_element() -> None:
    link = PlacedLink(Rect(0, 0, 9, 9), "https://example.org", "x", Artifact.LAYOUT)
    document = sample()
    frame = replace(document.pages[0], items=(*document.pages[0].items, link))
    with pytest.raises(LinkError, match="element Link"):
        paint_pdf(replace(document, pages=(frame, document.pages[1])), FONTS)
