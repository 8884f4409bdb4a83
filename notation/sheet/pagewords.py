"""What pages other than sheets say: texts of a language (words/*-pages.yaml). `{name}` is filled in.

A field is a text of that kind of page; a language that lacks one cannot print it. Where a number decides between two
forms, each has its text.
"""
from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cache
from typing import Any, ClassVar, TypeVar

from notation.dance.words import Vocabulary
from notation.kept import Same


@dataclass(frozen=True, slots=True)
class PageWords:
    """kind: of page, the name of its texts in a language's file."""

    kind: ClassVar[str]


Words = TypeVar("Words", bound=PageWords)


def page_words(vocabulary: Vocabulary, of: type[Words]) -> Words:
    """The texts of a kind of page in that language. KeyError where the language lacks one."""
    found = _texts(vocabulary, Same[type[PageWords]](of))
    assert isinstance(found, of)
    return found


@cache
def _texts(vocabulary: Vocabulary, of: Same[type[PageWords]]) -> PageWords:
    names = {field.name: field.name.replace("_", " ").strip() for field in fields(of.value)}
    texts: dict[str, Any] = {name: vocabulary.pages[of.value.kind, key] for name, key in names.items()}
    return of.value(**texts)


@dataclass(frozen=True, slots=True)
class ProgrammeWords(PageWords):
    """The programme of an evening. keywords: of the document, parted by commas."""

    kind: ClassVar[str] = "programme"
    column_time: str
    column_dance: str
    column_rhythm: str
    column_through: str
    begins: str
    ends: str
    clock: str
    subject: str
    subject_of: str
    keywords: str


@dataclass(frozen=True, slots=True)
class CatalogueWords(PageWords):
    """A printed list of dances."""

    kind: ClassVar[str] = "catalogue"
    title: str
    dances: str
    dance: str
    column_title: str
    column_arranger: str
    column_rhythm: str
    column_bars: str
    column_tempo: str
    no_title: str
    errors: str
    error: str
    warnings: str
    warning: str
    notes: str
    note: str
    subject: str
    paging: str


@dataclass(frozen=True, slots=True)
class FloorWords(PageWords):
    """Floor diagrams and the plan of a hall."""

    kind: ClassVar[str] = "floor"
    on_floor: str
    travels_lod: str
    travels_alod: str
    stays: str
    stays_aside: str
    and_aside: str
    to_centre: str
    to_wall: str
    once_round: str
    hall: str
    corners: str
    corner: str
    key: str
    plan: str
    plan_corners: str
    plan_key: str
    plan_centre: str
    plan_scale: str
    paging: str


@dataclass(frozen=True, slots=True)
class CardWords(PageWords):
    """Teaching cards of figures. begins, ends, head: of a part, put into `of_part` where two are told apart."""

    kind: ClassVar[str] = "card"
    also_called: str
    length_half: str
    length_one: str
    length: str
    of_part: str
    begins: str
    ends: str
    head: str
    lady_head: str
    free: str
    both_feet: str
    left: str
    right: str
    turned: str
    whole_turn: str
    whole_turns: str
    foot: str
    either: str
    position: str
    or_: str
    halves: str
    variants: str
    joins: str
    arms: str
    note: str
    steps: str
    rise: str
    rise_of_part: str
    rise_drawn: str
    commence_to_rise: str
    continue_to_rise: str
    rises: str
    up: str
    lower: str
    down: str
    bend: str
    no_foot_rise: str
    on_floor: str
    bar_on_floor: str
    faults: str
    care: str
    turn_out: str
    health: str
    sources: str
    subject: str
    paging: str


@dataclass(frozen=True, slots=True)
class ChartWords(PageWords):
    """The chart of the five positions: for each its name, and what it is with feet turned out and parallel."""

    kind: ClassVar[str] = "chart"
    title: str
    seen: str
    turned_out: str
    turned_out_note: str
    parallel: str
    care: str
    sources: str
    position: str
    name_first: str
    name_second: str
    name_third: str
    name_fourth: str
    name_fourth_open: str
    name_fourth_crossed: str
    name_fifth: str
    turned_out_first: str
    turned_out_second: str
    turned_out_third: str
    turned_out_fourth_open: str
    turned_out_fourth_crossed: str
    turned_out_fifth: str
    parallel_first: str
    parallel_second: str
    parallel_third: str
    parallel_fourth: str
    parallel_fifth: str
    subject: str


@dataclass(frozen=True, slots=True)
class BookWords(PageWords):
    """A booklet, besides what its dances say. keywords: of the document, parted by commas."""

    kind: ClassVar[str] = "book"
    dances: str
    dance: str
    keywords: str
    other_dances: str


@dataclass(frozen=True, slots=True)
class ImposedWords(PageWords):
    """Sheets that are folded: the panels of a proof and the title."""

    kind: ClassVar[str] = "imposed"
    front: str
    back: str
    blank: str
    imposed: str
    untitled: str
