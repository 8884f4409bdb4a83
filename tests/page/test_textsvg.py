"""The picture of a page whose letters stay text: every word in its place, and nothing that a word could break."""
from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from sample_sheet import FONTS, REGULAR, sample

from notation.page.fonts import Faces
from notation.page.frame import Artifact, Frame, Item, PlacedLink, PlacedShape, PlacedText
from notation.page.svg import paint_svg
from notation.page.textsvg import paint_text_svg
from notation.plane import Rect

SVG = "{http://www.w3.org/2000/svg}"
FACES = Faces(FONTS)


def parsed(*items: Item) -> ElementTree.Element:
    return ElementTree.fromstring(paint_text_svg(Frame(100, 100, items), FACES))


def text(words: str, adjust: tuple[float, ...] = (), turned: bool = False) -> PlacedText:
    return PlacedText(10, 20, words, REGULAR, 10, Artifact.LAYOUT, adjust, 0.0, turned)


def test_every_word_and_every_shape_of_a_page_is_there() -> None:
    """Against the frame itself and the painter of outlines, which is held against the PDF."""
    page = sample().pages[0]
    root = ElementTree.fromstring(paint_text_svg(page, FACES))
    words = [item.text for item in page.items if isinstance(item, PlacedText) and not item.text.isspace()]
    assert ["".join(one.itertext()) for one in root.iter(f"{SVG}text")] == words
    shapes = sum(isinstance(item, PlacedShape) for item in page.items)
    assert len(root.findall(f"{SVG}path")) == shapes > 0
    assert root.get("viewBox") == ElementTree.fromstring(paint_svg(page, FONTS)).get("viewBox")


def test_markup_in_words_stays_words() -> None:
    nasty = "</text><script>&'\""
    root = parsed(text(nasty))
    assert ["".join(one.itertext()) for one in root] == [nasty]


def test_kerning_is_the_face_s_own_and_other_space_is_placed() -> None:
    """By the stored measures of the face: what it kerns by itself needs no place, a wider gap begins a new stretch."""
    face = FACES.face(REGULAR)
    own = face.kern("A", "V")
    assert own < 0
    assert not list(parsed(text("AV", (own, 0.0)))[0])
    (stretch,) = parsed(text("AV", (own + 100.0, 0.0)))[0]
    wide = 10 + 10 * (face.advances["A"] + own + 100.0) / 1000
    assert stretch.text == "V" and float(stretch.get("x", "")) == pytest.approx(wide, abs=0.006)


def test_words_upside_down_and_links() -> None:
    """A link is left out: the picture as a whole has a name, and what is inside cannot be reached."""
    turned, = parsed(text("fold", turned=True))
    assert re.fullmatch(r"translate\(10 20\) rotate\(180\)", turned.get("transform", ""))
    assert len(parsed(PlacedLink(Rect(0, 0, 5, 5), "#bar", "Bar", Artifact.LAYOUT))) == 0
