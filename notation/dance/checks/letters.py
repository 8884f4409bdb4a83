"""S and Q where the trade has not settled what they last."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.counted import counted_parts
from notation.dance.checks.rule import Rule, example, passage
from notation.dance.counting import slow_quick
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked


def check(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    lengths = slow_quick(worked.metre)
    if lengths.settled:
        return
    for part in counted_parts(worked):
        first = next((c for c in part.steps if c.step.count.letter), None)
        if first is not None:
            message = (
                f"S and Q have no settled length in {worked.metre}; they are read as {lengths.slow} and"
                f" {lengths.quick} beats: write numbers to be sure"
            )
            yield RULE.at(
                first.step.count.mark, message, bar=part.passage.first, count=first.step.count.text, part=part.name
            )
            return


RULE = Rule(
    "slow-quick-unsettled",
    Severity.WARNING,
    "S and Q in a metre where the trade does not agree on their length.",
    "In 4/4 S is two beats and Q one, in 2/4 one and a half. Elsewhere cribs differ, so numbers are safer.",
    example(passage("1", "S  LF fwd", "Q  RF close")),
    example(passage("1", "1-2  LF fwd", "3    RF close")),
    check,
)
