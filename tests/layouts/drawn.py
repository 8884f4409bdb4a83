"""Reference pictures of the layouts: how they are drawn, and how they are made anew.

    python tests/layouts/drawn.py        # after looking at what has changed, with every page open beside the old one

The pages of one dance that calls no figure of the library, at 40 dots an inch and in grey, two papers of each layout.
"""
from __future__ import annotations

import io
from functools import cache
from pathlib import Path

from PIL import Image

from notation.cli.setting import Order, faces
from notation.dance.work import work_out
from notation.installed import data_folder
from notation.page.frame import Document
from notation.page.pdf import paint_pdf
from notation.page.png import paint_png
from notation.page.units import paper
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import layout_names, load_layout
from notation.sheet import diagrams_of, set_sheet

HERE = Path(__file__).parent
DANCES = {"short": HERE / "short.yaml", "awkward": HERE / "awkward.yaml",
          "long": HERE.parents[1] / "examples" / "harbour-bell-waltz.yaml"}
PICTURED = "awkward"
PAPERS = ("A4", "A5")
DPI = 40.0


@cache
def set_dance(name: str, layout: str, on: str) -> Document:
    """A dance of DANCES as the command `sheet` sets it."""
    knowledge, chosen = load_knowledge(), load_layout(layout)
    reading = read_dance(DANCES[name].read_bytes(), name, knowledge)
    assert reading.dance is not None, reading.findings
    worked = work_out(reading.dance, knowledge)
    order = Order(chosen, paper(on), "pdf", False)
    drawn = diagrams_of(worked, knowledge, chosen)
    return set_sheet(worked, knowledge, chosen, order.paper, faces(), None, drawn)


def picture(document: Document, page: int) -> Image.Image:
    data = paint_png(paint_pdf(document, data_folder("fonts")), page, DPI)
    return Image.open(io.BytesIO(data)).convert("L")


def reference(layout: str, on: str) -> Path:
    return HERE / "reference" / f"{layout}-{on}.png"


def side_by_side(document: Document) -> Image.Image:
    """The first page and the last, so that heading, table and key are all there."""
    numbers = sorted({0, len(document.pages) - 1})
    pages = [picture(document, number) for number in numbers]
    whole = Image.new("L", (sum(page.width for page in pages), max(page.height for page in pages)), 255)
    x = 0
    for page in pages:
        whole.paste(page, (x, 0))
        x += page.width
    return whole


if __name__ == "__main__":
    for layout in layout_names():
        for on in PAPERS:
            made = side_by_side(set_dance(PICTURED, layout, on)).quantize(16)
            made.save(reference(layout, on), optimize=True)
