"""Bounds of what is no dance file: pictures, templates, PDFs, folders of figures. Each is met in its own words."""
from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path

import pytest
from invoking import HEAD, run, said
from PIL import Image

from notation import bounds
from notation.dance.figure import Unusable
from notation.page.fault import LayoutError
from notation.page.imposition import booklet_order
from notation.page.png import paint_png
from notation.page.raster import PictureError, read_picture
from notation.page.recover import RecoverError, TimedBytes
from notation.reading.book import read_book
from notation.reading.figures import figures_beside
from notation.sheet.templates import TemplateFault, fill


def lowered(name: str, most: int, monkeypatch: pytest.MonkeyPatch) -> str:
    """The words of the bound after it is set to so much."""
    bound = replace(getattr(bounds, name), most=most)
    monkeypatch.setattr(bounds, name, bound)
    return re.escape(bound.words)


def picture() -> bytes:
    out = io.BytesIO()
    Image.new("L", (20, 10)).save(out, "PNG")
    return out.getvalue()


def test_pixels_of_a_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    assert read_picture(picture()).width == 20
    with pytest.raises(PictureError, match=lowered("PICTURE_PIXELS", 199, monkeypatch)):
        read_picture(picture())


def test_pixels_of_a_page(monkeypatch: pytest.MonkeyPatch) -> None:
    from pypdf import PdfWriter

    writer, out = PdfWriter(), io.BytesIO()
    writer.add_blank_page(72, 72)
    writer.write(out)
    assert paint_png(out.getvalue(), dpi=10)
    with pytest.raises(ValueError, match=lowered("PAGE_PIXELS", 99, monkeypatch)):
        paint_png(out.getvalue(), dpi=10)


@pytest.mark.parametrize(("name", "template"), [
    ("TEMPLATE", "{{ title }}" + " " * bounds.TEMPLATE.most),
    ("TEMPLATE", "{% for i in range(1000) %}{{ title }}{% endfor %}"),
    ("LOOP", "{% for i in range(1001) %}x{% endfor %}"),
])
def test_templates(name: str, template: str) -> None:
    with pytest.raises(TemplateFault, match=re.escape(getattr(bounds, name).words)):
        fill(template, {"title": "A dance"})


def test_pages_of_a_booklet() -> None:
    assert booklet_order(bounds.IMPOSED_PAGES.most).sides
    with pytest.raises(LayoutError, match=re.escape(bounds.IMPOSED_PAGES.words)):
        booklet_order(bounds.IMPOSED_PAGES.most + 1)


@pytest.mark.parametrize("bound", [bounds.PDF_SECONDS, bounds.IMPOSED_SECONDS])
def test_seconds_of_reading_a_pdf(bound: bounds.Bound) -> None:
    assert TimedBytes(b"%PDF", 60.0, bound).read() == b"%PDF"
    with pytest.raises(RecoverError, match=re.escape(bound.words)):
        TimedBytes(b"%PDF", -1.0, bound).read()


def test_files_in_a_folder_of_figures(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "figures").mkdir()
    for number in range(3):
        (tmp_path / "figures" / f"{number}.yaml").write_text(f"name: figure {number}\n")
    assert "figure 1" in figures_beside(tmp_path).names()
    with pytest.raises(Unusable, match=lowered("FIGURE_FILES", 2, monkeypatch)):
        figures_beside(tmp_path).names()


def test_no_link_leads_out_of_a_folder_of_figures(tmp_path: Path) -> None:
    """A dance's figures are read from beside it and below; a link to elsewhere and a pipe are passed over."""
    import os

    (tmp_path / "elsewhere.yaml").write_text("name: far figure\n")
    beside = tmp_path / "dances" / "figures"
    beside.mkdir(parents=True)
    (beside / "near.yaml").write_text("name: near figure\n")
    (beside / "far.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    os.mkfifo(beside / "pipe.yaml")
    names = figures_beside(tmp_path / "dances").names()
    assert "near figure" in names and "far figure" not in names


@pytest.mark.parametrize(("name", "line"), [("NOTES_PAGES", "notes pages"), ("FILL", "fill")])
def test_numbers_of_a_book(name: str, line: str) -> None:
    bound = getattr(bounds, name)
    book = "format: 1\ntitle: T\ndances: [a.yaml]\n"
    assert not read_book(f"{book}{line}: {bound.most}\n".encode(), "b.yaml").findings
    findings = read_book(f"{book}{line}: {bound.most + 1}\n".encode(), "b.yaml").findings
    assert [finding.message for finding in findings] == [f"'{line}' is {bound.most + 1}: {bound.words}"]


def booked(folder: Path, more: str = "") -> str:
    """What is said where a book of the dances in a folder is set."""
    book = folder / "b.yml"
    book.write_text(f"format: 1\ntitle: T\ndances: ['*.yaml']\n{more}")
    result = run("booklet", book, "-o", folder / "b.pdf")
    assert result.exit_code == 2 and not (folder / "b.pdf").exists(), said(result)
    return said(result)


def test_dances_of_a_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in "ab":
        (tmp_path / f"{name}.yaml").write_text(HEAD)
    monkeypatch.setattr("notation.cli.bookfiles.BOOK_DANCES", replace(bounds.BOOK_DANCES, most=1))
    assert "more than 1 dances in one book" in booked(tmp_path)


def test_bytes_of_the_picture_of_a_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.yaml").write_text(HEAD)
    (tmp_path / "p.png").write_bytes(picture())
    monkeypatch.setattr("notation.cli.bookfiles.PICTURE_BYTES", replace(bounds.PICTURE_BYTES, most=9))
    assert "the picture is larger than 9 bytes" in booked(tmp_path, "picture: p.png\n")
