"""One dance set for a book: its pages without running lines, and what the book must know of it."""
from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace

from notation.dance.catalogue import figures_of
from notation.dance.feet import Foot
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Said
from notation.dance.script import Dance, Worked
from notation.layout import Borders, Layout
from notation.page.content import Paper, Running
from notation.page.fonts import Faces
from notation.page.frame import Metadata
from notation.page.packed import PackError, pack
from notation.page.paginate import Paged, paged, pile_height, placed_on_pages
from notation.sheet import Sheet, fitted, speaker_of, stories
from notation.sheet.called import by_name, repeats_as_instruction
from notation.sheet.footprint import Bearing, Footprint, Movement
from notation.sheet.rows import Diagrams, all_facings, parts_of
from notation.sheet.sole import Part
from notation.sheet.tracks import footprint_of
from notation.sheet.wording import Speaker

INWARDS = 2.0
"""Millimetres that the inner margin of a book is wider, and the outer one narrower, than those of a sheet."""
LEAST_OUTER = 12.0  # millimetres, for printers
FIRST = b"lodestep booked dance 1"

PrintSign = tuple[str, str, str, str, bool]
"""Foot, part, bearing, movement of a footprint, and whether it turns: what the key of a book explains."""


@dataclass(frozen=True, slots=True)
class BookedDance:
    """A dance set for a book.

    rank: the place of its rhythm in the table, large for one that is not there. figures: for the index. pages: how
    many; height: points that the last one is filled, from the top margin. elements: how many. words: name and kind of
    the short words used. prints: the kinds of footprint. body: the pages, packed.
    """

    title: str
    arrangers: tuple[str, ...]
    rhythm: str
    rank: int
    figures: tuple[str, ...]
    pages: int
    height: float
    elements: int
    words: tuple[tuple[str, str], ...]
    prints: tuple[PrintSign, ...]
    body: bytes


def book_layout(layout: Layout, with_key: bool) -> Layout:
    """The layout with a book's margins. with_key: every dance keeps its own key, for a book without a common one."""
    borders = layout.borders
    moved = max(0.0, min(INWARDS, borders.outer - LEAST_OUTER))
    bound = Borders(borders.top, borders.bottom, borders.inner + moved, borders.outer - moved)
    return replace(layout, borders=bound, shows=replace(layout.shows, key=layout.shows.key and with_key))


def book_dance(
    worked: Worked, knowledge: Knowledge, layout: Layout, paper: Paper, faces: Faces, diagrams: Diagrams | None = None
) -> BookedDance:
    """Set a dance for a book. layout: a `book_layout`. Errors and missing characters as of `set_sheet`."""
    sheet = Sheet(worked, knowledge, layout, paper, faces, diagrams)
    says = speaker_of(sheet)
    story = stories(sheet, says)

    def at(size: float, space: float) -> Paged:
        return paged(replace(story(size, space), foot=Running(), head=None), faces)

    made, _ = fitted(at, sheet.bounds.least, sheet.bounds.most, layout.pages)
    document = placed_on_pages(made, Metadata(worked.dance.title))
    return BookedDance(
        worked.dance.title, worked.dance.arrangers if layout.shows.arranger else (), _rhythm(worked.dance, says),
        _rank(worked.dance, knowledge), figures_of(worked), len(document.pages),
        round(pile_height(made.pages[-1]) * made.story.step, 2), len(document.elements), tuple(says.used),
        tuple(sorted(set(_prints(worked, layout)))), pack(document.pages, document.elements),
    )  # fmt: skip


def _rhythm(dance: Dance, says: Speaker) -> str:
    """By the name of its row, so that 'two step' and 'two-step' are one section."""
    if dance.rhythm is None:
        return says.name(dance.rhythm_said, "rhythm")
    return says.name(Said(dance.rhythm.name), "rhythm")


def _rank(dance: Dance, knowledge: Knowledge) -> int:
    names = [row.name for row in knowledge.rhythms]
    return names.index(dance.rhythm.name) if dance.rhythm and dance.rhythm.name in names else len(names)


def _prints(worked: Worked, layout: Layout) -> Iterator[PrintSign]:
    """The kinds of footprint in the rows of the sheet."""
    parts = parts_of(layout) if layout.shows.glyphs else ()
    facing = all_facings(worked, parts)
    for passage in worked.passages:
        repeated = passage.written.repeat is not None and repeats_as_instruction(layout)
        if repeated or by_name(passage, layout):
            continue
        for part in parts:
            for danced in passage.part(part):
                shown = footprint_of(danced.step, facing[part][danced.bar, danced.beat], worked.dance.feet)
                if shown is not None:
                    yield _sign(shown)


def _sign(shown: Footprint) -> PrintSign:
    return shown.foot.value, shown.part.value, shown.bearing.value, shown.movement.value, shown.turn != 0


def print_of(sign: PrintSign) -> Footprint:
    """A footprint of that kind, for the key."""
    foot, part, bearing, movement, turns = sign
    return Footprint(Foot(foot), part=Part(part), bearing=Bearing(bearing), movement=Movement(movement),
                     turn=2 if turns else 0)


def to_bytes(dance: BookedDance) -> bytes:
    """The dance as bytes, for another process or a file."""
    head = {key: value for key, value in asdict(dance).items() if key != "body"}
    return b"\n".join((FIRST, json.dumps(head, ensure_ascii=False).encode(), dance.body))


def from_bytes(data: bytes) -> BookedDance:
    """The dance again. Raises PackError."""
    try:
        first, head, body = data.split(b"\n", 2)
        said = json.loads(head)
        words = tuple((str(name), str(kind)) for name, kind in said["words"])
        prints = tuple((str(f), str(p), str(b), str(m), bool(t)) for f, p, b, m, t in said["prints"])
        made = BookedDance(
            str(said["title"]), _texts(said["arrangers"]), str(said["rhythm"]), int(said["rank"]),
            _texts(said["figures"]), int(said["pages"]), float(said["height"]), int(said["elements"]), words, prints,
            body,
        )  # fmt: skip
    except (ValueError, KeyError, TypeError, RecursionError) as fault:
        raise PackError("this is no booked dance") from fault
    if first != FIRST:
        raise PackError("this is no booked dance of this version")
    return made


def _texts(said: list[object]) -> tuple[str, ...]:
    return tuple(map(str, said))
