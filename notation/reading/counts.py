"""Counts as they are written: '1', '&', '1&', '1-2', '4-1', 'S', 'Q'."""
from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from notation.dance.mark import Mark
from notation.dance.metre import Count

PARTS = {"": Fraction(0), "e": Fraction(1, 4), "&": Fraction(1, 2), "a": Fraction(3, 4)}
NUMBER = re.compile(r"([0-9]{1,2})\s?([&ea]?)(?:\s*[-–]\s*([0-9]{1,2}))?")
LEADING = re.compile(
    r"\s*(?P<all>(?:(?P<bar>[0-9]{1,3})\.(?=[0-9&ea]))?"
    r"(?P<count>[0-9]{1,2}(?:\s?[&ea](?![^\s.:,;–-]))?(?:\s*[-–]\s*[0-9]{1,2})?|&|and|[eaSQsq]))[.:]?(?=[\s,;]|$)"
)


@dataclass(frozen=True, slots=True)
class Leading:
    """The count at the beginning of a line. bar: of a replacement line's '2.3' only. start, end: where it stands."""

    bar: int | None
    text: str
    start: int
    end: int
    after: int


def leading_count(text: str) -> Leading | None:
    """The count that a line begins with; a full stop or colon after it is let pass.

    >>> leading_count("2.3  LF close").bar, leading_count("1 - 2 hold").text, leading_count("LF fwd")
    (2, '1 - 2', None)
    """
    found = LEADING.match(text)
    if found is None:
        return None
    bar = found["bar"]
    return Leading(int(bar) if bar else None, found["count"], found.start("all"), found.end("all"), found.end())


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
    if text in ("&", "e", "a", "and"):
        plain = "&" if text == "and" else text
        return Count(plain, part=PARTS[plain], mark=mark)
    found = NUMBER.fullmatch(text)
    if not found:
        return None
    beat, part, until = found.groups()
    if int(beat) < 1 or (until and int(until) < 1):
        return None
    plain = f"{int(beat)}{part}" + (f"-{int(until)}" if until else "")
    return Count(plain, int(beat), PARTS[part], int(until) if until else None, mark=mark)
