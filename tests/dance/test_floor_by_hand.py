"""One bar of each example worked out by hand, in millimetres, and laid beside what the tool works out.

Written out from the table of lengths (700 forward, 650 back, 450 to the side; into a turned-out 2nd one foot's length
and a heel) and the foot sizes of ANSUR II (NATICK/TR-15/007): man 271 long, 102 broad, heel 72; woman 246, 93, 67;
ball at 0.74 of the length. c is the cosine of 45 degrees. Nothing of the project's geometry is used for the numbers.
"""
import math

import pytest

from notation.dance.floor import Floor, dance_floor
from notation.dance.script import GENT, LADY
from notation.dance.travel import apart_sentence, closing_sentence, furthest, lady_from_gent, travel_of
from notation.reading.knowledge import load_knowledge
from tests.dance.worked import EXAMPLES, work

C = math.cos(math.radians(45))
MAN, WOMAN = (271.0, 102.0, 72.0), (246.0, 93.0, 67.0)
CLOSE = 0.01  # millimetres
Pair = tuple[float, float]


def first_bar(name: str) -> Floor:
    return dance_floor(work(EXAMPLES / f"{name}.yaml"), load_knowledge()).bars(range(1, 2))


def places(floor: Floor) -> list[tuple[Pair, Pair]]:
    """The two bodies at the start and after every moment."""
    stood = [floor.start, *(shown.dancers for shown in floor.moments)]
    return [((d[GENT].centre.x, d[GENT].centre.y), (d[LADY].centre.x, d[LADY].centre.y)) for d in stood]


def agree(floor: Floor, by_hand: list[tuple[Pair, Pair]]) -> None:
    """Every place, the distances between the partners, the greatest of them, and the travel of the bar."""
    found = places(floor)
    assert len(found) == len(by_hand)
    for here, there in zip(found, by_hand, strict=True):
        assert here[0] == pytest.approx(there[0], abs=CLOSE) and here[1] == pytest.approx(there[1], abs=CLOSE)
    apart = [math.dist(gent, lady) for gent, lady in by_hand[1:]]
    assert [shown.apart for shown in floor.moments] == pytest.approx(apart, abs=CLOSE)
    far = furthest(floor)
    assert far is not None and far.apart == pytest.approx(max(apart), abs=CLOSE)
    near, most = f"{min(apart) / 1000:.2f}", f"{max(apart) / 1000:.2f}"
    expected = f"are {most} m apart throughout" if near == most else f"are {near} to {most} m apart, furthest in bar"
    assert expected in apart_sentence(floor)
    (g0, l0), (g1, l1) = by_hand[0], by_hand[-1]
    along, aside = (((g1[n] + l1[n]) - (g0[n] + l0[n])) / 2000.0 for n in (0, 1))
    travel = travel_of(floor)
    assert (travel.along, travel.to_centre) == pytest.approx((along, aside), abs=CLOSE / 1000)


def closes(floor: Floor, start: Pair, end: Pair) -> None:
    """The lady's place from the gent's at both ends of the bar, and what `check` says of it."""
    found = lady_from_gent(floor.start), lady_from_gent(floor.moments[-1].dancers)
    assert [(v.x, v.y) for v in found] == [pytest.approx(start, abs=CLOSE), pytest.approx(end, abs=CLOSE)]
    assert f"the lady is {math.dist(start, end) / 1000:.2f} m from her place" in closing_sentence(floor)


def test_two_walks_of_the_saunter() -> None:
    """He goes 700 forward, she 650 back; closed position puts her 250 ahead of him and 50 to his right, so each step
    brings them 50 too near: each partner gives half, 25."""
    bar = first_bar("ferry-lane-saunter")
    one, two = 700.0 - 25.0, 250.0 + 650.0 + 25.0
    agree(bar, [
        ((0.0, 0.0), (250.0, -50.0)), ((one, 0.0), (two, -50.0)), ((2 * one, 0.0), (250.0 + 2 * (two - 250.0), -50.0)),
    ])
    assert (2 * one, 250.0 + 2 * (two - 250.0)) == (1350.0, 1600.0)
    closes(bar, (250.0, -50.0), (250.0, -50.0))
    assert "both face as they began" in closing_sentence(bar)


def test_natural_turn_of_the_waltz() -> None:
    """Step 1 along DW: he 700, she 650, each giving 25. Step 2 both 450 along DW, he then facing DWA and she DC: the
    closed position puts her 250 ahead of DWA and 50 to its right, and each gives half of what is missing. Step 3 each
    closes: the body comes over the middle of the joined feet, which stand about the ball of the foot that stood."""
    bar = first_bar("harbour-bell-waltz")
    start = ((0.0, 0.0), ((250.0 - 50.0) * C, (-250.0 - 50.0) * C))
    first = ((675.0 * C, -675.0 * C), (start[1][0] + 675.0 * C, start[1][1] - 675.0 * C))
    side = [(x + 450.0 * C, y - 450.0 * C) for x, y in first]
    wanted = ((-250.0 - 50.0) * C, (-250.0 + 50.0) * C)
    half = [(wanted[n] - (side[1][n] - side[0][n])) / 2 for n in (0, 1)]
    second = ((side[0][0] - half[0], side[0][1] - half[1]), (side[1][0] + half[0], side[1][1] + half[1]))
    # His left foot stands 51 to the left of his body, toes to DWA; the ball 0.74 * 271 - 135.5 = 65.04 before the
    # middle of the foot. Joined feet face ALOD: the left one 51 to that side, so the middle between them is 51 nearer.
    ball = -51.0 * -C - 65.04 * C, 51.0 * -C - 65.04 * C
    gent_moves = ball[1] + 51.0
    # Her right foot points LOD, her body DC: the foot is 46.5 to the right of DC, and joined feet face LOD.
    lady_moves = -46.5 * C + 46.5
    third = ((second[0][0], second[0][1] + gent_moves), (second[1][0], second[1][1] + lady_moves))
    agree(bar, [start, first, second, third])
    apart = third[1][0] - third[0][0], third[1][1] - third[0][1]
    closes(bar, (250.0, -50.0), (-apart[0], -apart[1]))
    assert "the gent lacks 3/8 to L and the lady lacks 3/8 to L" in closing_sentence(bar)


def balls_aside(size: tuple[float, float, float], along: float) -> Pair:
    """Of turned-out feet of which one stands in front: how far the balls of the rear and the front foot are from the
    middle between the feet, to the side of the rear foot. The front heel stands `along` the rear foot, half a breadth
    from its middle line."""
    length, breadth, _ = size
    front_heel = along * C - breadth / 2 * C  # from the rear heel, whose foot points to its own side at 45 degrees
    middle = (length / 2 * C + front_heel - length / 2 * C) / 2
    return 0.74 * length * C - middle, front_heel - 0.74 * length * C - middle


def test_pas_de_valse_side_by_side() -> None:
    """Two steps of 700 along the line of dance, she 600 to his right, within what an open hold reaches: nobody gives.
    Then the outside foot, his left and her right, closes to 3rd rear against half the length of the other: the foot
    that stood keeps its ball, and the body comes over the middle of the feet."""
    bar = first_bar("lantern-quay-waltz")
    moved = []
    for size in (MAN, WOMAN):
        _, front = balls_aside(size, 0.5 * size[0])
        # The inside foot stands half a breadth towards the partner; the rear foot is the outside one.
        moved.append(-size[1] / 2 - front)
    gent, lady = moved
    agree(bar, [
        ((0.0, 0.0), (0.0, -600.0)), ((700.0, 0.0), (700.0, -600.0)), ((1400.0, 0.0), (1400.0, -600.0)),
        ((1400.0, gent), (1400.0, -600.0 - lady)),
    ])
    closes(bar, (0.0, -600.0), (0.0, -600.0 - lady - gent))


def test_pas_de_basque_of_the_two_step() -> None:
    """Apart into 2nd, he 271 + 72 to the centre and she 246 + 67 to the wall; the inside foot closes to 5th front, its
    heel half a heel short of the other's toe; the third step changes the weight in place."""
    bar = first_bar("tinsmiths-two-step")
    moved = []
    for size in (MAN, WOMAN):
        length, breadth, heel = size
        out, _ = balls_aside(size, length - heel / 2)
        # The foot in 2nd stands half a breadth outwards, its toes at 45 degrees; its ball is that much further out.
        ball = breadth / 2 + (0.74 - 0.5) * length * C
        moved.append((length + heel, ball - out))
    (gent, his), (lady, hers) = moved
    assert (gent, lady) == (343.0, 313.0)
    after = ((0.0, gent + his), (0.0, -600.0 - lady - hers))
    agree(bar, [((0.0, 0.0), (0.0, -600.0)), ((0.0, gent), (0.0, -600.0 - lady)), after, after])
    closes(bar, (0.0, -600.0), (0.0, after[1][1] - after[0][1]))
