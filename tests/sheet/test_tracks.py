"""Footprints against published charts: where each foot points, what it bears and how it moves."""
from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from notation.dance.feet import Foot, TurnOut
from notation.dance.room import Alignment, Mode, Room
from notation.dance.script import GENT, LADY, Danced, Stance
from notation.plane import Point
from notation.sheet.footprint import Bearing, Footprint, Movement
from notation.sheet.sole import Part
from notation.sheet.stance import standing_feet
from notation.sheet.tracks import facings, footprint_of
from tests.sheet.setting import dance, example, passage, step

NATURAL_TURN = {
    GENT: [("RF", -45), ("LF", -135), ("RF", 180), ("LF", 180), ("RF", 45), ("LF", 45)],
    LADY: [("LF", 135), ("RF", 0), ("LF", 0), ("RF", 0), ("LF", -90), ("RF", -135)],
}
REVERSE_TURN = {
    GENT: [("LF", 45), ("RF", 135), ("LF", 180), ("RF", 180), ("LF", -45), ("RF", -45)],
    LADY: [("RF", -135), ("LF", 0), ("RF", 0), ("LF", 0), ("RF", 90), ("LF", 135)],
}


def prints(steps: tuple[Danced, ...], stance: Stance | None, feet: TurnOut | None) -> list[Footprint]:
    made = [footprint_of(d.step, room, feet) for d, room in zip(steps, facings(steps, stance), strict=True)]
    return [one for one in made if one is not None]


def of_example(part: str, first: int, last: int) -> list[Footprint]:
    whole = example("harbour-bell-waltz")
    stance = whole.start.gent if part == GENT else whole.start.lady
    made = prints(whole.steps(part), stance, whole.dance.feet)
    return [p for p, d in zip(made, whole.steps(part), strict=True) if first <= d.bar <= last]


def same_way(one: float, other: float) -> bool:
    return (one - other) % 360 == 0


@pytest.mark.parametrize("part", [GENT, LADY])
@pytest.mark.parametrize(("chart", "first"), [(NATURAL_TURN, 1), (REVERSE_TURN, 4)])
def test_feet_point_as_the_waltz_charts_say(part: str, chart: dict[str, list[tuple[str, int]]], first: int) -> None:
    """Degrees of the feet from the line of dance, positive to the left: Wikipedia, 'Natural and reverse turns';
    Alex Moore, Ballroom Dancing, 10th ed. 2002; magicdanceworld.com, waltz reverse turn."""
    found = of_example(part, first, first + 1)
    assert [p.foot.value for p in found] == [foot for foot, _ in chart[part]]
    assert all(same_way(p.angle, degrees) for p, (_, degrees) in zip(found, chart[part], strict=True))


def test_a_side_step_goes_a_quarter_to_the_left_of_where_the_body_faces() -> None:
    """Step 2 of the gent's natural turn: LF to the side, backing diagonal to centre, so he moves diagonal to wall."""
    second = of_example(GENT, 1, 1)[1]
    assert second.movement is Movement.COURSE and same_way(second.course, -135 + 90)


def test_a_pointed_foot_keeps_its_own_angle_in_a_turned_out_dance() -> None:
    pointed = replace(step("LF close 3rd rear"), alignment=Alignment(Mode.POINTING, Room.DC))
    assert footprint_of(pointed, Room.LOD, TurnOut.TURNED_OUT) is not None
    assert footprint_of(pointed, Room.DC, TurnOut.TURNED_OUT).angle == 45.0  # type: ignore[union-attr]


@pytest.mark.parametrize(("part", "foot", "room", "left", "right"), [
    (GENT, Foot.LEFT, Room.DW, 0.0, -90.0),
    (LADY, Foot.RIGHT, Room.DC, 90.0, 0.0),
])
def test_the_turned_out_start(part: str, foot: Foot, room: Room, left: float, right: float) -> None:
    """Gent in 3rd with LF in front: LF points along the line of dance, RF to the wall, the body diagonal to wall; the
    lady the other way round (common practice, no source)."""
    stance = Stance(foot, step("LF fwd 3rd front").place, Alignment(Mode.FACING, room))
    feet = standing_feet(stance, part, Point(0, 0), room, TurnOut.TURNED_OUT)
    assert {one.foot: one.angle for one in feet} == {Foot.LEFT: left, Foot.RIGHT: right}
    assert [one.foot for one in feet if not one.bears] == [foot]


@pytest.mark.parametrize(("line", "part", "bearing", "movement"), [
    ("LF fwd, H", Part.WHOLE, Bearing.WEIGHT, Movement.COURSE),
    ("LF fwd, T", Part.BALL, Bearing.WEIGHT, Movement.COURSE),
    ("LF back, IE", Part.INSIDE, Bearing.WEIGHT, Movement.COURSE),
    ("LF close, TH", Part.WHOLE, Bearing.WEIGHT, Movement.CLOSE),
    ("LF cross behind", Part.WHOLE, Bearing.WEIGHT, Movement.CROSS_BEHIND),
    ("LF lock in front", Part.WHOLE, Bearing.WEIGHT, Movement.CROSS_FRONT),
    ("LF heel", Part.HEEL, Bearing.TOUCH, Movement.NONE),
    ("LF point fwd", Part.BALL, Bearing.TOUCH, Movement.COURSE),
    ("LF swing across", Part.WHOLE, Bearing.AIR, Movement.CROSS_FRONT),
    ("LF point fwd, low aerial", Part.BALL, Bearing.AIR, Movement.COURSE),
    ("LF hop", Part.WHOLE, Bearing.WEIGHT, Movement.SPRING),
    ("LF heel, with weight", Part.HEEL, Bearing.WEIGHT, Movement.NONE),
])
def test_what_a_footprint_shows(line: str, part: Part, bearing: Bearing, movement: Movement) -> None:
    """H on a forward step is heel, then the whole foot; T includes the ball (regencydancecentre.com, glossary)."""
    shown = footprint_of(step(line), Room.LOD, TurnOut.PARALLEL)
    assert shown is not None
    assert (shown.part, shown.bearing, shown.movement) == (part, bearing, movement)


@pytest.mark.parametrize(("line", "course"), [
    ("LF fwd", 0), ("RF back", 180), ("LF side", 90), ("RF side", -90), ("LF diag fwd", 45), ("RF diag fwd", -45),
    ("RF diag back", -135), ("RF side, moving DC", 45),
])
def test_courses_are_seen_from_the_body_and_said_ones_from_the_room(line: str, course: int) -> None:
    for facing in Room:
        shown = footprint_of(step(line), facing, TurnOut.PARALLEL)
        assert shown is not None
        assert same_way(shown.course, course if "moving" in line else facing.degrees + course)


def test_turns_without_an_alignment_are_added_up() -> None:
    of = dance(passage("1 LF fwd, 1/8 L; 2 RF fwd, 1/4 R; 3 LF close, no turn", "1 RF back; 2 LF back; 3 RF close"))
    assert list(facings(of.steps(GENT), of.start.gent)) == [Room.DC, Room.DW, Room.DW]
    assert of.steps(GENT)[0].lasts == Fraction(1)
