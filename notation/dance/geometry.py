"""The five positions of the feet as geometry, in millimetres, and footprints that overlap.

A dancer's own frame: the middle between the feet at the origin, x ahead, y to the left. A foot is placed by the middle
of its heel's back edge and the angle of its toes, positive to the left.
"""
from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from notation.dance.feet import Aerial, End, Foot, Fourth, Place, TurnOut
from notation.dance.script import GENT, LADY
from notation.plane import ORIGIN, Point, Vector

TURN_OUT = 45.0
"""Degrees of each foot in turned-out closed positions (Highland dance theory, grade 1; Physie tip 99)."""


@dataclass(frozen=True, slots=True)
class FootSize:
    """Length, greatest breadth and breadth of the heel, and the heights of ankle, calf and knee, in millimetres."""

    length: float
    breadth: float
    heel: float
    ankle: float
    knee: float

    @property
    def ball(self) -> float:
        """From the heel's edge to the ball (ANSUR II: 201 of 271, 182 of 246)."""
        return 0.74 * self.length

    def height(self, aerial: Aerial) -> float:
        """Of a raised foot: ankle, calf or knee of the other leg (drodd.com glossary, 'Aerial')."""
        return {Aerial.LOW: self.ankle, Aerial.MEDIUM: (self.ankle + self.knee) / 2, Aerial.HIGH: self.knee}[aerial]


MEANS = {GENT: FootSize(271, 102, 72, 73, 488), LADY: FootSize(246, 93, 67, 63, 449)}
"""Means of the 2012 US Army survey, men and women (ANSUR II, NATICK/TR-15/007)."""


def sized(part: str, length: float, breadth: float) -> FootSize:
    """A foot of that length and breadth in millimetres; heel and heights in proportion to the survey's means."""
    mean = MEANS[part]
    tall = length / mean.length
    return FootSize(length, breadth, mean.heel * breadth / mean.breadth, mean.ankle * tall, mean.knee * tall)


@dataclass(frozen=True, slots=True)
class Placed:
    """A foot: the middle of its heel's back edge, and the degrees of its toes."""

    heel: Point
    degrees: float

    def along(self, millimetres: float) -> Point:
        """The point that far from the heel's edge towards the toes."""
        return self.heel + Vector.polar(millimetres, self.degrees)

    def moved(self, by: Vector) -> Placed:
        return Placed(self.heel + by, self.degrees)

    def turned_about_origin(self, degrees: float) -> Placed:
        return Placed(ORIGIN + (self.heel - ORIGIN).turned(degrees), self.degrees + degrees)


@lru_cache(maxsize=512)
def position_of_feet(place: Place, foot: Foot, out: TurnOut, size: FootSize) -> Mapping[Foot, Placed]:
    """Both feet in a position, where `place` is said of `foot`; the body faces along x.

    Sources: 1st to 5th of the French manual of about 1797 (OBTIC corpus, 'Des positions'), Rameau 1725, Blasis 1820,
    'Jeux et exercices des jeunes filles' p.237; parallel: eijkhout.net/rad/data/foot_positions.html.
    """
    front = foot.other if place.end is End.REAR else foot
    side = 1.0 if front is Foot.LEFT else -1.0
    angle = TURN_OUT if out is TurnOut.TURNED_OUT else 0.0
    rear, ahead = Placed(ORIGIN, -side * angle), Placed(ORIGIN, side * angle)
    step = _turned_out(place, side, size) if angle else _parallel(place, side, size)
    both = {front: ahead.moved(step), front.other: rear}
    middle = both[front].along(size.length / 2).midpoint(rear.along(size.length / 2))
    return MappingProxyType({which: placed.moved(ORIGIN - middle) for which, placed in both.items()})


def _turned_out(place: Place, side: float, size: FootSize) -> Vector:
    """From the rear heel to the front heel."""
    match place.position:
        case 2:
            return Vector(0.0, side * (size.length + size.heel))
        case 3:
            return _against(0.5 * size.length, side, size)
        case 4 if place.fourth is Fourth.CROSSED:
            return _against(0.5 * size.length, side, size) + Vector(size.breadth, 0.0)
        case 4:
            return Vector(size.length, 0.0)
        case 5:
            return _against(size.length - size.heel / 2, side, size)
        case _:
            return _corner(size, side)


def _corner(size: FootSize, side: float) -> Vector:
    """The heels touch at their inner corners, half a heel's breadth from the middle of each."""
    return Vector(0.0, side * size.heel * math.cos(math.radians(TURN_OUT)))


def _against(along: float, side: float, size: FootSize) -> Vector:
    """The heel of the front foot against the inner edge of the rear foot, that far from its heel."""
    rear = -side * TURN_OUT
    return Vector.polar(along, rear) + Vector.polar(size.breadth / 2, rear + side * 90.0)


def _parallel(place: Place, side: float, size: FootSize) -> Vector:
    match place.position:
        case 2:
            return Vector(0.0, side * (size.length + size.heel))
        case 3:
            return Vector(0.5 * size.length, side * size.breadth)
        case 4:
            return Vector(2.0 * size.length, 0.0)
        case 5:
            return Vector(size.length, 0.0)
        case _:
            return Vector(0.0, side * size.breadth)


def footprint(placed: Placed, size: FootSize) -> tuple[Point, ...]:
    """The convex outline of a foot: heel, ball and toes, anticlockwise."""
    half, heel, toe = size.breadth / 2, size.heel / 2, 0.3 * size.breadth
    right = ((0.0, -heel), (size.ball, -half), (size.length, -toe))
    outline = (*right, *((x, -y) for x, y in reversed(right)))
    return tuple(placed.heel + Vector(x, y).turned(placed.degrees) for x, y in outline)


def overlap(one: tuple[Point, ...], two: tuple[Point, ...]) -> float:
    """How deep two convex outlines lie in each other, in millimetres: the least shift that parts them; 0 if apart."""
    if _boxes_apart(one, two):
        return 0.0
    least = math.inf
    for outline in (one, two):
        for axis in _normals(outline):
            least = min(least, _depth(one, two, axis))
            if least <= 0.0:
                return 0.0
    return least


def _boxes_apart(one: tuple[Point, ...], two: tuple[Point, ...]) -> bool:
    """Whether their upright boxes are apart: cheap, and so for most that are asked about."""
    ones, twos = [p.x for p in one], [p.x for p in two]
    if max(ones) <= min(twos) or max(twos) <= min(ones):
        return True
    ones, twos = [p.y for p in one], [p.y for p in two]
    return max(ones) <= min(twos) or max(twos) <= min(ones)


def _normals(outline: tuple[Point, ...]) -> list[Vector]:
    edges = [b - a for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)]
    return [Vector(e.y / e.length, -e.x / e.length) for e in edges]


def _depth(one: tuple[Point, ...], two: tuple[Point, ...], axis: Vector) -> float:
    x, y = axis.x, axis.y
    here, there = ([p.x * x + p.y * y for p in outline] for outline in (one, two))
    return min(max(here) - min(there), max(there) - min(here))
