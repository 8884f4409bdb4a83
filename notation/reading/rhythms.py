"""The rhythm table, and metres and tempi as they are written."""
from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from notation.dance.metre import Metre, Rhythm, Tempo
from notation.reading.fields import decimal
from notation.reading.nodes import Mapping, Node, Scalar, Sequence, plain_key, read_nodes
from notation.reading.words import FOLDER

UNITS = (2, 4, 8)
MOST_BEATS = 12
TEMPO_UNIT = re.compile(r"\s*(?:bars?)?\s*(?:a|per)\s+minute$|\s*bars?$", re.IGNORECASE)


@cache
def load_rhythms() -> tuple[Rhythm, ...]:
    """The rows of the rhythm table."""
    root = read_nodes((FOLDER / "rhythms.yaml").read_bytes(), "rhythms.yaml")
    assert isinstance(root, Mapping) and isinstance(root.entries[0].value, Sequence)
    return tuple(_rhythm(item) for item in root.entries[0].value.items)


def _rhythm(node: Node) -> Rhythm:
    assert isinstance(node, Mapping)
    row = {entry.key.text: entry.value for entry in node.entries}
    text = {key: value.text for key, value in row.items() if isinstance(value, Scalar)}
    metre, also = parse_metre(text["metre"]), row.get("also")
    assert metre is not None
    others = tuple(i.text for i in also.items if isinstance(i, Scalar)) if isinstance(also, Sequence) else ()
    tempo = parse_tempo(text["tempo"]) if "tempo" in text else None
    return Rhythm(text["name"], metre, tempo, text["source"], others, text["feet"])


def find_rhythm(name: str, rhythms: tuple[Rhythm, ...]) -> Rhythm | None:
    """The row of that name, spaces and hyphens being alike."""
    key = plain_key(name)
    return next((r for r in rhythms if key in map(plain_key, (r.name, *r.also))), None)


def parse_metre(text: str) -> Metre | None:
    """A time signature, None where it is none that can be danced.

    >>> parse_metre("6/8"), parse_metre("5/0")
    (Metre(beats=6, unit=8), None)
    """
    found = re.fullmatch(r"(\d{1,2})\s*/\s*(\d{1,2})", text.strip(), re.ASCII)
    if not found or not 1 <= int(found[1]) <= MOST_BEATS or int(found[2]) not in UNITS:
        return None
    return Metre(int(found[1]), int(found[2]))


def parse_tempo(text: str) -> Tempo | None:
    """Bars a minute, one number or a range; None where it is neither, or not more than nought.

    >>> parse_tempo("40-44").most
    Fraction(44, 1)
    """
    parts = [decimal(p.strip()) for p in re.split(r"[-–]|\bto\b", TEMPO_UNIT.sub("", text.strip()))]
    numbers = [p for p in parts if p is not None and p > Fraction(0)]
    if len(numbers) != len(parts) or len(parts) > 2 or numbers != sorted(numbers):
        return None
    return Tempo(numbers[0], numbers[-1])
