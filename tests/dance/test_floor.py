"""Places on the floor: bars recomputed by hand, traditional dances, and shape under turning and mirroring."""
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import Foot, TurnOut
from notation.dance.floor import Floor, dance_floor, standing
from notation.dance.geometry import MEANS
from notation.dance.partner import mirrored
from notation.dance.room import Alignment, Mode, Room
from notation.dance.script import GENT, LADY, Danced, Stance
from notation.dance.step import Step
from notation.dance.stepping import Dancer, after_step
from notation.dance.turning import align
from notation.plane import ORIGIN
from notation.reading.knowledge import load_knowledge
from tests.dance.worked import EXAMPLES, TRADITIONAL, steps, work


def floor(path: Path) -> Floor:
    return dance_floor(work(path), load_knowledge())


def danced(made: tuple[Step, ...], room: Room, foot: str = "LF") -> list[Dancer]:
    """The dancer after each step, alone, from the middle of the floor."""
    stance = Stance(Foot(foot), None, Alignment(Mode.FACING, room))
    placed = tuple(Danced(s, 1, Fraction(n), Fraction(1), s.count.text) for n, s in enumerate(made))
    found = [standing(stance, GENT, ORIGIN, room, TurnOut.PARALLEL, MEANS[GENT])]
    for one in align(placed, stance):
        found.append(after_step(found[-1], one, TurnOut.PARALLEL, MEANS[GENT]).after)
    return found


BOX = steps("1 LF fwd\n2 RF side\n3 LF close\n4 RF back\n5 LF side\n6 RF close")


def test_the_side_by_side_start_of_the_turned_out_style() -> None:
    """Common practice, no source: gent's LF points LOD and his RF to the wall, lady's RF LOD and her LF to centre."""
    start = floor(EXAMPLES / "lantern-quay-waltz.yaml").start
    gent, lady = ({f: p.degrees for f, p in start[part].feet.items()} for part in (GENT, LADY))
    assert gent == {Foot.LEFT: 0.0, Foot.RIGHT: -90.0} and lady == {Foot.RIGHT: 0.0, Foot.LEFT: 90.0}
    assert (start[LADY].centre - start[GENT].centre).degrees == pytest.approx(-90.0)


def test_gay_gordons_travels_nowhere_by_bar_8() -> None:
    """ceilidhminogue; my.strathspey.org 6984: eight steps down the line of dance, eight against it. A step back is
    put a little shorter than one forward, which cancels too."""
    gent = [s.dancers[GENT].centre for s in floor(TRADITIONAL / "gay-gordons.yaml").moments if s.bar <= 8]
    assert abs(gent[-1].x) < 100.0 and max(p.x for p in gent) > 4000.0


def test_veleta_bars_1_to_4_cancel_in_5_to_8() -> None:
    """libraryofdance.org/dances/veleta: the same along the line of dance and against it."""
    made = [s.dancers[GENT].centre for s in floor(TRADITIONAL / "veleta.yaml").moments if s.bar <= 8]
    assert abs(made[-1].x) < 200.0 and max(p.x for p in made) > 4500.0


def test_box_comes_back_to_its_place() -> None:
    """wikibooks Social Ballroom Dancing, box step; forward and back lengths differ by 50 mm in the table."""
    end = danced(BOX, Room.LOD)[-1].centre
    assert abs(end.x) <= 50.0 + 1e-6 and abs(end.y) < 120.0


def test_sides_are_exchanged_by_half_a_turn() -> None:
    """By geometry: after half a turn facing against the line of dance, a forward step goes against it."""
    made = danced(steps("1 LF fwd, 1/2 R\n2 RF fwd"), Room.LOD)
    assert made[-2].centre.x == pytest.approx(700.0) and made[-1].centre.x == pytest.approx(0.0)


@settings(max_examples=20)
@given(st.sampled_from(list(Room)))
def test_turned_as_a_whole_a_figure_keeps_its_shape(room: Room) -> None:
    """By geometry."""
    for here, there in zip(danced(BOX, Room.LOD), danced(BOX, room), strict=True):
        turned = (here.centre - ORIGIN).turned(room.degrees)
        assert (there.centre.x, there.centre.y) == pytest.approx((turned.x, turned.y))
        for foot, placed in here.feet.items():
            moved = (placed.heel - ORIGIN).turned(room.degrees)
            assert (there.feet[foot].heel.x, there.feet[foot].heel.y) == pytest.approx((moved.x, moved.y))


def test_mirrored_steps_land_mirrored_and_twice_mirrored_is_the_same() -> None:
    """By geometry: a mirror along the line of dance."""
    other = tuple(mirrored(s) for s in BOX)
    assert tuple(mirrored(s) for s in other) == BOX
    for here, there in zip(danced(BOX, Room.LOD), danced(other, Room.LOD, "RF"), strict=True):
        assert (there.centre.x, there.centre.y) == pytest.approx((here.centre.x, -here.centre.y))


@pytest.mark.parametrize("name", ["harbour-bell-waltz", "tinsmiths-two-step"])
def test_partners_in_closed_hold_stay_together(name: str) -> None:
    """ANSUR II chest depths: bodies in contact are about 0.25 m apart; 0.15 to 0.7 m is kept."""
    for shown in floor(EXAMPLES / f"{name}.yaml").moments:
        if shown.hold and shown.hold.name == "closed":
            assert 150.0 < shown.apart < 700.0


def test_boston_two_step_comes_back_by_bar_8() -> None:
    """Society of Folk Dance Historians, Folk Dance Problem Solver 1987: bars 5-8 are 1-4 against the line of dance."""
    made = floor(TRADITIONAL / "boston-two-step.yaml").bars(range(1, 9))
    assert abs(made.travel.x) < 200.0 and max(s.dancers[GENT].centre.x for s in made.moments) > 2000.0


def test_waltz_two_step_exchanges_sides_after_eight_bars_and_again_after_sixteen() -> None:
    """kickery.com: sides are changed after bar 8, since each half has one and a half turns. She begins on the wall
    side, dances the second half on the centre side, and ends as she began."""
    made = floor(TRADITIONAL / "waltz-two-step.yaml")
    def hers_to_centre(bars: range) -> list[float]:
        return [s.dancers[LADY].centre.y - s.dancers[GENT].centre.y for s in made.bars(bars).moments]
    assert max(hers_to_centre(range(1, 3))) < 0.0 < min(hers_to_centre(range(9, 11)))
    last = made.moments[-1].dancers
    assert (last[GENT].facing, last[LADY].facing) == (Room.WALL, Room.CENTRE)
    middle = made.bars(range(1, 9)).moments[-1].dancers
    assert (middle[GENT].facing, middle[LADY].facing) == (Room.CENTRE, Room.WALL)


def test_gay_gordons_eight_steps_down_and_eight_back() -> None:
    """ceilidhminogue: eight steps down the line of dance, whichever way they face, then eight against it."""
    made = floor(TRADITIONAL / "gay-gordons.yaml")
    down, back = made.bars(range(1, 5)), made.bars(range(5, 9))
    assert down.travel.x > 4000.0 and back.travel.x == pytest.approx(-down.travel.x, abs=100.0)


@pytest.mark.parametrize(("line", "along"), [
    ("2 LF pivot, 1/4 R, B", 0.74 * 271.0), ("2 LF pivot, 1/4 R", 0.74 * 271.0), ("2 LF pivot, 1/2 L, H", 36.0),
])
def test_a_pivot_turns_about_the_ball_or_the_heel(line: str, along: float) -> None:
    """By geometry: the ball at 0.74 of the foot, or the middle of a heel 72 mm broad (ANSUR II), stays where it is; the
    distances of both feet and the body from it stay too."""
    before, after = danced(steps(f"1 LF fwd\n{line}"), Room.LOD)[1:]
    pin, still = (d.feet[Foot.LEFT].along(along) for d in (before, after))
    assert pin.distance(still) < 0.001 and before.facing is not after.facing
    assert before.centre.distance(pin) == pytest.approx(after.centre.distance(pin))
    assert before.feet[Foot.RIGHT].heel.distance(pin) == pytest.approx(after.feet[Foot.RIGHT].heel.distance(pin))


def test_a_swivel_on_both_feet_keeps_the_body_in_its_place() -> None:
    """By geometry."""
    before, after = danced(steps("1 LF fwd\n2 RF close\n3 both in place, 1/4 R, T"), Room.LOD)[2:]
    assert before.centre.distance(after.centre) < 0.001 and after.facing is Room.WALL
    turned = (before.feet[Foot.LEFT].heel - before.centre).turned(-90.0)
    assert (after.feet[Foot.LEFT].heel - after.centre - turned).length < 0.001


def test_a_heel_turn_leaves_the_heel_where_it_is() -> None:
    """Foxtrot closed impetus, man: the feet close in a heel turn of 3/8 (dancecentral.info); the heel of the standing
    foot keeps its place but for what the body cannot stand ahead of it (80 mm)."""
    heel, ball = (danced(steps(f"1 LF back\n2 RF close, 3/8 R, {work}"), Room.ALOD)[1:] for work in ("HT", "T"))
    moved = [made[0].feet[Foot.LEFT].along(36.0).distance(made[1].feet[Foot.LEFT].along(36.0)) for made in (heel, ball)]
    assert moved[0] < 80.0 < moved[1]
