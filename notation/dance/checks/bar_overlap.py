"""A step that is still going on when the next one begins."""
from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from notation.dance.checks.counted import counted_parts
from notation.dance.checks.rule import Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked


def check(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for part in counted_parts(worked):
        for one, two in pairwise(part.steps):
            if one.end is not None and one.end > two.onset:
                bar, count = part.passage.first + two.bar - 1, two.step.count
                message = (
                    f"bar {bar}: the step on {one.step.count.text} still lasts when the {part.name}'s step on"
                    f" {count.text} begins; shorten the first or move the second"
                )
                yield RULE.at(count.mark, message, bar=bar, count=count.text, part=part.name)


RULE = Rule(
    "bar-overlap",
    Severity.ERROR,
    "Two steps of one dancer overlap in time.",
    "A count such as 1-2 says that the step lasts through beat 2, so the next cannot begin on 2.",
    example(passage("1", "1-2  LF fwd", "2    RF side", "3    hold")),
    example(passage("1", "1    LF fwd", "2-3  RF side")),
    check,
)
