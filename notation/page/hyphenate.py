"""Where a word may be divided, by the patterns that pyphen carries."""
from __future__ import annotations

import re
from functools import cache
from typing import Any

LEAST = 3  # letters kept on either side: common practice of English printers, no single source
SHORTEST = 2 * LEAST
MARKED = re.compile(r"([^\w\s]*)([^\W\d_]+)([^\w\s]*)")
"""A word with the marks before and after it."""


@cache
def _dictionary(language: str) -> Any:
    import pyphen  # type: ignore[import-untyped]

    known = pyphen.language_fallback(language.replace("-", "_"))
    return pyphen.Pyphen(lang=known, left=LEAST, right=LEAST) if known else None


def syllables(word: str, language: str) -> list[str]:
    """The word in parts between which a hyphen may stand; whole where it is short or the language is unknown. Marks
    around it stay with its first and last part.

    >>> syllables("extraordinary", "en-GB")
    ['extraordin', 'ary']
    >>> syllables("close", "en-GB")
    ['close']
    >>> syllables("(extraordinary),", "en-GB")
    ['(extraordin', 'ary),']
    """
    marked = MARKED.fullmatch(word)
    if marked is None or len(marked[2]) < SHORTEST:
        return [word]
    dictionary = _dictionary(language)
    if dictionary is None:
        return [word]
    cuts = [0, *(len(marked[1]) + cut for cut in dictionary.positions(marked[2])), len(word)]
    return [word[one:two] for one, two in zip(cuts, cuts[1:], strict=False)]
