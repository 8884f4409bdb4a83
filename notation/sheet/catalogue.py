"""A catalogue of dances as a printed list."""
from __future__ import annotations

from collections.abc import Iterator, Sequence

from notation.dance.catalogue import Entry
from notation.dance.words import Vocabulary
from notation.page.content import (
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
from notation.page.frame import Document, Metadata
from notation.page.paginate import set_story
from notation.page.units import points
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import CatalogueWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.style import ITALIC, REGULAR, SEMIBOLD

TITLE, HEAD = Style(SEMIBOLD, 18.0), Style(SEMIBOLD, 8.5, 0.3)
NAME, BODY, SMALL, FAULT = Style(SEMIBOLD, 10.5), Style(REGULAR, 10.5), Style(REGULAR, 9.0, 0.25), Style(ITALIC, 9.0)
STEP, MARGIN = 13.0, points(15)
COLUMNS = ("title", "arranger", "rhythm", "bars", "tempo")


def set_catalogue(entries: Sequence[Entry], folder: str, paper: Paper, faces: Faces, words: Vocabulary) -> Document:
    """The list on pages. folder: its name for the heading. words: those it is printed with. Raises LayoutError where
    the paper is too narrow."""
    says = page_words(words, CatalogueWords)
    title = filled(says.title, folder=folder)
    number = filled(says.dance if len(entries) == 1 else says.dances, number=len(entries))
    flow: tuple[Flow, ...] = (
        Paragraph((Run(title, TITLE),), kind="H1", line_steps=1.5, anchor="title", outline_level=0),
        Paragraph((Run(number, BODY),), space_after=0.5),
    )
    heads = ((key, str(getattr(says, f"column_{key}"))) for key in COLUMNS)
    columns = tuple(Column(key, Paragraph((Run(head, HEAD),)), gap=10.0) for key, head in heads)
    listed = Table(columns, (Section(None, tuple(_block(entry, words) for entry in entries)),))
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    foot = Running(title, "", says.paging)
    story = Story(paper, margins, STEP, (*flow, listed) if entries else flow, foot, language=words.tag)
    return set_story(story, Metadata(title, subject=says.subject, language=words.tag), faces)


def _block(entry: Entry, words: Vocabulary) -> Block:
    """A dance with its figures under it."""
    to, says = figure_speaker(words, False), page_words(words, CatalogueWords)
    bars = "" if entry.bars is None else str(entry.bars)
    values = ((entry.title or says.no_title, NAME), (", ".join(entry.arrangers), BODY),
              (to.called(entry.rhythm, "rhythm"), BODY), (bars, BODY),
              (entry.tempo.replace(".", to.phrases.decimal), BODY))
    cells = tuple(
        Cell(key, Paragraph((Run(text, style),)), header=key == "title")
        for key, (text, style) in zip(COLUMNS, values, strict=True)
    )
    below = [(", ".join(entry.figures), SMALL)] if entry.figures else []
    below += [(f"{entry.file}: {entry.fault or ', '.join(_found(entry, says))}", FAULT)] if entry.errors else []
    lines = (Paragraph((Run(text, style),)) for text, style in below)
    return Block((Row(cells, space_before=0.5), *(Row((Cell("title", line, span=len(COLUMNS)),)) for line in lines)))


def _found(entry: Entry, says: CatalogueWords) -> Iterator[str]:
    """How many errors, warnings and notes; what there is none of is not said."""
    counted = ((entry.errors, says.error, says.errors), (entry.warnings, says.warning, says.warnings),
               (entry.notes, says.note, says.notes))
    yield from (filled(one if number == 1 else more, number=number) for number, one, more in counted if number)
