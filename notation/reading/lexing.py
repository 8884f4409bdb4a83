"""A line of shorthand cut into words of the vocabulary: comment off, brackets out, commas between segments.

Places in a line are counted from 0 in these values; the caller knows where the line stands in its file.
"""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from notation import bounds
from notation.dance.suggest import nearest
from notation.dance.words import Word
from notation.reading.words import Lexicon

VULGAR = dict(zip("⅛¼⅜½⅝¾⅞", (f"{n}/8" for n in range(1, 8)), strict=True))
FRACTION = re.compile(r"(\d{1,2})/(\d{1,2})", re.ASCII)
COMMENT = re.compile(r"(?:^|\s)#")
SEPARATOR = re.compile("[,;]")
WORD = re.compile(r"\S+")
REMEMBERED = 4096
"""Segments whose reading is kept: most lines of a dance say what other lines said."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """What is wrong with a stretch of a line: the rule, the words for the writer, and what to write instead."""

    rule: str
    message: str
    start: int
    end: int
    suggestion: str | None = None


@dataclass(frozen=True, slots=True)
class Segment:
    """What stands between two commas, and where it begins in the line."""

    text: str
    start: int


@dataclass(frozen=True, slots=True)
class Cut:
    """A line cut up. remarks: what stood in round brackets."""

    segments: tuple[Segment, ...]
    remarks: tuple[str, ...]
    troubles: tuple[Trouble, ...]


@dataclass(frozen=True, slots=True)
class Lexeme:
    """A word of the vocabulary as it stands in a segment, or an amount of turn in eighths.

    candidates: the words it can be. eighths: for an amount, else None. trouble: why it cannot be read; its candidates
    are then those of the word that was probably meant.
    """

    text: str
    start: int
    end: int
    candidates: tuple[Word, ...] = ()
    eighths: int | None = None
    trouble: Trouble | None = None

    def named(self, kind: str) -> str | None:
        """Its name as a word of that kind; None where it is no such word."""
        for word in self.candidates:
            if word.kind == kind:
                return word.name
        return None

    @property
    def known(self) -> bool:
        return bool(self.candidates) or self.eighths is not None

    @property
    def amount(self) -> int | None:
        """Eighths of a turn, in figures or in words; None where it is no amount."""
        name = self.named("amount")
        return int(name) if name else self.eighths


def cut(text: str) -> Cut:
    """The line without comment and brackets, by segments.

    >>> [s.text for s in cut("1 LF fwd (slowly), T # toe").segments]
    ['1 LF fwd         ', ' T']
    """
    bare, remarks, troubles = _without_brackets(_without_comment(text))
    segments, start = [], 0
    for part in SEPARATOR.split(bare):
        segments.append(Segment(part, start))
        start += len(part) + 1
    return Cut(tuple(segments), remarks, troubles)


def _without_comment(text: str) -> str:
    found = COMMENT.search(text) if "#" in text else None
    return text[: found.start()] if found else text


def _without_brackets(text: str) -> tuple[str, tuple[str, ...], tuple[Trouble, ...]]:
    """The text with white space for each bracketed remark, the remarks, and brackets without partners.

    What follows a bracket that does not close is left out as the remark that it was meant to be.
    """
    if "(" not in text and ")" not in text:
        return text, (), ()
    opened: list[int] = []
    stray: list[int] = []
    spans: list[tuple[int, int]] = []
    for at, letter in enumerate(text):
        if letter == "(":
            opened.append(at)
        elif letter == ")" and opened:
            begun = opened.pop()
            spans = [span for span in spans if span[0] < begun] + [(begun, at + 1)]
        elif letter == ")":
            stray.append(at)
    bare = text
    for begun, end in (*spans, *((at, len(text)) for at in opened)):
        bare = bare[:begun] + " " * (end - begun) + bare[end:]
    troubles = tuple(_bracket(text[at], at) for at in sorted(stray + opened))
    remarks = (text[begun + 1 : end - 1].strip() for begun, end in spans)
    return re.sub("[()]", " ", bare), tuple(r for r in remarks if r), troubles


def _bracket(letter: str, at: int) -> Trouble:
    return Trouble("bracket-open", f"the bracket '{letter}' has no partner on this line", at, at + 1)


@lru_cache(maxsize=REMEMBERED)
def lexemes(text: str, lexicon: Lexicon) -> tuple[Lexeme, ...]:
    """The words of a segment, longest spellings first. A word that is not known carries its trouble."""
    return tuple(word if word.known else _unknown(word, lexicon) for word in words_in(text, lexicon))


def words_in(text: str, lexicon: Lexicon) -> Iterator[Lexeme]:
    """The words of a segment, longest spellings first; no guess is made at those that are not known."""
    tokens = [(w.group(), w.start()) for w in WORD.finditer(text)]
    at = 0
    while at < len(tokens):
        word, start = tokens[at]
        lexeme, taken = _amount(tokens, at) or _longest(tokens, at, lexicon) or (
            Lexeme(word, start, start + len(word)), 1
        )
        yield lexeme
        at += taken


def _longest(tokens: list[tuple[str, int]], at: int, lexicon: Lexicon) -> tuple[Lexeme, int] | None:
    """The longest spelling that begins at a token, with the number of its tokens; a full stop after it is let pass."""
    longest = lexicon.longest.get(tokens[at][0].lower().rstrip("."), 0)
    longest = max(longest, lexicon.longest.get(tokens[at][0].lower(), 0))
    for size in range(min(longest, len(tokens) - at), 0, -1):
        taken = tokens[at : at + size]
        parts = tuple(t for t, _ in taken)
        words = lexicon.words(parts) or lexicon.words((*parts[:-1], parts[-1].rstrip(".")))
        if words:
            text, last = " ".join(parts), taken[-1]
            return Lexeme(text, taken[0][1], last[1] + len(last[0]), words), size
    return None


def _amount(tokens: list[tuple[str, int]], at: int) -> tuple[Lexeme, int] | None:
    """'3/8', '½', '1 1/4': an amount of turn in eighths, with the number of its tokens."""
    (text, start), whole, size = tokens[at], 0, 1
    follows = tokens[at + 1][0] if at + 1 < len(tokens) else ""
    if len(text) == 1 and text.isdecimal() and _fraction(follows) is not None:
        whole, size = int(text), 2
    last, begun = tokens[at + size - 1]
    part = _fraction(last)
    if part is None:
        return None
    lexeme = Lexeme(last, start, begun + len(last))
    return _in_eighths(lexeme, (whole + part) * 8), size


def _in_eighths(lexeme: Lexeme, eighths: Fraction) -> Lexeme:
    if eighths.denominator == 1 and eighths <= bounds.TURN.most:
        return replace(lexeme, eighths=int(eighths))
    message = f"'{lexeme.text}' is no number of eighths; turns are 1/8, 1/4, 3/8, 1/2 ..."
    if eighths.denominator == 1:
        message = bounds.TURN.words
    trouble = Trouble("turn-not-eighths", message, lexeme.start, lexeme.end)
    return replace(lexeme, eighths=0, trouble=trouble)


def _fraction(text: str) -> Fraction | None:
    found = FRACTION.fullmatch(VULGAR.get(text, text))
    if not found or int(found[2]) == 0:
        return None
    return Fraction(int(found[1]), int(found[2]))


def _unknown(word: Lexeme, lexicon: Lexicon) -> Lexeme:
    """An unknown word, with the words it was probably meant to be."""
    text, near = word.text, nearest(word.text, lexicon.spellings)
    hint = f": did you mean '{near}'?" if near else "; put free words in round brackets"
    message = f"unknown word '{text[:60]}'{hint}"
    trouble = Trouble("unknown-word", message, word.start, word.end, near)
    return replace(word, candidates=lexicon.words(tuple((near or "").split())), trouble=trouble)
