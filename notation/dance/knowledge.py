"""What is known of the trade beforehand: tables and words that come as data, read once and handed on."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from notation.dance.figure import Library, Shelf
from notation.dance.hold import Hold, Position
from notation.dance.metre import Rhythm
from notation.dance.words import Vocabulary


@dataclass(frozen=True, slots=True)
class Knowledge:
    """The vocabulary of one language, the rhythm table, the tables of positions and holds, the library of figures.

    languages: the vocabularies that a sheet can be printed with, by language.
    """

    vocabulary: Vocabulary
    rhythms: tuple[Rhythm, ...] = ()
    positions: tuple[Position, ...] = ()
    holds: tuple[Hold, ...] = ()
    figures: Library = field(default_factory=Shelf)
    languages: Mapping[str, Vocabulary] = field(default_factory=dict)
