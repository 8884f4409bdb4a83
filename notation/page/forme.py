"""Where the panels of an imposed side stand on the paper.

All lengths are points, positions from the upper left corner of the paper, y downwards.
"""
from __future__ import annotations

from dataclasses import dataclass

from notation.page.content import Paper
from notation.page.fault import LayoutError
from notation.page.imposition import Edge, Order, Panel, booklet_order, card_order
from notation.page.units import named_papers, points
from notation.plane import Rect

MARK = points(5)  # length of a mark
APART = points(3)  # least distance of a mark from what is trimmed
NEAR = points(3)  # paper so much larger than the pages is taken in place of a sheet cut to measure
LEAST_SCALE = 0.2


@dataclass(frozen=True, slots=True)
class Plan:
    """What is wanted of an imposed print.

    up: panels of a side, 2 or 4. signature: sheets that lie in one another, None for all. card: 4 or 8 for a folded
    card in place of a booklet. edge: about which the printer turns a sheet; None for the one that leaves backs upright.
    creep: how far the innermost leaf is moved towards the fold, the others in proportion; bleed: what is printed beyond
    the trimmed page; both in points. paper: None for as much as is needed. proof: large numbers on the panels.
    """

    up: int = 2
    signature: int | None = None
    card: int | None = None
    edge: Edge | None = None
    creep: float = 0.0
    bleed: float = 0.0
    crop_marks: bool = False
    fold_marks: bool = False
    paper: Paper | None = None
    proof: bool = False

    def order(self, pages: int) -> Order:
        """The order for so many pages. Raises LayoutError."""
        return card_order(self.card, pages) if self.card else booklet_order(pages, self.up, self.signature)

    @property
    def room(self) -> float:
        """What must be free around the panels."""
        return max(self.bleed, max(self.bleed, APART) + MARK if self.crop_marks else 0.0)


@dataclass(frozen=True, slots=True)
class Forme:
    """A side as it lies on its paper. width, height: of a panel on the paper, after scaling by `scale`.

    gap: between rows, where they are cut apart. bleed: printed beyond a panel's outer edges.
    """

    paper: Paper
    columns: int
    rows: int
    width: float
    height: float
    scale: float
    gap: float = 0.0
    bleed: float = 0.0

    @property
    def block(self) -> Rect:
        """All panels together, as they are trimmed."""
        across = self.columns * self.width
        down = self.rows * self.height + (self.rows - 1) * self.gap
        x, y = (self.paper.width - across) / 2, (self.paper.height - down) / 2
        return Rect(x, y, x + across, y + down)

    @property
    def tall(self) -> bool:
        return self.paper.height >= self.paper.width

    def panel_box(self, panel: Panel) -> Rect:
        block = self.block
        x, y = block.x0 + panel.column * self.width, block.y0 + panel.row * (self.height + self.gap)
        return Rect(x, y, x + self.width, y + self.height)

    def printed_box(self, panel: Panel) -> Rect:
        """The panel and the bleed beyond those of its edges that are trimmed; nothing crosses a fold."""
        box, parted = self.panel_box(panel), self.gap > 0
        return Rect(
            box.x0 - (self.bleed if panel.column == 0 else 0.0),
            box.y0 - (self.bleed if panel.row == 0 or parted else 0.0),
            box.x1 + (self.bleed if panel.column == self.columns - 1 else 0.0),
            box.y1 + (self.bleed if panel.row == self.rows - 1 or parted else 0.0),
        )

    def shift(self, panel: Panel, creep: float, depth: int) -> float:
        """How far a page moves to the right, so towards the fold. depth: the greatest of the order."""
        if depth == 0 or self.columns != 2:
            return 0.0
        return creep * panel.depth / depth * (1 if panel.column == 0 else -1)


def make_forme(order: Order, width: float, height: float, plan: Plan) -> Forme:
    """The forme for pages of that size. Pages too large for the paper are made smaller, never larger.

    Raises LayoutError where hardly anything would be left of them, or the creep is no small part of a page.
    """
    if not 0 <= plan.creep <= width / 4:
        raise LayoutError("the creep is more than a quarter of a page's width; it is a few millimetres")
    gap = 2 * plan.bleed if order.cut else 0.0
    across, down = order.columns * width, order.rows * height
    if plan.paper is None:
        wide, high = across + 2 * plan.room, down + (order.rows - 1) * gap + 2 * plan.room
        held = _near_paper(wide, high) or Paper("", wide, high)
    else:
        held = max(_both_ways(plan.paper), key=lambda one: _scale(one, across, down, gap * (order.rows - 1), plan))
    scale = _scale(held, across, down, gap * (order.rows - 1), plan)
    if scale < LEAST_SCALE:
        raise LayoutError(f"this paper leaves no room for {order.columns * order.rows} pages of that size; take larger")
    return Forme(held, order.columns, order.rows, width * scale, height * scale, scale, gap, plan.bleed)


def _scale(paper: Paper, across: float, down: float, gaps: float, plan: Plan) -> float:
    """How large the pages come out on this paper, at most 1 and at least 0."""
    room = min((paper.width - 2 * plan.room) / across, (paper.height - 2 * plan.room - gaps) / down)
    return max(0.0, 1.0 if room > 0.9995 else room)


def _both_ways(paper: Paper) -> tuple[Paper, Paper]:
    return paper, Paper(paper.name, paper.height, paper.width)


def _near_paper(width: float, height: float) -> Paper | None:
    """The paper that is hardly larger than this, upright or lying."""
    for paper in (way for named in named_papers() for way in _both_ways(named)):
        if -0.5 < paper.width - width < NEAR and -0.5 < paper.height - height < NEAR:
            return paper
    return None
