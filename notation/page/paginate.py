"""Pages: where each ends, chosen over the whole story, and the finished document."""
from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from notation.page.content import Running, Story
from notation.page.fault import LayoutError
from notation.page.flow import Setting, slabs
from notation.page.fonts import Faces
from notation.page.frame import Artifact, Document, Frame, Item, Metadata
from notation.page.running import running_line
from notation.page.slab import HANGING, Slab, placed
from notation.page.structure import Tree

LEAST_WIDTH = 10.0  # points
EDGE = 17.0  # points, 6 mm; what a printer may leave white at the edge of the paper
BELOW_HEAD = 0.5  # steps between repeated column heads and what follows


@dataclass(frozen=True, slots=True)
class _Way:
    """The best way to fill the pages up to a break: ties broken, pages, cost, and the break before."""

    broken: int
    pages: int
    cost: float
    before: int

    def key(self) -> tuple[int, int, float]:
        return self.broken, self.pages, self.cost


@dataclass(frozen=True, slots=True)
class Paged:
    """A story divided into pages, with nothing placed on them yet: enough to know how many there are."""

    story: Story
    setting: Setting
    pages: Sequence[Sequence[Slab]]

    @property
    def filled(self) -> float:
        """How many pages it would fill if none were left white at its foot."""
        return sum(map(pile_height, self.pages)) / self.setting.capacity


def set_story(story: Story, metadata: Metadata, faces: Faces) -> Document:
    """Set a story on pages.

    LayoutError where the page is smaller than a line of it, or its columns cannot stand side by side. Characters that
    no face has are noted in `faces.missing`.
    """
    return placed_on_pages(paged(story, faces), metadata)


def paged(story: Story, faces: Faces) -> Paged:
    """The story divided into pages. Errors and missing characters as in `set_story`."""
    setting = setting_of(story, faces)
    pile = slabs(story.flow, setting)
    pages = [pile[first:end] for first, end in page_breaks(pile, setting.capacity)] or [[]]
    return Paged(story, setting, pages)


def placed_on_pages(what: Paged, metadata: Metadata) -> Document:
    """Everything at its place on its page."""
    tree, count = what.setting.tree, len(what.pages)
    frames = tuple(
        _frame(what.story, what.setting.faces, page, number, count) for number, page in enumerate(what.pages, 1)
    )
    return Document(frames, metadata, tuple(tree.elements), tuple(tree.outline))


def setting_of(story: Story, faces: Faces) -> Setting:
    """What the story is set with, its structure tree still empty. Raises LayoutError."""
    margins = story.margins
    width = story.paper.width - margins.inner - margins.outer
    height = story.paper.height - margins.top - margins.bottom
    if story.step <= 0 or width < LEAST_WIDTH:
        raise LayoutError("the margins leave no room for words; take larger paper or smaller margins")
    capacity = math.floor((height / story.step - HANGING) * 2 + 0.001) / 2
    if capacity < 1:
        raise LayoutError("the page is lower than a single line; take larger paper, smaller margins or smaller type")
    return Setting(faces, Tree(), story.step, story.language, width, capacity)


def pile_height(pile: Sequence[Slab]) -> float:
    """Steps that the slabs of one page take, one under the other."""
    between = sum(space_between(one, two) for one, two in pairwise(pile))
    return between + sum(slab.height for slab in pile) + (_head_height(pile[0]) if pile else 0.0)


def space_between(one: Slab, two: Slab) -> float:
    """Steps between two slabs of a page."""
    return max(one.after, two.before)


def page_breaks(pile: Sequence[Slab], capacity: float) -> Iterator[tuple[int, int]]:
    """The pages as (first, end) of the pile. capacity: steps of a page.

    Nothing stuck together is parted if that can be; then the pages are as few as can be; then they are evenly filled
    and end between sections rather than within.
    """
    starts = [0, *(k for k, slab in enumerate(pile) if slab.new_page and k > 0), len(pile)]
    for first, end in zip(starts, starts[1:], strict=False):
        yield from ((first + one, first + two) for one, two in _run_breaks(pile[first:end], capacity))


def _run_breaks(pile: Sequence[Slab], capacity: float) -> list[tuple[int, int]]:
    best = [_Way(0, 0, 0.0, -1)]
    for end in range(1, len(pile) + 1):
        best.append(_best_page(pile, best, end, capacity))
    pages, end = [], len(pile)
    while end > 0:
        pages.append((best[end].before, end))
        end = best[end].before
    return pages[::-1]


def _best_page(pile: Sequence[Slab], best: Sequence[_Way], end: int, capacity: float) -> _Way:
    """The best way that has a page end before slab `end`."""
    last = pile[end - 1]
    broken = 1 if last.stick and end < len(pile) else 0
    cost = last.cost if end < len(pile) else 0.0
    found: _Way | None = None
    height = 0.0
    for first in range(end - 1, -1, -1):
        slab = pile[first]
        height += slab.height + (space_between(slab, pile[first + 1]) if first + 1 < end else 0.0)
        if height > capacity + 0.001 and found is not None:
            break
        full = height + _head_height(slab)
        if full > capacity + 0.001 and first + 1 < end:
            continue
        way, empty = best[first], (capacity - full) / capacity
        new = _Way(way.broken + broken, way.pages + 1, way.cost + cost + empty * empty, first)
        if found is None or new.key() < found.key():
            found = new
    assert found is not None
    return found


def _head_height(slab: Slab) -> float:
    """Steps that the repeated column heads take above a slab that begins a page."""
    return slab.head.height + BELOW_HEAD if slab.head else 0.0


def _frame(story: Story, faces: Faces, page: Sequence[Slab], number: int, count: int) -> Frame:
    left = _left(story, number)
    items = [*running_items(story, faces, story.head, left, (number, count), head=True)]
    items.extend(_page_items(page, left, story.margins.top, story.step))
    items.extend(running_items(story, faces, story.foot, left, (number, count), head=False))
    return Frame(story.paper.width, story.paper.height, tuple(items), str(number))


def _left(story: Story, number: int) -> float:
    """The left margin: the outer one on left-hand pages where margins are mirrored."""
    return story.margins.outer if story.margins.mirrored and number % 2 == 0 else story.margins.inner


def _page_items(page: Sequence[Slab], left: float, top: float, step: float) -> Iterator[Item]:
    down = 0.0
    if page and page[0].head:
        yield from placed(page[0].head.spots, left, top, Artifact.HEADER)
        down = _head_height(page[0])
    for number, slab in enumerate(page):
        down += space_between(page[number - 1], slab) if number else 0.0
        yield from placed(slab.spots, left, top + down * step, base=slab.base)
        down += slab.height


def running_items(
    story: Story, faces: Faces, running: Running | None, left: float, page: tuple[int, int], head: bool
) -> Iterator[Item]:
    """A running head or foot where it stands on a page. left: of the words, in points; page: its number of how many."""
    if running is None:
        return
    width = story.paper.width - story.margins.inner - story.margins.outer
    size = running.style.size
    if head:
        y, tag = max(size, story.margins.top - max(size, 0.8 * story.step)), Artifact.HEADER
    else:
        bottom = story.paper.height - story.margins.bottom
        lowest = max(story.paper.height - EDGE - 0.25 * size, bottom + size)
        y = min(bottom + 1.2 * story.step + size * 0.3, lowest, story.paper.height - 0.35 * size)
        tag = Artifact.FOOTER
    for spot in running_line(_filled(running, *page), width, tag, faces):
        yield from placed((spot,), left, y)


def _filled(running: Running, page: int, pages: int) -> Running:
    def fill(words: str) -> str:
        return words.replace("{page}", str(page)).replace("{pages}", str(pages))

    return replace(running, left=fill(running.left), middle=fill(running.middle), right=fill(running.right))
