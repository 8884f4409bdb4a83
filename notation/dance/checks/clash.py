"""Partners who would have to dance through each other."""
from __future__ import annotations

from collections.abc import Iterator, Mapping

from notation.dance.bodies import WIDEST, deepest, nearest
from notation.dance.checks.feet_run_on import where
from notation.dance.checks.places import floor_of
from notation.dance.checks.rule import EVEN_BAR, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.floor import Shown
from notation.dance.knowledge import Knowledge
from notation.dance.script import GENT, LADY, PARTS, Worked
from notation.dance.stepping import Dancer

THROUGH = 190.0
"""Millimetres by which two bodies may come into each other: three quarters of a chest, since places are estimates."""

MEETS = 200.0
"""Millimetres by which partners come nearer on a step that carries them into each other: less is the error of many
estimates."""


def check_overlap(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    """The first clash of the dance: what follows stands on it."""
    floor = floor_of(worked, knowledge)
    before: Mapping[str, Dancer] = floor.start
    last: Shown | None = None
    for shown in floor.moments:
        least = nearest(before, shown.dancers)
        near = WIDEST - least > THROUGH and before[GENT].centre.distance(before[LADY].centre) - least > MEETS
        depth = deepest(before, shown.dancers) if near and _steady(shown, before, last) else 0.0
        if depth > THROUGH:
            yield _clash(shown, depth)
            return
        before, last = shown.dancers, shown


def _steady(shown: Shown, before: Mapping[str, Dancer], last: Shown | None) -> bool:
    """Whether both move straight: neither turns, and the position and hold are those of the moment before."""
    if last is not None and (last.position, last.hold) != (shown.position, shown.hold):
        return False
    turned = any(shown.dancers[p].facing is not before[p].facing for p in PARTS)
    return not turned and all(shown.passage.part(p) for p in PARTS)


def _clash(shown: Shown, depth: float) -> Finding:
    part, landing = next(iter(shown.landings.items()))
    danced = landing.aligned.danced
    message = (
        f"in bar {shown.bar}, danced as written, the partners' bodies would come {depth / 1000:.1f} m into each other;"
        " one of them must go back, or aside, where the other comes forward"
    )
    return OVERLAP.at(where(shown.passage, danced), message, bar=shown.bar, count=danced.count, part=part)


_MEETING = ("1  RF fwd", "2  LF fwd", "3  hold")

OVERLAP = Rule(
    "partners-overlap",
    Severity.WARNING,
    "Partners dance through each other.",
    "Where one comes forward the other goes back. Look for 'fwd' written for 'back', or 'same' for 'opposite'. Bodies"
    " are as deep as the chest (ANSUR II, 2012); three quarters of that is allowed, since places are estimates.",
    example(passage("1", "1  LF fwd", "2  RF fwd", "3  hold", lady="|\n      " + "\n      ".join(_MEETING))),
    example(EVEN_BAR),
    check_overlap,
)
