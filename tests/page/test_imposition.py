"""Page orders against tables worked out by hand, and against sheets that are stacked, folded and read through."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.page.fault import LayoutError
from notation.page.imposition import Edge, Face, Order, Side, booklet_order, card_order, duplex

TWO_UP = {
    4: [(4, 1), (2, 3)],
    8: [(8, 1), (2, 7), (6, 3), (4, 5)],
    16: [(16, 1), (2, 15), (14, 3), (4, 13), (12, 5), (6, 11), (10, 7), (8, 9)],
    20: [(20, 1), (2, 19), (18, 3), (4, 17), (16, 5), (6, 15), (14, 7), (8, 13), (12, 9), (10, 11)],
}
"""Left and right page of each side, worked out by hand: the two pages of a side of n pages make n + 1, the odd one at
the right of a front."""

FOUR_UP = {
    4: [((0, 4), (0, 1)), ((3, 0), (2, 0))],
    8: [((5, 4), (8, 1)), ((3, 6), (2, 7))],
    16: [((13, 4), (16, 1)), ((3, 14), (2, 15)), ((9, 8), (12, 5)), ((7, 10), (6, 11))],
    20: [((0, 4), (0, 1)), ((3, 0), (2, 0)), ((17, 8), (20, 5)), ((7, 18), (6, 19)), ((13, 12), (16, 9)),
         ((11, 14), (10, 15))],
}  # fmt: skip
"""Upper row (on its head) and lower row of each side, worked out by hand on paper; 0: blank."""


def rows(side: Side) -> list[tuple[int, ...]]:
    count = max(p.row for p in side.panels) + 1
    return [tuple(p.page or 0 for p in side.panels if p.row == row) for row in range(count)]


@pytest.mark.parametrize("pages", TWO_UP)
def test_two_up_as_worked_out_by_hand(pages: int) -> None:
    order = booklet_order(pages)
    assert [rows(side) for side in order.sides] == [[row] for row in TWO_UP[pages]]
    assert not any(p.turned for side in order.sides for p in side.panels)


@pytest.mark.parametrize("pages", FOUR_UP)
def test_four_up_as_worked_out_by_hand(pages: int) -> None:
    order = booklet_order(pages, 4)
    assert [tuple(rows(side)) for side in order.sides] == FOUR_UP[pages]
    assert all(p.turned == (p.row == 0) for side in order.sides for p in side.panels)


@dataclass(frozen=True)
class Printed:
    """One side of a cell of paper: its page (0 blank), and whether its head points up in the pile as it now lies."""

    page: int
    head_up: bool

    @property
    def headlong(self) -> Printed:
        return Printed(self.page, not self.head_up)


Cell = tuple[Printed, Printed]
"""What faces the reader, and what is behind it (seen from behind, turning the leaf like a page)."""


def sheet_cells(front: Side, back: Side | None, edge: Edge, tall: bool) -> dict[tuple[int, int], Cell]:
    """A sheet as it comes out of a printer that turns it about that edge. Keys: row and column of the front."""
    height, width = max(p.row for p in front.panels) + 1, max(p.column for p in front.panels) + 1
    faces = {(p.row, p.column): Printed(p.page or 0, not p.turned) for p in front.panels}
    behind = {(p.row, p.column): Printed(p.page or 0, not p.turned) for p in back.panels} if back else {}
    upright_axis = (edge is Edge.LONG) == tall
    cells = {}
    for row, column in faces:
        if upright_axis:
            other = behind.get((row, width - 1 - column), Printed(0, True))
        else:
            other = behind.get((height - 1 - row, column), Printed(0, False)).headlong
        cells[row, column] = (faces[row, column], other)
    return cells


def fold_top_back(cells: dict[tuple[int, int], Cell]) -> dict[int, list[Cell]]:
    """The upper row goes behind the lower: its back comes forward and its head is where its foot was."""
    columns = {column for _, column in cells}
    if not any(row for row, _ in cells):
        return {column: [cells[0, column]] for column in columns}
    piled = {}
    for column in columns:
        front, back = cells[0, column]
        piled[column] = [cells[1, column], (back.headlong, front.headlong)]
    return piled


def read_through(sheets: Sequence[dict[int, list[Cell]]]) -> list[Printed]:
    """The sheets, outermost first, laid in one another; the left half folded back; then read leaf by leaf."""
    right = [cell for sheet in sheets for cell in sheet[1]]
    left = [cell for sheet in sheets for cell in sheet[0]]
    leaves = [*right, *((back, front) for front, back in reversed(left))]
    return [face for leaf in leaves for face in leaf]


def folded(order: Order, edge: Edge, tall: bool) -> list[Printed]:
    """The whole booklet: each signature stacked, folded and read, one signature behind the other."""
    found: list[Printed] = []
    for number in sorted({side.signature for side in order.sides}):
        sides = [side for side in order.sides if side.signature == number]
        pairs = zip(sides[::2], sides[1::2], strict=True)
        assert all((a.face, b.face) == (Face.FRONT, Face.BACK) for a, b in zip(sides[::2], sides[1::2], strict=True))
        found += read_through([fold_top_back(sheet_cells(a, b, edge, tall)) for a, b in pairs])
    return found


@settings(max_examples=120, deadline=None)
@given(st.integers(1, 90), st.sampled_from([2, 4]), st.none() | st.integers(1, 6), st.sampled_from(Edge), st.booleans())
def test_folded_sheets_read_in_order(pages: int, up: int, signature: int | None, edge: Edge, tall: bool) -> None:
    order = duplex(booklet_order(pages, up, signature), edge, tall)
    found = folded(order, edge, tall)
    assert [face.page for face in found] == [*range(1, pages + 1), *[0] * (len(found) - pages)]
    assert all(face.head_up for face in found)
    assert len(found) == -(-pages // (2 * up)) * 2 * up


@pytest.mark.parametrize("tall", [True, False])
def test_the_wrong_edge_is_seen_by_the_folding(tall: bool) -> None:
    order = duplex(booklet_order(8), Edge.LONG, tall)
    assert not all(face.head_up for face in folded(order, Edge.SHORT, tall))


def test_a_card_of_four_panels_folds() -> None:
    front = card_order(4, 4).sides[0]
    cells = fold_top_back(sheet_cells(front, None, Edge.LONG, True))
    seen = [face for face in read_through([cells]) if face.page]
    assert [face.page for face in seen] == [1, 2, 3, 4] and all(face.head_up for face in seen)


def test_a_card_of_eight_panels_folds() -> None:
    """Pushed together, the panels go round as on a ring: along the lower row, over the fold, back along the upper.

    Each turn of the ring is a fold; the slit frees the four panels in the middle. Neighbours on the ring are facing
    pages or the two sides of a leaf; heads lie together along the lengthwise fold.
    """
    panels = {(p.row, p.column): p for p in card_order(8, 8).sides[0].panels}
    ring = [panels[1, c] for c in range(4)] + [panels[0, c] for c in reversed(range(4))]
    first = next(k for k, p in enumerate(ring) if p.page == 1)
    assert [p.page for p in ring[first:] + ring[:first]] == list(range(1, 9))
    assert all(p.turned == (p.row == 0) for p in ring)
    # Facing pages hang together along a side: 2-3, 4-5, 6-7; and 8-1, the covers.
    for one, two in ((2, 3), (4, 5), (6, 7), (8, 1)):
        a, b = (next(p for p in ring if p.page == n) for n in (one, two))
        assert a.row == b.row and b.column - a.column == (-1 if a.turned else 1)


def test_every_signature_begins_anew() -> None:
    order = booklet_order(20, 2, 2)
    assert [rows(side)[0] for side in order.sides] == [
        (8, 1), (2, 7), (6, 3), (4, 5), (16, 9), (10, 15), (14, 11), (12, 13), (20, 17), (18, 19)]
    assert [side.signature for side in order.sides] == [1] * 4 + [2] * 4 + [3] * 2
    assert [p.depth for side in order.sides for p in side.panels] == [0] * 4 + [1] * 4 + [0] * 4 + [1] * 4 + [0] * 4


def test_leaves_of_a_twice_folded_sheet_lie_in_one_another() -> None:
    """The upper row is folded inside the lower one, so it creeps one leaf more."""
    order = booklet_order(16, 4)
    assert [[p.depth for p in side.panels] for side in order.sides] == [[1, 1, 0, 0]] * 2 + [[3, 3, 2, 2]] * 2
    assert order.depth == 3


@pytest.mark.parametrize("wrong", [(0, 2, None), (8, 3, None), (8, 2, 0), (30_000, 2, None)])
def test_what_cannot_be_a_booklet(wrong: tuple[int, int, int | None]) -> None:
    with pytest.raises(LayoutError):
        booklet_order(*wrong)


def test_what_cannot_be_a_card() -> None:
    for panels, pages in ((5, 2), (4, 5), (8, 0)):
        with pytest.raises(LayoutError):
            card_order(panels, pages)
