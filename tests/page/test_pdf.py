"""The PDF painter, read back by PDFium, pypdf and fontTools, which share no code with it."""
from __future__ import annotations

import ctypes
import io
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path as File
from typing import Any

import pypdfium2
import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]
from PIL import Image
from pypdf import PdfReader
from sample_sheet import FONTS, HEIGHT, REGULAR, SOURCE, sample

from notation.page.frame import (
    Anchor,
    Artifact,
    Document,
    Frame,
    Item,
    Metadata,
    OutlineEntry,
    PlacedLink,
    PlacedPicture,
    PlacedShape,
    PlacedText,
)
from notation.page.path import Path
from notation.page.pdf import LinkError, label_ranges, paint_pdf
from notation.page.png import paint_png
from notation.page.raster import PictureError
from notation.page.typefaces import FaceError
from notation.plane import Point, Rect


def page(*items: Item, **more: object) -> Document:
    """One untagged page of 200 by 100 points."""
    return Document((Frame(200, 100, items),), Metadata("T"), tagged=False, **more)  # type: ignore[arg-type]


def text(words: str, adjust: tuple[float, ...] = (), face: str = REGULAR, **more: float) -> PlacedText:
    return PlacedText(20, 40, words, face, 10, Artifact.LAYOUT, adjust, **more)


def origins(pdf: bytes) -> list[tuple[str, float, float]]:
    """Character, x and y of its origin (points from the lower left) as PDFium places it."""
    reader = pypdfium2.PdfDocument(pdf)
    words = reader[0].get_textpage()
    found = []
    for index in range(words.count_chars()):
        x, y = ctypes.c_double(), ctypes.c_double()
        pypdfium2.raw.FPDFText_GetCharOrigin(words.raw, index, x, y)
        found.append((chr(pypdfium2.raw.FPDFText_GetUnicode(words.raw, index)), x.value, y.value))
    return found


def advance(character: str) -> float:
    """Thousandths of the size, from the font file."""
    font = TTFont(FONTS / f"{REGULAR}.ttf")
    return float(font["hmtx"][font.getBestCmap()[ord(character)]][0])


def pixels(document: Document) -> Image.Image:
    return Image.open(io.BytesIO(paint_png(paint_pdf(document, FONTS), dpi=72))).convert("RGB")


def test_text_stands_where_it_was_placed() -> None:
    assert origins(paint_pdf(page(text("LF fwd")), FONTS))[0] == ("L", 20.0, 60.0)


@pytest.mark.parametrize("adjust", [(), (-80.0, 0.0, 0.0), (-80.0, 35.5, 0.0)])
def test_kerning_moves_the_next_character(adjust: tuple[float, ...]) -> None:
    """ISO 32000-1, 9.4.4: a glyph moves the pen by (w0 - Tj / 1000) times the size."""
    places = [x for _, x, _ in origins(paint_pdf(page(text("AVE", adjust)), FONTS))]
    spaces = adjust or (0.0, 0.0, 0.0)
    second = 20 + (advance("A") + spaces[0]) / 100
    assert places == pytest.approx([20, second, second + (advance("V") + spaces[1]) / 100], abs=0.02)


def test_more_characters_than_one_subset_holds() -> None:
    """A simple font has 256 codes (ISO 32000-1, 9.6.1); kerning goes on over the seam."""
    known = sorted(TTFont(FONTS / f"{REGULAR}.ttf").getBestCmap())
    words = "".join(chr(code) for code in known if 0xC0 <= code < 0x250)
    assert len(words) > 256
    lines = [PlacedText(5, 20 + 10 * n, words[n * 40 : n * 40 + 40], REGULAR, 4, Artifact.LAYOUT) for n in range(12)]
    found = "".join(character for character, _, _ in origins(paint_pdf(page(*lines), FONTS)) if character > " ")
    assert found == words


def test_letters_beyond_the_basic_plane_can_be_copied() -> None:
    pdf = paint_pdf(page(text("\U0001d538 x", face="DejaVuSans")), FONTS)
    assert PdfReader(io.BytesIO(pdf)).pages[0].extract_text() == "\U0001d538 x"


def test_brackets_backslashes_and_no_break_spaces() -> None:
    pdf = paint_pdf(page(text("(a\\b) 1\u00a02")), FONTS)
    assert PdfReader(io.BytesIO(pdf)).pages[0].extract_text() == "(a\\b) 1 2"


@pytest.mark.parametrize("words", ["a\u0e01", "a\nb", "a\tb"])
def test_a_missing_character_is_an_error(words: str) -> None:
    with pytest.raises(FaceError, match=r"has no U\+"):
        paint_pdf(page(text(words)), FONTS)


@pytest.mark.parametrize("face", ["Nowhere", "../fonts/SourceSans3-Regular", ""])
def test_an_unknown_face_is_an_error(face: str) -> None:
    with pytest.raises(FaceError, match="no face"):
        paint_pdf(page(text("a", face=face)), FONTS)


def test_a_file_that_is_no_font(tmp_path: File) -> None:
    (tmp_path / "Bad.ttf").write_bytes(b"\x00\x01\x00\x00" + bytes(40))
    with pytest.raises(FaceError, match="no static TrueType font"):
        paint_pdf(page(text("a", face="Bad")), tmp_path)


def test_all_fonts_in_the_file_are_embedded_subsets() -> None:
    """Not one of the fourteen standard fonts, which every PDF library puts in by itself, is left in any object."""
    reader = PdfReader(io.BytesIO(paint_pdf(sample(), FONTS)))
    size: Any = reader.trailer["/Size"]
    things: list[Any] = [reader.get_object(number) for number in range(1, size)]
    fonts = [thing for thing in things if isinstance(thing, dict) and thing.get("/Type") == "/Font"]
    weights = ("Regular", "SemiBold", "Bold")
    assert {font["/BaseFont"] for font in fonts} == {f"/AAAAAA+SourceSans3-{weight}" for weight in weights}
    for font in fonts:
        assert font["/FontDescriptor"]["/FontFile2"].get_data()[:4] == b"\x00\x01\x00\x00"


def test_ink_of_fills_and_strokes() -> None:
    """Grey 0.5 is 127 or 128 of 255 on screen."""
    square = Path.polygon(Point(20, 20), Point(60, 20), Point(60, 60), Point(20, 60))
    line = Path.line(Point(100, 50), Point(180, 50))
    picture = pixels(
        page(
            PlacedShape(square, Artifact.LAYOUT, fill=0.5),
            PlacedShape(line, Artifact.LAYOUT, stroke=0.0, line_width=10, dash=(20, 20)),
        )
    )
    assert picture.getpixel((40, 40)) in {(127,) * 3, (128,) * 3}
    assert [picture.getpixel((x, 50)) for x in (110, 130, 150)] == [(0, 0, 0), (255, 255, 255), (0, 0, 0)]
    assert picture.getpixel((10, 10)) == picture.getpixel((150, 70)) == (255, 255, 255)


def picture_bytes(kind: str, mode: str, colour: object) -> bytes:
    out = io.BytesIO()
    Image.new(mode, (8, 8), colour).save(out, kind)  # type: ignore[arg-type]
    return out.getvalue()


@pytest.mark.parametrize(
    ("kind", "mode", "colour", "seen"),
    [
        ("PNG", "RGB", (200, 30, 30), (200, 30, 30)),
        ("PNG", "RGBA", (0, 0, 0, 0), (255, 255, 255)),
        ("PNG", "L", 90, (90, 90, 90)),
        ("PNG", "1", 0, (0, 0, 0)),
        ("JPEG", "RGB", (200, 30, 30), (200, 30, 30)),
        ("JPEG", "L", 90, (90, 90, 90)),
    ],
)
def test_pictures(kind: str, mode: str, colour: object, seen: tuple[int, ...]) -> None:
    data = picture_bytes(kind, mode, colour)
    found = pixels(page(PlacedPicture(Rect(20, 20, 60, 60), data, Artifact.LAYOUT))).getpixel((40, 40))
    assert found == pytest.approx(seen, abs=3)


@pytest.mark.parametrize("data", [b"", b"GIF89a", b"\x89PNG\r\n\x1a\n", picture_bytes("PNG", "L", 0)[:45]])
def test_what_is_no_picture(data: bytes) -> None:
    with pytest.raises(PictureError):
        paint_pdf(page(PlacedPicture(Rect(0, 0, 9, 9), data, Artifact.LAYOUT)), FONTS)


def test_outline_labels_links_and_particulars() -> None:
    reader = PdfReader(io.BytesIO(paint_pdf(sample(), FONTS)))
    outline: Any = reader.outline
    top, inner = outline
    assert (top.title, [entry.title for entry in inner]) == ("Harbour Lights Saunter", ["Figure A", "Figure B"])
    assert [reader.get_destination_page_number(entry) for entry in inner] == [0, 1]
    assert reader.page_labels == ["1", "2"]
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Harbour Lights Saunter", "A. Example")
    web, inside = (entry.get_object() for entry in reader.pages[0]["/Annots"])  # type: ignore[attr-defined]
    assert web["/A"]["/URI"] == "https://example.org/dances"
    assert inside["/Dest"][0] == reader.pages[1].indirect_reference
    assert [float(x) for x in web["/Rect"]] == pytest.approx([150, HEIGHT - 115, 232, HEIGHT - 103], abs=0.01)


def test_outline_entries_may_share_a_place_and_skip_levels() -> None:
    entries = (OutlineEntry("One", 0, "a"), OutlineEntry("Deep", 2, "a"), OutlineEntry("Two", 0, "a"))
    reader = PdfReader(io.BytesIO(paint_pdf(page(Anchor("a", Point(0, 0)), outline=entries), FONTS)))
    outline: Any = reader.outline
    one, deep, two = outline
    assert [one.title, deep[0].title, two.title] == ["One", "Deep", "Two"]


def test_page_labels_of_a_book() -> None:
    """Read back by pypdf, which follows ISO 32000-1, 12.4.2."""
    labels = ["cover", "i", "1", "2", "3", "", "7"]
    frames = tuple(Frame(50, 50, (), label) for label in labels)
    reader = PdfReader(io.BytesIO(paint_pdf(Document(frames, Metadata("T"), tagged=False), FONTS)))
    assert reader.page_labels == labels
    assert label_ranges(["1", "2", "4"]) == [(0, "", 1), (2, "", 4)]


def test_a_link_to_nowhere_is_an_error() -> None:
    with pytest.raises(LinkError, match="nowhere"):
        paint_pdf(page(PlacedLink(Rect(0, 0, 9, 9), "#nowhere", "x", Artifact.LAYOUT)), FONTS)


def test_no_pages_is_an_error() -> None:
    with pytest.raises(ValueError, match="without pages"):
        paint_pdf(Document((), Metadata("T"), tagged=False), FONTS)


def test_page_sizes_may_differ() -> None:
    frames = (Frame(200, 100, (text("a"),)), Frame(300, 500, ()))
    reader = PdfReader(io.BytesIO(paint_pdf(Document(frames, Metadata("T"), tagged=False), FONTS)))
    assert [[float(x) for x in p.mediabox] for p in reader.pages] == [[0, 0, 200, 100], [0, 0, 300, 500]]


def digest_elsewhere(tmp_path: File, **environment: str) -> str:
    code = (
        "import hashlib, sys; sys.path.insert(0, sys.argv[1]); from sample_sheet import FONTS, sample\n"
        "from notation.page.pdf import paint_pdf\n"
        "print(hashlib.sha256(paint_pdf(sample(written=None), FONTS)).hexdigest())"
    )
    here = str(File(__file__).parent)
    run = [sys.executable, "-c", code, here]
    done = subprocess.run(run, env={**os.environ, **environment}, cwd=tmp_path, capture_output=True, check=True)
    return done.stdout.decode()


def test_same_document_same_bytes(tmp_path: File) -> None:
    """Another process, hash seed, time zone, and a build date in the environment change nothing."""
    one = digest_elsewhere(tmp_path, PYTHONHASHSEED="1", TZ="Pacific/Auckland")
    other = digest_elsewhere(tmp_path, PYTHONHASHSEED="2", TZ="UTC", SOURCE_DATE_EPOCH="86400")
    assert one == other
    assert paint_pdf(sample(), FONTS) == paint_pdf(sample(), FONTS)


def test_another_source_another_identifier() -> None:
    first, document = paint_pdf(sample(), FONTS), sample()
    changed = replace(document, attachments=(replace(document.attachments[0], data=SOURCE + b"\n"),))
    readers = [PdfReader(io.BytesIO(pdf)) for pdf in (first, paint_pdf(changed, FONTS))]
    assert readers[0].trailer["/ID"] != readers[1].trailer["/ID"]
