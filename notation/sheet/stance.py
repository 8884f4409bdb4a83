"""The start of a dance as a small drawing: both dancers' feet from above, line of dance upwards, wall at the right.

A foot that bears weight is black, the free foot is an outline, as in the rows. Places are millimetres in the frame of
the floor; sizes are means of the 2012 US Army survey (ANSUR II, NATICK/TR-15/007).
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import reduce

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
from notation.sheet.tracks import TURN_OUT

LENGTH = {GENT: 271.0, LADY: 246.0}  # foot length
BREADTH = {GENT: 102.0, LADY: 93.0}
CLOSED = (None, 1, 3, 5)
SCALE = 0.0066  # points for a millimetre and a point of type: a foot of 17 points beside type of 9.5
LEAST_APART = 440.0  # millimetres between two bodies drawn, so that their feet do not touch


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
    front = stance.foot if place is None or place.end is not End.REAR else stance.foot.other
    out = TURN_OUT if feet is TurnOut.TURNED_OUT and number in CLOSED else 0.0
    heels = _heels(number, front, part, out)
    return [
        Standing(part, foot, at + heels[foot].turned(facing.degrees), facing.degrees + sign * out, foot != stance.foot)
        for foot, sign in ((Foot.LEFT, 1.0), (Foot.RIGHT, -1.0))
    ]


ALONG = {3: 0.45, 5: 0.92}
"""Where the front heel touches the rear foot, as a share of its length: at the hollow in 3rd, at the toe in 5th
(Blasis, Traite elementaire, 1820, and the French manuals of the time)."""


def _heels(number: int | None, front: Foot, part: str, out: float) -> dict[Foot, Vector]:
    """The heels about the body's middle, before turning: the body faces along x. out: degrees of each foot."""
    length, breadth = LENGTH[part], BREADTH[part]
    side = 1.0 if front is Foot.LEFT else -1.0
    if number is not None and number in ALONG:
        inner = Vector.polar(0.64 * breadth, side * (90.0 - out))
        step = Vector.polar(ALONG[number] * length, -side * out) + inner
    elif number == 4:
        step = Vector(1.3 * length, side * 0.2 * breadth)
    else:
        step = Vector(0.0, side * {2: 1.6 * length}.get(number or 1, (0.35 if out else 1.25) * breadth))
    centre = step * 0.5 + (Vector.polar(length / 4, out) + Vector.polar(length / 4, -out))
    return {front: step + -centre, front.other: -centre}


def start_drawing(stances: dict[str, Stance], position: Position | None, feet: TurnOut | None, names: dict[str, str],
                  lod: str, styles: Styles, alt: str) -> Drawing | None:
    """The drawing; None where a partner's stance or how they stand to each other is not known."""
    gent, lady = stances.get(GENT), stances.get(LADY)
    if gent is None or lady is None or gent.alignment is None or position is None:
        return None
    facing = gent.alignment.toward
    hers = lady.alignment.toward if lady.alignment else facing.turned(position.turn)
    apart = position.lady_at.turned(_couple_facing(facing, hers, position))
    if 0 < apart.length < LEAST_APART:
        apart = apart * (LEAST_APART / apart.length)
    placed = [*standing_feet(gent, GENT, Point(0, 0), facing, feet),
              *standing_feet(lady, LADY, Point(0, 0) + apart, hers, feet)]
    return _framed(placed, names, lod, styles, alt)


def _couple_facing(gent: Room, lady: Room, position: Position) -> float:
    """Degrees of the couple as a whole: midway between partners who face alike but for a quarter or less, as the two
    diagonals of the turned-out start; else the gent's."""
    between = gent.turned(position.turn).eighths_to(lady)
    return gent.degrees + (between * 22.5 if abs(between) <= 2 else 0.0)


def _on_page(point: Point, scale: float) -> Point:
    return Affine.scaling(scale, scale)(TO_PAGE(point))


def _foot(one: Standing, scale: float) -> list[PlacedShape]:
    middle = one.heel + Vector.polar(LENGTH[one.part] / 2, one.angle)
    shown = Footprint(one.foot, one.angle, bearing=Bearing.WEIGHT if one.bears else Bearing.TOUCH)
    return foot_shapes(shown, one.foot, LENGTH[one.part] * scale, _on_page(middle, scale))


def _bounds(shapes: list[PlacedShape]) -> Rect:
    boxes = [shape.path.bounds for shape in shapes]
    return reduce(Rect.union, boxes[1:], boxes[0])


def _framed(placed: list[Standing], names: dict[str, str], lod: str, styles: Styles, alt: str) -> Drawing:
    """The feet with the dancers' names, the arrow of the line of dance at their left; the baseline under all."""
    scale, size = SCALE * styles.body.size, styles.label.size
    by_part = {part: [shape for one in placed if one.part == part for shape in _foot(one, scale)] for part in names}
    labels = _labels({part: _bounds(shapes) for part, shapes in by_part.items()}, names, styles)
    shapes = [shape for part in names for shape in by_part[part]]
    box = _bounds(shapes)
    low = max(box.y1, *(label.y for label in labels))
    move = Affine.translation(3.2 * size - min(box.x0, *(label.x for label in labels)), -low)
    moved = [replace(shape, path=shape.path.mapped(move)) for shape in shapes]
    texts = [replace(t, x=move(Point(t.x, t.y)).x, y=t.y - low) for t in labels]
    height = max(low - box.y0, 4.0 * size)
    width = max(_bounds(moved).x1, *(t.x + label_width(t.text, size) for t in texts))
    return Drawing(width + 0.5 * size, height, 0.25 * size, (*_arrow(lod, styles, height), *moved, *texts), alt)


def label_width(text: str, size: float) -> float:
    """About the width of a short word, in points: half the size a letter."""
    return 0.52 * size * len(text)


def _arrow(lod: str, styles: Styles, height: float) -> Iterator[PlacedShape | PlacedText]:
    """An arrow up the page with its letters at its foot."""
    size = styles.label.size
    x, head = 0.9 * size, 0.6 * size
    top, foot = Point(x, -height), Point(x, -1.1 * size)
    yield PlacedShape(Path.line(foot, Point(x, top.y + 0.8 * head)), Artifact.LAYOUT, stroke=0.0, line_width=0.7)
    yield PlacedShape(arrow_head(top, -90.0, head), Artifact.LAYOUT, fill=0.0)
    yield PlacedText(0.0, 0.0, lod, styles.label.face, size, Artifact.LAYOUT, (), styles.label.ink)


def _labels(boxes: dict[str, Rect], names: dict[str, str], styles: Styles) -> list[PlacedText]:
    """Each dancer's name under the own feet; beside them where one stands above the other on the page."""
    size = styles.label.size
    one, two = boxes.values()
    stacked = abs(one.centre.x - two.centre.x) < 2.6 * size
    low, right = max(one.y1, two.y1), max(one.x1, two.x1)
    found = []
    for part, box in boxes.items():
        x, y = box.centre.x - label_width(names[part], size) / 2, low + 1.05 * size
        if stacked:
            x, y = right + 0.5 * size, box.centre.y + 0.35 * size
        found.append(PlacedText(x, y, names[part], styles.label.face, size, Artifact.LAYOUT, (), styles.label.ink))
    return found
