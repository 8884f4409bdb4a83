"""Each layout on two papers against its reference picture.

A reference is drawn anew by `python tests/layouts/drawn.py`, and only after looking at what has changed.
"""
from __future__ import annotations

import pytest
from drawn import PAPERS, PICTURED, reference, set_dance, side_by_side
from PIL import Image, ImageChops, ImageFilter

from notation.reading.layout import layout_names

FAR = 32  # of 255, after a blur that takes away what different rasterisers make of edges
MOST_FAR = 0.006  # share of the pixels that may differ so much; a page moved down by a pixel differs by 0.04


def far(one: Image.Image, two: Image.Image) -> float:
    """The share of pixels that differ much."""
    blurred = [image.filter(ImageFilter.BoxBlur(1)) for image in (one, two)]
    counts = ImageChops.difference(*blurred).histogram()
    return sum(counts[FAR:]) / sum(counts)


@pytest.mark.parametrize("on", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_layout_looks_as_it_did(layout: str, on: str) -> None:
    made = side_by_side(set_dance(PICTURED, layout, on))
    kept = Image.open(reference(layout, on)).convert("L")
    assert made.size == kept.size
    assert far(made, kept) <= MOST_FAR


def test_the_tolerance_notices_a_line_that_moved() -> None:
    """A page against itself moved down by less than two points, and against another layout."""
    page = Image.open(reference("script", "A4")).convert("L")
    moved = ImageChops.offset(page, 0, 1)
    assert far(page, page) == 0 and far(page, moved) > MOST_FAR
    other = Image.open(reference("entry", "A4")).convert("L").resize(page.size)
    assert far(page, other) > MOST_FAR
