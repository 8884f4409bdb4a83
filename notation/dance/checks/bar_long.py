"""A bar with more beats than its metre, or more bars than the passage says."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.counted import CountedPart, counted_parts
from notation.dance.checks.rule import Rule, example, passage
from notation.dance.counting import Counted
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked


def check(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for part in counted_parts(worked):
        beyond = [c for c in part.steps if _beyond_metre(c, part.metre.beats)]
        for counted in beyond:
            yield _count_too_high(counted, part)
        extra = next((c for c in part.steps if c.bar > part.bars and c not in beyond), None)
        if extra is not None:
            yield _bars_too_many(extra, part)
        elif _letters_run_over(part):
            yield _over_end(part.steps[-1], part)


def _beyond_metre(counted: Counted, beats: int) -> bool:
    count = counted.step.count
    return max(count.beat or 0, count.until or 0) > beats


def _count_too_high(counted: Counted, part: CountedPart) -> Finding:
    count, bar = counted.step.count, part.passage.first + counted.bar - 1
    message = f"count {count.text} in bar {bar}: a bar of {part.metre} has only {part.metre.beats} beats"
    return RULE.at(count.mark, message, bar=bar, count=count.text, part=part.name)


def _bars_too_many(counted: Counted, part: CountedPart) -> Finding:
    count, passage = counted.step.count, part.passage
    bars = f"bar {passage.first} is" if part.bars == 1 else f"bars {passage.first}-{passage.last} are"
    message = (
        f"{bars} full for the {part.name} before count {count.text}, which opens one more bar;"
        " take a step out, give two steps one count with &, or let the passage have more bars"
    )
    return RULE.at(count.mark, message, bar=passage.last, count=count.text, part=part.name)


def _letters_run_over(part: CountedPart) -> bool:
    """S and Q must fill the bars exactly; a range such as 4-1 may run over into the next passage."""
    if not part.steps:
        return False
    last = part.steps[-1]
    return bool(last.step.count.letter) and last.end is not None and last.end > part.beats


def _over_end(last: Counted, part: CountedPart) -> Finding:
    assert last.end is not None
    over, count = last.end - part.beats, last.step.count
    message = f"the {part.name}'s S and Q are {over} beat{'s' if over > 1 else ''} too long for bar {part.passage.last}"
    return RULE.at(count.mark, message, bar=part.passage.last, count=count.text, part=part.name)


RULE = Rule(
    "bar-long",
    Severity.ERROR,
    "A bar has more beats of steps than its metre, or a passage more bars than it says.",
    "The last steps fall into the next figure's music. Look for a count that is too high for the metre, or one that is"
    " not later than the one before it and so opens another bar.",
    example(passage("1", "1  LF fwd", "2  RF side", "3  LF close", "4  RF back")),
    example(passage("1", "1  LF fwd", "2  RF side", "3  LF touch")),
    check,
)
