"""Written-out steps under the heading of a library figure that do not make its turn."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.call import fits
from notation.dance.checks.rule import Rule, example
from notation.dance.feet import Foot
from notation.dance.figure import Figure, Unusable
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.script import GENT, PARTS, Danced, DancedPassage, Worked, Written
from notation.dance.together import aligned_parts
from notation.dance.turning import turn_words

ASIDE = 2
"""Eighths that a figure may turn more or less: partners open, close and lead into the next figure by as much."""


def check_figures(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    aligned = {part: {id(one.danced): one.eighths for one in ones} for part, ones in aligned_parts(worked).items()}
    for p in worked.passages:
        figure = _figure(p, worked, knowledge) if p.written.repeat is None else None
        for part in PARTS if figure is not None else ():
            steps = p.part(part)
            if isinstance(p.written.gent if part == GENT else p.written.lady, Written) and steps:
                yield from _differs(p, part, figure, sum(aligned[part][id(d)] for d in steps))


def _figure(p: DancedPassage, worked: Worked, knowledge: Knowledge) -> Figure | None:
    """The one figure that the heading names and that takes whole bars of the passage."""
    if p.written.figure is None:
        return None
    try:
        found = [f for f in knowledge.figures.named(p.written.figure.text) if fits(f, worked.dance)]
    except Unusable:
        return None
    bars = p.last - p.first + 1
    return found[0] if len(found) == 1 and not (bars / found[0].bars) % 1 and not found[0].variants else None


def _differs(p: DancedPassage, part: str, figure: Figure | None, eighths: int) -> Iterator[Finding]:
    assert figure is not None
    own = figure.part(part)
    times = int((p.last - p.first + 1) / figure.bars)
    stated = own.turn * times * _sense(p.part(part), own.start.foot)
    if not stated or abs(eighths - stated) <= ASIDE:
        return
    heading = p.written.figure
    assert heading is not None
    often = f"{figure.name}, {times} times" if times > 1 else figure.name
    message = (
        f"in bars {p.first}-{p.last} the {part} turns {turn_words(eighths)}; {often}, makes {turn_words(stated)}:"
        " look for a turn left out or turned the wrong way"
    )
    yield FIGURE.at(heading.mark, message, suggestion=turn_words(stated), bar=p.first, part=part)


def _sense(steps: tuple[Danced, ...], foot: Foot) -> int:
    """On the other foot a figure turns the other way."""
    first = next((d.step.foot for d in steps if d.step.foot in (Foot.LEFT, Foot.RIGHT)), foot)
    return 1 if first is foot else -1


_SQUARE = """\
  - bars: 1-4
    figure: Left square turn
    gent: |
{bars}    lady: opposite
"""


def _square(turn: str) -> str:
    bars = f"      S  LF fwd\n      S  RF side{turn}\n" * 4
    return example(_SQUARE.format(bars=bars), 4, "foxtrot")


FIGURE = Rule(
    "figure-turn-does-not-close",
    Severity.WARNING,
    "Steps under the heading of a library figure turn more or less than the figure.",
    "A turn that is left out on one step shows at the end of the figure. A quarter is allowed, for opening, closing and"
    " leading into the next figure.",
    _square(""),
    _square(", 1/4 L"),
    check_figures,
)
