"""A document painted part by part is one file: every mark of it leads to its element, and nothing is announced that
does not come."""
from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from pypdf import PdfReader
from sample_sheet import FONTS, REGULAR

from notation.page.frame import Artifact, Element, Frame, Metadata, OutlineEntry, PlacedLink, PlacedText
from notation.page.parts import Part, Prospect
from notation.page.pdf import LinkError, paint_parts
from notation.page.tags import StructureError
from notation.plane import Point, Rect

LINES = 130
"""Of a page: with them a file of a few parts has several streams of structure."""
AHEAD = Prospect(Metadata("Parts"), 6, 3 * (2 * LINES + 4), {"there": (3, Point(10.0, 90.0))},
                 (OutlineEntry("There", 0, "there"),))


def part(number: int) -> Part:
    """Two pages of paragraphs, the keys of each part from 1; the heading leads to a place of another part."""
    elements = [Element(1, "Sect", None), Element(2, "H1", 1), Element(3, "Link", 2)]
    pages = []
    for page in range(2):
        items: list[Any] = []
        if page == 0:
            items += [PlacedText(20, 20, f"Part {number}", REGULAR, 9, 3),
                      PlacedLink(Rect(20, 10, 90, 22), "#there", "there", 3)]
        for line in range(LINES):
            elements.append(Element(len(elements) + 1, "P", 1))
            items.append(PlacedText(20, 30 + line, f"{number}.{page}.{line}", REGULAR, 1, len(elements)))
        items.append(PlacedText(20, 195, "foot", REGULAR, 5, Artifact.FOOTER))
        pages.append(Frame(100, 200, tuple(items), str(2 * number + page + 1)))
    elements.append(Element(len(elements) + 1, "P", 1))
    return Part(tuple(pages), tuple(elements))


def painted(ahead: Prospect = AHEAD, count: int = 3) -> PdfReader:
    return PdfReader(io.BytesIO(paint_parts(ahead, map(part, range(count)), FONTS)), strict=True)


def leaves(element: Any) -> Iterator[tuple[Any, int]]:
    """Page and MCID of all marked content under an element, in reading order."""
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        thing = kid.get_object()
        if isinstance(thing, int):
            yield element.raw_get("/Pg").idnum, thing
        elif "/S" in thing:
            assert thing.raw_get("/P") == element.indirect_reference
            yield from leaves(thing)


def test_every_mark_leads_to_its_element_and_back() -> None:
    """ISO 32000-1, 14.7.4.4: from the ParentTree by the page's StructParents and the mark's number."""
    reader = painted()
    root = reader.trailer["/Root"]["/StructTreeRoot"]
    nums = root["/ParentTree"]["/Nums"]
    parents = dict(zip(nums[::2], nums[1::2], strict=True))
    found = list(leaves(root["/K"]))
    assert len(found) == 3 * (2 * LINES + 1)
    for page in reader.pages:
        owners = parents[page["/StructParents"]].get_object()
        mine = [number for where, number in found if where == page.indirect_reference.idnum]
        assert mine == list(range(len(owners)))
        assert all(owner.get_object().raw_get("/Pg") == page.indirect_reference for owner in owners)
    links = [note for page in reader.pages for note in page.get("/Annots", [])]
    assert len(links) == 3 and root["/ParentTreeNextKey"] == len(reader.pages) + 3
    for link in links:
        element = parents[link.get_object()["/StructParent"]].get_object()
        assert element["/S"] == "/Link" and element["/K"][-1]["/Obj"] == link.get_object()
        assert link.get_object()["/Dest"][0] == reader.pages[3].indirect_reference


def test_the_words_come_in_their_order() -> None:
    texts = [page.extract_text().split("\n") for page in painted().pages]
    assert texts[2][0] == "Part 1" and f"2.1.{LINES - 1}" in texts[5][-2]
    assert [reader.title for reader in painted().outline] == ["There"]


@pytest.mark.parametrize(("ahead", "fault"), [
    (replace(AHEAD, pages=7), ValueError),
    (replace(AHEAD, elements=AHEAD.elements + 1), ValueError),
    (replace(AHEAD, places={}), LinkError),
])
def test_what_was_announced_and_did_not_come_is_told(ahead: Prospect, fault: type[ValueError]) -> None:
    with pytest.raises(fault):
        painted(ahead)


def test_an_item_of_no_element_is_told() -> None:
    stray = Part((Frame(9, 9, (PlacedText(1, 1, "a", REGULAR, 1, 8),)),), (Element(1, "P", None),))
    with pytest.raises(StructureError):
        paint_parts(replace(AHEAD, pages=1, elements=1, outline=()), [stray], FONTS)
