"""What stands round the dances of a book: cover, contents, abbreviations, section pages, indexes, notes pages."""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from notation.dance.book import Book, IndexOf
from notation.dance.catalogue import sorting_title
from notation.dance.feet import Foot
from notation.dance.knowledge import Knowledge
from notation.dance.naming import capital
from notation.layout import Layout, Phrases
from notation.page.content import Align, Flow, Paper, Paragraph, Run, Running, Story, Style
from notation.page.flow import Setting, slabs, stacked
from notation.page.fonts import Faces
from notation.page.frame import Artifact, Frame, Item, Metadata, PlacedPicture, PlacedShape
from notation.page.listing import Listed, Reference, listing_slabs
from notation.page.paginate import Paged, page_breaks, placed_on_pages, setting_of
from notation.page.parts import Part
from notation.page.path import Path
from notation.page.raster import read_picture
from notation.page.slab import Slab, placed
from notation.page.units import points
from notation.plane import Point, Rect
from notation.sheet.booked import BookedDance, print_of
from notation.sheet.footprint import placed_sole
from notation.sheet.key import keys
from notation.sheet.pagewords import BookWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.script import margins_of, printed_words
from notation.sheet.speakers import printed_phrases, speaker
from notation.sheet.style import Styles, paragraph, styles

RULING = points(8)
INDENT = 1.2  # of the type size
COVER_TITLE = 0.078  # of the paper's width
ORNAMENT = 0.11  # of the paper's height: length of a foot on a cover without a picture
TURN_OUT = 30.0  # degrees of a foot on the cover


@dataclass(frozen=True, slots=True)
class Setup:
    """What a book is set with. layout: its `book_layout`; story: an empty one with the book's page and step."""

    book: Book
    layout: Layout
    paper: Paper
    knowledge: Knowledge
    faces: Faces
    styles: Styles
    story: Story
    phrases: Phrases
    says: BookWords

    def index_head(self, which: IndexOf) -> str:
        """The heading of an index."""
        return str(getattr(self.phrases, f"index_{which.value}"))


def setup(book: Book, layout: Layout, paper: Paper, knowledge: Knowledge, faces: Faces) -> Setup:
    """The styles and the page of a book. layout: a `book_layout`."""
    sizes = layout.sizes_on(paper.name)
    made = styles(layout, sizes.most, sizes.leading)
    words = printed_words(knowledge, layout)
    story = Story(paper, margins_of(layout), made.step, (), Running(style=made.running), None, words.tag)
    phrases, says = printed_phrases(words, layout.phrases), page_words(words, BookWords)
    return Setup(book, layout, paper, knowledge, faces, made, story, phrases, says)


@dataclass(frozen=True, slots=True)
class Target:
    """What a line of contents or an index leads to. page: its number, from 1."""

    anchor: str
    page: int

    def reference(self, words: str, to: Setup) -> Reference:
        return Reference(str(self.page), self.anchor, filled(to.phrases.page_reference, words=words, page=self.page))


def head_line(words: str, to: Setup) -> Paragraph:
    title = to.styles.title
    return Paragraph((Run(words, replace(title, size=0.85 * title.size)),), kind="H1", space_after=1.0)


def _listed_pages(words: str, entries: Sequence[Listed], kind: str, to: Setup) -> Paged:
    setting = setting_of(to.story, to.faces)
    pile = [*slabs((head_line(words, to),), setting), *listing_slabs(entries, to.styles.body, kind, setting)]
    return Paged(to.story, setting, [pile[one:two] for one, two in page_breaks(pile, setting.capacity)])


def _dance_words(dance: BookedDance, to: Setup, beside: str) -> Paragraph:
    runs = [Run(dance.title, to.styles.body)]
    runs += [Run(f" \u00b7 {beside}", replace(to.styles.small, ink=to.styles.label.ink))] if beside else []
    return Paragraph(tuple(runs))


def _dance_line(dance: BookedDance, target: Target, beside: str, indent: float, to: Setup) -> Listed:
    return Listed(_dance_words(dance, to, beside), (target.reference(dance.title, to),), indent)


def contents_pages(
    sections: Sequence[tuple[str, Sequence[int]]], dances: Sequence[BookedDance], targets: Sequence[Target],
    others: Sequence[tuple[str, Target]], to: Setup,
) -> Paged:  # fmt: skip
    """The contents. sections: name and numbers of their dances; others: what stands before and after the dances."""
    indent, begin = INDENT * to.styles.body.size, min((target.page for target in targets), default=0)
    entries = list(_other_lines([other for other in others if other[1].page < begin], to))
    for name, members in sections:
        if name:
            entries.append(Listed(_strong(name, to)))
        for k in members:
            beside = ", ".join(dances[k].arrangers)
            entries.append(_dance_line(dances[k], targets[k], beside, indent if name else 0.0, to))
    entries += _other_lines([other for other in others if other[1].page >= begin], to)
    return _listed_pages(to.phrases.contents, entries, "TOC", to)


def _other_lines(others: Sequence[tuple[str, Target]], to: Setup) -> Iterator[Listed]:
    for number, (name, target) in enumerate(others):
        words = paragraph(name, to.styles.body, before=0.5 if number == 0 else 0.0)
        yield Listed(words, (target.reference(name, to),))


def _strong(words: str, to: Setup) -> Paragraph:
    return paragraph(words, to.styles.strong, before=0.5)


def index_pages(
    dances: Sequence[BookedDance], targets: Sequence[Target], to: Setup
) -> tuple[Paged, tuple[tuple[IndexOf, int], ...]]:
    """The indexes of the book, one after the other, and the page among theirs, from 0, on which each begins."""
    setting = setting_of(to.story, to.faces)
    pile: list[Slab] = []
    heads: list[tuple[IndexOf, int]] = []
    for which in to.book.indexes:
        heads.append((which, len(pile)))
        head = slabs((head_line(to.index_head(which), to),), setting)
        head[0].before = 2.0
        pile += [*head, *listing_slabs(INDEXES[which](dances, targets, to), to.styles.body, "Index", setting)]
    breaks = list(page_breaks(pile, setting.capacity))
    begins = tuple((which, next(n for n, (_, end) in enumerate(breaks) if slab < end)) for which, slab in heads)
    return Paged(to.story, setting, [pile[one:two] for one, two in breaks]), begins


def _by_title(numbers: Iterable[int], dances: Sequence[BookedDance]) -> list[int]:
    return sorted(numbers, key=lambda k: (sorting_title(dances[k].title), k))


def _titles(dances: Sequence[BookedDance], targets: Sequence[Target], to: Setup) -> list[Listed]:
    order = _by_title(range(len(dances)), dances)
    return [_dance_line(dances[k], targets[k], dances[k].rhythm, 0.0, to) for k in order]


def _under_heads(
    heads: Sequence[tuple[str, Sequence[int]]], dances: Sequence[BookedDance], targets: Sequence[Target], to: Setup
) -> list[Listed]:
    lines = []
    for name, members in heads:
        lines.append(Listed(_strong(name, to)))
        indent = INDENT * to.styles.body.size
        lines += [_dance_line(dances[k], targets[k], "", indent, to) for k in _by_title(members, dances)]
    return lines


def surname_first(name: str) -> tuple[str, str]:
    """What a person's name is sorted by: the last word, then all of it."""
    plain = sorting_title(name)
    return plain.split(" ")[-1], plain


def _arrangers(dances: Sequence[BookedDance], targets: Sequence[Target], to: Setup) -> list[Listed]:
    found: dict[str, list[int]] = {}
    for k, dance in enumerate(dances):
        for name in dict.fromkeys(dance.arrangers):
            found.setdefault(name, []).append(k)
    heads = sorted(found.items(), key=lambda item: surname_first(item[0]))
    return _under_heads(heads, dances, targets, to)


def rhythm_sections(dances: Sequence[BookedDance], to: Setup) -> list[tuple[str, list[int]]]:
    """Name and dances of each rhythm, in the order of the table of rhythms, others after them by name."""
    found: dict[tuple[int, str], list[int]] = {}
    for k, dance in enumerate(dances):
        found.setdefault((dance.rank, dance.rhythm), []).append(k)
    return [(capital(name) or to.says.other_dances, members) for (_, name), members in sorted(found.items())]


def _rhythms(dances: Sequence[BookedDance], targets: Sequence[Target], to: Setup) -> list[Listed]:
    heads = sorted(rhythm_sections(dances, to), key=lambda item: sorting_title(item[0]))
    return _under_heads(heads, dances, targets, to)


def _figures(dances: Sequence[BookedDance], targets: Sequence[Target], to: Setup) -> list[Listed]:
    found: dict[str, tuple[str, list[int]]] = {}
    for k, dance in enumerate(dances):
        for name in dance.figures:
            found.setdefault(sorting_title(name), (capital(name), []))[1].append(k)
    lines = []
    for _, (name, members) in sorted(found.items()):
        pages = {targets[k].page: k for k in sorted(members, key=lambda k: targets[k].page, reverse=True)}
        led = tuple(
            targets[k].reference(f"{name}, {dances[k].title}", to) for _, k in sorted(pages.items())
        )
        lines.append(Listed(paragraph(name, to.styles.body), led))
    return lines


INDEXES = {IndexOf.TITLE: _titles, IndexOf.ARRANGER: _arrangers, IndexOf.RHYTHM: _rhythms, IndexOf.FIGURE: _figures}


def abbreviation_pages(dances: Sequence[BookedDance], to: Setup) -> Paged | None:
    """The key to all the short words and footprints of the book, and to no others; None where there are none."""
    says = speaker(printed_words(to.knowledge, to.layout), to.layout.wording, to.layout.phrases)
    used = dict.fromkeys(word for dance in dances for word in dance.words)
    says.used.update({name: says.words[name] for name in sorted(used) if name in says.words})
    signs = {sign for dance in dances for sign in dance.prints}
    flow: tuple[Flow, ...] = tuple(keys(map(print_of, sorted(signs)), says, to.styles))
    if not flow:
        return None
    setting = setting_of(to.story, to.faces)
    pile = slabs((head_line(to.phrases.abbreviations, to), *flow), setting)
    return Paged(to.story, setting, [pile[one:two] for one, two in page_breaks(pile, setting.capacity)])


def pages_of(what: Paged) -> Part:
    """The pages as a part of the book, without running lines."""
    document = placed_on_pages(replace(what, story=replace(what.story, foot=Running())), Metadata(""))
    return Part(document.pages, document.elements)


def _centred(words: str, style: Style, y: float, kind: str, to: Setup, on: Setting) -> tuple[list[Item], float]:
    """Words in the middle of the page, and where they end."""
    steps = 1.15 * style.size / on.step
    text = Paragraph((Run(words, style),), Align.CENTRE, kind, line_steps=steps)
    stack = stacked(text, 0.0, on.width, on.tree.add(kind, None), on)
    left = (to.paper.width - on.width) / 2
    return list(placed(stack.spots, left, y)), y + stack.height * on.step


def cover(to: Setup, picture: bytes | None) -> Part:
    """The cover. Raises PictureError where the picture cannot be used."""
    on, size = setting_of(to.story, to.faces), COVER_TITLE * min(to.paper.width, to.paper.height)
    faces, high = to.layout.faces, to.paper.height
    items, y = _centred(to.book.title, Style(faces.semibold, size), 0.14 * high, "H1", to, on)
    if to.book.season:
        words, y = _centred(to.book.season, Style(faces.regular, 0.5 * size), y + 0.3 * size, "P", to, on)
        items += words
    club: list[Item] = []
    top = 0.88 * high
    if to.book.club:
        club, _ = _centred(to.book.club, Style(faces.regular, 0.5 * size), top, "P", to, on)
    box = Rect(0.14 * to.paper.width, y + 0.8 * size, 0.86 * to.paper.width, top - 0.6 * size)
    items += [_picture(picture, box, to, on)] if picture is not None else _ornament(box, high)
    return Part((Frame(to.paper.width, high, (*items, *club), "cover"),), tuple(on.tree.elements))


def _picture(data: bytes, room: Rect, to: Setup, on: Setting) -> PlacedPicture:
    """The picture as large as fits, in the middle of the room."""
    raster = read_picture(data)
    scale = min(room.width / raster.width, room.height / raster.height)
    wide, tall = raster.width * scale, raster.height * scale
    x, y = room.centre.x - wide / 2, room.centre.y - tall / 2
    words = to.book.picture_words
    tag = on.tree.add("Figure", None, alt=words) if words else Artifact.LAYOUT
    return PlacedPicture(Rect(x, y, x + wide, y + tall), data, tag)


def _ornament(room: Rect, high: float) -> list[Item]:
    """Two feet in third position, as a cover without a picture has them."""
    length, at = ORNAMENT * high, room.centre
    left, _ = placed_sole(Foot.LEFT, length, TURN_OUT, Point(at.x - 0.16 * length, at.y - 0.22 * length))
    right, _ = placed_sole(Foot.RIGHT, length, -TURN_OUT, Point(at.x + 0.24 * length, at.y + 0.12 * length))
    return [PlacedShape(left, Artifact.LAYOUT, fill=0.0),
            PlacedShape(right, Artifact.LAYOUT, fill=1.0, stroke=0.0, line_width=1.4)]


def section_page(name: str, number: int, to: Setup) -> Part:
    """A page with the name of the section that follows."""
    on = setting_of(to.story, to.faces)
    items, _ = _centred(name, to.styles.title, 0.3 * to.paper.height, "H1", to, on)
    return Part((Frame(to.paper.width, to.paper.height, tuple(items), str(number)),), tuple(on.tree.elements))


def notes_page(first: bool, number: int, to: Setup) -> Part:
    """A ruled page to write on; the first has a heading."""
    on, margins = setting_of(to.story, to.faces), to.story.margins
    items: list[Item] = []
    if first:
        line = stacked(head_line(to.phrases.notes_heading, to), 0.0, on.width, on.tree.add("H1", None), on)
        items += placed(line.spots, margins.inner, margins.top)
    items += _rules(margins.inner, margins.top + 2 * RULING, to.paper.height - margins.bottom, on.width)
    return Part((Frame(to.paper.width, to.paper.height, tuple(items), str(number)),), tuple(on.tree.elements))


def _rules(x: float, top: float, bottom: float, width: float) -> Iterator[PlacedShape]:
    rule = Path.line(Point(0.0, 0.0), Point(width, 0.0))
    for number in range(int((bottom - top) / RULING) + 1):
        yield PlacedShape(rule, Artifact.LAYOUT, stroke=0.5, line_width=0.4, dx=x, dy=top + number * RULING)


def blank_page(number: int, to: Setup) -> Part:
    return Part((Frame(to.paper.width, to.paper.height, (), str(number)),))
