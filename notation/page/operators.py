"""A Frame as the operators of a PDF page (ISO 32000-1, 8.5, 9.4 and 14.6); knows no PDF library.

The page's y axis points up in a PDF and down in a Frame: that is the only thing reckoned here.
"""
from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from notation.kept import Same
from notation.page.frame import Anchor, Artifact, Frame, PlacedLink, PlacedPicture, PlacedShape, PlacedText, Tag
from notation.page.path import Close, Curve, Line, Move, Path

Encode = Callable[[str, str], tuple[tuple[str, str], ...]]
"""Face and text to runs of (font resource, character codes); a code is one character from U+0000 to U+00FF."""

Register = Callable[[bytes], str]
"""The bytes of a picture to the name of its resource."""

Drawn = PlacedText | PlacedShape | PlacedPicture

_ESCAPES = str.maketrans({"\\": r"\\", "(": r"\(", ")": r"\)", "\r": r"\r", "\n": r"\n"})

_ARTIFACTS = {
    Artifact.LAYOUT: "/Artifact<</Type/Layout>>BDC",
    Artifact.HEADER: "/Artifact<</Type/Pagination/Subtype/Header>>BDC",
    Artifact.FOOTER: "/Artifact<</Type/Pagination/Subtype/Footer>>BDC",
}


@dataclass(frozen=True, slots=True)
class PageContent:
    """The operators of one page, and the element key of each marked-content sequence by its number (MCID)."""

    stream: bytes
    marks: tuple[int, ...]


@lru_cache(maxsize=4096)
def number(value: float) -> str:
    """A length or an ink to a hundredth, as short as it can be written.

    >>> number(12.0), number(0.256), number(-0.001)
    ('12', '0.26', '0')
    """
    return f"{round(value, 2) + 0.0:.6g}"


def literal(codes: str) -> str:
    """Character codes as a literal string.

    >>> literal("a(b)")
    '(a\\\\(b\\\\))'
    """
    return f"({codes.translate(_ESCAPES)})"


@lru_cache(maxsize=4096)
def kerned(codes: str, adjust: tuple[float, ...]) -> str:
    """Codes with the space added after each (thousandths of the size) as the operand of TJ, which subtracts it.

    >>> kerned("AVE", (-80.0, 0.0, 0.0))
    '[(A)80(VE)]'
    """
    parts, start = [], 0
    for end, space in enumerate(adjust[: len(codes)], 1):
        if space:
            parts.append(literal(codes[start:end]) + number(-space))
            start = end
    if start < len(codes):
        parts.append(literal(codes[start:]))
    return f"[{''.join(parts)}]"


class Pen:
    """Collects the operators of one page and leaves out what is set already. height: of the page, in points."""

    def __init__(self, height: float, encode: Encode, register: Register) -> None:
        self.height = height
        self.encode = encode
        self.register = register
        self.operators: list[str] = ["1 j"]
        self.state = {"g": "0", "G": "0", "w": "1", "d": "[]0"}
        self.in_text = False
        self.paths: dict[int, tuple[Path, str]] = {}

    def set(self, operator: str, operand: str) -> None:
        if self.state.get(operator) != operand:
            self.state[operator] = operand
            self.operators.append(f"{operand} {operator}")

    def end_text(self) -> None:
        if self.in_text:
            self.operators.append("ET")
            self.in_text = False

    def begin_text(self) -> None:
        if not self.in_text:
            self.operators.append("BT")
            self.in_text = True

    def text(self, item: PlacedText) -> None:
        runs = self.encode(item.face, item.text)
        if not runs:
            return
        self.begin_text()
        self.set("g", number(item.ink))
        upright = "-1 0 0 -1" if item.turned else "1 0 0 1"
        self.operators.append(f"{upright} {item.x:.2f} {self.height - item.y:.2f} Tm")
        size, adjust = number(item.size), item.adjust
        for font, codes in runs:
            self.set("Tf", f"{font} {size}")
            self.operators.append(f"{kerned(codes, adjust)}TJ" if any(adjust) else f"{literal(codes)}Tj")
            adjust = adjust[len(codes) :]

    def shape(self, item: PlacedShape) -> None:
        if item.fill is None and item.stroke is None:
            return
        self.end_text()
        if item.fill is not None:
            self.set("g", number(item.fill))
        if item.stroke is not None:
            self.set("G", number(item.stroke))
            self.set("w", number(item.line_width))
            self.set("d", f"[{' '.join(map(number, item.dash))}]0")
        paint = "S" if item.fill is None else "f" if item.stroke is None else "B"
        if item.dx or item.dy:
            self.operators.append(f"q 1 0 0 1 {item.dx:.2f} {self.height - item.dy:.2f} cm")
            self.operators.append(f"{self.shared(item.path)}\n{paint} Q")
        else:
            self.operators.extend(path_operators(item.path, self.height))
            self.operators.append(paint)

    def shared(self, path: Path) -> str:
        """The operators of a path about its own origin, made once however often it is drawn."""
        known = self.paths.get(id(path))
        if known is None or known[0] is not path:
            known = self.paths[id(path)] = (path, operators_of(Same(path)))
        return known[1]

    def picture(self, item: PlacedPicture) -> None:
        self.end_text()
        box, name = item.box, self.register(item.data)
        lower = self.height - box.y1
        self.operators.append(f"q {box.width:.2f} 0 0 {box.height:.2f} {box.x0:.2f} {lower:.2f} cm {name} Do Q")

    def draw(self, item: Drawn) -> None:
        match item:
            case PlacedText():
                self.text(item)
            case PlacedShape():
                self.shape(item)
            case _:
                self.picture(item)


@lru_cache(maxsize=1024)
def operators_of(path: Same[Path]) -> str:
    """Those of a path about its own origin: soles are the same in many sheets."""
    return "\n".join(path_operators(path.value, 0.0))


def path_operators(path: Path, height: float) -> Iterator[str]:
    """The outline's construction operators on a page of that height."""
    for segment in path.segments:
        match segment:
            case Move(to):
                yield f"{to.x:.2f} {height - to.y:.2f} m"
            case Line(to):
                yield f"{to.x:.2f} {height - to.y:.2f} l"
            case Curve(a, b, to):
                yield f"{a.x:.2f} {height - a.y:.2f} {b.x:.2f} {height - b.y:.2f} {to.x:.2f} {height - to.y:.2f} c"
            case Close():
                yield "h"


def drawn_items(frame: Frame) -> list[Drawn]:
    """What leaves a trace on the page, in painting order."""
    return [item for item in frame.items if not isinstance(item, (PlacedLink, Anchor))]


def _tag(item: Drawn) -> Tag:
    return item.tag


def page_content(frame: Frame, encode: Encode, register: Register, kinds: dict[int, str] | None) -> PageContent:
    """The page's content stream; kinds: structure type by element key, None to leave out all tags.

    KeyError: an item belongs to an element that `kinds` does not hold.
    """
    pen = Pen(frame.height, encode, register)
    marks: list[int] = []
    for tag, items in groupby(drawn_items(frame), key=_tag):
        pen.end_text()
        if kinds is not None:
            pen.operators.append(_opening(tag, kinds, marks))
        for item in items:
            pen.draw(item)
        pen.end_text()
        if kinds is not None:
            pen.operators.append("EMC")
    return PageContent("\n".join([*pen.operators, ""]).encode("latin-1"), tuple(marks))


def _opening(tag: Tag, kinds: dict[int, str], marks: list[int]) -> str:
    if isinstance(tag, Artifact):
        return _ARTIFACTS[tag]
    marks.append(tag)
    return f"/{kinds[tag]}<</MCID {len(marks) - 1}>>BDC"
