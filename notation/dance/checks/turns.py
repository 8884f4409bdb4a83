"""The turn: alignments that contradict it, sequences that do not close, partners who do not face as they should."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.feet_run_on import stance, where
from notation.dance.checks.rule import EVEN_BAR, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.naming import named
from notation.dance.script import GENT, LADY, PARTS, DancedPassage, Worked
from notation.dance.step import Action, Body
from notation.dance.together import Moment, aligned_parts, by_passage, moments
from notation.dance.turning import Aligned, facing_at_start, room_words, turn_words

TURNS_AWAY = frozenset({Body.PP, Body.CPP, Body.TURNS_LESS})
NEAR = 1
"""Eighths that a facing may differ from a position: partners open and close to each other by as much."""
OPENING = 2
"""Eighths by which partners open from facing to side by side, as at the end of the Veleta (Lloyd Shaw cue sheet)."""


def check_contradictions(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    seen: set[tuple[Mark, int]] = set()
    for moment in moments(worked):
        for part, one in moment.steps.items():
            place = (where(moment.passage, one.danced), one.danced.bar)
            if one.against is not None and place not in seen:
                seen.add(place)
                yield _contradiction(moment.passage, part, one)


def _contradiction(p: DancedPassage, part: str, one: Aligned) -> Finding:
    step, danced = one.danced.step, one.danced
    assert step.turn and step.alignment and one.before and one.feet and one.against
    fitting = turn_words(one.before.eighths_to(one.feet))
    message = (
        f"bar {danced.bar} count {danced.count}: the {part}'s toes point {room_words(one.before)}, and with"
        f" {turn_words(step.turn.eighths)} they come to point {room_words(one.against)}, not {room_words(one.feet)};"
        f" {step.alignment.mode.value} {room_words(step.alignment.room)} takes {fitting}"
    )
    mark = where(p, danced) if p.written.repeat else step.mark_of("alignment")
    return CONTRADICTS.at(mark, message, suggestion=fitting, bar=danced.bar, count=danced.count, part=part)


def check_closing(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    aligned = aligned_parts(worked)
    for part in PARTS:
        steps, start = aligned[part], facing_at_start(stance(worked, part))
        if not steps or start is None or steps[-1].feet is None or not worked.passages[-1].part(part):
            continue
        end = steps[-1].feet
        first = steps[0].feet if steps[0].said else start
        assert first is not None
        off = min((end.eighths_to(start), end.eighths_to(first)), key=abs)
        if abs(off) > (OPENING if _regroups(worked, knowledge) else NEAR):
            danced = steps[-1].danced
            message = (
                f"after bar {danced.bar} the {part} faces {room_words(end)}, but the sequence begins facing"
                f" {room_words(start)}; {turn_words(off)} is missing"
            )
            mark = where(worked.passages[-1], danced)
            yield OPEN.at(mark, message, bar=danced.bar, count=danced.count, part=part)


def _regroups(worked: Worked, knowledge: Knowledge) -> bool:
    """Whether the end stands in another position than the beginning, or in none that is known."""
    start = named(worked.start.position, knowledge.positions)
    end = named(worked.passages[-1].position, knowledge.positions)
    return start is None or end is None or start != end


def check_facing(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    for p, group in by_passage(worked):
        position = named(p.written.position, knowledge.positions)
        held = list(group)
        if position is None or p.written.repeat is not None or _turns_away(held):
            continue
        offs = [abs((position.turn - off) % 8) for off in _between(held)]
        if offs and min(min(off, 8 - off) for off in offs) > NEAR:
            last = held[-1].feet
            gent, lady = last[GENT], last[LADY]
            assert gent is not None and lady is not None
            message = (
                f"in bars {p.first}-{p.last} the gent ends facing {room_words(gent)} and the lady {room_words(lady)};"
                f" at no moment do they stand as '{position.name}' says; change a turn or the position"
            )
            yield FACING.at(p.written.mark_of("position"), message, bar=p.first)


def _turns_away(held: list[Moment]) -> bool:
    """Whether the steps themselves say that a body turns out of the position."""
    steps = [one.danced.step for moment in held for one in moment.steps.values()]
    return any(s.position or s.action is Action.TURN_UNDER or TURNS_AWAY & set(s.body) for s in steps)


def _between(held: list[Moment]) -> Iterator[int]:
    for moment in held:
        gent, lady = moment.feet[GENT], moment.feet[LADY]
        if gent is not None and lady is not None:
            yield gent.eighths_to(lady)



CONTRADICTS = Rule(
    "alignment-contradicts-turn",
    Severity.ERROR,
    "The alignment written on a step is not where the written turn leads.",
    "Turn adds up from step to step, read from the feet. Look for L written for R, or for the alignment of another"
    " step.",
    example(passage("1", "1  LF fwd, 1/4 L, facing wall", "2  RF side, 1/4 R, facing LOD", "3  hold")),
    example(passage("1", "1  LF fwd, 1/4 L, facing centre", "2  RF side, 1/4 R, facing LOD", "3  hold")),
    check_contradictions,
)
OPEN = Rule(
    "sequence-turn-does-not-close",
    Severity.WARNING,
    "At the end a partner faces another way than at the beginning.",
    "A sequence is danced again and again. Add the turn that is missing, or write the alignment of the last step. An"
    " eighth is allowed, and a quarter where the dance ends in another position than it begins in: partners open or"
    " close by as much as they begin again.",
    example(passage("1", "1  LF fwd", "2  RF side, 3/8 L", "3  hold")),
    example(passage("1", "1  LF fwd, 1/4 L", "2  RF side, 1/4 R", "3  hold")),
    check_closing,
)
FACING = Rule(
    "facing-does-not-fit-position",
    Severity.WARNING,
    "At no moment of a passage do the partners face as its position says.",
    "In closed position partners face each other, side by side they face the same way. Change a turn, or name the"
    " position that they are in.",
    example(EVEN_BAR.replace("    gent", "    position: side by side\n    gent")),
    example(EVEN_BAR.replace("    gent", "    position: closed\n    gent")),
    check_facing,
)
RULES = (CONTRADICTS, OPEN, FACING)
