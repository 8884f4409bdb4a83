"""The marks by which an imposed side is folded and trimmed, and the large numbers of a proof.

All lengths are points, positions from the upper left corner of the paper, y downwards.
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from notation.page.content import Running, Style
from notation.page.fonts import Faces
from notation.page.forme import APART, MARK, Forme, Plan
from notation.page.frame import Artifact, Document, Frame, Item, Metadata, PlacedShape
from notation.page.imposition import Face, Order
from notation.page.path import Path
from notation.page.running import running_line
from notation.page.slab import placed
from notation.page.units import points
from notation.plane import Point

TICK = points(8)  # a fold mark on paper without a margin: longer than what printers leave white at the edge
HAIR = 0.3
DASH = (3.0, 2.0)
BIG, SMALL = Style("SourceSans3-SemiBold", 1.0, 0.5), Style("SourceSans3-Regular", 1.0, 0.3)
NUMERAL, LABEL = 0.28, 0.035  # sizes of the proof's words, as shares of a panel's height


def marks(forme: Forme, order: Order, plan: Plan) -> Frame:
    """The crop marks and fold marks of a side, the same on each."""
    items: list[Item] = []
    if plan.crop_marks:
        items += crop_marks(forme)
    if plan.fold_marks:
        items += fold_marks(forme, order)
    return Frame(forme.paper.width, forme.paper.height, tuple(items))


def crop_marks(forme: Forme) -> Iterator[PlacedShape]:
    """Strokes in line with the edges that are trimmed, clear of the bleed."""
    block, off = forme.block, max(forme.bleed, APART)
    for x in (block.x0, block.x1):
        yield _stroke(Point(x, block.y0 - off), Point(x, block.y0 - off - MARK))
        yield _stroke(Point(x, block.y1 + off), Point(x, block.y1 + off + MARK))
    for y in _cuts(forme):
        yield _stroke(Point(block.x0 - off, y), Point(block.x0 - off - MARK, y))
        yield _stroke(Point(block.x1 + off, y), Point(block.x1 + off + MARK, y))


def _cuts(forme: Forme) -> list[float]:
    """The heights at which the sides are trimmed."""
    block = forme.block
    cuts = {block.y0, block.y1}
    for row in range(1, forme.rows if forme.gap > 0 else 0):
        below = block.y0 + row * (forme.height + forme.gap)
        cuts |= {below - forme.gap, below}
    return sorted(cuts)


def fold_marks(forme: Forme, order: Order) -> Iterator[PlacedShape]:
    """Dashed strokes in line with the folds: beside the pages where there is room, else over their edges."""
    paper, block = forme.paper, forme.block
    for column in range(1, forme.columns):
        x = block.x0 + column * forme.width
        for start, end in _ticks(block.y0, paper.height):
            yield _stroke(Point(x, start), Point(x, end), DASH)
    for row in range(1, forme.rows):
        y = block.y0 + row * (forme.height + forme.gap) - forme.gap / 2
        for start, end in _ticks(block.x0, paper.width):
            yield _stroke(Point(start, y), Point(end, y), DASH)
    if order.slit:
        first, last = (block.x0 + (column + end) * forme.width for end, column in enumerate(order.slit))
        yield _stroke(Point(first, paper.height / 2), Point(last, paper.height / 2))


def _ticks(margin: float, size: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where marks begin and end at both edges. margin: white between the edge and the pages."""
    start, end = (margin - APART - MARK, margin - APART) if margin >= APART + MARK else (0.0, TICK)
    return (start, end), (size - end, size - start)


def _stroke(start: Point, end: Point, dash: tuple[float, ...] = ()) -> PlacedShape:
    return PlacedShape(Path.line(start, end), Artifact.LAYOUT, stroke=0.0, line_width=HAIR, dash=dash)


@dataclass(frozen=True, slots=True)
class SheetWords:
    """What imposed sheets say. front, back: of a proof's panel, with the sheet's number at `{sheet}`; blank: a panel
    without a page. imposed: the title, with that of the reading version at `{title}`; untitled: where it has none."""

    front: str
    back: str
    blank: str
    imposed: str
    untitled: str


def proof_document(order: Order, forme: Forme, faces: Faces, words: SheetWords) -> Document:
    """A page for each panel, in the order of sides and panels: its page number large, sheet and side under it."""
    sides = {Face.FRONT: words.front, Face.BACK: words.back}
    said = [(str(p.page) if p.page else words.blank, sides[side.face].replace("{sheet}", str(side.sheet)))
            for side in order.sides for p in side.panels]
    frames = tuple(Frame(forme.width, forme.height, tuple(_proof(*one, forme, faces))) for one in said)
    return Document(frames, Metadata(words.untitled), tagged=False)


def _proof(page: str, where: str, forme: Forme, faces: Faces) -> Iterator[Item]:
    width, height = forme.width, forme.height
    size = min(NUMERAL * height, 0.5 * width)
    yield from _centred(page, BIG, size if page.isdecimal() else size / 3, 0.55 * height, width, faces)
    yield from _centred(where, SMALL, max(7.0, LABEL * height), 0.55 * height + 0.35 * size, width, faces)


def _centred(words: str, style: Style, size: float, y: float, width: float, faces: Faces) -> Iterator[Item]:
    running = Running(middle=words, style=Style(style.face, size, style.ink))
    return placed(running_line(running, width, Artifact.LAYOUT, faces), 0.0, y)
