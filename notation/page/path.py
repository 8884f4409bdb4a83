"""Outlines made of straight lines and cubic curves: what a shape on a page consists of."""
from __future__ import annotations

from dataclasses import dataclass

from notation.plane import Affine, Point, Rect


@dataclass(frozen=True, slots=True)
class Move:
    """Begin a new contour at that point."""

    to: Point

    @property
    def points(self) -> tuple[Point, ...]:
        return (self.to,)

    def mapped(self, by: Affine) -> Move:
        return Move(by(self.to))


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line to that point."""

    to: Point

    @property
    def points(self) -> tuple[Point, ...]:
        return (self.to,)

    def mapped(self, by: Affine) -> Line:
        return Line(by(self.to))


@dataclass(frozen=True, slots=True)
class Curve:
    """A cubic Bezier curve by its two control points and its end."""

    first: Point
    second: Point
    to: Point

    @property
    def points(self) -> tuple[Point, ...]:
        return (self.first, self.second, self.to)

    def mapped(self, by: Affine) -> Curve:
        return Curve(by(self.first), by(self.second), by(self.to))


@dataclass(frozen=True, slots=True)
class Close:
    """A straight line back to the beginning of the contour."""

    @property
    def points(self) -> tuple[Point, ...]:
        return ()

    def mapped(self, by: Affine) -> Close:
        return self


Segment = Move | Line | Curve | Close


@dataclass(frozen=True, slots=True)
class Path:
    """One or more contours. Filled by the non-zero winding rule.

    >>> Path.polygon(Point(0, 0), Point(2, 0), Point(2, 1)).bounds
    Rect(x0=0, y0=0, x1=2, y1=1)
    """

    segments: tuple[Segment, ...]

    @classmethod
    def polygon(cls, *corners: Point) -> Path:
        return cls((Move(corners[0]), *(Line(p) for p in corners[1:]), Close()))

    @classmethod
    def line(cls, *points: Point) -> Path:
        """An open line through the points."""
        return cls((Move(points[0]), *(Line(p) for p in points[1:])))

    def mapped(self, by: Affine) -> Path:
        return Path(tuple([s.mapped(by) for s in self.segments]))

    @property
    def bounds(self) -> Rect:
        """The rectangle around all points, control points included (never smaller than the true bounds)."""
        return Rect.around([point for segment in self.segments for point in segment.points])
