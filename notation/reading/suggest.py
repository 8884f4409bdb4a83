"""The word that was probably meant."""
from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like this one, or None where none is near.

    >>> nearest("frwd", ["fwd", "back", "side"])
    'fwd'
    """
    by_lower = {k.lower(): k for k in known}
    found = difflib.get_close_matches(word.lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> tuple[str, str | None]:
    """The end of a message and the suggestion: (": did you mean 'fwd'?", 'fwd') or ('', None)."""
    near = nearest(word, known)
    return (f": did you mean '{near}'?", near) if near else ("", None)
