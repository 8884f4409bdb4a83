"""One step on the floor: from where a dancer stands to where the foot lands.

Usual lengths of steps stand in one table. A walking step of 0.7 m is common practice; popular figures for adults are
0.66 to 0.79 m (leonieclaire, stepstomiles). The others are estimates.
"""
from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from notation.dance.feet import Foot, Place, TurnOut
from notation.dance.geometry import TURN_OUT, FootSize, Placed, position_of_feet
from notation.dance.room import Mode, Room
from notation.dance.step import FOOTLESS, Action, Direction, Size, Step
from notation.dance.turning import Aligned
from notation.plane import ORIGIN, Point, Vector

LENGTHS = {
    Action.FORWARD: 700.0,
    Action.BACK: 650.0,
    Action.SIDE: 450.0,
    Action.DIAGONALLY_FORWARD: 550.0,
    Action.DIAGONALLY_BACK: 550.0,
    Action.LOCK_IN_FRONT: 150.0,
    Action.LOCK_BEHIND: 150.0,
}
"""How far the body travels, in millimetres; to the side into a turned-out 2nd as far as its heels stand apart."""
SIZES = {None: 1.0, Size.SMALL: 0.5, Size.LONG: 1.3}
OFF_BODY = 80.0
"""How far the middle of joined feet stands ahead of the body or behind it, in millimetres; an estimate."""
GESTURE = 380.0
"""How far a foot reaches from under the body without weight, in millimetres."""
AHEAD = {
    Action.FORWARD: 0.0,
    Action.BACK: 180.0,
    Action.DIAGONALLY_FORWARD: 45.0,
    Action.DIAGONALLY_BACK: 135.0,
    Action.SIDE: 90.0,
    Action.LOCK_IN_FRONT: 180.0,
    Action.LOCK_BEHIND: 0.0,
}
"""Degrees from where the body faces, towards the side of the foot that moves."""
REACHING = {
    Direction.FORWARD: 0.0,
    Direction.BACK: 180.0,
    Direction.SIDE: 90.0,
    Direction.DIAGONALLY_FORWARD: 45.0,
    Direction.DIAGONALLY_BACK: 135.0,
    Direction.ACROSS: -45.0,
    Direction.BEHIND: -135.0,
}
SECOND = 2
ALONG_FEET = frozenset({Action.FORWARD, Action.BACK})
RAISED = {Action.KICK: "ankle", Action.LIFT: "knee", Action.FLICK: "ankle", Action.SWING: "ankle"}
ARC = 8
"""Pieces in which a circle is drawn."""
LEAPS = frozenset({Action.HOP, Action.SPRING, Action.PIVOT})
"""Done in place, but able to come down a little aside."""
CLOSING = frozenset({Action.CLOSE, Action.TOUCH, Action.TAP})
CROSSING = {Action.CROSS_IN_FRONT: 1.0, Action.CROSS_BEHIND: -1.0}


@dataclass(frozen=True, slots=True)
class Dancer:
    """Where a dancer stands. centre: of the body; facing: of the body in eighths; feet: on the floor; weight: the foot
    that bears it, None for both. height: of a raised free foot in millimetres. going: degrees of the room in which the
    body last travelled, None before it has."""

    part: str
    centre: Point
    facing: Room
    feet: Mapping[Foot, Placed]
    weight: Foot | None
    height: float = 0.0
    going: float | None = None


@dataclass(frozen=True, slots=True)
class Landing:
    """A step made: who stood how before and after it, which foot moved (None: none, or both), whether the body went."""

    aligned: Aligned
    before: Dancer
    after: Dancer
    foot: Foot | None
    travels: bool

    def track(self, size: FootSize) -> tuple[Point, ...]:
        """The way of the middle of the moving foot, as points from beginning to end; none where no foot moves. A
        circle goes round outside the body, any other step straight."""
        if self.foot is None:
            return ()
        ends = tuple(d.feet[self.foot].along(size.length / 2) for d in (self.before, self.after))
        step = self.aligned.danced.step
        return (ends[0], *_circled(self, step), ends[1]) if step.action is Action.CIRCLE else ends


def after_step(dancer: Dancer, aligned: Aligned, out: TurnOut, size: FootSize) -> Landing:
    """The step danced from there."""
    step = aligned.danced.step
    facing = aligned.body or dancer.facing
    foot = step.foot if step.foot in (Foot.LEFT, Foot.RIGHT) else None
    if step.action in FOOTLESS or foot is None:
        return Landing(aligned, dancer, _turned(dancer, facing), None, False)
    if step.action in LENGTHS:
        return _travelled(dancer, aligned, facing, foot, out, size)
    if step.action in CLOSING or step.action in CROSSING:
        return _joined(dancer, aligned, facing, foot, out, size)
    if step.weight:
        about = dancer.feet[foot].along(_pivot(step, size)) if step.action is Action.PIVOT else None
        after = _weighted(_turned(dancer, facing, about), foot, step)
        return Landing(aligned, dancer, after, foot, step.action in LEAPS)
    return _reached(dancer, aligned, facing, foot, size)


def _side(foot: Foot) -> float:
    return 1.0 if foot is Foot.LEFT else -1.0


def bearing(aligned: Aligned, foot: Foot, dancer: Dancer, facing: Room) -> float:
    """Degrees of the room in which a step travels.

    Forward and back go along the feet, before a turn is made. A side step goes square to the body, before its turn or
    after it, whichever carries on the way the dancer is going.
    """
    step = aligned.danced.step
    if step.travel is not None:
        return step.travel.degrees
    turns = step.turn is not None and step.turn.eighths != 0
    aside = AHEAD[step.action] * _side(foot)
    if step.action in ALONG_FEET:
        return (dancer.facing if turns else aligned.feet or facing).degrees + aside
    ways = (facing.degrees + aside, dancer.facing.degrees + aside)
    going = dancer.going
    return ways[0] if going is None else max(ways, key=lambda way: round(math.cos(math.radians(way - going)), 6))


def _travelled(dancer: Dancer, aligned: Aligned, facing: Room, foot: Foot, out: TurnOut, size: FootSize) -> Landing:
    step = aligned.danced.step
    usual = size.length + size.heel if _in_second(step, out) and step.action is Action.SIDE else LENGTHS[step.action]
    length = usual * SIZES[step.size] if step.weight else GESTURE
    way = bearing(aligned, foot, dancer, facing)
    move = Vector.polar(length, way)
    degrees = (aligned.feet or facing).degrees + (_side(foot) * TURN_OUT if _in_second(step, out) else 0.0)
    landed = _under(dancer.centre + move, foot, facing.degrees, degrees, size)
    feet = {**dancer.feet, foot: landed}
    if not step.weight:
        return Landing(aligned, dancer, replace(dancer, facing=facing, feet=feet, height=0.0), foot, False)
    after = Dancer(dancer.part, dancer.centre + move, facing, feet, foot, 0.0, way)
    return Landing(aligned, dancer, after, foot, True)


def _in_second(step: Step, out: TurnOut) -> bool:
    """In a turned-out dance both feet of 2nd stand turned out, unless the step says where its foot points."""
    pointed = step.alignment is not None and step.alignment.mode is Mode.POINTING
    return out is TurnOut.TURNED_OUT and step.place is not None and step.place.position == SECOND and not pointed


def _under(centre: Point, foot: Foot, facing: float, degrees: float, size: FootSize) -> Placed:
    """A foot beside the middle of the body, half a foot's breadth to its side."""
    middle = centre + Vector(0.0, _side(foot) * size.breadth / 2).turned(facing)
    return Placed(middle + Vector.polar(-size.length / 2, degrees), degrees)


def _pivot(step: Step, size: FootSize) -> float:
    """Where along a foot it turns, from its heel's edge: on the heel where the footwork begins there, else the ball."""
    on_heel = step.footwork is not None and step.footwork.value.startswith("H")
    return size.heel / 2 if on_heel else size.ball


def _turned(dancer: Dancer, facing: Room, about: Point | None = None) -> Dancer:
    """Both feet and the body swivelled about a point; without one about the middle of the body: on both feet."""
    eighths = dancer.facing.eighths_to(facing)
    if eighths == 0:
        return dancer
    about = about or dancer.centre
    feet = {
        foot: Placed(about + (placed.heel - about).turned(45.0 * eighths), placed.degrees + 45.0 * eighths)
        for foot, placed in dancer.feet.items()
    }
    centre = about + (dancer.centre - about).turned(45.0 * eighths)
    return replace(dancer, centre=centre, facing=facing, feet=feet)


def _weighted(dancer: Dancer, foot: Foot, step: Step) -> Dancer:
    return replace(dancer, weight=foot if step.weight else dancer.weight, height=0.0)


def _joined(dancer: Dancer, aligned: Aligned, facing: Room, foot: Foot, out: TurnOut, size: FootSize) -> Landing:
    """The foot put against the standing foot, which turns on its ball, or in a heel turn on its heel, and takes on the
    turn-out of the position."""
    step, stays = aligned.danced.step, foot.other
    place = step.place if step.place is not None and step.place.position else Place(1)
    both = position_of_feet(place, foot, out, size)
    both = {f: p.turned_about_origin(facing.degrees) for f, p in both.items()}
    if step.action in CROSSING:
        both = _crossed(both, step.action, foot, facing, size)
    turning = _pivot(step, size) if aligned.eighths else size.ball
    old = dancer.feet[stays].along(turning)
    shift = _under_body(old - both[stays].along(turning), dancer.centre, facing)
    feet = {f: p.moved(shift) for f, p in both.items()}
    weight = foot if step.weight else dancer.weight
    centre = _level(ORIGIN + shift, dancer.centre, facing, size)
    after = replace(dancer, centre=centre, facing=facing, feet=feet, weight=weight, height=0.0)
    return Landing(aligned, dancer, after, foot, False)


def _under_body(shift: Vector, centre: Point, facing: Room) -> Vector:
    """The feet no further ahead of the body, or behind it, than a dancer stands; the standing foot gives the rest."""
    ahead = Vector(1.0, 0.0).turned(facing.degrees)
    lies = (ORIGIN + shift - centre).dot(ahead)
    return shift + ahead * (max(-OFF_BODY, min(OFF_BODY, lies)) - lies)


def _level(middle: Point, centre: Point, facing: Room, size: FootSize) -> Point:
    """The body over the middle of the feet sideways; a foot put in front or behind carries it neither way."""
    across = Vector(0.0, 1.0).turned(facing.degrees)
    return centre + across * max(-size.breadth, min(size.breadth, (middle - centre).dot(across)))


def _crossed(
    both: dict[Foot, Placed], action: Action, foot: Foot, facing: Room, size: FootSize
) -> dict[Foot, Placed]:
    """The foot in front of the other, or behind it, and over to its side."""
    over = Vector(CROSSING[action] * 0.6 * size.length, -_side(foot) * 2.0 * size.breadth).turned(facing.degrees)
    other = both[foot.other]
    return {foot.other: other, foot: Placed(both[foot].heel + over, facing.degrees)}


def _reached(dancer: Dancer, aligned: Aligned, facing: Room, foot: Foot, size: FootSize) -> Landing:
    """A foot without weight, out from under the body or raised."""
    step, stood = aligned.danced.step, _turned(dancer, facing)
    if step.action is Action.CIRCLE and step.direction is None:
        home = _under(stood.centre, foot, facing.degrees, facing.degrees, size)
        feet = {**stood.feet, foot: home}
        return Landing(aligned, dancer, replace(stood, feet=feet, height=_height(step, size)), foot, False)
    direction = step.direction or Direction.FORWARD
    degrees = facing.degrees + REACHING[direction] * _side(foot)
    landed = _under(stood.centre + Vector.polar(GESTURE, degrees), foot, facing.degrees, facing.degrees, size)
    feet = {**stood.feet, foot: landed}
    return Landing(aligned, dancer, replace(stood, feet=feet, height=_height(step, size)), foot, False)


def _circled(landing: Landing, step: Step) -> Iterator[Point]:
    """From ahead of the body round its outside to where the foot ends; to the back where that is ahead too, or
    nowhere."""
    assert landing.foot is not None
    after = landing.after
    end = REACHING[step.direction] if step.direction else 180.0
    first = 180.0 if end == 0.0 else 0.0
    for share in range(ARC + 1):
        aside = (first + (end - first) * share / ARC) * _side(landing.foot)
        yield after.centre + Vector.polar(GESTURE, after.facing.degrees + aside)


def _height(step: Step, size: FootSize) -> float:
    if step.place is not None and step.place.aerial is not None:
        return size.height(step.place.aerial)
    return {"ankle": size.ankle, "knee": size.knee}.get(RAISED.get(step.action, ""), 0.0)
