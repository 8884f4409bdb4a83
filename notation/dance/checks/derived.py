"""A derived part that goes where the hold does not let it: together in a facing hold, apart side by side."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.rule import EVEN_BAR, Rule, example
from notation.dance.finding import Finding, Severity
from notation.dance.floor import CLOSE
from notation.dance.hold import Hold, Position
from notation.dance.knowledge import Knowledge
from notation.dance.naming import named
from notation.dance.script import GENT, LADY, PARTS, Danced, DancedPassage, Derivation, Derived, Part, Worked
from notation.dance.step import Action, Body
from notation.dance.together import Moment, by_passage
from notation.dance.travel import article
from notation.dance.turning import HALF

AHEAD = {Action.FORWARD: 1, Action.DIAGONALLY_FORWARD: 1, Action.BACK: -1, Action.DIAGONALLY_BACK: -1}
OPENS = frozenset({Body.PP, Body.CPP})
APART = 1000.0
"""Reach in millimetres from which a hold lets partners go a step apart: unusual, but it can be danced."""
INSTEAD = {HALF: Derivation.OPPOSITE, 0: Derivation.MIRROR}


def check_derived(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for p, group in by_passage(worked):
        derived = [(part, how) for part in PARTS if isinstance(how := _written(p, part), Derived)]
        if p.written.repeat is not None or not derived:
            continue
        for moment in group:
            position, hold = named(moment.position, knowledge.positions), named(moment.hold, knowledge.holds)
            if position and hold and hold.hands and _binds(position, hold) and _cannot(moment, position):
                yield _finding(moment, *derived[0], position, hold)
                break


def _written(p: DancedPassage, part: str) -> Part | None:
    return p.written.gent if part == GENT else p.written.lady


def _binds(position: Position, hold: Hold) -> bool:
    """Facing partners in a close hold go one ahead, the other back; partners who face alike go the same way."""
    return position.turn == 0 or (position.turn == HALF and hold.reach is not None and hold.reach <= CLOSE)


def _cannot(moment: Moment, position: Position) -> bool:
    """Both go ahead, or both back, facing each other; or one each, facing alike. Who does not face as the position
    says, opens to promenade or turns is left to other rules."""
    steps, gent, lady = moment.steps, moment.feet[GENT], moment.feet[LADY]
    if len(steps) < len(PARTS) or gent is None or lady is None or gent.turned(position.turn) is not lady:
        return False
    if any(OPENS & set(one.danced.step.body) or one.eighths for one in steps.values()):
        return False
    return _way(steps[GENT].danced) * _way(steps[LADY].danced) == (1 if position.turn == HALF else -1)


def _finding(moment: Moment, part: str, how: Derived, position: Position, hold: Hold) -> Finding:
    gent, lady = (moment.steps[one].danced for one in PARTS)
    ways = {1: "forward", -1: "back"}
    instead = INSTEAD[position.turn]
    loose = hold.reach is None or hold.reach > APART
    never = "that takes them apart" if loose else "they cannot"
    hint = f": did you mean '{instead.value}'?" if instead is not how.how else ""
    message = (
        f"'{how.how.value}' takes the gent {ways[_way(gent)]} and the lady {ways[_way(lady)]} in bar {gent.bar}"
        f" count {gent.count}; in {position.name} position and {article(hold.name)} hold {never}{hint}"
    )
    return RULE.at(
        how.mark, message, suggestion=instead.value, bar=gent.bar, count=gent.count, part=part,
        severity=Severity.WARNING if loose else Severity.ERROR,
    )


def _way(danced: Danced) -> int:
    return AHEAD.get(danced.step.action, 0) if danced.step.weight else 0


RULE = Rule(
    "derived-part-not-in-hold",
    Severity.ERROR,
    "A part that follows from the partner's cannot be danced in this hold.",
    f"In a facing hold that keeps the bodies together, the {LADY} goes back where the {GENT} goes forward: 'opposite'."
    " Side by side, in shadow and in tandem both go the same way: 'mirror' or 'same'.",
    example(EVEN_BAR.replace("opposite", "mirror")),
    example(EVEN_BAR),
    check_derived,
)
