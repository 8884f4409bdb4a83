"""The turned-out set on the floor: where the feet stand and the bodies face, alone and as a couple.

Common practice, no source, where nothing else is said. And every figure of the library keeps its shape on the floor,
turned, moved or mirrored.
"""
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.call import Wanted
from notation.dance.calling import piece_of
from notation.dance.feet import Foot
from notation.dance.figure import Figure
from notation.dance.floor import Floor, dance_floor, standing
from notation.dance.geometry import MEANS
from notation.dance.mark import NOWHERE, Said
from notation.dance.room import Alignment, Mode, Room
from notation.dance.script import GENT, LADY, PARTS, Call, Danced, Stance
from notation.dance.stepping import Dancer, after_step
from notation.dance.turning import align
from notation.dance.work import work_out
from notation.plane import ORIGIN, Point, Vector
from notation.reading.dance import read_dance
from notation.reading.figures import FOLDER, load_figure
from notation.reading.knowledge import load_knowledge

DANCE = """\
format: 1
title: A Figure
arranged by: A. Writer
rhythm: {rhythm}
introduction: 4
length: {bars}
feet: turned-out
start: {{position: {position}, hold: {hold}, gent: "{gent}", lady: "{lady}"}}
sequence:
  - bars: 1-{bars}
    gent: {call}
    lady: {hers}
"""
SIDE_BY_SIDE = {"position": "side by side", "hold": "open"}
CLOSED = {"position": "closed", "hold": "closed"}
APART = {"position": "side by side", "hold": "none"}


def floor(call: str, hers: str, gent: str, lady: str, bars: int, rhythm: str = "old-time waltz", **held: str) -> Floor:
    text = DANCE.format(call=call, hers=hers, gent=gent, lady=lady, bars=bars, rhythm=rhythm, **held)
    reading = read_dance(text.encode(), "figure.yaml", load_knowledge())
    assert reading.dance is not None and not reading.findings, reading.findings
    worked = work_out(reading.dance, load_knowledge())
    assert not worked.findings, worked.findings
    return dance_floor(worked, load_knowledge())


def degrees(dancer: Dancer) -> dict[Foot, float]:
    return {foot: (placed.degrees + 180.0) % 360.0 - 180.0 for foot, placed in dancer.feet.items()}


def test_start_angles() -> None:
    """He: LF to LOD, RF to the wall, body DW; she: RF to LOD, LF to the centre, body DC: the partners look apart."""
    start = floor("pas de valse, LF", "mirror", "LF 3rd front, facing DW", "RF 3rd front, facing DC", 1,
                  **SIDE_BY_SIDE).start
    assert degrees(start[GENT]) == {Foot.LEFT: 0.0, Foot.RIGHT: -90.0} and start[GENT].facing is Room.DW
    assert degrees(start[LADY]) == {Foot.RIGHT: 0.0, Foot.LEFT: 90.0} and start[LADY].facing is Room.DC


@pytest.mark.parametrize(("foot", "sense"), [("LF", 1.0), ("RF", -1.0)])
def test_pas_de_basque(foot: str, sense: float) -> None:
    """One bar, either foot, three changes of weight: to 2nd, the other closes in front in 5th; the feet end at right
    angles, heel of the front foot at the toe of the rear one, and the foot in front is free."""
    moments = floor(f"pas de basque, {foot}", "mirror", f"{foot} 5th front, facing LOD",
                    f"{'RF' if foot == 'LF' else 'LF'} 5th front, facing LOD", 1, **APART).moments
    gent = [shown.dancers[GENT] for shown in moments]
    own, other = Foot(foot), Foot(foot).other
    assert [d.weight for d in gent] == [own, other, own]
    second = gent[0].feet[own].heel.y - gent[0].centre.y
    assert degrees(gent[0])[own] == 45.0 * sense and second != 0.0
    assert gent[0].centre.y == pytest.approx(sense * (271.0 + 72.0))
    end = gent[2]
    assert degrees(end) == {own: 45.0 * sense, other: -45.0 * sense}
    apart = (end.feet[other].heel - end.feet[own].heel).turned(-end.feet[own].degrees)
    assert apart.x == pytest.approx(271.0 - 36.0) and end.feet[other].heel.x > end.feet[own].heel.x
    assert end.facing is Room.LOD and gent[1].feet == end.feet


def test_pas_de_valse() -> None:
    """Forward, forward past the other on the toe, close to 3rd rear with the turn-out restored; body to LOD, no weight
    left behind: two steps along LOD for both, side by side."""
    end = floor("pas de valse, LF", "mirror", "LF 3rd front, facing DW", "RF 3rd front, facing DC", 1,
                **SIDE_BY_SIDE).moments[-1].dancers
    for part, free in ((GENT, Foot.RIGHT), (LADY, Foot.LEFT)):
        dancer = end[part]
        assert dancer.centre.x == pytest.approx(1400.0) and dancer.weight is free.other
        toes = degrees(dancer)
        assert abs(toes[Foot.LEFT] - toes[Foot.RIGHT]) == pytest.approx(90.0)
        assert dancer.feet[free].along(135.0).x > dancer.feet[free.other].along(135.0).x


@pytest.mark.parametrize(("name", "foot", "sense"), [("natural turn", "RF", -1), ("reverse turn", "LF", 1)])
def test_turns_in_couple_hold(name: str, foot: str, sense: int) -> None:
    """Partners dance opposite halves, 4/8 each: after a bar he faces ALOD and she LOD, after two each as before; the
    natural to the right, the reverse to the left."""
    other = "LF" if foot == "RF" else "RF"
    turned = floor(name, f"{name}, from rotary half", f"{foot}, facing LOD", f"{other}, backing LOD", 2, **CLOSED)
    faces = [(m.bar, m.dancers[GENT].facing, m.dancers[LADY].facing) for m in turned.moments]
    assert faces[2] == (1, Room.ALOD, Room.LOD) and faces[-1] == (2, Room.LOD, Room.ALOD)
    for part in PARTS:
        for bar in (1, 2):
            made = [m.landings[part].aligned.eighths for m in turned.moments if m.bar == bar]
            assert sum(made) == 4 * sense
    assert turned.travel.x > 700.0 and all(200.0 < m.apart < 700.0 for m in turned.moments)
    end = turned.moments[-1].dancers
    assert end[GENT].weight is Foot(foot).other and end[LADY].weight is Foot(other).other


def test_natural_and_reverse_at_once_when_solo() -> None:
    """He the natural, she the reverse, without a hold: they turn opposite ways, 4/8 each half, go along LOD and
    face it again."""
    turned = floor("natural turn, solo", "reverse turn, solo", "RF, facing LOD", "LF, facing LOD", 2, **APART)
    for part, sense in ((GENT, -1), (LADY, 1)):
        for bar in (1, 2):
            assert sum(m.landings[part].aligned.eighths for m in turned.moments if m.bar == bar) == 4 * sense
        assert turned.moments[-1].dancers[part].facing is Room.LOD
    assert turned.travel.x > 700.0 and abs(turned.travel.y) < 5.0


@pytest.mark.parametrize(("call", "end"), [("gavotte step, LF", Room.LOD), ("gavotte step, LF, without turn", Room.DW)])
def test_gavotte_step(call: str, end: Room) -> None:
    """Body DW to LOD with 1/8 turn, or kept; the raised foot low and without weight; two steps along LOD, of which
    the closing takes back a little; couple."""
    danced = floor(call, "mirror", "LF 3rd front, facing DW", "RF 3rd front, facing DC", 1, "gavotte", **SIDE_BY_SIDE)
    last = danced.moments[-1].dancers
    assert last[GENT].facing is end and last[LADY].facing is end.mirrored
    assert last[GENT].weight is Foot.LEFT and last[LADY].weight is Foot.RIGHT
    assert last[GENT].height == MEANS[GENT].ankle and danced.travel.x == pytest.approx(1400.0, abs=60.0)
    assert abs(danced.travel.y) < 60.0


@pytest.mark.parametrize(("foot", "room", "end"), [("LF", Room.DW, Room.LOD), ("RF", Room.DC, Room.LOD)])
def test_gavotte_step_solo_on_either_foot(foot: str, room: Room, end: Room) -> None:
    """The same alone, the gent from DW on LF, and in the mirror from DC on RF."""
    of = load_figure(FOLDER / "gavotte-step.yaml")
    piece = piece_of(Wanted(of, Call(Said(of.name), (), NOWHERE)), GENT)
    steps = piece.steps if foot == "LF" else piece.mirrored.steps
    last = alone(steps, Foot(foot), room, ORIGIN, of)[-1]
    assert last.facing is end and last.weight is Foot(foot) and last.height == MEANS[GENT].ankle


def test_gavotte_toes_lie_on_the_diagonals() -> None:
    """With the body to LOD the turned-out toes lie on DW and DC (45 degrees each: Highland theory, grade 1)."""
    of = load_figure(FOLDER / "gavotte-step.yaml")
    stance = Stance(Foot.LEFT, of.gent.start.place, Alignment(Mode.FACING, Room.LOD))
    feet = standing(stance, GENT, ORIGIN, Room.LOD, of.feet, MEANS[GENT]).feet
    assert (feet[Foot.LEFT].degrees, feet[Foot.RIGHT].degrees) == (Room.DC.degrees, Room.DW.degrees)


LIBRARY = sorted(path.stem for path in FOLDER.glob("*.yaml"))


@cache
def figure(name: str) -> Figure:
    return load_figure(FOLDER / f"{name}.yaml")


def alone(steps: tuple[Danced, ...], foot: Foot, room: Room, at: Point, of: Figure) -> list[Dancer]:
    """The dancer after each step, danced without a partner."""
    stance = Stance(foot, None, Alignment(Mode.FACING, room))
    found = [standing(stance, GENT, at, room, of.feet, MEANS[GENT])]
    for one in align(steps, stance):
        found.append(after_step(found[-1], one, of.feet, MEANS[GENT]).after)
    return found


def same(here: Vector, there: Vector) -> bool:
    return (here - there).length < 0.01


@settings(max_examples=80, deadline=None)
@given(st.sampled_from(LIBRARY), st.integers(0, 7), st.integers(-5000, 5000), st.integers(-5000, 5000))
def test_a_figure_moved_and_turned_keeps_its_shape(name: str, eighths: int, x: int, y: int) -> None:
    """By geometry: every foot and body of the moved and turned figure is that of the first, moved and turned."""
    of = figure(name)
    piece = piece_of(Wanted(of, Call(Said(of.name), (), NOWHERE)), GENT)
    room = of.gent.start.alignment.toward if of.gent.start.alignment else Room.LOD
    first = alone(piece.steps, piece.foot, room, ORIGIN, of)
    moved = alone(piece.turned(eighths).steps, piece.foot, room.turned(eighths), Point(x, y), of)
    for here, there in zip(first, moved, strict=True):
        assert here.facing.turned(eighths) is there.facing
        assert same((here.centre - ORIGIN).turned(45.0 * eighths), there.centre - Point(x, y))
        for foot in here.feet:
            assert same((here.feet[foot].heel - ORIGIN).turned(45.0 * eighths), there.feet[foot].heel - Point(x, y))


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(LIBRARY))
def test_a_mirrored_figure_is_danced_in_the_mirror(name: str) -> None:
    """By geometry, wall and centre exchanged; mirrored twice it is the same."""
    of = figure(name)
    piece = piece_of(Wanted(of, Call(Said(of.name), (), NOWHERE)), GENT)
    room = of.gent.start.alignment.toward if of.gent.start.alignment else Room.LOD
    first = alone(piece.steps, piece.foot, room, ORIGIN, of)
    other = alone(piece.mirrored.steps, piece.foot.other, room.mirrored, ORIGIN, of)
    assert piece.mirrored.mirrored == piece
    for here, there in zip(first, other, strict=True):
        assert here.facing.mirrored is there.facing
        assert same(Vector(here.centre.x, -here.centre.y), there.centre - ORIGIN)
        for foot, placed in here.feet.items():
            assert same(Vector(placed.heel.x, -placed.heel.y), there.feet[foot.other].heel - ORIGIN)
