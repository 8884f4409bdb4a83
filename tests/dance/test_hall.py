"""A line of dance round a hall: its length, its corners, and the couple carried along it."""
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.floor import dance_floor
from notation.dance.hall import EMPRESS, Hall, corners, frame_at, in_hall, round_the_hall, stretches
from notation.dance.script import GENT, LADY, PARTS
from notation.dance.travel import Travel, corner_sentence, travel_of, travel_sentence
from notation.plane import Point
from notation.reading.knowledge import load_knowledge
from tests.dance.worked import EXAMPLES, work

HALL = Hall(20_000.0, 12_000.0)
FLOOR = dance_floor(work(EXAMPLES / "harbour-bell-waltz.yaml"), load_knowledge())


def test_length_of_the_line() -> None:
    """By arithmetic: 20 by 12 m, 2 m from the edges, corners of 3 m: straights of 10 and 2 m, a circle of 3 m."""
    assert HALL.circuit == pytest.approx(2 * 10_000 + 2 * 2_000 + 2 * math.pi * 3_000)
    assert sum(s.length for s in stretches(HALL)) == pytest.approx(HALL.circuit)
    assert (EMPRESS.length, EMPRESS.breadth) == pytest.approx((189 * 304.8, 110 * 304.8), abs=30.0)


@pytest.mark.parametrize(("metres", "place", "heading"), [
    (0.0, (0.0, -4_000.0), 0.0),
    (5.0, (5_000.0, -4_000.0), 0.0),
    (5.0 + 1.5 * math.pi, (8_000.0, -1_000.0), 90.0),
    (7.0 + 1.5 * math.pi, (8_000.0, 1_000.0), 90.0),
    (12.0 + 3.0 * math.pi, (0.0, 4_000.0), 180.0),
    (24.0 + 6.0 * math.pi, (0.0, -4_000.0), 0.0),
])
def test_places_of_the_line(metres: float, place: tuple[float, float], heading: float) -> None:
    """By geometry; anticlockwise seen from above (dancecentral.info, alignment diagram), a quarter to the left at each
    corner ('Reading Ballroom Dance Scripts', pp.20-22)."""
    at, turned = frame_at(HALL, metres * 1000.0)
    assert (at.x, at.y) == pytest.approx(place, abs=0.001)
    assert turned % 360 == pytest.approx(heading)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.0, 200_000.0), st.floats(4.1, 40.0), st.floats(4.1, 40.0))
def test_the_line_is_unbroken_and_turns_gradually(distance: float, one: float, two: float) -> None:
    """By geometry: a millimetre along the line is a millimetre of the hall, and turns no more than its corner."""
    hall = Hall(max(one, two) * 1000.0, min(one, two) * 1000.0)
    (here, a), (there, b) = frame_at(hall, distance), frame_at(hall, distance + 1.0)
    assert here.distance(there) == pytest.approx(1.0, abs=0.001)
    assert (b - a) % 360 <= math.degrees(1.0 / hall.corner) + 1e-6
    assert abs(here.x) <= hall.length / 2 - hall.aside + 0.001 and abs(here.y) <= hall.breadth / 2 - hall.aside + 0.001


@settings(max_examples=20, deadline=None)
@given(st.floats(0.0, 60_000.0), st.integers(0, len(FLOOR.moments) - 1))
def test_the_couple_is_carried_as_a_whole(begins: float, moment: int) -> None:
    """By geometry: distances between bodies and between feet stay; every foot turns by the heading of the line."""
    before = FLOOR.moments[moment].dancers
    after = in_hall(before, HALL, begins)
    assert after[GENT].centre.distance(after[LADY].centre) == pytest.approx(FLOOR.moments[moment].apart)
    turned = {(after[p].feet[f].degrees - before[p].feet[f].degrees) % 360 for p in PARTS for f in before[p].feet}
    assert max(turned) - min(turned) < 1e-6
    for part in PARTS:
        (a, b), (c, d) = (list(d[part].feet.values()) for d in (before, after))
        assert a.heel.distance(b.heel) == pytest.approx(c.heel.distance(d.heel))


def test_centre_of_the_hall_is_on_the_left_all_the_way_round() -> None:
    """dancecentral.info, alignment diagram: the wall on the right, the centre on the left."""
    for metres in range(0, 42, 3):
        at, heading = frame_at(HALL, metres * 1000.0)
        left = math.radians(heading + 90.0)
        inwards = Point(at.x + 100.0 * math.cos(left), at.y + 100.0 * math.sin(left))
        assert abs(inwards.x) + abs(inwards.y) < abs(at.x) + abs(at.y)


def test_the_corners_come_where_the_couple_has_gone_that_far() -> None:
    """By arithmetic: the first corner begins 5 m from the middle of the long side."""
    found = corners(FLOOR, HALL)
    assert len(found) == 4 and found == tuple(sorted(found))
    reached = next(
        s.bar for s in FLOOR.moments
        if (s.dancers[GENT].centre.x + s.dancers[LADY].centre.x) / 2 >= 5_000.0
    )
    assert found[0] == (1, reached)
    assert f"bar {reached} of sequence 1" in corner_sentence(FLOOR, HALL)


def test_so_many_sequences_go_round() -> None:
    """By arithmetic: 24 m of straights and 6 pi of corners are 42.85 m, with 10.7 m a sequence four times round."""
    assert "is 4 of them" in travel_sentence(Travel(10.7, 0.0), HALL)
    assert len(list(round_the_hall(FLOOR, HALL, 2))) == 2 * len(FLOOR.moments)
    assert travel_of(FLOOR).along > 5.0
