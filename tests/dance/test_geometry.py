"""The five positions against the manuals, and overlap against shapely."""
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import Aerial, End, Foot, Fourth, Place, TurnOut
from notation.dance.geometry import MEANS, Placed, footprint, overlap, position_of_feet
from notation.dance.script import GENT, LADY
from notation.plane import Point

shapely = pytest.importorskip("shapely")
MAN = MEANS[GENT]


def feet(number: int, end: End | None = End.FRONT, out: TurnOut = TurnOut.TURNED_OUT, fourth: Fourth | None = None
         ) -> tuple[Placed, Placed]:
    """The left foot, in front, and the right."""
    both = position_of_feet(Place(number, end, fourth), Foot.LEFT, out, MAN)
    return both[Foot.LEFT], both[Foot.RIGHT]


def test_closed_turned_out_positions_have_a_right_angle_between_the_feet() -> None:
    """Highland dance theory grade 1; Physie tip 99: about 90 degrees, each foot 45 from the line of direction."""
    for number in (1, 3, 5):
        left, right = feet(number)
        assert (left.degrees, right.degrees) == (45.0, -45.0)


def test_first_has_the_heels_in_touch() -> None:
    """French manual of about 1797; Wilkinson, Dancing Without an Instructor, about 1904."""
    left, right = feet(1)
    a, b = (shapely.Polygon([(p.x, p.y) for p in footprint(f, MAN)]) for f in (left, right))
    assert a.distance(b) < 0.001 and a.intersection(b).area < 0.001
    assert left.heel.x == pytest.approx(right.heel.x)


def test_second_has_heels_level_and_a_foot_length_between_them() -> None:
    """Blasis 1820: the distance between the heels is a foot's length; toes level too is common practice."""
    left, right = feet(2)
    assert left.heel.x == pytest.approx(right.heel.x)
    assert left.along(MAN.length).x == pytest.approx(right.along(MAN.length).x)
    assert left.heel.y - right.heel.y - MAN.heel == pytest.approx(MAN.length)


def test_third_crosses_by_half_and_fifth_does_not_pass_the_toe() -> None:
    """French manual of about 1797: heel at the middle of the other foot; Rameau 1725 VIII: not past the toe."""
    for number, along in ((3, 0.5 * MAN.length), (5, MAN.length - MAN.heel / 2)):
        left, right = feet(number)
        ahead = (left.heel - right.heel).turned(-right.degrees)
        assert ahead.x == pytest.approx(along) and ahead.x + MAN.heel / 2 <= MAN.length + 0.001
        assert ahead.y == pytest.approx(MAN.breadth / 2)


def test_open_fourth_is_on_one_line_and_crossed_fourth_is_not() -> None:
    """Rameau 1725 VII: one before the other on a straight line, not crossed; Jeux p.237: a foot's width away."""
    left, right = feet(4, fourth=Fourth.OPEN)
    assert left.heel.y == pytest.approx(right.heel.y) and left.heel.x - right.heel.x == pytest.approx(MAN.length)
    crossed, third = feet(4, fourth=Fourth.CROSSED), feet(3)
    gap = (crossed[0].heel - crossed[1].heel) - (third[0].heel - third[1].heel)
    assert (gap.x, gap.y) == pytest.approx((MAN.breadth, 0.0))


def test_parallel_positions() -> None:
    """eijkhout.net/rad/data/foot_positions.html: together, apart, heel to instep, in line, toe behind heel."""
    first, third, fifth = (feet(n, out=TurnOut.PARALLEL) for n in (1, 3, 5))
    assert first[0].heel.x == first[1].heel.x and first[0].degrees == 0.0
    assert third[0].heel.x - third[1].heel.x == pytest.approx(MAN.length / 2)
    assert fifth[0].heel.x == pytest.approx(fifth[1].along(MAN.length).x)


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("out", list(TurnOut))
def test_feet_in_a_position_do_not_overlap(number: int, out: TurnOut) -> None:
    """A foot is not put on the other; touching is allowed."""
    left, right = feet(number, out=out)
    assert overlap(footprint(left, MAN), footprint(right, MAN)) < 0.001


def test_rear_is_the_other_foot_in_front_mirrored() -> None:
    """By geometry."""
    front = position_of_feet(Place(3, End.FRONT), Foot.LEFT, TurnOut.TURNED_OUT, MAN)
    rear = position_of_feet(Place(3, End.REAR), Foot.LEFT, TurnOut.TURNED_OUT, MAN)
    assert rear[Foot.RIGHT].heel.x == pytest.approx(front[Foot.LEFT].heel.x)
    assert rear[Foot.RIGHT].heel.y == pytest.approx(-front[Foot.LEFT].heel.y)


def test_aerial_heights() -> None:
    """drodd.com 'Aerial': ankle, calf, knee; heights are ANSUR II means for women."""
    heights = [MEANS[LADY].height(aerial) for aerial in Aerial]
    assert heights == [63.0, 256.0, 449.0]


place = st.tuples(st.floats(-300, 300), st.floats(-300, 300), st.floats(-180, 180))


@settings(max_examples=150, deadline=None)
@given(place, place)
def test_overlap_agrees_with_shapely(one: tuple[float, float, float], two: tuple[float, float, float]) -> None:
    """shapely's polygon intersection is the reference."""
    a, b = (footprint(Placed(Point(x, y), d), MAN) for x, y, d in (one, two))
    area = shapely.Polygon([(p.x, p.y) for p in a]).intersection(shapely.Polygon([(p.x, p.y) for p in b])).area
    depth = overlap(a, b)
    assert (depth > 0.01) <= (area > 0) and (area > 1.0) <= (depth > 0)
    assert math.isfinite(depth)
