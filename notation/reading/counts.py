"""Counts as they are written: '1', '&', '1&', '1-2', '4-1', 'S', 'Q'."""
from __future__ import annotations

import re
from fractions import Fraction

from notation.dance.mark import Mark
from notation.dance.metre import Count

PARTS = {"": Fraction(0), "e": Fraction(1, 4), "&": Fraction(1, 2), "a": Fraction(3, 4)}
NUMBER = re.compile(r"(\d{1,2})([&ea]?)(?:[-–](\d{1,2}))?", re.ASCII)
REPLACING = re.compile(r"(\d{1,3})\.(.+)", re.ASCII)


def parse_count(text: str, mark: Mark) -> Count | None:
    """The count, or None where the text is none.

    >>> from notation.dance.mark import NOWHERE
    >>> parse_count("2&", NOWHERE).part
    Fraction(1, 2)
    >>> parse_count("4-1", NOWHERE).until
    1
    """
    if text.upper() in ("S", "Q"):
        return Count(text.upper(), letter=text.upper(), mark=mark)
    if text in ("&", "e", "a"):
        return Count(text, part=PARTS[text], mark=mark)
    found = NUMBER.fullmatch(text)
    if not found:
        return None
    beat, part, until = found.groups()
    if int(beat) < 1 or (until and int(until) < 1):
        return None
    plain = f"{int(beat)}{part}" + (f"-{int(until)}" if until else "")
    return Count(plain, int(beat), PARTS[part], int(until) if until else None, mark=mark)


def split_bar(text: str) -> tuple[int | None, str]:
    """The bar and the count of a replacement line's '2.3'; no bar where none is named.

    >>> split_bar("2.3"), split_bar("&")
    ((2, '3'), (None, '&'))
    """
    found = REPLACING.fullmatch(text)
    return (int(found[1]), found[2]) if found else (None, text)
