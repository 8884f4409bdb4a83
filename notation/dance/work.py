"""A dance worked out: both parts in their places, derived parts made, repeats written out.

Nothing is refused here: what cannot be worked out becomes a finding, and the rest goes on.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

from notation.bounds import PASSAGES, STEPS
from notation.dance.call import Wanted
from notation.dance.calls import called_of, called_parts, derived_from_call, heading_of, wanted_calls
from notation.dance.counting import count_lines, danced
from notation.dance.feet import TurnOut
from notation.dance.finding import Finding, Severity
from notation.dance.joining import Place, Standing, at_start, standing_position
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Said
from notation.dance.metre import Metre
from notation.dance.naming import named
from notation.dance.partner import partner_head, partner_steps
from notation.dance.repeats import written_out
from notation.dance.script import (
    GENT,
    LADY,
    PARTS,
    Call,
    Called,
    Dance,
    Danced,
    DancedPassage,
    Derived,
    Heads,
    Passage,
    Replacement,
    Worked,
    Written,
)
from notation.dance.starting import start_of
from notation.kept import SHORT, Kept, Same

UNKNOWN_METRE = Metre(4, 4)

Alone = tuple[DancedPassage, tuple[Finding, ...]]

MANY = 16  # bars of a passage, or times of a call, that are too many to be kept
ALONE: Kept[Alone] = Kept(2 * PASSAGES.most)
"""As they were worked out, while a writer works elsewhere in the dance."""


@dataclass(frozen=True, slots=True)
class Given:
    """What stands before a passage: metre, feet, the position and hold in force, how each partner stands."""

    dance: Dance
    metre: Metre
    knowledge: Knowledge
    position: Said | None
    hold: Said | None
    stands: dict[str, Standing]


def work_out(dance: Dance, knowledge: Knowledge) -> Worked:
    """Work the dance out. Where the metre is not known, four beats are counted and the checks of time stay silent.

    It ends before the passage that would bring it beyond `bounds.STEPS`, with a finding.
    """
    metre = dance.metre or UNKNOWN_METRE
    start = start_of(dance, knowledge)
    stands = {GENT: at_start(start.gent), LADY: at_start(start.lady)}
    given = Given(dance, metre, knowledge, dance.start.position, dance.start.hold, stands)
    passages: list[DancedPassage] = []
    findings: list[Finding] = []
    danced_steps = 0
    for passage in dance.passages:
        made, found = _passage(passage, given, tuple(passages))
        danced_steps += sum(len(p.gent) + len(p.lady) for p in made)
        if danced_steps > STEPS.most:
            findings.append(Finding("too-many-steps", Severity.ERROR, passage.mark, STEPS.words, bar=passage.first))
            break
        passages += made
        findings += found
        given = _carried(given, made)
    return Worked(dance, start, metre, tuple(passages), tuple(findings))


def _carried(given: Given, made: tuple[DancedPassage, ...]) -> Given:
    """The position and hold in force after these passages, changes on single steps included."""
    for passage in made:
        steps = [d.step for part in PARTS for d in passage.part(part)]
        position = next((s.position for s in reversed(steps) if s.position), passage.position)
        hold = next((s.hold for s in reversed(steps) if s.hold), passage.hold)
        stands = {part: given.stands[part].after(passage.part(part)) for part in PARTS}
        given = replace(given, position=position, hold=hold, stands=stands)
    return given


def _passage(
    passage: Passage, given: Given, before: tuple[DancedPassage, ...]
) -> tuple[tuple[DancedPassage, ...], list[Finding]]:
    if passage.repeat is not None:
        return _repeated(passage, before)
    position, hold = passage.position or given.position, passage.hold or given.hold
    if not isinstance(passage.gent, Call) and not isinstance(passage.lady, Call):
        alone, found = _kept(passage, given.metre, given.dance.feet, position, hold)
        return (alone,), list(found)
    made, found = _kept_call(passage, given)
    return (made,), list(found)


def _kept(passage: Passage, metre: Metre, feet: TurnOut | None, position: Said | None, hold: Said | None) -> Alone:
    """A passage that calls no figure, which follows from what it says."""
    make = partial(_alone, passage, metre, feet, position, hold)
    parts = (passage.gent, passage.lady)
    few = sum(len(part.lines) for part in parts if isinstance(part, Written)) <= SHORT
    return ALONE.get((Same(passage), metre, feet, position, hold), make) if few else make()


def _alone(here: Passage, metre: Metre, feet: TurnOut | None, position: Said | None, hold: Said | None) -> Alone:
    made, findings = _written(here, metre)
    for name, part in _derivations(here):
        base = _base(part, made.get(_other(name)), name, feet)
        made[name], found = _derived(part, name, here, base, metre)
        findings += found
    return _danced_passage(here, made, position, hold, ()), tuple(findings)


def _danced_passage(
    passage: Passage,
    parts: dict[str, tuple[Danced, ...]],
    position: Said | None,
    hold: Said | None,
    called: tuple[Called, ...],
) -> DancedPassage:
    return DancedPassage(
        written=passage,
        first=passage.first,
        last=passage.last,
        figure=passage.figure.text if passage.figure else heading_of(called),
        gent=parts.get(GENT, ()),
        lady=parts.get(LADY, ()),
        position=position,
        hold=hold,
        head=_heads(passage),
        called=called,
    )


def _repeated(
    passage: Passage, before: tuple[DancedPassage, ...]
) -> tuple[tuple[DancedPassage, ...], list[Finding]]:
    repeat = passage.repeat
    assert repeat is not None
    made = written_out(passage, repeat, before)
    covered = {bar for p in before for bar in range(p.first, p.last + 1)}
    missing = [bar for bar in range(repeat.first, repeat.last + 1) if bar not in covered]
    if missing:
        message = f"bar {missing[0]} has not been danced before bar {passage.first}; repeat only bars that stand above"
        return made, [Finding("repeat-not-danced", Severity.ERROR, repeat.mark, message, bar=passage.first)]
    bars, asked = repeat.last - repeat.first + 1, passage.last - passage.first + 1
    if asked % bars:
        message = f"bars {passage.first}-{passage.last} are {asked} bars, but the repeat takes {bars}"
        return made, [Finding("repeat-does-not-fit", Severity.ERROR, repeat.mark, message, bar=passage.first)]
    return made, []


def _heads(passage: Passage) -> Heads:
    """The head lines; one that is said for one partner only gives the other's where that part is derived."""
    head = passage.head
    if head.lady is None and isinstance(passage.lady, Derived):
        return replace(head, lady=partner_head(head.gent, passage.lady.how))
    if head.gent is None and isinstance(passage.gent, Derived):
        return replace(head, gent=partner_head(head.lady, passage.gent.how))
    return head


def _written(passage: Passage, metre: Metre) -> tuple[dict[str, tuple[Danced, ...]], list[Finding]]:
    """The parts that are written out, in their bars; a finding for one that is missing."""
    made: dict[str, tuple[Danced, ...]] = {}
    findings: list[Finding] = []
    for name, part in ((GENT, passage.gent), (LADY, passage.lady)):
        if part is None:
            findings.append(_missing(passage, name))
        elif isinstance(part, Written):
            counted = count_lines(part.lines, metre)
            made[name] = danced(counted, metre, passage.first, passage.last - passage.first + 1)
    return made, findings


def _derivations(passage: Passage) -> Iterator[tuple[str, Derived]]:
    for name, part in ((GENT, passage.gent), (LADY, passage.lady)):
        if isinstance(part, Derived):
            yield name, part


def _kept_call(passage: Passage, given: Given) -> Alone:
    """A passage that calls figures, which follows from those figures and from how the dancers stand. What is not clear
    may become so by another file, and is looked at anew."""
    dance, known = given.dance, given.knowledge
    calls, unclear = wanted_calls(passage, dance, known.figures)
    make = partial(_called, passage, given, calls, unclear)
    if unclear or max(passage.last - passage.first, *(one.times for one in calls.values())) > MANY:
        return make()
    figures = tuple((name, Same(one.figure)) for name, one in calls.items())
    here = (given.metre, dance.feet, given.position, given.hold, given.stands[GENT], given.stands[LADY])
    return ALONE.get((Same(passage), figures, Same(known.positions), here), make)


def _called(passage: Passage, given: Given, wanted: Mapping[str, Wanted], unclear: tuple[Finding, ...]) -> Alone:
    made, findings = _written(passage, given.metre)
    calls, found = called_parts(wanted, unclear, _places(passage, given))
    findings += found
    made |= {name: call.steps for name, call in calls.items()}
    for name, part in _derivations(passage):
        partner = calls.get(_other(name))
        base = derived_from_call(partner, part, _place(passage, given, name)) if partner else None
        base = base or _base(part, made.get(_other(name)), name, given.dance.feet)
        made[name], found = _derived(part, name, passage, base, given.metre)
        findings += found
    called = tuple(called_of(name, call) for name, call in calls.items())
    position, hold = passage.position or given.position, passage.hold or given.hold
    return _danced_passage(passage, made, position, hold, called), tuple(findings)


def _places(passage: Passage, given: Given) -> dict[str, Place]:
    return {name: _place(passage, given, name) for name in PARTS}


def _place(passage: Passage, given: Given, name: str) -> Place:
    """Where a call of that partner stands. A position that is said here says which way the lady faces."""
    said = passage.position or given.position
    stands = given.stands[name]
    position = named(passage.position, given.knowledge.positions)
    feet = given.stands[GENT].feet
    if name == LADY and position is not None and feet is not None:
        stands = replace(stands, feet=feet.turned(position.turn))
    row = named(said, given.knowledge.positions)
    head = _heads(passage)
    wanted = (head.gent if name == GENT else head.lady) is None
    force = row.name if row else ""
    last = given.stands[GENT].last
    if passage.position is None and last is not None:
        force = standing_position(force, last.step)
    return Place(passage, name, force, stands, given.metre, given.knowledge.figures, wanted)


def _base(
    part: Derived, partner: tuple[Danced, ...] | None, name: str, feet: TurnOut | None
) -> tuple[Danced, ...] | None:
    """The partner's steps made into this part, one for one; None where the partner has none."""
    if partner is None:
        return None
    steps = partner_steps(tuple(d.step for d in partner), part.how, name, feet)
    return tuple(replace(d, step=step) for d, step in zip(partner, steps, strict=True))


def _other(name: str) -> str:
    return LADY if name == GENT else GENT


def _missing(passage: Passage, name: str) -> Finding:
    message = f"the {name} has no part in bars {passage.first}-{passage.last}; write her steps, 'opposite' or 'mirror'"
    if name == GENT:
        message = message.replace("her steps", "his steps")
    return Finding("part-missing", Severity.ERROR, passage.mark, message, bar=passage.first, part=name)


def _derived(
    part: Derived, name: str, passage: Passage, base: tuple[Danced, ...] | None, metre: Metre
) -> tuple[tuple[Danced, ...], list[Finding]]:
    """The derived steps with the lines that take the place of some. base: None where the partner has no steps."""
    if base is None:
        if isinstance(passage.gent if name == LADY else passage.lady, Derived):
            message = "both parts say that they follow from the other; write one of them out"
            rule = "parts-derive-each-other"
            return (), [Finding(rule, Severity.ERROR, part.mark, message, bar=passage.first, part=name)]
        return (), []
    made = list(base)
    findings = []
    for line in part.replacements:
        at = _replaced(line, made, passage, metre)
        if at is None:
            findings.append(_unmatched(line, passage, name))
        else:
            made[at] = replace(made[at], step=replace(line.step, count=made[at].step.count))
    return tuple(made), findings


def _replaced(line: Replacement, made: list[Danced], passage: Passage, metre: Metre) -> int | None:
    """Which derived step a line takes the place of: the one at that bar and beat; without a bar, the only one there."""
    count = line.step.count
    if count.beat is None:
        places = [i for i, d in enumerate(made) if d.step.count.text == count.text]
    else:
        beat = count.beat - 1 + count.part
        places = [i for i, d in enumerate(made) if d.beat == beat]
    if line.bar is not None:
        places = [i for i in places if made[i].bar == passage.first + line.bar - 1]
    return places[0] if len(places) == 1 else None


def _unmatched(line: Replacement, passage: Passage, name: str) -> Finding:
    count, bars = line.step.count.text, passage.last - passage.first + 1
    if line.bar is None and bars > 1:
        message = f"which bar? count {count} comes more than once or not at all; write '1.{count}' for the first bar"
    else:
        message = f"the derived part has no single step at bar {line.bar or 1} of this passage, count {count}"
    return Finding("replacement-unmatched", Severity.ERROR, line.step.mark, message, count=count, part=name)
