"""Tables: rows with their first lines on one baseline, blocks that stay together, heads that repeat."""
from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from notation.kept import SHORT, Kept, Same
from notation.page.content import Block, Cell, Drawing, Paragraph, Row, Section, Table
from notation.page.flow import Setting, Stack, hanging, slabs, stacked
from notation.page.frame import Artifact, Element
from notation.page.lines import Line
from notation.page.measure import Place, places
from notation.page.path import Path
from notation.page.slab import Head, Slab, Spot, aligned, half_steps, sliced
from notation.page.structure import Tree
from notation.page.text import line_steps
from notation.plane import Point

SPACE_ABOVE, SPACE_BELOW = 1.0, 0.5  # of a section heading that says nothing else, in steps
CAP = 0.72  # share of a step that words take above their baseline, with a little air
BETWEEN_BLOCKS = 0.3  # what it costs to begin a page inside a section
KEPT_BELOW = 4.0  # steps; a note of so many lines never begins a page without the rows above it
KEPT_DRAWN = 0.5  # share of a page; drawings that are no taller stay with the rows above them
PARTED_BELOW = 0.5  # what it costs to begin a page with what stands under the blocks
DESCENT = 0.3  # share of a step that may hang below a baseline


@dataclass(frozen=True, slots=True)
class _Grid:
    """A table's columns in their places. like: what a block depends on besides itself."""

    table: Table
    places: tuple[Place, ...]
    to: Setting
    like: Hashable

    def box(self, first: int, span: int) -> tuple[float, float]:
        """x and width of the words of a cell; one that reaches the last column may use what is left of the measure."""
        last = min(first + span, len(self.places)) - 1
        reaches = span > 1 and last == len(self.places) - 1
        right = max(self.to.width, self.places[last].right) if reaches else self.places[last].right
        return self.places[first].words, right - self.places[first].words


@dataclass(frozen=True, slots=True)
class _SetRow:
    """A row as high as its own cells need it. deep: of each cell that may run down, over how many rows, and the steps
    it needs."""

    stack: Stack
    deep: tuple[tuple[int, float], ...]


@dataclass(frozen=True, slots=True)
class _SetCell:
    """A cell's lines and what it needs above its first baseline (points above it, steps of lead) and in all."""

    cell: Cell
    x: float
    width: float
    lines: tuple[Line, ...]
    pitch: float
    lead: float
    tag: int
    slot_x: float


def table_slabs(table: Table, to: Setting, parent: int | None) -> list[Slab]:
    """The table as slabs: column heads, then for each section its heading and its blocks."""
    if not table.columns:
        return []
    at, keys = places(table, to), tuple(column.key for column in table.columns)
    grid = _Grid(table, at, to, (to.faces.number, at, keys, to.step, to.language, to.width))
    top = to.tree.add("Table", parent)
    first = _heads(grid, top)
    repeated = first if first and first.height <= to.capacity / 3 else None
    found = [Slab(first.height, first.spots, stick=True)] if first else []
    for section in table.sections:
        made = _section(section, grid, to.tree.add("TBody", top), repeated)
        if made and len(found) == 1 and first:
            made[0].before = SPACE_BELOW
        found.extend(made)
    return found


def _heads(grid: _Grid, top: int) -> Head | None:
    """The column heads, their last lines on one baseline; None where no column has one."""
    if not any(column.head.text for column in grid.table.columns):
        return None
    to = grid.to
    row = to.tree.add("TR", to.tree.add("THead", top))
    stacks = []
    for place, column in zip(grid.places, grid.table.columns, strict=True):
        tag = to.tree.add("TH", row, scope="Column")
        stacks.append(stacked(column.head, place.words, place.width, tag, to))
    height = max(stack.height for stack in stacks)
    spots = [spot for stack in stacks for spot in stack.moved(0.0, (height - stack.height) * to.step)]
    return Head(tuple(spots), height)


def _section(section: Section, grid: _Grid, body: int, head: Head | None) -> list[Slab]:
    to = grid.to
    room = to.capacity - (head.height + SPACE_BELOW if head else 0.0)
    found = []
    if section.heading is not None:
        found.extend(sliced(_section_heading(section.heading, grid, body), to.step, room))
        found[-1].stick = bool(section.blocks or section.below)
    above = sum(slab.height + slab.after for slab in found)
    for number, block in enumerate(section.blocks):
        left = room - above if number == 0 and room - above >= 1 else room
        found.extend(_block(block, grid, body, left))
    if section.blocks:
        found[-1].cost = 0.0
    _keep_below(found, list(_below(section, grid, body, room)), KEPT_DRAWN * room)
    for slab in found:
        slab.head = head
    return found


def _keep_below(found: list[Slab], below: Sequence[Slab], drawn: float) -> None:
    """Add what stands under the blocks: it stays with them where it is short. drawn: steps, of the first part."""
    for number, slab in enumerate(below):
        if found:
            found[-1].stick = found[-1].stick or slab.height <= max(KEPT_BELOW, 0.0 if number else drawn)
            found[-1].cost = max(found[-1].cost, PARTED_BELOW)
        found.append(slab)


def _below(section: Section, grid: _Grid, body: int, room: float) -> Iterator[Slab]:
    if section.below:
        cell = grid.to.tree.add("TD", grid.to.tree.add("TR", body), columns=len(grid.places))
        yield from slabs(section.below, replace(grid.to, capacity=room), cell)


def _section_heading(heading: Paragraph, grid: _Grid, body: int) -> Slab:
    to = grid.to
    cell = to.tree.add("TD", to.tree.add("TR", body), columns=len(grid.places))
    stack = stacked(heading, 0.0, to.width, to.tree.add(heading.kind, cell), to)
    before, after = heading.space_before, heading.space_after
    if not before and not after:
        before, after = SPACE_ABOVE, SPACE_BELOW
    return Slab(stack.height, stack.spots, before, after, stick=True)


@dataclass(frozen=True, slots=True)
class _SetBlock:
    """The rows of a block with tags of a tree of their own, their heights shared, in steps: one under the other, and
    each with the height that it needs alone."""

    height: float
    piled: tuple[Spot, ...]
    rows: tuple[Stack, ...]
    elements: tuple[Element, ...]


BLOCKS: Kept[_SetBlock] = Kept(256)
"""As they were set last: a story that is set again, with other spaces or a word changed, has most of them as before."""


def _block(block: Block, grid: _Grid, body: int, room: float) -> list[Slab]:
    """One slab; several where the block is taller than a page has room."""
    if not block.rows:
        return []
    make = partial(_set_block, block, grid)
    made = BLOCKS.get((Same(block), grid.like), make) if len(block.rows) <= SHORT else make()
    base = grid.to.tree.graft(made.elements, body)
    if made.height <= room:
        return [Slab(made.height, made.piled, block.rows[0].space_before, cost=BETWEEN_BLOCKS, base=base)]
    cuts = [Slab(row.height, row.spots, said.space_before, cost=0.5, base=base)
            for row, said in zip(made.rows, block.rows, strict=True)]
    cuts[-1].cost = BETWEEN_BLOCKS
    return [part for cut in cuts for part in sliced(cut, grid.to.step, room)]


def _set_block(block: Block, grid: _Grid) -> _SetBlock:
    apart = replace(grid, to=replace(grid.to, tree=Tree()))
    made, gaps = [_row(row, apart) for row in block.rows], [row.space_before for row in block.rows]
    rows = _shared(made, gaps)
    if block.ruled:
        rows[0] = _ruled(rows[0], apart)
    alone = (max((row.stack.height, *(needed for _, needed in row.deep))) for row in made)
    height = sum(row.height for row in rows) + sum(gaps[1:])
    own = tuple(Stack(row.spots, high) for row, high in zip(rows, alone, strict=True))
    return _SetBlock(height, tuple(_piled(rows, gaps, grid.to.step)), own, tuple(apart.to.tree.elements))


def _shared(rows: Sequence[_SetRow], gaps: Sequence[float]) -> list[Stack]:
    """The rows, the last beside a cell that runs down made higher where that cell needs more than all of them."""
    heights = [row.stack.height for row in rows]
    for number, row in enumerate(rows):
        for deep, needed in row.deep:
            last = min(number + deep, len(rows)) - 1
            heights[last] += max(0.0, needed - sum(heights[number : last + 1]) - sum(gaps[number + 1 : last + 1]))
    return [Stack(row.stack.spots, height) for row, height in zip(rows, heights, strict=True)]


def _piled(rows: Sequence[Stack], gaps: Sequence[float], step: float) -> list[Spot]:
    spots: list[Spot] = []
    down = 0.0
    for number, row in enumerate(rows):
        down += gaps[number] if number else 0.0
        spots.extend(row.moved(0.0, down * step) if down else row.spots)
        down += row.height
    return spots


def _ruled(row: Stack, grid: _Grid) -> Stack:
    """With a hairline above, midway between the words of two lines that follow each other closely."""
    step = grid.to.step
    baseline = min((spot.y for spot in row.spots if not isinstance(spot.what, str)), default=step)
    tall = max((spot.what.ascent for spot in row.spots if isinstance(spot.what, Drawing)), default=0.0)
    y = max(0.0, baseline - max(CAP * step, tall + 0.03 * step))
    line = Path.line(Point(0.0, 0.0), Point(max(grid.to.width, grid.places[-1].right), 0.0))
    return Stack((Spot(0.0, y, line, Artifact.LAYOUT, shift=baseline - y), *row.spots), row.height)


def _row(row: Row, grid: _Grid) -> _SetRow:
    """The cells with their first lines on one baseline. Columns without a cell get an empty one in the structure."""
    tag = grid.to.tree.add("TR", None)
    cells = list(_cells(row, grid, tag))
    lead = max((cell.lead for cell in cells), default=1.0)
    spots = [spot for cell in cells for spot in _cell_spots(cell, lead, grid.to)]
    own = max((_height(cell, lead, grid.to) for cell in cells if cell.cell.deep == 1), default=lead)
    deep = tuple((cell.cell.deep, _height(cell, lead, grid.to)) for cell in cells if cell.cell.deep > 1)
    return _SetRow(Stack(tuple(spots), own), deep)


def _cells(row: Row, grid: _Grid, parent: int) -> Iterator[_SetCell]:
    by_column = {cell.column: cell for cell in row.cells}
    number = 0
    while number < len(grid.places):
        cell = by_column.get(grid.table.columns[number].key)
        if cell is None:
            grid.to.tree.add("TD", parent)
            number += 1
        else:
            yield _set_cell(cell, number, grid, parent)
            number += cell.span


def _set_cell(cell: Cell, number: int, grid: _Grid, parent: int) -> _SetCell:
    to = grid.to
    span = min(cell.span, len(grid.places) - number)
    kind, scope = ("TH", "Row") if cell.header else ("TD", "")
    tag = to.tree.add(kind, parent, scope=scope, columns=span)
    x, width = grid.box(number, cell.span)
    pitch = line_steps(cell.content, to.step)
    lead = pitch
    if cell.drawing is not None:
        lead = max(lead, half_steps(cell.drawing.ascent - 0.05 * to.step, to.step))
    return _SetCell(cell, x, width, to.lines(cell.content, width), pitch, lead, tag, grid.places[number].x)


def _height(cell: _SetCell, lead: float, to: Setting) -> float:
    """Steps from the upper edge of the row to the lower edge of the cell."""
    height = lead + cell.pitch * (len(cell.lines) - 1) + hanging(cell.cell.content, to.step)
    if cell.cell.drawing is not None:
        height = max(height, lead + half_steps(max(0.0, cell.cell.drawing.descent - DESCENT * to.step), to.step))
    return height


def _cell_spots(cell: _SetCell, lead: float, to: Setting) -> Iterator[Spot]:
    drawing = cell.cell.drawing
    if drawing is not None:
        yield Spot(cell.slot_x, lead * to.step, drawing, to.tree.drawing(drawing, cell.tag))
    align = cell.cell.content.align
    for number, line in enumerate(cell.lines):
        if line.pieces:
            x = cell.x + aligned(align, cell.width, line.width)
            yield Spot(x, (lead + number * cell.pitch) * to.step, line, cell.tag)
