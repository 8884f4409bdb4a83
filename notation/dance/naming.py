"""Names as they are written and as they are looked up."""
from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from notation.dance.hold import Hold, Position
from notation.dance.mark import Said
from notation.dance.suggest import nearest

Row = TypeVar("Row", bound=Position | Hold)


def plain(name: str) -> str:
    """A name without what does not tell names apart.

    >>> plain("Side-by-side  position")
    'side by side'
    """
    words = name.lower().replace("-", " ").replace("_", " ").split()
    return " ".join(words[:-1] if len(words) > 1 and words[-1] in ("position", "hold") else words)


def capital(words: str) -> str:
    """With its first letter large."""
    return words[:1].upper() + words[1:]


def named(said: Said | None, table: Sequence[Row]) -> Row | None:
    """The row of that name or other name; None for free words, for nothing said, and where there is none."""
    if said is None or said.free:
        return None
    wanted = plain(said.text)
    for row in table:
        if wanted in map(plain, (row.name, *row.also)):
            return row
    return None


def nearest_row(said: Said, table: Sequence[Position] | Sequence[Hold]) -> str | None:
    """The name most like the words said, of as many words, for a suggestion; None where none is like them."""
    wanted = plain(said.text)
    rows: list[Position | Hold] = [*table]
    names = [name for row in rows for name in (row.name, *row.also) if name.count(" ") == wanted.count(" ")]
    return nearest(wanted, names)
