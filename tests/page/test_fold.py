"""Folded cards: which page lies where when the sheet is folded, and that nothing of a page is lost on the way."""
from __future__ import annotations

import io
import subprocess
from pathlib import Path as File

from pypdf import PdfReader
from sample_sheet import FONTS, REGULAR

from notation.page.fold import folded, panel_paper
from notation.page.frame import (
    Anchor,
    Attachment,
    Document,
    Element,
    Frame,
    Metadata,
    PlacedLink,
    PlacedShape,
    PlacedText,
)
from notation.page.path import Path
from notation.page.pdf import paint_pdf
from notation.page.svg import paint_svg
from notation.page.units import paper
from notation.plane import Point, Rect

A4 = paper("A4")
PANEL = panel_paper(A4, 4)


def pages(count: int) -> Document:
    elements = tuple(Element(k, "P", None) for k in range(1, count + 1))
    frames = tuple(
        Frame(PANEL.width, PANEL.height, (
            PlacedText(30, 40, f"page{k}", REGULAR, 12, k),
            PlacedShape(Path.line(Point(0, 0), Point(10, 0)), k, stroke=0.0, dx=50, dy=60),
            Anchor(f"a{k}", Point(30, 40)),
        ))
        for k in range(1, count + 1)
    )
    return Document(frames, Metadata("Card"), elements, attachments=(Attachment("d.yaml", b"title: Card\n"),))


def panel_of(text: PlacedText) -> tuple[str, str]:
    return ("left" if text.x < A4.width / 2 else "right", "upper" if text.y < A4.height / 2 else "lower")


def test_panels_lie_right_when_the_sheet_is_folded() -> None:
    """The upper half is folded back, then the left half back. Worked by hand with a sheet of paper: the lower right
    panel is the front, the lower left one the back; behind the front lies the upper right one, on its head on the flat
    sheet, and the upper left one faces it."""
    sheet, = folded(pages(4), A4, 4).pages
    found = {t.text: (*panel_of(t), t.turned) for t in sheet.items if isinstance(t, PlacedText)}
    assert found == {
        "page1": ("right", "lower", False), "page2": ("right", "upper", True), "page3": ("left", "upper", True),
        "page4": ("left", "lower", False)}


def test_a_turned_panel_is_the_page_turned_half_round() -> None:
    sheet, = folded(pages(2), A4, 4).pages
    two = next(t for t in sheet.items if isinstance(t, PlacedText) and t.text == "page2")
    assert (round(two.x, 3), round(two.y, 3)) == (round(A4.width - 30, 3), round(PANEL.height - 40, 3))
    shape = [s for s in sheet.items if isinstance(s, PlacedShape) and isinstance(s.tag, int)][1]
    assert shape.bounds == Rect(A4.width - 60, PANEL.height - 60, A4.width - 50, PANEL.height - 60)


def test_words_stand_on_their_heads_where_poppler_reads_them(tmp_path: File) -> None:
    file = tmp_path / "card.pdf"
    file.write_bytes(paint_pdf(folded(pages(4), A4, 4), FONTS))
    raw = subprocess.run(["pdftotext", "-raw", str(file), "-"], capture_output=True, text=True, check=True).stdout
    assert raw.split() == ["page1", "page2", "page3", "page4"]
    boxes = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    line = next(line for line in boxes.splitlines() if "page2" in line)
    right = float(line.split('xMax="')[1].split('"')[0])
    assert abs(right - (A4.width - 30)) < 0.1


def test_more_pages_than_panels_take_another_card_and_keep_tags_and_source() -> None:
    card = folded(pages(6), A4, 4)
    assert len(card.pages) == 2 and card.elements == pages(6).elements
    reader = PdfReader(io.BytesIO(paint_pdf(card, FONTS)))
    assert reader.attachments["d.yaml"] == [b"title: Card\n"]
    assert "/StructTreeRoot" in reader.trailer["/Root"]  # type: ignore[operator]


def test_folds_are_marked_and_pictures_drawn() -> None:
    sheet, = folded(pages(1), A4, 4).pages
    folds = [s.bounds for s in sheet.items if isinstance(s, PlacedShape) and not isinstance(s.tag, int)]
    assert folds == [Rect(A4.width / 2, 0, A4.width / 2, A4.height), Rect(0, A4.height / 2, A4.width, A4.height / 2)]
    turned, = folded(pages(2), A4, 4).pages
    assert "scale(-" in paint_svg(turned, FONTS, "Card")


def test_links_go_with_their_panel() -> None:
    link = PlacedLink(Rect(10, 20, 30, 40), "#a", "a", 1)
    frames = (Frame(PANEL.width, PANEL.height, ()), Frame(PANEL.width, PANEL.height, (link,)))
    moved = [i for i in folded(Document(frames, Metadata("C")), A4, 4).pages[0].items if isinstance(i, PlacedLink)]
    assert moved[0].box == Rect(A4.width - 30, PANEL.height - 40, A4.width - 10, PANEL.height - 20)
