"""What stands in a story besides tables, set to a width: paragraphs, particulars, figures, keys."""
from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from notation.page.content import (
    Align,
    Drawing,
    Figure,
    FigureRow,
    Flow,
    Key,
    PageBreak,
    Paragraph,
    Particulars,
    Table,
)
from notation.page.fonts import Faces
from notation.page.lines import Line, lines
from notation.page.slab import Slab, Spot, aligned, cut_lines, half_steps, room_below, sliced
from notation.page.structure import Tree
from notation.page.text import line_steps, measured

COLUMN_GAP = 18.0  # points between the columns of particulars and keys
LABEL_GAP = 6.0
KEPT_LINES = 3  # a paragraph of so many lines is not divided


@dataclass(frozen=True, slots=True)
class Setting:
    """What setting needs to know. width: points; capacity: steps of a whole page."""

    faces: Faces
    tree: Tree
    step: float
    language: str
    width: float
    capacity: float

    def lines(self, paragraph: Paragraph, width: float) -> tuple[Line, ...]:
        return lines(paragraph, width, self.faces, self.language)

    def natural(self, paragraph: Paragraph) -> float:
        return measured(paragraph, self.faces).natural


@dataclass(frozen=True, slots=True)
class Stack:
    """Spots one under the other and their height in steps."""

    spots: tuple[Spot, ...]
    height: float

    def moved(self, x: float, y: float) -> Iterator[Spot]:
        """The spots moved by points."""
        return (Spot(s.x + x, s.y + y, s.what, s.tag, s.scale, s.shift) for s in self.spots)


def stacked(paragraph: Paragraph, x: float, width: float, tag: int, to: Setting) -> Stack:
    """A paragraph's lines under each other from the left x in points."""
    pitch = line_steps(paragraph, to.step)
    spots = [
        Spot(x + aligned(paragraph.align, width, line.width), (k + 1) * pitch * to.step, line, tag)
        for k, line in enumerate(to.lines(paragraph, width))
    ]
    return Stack((*_anchor(paragraph, x, pitch, to), *spots), pitch * len(spots) + hanging(paragraph, to.step))


def _anchor(paragraph: Paragraph, x: float, pitch: float, to: Setting) -> Iterator[Spot]:
    if paragraph.anchor or paragraph.outline_level is not None:
        name = to.tree.anchor(paragraph.anchor, paragraph.text.replace("\u00ad", ""), paragraph.outline_level)
        yield Spot(x, 0.0, name, 0, shift=pitch * to.step)


def hanging(paragraph: Paragraph, step: float) -> float:
    """Steps kept under the last line of type so large that its descenders would hang into what follows."""
    return room_below(max((run.style.size for run in paragraph.runs), default=0.0), step)


def slabs(flow: Sequence[Flow], to: Setting, parent: int | None = None) -> list[Slab]:
    """The flow as slabs, none taller than a page. LayoutError where the page is smaller than a line."""
    found: list[Slab] = []
    new_page = False
    for part in flow:
        if isinstance(part, PageBreak):
            new_page = bool(found)
            continue
        made = [cut for slab in _part(part, to, parent) for cut in sliced(slab, to.step, to.capacity)]
        if made and new_page:
            made[0].new_page, new_page = True, False
        found.extend(made)
    return found


def _part(part: Flow, to: Setting, parent: int | None) -> list[Slab]:
    match part:
        case Paragraph():
            return paragraph_slabs(part, to, parent)
        case Particulars():
            return _particulars(part, to, parent)
        case Figure():
            return [_figure(part, to, parent)]
        case FigureRow():
            return _figure_row(part, to, parent)
        case Key():
            return [_key(part, to, parent)]
        case Table():
            from notation.page.table import table_slabs

            return table_slabs(part, to, parent)
        case _:
            return []


def paragraph_slabs(paragraph: Paragraph, to: Setting, parent: int | None) -> list[Slab]:
    """A paragraph; a long one may be divided, but never with one line alone at the foot or the top of a page."""
    tag = to.tree.add(paragraph.kind, parent)
    stack = stacked(paragraph, 0.0, to.width, tag, to)
    stick = paragraph.kind.startswith("H")
    whole = Slab(stack.height, stack.spots, paragraph.space_before, paragraph.space_after, stick)
    pitch = line_steps(paragraph, to.step)
    count = int(stack.height / pitch + 0.001)
    if count <= KEPT_LINES or whole.stick:
        return [whole]
    cuts = cut_lines(whole, to.step)
    cuts[0].stick = cuts[-2].stick = True
    for cut in cuts[:-1]:
        cut.cost = 0.02
    return cuts


def _scale(drawing: Drawing, width: float, height: float) -> float:
    """The factor that brings a drawing within a width and a height in points; never above 1."""
    tall = drawing.ascent + drawing.descent
    return min(1.0, width / drawing.width if drawing.width else 1.0, height / tall if tall else 1.0)


def _drawing_stack(drawing: Drawing, x: float, width: float, align: Align, parent: int | None, to: Setting) -> Stack:
    scale = _scale(drawing, width, (to.capacity - 2) * to.step)
    above, below = half_steps(drawing.ascent * scale, to.step), half_steps(drawing.descent * scale, to.step)
    at = x + aligned(align, width, drawing.width * scale)
    spot = Spot(at, above * to.step, drawing, to.tree.drawing(drawing, parent), scale)
    return Stack((spot,), above + below)


def _drawing_height(drawing: Drawing, width: float, to: Setting) -> float:
    """Steps."""
    scale = _scale(drawing, width, (to.capacity - 2) * to.step)
    return half_steps(drawing.ascent * scale, to.step) + half_steps(drawing.descent * scale, to.step)


def _figure_stack(figure: Figure, x: float, width: float, parent: int | None, to: Setting, least: float = 0.0) -> Stack:
    """The drawing and the words under it. least: steps that the drawing takes, so that it stands level with others."""
    drawn = _drawing_stack(figure.drawing, x, width, figure.align, parent, to)
    drop = max(0.0, least - drawn.height)
    drawn = Stack(tuple(drawn.moved(0.0, drop * to.step)), drawn.height + drop)
    if figure.caption is None:
        return drawn
    words = stacked(figure.caption, x, width, to.tree.add(figure.caption.kind, parent), to)
    return Stack((*drawn.spots, *words.moved(0.0, drawn.height * to.step)), drawn.height + words.height)


def _figure(figure: Figure, to: Setting, parent: int | None) -> Slab:
    stack = _figure_stack(figure, 0.0, to.width, parent, to)
    return Slab(stack.height, stack.spots, figure.space_before, figure.space_after)


def _figure_width(figure: Figure, to: Setting) -> float:
    """Points: the drawing's width, or more where the words under it need it, but not for all of them in one line."""
    caption = 0.0
    if figure.caption is not None:
        text = measured(figure.caption, to.faces)
        caption = min(text.natural, max(text.widest, 1.6 * figure.drawing.width))
    return min(max(figure.drawing.width, caption), to.width)


def _wrapped(row: FigureRow, to: Setting) -> Iterator[list[tuple[Figure, float, float]]]:
    """The figures of each line with their x and width."""
    line: list[tuple[Figure, float, float]] = []
    x = 0.0
    for figure in row.figures:
        width = _figure_width(figure, to)
        if line and x + width > to.width:
            yield line
            line, x = [], 0.0
        line.append((figure, x, width))
        x += width + row.gap
    if line:
        yield line


def _figure_row(row: FigureRow, to: Setting, parent: int | None) -> list[Slab]:
    found = []
    for line in _wrapped(row, to):
        level = max(_drawing_height(figure.drawing, width, to) for figure, _, width in line)
        stacks = [_figure_stack(figure, x, width, parent, to, level) for figure, x, width in line]
        found.append(Slab(max(s.height for s in stacks), [spot for s in stacks for spot in s.spots], before=0.5))
    if found:
        found[0].before, found[-1].after = row.space_before, row.space_after
    return found


@dataclass(frozen=True, slots=True)
class _Pair:
    """A column of entries: x and the widths of its labels and bodies, in points."""

    x: float
    label: float
    body: float

    @property
    def right(self) -> float:
        return self.x + self.label + LABEL_GAP + self.body


def _pairs(labels: Sequence[float], bodies: Sequence[float], deep: int) -> list[_Pair]:
    """The columns of entries read down, `deep` to a column, each as wide as its own entries need."""
    found: list[_Pair] = []
    for first in range(0, len(labels), deep):
        x = found[-1].right + COLUMN_GAP if found else 0.0
        found.append(_Pair(x, max(labels[first : first + deep]), max(bodies[first : first + deep])))
    return found


def _grid(labels: Sequence[float], bodies: Sequence[float], width: float) -> list[_Pair]:
    """As many columns as fit without breaking a body; one column with broken bodies where none fit."""
    for columns in range(len(labels), 0, -1):
        grid = _pairs(labels, bodies, math.ceil(len(labels) / columns))
        if grid[-1].right <= width:
            return grid
    label = min(max(labels), width * 0.45)
    return [_Pair(0.0, label, width - label - LABEL_GAP)]


Entry = tuple[Drawing | Paragraph, Paragraph]


def _label_width(label: Drawing | Paragraph, to: Setting) -> float:
    return label.width if isinstance(label, Drawing) else to.natural(label)


def _label(label: Drawing | Paragraph, x: float, width: float, item: int, to: Setting) -> Stack:
    tag = to.tree.add("Lbl", item)
    if isinstance(label, Paragraph):
        return stacked(label, x, width, tag, to)
    scale = _scale(label, width, (to.capacity - 2) * to.step)
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


def _entries(entries: Sequence[Entry], width: float, parent: int, to: Setting) -> Stack:
    """Entries in as many columns as fit, read down, in lines of equal height."""
    grid = _grid([_label_width(e[0], to) for e in entries], [to.natural(e[1]) for e in entries], width)
    deep = math.ceil(len(entries) / len(grid))
    stacks = [_entry(e, grid[k // deep], parent, to) for k, e in enumerate(entries)]
    tops = [0.0]
    for line in range(deep):
        tops.append(tops[-1] + max(stack.height for stack in stacks[line::deep]))
    spots = [spot for k, stack in enumerate(stacks) for spot in stack.moved(0.0, tops[k % deep] * to.step)]
    return Stack(tuple(spots), tops[-1])


def _beside_width(particulars: Particulars, to: Setting) -> float:
    """What stands at the right takes its natural width, at most 45 % of the measure."""
    widths = [
        to.natural(part) if isinstance(part, Paragraph) else _figure_width(part, to) for part in particulars.beside
    ]
    return min(max(widths), to.width * 0.45) if widths else 0.0


def _beside(particulars: Particulars, width: float, parent: int | None, to: Setting) -> Stack:
    spots: list[Spot] = []
    height, x = 0.0, to.width - width
    for part in particulars.beside:
        if isinstance(part, Paragraph):
            stack = stacked(part, x, width, to.tree.add(part.kind, parent), to)
        else:
            stack = _figure_stack(part, x, width, parent, to)
        spots.extend(stack.moved(0.0, height * to.step))
        height += stack.height
    return Stack(tuple(spots), height)


def _particulars(part: Particulars, to: Setting, parent: int | None) -> list[Slab]:
    right = _beside_width(part, to)
    width = to.width - right - (COLUMN_GAP if right else 0.0)
    left = Stack((), 0.0)
    if part.pairs:
        left = _entries(part.pairs, width, to.tree.add("L", parent), to)
    beside = _beside(part, right, parent, to)
    spots = (*left.spots, *beside.spots)
    return [Slab(max(left.height, beside.height), spots, part.space_before, part.space_after)] if spots else []


def _key(key: Key, to: Setting, parent: int | None) -> Slab:
    heading = stacked(key.heading, 0.0, to.width, to.tree.add(key.heading.kind, parent), to)
    if not key.entries:
        return Slab(heading.height, heading.spots, key.space_before)
    entries = _entries(key.entries, to.width, to.tree.add("L", parent), to)
    below = heading.height + half_steps(key.heading.space_after * to.step, to.step)
    spots = (*heading.spots, *entries.moved(0.0, below * to.step))
    return Slab(below + entries.height, spots, max(key.space_before, key.heading.space_before))
