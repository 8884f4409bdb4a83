"""The programme of an evening on one page, in type that an older reader can read standing."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from notation.dance.programme import Timed, Timetable, clock_words, span_words
from notation.dance.running import number_words
from notation.page.content import (
    Align,
    Block,
    Cell,
    Column,
    Flow,
    Margins,
    Paper,
    Paragraph,
    Row,
    Run,
    Running,
    Section,
    Story,
    Style,
    Table,
)
from notation.page.fonts import Faces
from notation.page.frame import Attachment, Document, Metadata
from notation.page.paginate import set_story
from notation.page.units import points

REGULAR, SEMIBOLD, ITALIC = "SourceSans3-Regular", "SourceSans3-SemiBold", "SourceSans3-Italic"
LEAST, USUAL, MOST = 12, 14, 20
"""Points. 12 is the least and 14 the usual size of clear print (UK Association for Accessible Formats)."""
MARGIN = points(15)
LEADING = 1.35
AIR = 0.5
TITLE, SMALL = 1.7, 0.8  # sizes as parts of that of the lines
GREY = 0.3  # contrast 8:1 against white
HEADS = (("begins", "Time", 3.0), ("dance", "Dance", 8.0), ("rhythm", "Rhythm", 0.0), ("times", "Through", 0.0))
"""Columns with their heads and least widths in sizes of the type."""


def set_programme(table: Timetable, paper: Paper, faces: Faces, source: Attachment) -> Document:
    """The programme in the largest type with which it fills one page; in the least, on as many pages as it takes.

    Raises LayoutError where the paper cannot hold a line.
    """
    airy = ((size, AIR) for size in range(MOST, USUAL - 1, -1))
    tight = ((size, 0.0) for size in range(MOST, LEAST - 1, -1))
    for size, air in (*airy, *tight):
        document = _at(size, air, table, paper, faces)
        if len(document.pages) == 1:
            break
    return replace(document, attachments=(source,))


def _at(size: float, air: float, table: Timetable, paper: Paper, faces: Faces) -> Document:
    programme = table.programme
    words = ", ".join(filter(None, (programme.club, programme.date)))
    metadata = Metadata(programme.title, author=programme.club, subject=f"Programme, {words}" if words else "Programme",
                        keywords=("sequence dancing", "programme"))
    return set_story(programme_story(table, paper, size, air), metadata, faces)


def programme_story(table: Timetable, paper: Paper, size: float, air: float) -> Story:
    """The page in type of that size in points. air: baseline steps between lines."""
    flow: tuple[Flow, ...] = (*_heading(table, size), _table(table, size, air), _end(table, size))
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    foot = Running("", "", "", Style(REGULAR, SMALL * size, GREY))
    return Story(paper, margins, LEADING * size, flow, foot)


def _heading(table: Timetable, size: float) -> Iterator[Flow]:
    programme = table.programme
    title = Style(SEMIBOLD, TITLE * size)
    yield Paragraph((Run(programme.title, title),), kind="H1", line_steps=1.5, anchor="title", outline_level=0)
    begins = f"begins {clock_words(programme.starts)}"
    if programme.club:
        yield Paragraph((Run(programme.club, Style(REGULAR, size)),))
    words = ", ".join(filter(None, (programme.date, programme.place, begins)))
    yield Paragraph((Run(words, Style(REGULAR, size)),), space_after=0.5)


def _table(table: Timetable, size: float, air: float) -> Table:
    """The items under heads; a column that would stay empty is left out."""
    style = Style(SEMIBOLD, SMALL * size, GREY)
    said = {key for timed in table.items for key, words in _words(timed).items() if words}
    heads = [head for head in HEADS if head[0] in said]
    columns = tuple(
        Column(key, Paragraph((Run(head, style),)), least * size, gap=0.8 * size) for key, head, least in heads
    )
    return Table(columns, (Section(None, tuple(_block(timed, columns, size, air) for timed in table.items)),))


def _words(timed: Timed) -> dict[str, str]:
    """What stands in each column; a dance without a file says neither rhythm nor times through."""
    through = number_words(timed.item.times) if timed.dance else ""
    return {"begins": clock_words(timed.begins), "dance": timed.title, "rhythm": timed.rhythm, "times": through}


def _block(timed: Timed, columns: Sequence[Column], size: float, air: float) -> Block:
    bold, plain = Style(SEMIBOLD, size), Style(REGULAR, size)
    words = _words(timed)
    time = Cell("begins", Paragraph((Run(words["begins"], bold),)), header=True)
    if timed.item.interval:
        runs = (Run(timed.title, Style(ITALIC, size)), Run(f", {span_words(timed.lasts)}", plain))
        return Block((Row((time, Cell("dance", Paragraph(runs), span=len(columns) - 1)), air),))
    cells = (Cell(c.key, Paragraph((Run(words[c.key], bold if c.key == "dance" else plain),))) for c in columns[1:])
    return Block((Row((time, *cells), air),))


def _end(table: Timetable, size: float) -> Paragraph:
    words = f"Ends about {clock_words(table.ends)}."
    return Paragraph((Run(words, Style(SEMIBOLD, size)),), Align.LEFT, space_before=1.0)
