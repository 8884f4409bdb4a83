"""Counts that go back in their bar."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.counted import counted_parts
from notation.dance.checks.rule import Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked


def check(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for part in counted_parts(worked):
        for before, counted in zip((None, *part.steps), part.steps, strict=False):
            if counted.disordered:
                count, bar = counted.step.count, part.passage.first + counted.bar - 1
                after = f" after {before.step.count.text}" if before else ""
                message = (
                    f"count {count.text}{after} goes back, so it opens bar {bar} after its beginning;"
                    " put the counts in order, or write '1 hold' where the new bar begins"
                )
                yield RULE.at(count.mark, message, bar=bar, count=count.text, part=part.name)


RULE = Rule(
    "counts-out-of-order",
    Severity.ERROR,
    "A count goes back, or a bar line does.",
    "A count that is not later than the one before it opens the next bar. Where it opens that bar elsewhere than on 1,"
    " two lines have most likely changed places.",
    example(passage("1-2", "1  LF fwd", "3  RF side", "2  LF close", "3  RF close"), length=2),
    example(passage("1-2", "1  LF fwd", "2  RF side", "3  LF close", "1-3  RF back"), length=2),
    check,
)
