"""The outline of a shoe's sole, from its length and breadth, and the parts of it that can bear.

A sole lies in the frame of the floor: the heel's back edge at the origin, x ahead along the foot, y to the dancer's
left, in whatever unit length and breadth have. The shape is our own drawing: a long big-toe side, a deep arch and a
slanting row of toes, so that left and right differ even when they are small.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass
from functools import lru_cache

from notation.dance.feet import Foot
from notation.page.path import Close, Curve, Move, Path, Segment
from notation.plane import Affine, Point

TO_PAGE = Affine(0.0, -1.0, -1.0, 0.0)
"""From the floor (x along the line of dance, y to the centre) to a page with the line of dance upwards."""


class Part(enum.Enum):
    """What part of a foot bears."""

    WHOLE = "whole"
    HEEL = "heel"
    BALL = "ball"
    INSIDE = "inside"
    OUTSIDE = "outside"


Corners = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]

# The left sole, clockwise from the back of the heel along its outer side: x in lengths, y in half breadths.
START = (0.0, 0.05)
OUTER_HEEL: Corners = ((0.0, 0.48), (0.05, 0.66), (0.18, 0.66))
OUTER_WAIST: Corners = ((0.36, 0.66), (0.44, 1.0), (0.64, 1.0))
SMALL_TOES: Corners = ((0.83, 1.0), (0.98, 0.30), (1.0, -0.42))
BIG_TOE: Corners = ((1.0, -0.82), (0.92, -1.0), (0.80, -1.0))
ARCH: Corners = ((0.60, -1.0), (0.60, -0.06), (0.43, -0.06))
INNER_WAIST: Corners = ((0.31, -0.06), (0.34, -0.62), (0.16, -0.62))
INNER_HEEL: Corners = ((0.05, -0.62), (0.0, -0.42), START)

BALL_ON_OUTER, BALL_ON_ARCH = 0.62, 0.62
HEEL_ON_OUTER, HEEL_ON_WAIST = 0.34, 0.52


@dataclass(frozen=True, slots=True)
class Sole:
    """The outline of a foot and the part that bears."""

    outline: Path
    bearing: Path


def _curve(corners: Corners) -> Curve:
    first, second, to = (Point(x, y) for x, y in corners)
    return Curve(first, second, to)


def _split(start: Point, curve: Curve, at: float) -> tuple[Curve, Curve]:
    """A cubic cut at that share of its parameter (de Casteljau)."""

    def between(one: Point, two: Point) -> Point:
        return one + (two - one) * at

    first, middle = between(start, curve.first), between(curve.first, curve.second)
    last = between(curve.second, curve.to)
    left, right = between(first, middle), between(middle, last)
    cut = between(left, right)
    return Curve(first, left, cut), Curve(right, last, curve.to)


def _contour(start: Point, *segments: Segment) -> tuple[Segment, ...]:
    return (Move(start), *segments, Close())


OUTLINE = (OUTER_HEEL, OUTER_WAIST, SMALL_TOES, BIG_TOE, ARCH, INNER_WAIST, INNER_HEEL)


def _whole() -> tuple[Segment, ...]:
    return _contour(Point(*START), *map(_curve, OUTLINE))


def _ball() -> tuple[Segment, ...]:
    low, high = _split(Point(*OUTER_HEEL[2]), _curve(OUTER_WAIST), BALL_ON_OUTER)
    arch, _ = _split(Point(*BIG_TOE[2]), _curve(ARCH), BALL_ON_ARCH)
    return _contour(low.to, high, _curve(SMALL_TOES), _curve(BIG_TOE), arch)


def _heel() -> tuple[Segment, ...]:
    outer, _ = _split(Point(*OUTER_HEEL[2]), _curve(OUTER_WAIST), HEEL_ON_OUTER)
    before, inner = _split(Point(*ARCH[2]), _curve(INNER_WAIST), HEEL_ON_WAIST)
    across = Curve(outer.to, before.to, before.to)
    return _contour(Point(*START), _curve(OUTER_HEEL), outer, across, inner, _curve(INNER_HEEL))



def _inside() -> tuple[Segment, ...]:
    inner = map(_curve, (BIG_TOE, ARCH, INNER_WAIST, INNER_HEEL))
    tip = Point(*SMALL_TOES[2])
    back = Curve(Point(0.38, 0.28), Point(0.72, 0.02), tip)
    return _contour(tip, *inner, back)


def _outside() -> tuple[Segment, ...]:
    outer = map(_curve, (OUTER_HEEL, OUTER_WAIST, SMALL_TOES))
    return _contour(Point(*START), *outer, Curve(Point(0.72, 0.02), Point(0.38, 0.28), Point(*START)))


SHAPES = {Part.WHOLE: _whole, Part.BALL: _ball, Part.HEEL: _heel, Part.INSIDE: _inside, Part.OUTSIDE: _outside}


@lru_cache(maxsize=256)
def sole(foot: Foot, length: float, breadth: float, part: Part = Part.WHOLE) -> Sole:
    """The sole of one foot (not `both`), heel at the origin, toes along x; `part` gives what bears.

    >>> round(sole(Foot.LEFT, 270.0, 100.0).outline.bounds.x1)
    270
    """
    side = breadth / 2 if foot is Foot.LEFT else -breadth / 2
    scale = Affine.scaling(length, side)
    return Sole(Path(_whole()).mapped(scale), Path(SHAPES[part]()).mapped(scale))
