"""The programme of an evening on one page, in type that an older reader can read standing."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from notation.dance.programme import Timed, Timetable, clock, span_words
from notation.dance.words import Vocabulary
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
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import ProgrammeWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.sayings import number_word
from notation.sheet.style import ITALIC, REGULAR, SEMIBOLD

LEAST, USUAL, MOST = 12, 14, 20
"""Points. 12 is the least and 14 the usual size of clear print (UK Association for Accessible Formats)."""
MARGIN = points(15)
LEADING = 1.35
AIR = 0.5
TITLE, SMALL = 1.7, 0.8  # sizes as parts of that of the lines
GREY = 0.3  # contrast 8:1 against white
COLUMNS = (("time", 3.0), ("dance", 8.0), ("rhythm", 0.0), ("through", 0.0))
"""Columns with their least widths in sizes of the type."""


def set_programme(table: Timetable, paper: Paper, faces: Faces, source: Attachment, words: Vocabulary) -> Document:
    """The programme in the largest type with which it fills one page; in the least, on as many pages as it takes.

    words: those it is printed with. Raises LayoutError where the paper cannot hold a line.
    """
    airy = ((size, AIR) for size in range(MOST, USUAL - 1, -1))
    tight = ((size, 0.0) for size in range(MOST, LEAST - 1, -1))
    for size, air in (*airy, *tight):
        document = _at(size, air, table, paper, faces, words)
        if len(document.pages) == 1:
            break
    return replace(document, attachments=(source,))


def _at(size: float, air: float, table: Timetable, paper: Paper, faces: Faces, words: Vocabulary) -> Document:
    programme, says = table.programme, page_words(words, ProgrammeWords)
    of = ", ".join(filter(None, (programme.club, programme.date)))
    subject = filled(says.subject_of, words=of) if of else says.subject
    metadata = Metadata(programme.title, author=programme.club, subject=subject,
                        keywords=tuple(says.keywords.split(", ")), language=words.tag)
    return set_story(programme_story(table, paper, size, air, words), metadata, faces)


def programme_story(table: Timetable, paper: Paper, size: float, air: float, words: Vocabulary) -> Story:
    """The page in type of that size in points. air: baseline steps between lines."""
    says = page_words(words, ProgrammeWords)
    flow: tuple[Flow, ...] = (*_heading(table, size, says), _table(table, size, air, words), _end(table, size, says))
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    foot = Running("", "", "", Style(REGULAR, SMALL * size, GREY))
    return Story(paper, margins, LEADING * size, flow, foot, language=words.tag)


def _clock(time: Fraction, says: ProgrammeWords) -> str:
    hours, minutes = clock(time)
    return filled(says.clock, hours=f"{hours:02}", minutes=f"{minutes:02}")


def _heading(table: Timetable, size: float, says: ProgrammeWords) -> Iterator[Flow]:
    programme = table.programme
    title = Style(SEMIBOLD, TITLE * size)
    yield Paragraph((Run(programme.title, title),), kind="H1", line_steps=1.5, anchor="title", outline_level=0)
    begins = filled(says.begins, time=_clock(programme.starts, says))
    if programme.club:
        yield Paragraph((Run(programme.club, Style(REGULAR, size)),))
    words = ", ".join(filter(None, (programme.date, programme.place, begins)))
    yield Paragraph((Run(words, Style(REGULAR, size)),), space_after=0.5)


def _table(table: Timetable, size: float, air: float, words: Vocabulary) -> Table:
    """The items under heads; a column that would stay empty is left out."""
    style, says = Style(SEMIBOLD, SMALL * size, GREY), page_words(words, ProgrammeWords)
    rows = [(timed, _words(timed, words)) for timed in table.items]
    said = {key for _, cells in rows for key, text in cells.items() if text}
    columns = tuple(
        Column(key, Paragraph((Run(str(getattr(says, f"column_{key}")), style),)), least * size, gap=0.8 * size)
        for key, least in COLUMNS if key in said
    )
    return Table(columns, (Section(None, tuple(_block(timed, cells, columns, size, air) for timed, cells in rows)),))


def _words(timed: Timed, words: Vocabulary) -> dict[str, str]:
    """What stands in each column; a dance without a file says neither rhythm nor times through."""
    to, says = figure_speaker(words, False), page_words(words, ProgrammeWords)
    through = number_word(to, timed.item.times) if timed.dance else ""
    rhythm = to.name(timed.dance.rhythm_said, "rhythm") if timed.dance else ""
    return {"time": _clock(timed.begins, says), "dance": timed.title, "rhythm": rhythm, "through": through}


def _block(timed: Timed, words: dict[str, str], columns: Sequence[Column], size: float, air: float) -> Block:
    bold, plain = Style(SEMIBOLD, size), Style(REGULAR, size)
    time = Cell("time", Paragraph((Run(words["time"], bold),)), header=True)
    if timed.item.interval:
        runs = (Run(timed.title, Style(ITALIC, size)), Run(f", {span_words(timed.lasts)}", plain))
        return Block((Row((time, Cell("dance", Paragraph(runs), span=len(columns) - 1)), air),))
    cells = (Cell(c.key, Paragraph((Run(words[c.key], bold if c.key == "dance" else plain),))) for c in columns[1:])
    return Block((Row((time, *cells), air),))


def _end(table: Timetable, size: float, says: ProgrammeWords) -> Paragraph:
    words = filled(says.ends, time=_clock(table.ends, says))
    return Paragraph((Run(words, Style(SEMIBOLD, size)),), Align.LEFT, space_before=1.0)
