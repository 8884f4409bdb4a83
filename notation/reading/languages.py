"""The languages that a sheet can be printed in, each read when it is first asked for."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache

from notation.dance.hold import Hold, Position
from notation.dance.metre import Rhythm
from notation.dance.naming import plain
from notation.dance.words import Vocabulary
from notation.reading.positions import load_holds, load_positions
from notation.reading.rhythms import load_rhythms
from notation.reading.words import FILES, load_vocabulary


@dataclass(frozen=True, slots=True)
class Languages(Mapping[str, Vocabulary]):
    """The installed vocabularies by language, with printed names for every name of the tables."""

    def __getitem__(self, language: str) -> Vocabulary:
        return _with_other_names(language)

    def __iter__(self) -> Iterator[str]:
        return iter(FILES)

    def __len__(self) -> int:
        return len(FILES)


@cache
def _with_other_names(language: str) -> Vocabulary:
    words = load_vocabulary(language)
    if not words.names:
        return words
    tables: dict[str, tuple[Position | Hold | Rhythm, ...]] = {
        "position": load_positions(), "hold": load_holds(), "rhythm": load_rhythms(),
    }
    said = dict(words.names)
    names = [
        ((kind, plain(name)), said[kind, plain(row.name)])
        for kind, rows in tables.items() for row in rows for name in (row.name, *row.also)
        if (kind, plain(row.name)) in said
    ]
    others = [(key, text) for key, text in words.names if key[0] not in tables]
    return replace(words, names=(*names, *others))
