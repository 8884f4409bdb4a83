"""Footprint glyphs: their geometry follows from the step; what they look like was judged on specimen sheets."""
from __future__ import annotations

import math

import pytest

from notation.dance.feet import Foot
from notation.page.path import Path
from notation.plane import Affine, Point, Vector
from notation.sheet.footprint import Bearing, Footprint, Movement, footprint, placed_sole
from notation.sheet.sole import Part, sole

LEAST_HAIRLINE = 0.4  # points; ours, so that a photocopy keeps it


def corners(path: Path) -> list[Point]:
    return [segment.to for segment in path.segments if hasattr(segment, "to")]


def toes(path: Path) -> Vector:
    """From the corner at the back of the heel to the corner at the tip of the toes."""
    points = corners(path)
    return points[3] - points[0]


def area(path: Path) -> float:
    points = corners(path)
    return abs(sum(a.x * b.y - b.x * a.y for a, b in zip(points, points[1:] + points[:1], strict=True))) / 2


def test_right_sole_is_the_mirror_of_the_left() -> None:
    left, right = sole(Foot.LEFT, 270.0, 100.0), sole(Foot.RIGHT, 270.0, 100.0)
    assert left.outline.mapped(Affine.scaling(1, -1)) == right.outline


def test_sole_has_the_length_and_breadth_asked_for() -> None:
    bounds = sole(Foot.LEFT, 271.0, 102.0).outline.bounds
    assert (bounds.width, bounds.height) == pytest.approx((271.0, 102.0))


def test_left_and_right_differ_by_more_than_a_tenth_of_their_area_when_laid_on_each_other() -> None:
    """Areas by the geometry library shapely; the bound is ours, judged on a specimen photocopied at 8 points."""
    shapely = pytest.importorskip("shapely")
    one, two = (shapely.Polygon([(p.x, p.y) for p in flattened(sole(f, 1.0, 0.43).outline)])
                for f in (Foot.LEFT, Foot.RIGHT))
    assert one.symmetric_difference(two).area > 0.2 * one.area


def flattened(path: Path, pieces: int = 12) -> list[Point]:
    points: list[Point] = []
    for segment in path.segments:
        if hasattr(segment, "first"):
            start = points[-1]
            points.extend(_on_curve(start, segment.first, segment.second, segment.to, k / pieces)
                          for k in range(1, pieces + 1))
        elif hasattr(segment, "to"):
            points.append(segment.to)
    return points


def _on_curve(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    u = 1 - t
    weights = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
    return Point(sum(w * p.x for w, p in zip(weights, (a, b, c, d), strict=True)),
                 sum(w * p.y for w, p in zip(weights, (a, b, c, d), strict=True)))


@pytest.mark.parametrize("part", [Part.BALL, Part.HEEL, Part.INSIDE, Part.OUTSIDE])
def test_parts_lie_within_the_whole(part: Part) -> None:
    shapely = pytest.importorskip("shapely")
    shape = sole(Foot.LEFT, 1.0, 0.43, part)
    whole, some = (shapely.Polygon([(p.x, p.y) for p in flattened(path)]) for path in (shape.outline, shape.bearing))
    assert some.difference(whole).area < 0.02 * whole.area
    assert 0.15 * whole.area < some.area < 0.75 * whole.area


@pytest.mark.parametrize("foot", [Foot.LEFT, Foot.RIGHT])
@pytest.mark.parametrize("angle", [0, 45, 90, 135, 180, -135, -90, -45])
def test_angle_on_the_page_is_the_alignment(foot: Foot, angle: int) -> None:
    """Up the page is the line of dance and the wall at the right: as floor diagrams are drawn in the trade (common
    practice, no source). The toes of a foot lie toward its big toe, so its own tip is compared as well."""
    outline, _ = placed_sole(foot, 9.0, float(angle), Point(0, 0))
    straight, _ = placed_sole(foot, 9.0, 0.0, Point(0, 0))
    off = toes(straight).degrees - toes(outline).degrees - angle
    assert (off + 180) % 360 == pytest.approx(180, abs=1e-6)


def test_toes_point_up_the_page_along_the_line_of_dance_and_right_to_the_wall() -> None:
    assert toes(placed_sole(Foot.LEFT, 9.0, 0.0, Point(0, 0))[0]).y < -8
    assert toes(placed_sole(Foot.LEFT, 9.0, -90.0, Point(0, 0))[0]).x > 8


def test_black_bears_outline_does_not_broken_line_is_off_the_floor() -> None:
    weight, touch, air = (footprint(Footprint(Foot.LEFT, bearing=b), 9.0).items for b in Bearing)
    assert weight[0].fill == 0.0
    assert all(item.fill is None for item in touch) and not touch[0].dash
    assert air[0].fill is None and air[0].dash


def test_heel_or_ball_alone_fills_that_part_only() -> None:
    whole = footprint(Footprint(Foot.LEFT), 9.0).items[0]
    for part in (Part.HEEL, Part.BALL):
        filled, outline = footprint(Footprint(Foot.LEFT, part=part), 9.0).items
        assert filled.fill == 0.0 and outline.fill is None
        assert area(filled.path) < 0.7 * area(whole.path)


@pytest.mark.parametrize("height", [8.0, 9.0, 16.0])
@pytest.mark.parametrize("movement", list(Movement))
@pytest.mark.parametrize("turn", [0, 1, -3, 4, 8])
def test_no_line_is_thinner_than_a_photocopier_keeps(height: float, movement: Movement, turn: int) -> None:
    drawing = footprint(Footprint(Foot.RIGHT, 45.0, Part.BALL, Bearing.TOUCH, movement, 45.0, turn), height)
    widths = [item.line_width for item in drawing.items if item.stroke is not None]
    assert min(widths) >= LEAST_HAIRLINE
    for item in drawing.items:
        bounds = item.path.bounds
        assert bounds.x0 > -0.5 and bounds.x1 < drawing.width + 0.5


def test_feet_of_one_column_stand_under_each_other_whatever_their_mark() -> None:
    drawings = [footprint(Footprint(Foot.LEFT, movement=m), 9.0) for m in Movement]
    feet = {round(next(i for i in reversed(d.items)).path.bounds.x0, 6) for d in drawings}
    assert len(feet) == 1 and len({d.width for d in drawings}) == 1


@pytest.mark.parametrize("eighths", [1, 2, 3, 4, 6])
def test_arc_ends_at_the_toes_and_begins_where_they_pointed(eighths: int) -> None:
    for sense in (1, -1):
        with_turn = footprint(Footprint(Foot.LEFT, 90.0, turn=sense * eighths), 9.0).items
        bow = next(i for i in with_turn if i.fill is None and i.stroke is not None and len(i.path.segments) < 8)
        feet = with_turn[0].path.bounds.centre
        start = corners(bow.path)[0] - Point(footprint(Footprint(Foot.LEFT), 9.0).width * 1.45 / 2.1, -0.36 * 9.0)
        pointed = 90.0 - sense * 45.0 * eighths
        off = math.degrees(math.atan2(-start.x, -start.y)) - pointed
        assert (off + 180) % 360 == pytest.approx(180, abs=0.01)
        assert abs(feet.y + 0.36 * 9.0) < 1.0
