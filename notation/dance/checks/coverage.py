"""Passages that follow each other with no gap and no overlap, up to the length of the sequence."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.rule import TWO_BARS, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked

STEPS = ("1  LF fwd", "2  RF side", "3  LF touch")


def _range(first: int, last: int) -> str:
    return f"bar {first}" if first == last else f"bars {first}-{last}"


def check_missing(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    at = 1
    for p in worked.dance.passages:
        if p.first > at:
            are = "is" if p.first - 1 == at else "are"
            message = f"{_range(at, p.first - 1)} {are} missing before this passage; write them, or correct 'bars'"
            yield MISSING.at(p.mark_of("bars"), message, bar=at)
        at = max(at, p.last + 1)
    length = worked.dance.length
    if at <= length:
        are = "is" if length == at else "are"
        message = f"the sequence has {length} bars, but {_range(at, length)} {are} missing at its end"
        yield MISSING.at(worked.dance.mark_of("length"), message, bar=at)


def check_overlap(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    at = 0
    for p in worked.dance.passages:
        if p.first <= at:
            message = f"{_range(p.first, min(at, p.last))} stand in the passage before too; correct 'bars'"
            yield OVERLAP.at(p.mark_of("bars"), message, bar=p.first)
        at = max(at, p.last)


def check_beyond(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    length = worked.dance.length
    for p in worked.dance.passages:
        if p.last > length:
            message = f"bar {p.last} lies beyond the {length} bars of the sequence; correct 'bars' or 'length'"
            yield BEYOND.at(p.mark_of("bars"), message, bar=p.last)


MISSING = Rule(
    "bars-missing",
    Severity.ERROR,
    "Bars of the sequence that no passage describes.",
    "Passages follow each other without a gap from bar 1 to the length of the sequence.",
    example(passage("1", *STEPS) + passage("3", *STEPS), length=3),
    example(passage("1", *STEPS) + passage("2", "1-3  RF touch"), length=2).replace("RF touch", "hold"),
    check_missing,
)
OVERLAP = Rule(
    "passage-overlap",
    Severity.ERROR,
    "Bars that two passages describe.",
    "Each bar stands in one passage only.",
    example(passage("1-2", *TWO_BARS) + passage("2-3", *TWO_BARS), length=3),
    example(passage("1-2", *TWO_BARS) + passage("3-4", *TWO_BARS), length=4),
    check_overlap,
)
BEYOND = Rule(
    "bars-beyond-length",
    Severity.ERROR,
    "A passage lies beyond the length of the sequence.",
    "The length counts the bars of one sequence, the introduction left out.",
    example(passage("1-2", *TWO_BARS), length=1),
    example(passage("1-2", *TWO_BARS), length=2),
    check_beyond,
)
