"""A book of dances as pages, part by part, so that only one part need be held."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from notation.page.content import Running
from notation.page.frame import (
    Anchor,
    Artifact,
    Attachment,
    Element,
    Frame,
    Item,
    Metadata,
    PlacedLink,
    PlacedPicture,
    PlacedShape,
    PlacedText,
    Tag,
)
from notation.page.packed import unpack
from notation.page.paginate import running_items
from notation.page.parts import Part, Prospect
from notation.page.path import Path
from notation.plane import Point, Rect
from notation.sheet.bookfront import blank_page, cover, notes_page, pages_of, section_page
from notation.sheet.bookplan import BETWEEN, Plan, Section, Standing, landmarks, notes_pages
from notation.sheet.phrasing import filled


def prospect(plan: Plan, attachments: tuple[Attachment, ...] = (), picture: bytes | None = None) -> Prospect:
    """What is known of the book before its pages. picture: of the cover. Raises PictureError."""
    high = plan.setup.paper.height
    above, outline = landmarks(plan)
    places = {name: (page, Point(at.x, high - at.y)) for name, (page, at) in above.items()}
    elements = sum(dance.elements + 1 for dance in plan.dances)
    elements += sum(len(part.elements) for part in _own_parts(plan, picture))
    return Prospect(_metadata(plan), plan.pages, elements, places, tuple(outline), attachments)


def _metadata(plan: Plan) -> Metadata:
    book, number = plan.setup.book, len(plan.dances)
    says = plan.setup.says
    words = filled(says.dance if number == 1 else says.dances, number=number)
    title = ", ".join(filter(None, (book.title, book.season)))
    return Metadata(title, author=book.club, subject=words, keywords=tuple(says.keywords.split(", ")),
                    language=plan.setup.story.language)


def _own_parts(plan: Plan, picture: bytes | None) -> Iterator[Part]:
    """The parts besides the dances."""
    yield from _front(plan, picture)
    yield from (section_page(s.name, s.page, plan.setup) for s in plan.sections if s.page is not None)
    yield from _back(plan)


def _front(plan: Plan, picture: bytes | None) -> Iterator[Part]:
    to = plan.setup
    if to.book.cover:
        yield cover(to, picture)
    for made in (plan.contents, plan.abbreviations):
        if made is not None:
            yield pages_of(made)


def _back(plan: Plan) -> Iterator[Part]:
    to, page = plan.setup, plan.after_indexes
    if plan.indexes is not None:
        yield pages_of(plan.indexes)
    notes = notes_pages(plan)
    yield from (notes_page(n == 0, page + n + 1, to) for n in range(notes))
    yield from (blank_page(number, to) for number in range(page + notes + 1, plan.pages + 1))


def parts(plan: Plan, picture: bytes | None = None) -> Iterator[Part]:
    """The book, part by part: a dance and those that share its pages, or what stands before and after them. Raises
    PictureError for a picture that cannot be used, PackError."""
    page = 0
    for part, section, titles, plain in _raw_parts(plan, picture):
        framed = []
        for frame, foot in zip(part.pages, titles, strict=True):
            framed.append(frame if plain else _finished(frame, page + 1, section, foot, plan))
            page += 1
        yield Part(tuple(framed), part.elements)


Raw = tuple[Part, str, Sequence[str], bool]
"""A part, the section for its running heads, the words for the foot of each page, whether it has no running lines."""


def _raw_parts(plan: Plan, picture: bytes | None) -> Iterator[Raw]:
    for number, part in enumerate(_front(plan, picture)):
        covers = plan.setup.book.cover and number == 0
        yield part, "", [""] * len(part.pages), covers
    for section in plan.sections:
        if section.page is not None:
            yield section_page(section.name, section.page + 1, plan.setup), "", [""], True
        yield from (_bundle(plan, members, section.name) for members in _bundles(plan, section))
    for part in _back(plan):
        yield part, "", [""] * len(part.pages), not any(frame.items for frame in part.pages)


def _bundles(plan: Plan, section: Section) -> Iterator[list[Standing]]:
    """Dances that share pages."""
    members: list[Standing] = []
    for one in section.dances:
        if members and not one.down:
            yield members
            members = []
        members.append(one)
    if members:
        yield members


def _bundle(plan: Plan, members: Sequence[Standing], section: str) -> Raw:
    """The pages of dances that share some."""
    first = members[0].page
    items: list[list[Item]] = []
    titles: list[list[str]] = []
    elements: list[Element] = []
    depth = int(plan.setup.book.section_pages and bool(section))
    for one in members:
        dance = plan.dances[one.dance]
        frames, own = unpack(dance.body)
        elements += _nested(own, len(elements), depth)
        for number, frame in enumerate(frames, one.page - first):
            if number == len(items):
                items.append([])
                titles.append([])
            elif one.down:
                items[number].append(_parting(plan, one))
            items[number] += (_shifted(item, 0.0, one.down, len(elements) - len(own)) for item in frame.items)
            titles[number].append(dance.title)
    paper = plan.setup.paper
    pages = tuple(Frame(paper.width, paper.height, tuple(drawn)) for drawn in items)
    return Part(pages, tuple(elements)), section, [" \u00b7 ".join(names) for names in titles], False


def _nested(elements: Sequence[Element], before: int, depth: int) -> Iterator[Element]:
    """The elements of a dance under one of their own, headings deeper where the section has a heading."""
    top = before + 1
    yield Element(top, "Sect", None)
    for one in elements:
        kind = f"H{int(one.kind[1]) + depth}" if one.kind[:1] == "H" and one.kind[1:].isdecimal() else one.kind
        parent = top if one.parent is None else one.parent + top
        yield replace(one, key=one.key + top, parent=parent, kind=kind)


def _parting(plan: Plan, one: Standing) -> PlacedShape:
    """The hairline between two dances on one page."""
    story = plan.setup.story
    y = story.margins.top + one.down - BETWEEN / 2 * story.step
    width = story.paper.width - story.margins.inner - story.margins.outer
    rule = Path.line(Point(0.0, 0.0), Point(width, 0.0))
    return PlacedShape(rule, Artifact.LAYOUT, stroke=0.0, line_width=0.5, dx=story.margins.inner, dy=y)


def _shifted(item: Item, dx: float, dy: float, keys: int) -> Item:
    """An item moved by points, its element's key by a number."""
    match item:
        case PlacedText():
            return replace(item, x=item.x + dx, y=item.y + dy, tag=_later(item.tag, keys))
        case PlacedShape():
            return replace(item, dx=item.dx + dx, dy=item.dy + dy, tag=_later(item.tag, keys))
        case Anchor():
            return replace(item, at=Point(item.at.x + dx, item.at.y + dy))
        case PlacedLink() | PlacedPicture():
            box = Rect(item.box.x0 + dx, item.box.y0 + dy, item.box.x1 + dx, item.box.y1 + dy)
            return replace(item, box=box, tag=_later(item.tag, keys))


def _later(tag: Tag, keys: int) -> Tag:
    return tag if isinstance(tag, Artifact) else tag + keys


def _finished(frame: Frame, number: int, section: str, foot: str, plan: Plan) -> Frame:
    """A page with its running lines, on the side of the fold where it belongs. Even pages are at the left."""
    story, faces = plan.setup.story, plan.setup.faces
    margins, left = story.margins, number % 2 == 0
    dx = margins.outer - margins.inner if left else 0.0
    at, style = margins.inner + dx, plan.setup.styles.running
    head, low = _outside(section, plan.setup.book.title, left), _outside(str(number), foot, left)
    above = running_items(story, faces, replace(head, style=style), at, (number, plan.pages), head=True)
    below = running_items(story, faces, replace(low, style=style), at, (number, plan.pages), head=False)
    inside = (_shifted(item, dx, 0.0, 0) for item in frame.items) if dx else frame.items
    return Frame(frame.width, frame.height, (*above, *inside, *below), str(number))


def _outside(outer: str, inner: str, left: bool) -> Running:
    """A running line with one text at the outer edge, the other at the fold."""
    return Running(outer, "", inner) if left else Running(inner, "", outer)
