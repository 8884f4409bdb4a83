"""Which page stands on which panel of which side of which sheet: the order of a booklet, as plain data.

A side is seen as it lies before you, its panels in columns from the left and rows from the top. A sheet is turned over
like the page of a book, about its upright axis, to see its back. Pages count from 1; a panel without a page is blank.
"""
from __future__ import annotations

import enum
from collections.abc import Iterator
from dataclasses import dataclass, replace

from notation import bounds
from notation.page.fault import LayoutError


class Face(enum.Enum):
    """The side of a sheet that is printed first, and the other."""

    FRONT = "front"
    BACK = "back"


class Edge(enum.Enum):
    """The edge of the paper about which a printer turns a sheet to print its back."""

    LONG = "long"
    SHORT = "short"


@dataclass(frozen=True, slots=True)
class Panel:
    """The room of one page on a side. page: its number, None for a blank one. turned: it stands on its head.

    depth: how many folded leaves of the signature lie around this one, for the creep.
    """

    page: int | None
    column: int
    row: int
    turned: bool = False
    depth: int = 0


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a sheet. sheet: its number from 1, signature: the number of its signature from 1."""

    sheet: int
    face: Face
    panels: tuple[Panel, ...]
    signature: int = 1


@dataclass(frozen=True, slots=True)
class Order:
    """The sides in the order in which they are printed, and what a sheet is folded like.

    columns, rows: panels of a side. depth: the greatest depth of a panel. cut: the panels are cut apart along the folds
    between rows, so room for bleed is left there. slit: the columns between which the middle fold is cut open.
    """

    columns: int
    rows: int
    sides: tuple[Side, ...]
    depth: int = 0
    cut: bool = False
    slit: tuple[int, int] | None = None

    @property
    def sheets(self) -> int:
        return len({side.sheet for side in self.sides})

    @property
    def double(self) -> bool:
        """Whether sheets are printed on both sides."""
        return any(side.face is Face.BACK for side in self.sides)


@dataclass(frozen=True, slots=True)
class _Leaves:
    """A folded leaf pair of a signature, seen from outside (`outer`) and inside (`inner`): left and right page."""

    outer: tuple[int, int]
    inner: tuple[int, int]
    depth: int


def booklet_order(pages: int, up: int = 2, signature: int | None = None) -> Order:
    """The order of a booklet whose sheets are folded and lie in one another.

    pages: of the reading version; blank ones are added at the end to fill the last sheet. up: panels of a side, 2 (a
    sheet is folded once) or 4 (folded twice, first its upper half back, then its left half; the heads are cut open).
    signature: the sheets that lie in one another; None for all of them. Raises LayoutError.

    >>> [[panel.page for panel in side.panels] for side in booklet_order(8).sides]
    [[8, 1], [2, 7], [6, 3], [4, 5]]
    """
    if not 1 <= pages <= bounds.IMPOSED_PAGES.most:
        raise LayoutError(f"{bounds.IMPOSED_PAGES.words}, not {pages:,}")
    if up not in (2, 4):
        raise LayoutError(f"2 or 4 pages stand on a side, not {up}")
    if signature is not None and signature < 1:
        raise LayoutError("a signature has at least one sheet")
    sheets = -(-pages // (2 * up))
    sides: list[Side] = []
    for number, first in enumerate(range(0, sheets, signature or sheets), 1):
        count = min(signature or sheets, sheets - first)
        sides += _signature(first, count, up, number)
    depth = max(panel.depth for side in sides for panel in side.panels)
    return Order(2, up // 2, tuple(_within(side, pages) for side in sides), depth, cut=up == 4)


def _within(side: Side, pages: int) -> Side:
    """Panels beyond the last page are blank."""
    shown = (replace(p, page=p.page if p.page and p.page <= pages else None) for p in side.panels)
    return replace(side, panels=tuple(shown))


def _signature(before: int, sheets: int, up: int, number: int) -> Iterator[Side]:
    """The sides of a signature. before: sheets of the signatures before it."""
    first = before * 2 * up + 1
    last = first + sheets * 2 * up - 1
    pairs = [_leaves(first, last, depth) for depth in range(sheets * up // 2)]
    for sheet in range(sheets):
        panels = _folded_once(pairs[sheet]) if up == 2 else _folded_twice(*pairs[2 * sheet : 2 * sheet + 2])
        for face, side in zip(Face, panels, strict=True):
            yield Side(before + sheet + 1, face, side, number)


def _leaves(first: int, last: int, depth: int) -> _Leaves:
    near, far = first + 2 * depth, last - 2 * depth
    return _Leaves((far, near), (near + 1, far - 1), depth)


def _folded_once(pair: _Leaves) -> tuple[tuple[Panel, ...], tuple[Panel, ...]]:
    return _row(pair.outer, pair.depth, 0), _row(pair.inner, pair.depth, 0)


def _folded_twice(outer: _Leaves, inner: _Leaves) -> tuple[tuple[Panel, ...], tuple[Panel, ...]]:
    """The inner pair stands on its head above the outer one, its inside to the front: it is folded back."""
    front = (*_headlong(inner.inner, inner.depth), *_row(outer.outer, outer.depth, 1))
    back = (*_headlong(inner.outer, inner.depth), *_row(outer.inner, outer.depth, 1))
    return front, back


def _row(pages: tuple[int, int], depth: int, row: int) -> tuple[Panel, ...]:
    return tuple(Panel(page, column, row, False, depth) for column, page in enumerate(pages))


def _headlong(pages: tuple[int, int], depth: int) -> tuple[Panel, ...]:
    return tuple(Panel(page, column, 0, True, depth) for column, page in enumerate(reversed(pages)))


CARDS = {
    4: Order(2, 2, (Side(1, Face.FRONT, (
        Panel(3, 0, 0, True), Panel(2, 1, 0, True),
        Panel(4, 0, 1), Panel(1, 1, 1),
    )),)),
    8: Order(4, 2, (Side(1, Face.FRONT, (
        Panel(1, 0, 0, True), Panel(8, 1, 0, True), Panel(7, 2, 0, True), Panel(6, 3, 0, True),
        Panel(2, 0, 1), Panel(3, 1, 1), Panel(4, 2, 1), Panel(5, 3, 1),
    )),), slit=(1, 2)),
}  # fmt: skip
"""Cards from one sheet that is printed on one side only, by their number of panels.

4: the upper half is folded back, then the left half. 8: folded lengthwise and in four, slit along the middle of the
lengthwise fold, pushed together so that the slit opens, and closed like a book. Common practice, no source.
"""


def card_order(panels: int, pages: int) -> Order:
    """The order of a folded card of 4 or 8 panels, printed on one side. Raises LayoutError for more pages than panels.

    >>> [panel.page for panel in card_order(4, 3).sides[0].panels]
    [3, 2, None, 1]
    """
    if panels not in CARDS:
        raise LayoutError(f"a card has 4 or 8 panels, not {panels}")
    if not 1 <= pages <= panels:
        raise LayoutError(f"a card of {panels} panels holds 1 to {panels} pages, not {pages}")
    order = CARDS[panels]
    return replace(order, sides=tuple(_within(side, pages) for side in order.sides))


def duplex(order: Order, edge: Edge, tall: bool) -> Order:
    """The order for a printer that turns sheets about that edge. tall: the sheet is higher than wide.

    Turned about an edge that runs across the top, the back comes out on its head, so it is printed on its head.
    """
    if (edge is Edge.LONG) == tall:
        return order
    sides = tuple(_headed(side, order) if side.face is Face.BACK else side for side in order.sides)
    return replace(order, sides=sides)


def _headed(side: Side, order: Order) -> Side:
    """The whole side turned half round."""
    panels = (
        replace(p, column=order.columns - 1 - p.column, row=order.rows - 1 - p.row, turned=not p.turned)
        for p in side.panels
    )
    return replace(side, panels=tuple(sorted(panels, key=lambda p: (p.row, p.column))))
