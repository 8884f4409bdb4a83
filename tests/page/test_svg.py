"""The SVG painter against the PDF painter: resvg draws the one, PDFium the other, the eye should see one page."""
from __future__ import annotations

import io
from xml.etree import ElementTree

import pytest
from PIL import Image, ImageChops, ImageFilter
from sample_sheet import FONTS, REGULAR, sample

from notation.page.frame import Artifact, Document, Frame, Item, Metadata, PlacedLink, PlacedPicture, PlacedText
from notation.page.pdf import paint_pdf
from notation.page.png import paint_png
from notation.page.svg import paint_svg
from notation.plane import Rect

SVG = "{http://www.w3.org/2000/svg}"


def drawn(svg: str) -> Image.Image:
    resvg = pytest.importorskip("resvg_py", reason="resvg-py is not installed")
    data = resvg.svg_to_bytes(svg_string=svg, background="#ffffff", skip_system_fonts=True, dpi=72, width=1191)
    return Image.open(io.BytesIO(bytes(data))).convert("L")


def difference(one: Image.Image, other: Image.Image) -> tuple[float, int]:
    """Mean and greatest difference of two pages, slightly blurred so that the edges' smoothing does not count."""
    soft = [picture.resize((1191, 1684)).filter(ImageFilter.GaussianBlur(2)) for picture in (one, other)]
    steps = ImageChops.difference(*soft).histogram()
    mean = sum(n * count for n, count in enumerate(steps)) / sum(steps)
    return mean, max(n for n, count in enumerate(steps) if count)


def printed(document: Document) -> Image.Image:
    return Image.open(io.BytesIO(paint_png(paint_pdf(document, FONTS), 0, 144))).convert("L")


def test_same_page_as_the_pdf() -> None:
    """Blank paper differs by a mean of 5.5 grey levels, the two painters by 0.5 (smoothing, hairlines)."""
    document = sample()
    mean, greatest = difference(drawn(paint_svg(document.pages[0], FONTS)), printed(document))
    assert mean < 0.8 and greatest < 60
    assert difference(Image.new("L", (1191, 1684), 255), printed(document))[0] > 4


def test_kerning_shows() -> None:
    def line(adjust: tuple[float, ...]) -> Document:
        word = PlacedText(40, 300, "AVAVAVAVAV", REGULAR, 60, Artifact.LAYOUT, adjust)
        return Document((Frame(595, 842, (word,)),), Metadata("T"), tagged=False)

    tight, loose = line((-90.0,) * 10), line(())
    assert difference(drawn(paint_svg(tight.pages[0], FONTS)), printed(tight))[0] < 0.5
    assert difference(drawn(paint_svg(tight.pages[0], FONTS)), printed(loose))[0] > 1.0


def parsed(*items: Item) -> ElementTree.Element:
    return ElementTree.fromstring(paint_svg(Frame(100, 100, items), FONTS, "A & B", None))


def test_it_says_what_it_shows() -> None:
    words = (PlacedText(9, 20, "LF <fwd>", REGULAR, 9, 0), PlacedText(50, 20, "RF", REGULAR, 9, 0))
    page = parsed(*words, PlacedText(9, 40, "2 &", REGULAR, 9, 0))
    assert page.attrib["role"] == "img"
    assert page.findtext(f"{SVG}title") == "A & B"
    assert page.findtext(f"{SVG}desc") == "LF <fwd> RF / 2 &"


def test_it_needs_nothing_from_outside() -> None:
    out = io.BytesIO()
    Image.new("RGB", (2, 2)).save(out, "PNG")
    page = parsed(PlacedText(9, 20, "ab", REGULAR, 9, 0), PlacedPicture(Rect(0, 0, 9, 9), out.getvalue(), 0))
    targets = [element.attrib["href"] for element in page.iter() if "href" in element.attrib]
    assert len(targets) == 3 and all(target.startswith(("#", "data:image/png;base64,")) for target in targets)
    assert not list(page.iter(f"{SVG}text"))


@pytest.mark.parametrize(("target", "kept"), [("https://example.org/?a&b", True), ("javascript:alert(1)", False)])
def test_links_that_run_code_are_left_out(target: str, kept: bool) -> None:
    page = parsed(PlacedLink(Rect(0, 0, 9, 9), target, 'to "it"', 0))
    assert [link.attrib["href"] for link in page.iter(f"{SVG}a")] == [target] * kept


def test_a_missing_character_is_an_error() -> None:
    with pytest.raises(ValueError, match=r"U\+0E01"):
        parsed(PlacedText(9, 20, "\u0e01", REGULAR, 9, 0))


def test_no_such_page_and_too_large() -> None:
    pdf = paint_pdf(sample(), FONTS)
    for data, page, dpi in ((pdf, 2, 110.0), (pdf, 0, 3000.0), (b"no", 0, 110.0)):
        with pytest.raises(ValueError):
            paint_png(data, page, dpi)
