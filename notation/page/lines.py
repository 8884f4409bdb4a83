"""Lines: measured words broken to a width, every piece of them with its place."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from notation.page.content import Align, Paragraph, Rule, Style
from notation.page.fonts import Faces, Shaped
from notation.page.linebreak import breaks, fits
from notation.page.path import Path
from notation.page.text import Atom, Measured, atom_of, measured, opened
from notation.plane import Point


@dataclass(frozen=True, slots=True)
class Piece:
    """Characters of one face and style on a line; x in points from the line's beginning.

    rule: the rectangle along it, from where its baseline begins; None where its style has none.
    """

    x: float
    text: str
    face: str
    style: Style
    adjust: tuple[float, ...]
    rule: Path | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """A line of pieces and its width in points."""

    pieces: tuple[Piece, ...]
    width: float


EMPTY = Line((), 0.0)


def lines(paragraph: Paragraph, width: float, faces: Faces, language: str) -> tuple[Line, ...]:
    """The paragraph broken to a width in points; at least one line, which may be empty."""
    text = measured(paragraph, faces)
    if not text.atoms:
        return (EMPTY,)
    if fits(text.natural, width):
        return _whole(text, faces)
    balanced = paragraph.align is Align.CENTRE or paragraph.kind == "H1"
    key = (text.number, width, balanced, language)
    known = faces.memory.get(key)
    if known is None:
        known = faces.remember(key, tuple(_broken(opened(text, width, faces, language), width, balanced, faces)))
    assert isinstance(known, tuple)
    return known


def _broken(text: Measured, width: float, balanced: bool, faces: Faces) -> Iterator[Line]:
    first = 0
    for last in breaks(text.breakable, width, balanced):
        yield _line(text, first, last, faces)
        first = last + 1


def _whole(text: Measured, faces: Faces) -> tuple[Line, ...]:
    known = faces.memory.get((text.number,))
    if known is None:
        known = faces.remember((text.number,), (_line(text, 0, len(text.atoms) - 1, faces),))
    assert isinstance(known, tuple)
    return known


def _line(text: Measured, first: int, last: int, faces: Faces) -> Line:
    atoms = list(text.atoms[first : last + 1])
    ending = atoms[-1]
    if ending.extra and last + 1 < len(text.atoms):
        atoms.append(atom_of("-", ending.style, faces))
        atoms[-2] = replace(ending, gap=0.0, spaced=False)
    width = text.breakable.width(first, last)
    pieces = tuple(_pieces(atoms))
    if any(piece.style.rule for piece in pieces):
        pieces = tuple(_ruled(pieces, width, faces))
    return Line(pieces, width)


def _ruled(pieces: Sequence[Piece], width: float, faces: Faces) -> Iterator[Piece]:
    """The pieces with their rules, as far as the next piece of another style begins or the words end."""
    for piece, end in zip(pieces, (*(p.x for p in pieces[1:]), width), strict=True):
        yield piece if piece.style.rule is None else replace(piece, rule=_rule(piece, end - piece.x, faces))


def _rule(piece: Piece, length: float, faces: Faces) -> Path:
    """The rule of a piece by the measures of its style's face; a space at its end is left bare."""
    face, scale = faces.face(piece.style.face), piece.style.size / 1000
    bare = len(piece.text) - len(piece.text.rstrip(" "))
    length -= bare * face.advances.get(" ", 250.0) * scale
    height, thickness = face.underline if piece.style.rule is Rule.UNDERLINE else face.strikeout
    top, foot = -height * scale, (thickness - height) * scale
    return Path.polygon(Point(0.0, top), Point(length, top), Point(length, foot), Point(0.0, foot))


def _pieces(atoms: Sequence[Atom]) -> Iterator[Piece]:
    """Neighbouring characters of one face and style as one piece, spaces included."""
    x, builder = 0.0, _Builder()
    for k, atom in enumerate(atoms):
        for shaped in atom.shaped:
            if not builder.takes(shaped.face, atom.style):
                yield from builder.flush()
                builder = _Builder(x, shaped.face, atom.style)
            builder.add(shaped)
            x += shaped.width * atom.style.size / 1000
        if k + 1 < len(atoms):
            builder.gap(atom)
            x += atom.gap
    yield from builder.flush()


class _Builder:
    """Collects the text of one piece."""

    __slots__ = ("x", "face", "style", "text", "adjust", "kerned")

    def __init__(self, x: float = 0.0, face: str = "", style: Style | None = None) -> None:
        self.x, self.face, self.style = x, face, style
        self.text: list[str] = []
        self.adjust: list[float] = []
        self.kerned = False

    def takes(self, face: str, style: Style) -> bool:
        return self.face == face and (self.style is style or self.style == style)

    def add(self, shaped: Shaped) -> None:
        self.text.append(shaped.text)
        self.adjust.extend(shaped.adjust or (0.0,) * len(shaped.text))
        self.kerned = self.kerned or bool(shaped.adjust)

    def gap(self, atom: Atom) -> None:
        if atom.spaced:
            self.text.append(" ")
            self.adjust.append(0.0)
        elif atom.gap and self.adjust:
            self.adjust[-1] += atom.gap * 1000 / atom.style.size
            self.kerned = True

    def flush(self) -> Iterator[Piece]:
        if self.text and self.style is not None:
            yield Piece(self.x, "".join(self.text), self.face, self.style, tuple(self.adjust) if self.kerned else ())
