"""From steps to footprints: where each dancer faces from step to step, and what is drawn for a step.

The facing is that of the toes as the turn is followed through the part.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator

from notation.dance.feet import Foot, TurnOut
from notation.dance.room import Mode, Room
from notation.dance.script import Danced, Stance
from notation.dance.step import Action, Direction, Footwork, Step
from notation.dance.turning import align
from notation.sheet.footprint import Bearing, Footprint, Movement
from notation.sheet.sole import Part

CLOSED_PLACES = (1, 2, 3, 5)
TURN_OUT = 45.0  # degrees of each foot from the body's facing in the turned-out style (common practice, no source)

COURSES = {
    Action.FORWARD: 0.0,
    Action.BACK: 180.0,
    Action.DIAGONALLY_FORWARD: 45.0,
    Action.DIAGONALLY_BACK: 135.0,
    Action.SIDE: 90.0,
}
DIRECTIONS = {
    Direction.FORWARD: 0.0,
    Direction.BACK: 180.0,
    Direction.DIAGONALLY_FORWARD: 45.0,
    Direction.DIAGONALLY_BACK: 135.0,
    Direction.SIDE: 90.0,
}
MOVEMENTS = {
    Action.CLOSE: Movement.CLOSE,
    Action.CROSS_IN_FRONT: Movement.CROSS_FRONT,
    Action.CROSS_BEHIND: Movement.CROSS_BEHIND,
    Action.LOCK_IN_FRONT: Movement.CROSS_FRONT,
    Action.LOCK_BEHIND: Movement.CROSS_BEHIND,
    Action.IN_PLACE: Movement.PLACE,
    Action.PIVOT: Movement.PLACE,
    Action.SPRING: Movement.SPRING,
    Action.HOP: Movement.SPRING,
    Action.CIRCLE: Movement.CIRCLE,
}
CROSSINGS = {Direction.ACROSS: Movement.CROSS_FRONT, Direction.BEHIND: Movement.CROSS_BEHIND}
AERIAL = frozenset({Action.KICK, Action.SWING, Action.LIFT, Action.FLICK})
TOUCHING = {
    Action.HEEL: Part.HEEL,
    Action.TOE: Part.BALL,
    Action.POINT: Part.BALL,
    Action.TOUCH: Part.BALL,
    Action.TAP: Part.BALL,
}
PARTS = {
    Footwork.T: Part.BALL,
    Footwork.B: Part.BALL,
    Footwork.IE: Part.INSIDE,
    Footwork.IEB: Part.INSIDE,
    Footwork.IET: Part.INSIDE,
    Footwork.OE: Part.OUTSIDE,
}
"""What bears at the end of a step. H, TH and the like end on the whole foot: on a forward step H means heel, then the
whole foot, and T includes the ball (regencydancecentre.com, glossary)."""


def facings(steps: Iterable[Danced], stance: Stance | None) -> Iterator[Room]:
    """Where the toes point at the end of each step; the line of dance until anything is said."""
    return (one.feet or Room.LOD for one in align(tuple(steps), stance))


def footprint_of(step: Step, facing: Room, feet: TurnOut | None) -> Footprint | None:
    """What is drawn for a step; None where no foot is concerned. facing: of the dancer at the end of the step."""
    if step.foot is None:
        return None
    movement, course = _movement(step, facing)
    turn = step.turn.eighths if step.turn else 0
    return Footprint(step.foot, _angle(step, facing, feet), part_of(step), bearing_of(step), movement, course, turn)


def _angle(step: Step, facing: Room, feet: TurnOut | None) -> float:
    """Degrees of the toes. In a turned-out dance the feet of a closed position stand out from the body's facing."""
    placed = step.place is not None and step.place.position in CLOSED_PLACES
    pointed = step.alignment is not None and step.alignment.mode is Mode.POINTING
    out = {Foot.LEFT: TURN_OUT, Foot.RIGHT: -TURN_OUT}.get(step.foot or Foot.BOTH, 0.0)
    return facing.degrees + (out if placed and not pointed and feet is TurnOut.TURNED_OUT else 0.0)


def _side(foot: Foot | None) -> float:
    return -1.0 if foot is Foot.RIGHT else 1.0


def _movement(step: Step, facing: Room) -> tuple[Movement, float]:
    if step.travel is not None and step.action in COURSES:
        return Movement.COURSE, step.travel.degrees
    if step.action in COURSES:
        return Movement.COURSE, facing.degrees + _side(step.foot) * COURSES[step.action]
    if step.action in MOVEMENTS:
        return MOVEMENTS[step.action], facing.degrees
    if step.direction in DIRECTIONS:
        return Movement.COURSE, facing.degrees + _side(step.foot) * DIRECTIONS[step.direction]
    if step.direction in CROSSINGS:
        return CROSSINGS[step.direction], facing.degrees
    return Movement.NONE, facing.degrees


def bearing_of(step: Step) -> Bearing:
    """Whether the foot bears, touches or is off the floor."""
    if step.weight:
        return Bearing.WEIGHT
    aerial = step.place is not None and step.place.aerial is not None
    return Bearing.AIR if aerial or step.action in AERIAL else Bearing.TOUCH


def part_of(step: Step) -> Part:
    """The part of the foot that bears, or touches, at the end of the step."""
    if step.footwork in PARTS:
        return PARTS[step.footwork]
    return TOUCHING.get(step.action, Part.WHOLE)

