"""A line of shorthand cut into words of the vocabulary: comment off, brackets out, commas between segments."""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from notation.dance.mark import Mark
from notation.dance.words import Word
from notation.reading.fields import Findings
from notation.reading.nodes import TextRow
from notation.reading.suggest import did_you_mean, nearest
from notation.reading.words import Lexicon

VULGAR = dict(zip("⅛¼⅜½⅝¾⅞", (f"{n}/8" for n in range(1, 8)), strict=True))
FRACTION = re.compile(r"(\d{1,2})/(\d{1,2})", re.ASCII)


@dataclass(frozen=True, slots=True)
class Token:
    """Letters without white space, and where they stand in the row (from 0)."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Segment:
    """What stands between two commas."""

    tokens: tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Lexeme:
    """A word of the vocabulary as it stands in a segment, or an amount of turn in eighths.

    candidates: the words it can be. first, after: its tokens in the segment. eighths: for an amount, else None.
    """

    candidates: tuple[Word, ...]
    first: int
    after: int
    mark: Mark
    eighths: int | None = None

    def named(self, kind: str) -> str | None:
        """Its name as a word of that kind; None where it is no such word."""
        return next((w.name for w in self.candidates if w.kind == kind), None)


@dataclass(frozen=True, slots=True)
class Line:
    """A row cut up. remarks: what stood in round brackets."""

    row: TextRow
    segments: tuple[Segment, ...]
    remarks: tuple[str, ...]


def cut(row: TextRow, findings: Findings) -> Line:
    """The row without comment and brackets, by segments. A bracket that does not close becomes a finding."""
    text = _without_comment(row.text)
    remarks = tuple(found.group()[1:-1].strip() for found in re.finditer(r"\([^()]*\)", text))
    bare = re.sub(r"\([^()]*\)", lambda m: " " * len(m.group()), text)
    stray = re.search(r"[()]", bare)
    if stray:
        message = f"the bracket '{stray.group()}' has no partner on this line"
        findings.error("bracket-open", row.mark(stray.start(), stray.start() + 1), message)
        bare = re.sub(r"[()]", " ", bare)
    return Line(row, tuple(_segments(bare)), tuple(r for r in remarks if r))


def _without_comment(text: str) -> str:
    found = re.search(r"(?:^|\s)#", text)
    return text[: found.start()] if found else text


def _segments(text: str) -> Iterator[Segment]:
    start = 0
    for part in text.split(","):
        words = re.finditer(r"\S+", part.replace("\u00a0", " "))
        yield Segment(tuple(Token(w.group(), start + w.start(), start + w.end()) for w in words))
        start += len(part) + 1


def lexemes(segment: Segment, row: TextRow, lexicon: Lexicon, findings: Findings) -> tuple[Lexeme, ...]:
    """The words of a segment, longest spellings first; what is not known becomes a finding."""
    found: list[Lexeme] = []
    at = 0
    while at < len(segment.tokens):
        lexeme = _amount(segment, at, row, findings) or _longest(segment, at, row, lexicon)
        if lexeme is None:
            lexeme = _guess(segment.tokens[at], at, row, lexicon, findings)
        if lexeme.candidates or lexeme.eighths is not None:
            found.append(lexeme)
        at = lexeme.after
    return tuple(found)


def _longest(segment: Segment, at: int, row: TextRow, lexicon: Lexicon) -> Lexeme | None:
    longest = lexicon.longest.get(segment.tokens[at].text.lower(), 0)
    for size in range(min(longest, len(segment.tokens) - at), 0, -1):
        tokens = segment.tokens[at : at + size]
        words = lexicon.words(tuple(t.text for t in tokens))
        if words:
            return Lexeme(words, at, at + size, row.mark(tokens[0].start, tokens[-1].end))
    return None


def _amount(segment: Segment, at: int, row: TextRow, findings: Findings) -> Lexeme | None:
    """'3/8', '½', '1 1/4': an amount of turn in eighths. Others than eighths become a finding."""
    token, whole, size = segment.tokens[at], 0, 1
    follows = segment.tokens[at + 1].text if at + 1 < len(segment.tokens) else ""
    if token.text.isdecimal() and len(token.text) == 1 and _fraction(follows) is not None:
        whole, size, token = int(token.text), 2, segment.tokens[at + 1]
    part = _fraction(token.text)
    if part is None:
        return None
    mark = row.mark(segment.tokens[at].start, token.end)
    eighths = (whole + part) * 8
    if eighths.denominator != 1:
        findings.error("turn-not-eighths", mark, f"'{token.text}' is no number of eighths; turns are 1/8, 1/4, 3/8 ...")
        return Lexeme((), at, at + size, mark)
    return Lexeme((), at, at + size, mark, int(eighths))


def _fraction(text: str) -> Fraction | None:
    found = FRACTION.fullmatch(VULGAR.get(text, text))
    if not found or int(found[2]) == 0:
        return None
    return Fraction(int(found[1]), int(found[2]))


def _guess(token: Token, at: int, row: TextRow, lexicon: Lexicon, findings: Findings) -> Lexeme:
    """An unknown word: a finding; reading goes on as if the nearest word stood there."""
    mark = row.mark(token.start, token.end)
    hint, near = did_you_mean(token.text, lexicon.spellings)
    plain = f"unknown word '{token.text[:60]}'"
    findings.error("unknown-word", mark, plain + (hint or "; put free words in round brackets"), near)
    words = lexicon.words(tuple((nearest(token.text, lexicon.spellings) or "?").split()))
    return Lexeme(words, at, at + 1, mark)
