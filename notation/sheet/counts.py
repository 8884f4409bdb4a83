"""Counts of a floor diagram, each beside its foot: over no footprint, over no other count, and clear of lines where
there is room for that."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from notation.dance.feet import Foot
from notation.dance.script import LADY
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.plane import ORIGIN, Point, Rect, Vector
from notation.sheet.footprint import disc, page_angle
from notation.sheet.prints import Lettering, Print, lines_of, on_page
from notation.sheet.stance import label_width

AROUND = (0.0, 180.0, 45.0, 135.0, -45.0, -135.0, 90.0, -90.0)
NEAR = (0.85, 1.1, 1.4, 1.8, 2.3)
FURTHER = (*NEAR, 2.9, *(n / 2 for n in range(7, 40)))
Line = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Label:
    """A count on the page: its box, and whose it is."""

    box: Rect
    text: str
    part: str


@dataclass(frozen=True, slots=True)
class _Band:
    """What lies between two parallel lines: across them in the direction (x, y) from low to high."""

    x: float
    y: float
    low: float
    high: float

    def holds_none_of(self, box: Rect) -> bool:
        middle = (self.x * (box.x0 + box.x1) + self.y * (box.y0 + box.y1)) / 2
        half = (abs(self.x) * box.width + abs(self.y) * box.height) / 2
        return middle + half <= self.low or middle - half >= self.high


@dataclass(frozen=True, slots=True)
class _Outline:
    """A convex foot on the page: its bounds, which tell most of the others apart at once, and a band along each edge.

    A box and a convex outline are apart where their bounds are, or where a band along an edge of the outline holds
    nothing of the box (the theorem of the separating axis).
    """

    bounds: Rect
    bands: tuple[_Band, ...]

    def meets(self, box: Rect) -> bool:
        return box.overlaps(self.bounds) and not any(band.holds_none_of(box) for band in self.bands)


def _outline(one: Print, to: Lettering) -> _Outline:
    points = tuple(on_page(p, to.scale) for p in one.outline)
    return _Outline(Rect.around(points), tuple(_bands(points)))


def _bands(points: tuple[Point, ...]) -> Iterator[_Band]:
    for here, there in pairwise((*points, points[0])):
        x, y = there.y - here.y, here.x - there.x
        across = [x * p.x + y * p.y for p in points]
        yield _Band(x, y, min(across), max(across))


def counts_placed(prints: Sequence[Print], to: Lettering) -> list[Label]:
    """Each count in the nearest free place beside its foot; near it clear of lines too, else over them."""
    feet = [_outline(one, to) for one in prints]
    lines = [line for one in prints for line in lines_of(one, to)]
    placed: list[Label] = []
    for one in (p for p in prints if p.count):
        placed.append(Label(_place(one, to, feet, lines, placed), one.count, one.part))
    return placed


def _place(one: Print, to: Lettering, feet: Sequence[_Outline], lines: Sequence[Line], placed: Sequence[Label]) -> Rect:
    """The nearest place that is free and clear of lines; else the nearest free one; else one further off."""
    free = None
    for box in _candidates(one, to, NEAR):
        if not _covers(box, feet, placed):
            if not any(_crosses(line, box) for line in lines):
                return box
            free = free or box
    return free or _anywhere(one, to, feet, placed)


def _anywhere(one: Print, to: Lettering, feet: Sequence[_Outline], placed: Sequence[Label]) -> Rect:
    boxes = list(_candidates(one, to, FURTHER))
    return next((b for b in boxes if not _covers(b, feet, placed)), boxes[-1])


def _candidates(one: Print, to: Lettering, rings: Sequence[float]) -> Iterator[Rect]:
    middle = on_page(one.placed.along(one.length / 2), to.scale)
    side = 90.0 if one.foot is Foot.LEFT else -90.0
    width = max(label_width(one.count, to.size) + 2.0, to.size + 2.0)
    height = width if one.part == LADY else to.size + 2.0
    for far in rings:
        for angle in AROUND:
            direction = page_angle(one.placed.degrees + side + angle)
            at = middle + Vector.polar(far * (one.length * to.scale * 0.62), direction)
            yield Rect(at.x - width / 2, at.y - height / 2, at.x + width / 2, at.y + height / 2)


def _covers(box: Rect, feet: Sequence[_Outline], placed: Sequence[Label]) -> bool:
    if any(box.overlaps(label.box) for label in placed):
        return True
    return any(foot.meets(box) for foot in feet)


def _crosses(line: Line, box: Rect) -> bool:
    """Whether a straight line meets a box (Liang and Barsky's clipping)."""
    start, step = line[0], line[1] - line[0]
    enter, leave = 0.0, 1.0
    for origin, along, low, high in ((start.x, step.x, box.x0, box.x1), (start.y, step.y, box.y0, box.y1)):
        if abs(along) < 1e-9:
            if not low < origin < high:
                return False
            continue
        near, far = sorted(((low - origin) / along, (high - origin) / along))
        enter, leave = max(enter, near), min(leave, far)
    return enter < leave


def label_shapes(label: Label, to: Lettering) -> Iterator[PlacedShape | PlacedText]:
    """The count, the lady's in a ring."""
    at = label.box.centre
    if label.part == LADY:
        ring = disc(ORIGIN, max(label.box.width, label.box.height) / 2)
        yield PlacedShape(ring, Artifact.LAYOUT, fill=1.0, stroke=0.0, line_width=0.45, dx=at.x, dy=at.y)
    x = at.x - label_width(label.text, to.size) / 2
    yield PlacedText(x, at.y + 0.34 * to.size, label.text, to.face, to.size, Artifact.LAYOUT)
