"""Packed pages come back as they were, as far as a painter can see; whatever else is told."""
from __future__ import annotations

import zlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.page.frame import Artifact, Element, Frame, PlacedShape, PlacedText
from notation.page.packed import PackError, pack, unpack
from notation.page.path import Close, Curve, Line, Move, Path
from notation.plane import Point

P = Point
SHAPE = Path((Move(P(0.0, 1.5)), Line(P(2.0, 1.0)), Curve(P(1.0, 1.0), P(2.0, 2.0), P(3.25, 4.0)), Close()))
PAGES = (
    Frame(420.0, 595.5, (
        PlacedText(10.25, 20.0, "LF fwd \u215c", "SourceSans3-Regular", 8.5, 1, (0.0, -12.5), 0.32),
        PlacedText(10.0, 20.0, "page 1", "SourceSans3-Bold", 8.0, Artifact.FOOTER, turned=True),
        PlacedShape(SHAPE, Artifact.LAYOUT, fill=0.0, dx=3.5, dy=4.0),
        PlacedShape(SHAPE, 2, stroke=0.5, line_width=0.4, dash=(1.0, 0.5)),
    )),
    Frame(420.0, 595.5, ()),
)  # fmt: skip
ELEMENTS = (Element(1, "H1", None), Element(2, "Figure", 1, "a foot"), Element(3, "TH", 1, scope="Row", columns=2))


def test_pages_come_back() -> None:
    assert unpack(pack(PAGES, ELEMENTS)) == (PAGES, ELEMENTS)


def test_a_path_that_is_shared_stays_shared() -> None:
    (first, _), _ = unpack(pack(PAGES, ()))
    one, two = (item for item in first.items if isinstance(item, PlacedShape))
    assert one.path is two.path


@pytest.mark.parametrize("data", [
    b"", b"nothing", zlib.compress(b"{}"), zlib.compress(b"[1]"), pack(PAGES, ELEMENTS)[:-9],
    zlib.compress(b'{"faces": [], "paths": [], "pages": [[1, 1, [[1]]]], "elements": []}'),
    zlib.compress(b'{"faces": ["a"], "paths": [[["Q", 1]]], "pages": [], "elements": []}'),
    zlib.compress(b"[" * 5000),
])
def test_anything_else_is_refused(data: bytes) -> None:
    with pytest.raises(PackError):
        unpack(data)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 500), st.integers(0, 255))
def test_a_changed_byte_is_refused_or_harmless(place: int, value: int) -> None:
    data = bytearray(pack(PAGES, ELEMENTS))
    data[place % len(data)] = value
    try:
        pages, _ = unpack(bytes(data))
    except PackError:
        return
    assert all(isinstance(page, Frame) for page in pages)
