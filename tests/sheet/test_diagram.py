"""Floor diagrams: counts cover nothing, scale is true, every step is there, and each thing shown tells itself apart."""
from collections.abc import Sequence
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import Foot
from notation.dance.floor import Floor, dance_floor
from notation.dance.geometry import MEANS, overlap, sized
from notation.dance.hall import Hall
from notation.dance.script import GENT, LADY, PARTS
from notation.dance.work import work_out
from notation.page.content import Drawing
from notation.page.frame import PlacedShape, PlacedText
from notation.page.path import Move, Path
from notation.plane import Point, Rect
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.sheet.counts import _crosses, counts_placed
from notation.sheet.diagram import floor_diagram, prints_of
from notation.sheet.figurewords import figure_speaker
from notation.sheet.floorwords import described, lettered
from notation.sheet.hallplan import hall_plan
from notation.sheet.prints import Print, foot_shapes, on_page, sweep, way
from notation.sheet.speakers import printed_phrases
from notation.sheet.stance import label_width
from tests.dance.worked import EXAMPLES, work

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
LETTERS = lettered(printed_phrases(load_knowledge().vocabulary), "SourceSans3-SemiBold", 8.0, 0.085)


def prints(of: Floor, bars: range, parts: Sequence[str] = PARTS) -> list[Print]:
    return prints_of(of, bars, parts, LETTERS.heights)


def diagram(of: Floor, bars: range, parts: Sequence[str] = PARTS) -> Drawing | None:
    return floor_diagram(of, bars, parts, LETTERS)


def corners(box: Rect) -> tuple[Point, ...]:
    """The box as a convex outline."""
    return (Point(box.x0, box.y0), Point(box.x1, box.y0), Point(box.x1, box.y1), Point(box.x0, box.y1))


GESTURES = """\
format: 1
title: Gestures
arranged by: A. Writer
rhythm: waltz
tempo: 30
introduction: 4
length: 4
start: {position: side by side, hold: none, gent: "RF, facing LOD", lady: "LF, facing LOD"}
sequence:
  - bars: 1-4
    gent: |
      1  RF circle to side
      2  RF point fwd, low aerial
      3  RF fwd, T
      1  LF heel fwd
      2  LF lift
      3  LF fwd, 1/4 L, H
      1  RF circle
      2  RF side, 1/4 R
      3  LF close
      1  RF touch
      2  RF kick fwd, medium aerial
      3  hold
    lady: mirror
"""


@cache
def floor(name: str) -> Floor:
    return dance_floor(work(EXAMPLES / f"{name}.yaml"), load_knowledge())


@cache
def gestures() -> Floor:
    reading = read_dance(GESTURES.encode(), "gestures.yaml", load_knowledge())
    assert reading.dance is not None and not reading.findings, reading.findings
    return dance_floor(work_out(reading.dance, load_knowledge()), load_knowledge())


def printed(bar: int, part: str = GENT) -> list[Print]:
    """The prints of a bar of the gestures that moved, in order."""
    return [one for one in prints(gestures(), range(bar, bar + 1), (part,)) if one.count]


def feet_and_labels(prints: list[Print]) -> None:
    labels = counts_placed(prints, LETTERS)
    feet = [tuple(on_page(p, LETTERS.scale) for p in one.outline) for one in prints]
    assert len(labels) == sum(1 for one in prints if one.count)
    for n, label in enumerate(labels):
        assert not any(label.box.overlaps(other.box) for other in labels[:n])
        near = [foot for foot in feet if Rect.around(foot).overlaps(label.box)]
        assert not any(overlap(corners(label.box), foot) for foot in near)


@pytest.mark.parametrize("name", NAMES)
def test_counts_cover_no_footprint_and_no_other_count(name: str) -> None:
    """By geometry, in every bar of the example; the feet that stood before count too."""
    of = floor(name)
    for bar in sorted({shown.bar for shown in of.moments}):
        feet_and_labels(prints(of, range(bar, bar + 1)))
    for part in PARTS:
        feet_and_labels(prints(of, range(1, 2), (part,)))
    feet_and_labels(prints(of, range(1, 3)))


@pytest.mark.parametrize("name", NAMES)
def test_no_words_of_a_diagram_cover_each_other(name: str) -> None:
    """By geometry: counts, 'LOD', 'wall' and the scale, by the widths that the diagram reckons with."""
    of = floor(name)
    for bar in sorted({shown.bar for shown in of.moments}):
        drawing = diagram(of, range(bar, bar + 1))
        if drawing is None:
            continue
        texts = [item for item in drawing.items if isinstance(item, PlacedText)]
        boxes = [Rect(t.x, t.y - 0.68 * t.size, t.x + label_width(t.text, t.size), t.y) for t in texts]
        assert not [(texts[a].text, texts[b].text) for a in range(len(boxes)) for b in range(a)
                    if boxes[a].overlaps(boxes[b])]
        assert all(box.x0 >= 0.0 and box.x1 <= drawing.width for box in boxes)


def test_line_of_dance_is_up_the_page_and_the_wall_at_the_right() -> None:
    """Common practice: as in the rows of the sheet."""
    ahead, aside = (on_page(p, 1.0) for p in (Point(1.0, 0.0), Point(0.0, -1.0)))
    assert ahead.y == pytest.approx(-1.0) and aside.x == pytest.approx(1.0)


def test_every_step_has_its_count_and_its_words() -> None:
    """Against the dance file: bar 1 of the natural turn, three steps each."""
    of = floor("harbour-bell-waltz")
    drawing = diagram(of, range(1, 2))
    assert drawing is not None
    texts = [item.text for item in drawing.items if isinstance(item, PlacedText)]
    assert sorted(t for t in texts if t.isdecimal()) == ["1", "1", "2", "2", "3", "3"]
    assert {"LOD", "wall", "0.5 m"} <= set(texts)
    words = described(of, 1, figure_speaker(load_knowledge().vocabulary, False))
    assert words.startswith("1, gent's right foot forward; 1, lady's left foot back")


def test_one_part_alone_and_a_bar_that_is_not_there() -> None:
    """By definition."""
    of = floor("harbour-bell-waltz")
    alone, both = diagram(of, range(1, 2), (LADY,)), diagram(of, range(1, 2))
    assert alone is not None and both is not None and len(alone.items) < len(both.items)
    assert diagram(of, range(99, 100)) is None


def test_feet_are_drawn_to_scale() -> None:
    """ANSUR II: a man's foot of 271 mm, a woman's of 246 mm; half a metre of the scale bar is 500 mm of the same."""
    of = floor("harbour-bell-waltz")
    for part in PARTS:
        one = next(p for p in prints(of, range(1, 2), (part,)) if p.count)
        outline = next(iter(foot_shapes(one, LETTERS))).path
        ends = [point for segment in outline.segments for point in segment.points[-1:]]
        lengths = [a.distance(b) for a in one.outline for b in one.outline]
        assert max(lengths) >= MEANS[part].length and one.length == {GENT: 271.0, LADY: 246.0}[part]
        drawn = max(a.distance(b) for a in ends for b in ends)
        assert drawn == pytest.approx(one.length * LETTERS.scale, rel=0.05)
    drawing = diagram(of, range(1, 2))
    assert drawing is not None
    widths = [item.path.bounds.width for item in drawing.items if isinstance(item, PlacedShape)]
    assert any(width == pytest.approx(500.0 * LETTERS.scale) for width in widths)


def test_feet_of_another_size() -> None:
    """By proportion: a foot half as long again is drawn half as long again, its heel and ankle with it."""
    large = sized(GENT, 1.5 * 271.0, 102.0)
    assert (large.length, large.breadth, large.heel, large.ankle) == pytest.approx((406.5, 102.0, 72.0, 109.5))
    of = dance_floor(work(EXAMPLES / "ferry-lane-saunter.yaml"), load_knowledge(), MEANS | {GENT: large})
    assert next(p for p in prints(of, range(1, 2), (GENT,)) if p.count).length == pytest.approx(406.5)


def test_the_two_are_told_apart_without_colour() -> None:
    """Every ink is a grey, and his whole foot is one black shape where hers is an outline with ribs."""
    of = floor("ferry-lane-saunter")
    drawing = diagram(of, range(1, 2))
    assert drawing is not None
    inks = [ink for item in drawing.items if isinstance(item, PlacedShape) for ink in (item.fill, item.stroke)]
    assert all(ink is None or isinstance(ink, float) for ink in inks)
    his, hers = (next(p for p in prints(of, range(2, 3), (part,)) if p.count) for part in PARTS)
    assert [s.fill for s in foot_shapes(his, LETTERS) if s.fill == 0.0] == [0.0]
    assert not [s for s in foot_shapes(hers, LETTERS) if s.fill == 0.0]
    ribs = [s.path for s in foot_shapes(hers, LETTERS) if s.fill is None]
    assert sum(isinstance(segment, Move) for path in ribs for segment in path.segments) >= 4


def test_weight_and_no_weight_and_the_parts_of_the_foot() -> None:
    """T and H of regencydancecentre.com's glossary: on the toe the ball bears alone, heel on a forward step is the
    whole foot in the end. A point or heel without weight is a broken outline with a dot."""
    point, lifted = printed(1)[1], printed(2)[1]
    toe = printed(1)[2]
    heel = printed(2)[0]
    black = [s.bounds for s in foot_shapes(toe, LETTERS) if s.fill == 0.0]
    whole = next(iter(foot_shapes(toe, LETTERS))).bounds
    assert len(black) == 1 and black[0].height < 0.6 * whole.height and black[0].y0 == pytest.approx(whole.y0)
    shapes = list(foot_shapes(heel, LETTERS))
    assert shapes[0].dash and shapes[1].bounds.centre.y > shapes[0].bounds.centre.y
    assert all(len(list(foot_shapes(one, LETTERS))) == 1 for one in (point, lifted))


def test_heights_of_raised_feet_stand_with_their_counts() -> None:
    """drodd.com, 'Aerial': low at the ankle, medium at the calf, high at the knee; a lift is to the knee, a kick low
    unless it says otherwise (common practice, no source)."""
    assert [printed(1)[1].count, printed(2)[1].count, printed(4)[1].count] == ["2 low", "2 high", "2 mid"]


@pytest.mark.parametrize(("bar", "ends_aside"), [(1, True), (3, False)])
def test_a_circle_goes_round(bar: int, ends_aside: bool) -> None:
    """By definition of a rond de jambe (Blasis 1820): the right foot passes ahead, then at the right; every other way
    is one straight line."""
    track = printed(bar)[0].landing
    assert track is not None
    points = track.track(MEANS[GENT])
    middle = track.after.centre
    around = [(p - middle).turned(-track.after.facing.degrees) for p in points]
    assert max(p.x for p in around) > 300.0 and min(p.y for p in around) < -350.0
    assert (around[-1].y < -300.0) is ends_aside
    assert len(way(printed(bar)[0], LETTERS)) > 3
    assert all(len(way(one, LETTERS)) in (0, 2) for one in printed(bar)[1:])


def test_turn_arrows_go_the_way_of_the_turn() -> None:
    """By geometry: on a page with y downwards a turn to the left sweeps from a larger to a smaller angle."""
    left, right = printed(2)[2], printed(3)[1]
    for one, degrees in ((left, 90.0), (right, -90.0)):
        swept = sweep(one, LETTERS)
        assert swept is not None and swept[2] - swept[3] == pytest.approx(degrees)
        assert swept[3] % 360 == pytest.approx((-90.0 - one.placed.degrees) % 360)
    assert sweep(printed(1)[2], LETTERS) is None


def test_the_bar_of_gestures_covers_nothing_either() -> None:
    for bar in (1, 2, 3, 4):
        feet_and_labels(prints(gestures(), range(bar, bar + 1)))


coordinate = st.integers(-50, 50).map(lambda n: n + 0.37)


@settings(max_examples=60, deadline=None)
@given(coordinate, coordinate, coordinate, coordinate)
def test_a_line_meets_a_box_as_shapely_says(a: float, b: float, c: float, d: float) -> None:
    """shapely is the reference."""
    shapely = pytest.importorskip("shapely")
    box = Rect(-10.0, -5.0, 10.0, 5.0)
    meets = shapely.LineString([(a, b), (c, d)]).intersection(shapely.box(*(box.x0, box.y0, box.x1, box.y1)))
    assert _crosses((Point(a, b), Point(c, d)), box) or meets.length < 0.01
    assert not _crosses((Point(a, b), Point(c, d)), box) or not meets.is_empty or (a, b) == (c, d)


def test_plan_of_a_hall() -> None:
    """By arithmetic: 20 by 12 m to scale, no wider than asked; the way stays within the walls."""
    of = floor("lantern-quay-waltz")
    plan = hall_plan(of, Hall(20_000.0, 12_000.0), 300.0, "plan", load_knowledge().vocabulary)
    assert (plan.width, plan.ascent - 1.0) == pytest.approx((300.0, 180.0))
    numbers = {item.text for item in plan.items if isinstance(item, PlacedText) and item.text.isdecimal()}
    assert {"1", "2", "3", "4"} <= numbers
    shapes = [item for item in plan.items if isinstance(item, PlacedShape)]
    walls = shapes[0].path.bounds
    ways = [item.path for item in shapes if isinstance(item.path, Path) and item.line_width == 0.7]
    assert len(ways) == 2 and sum(1 for item in shapes if item.dash) == 1
    for one in ways:
        assert walls.holds(Point(one.bounds.x0, one.bounds.y0)) and walls.holds(Point(one.bounds.x1, one.bounds.y1))


def test_both_feet_of_a_dancer_are_shown_where_they_stood() -> None:
    """By definition."""
    stood = [one for one in prints(gestures(), range(1, 2)) if not one.count]
    assert sorted((one.part, one.foot.value) for one in stood) == sorted(
        (part, foot.value) for part in PARTS for foot in (Foot.LEFT, Foot.RIGHT)
    )
