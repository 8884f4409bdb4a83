"""A book of dances as its file says: which dances, in which order, and what stands round them."""
from __future__ import annotations

import enum
from dataclasses import dataclass

from notation.dance.mark import NOWHERE, Mark, Said


class Order(enum.Enum):
    """In which order the dances stand. By rhythm, each rhythm is a section."""

    RHYTHM = "rhythm"
    TITLE = "title"
    ARRANGER = "arranger"
    LISTED = "as listed"


class IndexOf(enum.Enum):
    """What an index at the end of a book lists."""

    TITLE = "title"
    ARRANGER = "arranger"
    RHYTHM = "rhythm"
    FIGURE = "figure"


class FillWith(enum.Enum):
    """What the pages are that fill the last sheet."""

    BLANK = "blank"
    NOTES = "notes"


@dataclass(frozen=True, slots=True)
class Book:
    """What a book file says.

    dances: file names and patterns, below the book's folder. layout, paper: None where it names none. picture: file of
    the cover's picture; picture_words: what it shows, for readers who do not see it (empty: it only adorns).
    section_pages: a page with the section's name before its dances. run_together: a dance that fits whole into the rest
    of a page stands there. notes_pages: ruled pages at the end. fill: the number of pages is a multiple of it.
    """

    title: str
    dances: tuple[Said, ...]
    club: str = ""
    season: str = ""
    picture: Said | None = None
    picture_words: str = ""
    order: Order = Order.LISTED
    cover: bool = True
    contents: bool = True
    abbreviations: bool = True
    indexes: tuple[IndexOf, ...] = ()
    section_pages: bool = False
    run_together: bool = False
    notes_pages: int = 0
    fill: int = 4
    fill_with: FillWith = FillWith.BLANK
    layout: Said | None = None
    paper: Said | None = None
    landscape: bool | None = None
    mark: Mark = NOWHERE
