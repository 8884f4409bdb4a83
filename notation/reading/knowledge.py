"""All that is known beforehand, read once in a process."""
from __future__ import annotations

from functools import cache

from notation.dance.knowledge import Knowledge
from notation.reading.positions import load_holds, load_positions
from notation.reading.rhythms import load_rhythms
from notation.reading.words import load_vocabulary


@cache
def load_knowledge(language: str = "en") -> Knowledge:
    """Vocabulary, rhythms, positions and holds. Raises KeyError for a language without words."""
    return Knowledge(load_vocabulary(language), load_rhythms(), load_positions(), load_holds())
