"""What stands in a story, set to a width: paragraphs and figures; tables and entries have files of their own."""
from __future__ import annotations

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
        case Particulars() | Key():
            from notation.page.entries import key_slab, particulars_slabs

            return [key_slab(part, to, parent)] if isinstance(part, Key) else particulars_slabs(part, to, parent)
        case Figure():
            return [_figure(part, to, parent)]
        case FigureRow():
            return _figure_row(part, to, parent)
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


def drawing_scale(drawing: Drawing, width: float, height: float) -> float:
    """The factor that brings a drawing within a width and a height in points; never above 1."""
    tall = drawing.ascent + drawing.descent
    return min(1.0, width / drawing.width if drawing.width else 1.0, height / tall if tall else 1.0)


def _drawing_stack(drawing: Drawing, x: float, width: float, align: Align, parent: int | None, to: Setting) -> Stack:
    scale = drawing_scale(drawing, width, (to.capacity - 2) * to.step)
    above, below = half_steps(drawing.ascent * scale, to.step), half_steps(drawing.descent * scale, to.step)
    at = x + aligned(align, width, drawing.width * scale)
    spot = Spot(at, above * to.step, drawing, to.tree.drawing(drawing, parent), scale)
    return Stack((spot,), above + below)


def _drawing_height(drawing: Drawing, width: float, to: Setting) -> float:
    """Steps."""
    scale = drawing_scale(drawing, width, (to.capacity - 2) * to.step)
    return half_steps(drawing.ascent * scale, to.step) + half_steps(drawing.descent * scale, to.step)


def figure_stack(figure: Figure, x: float, width: float, parent: int | None, to: Setting, least: float = 0.0) -> Stack:
    """The drawing and the words under it. least: steps that the drawing takes, so that it stands level with others."""
    drawn = _drawing_stack(figure.drawing, x, width, figure.align, parent, to)
    drop = max(0.0, least - drawn.height)
    drawn = Stack(tuple(drawn.moved(0.0, drop * to.step)), drawn.height + drop)
    if figure.caption is None:
        return drawn
    words = stacked(figure.caption, x, width, to.tree.add(figure.caption.kind, parent), to)
    return Stack((*drawn.spots, *words.moved(0.0, drawn.height * to.step)), drawn.height + words.height)


def _figure(figure: Figure, to: Setting, parent: int | None) -> Slab:
    stack = figure_stack(figure, 0.0, to.width, parent, to)
    return Slab(stack.height, stack.spots, figure.space_before, figure.space_after)


def figure_width(figure: Figure, to: Setting) -> float:
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
        width = figure_width(figure, to)
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
        stacks = [figure_stack(figure, x, width, parent, to, level) for figure, x, width in line]
        found.append(Slab(max(s.height for s in stacks), [spot for s in stacks for spot in s.spots], before=0.5))
    if found:
        found[0].before, found[-1].after = row.space_before, row.space_after
    return found
