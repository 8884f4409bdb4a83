"""The word that was probably meant: one likeness for words, names, keys and commands alike."""
from __future__ import annotations

import difflib
from collections.abc import Iterable

LIKE = 0.75
"""Least likeness of two words, from 0 to 1: a letter wrong, missing or too many in four."""
LONGEST = 60
"""Letters beyond which a word is not compared: it is no slip of the fingers."""


def nearest_few(word: str, known: Iterable[str], most: int = 3) -> list[str]:
    """The known words most like this one, best first; capitals are alike.

    >>> nearest_few("natral turn", ["reverse turn", "natural turn", "natural turns"])
    ['natural turn', 'natural turns']
    """
    by_lower = {k.lower(): k for k in known}
    lower = " ".join(word.lower().split())
    if len(lower) > LONGEST:
        return []
    if lower in by_lower:
        return [by_lower[lower]]
    found = difflib.get_close_matches(lower, by_lower, most, LIKE)
    swapped = (k for k in by_lower if len(k) == len(lower) > 1 and sorted(k) == sorted(lower))
    return [by_lower[k] for k in dict.fromkeys((*found, *swapped))][:most]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like this one, or None where none is near.

    >>> nearest("frwd", ["fwd", "back", "side"])
    'fwd'
    """
    return next(iter(nearest_few(word, known, 1)), None)


def quoted_list(names: Iterable[str], quote: str = "'") -> str:
    """The names as a message lists them.

    >>> quoted_list(["a", "b", "c"])
    "'a', 'b' or 'c'"
    """
    quoted = [f"{quote}{name}{quote}" for name in names]
    return " or ".join(filter(None, (", ".join(quoted[:-1]), quoted[-1]))) if quoted else ""


def did_you_mean(word: str, known: Iterable[str]) -> tuple[str, str | None]:
    """The end of a message and the suggestion: (": did you mean 'fwd'?", 'fwd') or ('', None)."""
    near = nearest(word, known)
    return (f": did you mean '{near}'?", near) if near else ("", None)
