"""What the editor completes and colours: the words of the trade and of the file, by where they stand."""
from __future__ import annotations

from functools import cache

from notation.dance.knowledge import Knowledge
from notation.reading.dance import KEYS, START_KEYS
from notation.reading.knowledge import load_knowledge

PASSAGE_KEYS = ("bars", "figure", "gent", "lady", "position", "hold", "head", "arms", "note", "repeat", "on",
                "exchange")
CALLED = ("twice", "three times", "solo", "from rotary half", "LF", "RF", "LF then RF", "RF then LF")


@cache
def step_words() -> dict[str, list[list[str]]]:
    """By kind: spelling to write, and its meaning in full."""
    found: dict[str, list[list[str]]] = {}
    for word in load_knowledge().vocabulary.words:
        rows = found.setdefault(word.kind, [])
        rows += [[word.short, word.words if word.words != word.short else word.meaning]]
        rows += [[word.words, ""]] if word.words != word.short else []
    return found


def completions(knowledge: Knowledge) -> dict[str, object]:
    """All that the page needs to complete words in every place of a dance file."""
    rhythms = [name for row in knowledge.rhythms for name in (row.name, *row.also)]
    return {
        "steps": step_words(),
        "keys": list(KEYS),
        "passage": list(PASSAGE_KEYS),
        "start": list(START_KEYS),
        "rhythms": sorted(rhythms),
        "positions": [row.name for row in knowledge.positions],
        "holds": [row.name for row in knowledge.holds],
        "figures": sorted(knowledge.figures.names(), key=str.lower),
        "called": list(CALLED),
        "derived": ["opposite", "mirror", "same"],
    }
