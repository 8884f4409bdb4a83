"""Book files: the form as the guide gives it, and what is told of mistakes."""
from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.book import Book, FillWith, IndexOf, Order
from notation.reading.book import BookReading, read_book

AS_IN_THE_GUIDE = """\
format: 1
title: Winter Season
club: The Ropewalk Sequence Club
dances: [lantern-quay-waltz.yaml, ferry-lane-saunter.yaml, dances/*.yaml]
order: rhythm                 # or title, arranger, as listed
contents: yes
indexes: [title, arranger, rhythm]
layout: script
paper: A5
"""


def read(text: str) -> BookReading:
    return read_book(text.encode(), "book.yaml")


def book(text: str) -> Book:
    reading = read(text)
    assert reading.book is not None and not reading.findings, reading.findings
    return reading.book


def rules(text: str) -> list[str]:
    return [finding.rule for finding in read(text).findings]


def test_the_form_of_the_guide() -> None:
    found = book(AS_IN_THE_GUIDE)
    assert (found.title, found.club, found.order) == ("Winter Season", "The Ropewalk Sequence Club", Order.RHYTHM)
    listed = [said.text for said in found.dances]
    assert listed == ["lantern-quay-waltz.yaml", "ferry-lane-saunter.yaml", "dances/*.yaml"]
    assert found.contents and found.indexes == (IndexOf.TITLE, IndexOf.ARRANGER, IndexOf.RHYTHM)
    assert found.layout and found.layout.text == "script" and found.paper and found.paper.text == "A5"
    assert (found.fill, found.fill_with, found.run_together, found.cover) == (4, FillWith.BLANK, False, True)


def test_all_that_may_be_said() -> None:
    found = book("title: T\nseason: 2026-27\npicture: hall.png\npicture-words: the hall\ndances: a.yaml\n"
                 "order: as listed\ncover: no\ncontents: no\nabbreviations: no\nindexes: no\nsection pages: yes\n"
                 "run_together: yes\nnotes pages: 2\nfill: 1\nfill with: notes\norientation: landscape\n")
    assert (found.season, found.picture_words, found.order) == ("2026-27", "the hall", Order.LISTED)
    assert not (found.cover or found.contents or found.abbreviations or found.indexes)
    assert found.section_pages and found.run_together and (found.notes_pages, found.fill) == (2, 1)
    assert found.fill_with is FillWith.NOTES and found.landscape


@pytest.mark.parametrize(("text", "rule"), [
    ("dances: [a.yaml]", "key-missing"),
    ("title: T", "key-missing"),
    ("title: T\ndances: [a.yaml]\nformat: 2", "format-unknown"),
    ("title: T\ndances: [a.yaml]\npaper: B5", "unknown-choice"),
    ("title: T\ndances: [a.yaml]\nindexes: [titel]", "unknown-choice"),
    ("title: T\ndances: [a.yaml]\ncontents: perhaps", "unknown-choice"),
    ("title: T\ndances: [a.yaml]\nnotes pages: many", "not-a-number"),
    ("title: T\ndances: [a.yaml]\nnotes pages: 5000", "number-too-large"),
    ("title: T\ndances: [a.yaml]\nfill: 0", "number-too-small"),
    ("title: T\ndances: {a: b}", "not-text"),
    ("- a", "not-a-mapping"),
])
def test_mistakes(text: str, rule: str) -> None:
    assert rule in rules(text)


def test_a_dance_in_place_of_a_book_is_told() -> None:
    assert any("this is a dance" in finding.message for finding in read("title: T\nsequence: []\n").findings)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=120))
def test_any_text_ends_in_findings_or_a_book(text: str) -> None:
    reading = read(text)
    assert reading.book is not None or reading.findings
