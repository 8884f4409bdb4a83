"""Footprints of a floor diagram: the foot, the way it came and how far it turned.

The gent's foot that takes weight is black; the lady's is ribbed, and her counts stand in rings: the two are told apart
without colour. Only the part that bears is black or ribbed. A foot without weight is a broken outline, with a dot where
heel or toe touches; where the feet stood before is a thin grey one.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from notation.dance.feet import Aerial, Foot
from notation.dance.floor import Floor, Shown
from notation.dance.geometry import FootSize, Placed
from notation.dance.geometry import footprint as outline_of
from notation.dance.script import LADY, Danced
from notation.dance.stepping import Dancer, Landing
from notation.page.frame import Artifact, PlacedShape
from notation.page.path import Line, Move, Path, Segment
from notation.plane import ORIGIN, Affine, Point, Vector
from notation.sheet.footprint import TOUCHES, Bearing, arc, arrow_head, disc, page_angle, turned_sole
from notation.sheet.phrasing import TIE
from notation.sheet.sole import TO_PAGE, Part
from notation.sheet.tracks import bearing_of, part_of

SCALE = 0.062
"""Points for a millimetre: a man's foot is 17 points long."""
BEFORE, WAY = 0.62, 0.45  # grey of the feet that stood before, and of the ways
RIBS = {
    Part.BALL: (0.54, 0.64, 0.74, 0.84, 0.94),
    Part.HEEL: (0.06, 0.15, 0.24, 0.33),
}
RIBBED = (0.14, 0.3, 0.46, 0.62, 0.78)
"""Shares of the length at which a whole foot is ribbed."""
ORDER = (Aerial.LOW, Aerial.MEDIUM, Aerial.HIGH)
LAYOUT = Artifact.LAYOUT


@dataclass(frozen=True, slots=True)
class Lettering:
    """The words of a diagram, heights being those of a foot raised to ankle, calf and knee; face and size in points of
    counts and words; points for a millimetre."""

    line_of_dance: str
    wall: str
    half_metre: str
    heights: tuple[str, ...]
    face: str
    size: float = 7.0
    scale: float = SCALE


@dataclass(frozen=True, slots=True)
class Print:
    """A foot on the diagram. outline: in millimetres. count: as written, with the height of a raised foot; empty for
    where it stood before."""

    part: str
    foot: Foot
    placed: Placed
    size: FootSize
    outline: tuple[Point, ...]
    count: str = ""
    landing: Landing | None = None

    @property
    def length(self) -> float:
        return self.size.length


def standing(dancer: Dancer, floor: Floor) -> Iterator[Print]:
    """Both feet as they stood before."""
    size = floor.sizes[dancer.part]
    for foot, placed in dancer.feet.items():
        yield Print(dancer.part, foot, placed, size, outline_of(placed, size))


def landed(
    shown: Shown, parts: Sequence[str], floor: Floor, heights: Sequence[str]
) -> Iterator[Print]:
    """The feet that moved at that moment, where they land. heights: words for a foot raised to ankle, calf, knee."""
    for part in parts:
        landing = shown.landings.get(part)
        if landing is None or landing.foot is None:
            continue
        placed, size = landing.after.feet[landing.foot], floor.sizes[part]
        count = " ".join(filter(None, (_count(landing.aligned.danced), _height(landing, size, heights))))
        yield Print(part, landing.foot, placed, size, outline_of(placed, size), count, landing)


def _count(danced: Danced) -> str:
    """The count as written; S and Q with the beat on which they begin, since a bar has several of them."""
    if not danced.step.count.letter:
        return danced.count
    whole, rest = divmod(danced.beat, 1)
    return f"{danced.count}{TIE}{whole + 1}{'&' if rest else ''}"


def _height(landing: Landing, size: FootSize, heights: Sequence[str]) -> str:
    """The word for how high a foot is raised: at ankle, calf or knee."""
    if bearing_of(landing.aligned.danced.step) is not Bearing.AIR:
        return ""
    nearest = min(Aerial, key=lambda aerial: abs(size.height(aerial) - landing.after.height))
    return heights[ORDER.index(nearest)]


def on_page(point: Point, scale: float) -> Point:
    """Millimetres of the floor to points, the line of dance up the page."""
    return Affine.scaling(scale, scale)(TO_PAGE(point))


def foot_shapes(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    """The foot itself."""
    middle = on_page(one.placed.along(one.length / 2), to.scale)
    return (replace(shape, dx=middle.x, dy=middle.y) for shape in _about_its_middle(one, to))


def _about_its_middle(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    step = one.landing.aligned.danced.step if one.landing else None
    part = part_of(step) if step else Part.WHOLE
    outline, bearing = turned_sole(one.foot, one.length * to.scale, round(one.placed.degrees, 6), part)
    if step is None:
        yield PlacedShape(outline, LAYOUT, stroke=BEFORE, line_width=0.4)
    elif not step.weight:
        yield PlacedShape(outline, LAYOUT, fill=1.0, stroke=0.0, line_width=0.7, dash=(1.6, 1.1))
        if bearing_of(step) is Bearing.TOUCH and part in TOUCHES:
            at = on_page(ORIGIN + Vector.polar(TOUCHES[part] * one.length, one.placed.degrees), to.scale)
            yield PlacedShape(disc(at, 0.09 * one.length * to.scale), LAYOUT, fill=0.0)
    elif one.part == LADY:
        yield PlacedShape(outline, LAYOUT, fill=1.0, stroke=0.0, line_width=0.7)
        yield from _ribs(one, part, to)
    else:
        yield PlacedShape(outline, LAYOUT, fill=1.0, stroke=1.0, line_width=1.4)
        yield PlacedShape(bearing if part is not Part.WHOLE else outline, LAYOUT, fill=0.0)
        yield PlacedShape(outline, LAYOUT, stroke=0.0, line_width=0.5)


def _ribs(one: Print, part: Part, to: Lettering) -> Iterator[PlacedShape]:
    """Lines across the part that bears, as one path."""
    ribs: list[Segment] = []
    for share in RIBS.get(part, RIBBED):
        half = one.length * (0.10 + 0.07 * share)
        at = ORIGIN + Vector.polar((share - 0.5) * one.length, one.placed.degrees)
        across = Vector.polar(half, one.placed.degrees + 90.0)
        ribs += (Move(on_page(at + across, to.scale)), Line(on_page(at + -across, to.scale)))
    yield PlacedShape(Path(tuple(ribs)), LAYOUT, stroke=0.0, line_width=0.8)


def way(one: Print, to: Lettering) -> tuple[Point, ...]:
    """From where the foot was to where it lands, on the page, stopping short of the foot; none for a short way."""
    if one.landing is None:
        return ()
    points = [on_page(point, to.scale) for point in one.landing.track(one.size)]
    short = 0.62 * one.length * to.scale
    if len(points) == 2 and points[0].distance(points[1]) < 1.6 * short:
        return ()
    end = points.pop()
    while len(points) > 1 and points[-1].distance(end) <= short:
        points.pop()
    return (*points, end + Vector.polar(-short, (end - points[-1]).degrees))


def way_shapes(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    """The way as a grey line with a head."""
    points = way(one, to)
    if points:
        yield PlacedShape(Path.line(*points), LAYOUT, stroke=WAY, line_width=0.5)
        yield PlacedShape(arrow_head(points[-1], (points[-1] - points[-2]).degrees, 3.2), LAYOUT, fill=WAY)


def sweep(one: Print, to: Lettering) -> tuple[Point, float, float, float] | None:
    """The arc that the toes swept: its middle, radius, and page angles from beginning to end."""
    eighths = one.landing.aligned.eighths if one.landing else 0
    if not eighths:
        return None
    end = page_angle(one.placed.degrees)
    middle = on_page(one.placed.along(one.length / 2), to.scale)
    return middle, 0.6 * one.length * to.scale, end + 45.0 * max(-7, min(7, eighths)), end


def turn_shapes(one: Print, to: Lettering) -> Iterator[PlacedShape]:
    """The arc with its head where the toes point now."""
    swept = sweep(one, to)
    if swept is None:
        return
    middle, radius, start, end = swept
    yield PlacedShape(arc(middle, radius, start, end), LAYOUT, stroke=0.0, line_width=0.6)
    ahead = end + (90.0 if end > start else -90.0)
    yield PlacedShape(arrow_head(middle + Vector.polar(radius, end), ahead, 3.0), LAYOUT, fill=0.0)


def lines_of(one: Print, to: Lettering) -> Iterator[tuple[Point, Point]]:
    """Straight pieces of the way and of the arc: what a count had better keep clear of."""
    yield from pairwise(way(one, to))
    swept = sweep(one, to)
    if swept is not None:
        middle, radius, start, end = swept
        pieces = max(1, round(abs(end - start) / 22.5))
        angles = (start + (end - start) * n / pieces for n in range(pieces + 1))
        yield from pairwise(middle + Vector.polar(radius, angle) for angle in angles)
