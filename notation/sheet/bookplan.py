"""Where everything of a book stands: the pages of its dances, of contents and indexes, of what fills the last sheet."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from notation.dance.book import Book, FillWith, IndexOf, Order
from notation.dance.catalogue import sorting_title
from notation.page.frame import OutlineEntry
from notation.page.paginate import Paged
from notation.plane import Point
from notation.sheet.booked import BookedDance
from notation.sheet.bookfront import (
    Setup,
    Target,
    abbreviation_pages,
    contents_pages,
    index_pages,
    rhythm_sections,
    surname_first,
)

BETWEEN = 3.0  # baseline steps between two dances on one page
TRIES = 6


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a dance stands. dance: its number; page: of its first page, from 0, first in the body, then in the book;
    down: points that it begins below the top margin."""

    dance: int
    page: int
    down: float


@dataclass(frozen=True, slots=True)
class Section:
    """Dances under one name, which may be empty. page: of its section page, None where it has none."""

    name: str
    dances: tuple[Standing, ...]
    page: int | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """A book in which everything has its page. begins: the page among those of the indexes on which each begins; first:
    the page on which the body begins; all from 0. body, pages: how many the dances and the whole take."""

    setup: Setup
    dances: tuple[BookedDance, ...]
    sections: tuple[Section, ...]
    contents: Paged | None
    abbreviations: Paged | None
    indexes: Paged | None
    begins: tuple[tuple[IndexOf, int], ...]
    first: int
    body: int
    pages: int

    @property
    def contents_page(self) -> int:
        return int(self.setup.book.cover)

    @property
    def after_body(self) -> int:
        return self.first + self.body

    @property
    def after_indexes(self) -> int:
        return self.after_body + (len(self.indexes.pages) if self.indexes else 0)


def in_book_order(book: Book, dances: Sequence[BookedDance]) -> list[BookedDance]:
    """The dances as the book orders them."""
    if book.order is Order.RHYTHM:
        return sorted(dances, key=lambda d: (d.rank, d.rhythm, sorting_title(d.title)))
    if book.order is Order.ARRANGER:
        return sorted(dances, key=lambda d: (*surname_first(next(iter(d.arrangers), "")), sorting_title(d.title)))
    return sorted(dances, key=lambda d: sorting_title(d.title)) if book.order is Order.TITLE else list(dances)


def planned(to: Setup, dances: Sequence[BookedDance]) -> Plan:
    """Everything of the book in its place. dances: in their order."""
    sections, body = _body(to, dances)
    abbreviations = abbreviation_pages(dances, to) if to.book.abbreviations else None
    before = int(to.book.cover) + (len(abbreviations.pages) if abbreviations else 0)
    reserved = int(to.book.contents)
    for _ in range(TRIES):
        plan = _with_contents(to, dances, sections, abbreviations, before + reserved, body)
        needed = len(plan.contents.pages) if plan.contents else 0
        if needed == reserved:
            break
        reserved = needed
    return plan


def _with_contents(
    to: Setup, dances: Sequence[BookedDance], sections: Sequence[Section], abbreviations: Paged | None, first: int,
    body: int,
) -> Plan:  # fmt: skip
    """The plan where the body begins on that page."""
    moved = tuple(_moved(section, first) for section in sections)
    stands = {standing.dance: standing.page for section in moved for standing in section.dances}
    targets = [Target(dance_anchor(k), stands[k] + 1) for k in range(len(dances))]
    indexes, begins = index_pages(dances, targets, to) if to.book.indexes else (None, ())
    others, after = [], first + body + (len(indexes.pages) if indexes else 0)
    if abbreviations is not None:
        others.append((to.phrases.abbreviations, Target("abbreviations", first - len(abbreviations.pages) + 1)))
    for which, page in begins:
        others.append((to.index_head(which), Target(f"index-{which.value}", first + body + page + 1)))
    listed = [(section.name, [s.dance for s in section.dances]) for section in moved]
    contents = contents_pages(listed, dances, targets, others, to) if to.book.contents else None
    pages = _filled(to.book, after)
    return Plan(to, tuple(dances), moved, contents, abbreviations, indexes, begins, first, body, pages)


def _filled(book: Book, pages: int) -> int:
    """The number of pages with notes pages and those that fill the last sheet."""
    pages += book.notes_pages
    return pages + -pages % book.fill


def _moved(section: Section, by: int) -> Section:
    dances = tuple(replace(standing, page=standing.page + by) for standing in section.dances)
    return replace(section, dances=dances, page=None if section.page is None else section.page + by)


def dance_anchor(number: int) -> str:
    return f"dance-{number + 1}"


def _body(to: Setup, dances: Sequence[BookedDance]) -> tuple[list[Section], int]:
    """The sections with the pages of their dances, counted from the first page of the body; and how many pages."""
    if to.book.order is not Order.RHYTHM:
        standings, pages = _stood(to, dances, range(len(dances)), 0)
        return [Section("", tuple(standings))], pages
    found, page = [], 0
    for name, members in rhythm_sections(dances, to):
        own = page if to.book.section_pages else None
        standings, page = _stood(to, dances, members, page + int(to.book.section_pages))
        found.append(Section(name, tuple(standings), own))
    return found, page


def _stood(
    to: Setup, dances: Sequence[BookedDance], members: Sequence[int], page: int
) -> tuple[list[Standing], int]:
    """Dances one after the other from a page on, and the page after them. Where the book runs them together, a dance
    that fits whole into the rest of a page stands there."""
    room, gap = _room(to), BETWEEN * to.story.step
    found: list[Standing] = []
    taken = room
    for k in members:
        dance = dances[k]
        down = taken + gap
        if to.book.run_together and found and dance.pages == 1 and down + dance.height <= room + 0.01:
            found.append(Standing(k, page - 1, down))
            taken = down + dance.height
        else:
            found.append(Standing(k, page, 0.0))
            page += dance.pages
            taken = dance.height
    return found, page


def _room(to: Setup) -> float:
    """Points from the upper margin to the lower one."""
    return to.paper.height - to.story.margins.top - to.story.margins.bottom


def landmarks(plan: Plan) -> tuple[dict[str, tuple[int, Point]], list[OutlineEntry]]:
    """The places that links and the outline lead to."""
    places: dict[str, tuple[int, Point]] = {}
    outline: list[OutlineEntry] = []

    def mark(words: str, level: int, anchor: str, page: int, y: float = 0.0) -> None:
        places[anchor] = (page, Point(0.0, y))
        outline.append(OutlineEntry(words, level, anchor))

    if plan.setup.book.cover:
        mark(plan.setup.book.title, 0, "cover", 0)
    if plan.contents is not None:
        mark(plan.setup.phrases.contents, 0, "contents", plan.contents_page)
    if plan.abbreviations is not None:
        mark(plan.setup.phrases.abbreviations, 0, "abbreviations", plan.first - len(plan.abbreviations.pages))
    for number, section in enumerate(plan.sections, 1):
        if section.name:
            mark(section.name, 0, f"section-{number}", section.dances[0].page if section.page is None else section.page)
        for one in section.dances:
            top = plan.setup.story.margins.top + one.down if one.down else 0.0
            mark(plan.dances[one.dance].title, int(bool(section.name)), dance_anchor(one.dance), one.page, top)
    for which, page in plan.begins:
        mark(plan.setup.index_head(which), 0, f"index-{which.value}", plan.after_body + page)
    if notes_pages(plan):
        mark(plan.setup.phrases.notes_heading, 0, "notes", plan.after_indexes)
    return places, outline


def notes_pages(plan: Plan) -> int:
    """How many notes pages there are."""
    rest = plan.pages - plan.after_indexes
    return rest if plan.setup.book.fill_with is FillWith.NOTES else plan.setup.book.notes_pages
