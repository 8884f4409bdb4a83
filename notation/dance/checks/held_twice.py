"""A hand that is needed by two holds, or by a hold and a clap."""
from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache

from notation.dance.checks.feet_run_on import where
from notation.dance.checks.hands import said_names
from notation.dance.checks.rule import EVEN_BAR, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.hold import Hold
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark, Said
from notation.dance.naming import named
from notation.dance.script import GENT, LADY, PARTS, Worked
from notation.dance.step import Action
from notation.dance.together import Moment, moments
from notation.dance.travel import article

AND = re.compile(r"\s*(?:\band\b|\+|,|;)\s*")
HANDS = {"L": "left hand", "R": "right hand"}
BOTH = 2


def check_hands(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    yield from _joined_holds(worked, knowledge)
    seen: set[Mark] = set()
    hold_of = cache(lambda said: named(said, knowledge.holds))
    for moment in moments(worked):
        for found in (*_two_said(moment, knowledge), *_claps(moment, hold_of(moment.hold))):
            if found.mark not in seen:
                seen.add(found.mark)
                yield found


def twice(holds: Iterable[Hold]) -> tuple[str, ...]:
    """The hands that more than one pair of those holds needs: "gent's right hand"."""
    pairs = {pair for hold in holds for pair in hold.hands}
    used = Counter((part, hand) for pair in pairs for part, hand in zip(PARTS, pair, strict=True))
    return tuple(f"{part}'s {HANDS[hand]}" for (part, hand), times in used.items() if times > 1)


def _joined_holds(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    """Two holds said at once: 'right hands and left open'."""
    for kind, said, bar in said_names(worked):
        holds = [named(Said(name, said.mark), knowledge.holds) for name in AND.split(said.text)]
        known = [hold for hold in holds if hold is not None]
        hands = twice(known) if kind == "hold" and not said.free and len(known) == len(holds) else ()
        if hands:
            message = f"'{said.text}' needs the {' and the '.join(hands)} twice; let one of the holds go"
            yield TWICE.at(said.mark, message, bar=bar)


def _two_said(moment: Moment, knowledge: Knowledge) -> Iterator[Finding]:
    """Each partner's step names a hold of its own at one moment."""
    said = {part: one.danced.step.hold for part, one in moment.steps.items()}
    holds = {part: hold for part, name in said.items() if (hold := named(name, knowledge.holds))}
    hands = twice(holds.values())
    if len(holds) == len(PARTS) and hands:
        danced = moment.steps[LADY].danced
        message = (
            f"bar {danced.bar} count {danced.count}: the gent's step says hold '{holds[GENT].name}' and the lady's"
            f" '{holds[LADY].name}', which need the {' and the '.join(hands)} twice; say one hold for both"
        )
        yield TWICE.at(danced.step.mark_of("hold"), message, bar=danced.bar, count=danced.count, part=LADY)


def _claps(moment: Moment, hold: Hold | None) -> Iterator[Finding]:
    if hold is None or not hold.hands:
        return
    for part, one in moment.steps.items():
        danced = one.danced
        if danced.step.action is Action.CLAP:
            taken = "both hands are" if len(hold.hands) == BOTH else "a hand is"
            message = (
                f"bar {danced.bar} count {danced.count}: the {part} claps, but in {article(hold.name)} hold {taken}"
                " joined with the partner's; write 'hold none' on the clap, and the hold again after it"
            )
            mark = where(moment.passage, danced) if moment.passage.written.repeat else danced.step.mark
            yield TWICE.at(mark, message, bar=danced.bar, count=danced.count, part=part)


TWICE = Rule(
    "hand-held-twice",
    Severity.ERROR,
    "A hand is needed by two holds, or by a hold and a clap.",
    "A hand can be in one place only. Let go of one hold first.",
    example(EVEN_BAR.replace("    gent", "    hold: right hands and left open\n    gent", 1)
            .replace("left open", "closed")),
    example(passage("1", "1  LF fwd", "2  RF side, hold none", "3  clap")),
    check_hands,
)
