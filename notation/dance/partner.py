"""One partner's part out of the other's: opposite, mirror and same.

Opposite, for partners who face each other: the other foot, forward for back, crossing in front for crossing behind, the
same sense of turn, the bodies half a turn apart, the sway and the side of the head exchanged. A foot that closes after
going forward or back stands in front for one and behind for the other; after going to the side, as in a pas de basque,
it closes in front for both, or behind for both (common practice, no source). Outside partner for who goes forward is
partner outside for who goes back. In promenade both go forward, a quarter of a turn apart. Mirror, side by side: the
other foot, the same direction of travel, left and right exchanged, and so wall and centre. Same: identical.

Who goes back into a turn of the modern waltz kind is on its inside: that foot is placed an eighth further round than
the body, which completes on the next step (Alex Moore, Ballroom Dancing, 10th ed. 2002, 'Amount of Turn').
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from notation.dance.feet import End, Place, TurnOut
from notation.dance.room import Alignment, Mode, Side, Turn
from notation.dance.script import GENT, Derivation
from notation.dance.step import Action, Body, Direction, Footwork, HeadLine, Rise, Step

PIVOTED = 4
"""Eighths on a single step from which a back step is a pivot (toe, heel, toe)."""

OPPOSITE_ACTION = {
    Action.FORWARD: Action.BACK,
    Action.DIAGONALLY_FORWARD: Action.DIAGONALLY_BACK,
    Action.CROSS_IN_FRONT: Action.CROSS_BEHIND,
    Action.LOCK_IN_FRONT: Action.LOCK_BEHIND,
}
OPPOSITE_ACTION |= {there: here for here, there in OPPOSITE_ACTION.items()}

OPPOSITE_DIRECTION = {
    Direction.FORWARD: Direction.BACK,
    Direction.DIAGONALLY_FORWARD: Direction.DIAGONALLY_BACK,
    Direction.ACROSS: Direction.BEHIND,
}
OPPOSITE_DIRECTION |= {there: here for here, there in OPPOSITE_DIRECTION.items()}

OPPOSITE_END = {End.FRONT: End.REAR, End.REAR: End.FRONT}
OPPOSITE_MODE = {Mode.FACING: Mode.BACKING, Mode.BACKING: Mode.FACING, Mode.POINTING: Mode.POINTING}

BACK_FOR_FORWARD = {Footwork.HT: Footwork.TH, Footwork.H: Footwork.T}
FORWARD_FOR_BACK = {Footwork.TH: Footwork.HT, Footwork.THT: Footwork.HT, Footwork.BH: Footwork.H}
OUTSIDE = {Body.OP: Body.PO, Body.PO: Body.OP}
BESIDE = frozenset({3, 5})
"""Positions in which the feet close to each other, one in front."""
ALONG = frozenset(OPPOSITE_ACTION)
PROMENADE = {Body.PP: 2, Body.CPP: -2}
"""Eighths from the gent's facing to the lady's, positive to the left."""


def partner_steps(
    steps: tuple[Step, ...], how: Derivation, part: str, feet: TurnOut | None = TurnOut.PARALLEL
) -> tuple[Step, ...]:
    """The steps of `part` ('gent' or 'lady') where these are the partner's, one for one and at the same counts."""
    if how is Derivation.SAME:
        return steps
    if how is Derivation.MIRROR:
        return tuple(mirrored(step) for step in steps)
    opposed = [_opposite(step, part, along) for step, along in zip(steps, _alongs(steps), strict=True)]
    return tuple(opposed) if feet is TurnOut.TURNED_OUT else _with_insides(steps, opposed)


def mirrored(step: Step) -> Step:
    """The step on the other foot, with left and right, and so wall and centre, exchanged."""
    aligned, travel = step.alignment, step.travel
    return replace(
        _other_foot(step),
        alignment=replace(aligned, room=aligned.room.mirrored) if aligned else None,
        travel=travel.mirrored if travel else None,
        turn=step.turn.mirrored if step.turn else None,
        head=mirrored_head(step.head),
    )


def mirrored_head(head: HeadLine | None) -> HeadLine | None:
    """The head line on the other side; wall and centre exchanged."""
    if head is None:
        return None
    return replace(opposed_head(head) or head, room=head.room.mirrored if head.room else None)


def opposed_head(head: HeadLine | None) -> HeadLine | None:
    """The head line of a partner who faces: the other side of the body, the same direction of the room."""
    if head is None:
        return None
    return replace(head, side=head.side.other if head.side else None, over=head.over.other if head.over else None)


def partner_head(head: HeadLine | None, how: Derivation) -> HeadLine | None:
    """The head line of the partner where it follows from this one."""
    kept = {Derivation.SAME: head, Derivation.MIRROR: mirrored_head(head), Derivation.OPPOSITE: opposed_head(head)}
    return kept[how]


def _other_foot(step: Step) -> Step:
    return replace(
        step,
        foot=step.foot.other if step.foot else None,
        joins=step.joins.other if step.joins else None,
        passes=step.passes.other if step.passes else None,
        sway=step.sway.other if step.sway else None,
    )


def _alongs(steps: tuple[Step, ...]) -> Iterator[bool]:
    """Whether the dancer, at each step, last went forward or back rather than to the side from a closed position."""
    along = closed = True
    for step in steps:
        if step.weight and step.action in ALONG:
            along, closed = True, False
        elif step.weight and step.action is Action.SIDE and closed:
            along, closed = False, False
        elif step.weight and step.action is Action.CLOSE:
            closed = True
        yield along


def _opposite(step: Step, part: str, along: bool) -> Step:
    other = replace(_other_foot(step), head=opposed_head(step.head))
    for body, eighths in PROMENADE.items():
        if body in step.body:
            return replace(other, alignment=_turned(step.alignment, eighths if part != GENT else -eighths))
    return _footed(_faced(step, other, along))


def _turned(aligned: Alignment | None, eighths: int) -> Alignment | None:
    return replace(aligned, room=aligned.room.turned(eighths)) if aligned else None


def _faced(step: Step, other: Step, along: bool) -> Step:
    direction = step.direction and OPPOSITE_DIRECTION.get(step.direction, step.direction)
    return replace(
        other,
        action=OPPOSITE_ACTION.get(step.action, step.action),
        direction=direction,
        place=_opposite_place(step.place, along),
        alignment=_opposite_alignment(step),
        body=tuple(OUTSIDE.get(b, b) if step.action in ALONG else b for b in step.body),
    )


def _opposite_place(place: Place | None, along: bool) -> Place | None:
    if place is None or place.end is None or (place.position in BESIDE and not along):
        return place
    return replace(place, end=OPPOSITE_END[place.end])


def _opposite_alignment(step: Step) -> Alignment | None:
    aligned = step.alignment
    if aligned is None:
        return None
    if aligned.mode is Mode.POINTING:
        return Alignment(Mode.POINTING, aligned.room.backing)
    return Alignment(OPPOSITE_MODE[aligned.mode], aligned.room)


def _footed(step: Step) -> Step:
    """Footwork and foot rise as the direction of the derived step asks."""
    commences = step.turn is not None and step.turn.commence is not None
    if step.action is Action.BACK and step.footwork:
        rise = (*step.rise, Rise.NO_FOOT_RISE) if commences and Rise.NO_FOOT_RISE not in step.rise else step.rise
        return replace(step, footwork=_back_footwork(step, step.footwork), rise=rise)
    if step.action is Action.FORWARD and step.footwork:
        rise = tuple(r for r in step.rise if r is not Rise.NO_FOOT_RISE)
        return replace(step, footwork=FORWARD_FOR_BACK.get(step.footwork, step.footwork), rise=rise)
    return step


def _back_footwork(step: Step, footwork: Footwork) -> Footwork:
    if footwork is Footwork.HT and step.turn and abs(step.turn.eighths) >= PIVOTED:
        return Footwork.THT
    return BACK_FOR_FORWARD.get(footwork, footwork)


def _with_insides(given: tuple[Step, ...], opposed: list[Step]) -> tuple[Step, ...]:
    """The derived steps with the inside and the outside of each turn exchanged."""
    made = list(opposed)
    for index, step in enumerate(given):
        sense = _sense(step)
        if sense is None or any(body in step.body for body in PROMENADE):
            continue
        if Body.TURNS_LESS in step.body:
            _outside(made, index, step, sense)
        elif _is_outside(given, index, sense):
            _inside(made, index, step, sense)
    return tuple(made)


def _sense(step: Step) -> Side | None:
    if step.turn is None or step.turn.eighths == 0:
        return None
    return Side.LEFT if step.turn.eighths > 0 else Side.RIGHT


def _is_outside(given: tuple[Step, ...], index: int, sense: Side) -> bool:
    """Forward, then to the side, and the turn goes on over the next step."""
    if index == 0 or index + 1 == len(given) or given[index].action is not Action.SIDE:
        return False
    after = given[index + 1]
    goes_on = _sense(after) is sense and not {Body.TURNS_LESS, Body.COMPLETES_TURN} & set(after.body)
    return given[index - 1].action is Action.FORWARD and after.weight and goes_on


def _inside(made: list[Step], index: int, step: Step, sense: Side) -> None:
    pointed = Alignment(Mode.POINTING, step.alignment.toward.backing.turned(sense.value)) if step.alignment else None
    made[index] = replace(_more(made[index], sense.value), alignment=pointed, body=(*step.body, Body.TURNS_LESS))
    after = _more(made[index + 1], -sense.value)
    made[index + 1] = replace(after, body=(*after.body, Body.COMPLETES_TURN))


def _outside(made: list[Step], index: int, step: Step, sense: Side) -> None:
    body = step.alignment.toward.turned(-sense.value) if step.alignment else None
    made[index] = replace(
        _more(made[index], -sense.value),
        alignment=Alignment(Mode.BACKING, body) if body else None,
        body=tuple(b for b in step.body if b is not Body.TURNS_LESS),
    )
    if index + 1 < len(made) and made[index + 1].weight:
        after = _more(made[index + 1], sense.value)
        made[index + 1] = replace(after, body=tuple(b for b in after.body if b is not Body.COMPLETES_TURN))


def _more(step: Step, eighths: int) -> Step:
    turn = (step.turn.eighths if step.turn else 0) + eighths
    return replace(step, turn=Turn(turn) if turn else None)
