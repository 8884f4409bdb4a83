"""A catalogue of dances as a printed list."""
from __future__ import annotations

from collections.abc import Sequence

from notation.dance.catalogue import Entry
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

REGULAR, SEMIBOLD, ITALIC = "SourceSans3-Regular", "SourceSans3-SemiBold", "SourceSans3-Italic"
TITLE, HEAD = Style(SEMIBOLD, 18.0), Style(SEMIBOLD, 8.5, 0.3)
NAME, BODY, SMALL, FAULT = Style(SEMIBOLD, 10.5), Style(REGULAR, 10.5), Style(REGULAR, 9.0, 0.25), Style(ITALIC, 9.0)
STEP, MARGIN = 13.0, points(15)
HEADS = (("title", "Dance"), ("arranger", "Arranged by"), ("rhythm", "Rhythm"), ("bars", "Bars"), ("tempo", "Tempo"))


def set_catalogue(entries: Sequence[Entry], folder: str, paper: Paper, faces: Faces) -> Document:
    """The list on pages. folder: its name for the heading. Raises LayoutError where the paper is too narrow."""
    title = f"Dances: {folder}"
    number = f"{len(entries)} dance{'' if len(entries) == 1 else 's'}"
    flow: tuple[Flow, ...] = (
        Paragraph((Run(title, TITLE),), kind="H1", line_steps=1.5, anchor="title", outline_level=0),
        Paragraph((Run(number, BODY),), space_after=0.5),
    )
    columns = tuple(Column(key, Paragraph((Run(head, HEAD),)), gap=10.0) for key, head in HEADS)
    listed = Table(columns, (Section(None, tuple(map(_block, entries))),))
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    foot = Running(title, "", "{page} of {pages}")
    story = Story(paper, margins, STEP, (*flow, listed) if entries else flow, foot)
    return set_story(story, Metadata(title, subject="Catalogue of dances"), faces)


def _block(entry: Entry) -> Block:
    """A dance with its figures under it."""
    bars = "" if entry.bars is None else str(entry.bars)
    values = ((entry.title or "(no title)", NAME), (", ".join(entry.arrangers), BODY), (entry.rhythm, BODY),
              (bars, BODY), (entry.tempo, BODY))
    cells = tuple(
        Cell(key, Paragraph((Run(words, style),)), header=key == "title")
        for (key, _), (words, style) in zip(HEADS, values, strict=True)
    )
    below = [(", ".join(entry.figures), SMALL)] if entry.figures else []
    below += [(f"{entry.file}: {entry.fault or entry.found}", FAULT)] if entry.errors else []
    lines = (Paragraph((Run(words, style),)) for words, style in below)
    return Block((Row(cells, space_before=0.5), *(Row((Cell("title", line, span=len(HEADS)),)) for line in lines)))
