"""Particulars and keys: labels with what they stand for, in columns, and drawings beside them."""
from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from notation.page.content import Drawing, Key, Paragraph, Particulars
from notation.page.flow import Setting, Stack, drawing_scale, figure_stack, figure_width, stacked
from notation.page.slab import Slab, Spot, cut_lines, half_steps
from notation.page.structure import Tree

COLUMN_GAP = 18.0  # points between the columns of particulars and keys
LABEL_GAP = 6.0
LEAST_SQUEEZED = 0.25  # share of the measure that a body broken over several lines keeps at least
CROWDED = 0.5  # share of a page; particulars that are taller stand above what would stand beside them
SAVED = 0.8  # share of the lines that broken bodies may need of those they would need one under the other
PARTED = 0.3  # what it costs to end a page within particulars

Entry = tuple[Drawing | Paragraph, Paragraph]


@dataclass(frozen=True, slots=True)
class _Pair:
    """A column of entries: x and the widths of its labels and bodies, in points."""

    x: float
    label: float
    body: float

    @property
    def right(self) -> float:
        return self.x + self.label + LABEL_GAP + self.body


@dataclass(frozen=True, slots=True)
class _Widths:
    """What the labels and bodies of entries need in points, each in one line."""

    labels: Sequence[float]
    bodies: Sequence[float]

    def deep(self, columns: int) -> int:
        return math.ceil(len(self.labels) / columns)

    def pairs(self, columns: int) -> list[_Pair]:
        """The columns of entries read down, each as wide as its own entries need."""
        found: list[_Pair] = []
        deep = self.deep(columns)
        for first in range(0, len(self.labels), deep):
            x = found[-1].right + COLUMN_GAP if found else 0.0
            found.append(_Pair(x, max(self.labels[first : first + deep]), max(self.bodies[first : first + deep])))
        return found

    def squeezed(self, columns: int, width: float) -> list[_Pair] | None:
        """The columns with the widest body made narrow enough for the width; None where others would break too."""
        pairs, deep = self.pairs(columns), self.deep(columns)
        widest = max(range(len(self.bodies)), key=self.bodies.__getitem__)
        left = self.bodies[widest] - max(0.0, pairs[-1].right - width)
        first = widest // deep * deep
        others = [body for k, body in enumerate(self.bodies[first : first + deep], first) if k != widest]
        if left < max(others, default=0.0) or left < width * LEAST_SQUEEZED:
            return None
        return _Widths(self.labels, [*self.bodies[:widest], left, *self.bodies[widest + 1 :]]).pairs(columns)


def _unbroken(widths: _Widths, width: float, room: float) -> list[_Pair] | None:
    """The fewest columns that are no taller than the room in steps, else as many as fit; None where none fit."""
    fitting = [grid for n in range(1, len(widths.labels) + 1) if (grid := widths.pairs(n))[-1].right <= width]
    low = (grid for grid in fitting if widths.deep(len(grid)) <= room)
    return next(low, fitting[-1] if fitting else None)


def _grid(entries: Sequence[Entry], width: float, room: float, to: Setting) -> list[_Pair]:
    """The columns of entries: no body broken where that leaves several columns, else the lowest. room: steps."""
    widths = _Widths([_label_width(one, to) for one, _ in entries], [to.natural(two) for _, two in entries])
    whole = _unbroken(widths, width, room)
    if whole is not None and (len(whole) > 1 or len(entries) <= room):
        return whole
    single = whole or [_single(widths, width)]
    ways = []
    if all(isinstance(one, Paragraph) for one, _ in entries):
        ways = [grid for n in (2, 3) if n < len(entries) and (grid := widths.squeezed(n, width)) is not None]
    lowest = min(ways, key=lambda grid: _lines_deep(entries, grid, to), default=single)
    return lowest if _lines_deep(entries, lowest, to) <= SAVED * _lines_deep(entries, single, to) else single


def _single(widths: _Widths, width: float) -> _Pair:
    label = min(max(widths.labels), width * 0.45)
    return _Pair(0.0, label, width - label - LABEL_GAP)


def _lines_deep(entries: Sequence[Entry], grid: Sequence[_Pair], to: Setting) -> int:
    """Lines of the tallest column."""
    deep = math.ceil(len(entries) / len(grid))
    return max(
        sum(len(to.lines(body, pair.body)) for _, body in entries[k * deep : (k + 1) * deep])
        for k, pair in enumerate(grid)
    )


def _label_width(label: Drawing | Paragraph, to: Setting) -> float:
    return label.width if isinstance(label, Drawing) else to.natural(label)


def _label(label: Drawing | Paragraph, x: float, width: float, item: int, to: Setting) -> Stack:
    tag = to.tree.add("Lbl", item)
    if isinstance(label, Paragraph):
        return stacked(label, x, width, tag, to)
    scale = drawing_scale(label, width, (to.capacity - 2) * to.step)
    lead = max(1.0, half_steps(label.ascent * scale, to.step))
    spot = Spot(x, lead * to.step, label, to.tree.drawing(label, tag), scale)
    return Stack((spot,), lead + half_steps(max(0.0, label.descent * scale - 0.3 * to.step), to.step))


def _entry(entry: Entry, at: _Pair, parent: int, to: Setting) -> Stack:
    item = to.tree.add("LI", parent)
    label = _label(entry[0], at.x, at.label, item, to)
    body = stacked(entry[1], at.x + at.label + LABEL_GAP, at.body, to.tree.add("LBody", item), to)
    drop = max(0.0, _first_baseline(label) - _first_baseline(body))
    raise_label = max(0.0, _first_baseline(body) - _first_baseline(label))
    spots = (*label.moved(0.0, raise_label), *body.moved(0.0, drop))
    return Stack(spots, max(label.height + raise_label / to.step, body.height + drop / to.step))


def _first_baseline(stack: Stack) -> float:
    return next((spot.y for spot in stack.spots if not isinstance(spot.what, str)), 0.0)


def _entries(entries: Sequence[Entry], width: float, parent: int, to: Setting, room: float = 0.0) -> Stack:
    """Entries in columns, read down. room: steps that are there beside them anyway."""
    grid = _grid(entries, width, room, to)
    deep = math.ceil(len(entries) / len(grid))
    stacks = [_entry(e, grid[k // deep], parent, to) for k, e in enumerate(entries)]
    columns = [stacks[first : first + deep] for first in range(0, len(stacks), deep)]
    if any(isinstance(label, Drawing) for label, _ in entries):
        level = [max(stack.height for stack in stacks[line::deep]) for line in range(deep)]
        heights = [level] * len(columns)
    else:
        heights = [[stack.height for stack in column] for column in columns]
    return _columns(columns, heights, to)


def _columns(columns: Sequence[Sequence[Stack]], heights: Sequence[Sequence[float]], to: Setting) -> Stack:
    """Columns of stacks, each as high as is said in steps."""
    spots: list[Spot] = []
    for column, high in zip(columns, heights, strict=True):
        for stack, top in zip(column, accumulate(high, initial=0.0), strict=False):
            spots.extend(stack.moved(0.0, top * to.step))
    return Stack(tuple(spots), max(sum(high) for high in heights))


def _beside_width(particulars: Particulars, to: Setting) -> float:
    """What stands at the right takes its natural width, at most 45 % of the measure."""
    widths = [
        to.natural(part) if isinstance(part, Paragraph) else figure_width(part, to) for part in particulars.beside
    ]
    return min(max(widths), to.width * 0.45) if widths else 0.0


def _beside(particulars: Particulars, x: float, width: float, parent: int | None, to: Setting) -> Stack:
    spots: list[Spot] = []
    height = 0.0
    for part in particulars.beside:
        if isinstance(part, Paragraph):
            stack = stacked(part, x, width, to.tree.add(part.kind, parent), to)
        else:
            stack = figure_stack(part, x, width, parent, to)
        spots.extend(stack.moved(0.0, height * to.step))
        height += stack.height
    return Stack(tuple(spots), height)


def particulars_slabs(part: Particulars, to: Setting, parent: int | None) -> list[Slab]:
    """Particulars with what stands beside them; above it, line by line, where the page is too small for both."""
    right = _beside_width(part, to)
    width = to.width - right - (COLUMN_GAP if right else 0.0)
    tag = to.tree.add("L", parent) if part.pairs else 0
    if part.pairs and right and _depth(part.pairs, width, to) > CROWDED * to.capacity:
        return _apart(part, right, tag, parent, to)
    room = _beside(part, 0.0, right, None, replace(to, tree=Tree())).height
    left = _entries(part.pairs, width, tag, to, room) if part.pairs else Stack((), 0.0)
    beside = _beside(part, to.width - right, right, parent, to)
    spots = (*left.spots, *beside.spots)
    return [Slab(max(left.height, beside.height), spots, part.space_before, part.space_after)] if spots else []


def _depth(entries: Sequence[Entry], width: float, to: Setting) -> int:
    return _lines_deep(entries, _grid(entries, width, 0.0, to), to)


def _apart(part: Particulars, right: float, tag: int, parent: int | None, to: Setting) -> list[Slab]:
    """Entries over the whole measure, then the rest; a page may end between two lines of them."""
    above = _entries(part.pairs, to.width, tag, to)
    cuts = cut_lines(Slab(above.height, above.spots, part.space_before), to.step)
    for cut in cuts:
        cut.cost = PARTED
    if len(cuts) > 2:
        cuts[0].stick = cuts[-2].stick = True
    below = _beside(part, 0.0, right, parent, to)
    return [*cuts, Slab(below.height, below.spots, 0.5, part.space_after)]


def key_slab(key: Key, to: Setting, parent: int | None) -> Slab:
    """The heading of a key and its entries under it."""
    heading = stacked(key.heading, 0.0, to.width, to.tree.add(key.heading.kind, parent), to)
    if not key.entries:
        return Slab(heading.height, heading.spots, key.space_before)
    entries = _entries(key.entries, to.width, to.tree.add("L", parent), to)
    below = heading.height + half_steps(key.heading.space_after * to.step, to.step)
    spots = (*heading.spots, *entries.moved(0.0, below * to.step))
    return Slab(below + entries.height, spots, max(key.space_before, key.heading.space_before))
