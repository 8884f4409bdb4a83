"""Words kept together, phrases filled in, and numbers with real fractions."""
from __future__ import annotations

import re
from fractions import Fraction

from notation.sheet.templates import fill

TIE = "\u00a0"
NUMBER_AT_END = re.compile(r"(?<=[^\W\d_]) (?=\d+(?:[-\u2013]\d+)?(?:[^\w\s]|$))")
NUMBER_AND_UNIT = re.compile(r"(?<=[\d\u00bd\u00bc\u00be\u215b-\u215e]) (?=[^\W\d])")
EIGHTHS = ("", "\u215b", "\u00bc", "\u215c", "\u00bd", "\u215d", "\u00be", "\u215e")


def tied(words: str) -> str:
    """The words kept on one line."""
    return words.replace(" ", TIE)


def with_units(words: str) -> str:
    """The words with each number kept on the line of what it counts, or of the word before it where it counts nothing.

    >>> with_units("five times through with 4 bars in")
    'five times through with 4\\xa0bars in'
    >>> with_units("as in bar 3, then on")
    'as in bar\\xa03, then on'
    """
    return NUMBER_AND_UNIT.sub(TIE, NUMBER_AT_END.sub(TIE, words))


def filled(phrase: str, **values: object) -> str:
    """A phrase of the layout with its places filled in."""
    return fill(phrase, values)


def eighths(count: int) -> str:
    """An amount of turn as whole turns and a real fraction.

    >>> eighths(3), eighths(8), eighths(12)
    ('⅜', '1', '1½')
    """
    whole, rest = divmod(abs(count), 8)
    return (str(whole) if whole or not rest else "") + EIGHTHS[rest]


def number(value: Fraction, decimal: str = ".") -> str:
    """A number with a real fraction where it has one: 42, 42½, 42.3. decimal: the sign before decimals."""
    if value.denominator in (1, 2, 4, 8):
        whole, rest = divmod(value, 1)
        return (str(whole) if whole or not rest else "") + EIGHTHS[int(rest * 8)]
    return f"{float(value):g}".replace(".", decimal)
