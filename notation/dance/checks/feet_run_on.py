"""The weight followed from foot to foot: what the standing foot cannot do, and how the end joins the beginning."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.rule import Rule, example, passage
from notation.dance.feet import Foot
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import GENT, PARTS, Danced, DancedPassage, Stance, Worked
from notation.dance.weight import Fault, Weighed, standing_at_start, weigh


def check_steps(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    yield from _faults(worked, Fault.STEPS_AGAIN)


def check_gestures(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    yield from _faults(worked, Fault.GESTURES)


def check_hops(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    yield from _faults(worked, Fault.HOPS_ON_FREE)


def check_join(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for name in PARTS:
        start = standing_at_start(stance(worked, name))
        followed = list(_followed(worked, name))
        end = followed[-1][1].after if followed else None
        if start is None or end is None or end is start:
            continue
        passage, last = followed[-1]
        message = (
            f"after bar {last.danced.bar} the {name}'s {end.other.value} is free, but the sequence begins with"
            f" {start.other.value}; add or leave out one change of weight"
        )
        yield JOIN.at(where(passage, last.danced), message, bar=last.danced.bar, count=last.danced.count, part=name)


def stance(worked: Worked, name: str) -> Stance | None:
    return worked.start.gent if name == GENT else worked.start.lady


def where(passage: DancedPassage, danced: Danced) -> Mark:
    """Where to point: at the step, or at the repeat that dances it again."""
    repeat = passage.written.repeat
    return repeat.mark if repeat is not None else danced.step.mark_of("foot")


def _followed(worked: Worked, name: str) -> Iterator[tuple[DancedPassage, Weighed]]:
    """Every step of a part with the weight before and after it; a passage without steps ends the tracking."""
    standing = standing_at_start(stance(worked, name))
    for p in worked.passages:
        if not p.part(name):
            standing = None
        for weighed in weigh(p.part(name), standing):
            standing = weighed.after
            yield p, weighed


def _faults(worked: Worked, fault: Fault) -> Iterator[Finding]:
    """The faults of that kind; one that a derived part takes over from the partner's is told once."""
    seen: set[tuple[Mark, int]] = set()
    for name in PARTS:
        before: Danced | None = None
        for p, weighed in _followed(worked, name):
            place = (where(p, weighed.danced), weighed.danced.bar)
            if weighed.fault is fault and place not in seen:
                seen.add(place)
                yield _finding(fault, name, p, weighed, before)
            if weighed.danced.step.foot is not None:
                before = weighed.danced


def _finding(fault: Fault, name: str, p: DancedPassage, weighed: Weighed, before: Danced | None) -> Finding:
    danced = weighed.danced
    foot = danced.step.foot
    assert foot is not None and weighed.before is not None
    last = f"since bar {before.bar} count {before.count}" if before else "at the start"
    place = f"bar {danced.bar} count {danced.count}: the {name}"
    match fault:
        case Fault.STEPS_AGAIN:
            rule, said = STEPS, f"{place} steps on {foot.value} twice running; it bears the weight {last}"
        case Fault.GESTURES:
            rule, said = GESTURES, f"{place}'s {foot.value} cannot move freely; it bears the weight {last}"
        case _:
            stands = f"stands on {weighed.before.value} {last}"
            rule, said = HOPS, f"{place} hops on {foot.value}, but {stands}; from foot to foot say 'spring'"
    instead = foot.other.value if foot is not Foot.BOTH else None
    return rule.at(where(p, danced), said, suggestion=instead, bar=danced.bar, count=danced.count, part=name)


STEPS = Rule(
    "same-foot-twice",
    Severity.ERROR,
    "A foot that bears the weight already takes it again.",
    "The foot is not free. Look for a wrong foot, or a closing step that should be without weight ('touch'). A hop or a"
    " pivot on the standing foot is no fault.",
    example(passage("1", "1  LF fwd", "2  LF side", "3  RF close")),
    example(passage("1", "1  LF fwd", "2  RF side", "3  LF touch")),
    check_steps,
)
GESTURES = Rule(
    "standing-foot-moves",
    Severity.ERROR,
    "A foot that bears the weight points, touches, kicks or swings.",
    "Only the free foot can move without weight.",
    example(passage("1", "1  LF fwd", "2  RF side", "3  RF point fwd")),
    example(passage("1", "1  LF fwd", "2  RF side", "3  LF point fwd")),
    check_gestures,
)
HOPS = Rule(
    "hop-on-free-foot",
    Severity.ERROR,
    "A hop on the foot that does not bear the weight.",
    "A hop leaves and meets the floor on the same foot; from one foot to the other it is a spring.",
    example(passage("1", "1  LF fwd", "2  RF hop", "3  hold")),
    example(passage("1", "1  LF fwd", "2  LF hop", "3  RF close")),
    check_hops,
)
JOIN = Rule(
    "sequence-does-not-join",
    Severity.ERROR,
    "At the end another foot is free than at the beginning.",
    "A sequence is danced again and again: its end must lead into its beginning.",
    example(passage("1", "1  LF fwd", "2  RF side", "3  LF close")),
    example(passage("1", "1  LF fwd", "2  RF side", "3  LF touch")),
    check_join,
)
