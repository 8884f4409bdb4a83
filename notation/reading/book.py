"""A book file: its particulars, the dances it names and what stands round them."""
from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import TypeVar

from notation import bounds
from notation.dance.book import Book, FillWith, IndexOf, Order
from notation.dance.finding import Finding, in_file_order
from notation.dance.mark import Said
from notation.reading.fields import Fields, Findings, expect_choice, expect_fields
from notation.reading.layout import NO, PAPERS, YES
from notation.reading.nodes import Mapping, Node, Unreadable, lines_to_show, plain_key, read_nodes

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
    lines = lines_to_show(source)
    findings = Findings()
    try:
        root = read_nodes(source, file)
    except Unreadable as fault:
        return BookReading(None, (fault.finding,), lines)
    if _is_dance(root):
        message = "this is a dance, not a book; a book lists the files of its 'dances'"
        findings.error("not-a-book", root.mark, message)
        return BookReading(None, tuple(findings.found), lines)
    fields = expect_fields(root, "a book", KEYS, findings)
    book = _book(fields) if fields else None
    return BookReading(book, tuple(in_file_order(findings.found)), lines)


def _is_dance(root: Node) -> bool:
    keys = {plain_key(entry.key.text) for entry in root.entries} if isinstance(root, Mapping) else set()
    return "sequence" in keys and "dances" not in keys


def _book(fields: Fields) -> Book:
    fields.check_format()
    return Book(
        title=_title(fields),
        dances=_dances(fields),
        club=fields.line("club"),
        season=fields.line("season"),
        picture=fields.said("picture"),
        picture_words=fields.line("picture words"),
        order=_choice(fields, "order", Order, Order.LISTED),
        cover=_switch(fields, "cover", True),
        contents=_switch(fields, "contents", True),
        abbreviations=_switch(fields, "abbreviations", True),
        indexes=_indexes(fields),
        section_pages=_switch(fields, "section pages", False),
        run_together=_switch(fields, "run together", False),
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
    scalar = fields.text(key)
    words = tuple(str(one.value) for one in kind)
    said = expect_choice(scalar, f"{key}", words, fields.findings) if scalar else None
    return kind(said) if said else otherwise


def _switch(fields: Fields, key: str, otherwise: bool) -> bool:
    scalar = fields.text(key)
    said = expect_choice(scalar, key, (*YES, *NO), fields.findings) if scalar else None
    return said in YES if said else otherwise


def _indexes(fields: Fields) -> tuple[IndexOf, ...]:
    words = tuple(one.value for one in IndexOf)
    said = [expect_choice(scalar, "indexes", (*words, *NO), fields.findings) for scalar in fields.texts("indexes")]
    return tuple(dict.fromkeys(IndexOf(word) for word in said if word in words))


def _paper(fields: Fields) -> Said | None:
    scalar = fields.text("paper")
    said = expect_choice(scalar, "paper", PAPERS, fields.findings) if scalar else None
    return Said(said, scalar.mark) if said and scalar else None


def _landscape(fields: Fields) -> bool | None:
    scalar = fields.text("orientation")
    said = expect_choice(scalar, "orientation", ("portrait", "landscape"), fields.findings) if scalar else None
    return said == "landscape" if said else None
