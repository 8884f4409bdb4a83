"""A Frame as an SVG picture for a page that has the faces itself: letters stay text, a third of the size of outlines.

Whoever shows it serves the files of the faces under their names, with the face's own kerning and no ligatures, as the
words were measured. `STYLE` says so.
"""
from __future__ import annotations

from collections.abc import Callable, Iterator
from html import escape

from notation.page.fonts import Faces
from notation.page.frame import Anchor, Frame, Item, PlacedLink, PlacedPicture, PlacedShape, PlacedText
from notation.page.operators import number
from notation.page.path import Path
from notation.page.svg import grey, outline_data, picture, shape

STYLE = (
    "text{font-kerning:normal;font-variant-ligatures:none;font-feature-settings:'kern','liga' 0,'clig' 0,'calt' 0;"
    "text-rendering:geometricPrecision;white-space:pre}"
)
LEAST_SHIFT = 2.0  # thousandths of the size: less is not to be seen


def paint_text_svg(frame: Frame, faces: Faces) -> str:
    """The page as an SVG element, one unit a point. It says nothing to those who do not see it: name it where it
    stands. Links lead nowhere."""
    outlines: dict[int, str] = {}

    def data(path: Path) -> str:
        """Shapes that share a path share its syntax."""
        return outlines.get(id(path)) or outlines.setdefault(id(path), outline_data(path))

    body = "".join(_draw(item, faces, data) for item in frame.items)
    box = f"0 0 {number(frame.width)} {number(frame.height)}"
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" stroke-linejoin="round">{body}</svg>'


def _draw(item: Item, faces: Faces, data: Callable[[Path], str]) -> str:
    match item:
        case PlacedText():
            return _text(item, faces)
        case PlacedShape():
            return shape(item, data)
        case PlacedPicture():
            return picture(item)
        case PlacedLink() | Anchor():
            return ""


def _text(item: PlacedText, faces: Faces) -> str:
    if item.text.isspace():
        return ""
    ink = f' fill="{grey(item.ink)}"' if item.ink else ""
    x, y = number(item.x), number(item.y)
    place = f'transform="translate({x} {y}) rotate(180)"' if item.turned else f'x="{x}" y="{y}"'
    begins = 0.0 if item.turned else item.x
    words = "".join(
        f'<tspan x="{number(begins + along * item.size / 1000)}">{text}</tspan>' if along else text
        for along, text in _stretches(faces, item.face, item.text, item.adjust)
    )
    return f'<text {place} font-family="{item.face}" font-size="{number(item.size)}"{ink}>{words}</text>'


def _stretches(faces: Faces, name: str, text: str, adjust: tuple[float, ...]) -> tuple[tuple[float, str], ...]:
    key = ("stretches", name, text, adjust)
    found: tuple[tuple[float, str], ...] | None = faces.memory.get(key)
    if found is None:
        found = tuple(_parted(faces, name, text, adjust))
        faces.remember(key, found)
    return found


def _parted(faces: Faces, name: str, text: str, adjust: tuple[float, ...]) -> Iterator[tuple[float, str]]:
    """The text in stretches whose letters follow each other by the face's own kerning: where each begins, in
    thousandths of the size, and its letters, escaped."""
    face = faces.face(name)
    start, begins, along = 0, 0.0, 0.0
    for at, one in enumerate(text):
        given = adjust[at] if at < len(adjust) else 0.0
        own = face.kern(one, text[at + 1]) if at + 1 < len(text) else 0.0
        along += face.advances[one] + given
        if abs(given - own) > LEAST_SHIFT and at + 1 < len(text):
            yield begins, escape(text[start : at + 1])
            start, begins = at + 1, along
    yield begins, escape(text[start:])
