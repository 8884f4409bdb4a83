"""Slabs: what is set for good sideways and only waits for its place down a page.

Positions inside a slab: x in points from the left margin, y in points from the slab's upper edge. Heights are
counted in baseline steps; a page is a pile of slabs, so every baseline falls on the grid.
"""
from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from notation.page.content import Align, Drawing
from notation.page.fault import LayoutError
from notation.page.frame import Anchor, Artifact, Item, PlacedLink, PlacedShape, PlacedText, Tag
from notation.page.lines import Line
from notation.page.path import Path
from notation.plane import Affine, Point, Rect

RULE_WIDTH, RULE_INK = 0.3, 0.5
DESCENT = 0.22  # share of the size that descenders take, in the faces we have
HANGING = 0.25  # share of a step that may hang below the last baseline and must stay within the margin

@dataclass(frozen=True, slots=True)
class Area:
    """Room that leads somewhere when it is touched, from its upper left corner; lengths in points. target, text: as of
    a PlacedLink."""

    width: float
    height: float
    target: str
    text: str


What = Line | Drawing | Path | Area | str


@dataclass(frozen=True, slots=True)
class Spot:
    """A line, a drawing, a rule, a link or (a string) an anchor, where it stands on its slab; y: its baseline.

    scale: of a drawing. shift: the slabs it is cut by go by y; a rule goes with the line `shift` below it.
    """

    x: float
    y: float
    what: What
    tag: Tag
    scale: float = 1.0
    shift: float = 0.0


@dataclass(frozen=True, slots=True)
class Head:
    """The column heads of a table, repeated at the top of later pages. height: steps."""

    spots: tuple[Spot, ...]
    height: float


@dataclass(slots=True)
class Slab:
    """A piece of a page that is not divided.

    height, before, after: steps; of two neighbours' spaces the larger counts, and none at the top of a page.
    stick: no page ends after it. cost: of ending a page after it. head: what is repeated where it begins a page. base:
    what its tags count from.
    """

    height: float
    spots: Sequence[Spot]
    before: float = 0.0
    after: float = 0.0
    stick: bool = False
    cost: float = 0.0
    head: Head | None = field(default=None, repr=False)
    new_page: bool = False
    base: int = 0


def half_steps(length: float, step: float) -> float:
    """A length in points as baseline steps, the next half up."""
    return math.ceil(length / step * 2 - 0.001) / 2


def room_below(size: float, step: float) -> float:
    """Steps kept under a line of type so large that its descenders would hang into what follows."""
    return half_steps(max(0.0, DESCENT * size - HANGING * step), step)


def _largest(spots: Iterable[Spot]) -> float:
    sizes = (piece.style.size for spot in spots if isinstance(spot.what, Line) for piece in spot.what.pieces)
    return max(sizes, default=0.0)


def aligned(align: Align, width: float, needed: float) -> float:
    """How far from the left a line begins."""
    match align:
        case Align.CENTRE:
            return (width - needed) / 2
        case Align.RIGHT:
            return width - needed
        case _:
            return 0.0


def placed(spots: Iterable[Spot], dx: float, dy: float, tag: Tag | None = None, base: int = 0) -> Iterator[Item]:
    """The spots of a slab whose corner stands at (dx, dy), as items of a page. tag: replaces theirs. base: of them."""
    for spot in spots:
        x, y, mark = spot.x + dx, spot.y + dy, spot.tag if tag is None else tag
        if isinstance(mark, int):
            mark += base
        what = spot.what
        if isinstance(what, Line):
            for p in what.pieces:
                yield PlacedText(x + p.x, y, p.text, p.face, p.style.size, mark, p.adjust, p.style.ink)
                if p.rule is not None:
                    inert = mark if isinstance(mark, Artifact) else Artifact.LAYOUT
                    yield PlacedShape(p.rule, inert, fill=p.style.ink, dx=x + p.x, dy=y)
        elif isinstance(what, Drawing):
            yield from _drawn(what, x, y, spot.scale, mark)
        elif isinstance(what, Path):
            yield PlacedShape(what, mark, stroke=RULE_INK, line_width=RULE_WIDTH, dx=x, dy=y)
        elif isinstance(what, Area):
            yield PlacedLink(Rect(x, y, x + what.width, y + what.height), what.target, what.text, mark)
        elif tag is None:
            yield Anchor(what, Point(x, y))


def _drawn(drawing: Drawing, x: float, y: float, scale: float, tag: Tag) -> Iterator[Item]:
    """The items of a drawing in their places. Paths that several of them share are shared on the page."""
    paths: dict[int, Path] = {}
    for item in drawing.items:
        if isinstance(item, PlacedShape):
            path = item.path if scale == 1.0 else paths.get(id(item.path))
            if path is None:
                path = paths[id(item.path)] = item.path.mapped(Affine.scaling(scale, scale))
            dash = tuple(d * scale for d in item.dash)
            dx, dy = x + scale * item.dx, y + scale * item.dy
            yield PlacedShape(path, tag, item.fill, item.stroke, item.line_width * scale, dash, dx, dy)
        else:
            at = Point(x + scale * item.x, y + scale * item.y)
            yield PlacedText(at.x, at.y, item.text, item.face, item.size * scale, tag, item.adjust, item.ink)


def sliced(slab: Slab, step: float, capacity: float) -> list[Slab]:
    """A slab that is taller than `capacity` steps cut between its lines, and nothing lost; else the slab itself.

    LayoutError where one line alone is taller.
    """
    if slab.height <= capacity:
        return [slab]
    cuts = cut_lines(slab, step)
    if not cuts or any(cut.height > capacity for cut in cuts):
        raise LayoutError("the page is lower than a single line; take larger paper, smaller margins or smaller type")
    return cuts


def cut_lines(slab: Slab, step: float) -> list[Slab]:
    """A slab cut above every baseline. The slices keep the spaces and ties of the slab they come from."""
    bands: dict[float, list[Spot]] = {}
    for spot in slab.spots:
        bands.setdefault(round(spot.y + spot.shift, 3), []).append(spot)
    cuts, above = [], 0.0
    for y in sorted(bands):
        cuts.append(_band(bands[y], y, y / step - above, slab, step))
        above = y / step
    if cuts:
        cuts[0].before, cuts[0].new_page = slab.before, slab.new_page
        cuts[-1].after, cuts[-1].stick, cuts[-1].cost = slab.after, slab.stick, slab.cost
    return cuts


def _band(spots: Sequence[Spot], baseline: float, height: float, slab: Slab, step: float) -> Slab:
    """What stands on one baseline, with room above for its largest type and drawing even at the top of a page."""
    largest = _largest(spots)
    drawn = max((s.what.ascent * s.scale for s in spots if isinstance(s.what, Drawing)), default=0.0)
    lead = max(height, half_steps(max(0.95 * largest, drawn - 0.05 * step), step))
    here = [replace(spot, y=spot.y - baseline + lead * step) for spot in spots]
    return Slab(lead + room_below(largest, step), here, cost=1.0, head=slab.head, base=slab.base)
