"""A book file: its particulars, the dances it names and what stands round them."""
from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import TypeVar

from notation import bounds
from notation.dance.book import Book, FillWith, IndexOf, Order
from notation.dance.finding import Finding, Severity
from notation.dance.mark import Said
from notation.reading.fields import NO, Fields, expect_choice
from notation.reading.keyed import read_keyed
from notation.reading.layout import PAPERS
from notation.reading.nodes import Mapping, Node, plain_key

KEYS = (
    "format", "title", "club", "season", "picture", "picture words", "dances", "order", "cover", "contents",
    "abbreviations", "indexes", "section pages", "run together", "notes pages", "fill", "fill with", "layout", "paper",
    "orientation",
)
SHEET = 4  # pages of a sheet that is folded once
Named = TypeVar("Named", bound=enum.Enum)


@dataclass(frozen=True, slots=True)
class BookReading:
    """What a book file gave. book: None where it cannot be used. lines: the file's lines, for showing findings."""

    book: Book | None
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]


def read_book(source: bytes, file: str) -> BookReading:
    """Read a book file. file: its name as findings show it. Raises nothing: what is wrong is among the findings."""
    return BookReading(*read_keyed(source, file, "a book", KEYS, _book, _a_dance))


def _a_dance(root: Node) -> Finding | None:
    keys = {plain_key(entry.key.text) for entry in root.entries} if isinstance(root, Mapping) else set()
    if "sequence" not in keys or "dances" in keys:
        return None
    message = "this is a dance, not a book; a book lists the files of its 'dances'"
    return Finding("not-a-book", Severity.ERROR, root.mark, message)


def _book(fields: Fields) -> Book:
    return Book(
        title=_title(fields),
        dances=_dances(fields),
        club=fields.line("club"),
        season=fields.line("season"),
        picture=fields.said("picture"),
        picture_words=fields.line("picture words"),
        order=_choice(fields, "order", Order, Order.LISTED),
        cover=fields.switch("cover", True),
        contents=fields.switch("contents", True),
        abbreviations=fields.switch("abbreviations", True),
        indexes=_indexes(fields),
        section_pages=fields.switch("section pages", False),
        run_together=fields.switch("run together", False),
        notes_pages=fields.number("notes pages", 0, bounds.NOTES_PAGES, "pages") or 0,
        fill=fields.number("fill", 1, bounds.FILL, "pages") or SHEET,
        fill_with=_choice(fields, "fill with", FillWith, FillWith.BLANK),
        layout=fields.said("layout"),
        paper=_paper(fields),
        landscape=_landscape(fields),
        mark=fields.top,
    )


def _title(fields: Fields) -> str:
    if "title" not in fields.values:
        fields.findings.error("key-missing", fields.top, "the book has no 'title'; write one")
        return ""
    return fields.line("title", bounds.TITLE)


def _dances(fields: Fields) -> tuple[Said, ...]:
    if "dances" not in fields.values:
        message = "the book has no 'dances'; list their files, such as 'dances: [first.yaml, folder/*.yaml]'"
        fields.findings.error("key-missing", fields.top, message)
        return ()
    return tuple(Said(scalar.text.strip(), scalar.mark) for scalar in fields.texts("dances"))


def _choice(fields: Fields, key: str, kind: type[Named], otherwise: Named) -> Named:
    said = fields.choice(key, tuple(str(one.value) for one in kind))
    return kind(said) if said else otherwise


def _indexes(fields: Fields) -> tuple[IndexOf, ...]:
    words = tuple(one.value for one in IndexOf)
    said = [expect_choice(scalar, "indexes", (*words, *NO), fields.findings) for scalar in fields.texts("indexes")]
    return tuple(dict.fromkeys(IndexOf(word) for word in said if word in words))


def _paper(fields: Fields) -> Said | None:
    said = fields.choice("paper", PAPERS)
    return Said(said, fields.values["paper"].mark) if said else None


def _landscape(fields: Fields) -> bool | None:
    said = fields.choice("orientation", ("portrait", "landscape"))
    return said == "landscape" if said else None
