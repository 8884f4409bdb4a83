"""The tables of positions and holds, read once."""
from __future__ import annotations

from functools import cache

from notation.dance.hold import FeetRelation, Hold, Position
from notation.plane import Vector
from notation.reading.nodes import Mapping, Node, Scalar, Sequence, read_nodes
from notation.reading.words import FOLDER


@cache
def load_positions() -> tuple[Position, ...]:
    """The rows of the table of positions, distances in millimetres."""
    return tuple(_position(row) for row in _rows("positions.yaml"))


@cache
def load_holds() -> tuple[Hold, ...]:
    """The rows of the table of holds, distances in millimetres."""
    return tuple(_hold(row) for row in _rows("holds.yaml"))


def _rows(file: str) -> list[dict[str, Node]]:
    root = read_nodes((FOLDER / file).read_bytes(), file)
    assert isinstance(root, Mapping) and isinstance(root.entries[0].value, Sequence)
    return [
        {entry.key.text: entry.value for entry in item.entries}
        for item in root.entries[0].value.items
        if isinstance(item, Mapping)
    ]


def _text(row: dict[str, Node], key: str) -> str:
    value = row[key]
    assert isinstance(value, Scalar)
    return value.text


def _texts(row: dict[str, Node], key: str) -> tuple[str, ...]:
    value = row.get(key)
    return tuple(i.text for i in value.items if isinstance(i, Scalar)) if isinstance(value, Sequence) else ()


def _position(row: dict[str, Node]) -> Position:
    at = Vector(float(_text(row, "ahead")), float(_text(row, "left")))
    feet = FeetRelation(_text(row, "feet"))
    return Position(_text(row, "name"), at, int(_text(row, "turn")), feet, _texts(row, "also"), _text(row, "source"))


def _hold(row: dict[str, Node]) -> Hold:
    pairs = [pair.split(" to ") for pair in _texts(row, "hands")]
    hands = tuple((gent, lady) for gent, lady in pairs)
    least, reach = (float(_text(row, key)) if key in row else None for key in ("least", "reach"))
    return Hold(_text(row, "name"), hands, least, reach, _texts(row, "also"), _text(row, "source"))
