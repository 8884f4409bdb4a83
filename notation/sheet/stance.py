"""The start of a dance as a small drawing: both dancers' feet from above, line of dance upwards, wall at the right.

A foot that bears weight is black, the free foot is an outline, as in the rows. Places are millimetres in the frame of
the floor; sizes are means of the 2012 US Army survey (ANSUR II, NATICK/TR-15/007).
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from notation.dance.feet import End, Foot, TurnOut
from notation.dance.hold import Position
from notation.dance.room import Room
from notation.dance.script import GENT, LADY, Stance
from notation.page.content import Drawing
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.page.path import Path
from notation.plane import Affine, Point, Rect, Vector
from notation.sheet.footprint import Bearing, Footprint, arrow_head, foot_shapes
from notation.sheet.sole import TO_PAGE
from notation.sheet.style import Styles
from notation.sheet.tracks import stance_angles

LENGTH = {GENT: 271.0, LADY: 246.0}  # foot length
BREADTH = {GENT: 102.0, LADY: 93.0}
CLOSED = (None, 1, 3, 5)
SCALE = 0.062  # points for a millimetre: a foot of 17 points
LEAST_APART = 420.0  # millimetres between two bodies drawn, so that their feet do not touch
ARROW = 30.0  # points


@dataclass(frozen=True, slots=True)
class Standing:
    """A foot on the floor: heel in millimetres, angle of the toes in degrees."""

    part: str
    foot: Foot
    heel: Point
    angle: float
    bears: bool


def standing_feet(stance: Stance, part: str, at: Point, facing: Room, feet: TurnOut | None) -> list[Standing]:
    """Both feet of a dancer whose body is at that place of the floor and faces there."""
    place = stance.place
    number = place.position if place else None
    left, right = stance_angles(facing, feet, number in CLOSED)
    front_is_named = place is not None and place.end is not End.REAR
    front = stance.foot if front_is_named else stance.foot.other
    heels = dict(zip((Foot.LEFT, Foot.RIGHT), _heels(number, front, part, feet), strict=True))
    angles = {Foot.LEFT: left, Foot.RIGHT: right}
    return [
        Standing(part, foot, at + heels[foot].turned(facing.degrees), angles[foot], foot is not stance.foot)
        for foot in (Foot.LEFT, Foot.RIGHT)
    ]


def _heels(number: int | None, front: Foot, part: str, feet: TurnOut | None) -> tuple[Vector, Vector]:
    """The heels of left and right foot before turning, body facing along x."""
    length, half = LENGTH[part], BREADTH[part] / 2
    if feet is not TurnOut.TURNED_OUT:
        half *= 1.35
    ahead = {3: 0.5, 5: 0.95, 4: 1.1}.get(number or 0, 0.0) * length * 0.7
    apart = half * (0.75 if number in (3, 5) else 1.0) + (length / 2 if number == 2 else 0.0)
    left_ahead = ahead / 2 if front is Foot.LEFT else -ahead / 2
    back = -length / 2
    return Vector(back + left_ahead, apart), Vector(back - left_ahead, -apart)


def start_drawing(stances: dict[str, Stance], position: Position | None, feet: TurnOut | None, names: dict[str, str],
                  lod: str, styles: Styles, alt: str) -> Drawing | None:
    """The drawing; None where a partner's stance or how they stand to each other is not known."""
    gent, lady = stances.get(GENT), stances.get(LADY)
    if gent is None or lady is None or gent.alignment is None or position is None:
        return None
    facing = gent.alignment.toward
    hers = lady.alignment.toward if lady.alignment else facing.turned(position.turn)
    apart = position.lady_at.turned(facing.degrees)
    if 0 < apart.length < LEAST_APART:
        apart = apart * (LEAST_APART / apart.length)
    placed = [*standing_feet(gent, GENT, Point(0, 0), facing, feet),
              *standing_feet(lady, LADY, Point(0, 0) + apart, hers, feet)]
    shapes = [shape for one in placed for shape in _foot(one)]
    return _framed(shapes, placed, names, lod, styles, alt)


def _on_page(point: Point) -> Point:
    return Affine.scaling(SCALE, SCALE)(TO_PAGE(point))


def _foot(one: Standing) -> list[PlacedShape]:
    middle = one.heel + Vector.polar(LENGTH[one.part] / 2, one.angle)
    shown = Footprint(one.foot, one.angle, bearing=Bearing.WEIGHT if one.bears else Bearing.TOUCH)
    return foot_shapes(shown, one.foot, LENGTH[one.part] * SCALE, _on_page(middle))


def _framed(shapes: list[PlacedShape], placed: list[Standing], names: dict[str, str], lod: str, styles: Styles,
            alt: str) -> Drawing:
    """With names under the feet and the arrow of the line of dance at the left; baseline at the lower edge."""
    boxes = [shape.path.bounds for shape in shapes]
    box = boxes[0]
    for other in boxes[1:]:
        box = box.union(other)
    size = styles.label.size
    left = 2.2 * size + 8.0
    labels = list(_labels(placed, names, styles, box))
    low = max((label.y for label in labels), default=box.y1)
    move = Affine.translation(left - box.x0, -low)
    moved = [PlacedShape(s.path.mapped(move), s.tag, s.fill, s.stroke, s.line_width, s.dash) for s in shapes]
    texts = [PlacedText(move(Point(t.x, t.y)).x, t.y - low, t.text, t.face, t.size, t.tag, (), t.ink) for t in labels]
    height = max(low - box.y0, ARROW + size)
    items = (*_arrow(lod, styles, height), *moved, *texts)
    return Drawing(left + box.width + 2.0 * size, height, 0.25 * size, items, alt)


def _arrow(lod: str, styles: Styles, height: float) -> Iterator[PlacedShape | PlacedText]:
    """An arrow up the page with its letters at its foot."""
    x, size = 0.9 * styles.label.size, styles.label.size
    top, foot = Point(x, -height + 1.0), Point(x, -1.25 * size)
    yield PlacedShape(Path.line(foot, Point(x, top.y + 3.5)), Artifact.LAYOUT, stroke=0.0, line_width=0.7)
    yield PlacedShape(arrow_head(top, -90.0, 5.0), Artifact.LAYOUT, fill=0.0)
    yield PlacedText(0.0, 0.0, lod, styles.label.face, size, Artifact.LAYOUT, (), styles.label.ink)


def _labels(placed: list[Standing], names: dict[str, str], styles: Styles, box: Rect) -> Iterator[PlacedText]:
    """Each dancer's name under the own feet, or beside them where the partner stands underneath."""
    size = styles.label.size
    rows = {part: _extent([one for one in placed if one.part == part]) for part in (GENT, LADY)}
    stacked = rows[GENT].x0 < rows[LADY].x1 and rows[LADY].x0 < rows[GENT].x1
    for part, bounds in rows.items():
        width = 0.5 * size * len(names[part])
        if stacked:
            x, y = box.x1 + 4.0, bounds.centre.y + 0.35 * size
        else:
            x, y = bounds.centre.x - width / 2, box.y1 + 1.1 * size
        yield PlacedText(x, y, names[part], styles.label.face, size, Artifact.LAYOUT, (), styles.label.ink)


def _extent(feet: list[Standing]) -> Rect:
    ends = [_on_page(one.heel + Vector.polar(share * LENGTH[one.part], one.angle)) for one in feet for share in (0, 1)]
    return Rect.around(ends)
