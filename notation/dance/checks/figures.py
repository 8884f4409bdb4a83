"""Figures of the library: calls that cannot be danced, and written-out steps that are a figure danced differently."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.call import fits
from notation.dance.checks.rule import Rule, example
from notation.dance.figure import Figure, Unusable
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.likeness import differences
from notation.dance.script import GENT, PARTS, Dance, DancedPassage, Worked, Written

CALLS = "figure-"
MOST = 3
"""Differences that a note lists."""


def _calls(call: str, bars: str = "1-2", length: int = 2, rhythm: str = "waltz", tempo: str = "30") -> str:
    return example(f"  - bars: {bars}\n    gent: {call}\n    lady: opposite\n", length, rhythm, tempo)


def _balance(call: str, length: int = 2) -> str:
    return _calls(call, f"1-{length}", length)


UNKNOWN = Rule(
    "figure-unknown",
    Severity.ERROR,
    "A part names a figure that the library does not have, or whose file cannot be used.",
    "'lodestep figures' lists the library; own figures stand in the folder 'figures' beside the dance.",
    _balance("ballance turns round"),
    _balance("canter, twice"),
)
AMBIGUOUS = Rule(
    "figure-ambiguous",
    Severity.ERROR,
    "A part names a figure by a name that several have in this rhythm.",
    "Call it by the name that only one of them has.",
    _balance("hesitation"),
    _balance("balance"),
)
RHYTHM = Rule(
    "figure-other-rhythm",
    Severity.ERROR,
    "A part calls a figure of another rhythm.",
    "Its steps do not fit this music. Call a figure of the rhythm, or write the steps out.",
    _balance("rumba box"),
    _balance("balance"),
)
MODIFIER = Rule(
    "figure-modifier",
    Severity.ERROR,
    "What stands after the name of a figure cannot be said of it.",
    "After the name stand a foot, how often, a half, a variant or an alignment, between commas.",
    _balance("balance, from rotary half"),
    _balance("balance, LF"),
)
FOOT = Rule(
    "figure-wrong-foot",
    Severity.ERROR,
    "A called figure begins with a foot that is not free, or is danced on a foot that has another figure.",
    "Change the weight before it, or call the figure that begins with the free foot.",
    _balance("balance, RF"),
    _balance("balance, LF"),
)
JOIN = Rule(
    "figure-does-not-join",
    Severity.ERROR,
    "A called figure does not join what is danced before it: the position, the alignment or the weight.",
    "Lead into it, or say the position over its steps.",
    _balance("balance, facing ALOD"),
    _balance("balance, facing LOD"),
)
FIT = Rule(
    "figure-does-not-fit",
    Severity.ERROR,
    "A call takes more or fewer bars than its passage has.",
    "Correct 'bars', or say how often the figure is danced.",
    _balance("canter", 2),
    _balance("canter, twice", 2),
)

_WRITTEN = """\
  - bars: 1-2
    figure: Balance
    gent: |
      1    LF fwd
      2-3  RF touch
      1    RF {action}
      2-3  LF touch
    lady: opposite
"""


def check_differences(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for passage in worked.passages:
        if passage.repeated is not None or not passage.figure:
            continue
        for figure in _figures(passage, worked.dance, knowledge):
            for part in PARTS:
                yield from _different(passage, part, figure)


def _figures(passage: DancedPassage, dance: Dance, knowledge: Knowledge) -> list[Figure]:
    """The one figure that the heading names, if it does; a file that cannot be used is told where it is called."""
    try:
        found = [f for f in knowledge.figures.named(passage.figure) if fits(f, dance)]
    except Unusable:
        return []
    return found if len(found) == 1 else []


def _different(passage: DancedPassage, part: str, figure: Figure) -> Iterator[Finding]:
    written = passage.written.gent if part == GENT else passage.written.lady
    if not isinstance(written, Written):
        return
    ways = differences(figure, part, passage.part(part))
    if not ways:
        return
    more = f"; and {len(ways) - MOST} more" if len(ways) > MOST else ""
    message = f"the {part}'s steps are the library's '{figure.name}' but for {'; '.join(ways[:MOST])}{more}"
    heading = passage.written.figure
    yield DIFFERENT.at(heading.mark if heading else written.mark, message, bar=passage.first, part=part)


DIFFERENT = Rule(
    "figure-danced-differently",
    Severity.NOTE,
    "Steps under the heading of a library figure are not quite the figure's.",
    "It may be meant so; where not, call the figure by its name, or correct the step.",
    example(_WRITTEN.format(action="side"), 2),
    example(_WRITTEN.format(action="back"), 2),
    check_differences,
)
RULES = (UNKNOWN, AMBIGUOUS, RHYTHM, MODIFIER, FOOT, JOIN, FIT, DIFFERENT)
