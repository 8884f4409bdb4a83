"""Set pages as bytes and back, so that a book holds many of them in little room, or keeps them in a file.

The form is JSON under zlib: reading it runs no code, and whatever is wrong with it ends in a PackError. Lengths are
kept to a hundredth of a point, which is what the painters write.
"""
from __future__ import annotations

import json
import zlib
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from notation.page.frame import Artifact, Element, Frame, Item, PlacedShape, PlacedText, Tag
from notation.page.path import Close, Curve, Line, Move, Path, Segment
from notation.plane import Point

MOST_BYTES = 50_000_000
"""Of one dance's pages, unpacked."""


class PackError(ValueError):
    """The bytes are no packed pages."""


def pack(pages: Sequence[Frame], elements: Sequence[Element]) -> bytes:
    """The pages with their texts and shapes, and the elements, whose keys must run from 1. Anchors, links and pictures
    are left out: a book makes its own."""
    packer = _Packer()
    framed = [[_short(page.width), _short(page.height), [*packer.items(page.items)]] for page in pages]
    listed = [[e.kind, e.parent or 0, e.alt, e.scope, e.columns] for e in elements]
    whole = {"faces": packer.faces, "paths": packer.paths, "pages": framed, "elements": listed}
    return zlib.compress(json.dumps(whole, separators=(",", ":"), ensure_ascii=False).encode(), 6)


class _Packer:
    """Faces and paths are named by their number; a path that many shapes share is kept once."""

    def __init__(self) -> None:
        self.faces: list[str] = []
        self.paths: list[list[list[str | float]]] = []
        self.known: dict[int, tuple[Path, int]] = {}

    def items(self, items: Iterable[Item]) -> Iterator[list[Any]]:
        for item in items:
            if isinstance(item, PlacedText):
                yield self._text(item)
            elif isinstance(item, PlacedShape):
                yield self._shape(item)

    def _text(self, item: PlacedText) -> list[Any]:
        if item.face not in self.faces:
            self.faces.append(item.face)
        face, adjust = self.faces.index(item.face), [*map(_short, item.adjust)]
        return [_short(item.x), _short(item.y), item.text, face, _short(item.size), _tag(item.tag), adjust,
                _short(item.ink), int(item.turned)]

    def _shape(self, item: PlacedShape) -> list[Any]:
        return [self._path(item.path), _tag(item.tag), _short(item.fill), _short(item.stroke), _short(item.line_width),
                [*map(_short, item.dash)], _short(item.dx), _short(item.dy)]

    def _path(self, path: Path) -> int:
        known = self.known.get(id(path))
        if known is None:
            known = self.known[id(path)] = (path, len(self.paths))
            self.paths.append([*map(_segment, path.segments)])
        return known[1]


def _short(value: Any) -> Any:
    """A length to a hundredth, a whole number without its point; None stays."""
    if value is None:
        return None
    rounded = round(value, 2)
    return int(rounded) if rounded == int(rounded) else rounded


def _tag(tag: Tag) -> int | str:
    return tag.value if isinstance(tag, Artifact) else tag


def _segment(segment: Segment) -> list[str | float]:
    match segment:
        case Move(to):
            return ["M", _short(to.x), _short(to.y)]
        case Line(to):
            return ["L", _short(to.x), _short(to.y)]
        case Curve(one, two, to):
            return ["C", *(_short(value) for p in (one, two, to) for value in (p.x, p.y))]
        case _:
            return ["Z"]


def unpack(data: bytes) -> tuple[tuple[Frame, ...], tuple[Element, ...]]:
    """The pages and elements. Raises PackError."""
    try:
        whole = json.loads(_unzipped(data))
        faces = [str(face) for face in whole["faces"]]
        paths = [Path(tuple(map(_read_segment, path))) for path in whole["paths"]]
        pages = tuple(
            Frame(float(width), float(height), tuple(_item(item, faces, paths) for item in items))
            for width, height, items in whole["pages"]
        )
        return pages, tuple(_element(key, row) for key, row in enumerate(whole["elements"], 1))
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError, zlib.error) as fault:
        raise PackError("these are no packed pages") from fault


def _unzipped(data: bytes) -> bytes:
    unpacker = zlib.decompressobj()
    made = unpacker.decompress(data, MOST_BYTES)
    if not unpacker.eof:
        raise PackError("these packed pages are cut short")
    return made


def _read_tag(said: int | str) -> Tag:
    return Artifact(said) if isinstance(said, str) else int(said)


def _item(row: Sequence[Any], faces: Sequence[str], paths: Sequence[Path]) -> Item:
    if len(row) == 9:
        x, y, text, face, size, tag, adjust, ink, turned = row
        return PlacedText(float(x), float(y), str(text), faces[face], float(size), _read_tag(tag),
                          tuple(map(float, adjust)), float(ink), bool(turned))
    path, tag, fill, stroke, width, dash, dx, dy = row
    return PlacedShape(paths[path], _read_tag(tag), _grey(fill), _grey(stroke), float(width), tuple(map(float, dash)),
                       float(dx), float(dy))


def _grey(value: float | None) -> float | None:
    return None if value is None else float(value)


def _read_segment(row: Sequence[Any]) -> Segment:
    kind, *numbers = row
    ends = [Point(float(x), float(y)) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
    if kind == "C":
        return Curve(*ends)
    if kind == "Z":
        return Close()
    return Move(*ends) if kind == "M" else Line(*ends)


def _element(key: int, row: Sequence[Any]) -> Element:
    kind, parent, alt, scope, columns = row
    return Element(key, str(kind), int(parent) or None, str(alt), str(scope), int(columns))
