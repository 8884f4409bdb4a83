"""The room that two bodies take up, and whether one is carried through the other.

A body is put as an eight-cornered outline as deep as the chest (ANSUR II means, NATICK/TR-15/007: 254 and 247 mm), so
that shoulders, which partners turn past each other, are left out.
"""
from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from notation.dance.geometry import overlap
from notation.dance.script import GENT, LADY
from notation.dance.stepping import Dancer
from notation.plane import ORIGIN, Point, Vector

CHEST = {GENT: 254.0, LADY: 247.0}
CORNERS = 8
WIDEST = sum(CHEST.values()) / 2 / math.cos(math.pi / CORNERS)
"""Bodies whose middles are this far apart, in millimetres, cannot touch."""


def body(middle: Point, depth: float) -> tuple[Point, ...]:
    """The outline about that point, `depth` millimetres from side to side, anticlockwise."""
    radius = depth / 2 / math.cos(math.pi / CORNERS)
    return tuple(middle + Vector.polar(radius, 360.0 / CORNERS * (n + 0.5)) for n in range(CORNERS))


def hull(points: Iterable[Point]) -> tuple[Point, ...]:
    """The least convex outline about the points, to the millionth, anticlockwise (Andrew's monotone chain).

    >>> [(p.x, p.y) for p in hull([Point(0, 0), Point(2, 0), Point(1, 1), Point(2, 2), Point(0, 2)])]
    [(0, 0), (2, 0), (2, 2), (0, 2)]
    """
    ordered = sorted({Point(round(p.x, 6), round(p.y, 6)) for p in points}, key=lambda p: (p.x, p.y))
    return (*_chain(ordered), *_chain(ordered[::-1]))


def _chain(ordered: list[Point]) -> list[Point]:
    made: list[Point] = []
    for point in ordered:
        while len(made) > 1 and (made[-1] - made[-2]).cross(point - made[-1]) <= 0.0:
            made.pop()
        made.append(point)
    return made[:-1]


def nearest(before: Mapping[str, Dancer], after: Mapping[str, Dancer]) -> float:
    """How near the middles of the two bodies come to each other while both move straight, in millimetres."""
    start, end = (there[LADY].centre - there[GENT].centre for there in (before, after))
    way = end - start
    share = -start.dot(way) / way.dot(way) if way.length else 0.0
    return (start + way * max(0.0, min(1.0, share))).length


def deepest(before: Mapping[str, Dancer], after: Mapping[str, Dancer]) -> float:
    """How deep the two bodies come into each other while both move straight from their places to the next, in
    millimetres; 0 where they never touch. Exact where neither turns: her body is swept along her way as he sees it."""
    if nearest(before, after) >= WIDEST:
        return 0.0
    ways = [ORIGIN + (there[LADY].centre - there[GENT].centre) for there in (before, after)]
    swept = hull(corner for place in ways for corner in body(place, CHEST[LADY]))
    return overlap(body(ORIGIN, CHEST[GENT]), swept)
