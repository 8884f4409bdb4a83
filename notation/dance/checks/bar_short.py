"""A bar short of beats."""
from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from notation.dance.checks.counted import CountedPart, counted_parts
from notation.dance.checks.rule import TWO_BARS, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import Worked
from notation.dance.step import Action


def check(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    parts = counted_parts(worked)
    full = {id(part.passage) for part in parts if part.bars_used >= part.bars}
    for part in parts:
        if not part.steps:
            yield _finding(part, part.part.mark, Fraction(0), part.beats)
            continue
        yield from _gaps(part)
        if id(part.passage) not in full:
            yield from _bars_unfilled(part)
        yield from _stops_early(part)


def _gaps(part: CountedPart) -> Iterator[Finding]:
    """Beats that nothing fills: before the first step, and after a count that says where it ends."""
    first = part.steps[0]
    if first.onset > 0 and not part.late_start:
        yield _finding(part, first.step.count.mark, Fraction(0), first.onset)
    ends = [c.onset for c in part.steps[1:]]
    for counted, following in zip(part.steps, [*ends, part.beats], strict=True):
        if counted.end is not None and counted.end < following:
            yield _finding(part, counted.step.count.mark, counted.end, following)


def _bars_unfilled(part: CountedPart) -> Iterator[Finding]:
    """Bars after the last step, where the partner does not fill them either (else the parts differ in length)."""
    last = part.steps[-1]
    if last.end is None and part.bars_used < part.bars:
        yield _finding(part, last.step.count.mark, Fraction(part.bars_used * part.metre.beats), part.beats)


def _finding(part: CountedPart, mark: Mark, start: Fraction, end: Fraction) -> Finding:
    bar, beats, missing = part.bar_number(start), part.metre.beats, end - start
    if missing >= beats and start % beats == 0:
        what = f"the {part.name} has no steps in bar {bar}"
    else:
        many = f"{missing} beat{'s' if missing > 1 else ''}"
        what = f"bar {bar} is {many} short for the {part.name}: nothing at count {part.beat_number(start)}"
    return RULE.at(mark, f"{what}; add the step, or write 'hold' on that count", bar=bar, part=part.name)


def _stops_early(part: CountedPart) -> Iterator[Finding]:
    """Bars whose plain counts run 1, 2 ... and stop before the last: allowed, but more often a beat forgotten."""
    for bar in range(1, min(part.bars, part.bars_used) + 1):
        steps = [c for c in part.steps if c.bar == bar]
        beats = [c.beat for c in steps]
        plain = all(c.end is None and not c.step.count.letter for c in steps)
        stops = 2 <= len(steps) < part.metre.beats and beats == [Fraction(i) for i in range(len(steps))]
        if plain and stops and steps[-1].step.action is not Action.HOLD:
            last, number = steps[-1], part.passage.first + bar - 1
            upto = f"{len(steps)}-{part.metre.beats}"
            message = (
                f"bar {number} stops at count {len(steps)} of {part.metre.beats} for the {part.name};"
                f" write '{upto}' if that step lasts, or add the step on count {len(steps) + 1}"
            )
            yield RULE.at(
                last.step.count.mark, message, suggestion=upto, bar=number, count=last.step.count.text,
                part=part.name, severity=Severity.WARNING,
            )


RULE = Rule(
    "bar-short",
    Severity.ERROR,
    "A bar has fewer beats of steps than its metre.",
    "Sixty dancers arrive at the next bar before the band does. S and Q, and counts that say where they end, must fill"
    " the bars of their passage exactly. A bar counted 1, 2 that leaves 3 empty is allowed, since a step lasts until"
    " the next one begins, but is warned of: write '2-3', or '3 hold'.",
    example(passage("1-2", "1  LF fwd", "2  RF side", "3  LF touch"), length=2),
    example(passage("1-2", *TWO_BARS), length=2),
    check,
)

