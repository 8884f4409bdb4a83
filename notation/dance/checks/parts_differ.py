"""Gent and lady with different numbers of bars."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.counted import CountedPart, counted_parts
from notation.dance.checks.rule import TWO_BARS, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import GENT, LADY, Worked


def check(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    pairs: dict[int, dict[str, CountedPart]] = {}
    for part in counted_parts(worked):
        pairs.setdefault(id(part.passage), {})[part.name] = part
    for both in pairs.values():
        if len(both) == 2 and both[GENT].bars_used != both[LADY].bars_used:
            p = both[GENT].passage
            message = (
                f"bars {p.first}-{p.last}: the gent has {_bars(both[GENT])} of steps, the lady {_bars(both[LADY])};"
                " add what is missing, or take out what is too much"
            )
            yield RULE.at(p.mark_of(LADY), message, bar=p.first, part=LADY)


def _bars(part: CountedPart) -> str:
    return f"{part.bars_used} bar{'' if part.bars_used == 1 else 's'}"


RULE = Rule(
    "parts-differ-in-length",
    Severity.ERROR,
    "Gent and lady have different numbers of bars in one passage.",
    "They would part company at the end of the shorter one.",
    example(passage("1-2", *TWO_BARS, lady="|\n      1  RF back\n      2  LF side\n      3  RF touch"), length=2),
    example(passage("1-2", *TWO_BARS), length=2),
    check,
)
