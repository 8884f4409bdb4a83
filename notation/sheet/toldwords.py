"""What the pages say that tell of a dance what was found out: plain values in words, entries, changes."""
from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from notation.sheet.pagewords import PageWords


@dataclass(frozen=True, slots=True)
class FactWords(PageWords):
    """Plain values in words: the names of facts (`dance/facts.py`), with one and several of what is counted. months:
    parted by commas."""

    kind: ClassVar[str] = "fact"
    months: str
    date: str
    or_: str
    head_partner: str
    head_forward: str
    all: str
    named: str
    where: str
    at_start: str
    in_bar: str
    none_written: str
    as_asked: str
    to_be_given: str
    by_day: str
    on_day: str
    no_errors: str
    nothing_found: str
    error: str
    errors: str
    bar: str
    bars: str
    bars_a_minute: str
    only: str
    barred: str
    only_and_barred: str
    nameless: str
    in_dance_file: str
    not_in_dance_file: str
    in_particulars: str
    not_in_particulars: str
    at_most_page: str
    at_most_pages: str
    page: str
    pages: str
    copy: str
    copies: str
    print: str
    signed: str
    sign: str
    no_name: str
    none_told: str
    told: str
    tolds: str
    spared: str


@dataclass(frozen=True, slots=True)
class EntryWords(PageWords):
    """What goes with an entry to a competition."""

    kind: ClassVar[str] = "entry"
    number: str
    number_room: str
    reference: str
    particulars: str
    particulars_title: str
    organiser_only: str
    column_particular: str
    column_value: str
    signed_by: str
    signed_on: str
    checklist: str
    entry_to: str
    column_rule: str
    column_asked: str
    column_found: str
    column_state: str
    met: str
    not_met: str
    by_hand: str
    subject: str
    paper_title: str


@dataclass(frozen=True, slots=True)
class ErrataWords(PageWords):
    """What changed between two versions. was, was_bar, was_count: where `{old}` stands is what was there before."""

    kind: ClassVar[str] = "errata"
    title: str
    marks: str
    nothing_changed: str
    heading: str
    added: str
    becomes: str
    left_out: str
    bar_put_in: str
    bars_put_in: str
    bar_left_out: str
    bars_left_out: str
    with_figures: str
    renumbered: str
    same_number: str
    in_bar: str
    called: str
    from_here: str
    said_of: str
    nothing: str
    not_said: str
    was: str
    was_bar: str
    was_count: str
    new_bar: str
    old_bar: str
    new_step: str
    old_step: str
    subject: str
