"""Immutable plane geometry, unit-free: points, vectors, rectangles, affine maps.

Shared by the floor (millimetres, y to the left of the line of dance) and the page (points, y down the page).
Angles are degrees, positive from the x axis towards the y axis.
"""
from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Vector:
    """A displacement.

    >>> Vector(3, 4).length
    5.0
    >>> Vector(1, 0).turned(90).rounded()
    Vector(x=0.0, y=1.0)
    """

    x: float
    y: float

    @classmethod
    def polar(cls, length: float, degrees: float) -> Vector:
        """The vector of that length in that direction."""
        angle = math.radians(degrees)
        return cls(length * math.cos(angle), length * math.sin(angle))

    @property
    def length(self) -> float:
        return math.hypot(self.x, self.y)

    @property
    def degrees(self) -> float:
        """Direction from the x axis, -180 to 180."""
        return math.degrees(math.atan2(self.y, self.x))

    def __add__(self, other: Vector) -> Vector:
        return Vector(self.x + other.x, self.y + other.y)

    def __sub__(self, other: Vector) -> Vector:
        return Vector(self.x - other.x, self.y - other.y)

    def __neg__(self) -> Vector:
        return Vector(-self.x, -self.y)

    def __mul__(self, factor: float) -> Vector:
        return Vector(self.x * factor, self.y * factor)

    def dot(self, other: Vector) -> float:
        return self.x * other.x + self.y * other.y

    def cross(self, other: Vector) -> float:
        """Positive where the other lies towards the y axis from this one."""
        return self.x * other.y - self.y * other.x

    def turned(self, degrees: float) -> Vector:
        angle = math.radians(degrees)
        c, s = math.cos(angle), math.sin(angle)
        return Vector(self.x * c - self.y * s, self.x * s + self.y * c)

    def rounded(self, places: int = 9) -> Vector:
        """Without the noise of floating point (and without -0.0)."""
        return Vector(round(self.x, places) + 0.0, round(self.y, places) + 0.0)


@dataclass(frozen=True, slots=True)
class Point:
    """A place.

    >>> Point(1, 2) + Vector(1, 1)
    Point(x=2, y=3)
    >>> Point(4, 6) - Point(1, 2)
    Vector(x=3, y=4)
    """

    x: float
    y: float

    def __add__(self, step: Vector) -> Point:
        return Point(self.x + step.x, self.y + step.y)

    def __sub__(self, other: Point) -> Vector:
        return Vector(self.x - other.x, self.y - other.y)

    def distance(self, other: Point) -> float:
        return (self - other).length

    def midpoint(self, other: Point) -> Point:
        return Point((self.x + other.x) / 2, (self.y + other.y) / 2)


ORIGIN = Point(0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle by its least and greatest coordinates.

    >>> Rect(0, 0, 2, 1).union(Rect(1, 1, 3, 4))
    Rect(x0=0, y0=0, x1=3, y1=4)
    >>> Rect(0, 0, 2, 1).overlaps(Rect(2, 0, 3, 1))
    False
    """

    x0: float
    y0: float
    x1: float
    y1: float

    @classmethod
    def around(cls, points: Iterable[Point]) -> Rect:
        """The least rectangle that holds all the points (at least one)."""
        listed = list(points)
        xs, ys = [p.x for p in listed], [p.y for p in listed]
        return cls(min(xs), min(ys), max(xs), max(ys))

    @property
    def width(self) -> float:
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        return self.y1 - self.y0

    @property
    def centre(self) -> Point:
        return Point((self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2)

    def union(self, other: Rect) -> Rect:
        return Rect(min(self.x0, other.x0), min(self.y0, other.y0), max(self.x1, other.x1), max(self.y1, other.y1))

    def overlaps(self, other: Rect) -> bool:
        """Whether they share area (touching edges do not count)."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def inset(self, by: float) -> Rect:
        return Rect(self.x0 + by, self.y0 + by, self.x1 - by, self.y1 - by)

    def holds(self, point: Point) -> bool:
        return self.x0 <= point.x <= self.x1 and self.y0 <= point.y <= self.y1


@dataclass(frozen=True, slots=True)
class Affine:
    """The map (x, y) -> (a x + c y + e, b x + d y + f).

    >>> Affine.translation(2, 3)(Point(1, 1))
    Point(x=3.0, y=4.0)
    >>> first, then = Affine.scaling(2, 2), Affine.translation(1, 0)
    >>> then.after(first)(Point(1, 1))
    Point(x=3.0, y=2.0)
    """

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    @classmethod
    def translation(cls, x: float, y: float) -> Affine:
        return cls(e=x, f=y)

    @classmethod
    def scaling(cls, x: float, y: float) -> Affine:
        return cls(a=x, d=y)

    @classmethod
    def rotation(cls, degrees: float) -> Affine:
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        return cls(c, s, -s, c)

    def __call__(self, point: Point) -> Point:
        return Point(self.a * point.x + self.c * point.y + self.e, self.b * point.x + self.d * point.y + self.f)

    def after(self, first: Affine) -> Affine:
        """This map applied to what `first` gives."""
        return Affine(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            self.a * first.e + self.c * first.f + self.e,
            self.b * first.e + self.d * first.f + self.f,
        )
