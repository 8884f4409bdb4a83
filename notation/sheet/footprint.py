"""Footprints in the rows of a sheet: one small drawing says which foot, where it points, how it came and what it bears.

Up the page is the line of dance and the wall is at the right, so the angle of a foot is its alignment. Black bears
weight, an outline does not, a broken outline is off the floor. At the left of the foot a small mark says how it moved;
round the toes an arc says how far they turned.
"""
from __future__ import annotations

import enum
import math
from dataclasses import dataclass
from functools import lru_cache

from notation.dance.feet import Foot
from notation.page.content import Drawing
from notation.page.frame import Artifact, PlacedShape
from notation.page.path import Curve, Move, Path, Segment
from notation.plane import Affine, Point, Vector
from notation.sheet.sole import TO_PAGE, Part, sole

BREADTH = 0.43  # of the length: a little broader than a real sole, so that it stays a foot when small
HAIRLINE = 0.52  # points at 9 points of height; never under LEAST_LINE
LEAST_LINE = 0.4
DESIGN = 9.0  # height in points that the line widths are drawn for
MIDDLE_LINE = 0.36  # share of the height at which the middle of a foot stands above the baseline
EIGHTH = 45.0  # degrees


class Bearing(enum.Enum):
    """What the foot does to the floor at the end of the step."""

    WEIGHT = "weight"
    TOUCH = "touch"
    AIR = "air"


class Movement(enum.Enum):
    """How the foot came there: along a course, to the other foot, across it, or not at all."""

    COURSE = "course"
    CLOSE = "close"
    CROSS_FRONT = "cross-front"
    CROSS_BEHIND = "cross-behind"
    PLACE = "place"
    SPRING = "spring"
    CIRCLE = "circle"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Footprint:
    """A foot on the floor.

    angle: degrees of the toes from the line of dance, positive to the left. course: degrees of the movement (or of the
    body's facing where there is no course). turn: eighths made on the step, positive to the left.
    """

    foot: Foot
    angle: float = 0.0
    part: Part = Part.WHOLE
    bearing: Bearing = Bearing.WEIGHT
    movement: Movement = Movement.NONE
    course: float = 0.0
    turn: int = 0


def _line_width(height: float) -> float:
    return max(LEAST_LINE, HAIRLINE * height / DESIGN)


def _stroke(path: Path, width: float, dash: tuple[float, ...] = ()) -> PlacedShape:
    return PlacedShape(path, Artifact.LAYOUT, stroke=0.0, line_width=width, dash=dash)


def _filled(path: Path) -> PlacedShape:
    return PlacedShape(path, Artifact.LAYOUT, fill=0.0)


def placed_sole(foot: Foot, length: float, angle: float, centre: Point, part: Part = Part.WHOLE) -> tuple[Path, Path]:
    """Outline and bearing part of a sole on the page, its middle at `centre`, in points."""
    outline, bearing = turned_sole(foot, length, angle, part)
    to = Affine.translation(centre.x, centre.y)
    return outline.mapped(to), bearing.mapped(to)


@lru_cache(maxsize=512)
def turned_sole(foot: Foot, length: float, angle: float, part: Part = Part.WHOLE) -> tuple[Path, Path]:
    """The same about its own middle: soles that point alike share their paths."""
    shape = sole(foot, length, BREADTH * length, part)
    to = TO_PAGE.after(Affine.rotation(angle).after(Affine.translation(-length / 2, 0.0)))
    return shape.outline.mapped(to), shape.bearing.mapped(to)


def foot_shapes(print_: Footprint, foot: Foot, length: float, centre: Point) -> list[PlacedShape]:
    """One foot with its filling and outline."""
    outline, bearing = placed_sole(foot, length, print_.angle, centre, print_.part)
    width = _line_width(length)
    if print_.bearing is Bearing.WEIGHT:
        if print_.part is Part.WHOLE:
            return [PlacedShape(outline, Artifact.LAYOUT, fill=0.0, stroke=0.0, line_width=width * 0.6)]
        return [_filled(bearing), _stroke(outline, width)]
    if print_.bearing is Bearing.AIR:
        return [_stroke(outline, 1.1 * width, (2.0 * width, 1.5 * width))]
    return [_stroke(outline, width), *_touching(print_, length, centre, width)]


TOUCHES = {Part.HEEL: -0.34, Part.BALL: 0.26}


def _touching(print_: Footprint, length: float, centre: Point, width: float) -> list[PlacedShape]:
    """A dot on the part that touches without weight."""
    if print_.part not in TOUCHES:
        return []
    ahead = Vector.polar(TOUCHES[print_.part] * length, print_.angle)
    at = centre + Vector(-ahead.y, -ahead.x)
    return [_filled(disc(at, 0.085 * length))]


@lru_cache(maxsize=512)
def disc(centre: Point, radius: float) -> Path:
    """A circle by four curves."""
    k = 0.5523 * radius
    c, r = centre, radius
    return Path(
        (
            Move(Point(c.x + r, c.y)),
            Curve(Point(c.x + r, c.y + k), Point(c.x + k, c.y + r), Point(c.x, c.y + r)),
            Curve(Point(c.x - k, c.y + r), Point(c.x - r, c.y + k), Point(c.x - r, c.y)),
            Curve(Point(c.x - r, c.y - k), Point(c.x - k, c.y - r), Point(c.x, c.y - r)),
            Curve(Point(c.x + k, c.y - r), Point(c.x + r, c.y - k), Point(c.x + r, c.y)),
        )
    )


def arc(centre: Point, radius: float, start: float, end: float) -> Path:
    """A part of a circle on the page between two angles in degrees as Vector.polar has them."""
    pieces = max(1, math.ceil(abs(end - start) / 60))
    sweep = (end - start) / pieces
    reach = 4 / 3 * math.tan(math.radians(sweep) / 4) * radius
    segments: list[Segment] = [Move(centre + Vector.polar(radius, start))]
    for number in range(pieces):
        a, b = start + number * sweep, start + (number + 1) * sweep
        first = centre + Vector.polar(radius, a) + Vector.polar(reach, a + 90)
        second = centre + Vector.polar(radius, b) + -Vector.polar(reach, b + 90)
        segments.append(Curve(first, second, centre + Vector.polar(radius, b)))
    return Path(tuple(segments))


def arrow_head(tip: Point, degrees: float, size: float) -> Path:
    """A filled triangle whose tip points along that page angle."""
    back = tip + -Vector.polar(size, degrees)
    side = Vector.polar(size * 0.46, degrees + 90)
    return Path.polygon(tip, back + side, back + -side)


def page_angle(degrees: float) -> float:
    """The angle on the page (Vector.polar, y down) of a direction of the floor.

    >>> page_angle(0.0), page_angle(90.0)
    (-90.0, -180.0)
    """
    return -90.0 - degrees


def _turn_shapes(print_: Footprint, radius: float, centre: Point, height: float) -> list[PlacedShape]:
    """The arc that the toes swept, its head where they point now; a whole turn leaves a gap at the toes."""
    if not print_.turn:
        return []
    end = page_angle(print_.angle)
    sweep = -math.copysign(min(abs(print_.turn) * EIGHTH, 330.0), print_.turn)
    ahead = end + math.copysign(90.0, sweep)
    size = 0.25 * height
    lean = math.copysign(math.degrees(size / radius) * 0.5, sweep)
    body = arc(centre, radius, end - sweep, end - 1.6 * lean)
    return [
        _stroke(body, 1.25 * _line_width(height)),
        _filled(arrow_head(centre + Vector.polar(radius, end), ahead - lean, size)),
    ]


def _arrow(start: Point, tip: Point, height: float) -> list[PlacedShape]:
    line = tip - start
    size = 0.32 * height
    neck = tip + -Vector.polar(size * 0.8, line.degrees)
    return [_stroke(Path.line(start, neck), 1.5 * _line_width(height)), _filled(arrow_head(tip, line.degrees, size))]


def _course(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    reach = Vector.polar(0.36 * height, page_angle(print_.course))
    return _arrow(at + -reach, at + reach, height)


def _inward(print_: Footprint) -> float:
    """Where the other foot is, as an angle of the page; `course` is the facing of the body here."""
    return page_angle(print_.course + (-90.0 if print_.foot is Foot.LEFT else 90.0))


def _close(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    """An arrow that ends at a bar: the foot that stands."""
    inward = Vector.polar(1.0, _inward(print_))
    along = Vector.polar(0.30 * height, page_angle(print_.course))
    stop = at + inward * (0.28 * height)
    bar = _stroke(Path.line(stop + -along, stop + along), 2.0 * _line_width(height))
    return [bar, *_arrow(at + inward * (-0.34 * height), stop + inward * (-0.06 * height), height)]


def _cross(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    """An arrow past the end of a bar: in front of the foot that stands, or behind it."""
    front = print_.movement is Movement.CROSS_FRONT
    inward = Vector.polar(0.36 * height, _inward(print_))
    ahead = Vector.polar(1.0, page_angle(print_.course))
    passing = at + ahead * ((0.24 if front else -0.24) * height)
    near = passing + ahead * ((-0.14 if front else 0.14) * height)
    bar = Path.line(near, near + ahead * ((-0.46 if front else 0.46) * height))
    return [_stroke(bar, 2.0 * _line_width(height)), *_arrow(passing + -inward, passing + inward, height)]


def _place(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    return [_filled(disc(at, 0.11 * height))]


def _spring(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    side, rise = Vector(0.24 * height, 0.0), Vector(0.0, 0.22 * height)
    roof = Path.line(at + -side + rise, at + -rise, at + side + rise)
    return [_stroke(roof, 1.5 * _line_width(height))]


def _circle(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    radius, size = 0.24 * height, 0.24 * height
    open_ = arc(at, radius, 20.0, 320.0)
    head = arrow_head(at + Vector.polar(radius, 345.0), 55.0, size)
    return [_stroke(open_, 1.25 * _line_width(height)), _filled(head)]


MARKS = {
    Movement.COURSE: _course,
    Movement.CLOSE: _close,
    Movement.CROSS_FRONT: _cross,
    Movement.CROSS_BEHIND: _cross,
    Movement.PLACE: _place,
    Movement.SPRING: _spring,
    Movement.CIRCLE: _circle,
}


def mark_shapes(print_: Footprint, at: Point, height: float) -> list[PlacedShape]:
    """How the foot moved, drawn about that point."""
    draw = MARKS.get(print_.movement)
    return draw(print_, at, height) if draw else []


MARK_ROOM, FOOT_ROOM, PAIR = 0.80, 1.30, 0.56  # of the height


def footprint_room(height: float) -> float:
    """The width of a footprint of one foot, its mark included, in points."""
    return (MARK_ROOM + FOOT_ROOM) * height


@lru_cache(maxsize=2048)
def footprint(print_: Footprint, height: float) -> Drawing:
    """The drawing for a row, `height` points high for a foot that points up or down the page.

    The mark of the movement takes a fixed room at the left, so that feet stand under each other.
    """
    length = height * 0.94
    middle = -MIDDLE_LINE * height
    both = print_.foot is Foot.BOTH
    foot_room = (FOOT_ROOM + (PAIR if both else 0.0)) * height
    centre = Point(MARK_ROOM * height + foot_room / 2, middle)
    items = mark_shapes(print_, Point(MARK_ROOM / 2 * height, middle), height)
    if both:
        for foot, side in ((Foot.LEFT, 1.0), (Foot.RIGHT, -1.0)):
            across = Vector.polar(side * PAIR / 2 * height, print_.angle + 90.0)
            items.extend(foot_shapes(print_, foot, length, centre + Vector(-across.y, -across.x)))
    else:
        items.extend(foot_shapes(print_, print_.foot, length, centre))
    items.extend(_turn_shapes(print_, 0.575 * height, centre, height))
    ascent, descent = _extent(items, height)
    return Drawing(MARK_ROOM * height + foot_room, ascent, descent, tuple(items))


def _extent(items: list[PlacedShape], height: float) -> tuple[float, float]:
    boxes = [item.path.bounds for item in items]
    top = min((box.y0 for box in boxes), default=-height)
    bottom = max((box.y1 for box in boxes), default=0.0)
    return max(0.0, -top), max(0.0, bottom)
