"""The word that was probably meant."""
from __future__ import annotations

import difflib
from collections.abc import Iterable

LIKE, SHORT_LIKE = 0.6, 0.75
"""Least likeness of two words, and of words of at most SHORT letters, where chance likeness is common."""
SHORT = 3
LONGEST = 40
"""Letters beyond which a word is not compared: it is no slip of the fingers."""


def nearest(word: str, known: Iterable[str], least: float = LIKE) -> str | None:
    """The known word most like this one, or None where none is near. least: likeness from 0 to 1 that is asked.

    >>> nearest("frwd", ["fwd", "back", "side"])
    'fwd'
    """
    by_lower = {k.lower(): k for k in known}
    lower = word.lower()
    if len(word) > LONGEST:
        return None
    if lower in by_lower:
        return by_lower[lower]
    swapped = (k for k in by_lower if len(k) == len(lower) > 1 and sorted(k) == sorted(lower))
    like = least if len(word) > SHORT else max(least, SHORT_LIKE)
    found = difflib.get_close_matches(lower, by_lower, n=1, cutoff=like) or list(swapped)[:1]
    return by_lower[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> tuple[str, str | None]:
    """The end of a message and the suggestion: (": did you mean 'fwd'?", 'fwd') or ('', None)."""
    near = nearest(word, known)
    return (f": did you mean '{near}'?", near) if near else ("", None)
