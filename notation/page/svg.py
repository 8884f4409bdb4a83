"""A Frame as an SVG picture that needs no fonts: letters are drawn as outlines, the words stand in its description."""
from __future__ import annotations

import base64
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from html import escape
from itertools import chain, repeat
from pathlib import Path

import uharfbuzz

from notation.page.frame import Anchor, Frame, Item, PlacedLink, PlacedPicture, PlacedShape, PlacedText
from notation.page.operators import number
from notation.page.path import Close, Curve, Line, Move
from notation.page.path import Path as Outline
from notation.plane import Rect

LINKS = ("http://", "https://", "mailto:", "#")


class _Face:
    """Outlines and widths of one face, from its file."""

    def __init__(self, path: Path) -> None:
        face = uharfbuzz.Face(uharfbuzz.Blob(path.read_bytes()))
        self.name = path.stem
        self.units = face.upem
        self.font = uharfbuzz.Font(face)

    def glyph(self, character: str) -> int:
        """ValueError: the face lacks the character."""
        glyph = self.font.get_nominal_glyph(ord(" " if character == "\u00a0" else character))
        if not glyph:
            raise ValueError(f"the face {self.name} has no U+{ord(character):04X} '{character}'")
        return int(glyph)

    def outline(self, glyph: int) -> str:
        """Path data in units of the em, y upwards."""
        drawn: list[str] = []
        pen = uharfbuzz.DrawFuncs()
        pen.set_move_to_func(lambda x, y, _: drawn.append(f"M{x:g} {y:g}"))
        pen.set_line_to_func(lambda x, y, _: drawn.append(f"L{x:g} {y:g}"))
        pen.set_quadratic_to_func(lambda a, b, x, y, _: drawn.append(f"Q{a:g} {b:g} {x:g} {y:g}"))
        pen.set_cubic_to_func(lambda a, b, c, d, x, y, _: drawn.append(f"C{a:g} {b:g} {c:g} {d:g} {x:g} {y:g}"))
        pen.set_close_path_func(lambda _: drawn.append("Z"))
        self.font.draw_glyph(glyph, pen)
        return "".join(drawn)


@lru_cache(maxsize=32)
def _face(path: Path) -> _Face:
    return _Face(path)


def grey(ink: float) -> str:
    """A grey ink, 0 black and 1 white, as a colour of SVG."""
    level = round(255 * ink)
    return f"#{level:02x}{level:02x}{level:02x}"


def outline_data(path: Outline) -> str:
    """A path in the syntax of SVG's attribute `d`."""
    return "".join(_segments(path))


def _segments(path: Outline) -> Iterator[str]:
    for segment in path.segments:
        match segment:
            case Move(to):
                yield f"M{number(to.x)} {number(to.y)}"
            case Line(to):
                yield f"L{number(to.x)} {number(to.y)}"
            case Curve(a, b, to):
                yield "C" + " ".join(number(value) for point in (a, b, to) for value in (point.x, point.y))
            case Close():
                yield "Z"


class _Picture:
    """The body of one picture and the outlines of the letters it uses."""

    def __init__(self, fonts_folder: Path) -> None:
        self.folder = fonts_folder
        self.glyphs: dict[str, str] = {}

    def draw(self, item: Item) -> str:
        match item:
            case PlacedText():
                return self.text(item)
            case PlacedShape():
                return shape(item)
            case PlacedPicture():
                return picture(item)
            case PlacedLink():
                return link(item)
            case Anchor():
                return ""

    def text(self, item: PlacedText) -> str:
        uses, drawn = _run(self.folder / f"{item.face}.ttf", item.text, item.adjust)
        if not uses:
            return ""
        self.glyphs.update(drawn)
        scale = item.size / _face(self.folder / f"{item.face}.ttf").units
        along = -scale if item.turned else scale
        place = f"translate({number(item.x)} {number(item.y)}) scale({along:.5g} {-along:.5g})"
        return f'<g fill="{grey(item.ink)}" transform="{place}">{uses}</g>'


@lru_cache(maxsize=20_000)
def _run(path: Path, text: str, adjust: tuple[float, ...]) -> tuple[str, dict[str, str]]:
    """The letters of a run in units of the em, and the outlines they use by name."""
    face = _face(path)
    glyphs: dict[str, str] = {}
    x, uses = 0.0, []
    for character, space in zip(text, chain(adjust, repeat(0.0)), strict=False):
        glyph = face.glyph(character)
        if not character.isspace():
            name = f"{face.name}-{glyph}".replace(" ", "_")
            glyphs[name] = _defined(path, glyph, name)
            uses.append(f'<use href="#{name}" x="{number(x)}"/>')
        x += face.font.get_glyph_h_advance(glyph) + space * face.units / 1000
    return "".join(uses), glyphs


@lru_cache(maxsize=4_000)
def _defined(path: Path, glyph: int, name: str) -> str:
    return f'<path id="{name}" d="{_face(path).outline(glyph)}"/>'


def shape(item: PlacedShape, data: Callable[[Outline], str] = outline_data) -> str:
    """A path element with the same ink as on paper; empty where it has none. data: gives the syntax of its path."""
    if item.fill is None and item.stroke is None:
        return ""
    fill = "none" if item.fill is None else grey(item.fill)
    line = ""
    if item.stroke is not None:
        dash = f' stroke-dasharray="{" ".join(map(number, item.dash))}"' if item.dash else ""
        line = f' stroke="{grey(item.stroke)}" stroke-width="{number(item.line_width)}"{dash}'
    place = f' transform="translate({number(item.dx)} {number(item.dy)})"' if item.dx or item.dy else ""
    return f'<path d="{data(item.path)}" fill="{fill}"{line}{place}/>'


def _rectangle(box: Rect) -> str:
    return f'x="{number(box.x0)}" y="{number(box.y0)}" width="{number(box.width)}" height="{number(box.height)}"'


def picture(item: PlacedPicture) -> str:
    """An image element that carries its data."""
    kind = "png" if item.data.startswith(b"\x89PNG") else "jpeg"
    data = base64.b64encode(item.data).decode("ascii")
    return f'<image {_rectangle(item.box)} preserveAspectRatio="none" href="data:image/{kind};base64,{data}"/>'


def link(item: PlacedLink) -> str:
    """A link over its area; targets that a browser would run (javascript: and the like) are left out."""
    if not item.target.startswith(LINKS):
        return ""
    area = f'<rect {_rectangle(item.box)} fill="none" pointer-events="all"/>'
    return f'<a href="{escape(item.target)}" aria-label="{escape(item.text)}">{area}</a>'


def words(items: Iterable[Item]) -> str:
    """What is to be read on the page: texts on one line joined, lines apart by ' / '."""
    lines: list[str] = []
    baseline = None
    for item in items:
        if isinstance(item, PlacedText):
            if item.y == baseline:
                lines[-1] += f" {item.text}"
            else:
                lines.append(item.text)
            baseline = item.y
    return " / ".join(lines)


def paint_svg(frame: Frame, fonts_folder: Path, title: str = "", description: str | None = None) -> str:
    """The page as an SVG document, one unit a point. title, description: for those who do not see it; where no
    description is given it holds the words of the page.

    ValueError: a face lacks a character; FileNotFoundError: there is no such face.
    """
    canvas = _Picture(fonts_folder)
    body = "".join(canvas.draw(item) for item in frame.items)
    width, height = number(frame.width), number(frame.height)
    told = words(frame.items) if description is None else description
    # What is inside a role "img" cannot be reached, so a page with links is a group.
    role = "group" if any(isinstance(item, PlacedLink) for item in frame.items) else "img"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="{role}" width="{width}pt" height="{height}pt"'
        f' viewBox="0 0 {width} {height}" stroke-linejoin="round">'
        f"<title>{escape(title or frame.label or 'Page')}</title><desc>{escape(told)}</desc>"
        f"<defs>{''.join(canvas.glyphs.values())}</defs>{body}</svg>\n"
    )
