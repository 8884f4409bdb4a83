"""The calls of a passage: both partners' figures, and the part that follows from a call of the partner's."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from notation.dance.call import Wanted, understand
from notation.dance.calling import Made, dance_out, partner_wanted
from notation.dance.figure import Library
from notation.dance.finding import Finding
from notation.dance.joining import Place
from notation.dance.naming import capital
from notation.dance.partner import partner_steps
from notation.dance.script import GENT, LADY, Call, Called, Dance, Danced, Derivation, Derived, Passage


def wanted_calls(passage: Passage, dance: Dance, library: Library) -> tuple[dict[str, Wanted], tuple[Finding, ...]]:
    """What the calls of a passage ask for, by part; findings where that is not clear."""
    calls: dict[str, Wanted] = {}
    findings: list[Finding] = []
    for name, call in ((GENT, passage.gent), (LADY, passage.lady)):
        if isinstance(call, Call):
            wanted, found = understand(call, dance, library, name, passage.first)
            findings += found
            if wanted is not None:
                calls[name] = wanted
    return calls, tuple(findings)


def called_parts(
    calls: Mapping[str, Wanted], unclear: Sequence[Finding], places: Mapping[str, Place]
) -> tuple[dict[str, Made], list[Finding]]:
    """The parts of a passage that are calls, danced. unclear: what was found before."""
    made = {name: dance_out(wanted, places[name]) for name, wanted in calls.items()}
    return made, _once([*unclear, *(finding for one in made.values() for finding in one.findings)])


def _once(findings: list[Finding]) -> list[Finding]:
    """What is wrong with both partners' calls in the same words is told once."""
    seen: set[tuple[str, str]] = set()
    kept = []
    for finding in findings:
        told = (finding.rule, finding.message)
        if told not in seen:
            kept.append(finding)
        seen.add(told)
    return kept


def derived_from_call(partner: Made, part: Derived, at: Place) -> tuple[Danced, ...] | None:
    """The part opposite to a call as the figure itself gives it; None where it follows step by step."""
    if part.how is not Derivation.OPPOSITE:
        return None
    call = partner.wanted.call
    wanted = partner_wanted(partner, call, at.part)
    if wanted is not None:
        return dance_out(wanted, replace(at, derived=True)).steps
    steps = partner_steps(tuple(d.step for d in partner.steps), _by_figure(partner.wanted), at.part)
    return tuple(replace(d, step=step) for d, step in zip(partner.steps, steps, strict=True))


def _by_figure(wanted: Wanted) -> Derivation:
    opposite = wanted.figure.opposite
    return opposite if isinstance(opposite, Derivation) else Derivation.OPPOSITE


def called_of(part: str, made: Made) -> Called:
    """What a sheet says of a call besides its steps."""
    call, figure = made.wanted.call, made.wanted.figure
    text = ", ".join((call.name.text, *(modifier.text for modifier in call.modifiers)))
    return Called(part, figure.name, text, figure.arms, figure.cautions)


def heading_of(called: tuple[Called, ...]) -> str:
    """The heading of a passage that has none of its own: the figures called in it."""
    names = dict.fromkeys(one.figure for one in called)
    return capital(" and ".join(names))
