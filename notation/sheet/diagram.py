"""Floor diagrams: footprints to scale where they land, line of dance up the page, wall at the right.

The gent's foot that takes weight is black; the lady's is ribbed, and her counts stand in rings: the two are told apart
without colour. A foot without weight is a broken outline, where the feet stood before is a thin grey one.
"""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce

from notation.dance.feet import Foot
from notation.dance.floor import Floor, Shown
from notation.dance.geometry import Placed, footprint, overlap
from notation.dance.script import LADY, PARTS
from notation.dance.stepping import Dancer, Landing
from notation.page.content import Drawing
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.page.path import Path
from notation.plane import Affine, Point, Rect, Vector
from notation.sheet.footprint import arc, arrow_head, disc, page_angle, placed_sole
from notation.sheet.sole import TO_PAGE
from notation.sheet.stance import label_width

SCALE = 0.062
"""Points for a millimetre: a man's foot is 17 points long."""
BEFORE = 0.62
HALF_METRE = 500.0
AROUND = (0.0, 180.0, 45.0, 135.0, -45.0, -135.0, 90.0, -90.0)
FURTHER = (0.85, 1.1, 1.4, 1.8, 2.3, 2.9)
RIBS = (0.14, 0.3, 0.46, 0.62, 0.78)
LAYOUT = Artifact.LAYOUT


@dataclass(frozen=True, slots=True)
class Print:
    """A foot on the diagram. count: as written, empty for where it stood before."""

    part: str
    foot: Foot
    placed: Placed
    length: float
    outline: tuple[Point, ...]
    weight: bool
    count: str = ""
    landing: Landing | None = None


@dataclass(frozen=True, slots=True)
class Lettering:
    """Face and size in points of counts and words."""

    face: str = "SourceSans3-SemiBold"
    size: float = 7.0
    scale: float = SCALE


def floor_diagram(
    floor: Floor,
    bars: range,
    parts: Sequence[str] = PARTS,
    lettering: Lettering | None = None,
    alt: str = "",
) -> Drawing | None:
    """Where the feet go in those bars. None where nobody moves a foot in them."""
    to = lettering or Lettering()
    shown = [one for one in floor.moments if one.bar in bars]
    made = [p for one in shown for p in _landed(one, parts, floor)]
    if not made:
        return None
    before = _before(floor, shown[0])
    stood = [p for part in parts for p in _standing(before[part], floor)]
    return _framed([*stood, *made], to, alt or f"Floor diagram of {_bars(bars)}.")


def _bars(bars: range) -> str:
    return f"bar {bars[0]}" if len(bars) == 1 else f"bars {bars[0]} to {bars[-1]}"


def _before(floor: Floor, first: Shown) -> dict[str, Dancer]:
    at = floor.moments.index(first)
    return dict(floor.moments[at - 1].dancers if at else floor.start)


def _standing(dancer: Dancer, floor: Floor) -> Iterator[Print]:
    size = floor.sizes[dancer.part]
    for foot, placed in dancer.feet.items():
        yield Print(dancer.part, foot, placed, size.length, footprint(placed, size), False)


def _landed(shown: Shown, parts: Sequence[str], floor: Floor) -> Iterator[Print]:
    for part in parts:
        landing = shown.landings.get(part)
        if landing is None or landing.foot is None:
            continue
        placed, size = landing.after.feet[landing.foot], floor.sizes[part]
        step, danced = landing.aligned.danced.step, landing.aligned.danced
        outline = footprint(placed, size)
        yield Print(part, landing.foot, placed, size.length, outline, step.weight, danced.count, landing)


def _on_page(point: Point, scale: float) -> Point:
    return Affine.scaling(scale, scale)(TO_PAGE(point))


def _shapes(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    middle = _on_page(one.placed.along(one.length / 2), to.scale)
    outline, _ = placed_sole(one.foot, one.length * to.scale, one.placed.degrees, middle)
    if not one.count:
        yield PlacedShape(outline, LAYOUT, stroke=BEFORE, line_width=0.4)
    elif not one.weight:
        yield PlacedShape(outline, LAYOUT, fill=1.0, stroke=0.0, line_width=0.7, dash=(1.6, 1.1))
    elif one.part == LADY:
        yield PlacedShape(outline, LAYOUT, fill=1.0, stroke=0.0, line_width=0.7)
        yield from _ribs(one, to)
    else:
        yield PlacedShape(outline, LAYOUT, fill=0.0, stroke=1.0, line_width=0.7)


def _ribs(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    """Lines across the foot."""
    for share in RIBS:
        half = one.length * (0.10 + 0.07 * share)
        at, across = one.placed.along(share * one.length), Vector.polar(half, one.placed.degrees + 90.0)
        ends = (_on_page(at + across, to.scale), _on_page(at + -across, to.scale))
        yield PlacedShape(Path.line(*ends), LAYOUT, stroke=0.0, line_width=0.8)


def _path(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    """From where the foot was to where it lands, middle to middle, with a head that stops short of the foot."""
    assert one.landing is not None
    start = _on_page(one.landing.before.feet[one.foot].along(one.length / 2), to.scale)
    end = _on_page(one.placed.along(one.length / 2), to.scale)
    way, short = end - start, 0.62 * one.length * to.scale
    if way.length < 1.6 * short:
        return
    tip = end + Vector.polar(-short, way.degrees)
    yield PlacedShape(Path.line(start, tip), LAYOUT, stroke=0.45, line_width=0.5)
    yield PlacedShape(arrow_head(tip, way.degrees, 3.2), LAYOUT, fill=0.45)


def _turn(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    """The arc that the toes swept, its head where they point now."""
    assert one.landing is not None
    eighths = one.landing.aligned.eighths
    if not eighths:
        return
    centre = _on_page(one.placed.along(one.length / 2), to.scale)
    radius, end = 0.6 * one.length * to.scale, page_angle(one.placed.degrees)
    sweep = -45.0 * max(-7, min(7, eighths))
    ahead = 90.0 if sweep > 0 else -90.0
    yield PlacedShape(arc(centre, radius, end - sweep, end), LAYOUT, stroke=0.0, line_width=0.6)
    tip = centre + Vector.polar(radius, end)
    yield PlacedShape(arrow_head(tip, end + ahead, 3.0), LAYOUT, fill=0.0)


@dataclass(frozen=True, slots=True)
class Label:
    """A count on the page: its box, and whose it is."""

    box: Rect
    text: str
    part: str


def corners(box: Rect) -> tuple[Point, ...]:
    """The box as a convex outline."""
    return (Point(box.x0, box.y0), Point(box.x1, box.y0), Point(box.x1, box.y1), Point(box.x0, box.y1))


def counts_placed(prints: Sequence[Print], to: Lettering) -> list[Label]:
    """Each count beside its foot, nearest place first, over no footprint and over no other count."""
    feet = [tuple(_on_page(p, to.scale) for p in one.outline) for one in prints]
    placed: list[Label] = []
    for one in (p for p in prints if p.count):
        boxes = list(_candidates(one, to))
        free = (b for b in boxes if not _covers(b, feet, placed))
        placed.append(Label(next(free, boxes[-1]), one.count, one.part))
    return placed


def _candidates(one: Print, to: Lettering) -> Iterator[Rect]:
    middle = _on_page(one.placed.along(one.length / 2), to.scale)
    side = 90.0 if one.foot is Foot.LEFT else -90.0
    width = max(label_width(one.count, to.size) + 2.0, to.size + 2.0)
    height = width if one.part == LADY else to.size + 2.0
    for far in (*FURTHER, *(n / 2 for n in range(7, 40))):
        for angle in AROUND:
            direction = page_angle(one.placed.degrees + side + angle)
            at = middle + Vector.polar(far * (one.length * to.scale * 0.62), direction)
            yield Rect(at.x - width / 2, at.y - height / 2, at.x + width / 2, at.y + height / 2)


def _covers(box: Rect, feet: Iterable[tuple[Point, ...]], placed: Iterable[Label]) -> bool:
    return any(box.overlaps(label.box) for label in placed) or any(overlap(corners(box), foot) > 0.0 for foot in feet)


def _label(label: Label, to: Lettering) -> Iterator[PlacedShape | PlacedText]:
    at = label.box.centre
    if label.part == LADY:
        ring = disc(at, max(label.box.width, label.box.height) / 2)
        yield PlacedShape(ring, LAYOUT, fill=1.0, stroke=0.0, line_width=0.45)
    x = at.x - label_width(label.text, to.size) / 2
    yield PlacedText(x, at.y + 0.34 * to.size, label.text, to.face, to.size, LAYOUT)


def _framed(prints: list[Print], to: Lettering, alt: str) -> Drawing:
    """All of it moved so that nothing lies left of the origin or under the baseline, with arrow, wall and scale."""
    landed = [one for one in prints if one.count]
    shapes: list[PlacedShape | PlacedText] = [s for one in prints if not one.count for s in _shapes(one, to)]
    shapes += [s for one in landed for s in _path(one, to)]
    shapes += [s for one in landed for s in _shapes(one, to)]
    shapes += [s for one in landed for s in _turn(one, to)]
    labels = counts_placed(prints, to)
    drawn = [s.path.bounds for s in shapes if isinstance(s, PlacedShape)]
    box = reduce(Rect.union, [*drawn, *(label.box for label in labels)]).inset(-2.0)
    shapes += [s for label in labels for s in _label(label, to)]
    margin, foot = 2.6 * to.size, 1.8 * to.size
    height = max(box.height + foot, 9 * to.size)
    move = Vector(margin - box.x0, -foot - box.y1)
    width = max(margin + box.width + 3.0 * to.size, margin + HALF_METRE * to.scale + 4.0 * to.size)
    items = (*_furniture(width, height, to), *(_moved(s, move) for s in shapes))
    return Drawing(width, height, 0.3 * to.size, items, alt)


def _moved(item: PlacedShape | PlacedText, by: Vector) -> PlacedShape | PlacedText:
    if isinstance(item, PlacedText):
        return replace(item, x=item.x + by.x, y=item.y + by.y)
    return replace(item, path=item.path.mapped(Affine.translation(by.x, by.y)))


def _furniture(width: float, height: float, to: Lettering) -> Iterator[PlacedShape | PlacedText]:
    """The arrow of the line of dance at the left, the wall at the right, half a metre at the foot."""
    size, x = to.size, 0.9 * to.size
    shaft = Path.line(Point(x, -1.3 * size), Point(x, 0.7 * size - height))
    yield PlacedShape(shaft, LAYOUT, stroke=0.0, line_width=0.7)
    yield PlacedShape(arrow_head(Point(x, -height), -90.0, 0.8 * size), LAYOUT, fill=0.0)
    yield PlacedText(0.0, -0.2 * size, "LOD", to.face, size, LAYOUT)
    wall = width - 0.5
    yield PlacedShape(Path.line(Point(wall, -height), Point(wall, 0.0)), LAYOUT, stroke=0.6, line_width=1.0)
    yield PlacedText(wall - 2.3 * size, 0.8 * size - height, "wall", to.face, size, LAYOUT, (), 0.35)
    left, right, y = 2.6 * size, 2.6 * size + HALF_METRE * to.scale, -0.2 * size
    ends = (Point(left, y - 2.0), Point(left, y), Point(right, y), Point(right, y - 2.0))
    yield PlacedShape(Path.line(*ends), LAYOUT, stroke=0.0, line_width=0.6)
    yield PlacedText(right + 2.0, y, "0.5 m", to.face, size, LAYOUT)
