"""What a single step cannot have: CBM on a side step, too much swivel, positions of another way of holding the feet."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.feet_run_on import where
from notation.dance.checks.rule import Rule, example, passage
from notation.dance.feet import TurnOut
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import Worked
from notation.dance.step import Action, Body
from notation.dance.together import moments
from notation.dance.turning import Aligned, turn_words

SQUARE = frozenset({Action.SIDE, Action.CLOSE})
ALLOWED = {3: 1, 5: 2}
"""Eighths by which a swivel changes the foot in front, from 3rd to 3rd and from 5th to 5th (old-time waltz technique,
pedagorg.dreamhosters.com/dance/dancex.htm)."""


def check_cbm(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    seen: set[Mark] = set()
    for moment in moments(worked):
        for part, one in moment.steps.items():
            danced, step = one.danced, one.danced.step
            if Body.CBM in step.body and step.action in SQUARE and step.mark not in seen:
                seen.add(step.mark)
                message = (
                    f"bar {danced.bar} count {danced.count}: CBM turns the opposite side of the body towards a foot"
                    f" that goes forward or back; on a {step.action.value} step there is none: leave it out"
                )
                mark = where(moment.passage, danced) if moment.passage.written.repeat else step.mark_of("body")
                yield CBM.at(mark, message, bar=danced.bar, count=danced.count, part=part)


def check_swivel(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    seen: set[Mark] = set()
    if worked.dance.feet is not TurnOut.TURNED_OUT:
        return
    for moment in moments(worked):
        for part, one in moment.steps.items():
            most = _most(one)
            if most is not None and abs(one.eighths) > most and one.danced.step.mark not in seen:
                seen.add(one.danced.step.mark)
                yield _swivel(one, part, most, where(moment.passage, one.danced))


def _most(one: Aligned) -> int | None:
    """Eighths that the position reached on this step allows; None where it is no swivel in 3rd or 5th."""
    step = one.danced.step
    number = step.place.position if step.place else None
    return ALLOWED.get(number or 0) if step.action is Action.IN_PLACE else None


def _swivel(one: Aligned, part: str, most: int, mark: Mark) -> Finding:
    danced, place = one.danced, one.danced.step.place
    assert place is not None
    ordinal = {3: "3rd", 5: "5th"}[place.position or 3]
    message = (
        f"bar {danced.bar} count {danced.count}: {turn_words(one.eighths)} on the spot in {ordinal}; a swivel from"
        f" {ordinal} to {ordinal} gives {turn_words(most).removesuffix(' to L')}: share the turn with another step"
    )
    return SWIVEL.at(mark, message, bar=danced.bar, count=danced.count, part=part)


_FEET = "tempo: 30\nfeet: turned-out"

CBM = Rule(
    "cbm-on-side-step",
    Severity.WARNING,
    "CBM on a side or closing step.",
    "Contrary body movement belongs to forward and back steps only (en.wikipedia.org, 'Contra body movement').",
    example(passage("1", "1  LF fwd", "2  RF side, CBM", "3  hold")),
    example(passage("1", "1  LF fwd, CBM", "2  RF side", "3  hold")),
    check_cbm,
)
SWIVEL = Rule(
    "swivel-too-far",
    Severity.WARNING,
    "A swivel on the spot in 3rd or 5th turns further than the feet allow.",
    "Changing the foot in front by a swivel gives an eighth in 3rd and a quarter in 5th (old-time waltz technique,"
    " dancex.htm). More forces the knees: share the turn with the steps beside it.",
    example(passage("1", "1  LF fwd", "2  RF in place 5th front, 1/2 R", "3  LF touch, 1/2 L"))
    .replace("tempo: 30", _FEET),
    example(passage("1", "1  LF fwd", "2  RF in place 5th front, 1/4 R", "3  LF touch, 1/4 L"))
    .replace("tempo: 30", _FEET),
    check_swivel,
)
RULES = (CBM, SWIVEL)
