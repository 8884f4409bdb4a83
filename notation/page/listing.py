"""A list of what stands on which page: contents and indexes. Words at the left, dots, page numbers at the right."""
from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from notation.page.content import Paragraph, Run, Style
from notation.page.flow import Setting
from notation.page.frame import Artifact
from notation.page.lines import Line, Piece, lines
from notation.page.slab import Area, Slab, Spot

GAP = 10.0  # points between words and page numbers
NUMBERS = 0.42  # share of the width that several page numbers may take
PITCH = 0.55  # of the type size, from dot to dot
WIDE = 1e9
WITHIN = 0.1  # what it costs to end a page within a group


@dataclass(frozen=True, slots=True)
class Reference:
    """A page number that leads to an anchor. words: said to who does not see where it leads."""

    label: str
    anchor: str
    words: str


@dataclass(frozen=True, slots=True)
class Listed:
    """A line of the list. references: none for a heading over the lines that follow. indent: points."""

    words: Paragraph
    references: tuple[Reference, ...] = ()
    indent: float = 0.0


@dataclass(frozen=True, slots=True)
class _Number:
    line: Line
    x: float
    row: int
    reference: Reference


def listing_slabs(entries: Sequence[Listed], style: Style, kind: str, to: Setting) -> list[Slab]:
    """The lines as slabs. style: of the page numbers. kind: the structure type, 'TOC' or 'Index'."""
    if not entries:
        return []
    parent = to.tree.add(kind, None)
    inside = parent if kind == "TOC" else to.tree.add("L", parent)
    found = [_slab(entry, style, inside, kind == "TOC", to) for entry in entries]
    _keep_groups(entries, found)
    return found


def _keep_groups(entries: Sequence[Listed], found: Sequence[Slab]) -> None:
    """No page ends within the first two lines under a heading or begins with the last; else rather between groups."""
    for first, head in enumerate(entries):
        if head.references:
            continue
        end = first + 1
        while end < len(entries) and entries[end].references and entries[end].indent > head.indent:
            end += 1
        for n in range(first, end - 1):
            found[n].stick = found[n].stick or n == first + 1 or n == end - 2
            found[n].cost = WITHIN


def _slab(entry: Listed, style: Style, parent: int, contents: bool, to: Setting) -> Slab:
    numbers = _numbers(entry.references, style, to)
    room = min((number.x for number in numbers), default=to.width) - entry.indent - (GAP if numbers else 0.0)
    words = to.lines(entry.words, max(room, to.width * 0.3))
    last = len(words) - 1
    item = to.tree.add("TOCI" if contents else "LI", parent)
    tags = _tags(entry, item, contents, to)
    spots = [Spot(entry.indent, (row + 1) * to.step, line, tags[0]) for row, line in enumerate(words)]
    begin = min((number.x for number in numbers if number.row == 0), default=0.0)
    spots += _dots(entry.indent + words[-1].width, begin, (last + 1) * to.step, style, to) if numbers else []
    for number, tag in zip(numbers, tags[1:], strict=True):
        spots.append(Spot(number.x, (last + 1 + number.row) * to.step, number.line, tag))
    height = last + 1 + max((number.row for number in numbers), default=0)
    spots += _areas(entry, numbers, tags[1:], height, last, to)
    heading = not entry.references
    return Slab(height, spots, before=entry.words.space_before, stick=heading)


def _tags(entry: Listed, item: int, contents: bool, to: Setting) -> list[int]:
    """The elements of the words and of each page number: one link for both where there is one number."""
    holder = item if contents else to.tree.add("LBody", item)
    if len(entry.references) == 1:
        link = to.tree.add("Link", to.tree.add("Reference", holder))
        return [link, link]
    words = to.tree.add("P", holder) if contents else holder
    return [words, *(to.tree.add("Link", to.tree.add("Reference", holder)) for _ in entry.references)]


def _numbers(references: Sequence[Reference], style: Style, to: Setting) -> list[_Number]:
    """The page numbers at the right, in several rows where they are many."""
    made = [_words(_separated(n, references), style, to) for n in range(len(references))]
    rows: list[list[int]] = [[]]
    space = 0.3 * style.size
    for n, line in enumerate(made):
        taken = sum(made[k].width + space for k in rows[-1])
        if rows[-1] and taken + line.width > NUMBERS * to.width:
            rows.append([])
        rows[-1].append(n)
    found = []
    for row, members in enumerate(rows):
        x = to.width - sum(made[n].width for n in members) - space * max(0, len(members) - 1)
        for n in members:
            found.append(_Number(made[n], x, row, references[n]))
            x += made[n].width + space
    return found


def _separated(number: int, references: Sequence[Reference]) -> str:
    return references[number].label + ("," if number + 1 < len(references) else "")


def _words(text: str, style: Style, to: Setting) -> Line:
    return lines(Paragraph((Run(text, style),)), WIDE, to.faces, "")[0]


def _dots(after: float, before: float, y: float, style: Style, to: Setting) -> list[Spot]:
    """Dots that stand under each other from line to line, as an artifact."""
    pitch = PITCH * style.size
    first = math.ceil((after + 0.4 * style.size) / pitch)
    count = math.floor((before - 0.4 * style.size) / pitch) - first
    if count < 2:
        return []
    dot = to.faces.shaped(style.face, ".")[0]
    adjust = (pitch * 1000 / style.size - dot.width,) * count
    piece = Piece(0.0, "." * count, dot.face, Style(style.face, style.size, max(style.ink, 0.35)), adjust)
    return [Spot(first * pitch, y, Line((piece,), count * pitch), Artifact.LAYOUT)]


def _areas(
    entry: Listed, numbers: Sequence[_Number], tags: Sequence[int], height: float, last: int, to: Setting
) -> list[Spot]:
    """Where a reader may touch: the whole line where it has one page number, else each number."""
    low = 0.25 * to.step
    if len(numbers) == 1:
        reference = numbers[0].reference
        whole = Area(to.width - entry.indent, height * to.step, f"#{reference.anchor}", reference.words)
        return [Spot(entry.indent, low, whole, tags[0])]
    return [
        Spot(n.x, (last + n.row) * to.step + low, Area(n.line.width, to.step, f"#{n.reference.anchor}",
                                                       n.reference.words), tag)
        for n, tag in zip(numbers, tags, strict=True)
    ]
