"""Figures that are called by name: printed as their names with footnotes, and what their files say of arms and care."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.naming import capital
from notation.dance.script import GENT, Call, Called, DancedPassage, Derived, Part, Worked
from notation.layout import Calls, ColumnKey, Layout, Repeats
from notation.page.content import Block, Cell, Flow, Paragraph, Row
from notation.sheet.phrasing import TIE, filled
from notation.sheet.rows import PART_COLUMNS, Setter, bar_cell, new_heads, new_hold
from notation.sheet.style import paragraph


def by_name(passage: DancedPassage, layout: Layout) -> bool:
    """Whether the passage is printed by the names of its figures: every part is a call, or all of it follows from
    one."""
    if layout.calls is not Calls.BY_NAME or passage.repeated is not None:
        return False
    written = (passage.written.gent, passage.written.lady)
    return any(isinstance(part, Call) for part in written) and all(map(_in_a_word, written))


def _in_a_word(part: Part | None) -> bool:
    return isinstance(part, Call) or (isinstance(part, Derived) and not part.replacements)


def footnotes(worked: Worked, layout: Layout) -> dict[str, tuple[int, Called]]:
    """The figures printed by name only, each with its number, in the order in which they are met."""
    found: dict[str, tuple[int, Called]] = {}
    for passage in worked.passages:
        for called in passage.called if by_name(passage, layout) else ():
            found.setdefault(called.figure, (len(found) + 1, called))
    return found


def name_block(passage: DancedPassage, here: Setter) -> Block:
    """One row in the place of the steps: the bars, and for each part its call as it was written."""
    notes = footnotes(here.worked, here.layout)
    columns = here.layout.columns
    first, last = passage.first, passage.last
    bars = str(first) if first == last else f"{first}\u2013{last}"
    cells = [bar_cell(bars, here)] if ColumnKey.BAR in columns else []
    for key in columns:
        if key in PART_COLUMNS:
            cells.append(Cell(key.value, paragraph(_part_words(passage, PART_COLUMNS[key], notes, here),
                                                   here.styles.body)))
    cells += _beside(passage, here)
    return Block((Row(tuple(cells)),))


def _part_words(passage: DancedPassage, part: str, notes: dict[str, tuple[int, Called]], here: Setter) -> str:
    called = next((one for one in passage.called if one.part == part), None)
    if called is not None:
        return f"{called.text}{TIE}({notes[called.figure][0]})"
    written = passage.written.gent if part == GENT else passage.written.lady
    return here.speaker.word(written.how.value, "derivation") if isinstance(written, Derived) else ""


def _beside(passage: DancedPassage, here: Setter) -> Iterator[Cell]:
    """Hold and head line where they change."""
    own = {part: passage.part(part)[0].step.head for part in here.parts if passage.part(part)}
    for key in (ColumnKey.HOLD, ColumnKey.HEAD):
        if key not in here.layout.columns:
            continue
        pieces = new_hold(here, passage, ()) if key is ColumnKey.HOLD else new_heads(here, passage.head, own)
        if pieces:
            yield Cell(key.value, paragraph(" ".join(pieces), here.styles.body))


def footnote_lines(here: Setter) -> Iterator[Paragraph]:
    """A line for each figure printed by name only: where its steps are, its arms, its cautions."""
    for number, called in footnotes(here.worked, here.layout).values():
        words = filled(here.speaker.phrases.called_note, number=number, figure=capital(called.figure))
        more = (filled(here.speaker.phrases.arms, arms=called.arms) if called.arms else "", *called.cautions)
        text = ". ".join(part.rstrip(".") for part in (words, *more) if part)
        yield paragraph(f"{text}.", here.styles.small, before=1.0 if number == 1 else 0.0)


def called_remarks(passage: DancedPassage, here: Setter) -> Iterator[Flow]:
    """Under figures that are written out: what their files say of arms and care, once a figure in a sheet."""
    if not here.layout.shows.cautions or by_name(passage, here.layout):
        return
    for called in _met_first(passage, here):
        arms = filled(here.speaker.phrases.arms, arms=called.arms) if called.arms and not passage.written.arms else ""
        text = ". ".join(part.rstrip(".") for part in (arms, *called.cautions) if part)
        if text:
            yield paragraph(f"{text}.", here.styles.italic, before=0.5)


def _met_first(passage: DancedPassage, here: Setter) -> Iterator[Called]:
    """The figures of this passage that no passage before it called."""
    before = {c.figure for p in here.worked.passages if p.first < passage.first for c in p.called}
    for called in {c.figure: c for c in passage.called}.values():
        if called.figure not in before:
            yield called


def repeats_as_instruction(layout: Layout) -> bool:
    """A sheet that names its figures names its repeats as well."""
    return layout.repeats is Repeats.INSTRUCTION or layout.calls is Calls.BY_NAME
