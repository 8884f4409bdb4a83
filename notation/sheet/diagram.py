"""Floor diagrams: footprints to scale where they land, line of dance up the page, wall at the right."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import reduce

from notation.dance.floor import Floor, Shown
from notation.dance.stepping import Dancer
from notation.page.content import Drawing
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.page.path import Path
from notation.plane import Point, Rect, Vector
from notation.sheet.counts import counts_placed, label_shapes
from notation.sheet.footprint import arrow_head
from notation.sheet.prints import Lettering, Print, foot_shapes, landed, standing, turn_shapes, way_shapes

HALF_METRE = 500.0
WALL_LETTER = 0.65  # of the type size: a letter of the word at the wall, at most
MOST_PRINTS = 64  # in one bar: twice as many as two dancers leave who step on every quarter of a beat
NO_MATTER = 0.1  # points; what is drawn so near to its place looks the same
LAYOUT = Artifact.LAYOUT

__all__ = ["Lettering", "floor_diagram", "look_alike"]


def floor_diagram(
    floor: Floor,
    bars: range,
    parts: Sequence[str],
    to: Lettering,
    alt: str = "",
) -> Drawing | None:
    """Where the feet go in those bars. None where nobody moves a foot in them, or where a draft has so many steps in
    a bar that none could be made out."""
    prints = prints_of(floor, bars, parts, to.heights)
    if not prints or len(prints) > MOST_PRINTS * len(bars):
        return None
    return _framed(prints, to, alt)


def prints_of(floor: Floor, bars: range, parts: Sequence[str], heights: Sequence[str]) -> list[Print]:
    """The feet as they stood before those bars and as they land in them; empty where nobody moves a foot."""
    shown = [one for one in floor.moments if one.bar in bars]
    made = [p for one in shown for p in landed(one, parts, floor, heights)]
    if not made:
        return []
    before = _before(floor, shown[0])
    return [*(p for part in parts for p in standing(before[part], floor)), *made]


def _before(floor: Floor, first: Shown) -> dict[str, Dancer]:
    at = floor.moments.index(first)
    return dict(floor.moments[at - 1].dancers if at else floor.start)


def _framed(prints: list[Print], to: Lettering, alt: str) -> Drawing:
    """All of it moved so that nothing lies left of the origin or under the baseline, with arrow, wall and scale."""
    moved = [one for one in prints if one.count]
    shapes: list[PlacedShape | PlacedText] = [s for one in prints if not one.count for s in foot_shapes(one, to)]
    shapes += [s for one in moved for s in way_shapes(one, to)]
    shapes += [s for one in moved for s in foot_shapes(one, to)]
    shapes += [s for one in moved for s in turn_shapes(one, to)]
    labels = counts_placed(prints, to)
    drawn = [s.bounds for s in shapes if isinstance(s, PlacedShape)]
    box = reduce(Rect.union, [*drawn, *(label.box for label in labels)]).inset(-2.0)
    shapes += [s for label in labels for s in label_shapes(label, to)]
    margin, foot = 2.6 * to.size, 1.8 * to.size
    height = max(box.height + foot, 9 * to.size)
    move = Vector(margin - box.x0, -foot - box.y1)
    width = max(margin + box.width + 3.0 * to.size, margin + HALF_METRE * to.scale + 4.0 * to.size)
    items = (*_furniture(width, height, to), *(_moved(s, move) for s in shapes))
    return Drawing(width, height, 0.3 * to.size, items, alt)


def look_alike(one: Drawing, two: Drawing) -> bool:
    """Whether both show the same, to the eye: each shape and word of one where it stands in the other."""
    return len(one.items) == len(two.items) and all(map(_same, one.items, two.items))


def _same(one: PlacedShape | PlacedText, two: PlacedShape | PlacedText) -> bool:
    match one, two:
        case PlacedText(), PlacedText():
            return one.text == two.text and _close(Point(one.x, one.y), Point(two.x, two.y))
        case PlacedShape(), PlacedShape():
            ends, others = _ends(one), _ends(two)
            alike = (one.fill, one.stroke, one.line_width) == (two.fill, two.stroke, two.line_width)
            return alike and len(ends) == len(others) and all(map(_close, ends, others))
    return False


def _ends(shape: PlacedShape) -> list[Point]:
    return [point for segment in shape.outline.segments for point in segment.points]


def _close(one: Point, two: Point) -> bool:
    return abs(one.x - two.x) < NO_MATTER and abs(one.y - two.y) < NO_MATTER


def _moved(item: PlacedShape | PlacedText, by: Vector) -> PlacedShape | PlacedText:
    if isinstance(item, PlacedText):
        return replace(item, x=item.x + by.x, y=item.y + by.y)
    return replace(item, dx=item.dx + by.x, dy=item.dy + by.y)


def _furniture(width: float, height: float, to: Lettering) -> Iterator[PlacedShape | PlacedText]:
    """The arrow of the line of dance at the left, the wall at the right, half a metre at the foot."""
    size, x = to.size, 0.9 * to.size
    shaft = Path.line(Point(x, -1.3 * size), Point(x, 0.7 * size - height))
    yield PlacedShape(shaft, LAYOUT, stroke=0.0, line_width=0.7)
    yield PlacedShape(arrow_head(Point(x, -height), -90.0, 0.8 * size), LAYOUT, fill=0.0)
    yield PlacedText(0.0, -0.2 * size, to.line_of_dance, to.face, size, LAYOUT)
    wall = width - 0.5
    yield PlacedShape(Path.line(Point(wall, -height), Point(wall, 0.0)), LAYOUT, stroke=0.6, line_width=1.0)
    named = wall - max(2.3, WALL_LETTER * len(to.wall)) * size
    yield PlacedText(named, 0.8 * size - height, to.wall, to.face, size, LAYOUT, (), 0.35)
    left, right, y = 2.6 * size, 2.6 * size + HALF_METRE * to.scale, -0.2 * size
    ends = (Point(left, y - 2.0), Point(left, y), Point(right, y), Point(right, y - 2.0))
    yield PlacedShape(Path.line(*ends), LAYOUT, stroke=0.0, line_width=0.6)
    yield PlacedText(right + 2.0, y, to.half_metre, to.face, size, LAYOUT)
