"""The script sheet as a story: heading, table of bars, key."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from notation.dance.knowledge import Knowledge
from notation.dance.script import DancedPassage, Heads, Passage, Repeat, Worked
from notation.dance.words import Vocabulary
from notation.layout import ColumnKey, Layout, Rows
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
    Table,
)
from notation.page.units import points
from notation.sheet.called import by_name, called_remarks, footnote_lines, name_block, repeats_as_instruction
from notation.sheet.footprint import footprint_room
from notation.sheet.heading import heading, template_values
from notation.sheet.key import keys
from notation.sheet.phrasing import filled, with_units
from notation.sheet.rows import Diagrams, Setter, all_facings, blocks, manner, new_heads, new_hold, parts_of
from notation.sheet.speakers import speaker, words_in
from notation.sheet.style import Styles, paragraph, styles
from notation.sheet.templates import fill
from notation.sheet.wording import Speaker

SIDE_COLUMN = 0.19  # of the measure: most width of the hold and head columns
BESIDE_FIGURES = 0.45  # the same where rows are figures
COLUMN_GAP = 9.0
SLOT_GAP = 0.3  # of the type size, between a footprint and its words


def sheet_speaker(worked: Worked, knowledge: Knowledge, layout: Layout) -> Speaker:
    """A speaker for the sheet of a dance in this layout."""
    shown = tuple(used_columns(worked, layout))
    return speaker(printed_words(knowledge, layout), layout.wording, layout.phrases, ColumnKey.HOLD in shown,
                   ColumnKey.HEAD in shown)


def printed_words(knowledge: Knowledge, layout: Layout) -> Vocabulary:
    """The words that the layout prints with."""
    return words_in(knowledge, layout.language)


def script_story(
    worked: Worked,
    knowledge: Knowledge,
    layout: Layout,
    paper: Paper,
    size: float,
    space: float = 1.0,
    diagrams: Diagrams | None = None,
    says: Speaker | None = None,
) -> Story:
    """The whole sheet with the steps set at `size` points and `space` baseline steps above each figure.

    says: the dance's `sheet_speaker`, where the same dance is set at several sizes. TemplateFault where a template
    cannot be filled in.
    """
    layout = replace(layout, columns=tuple(used_columns(worked, layout)))
    to = styles(layout, size, layout.sizes_on(paper.name).leading, space)
    says = says or sheet_speaker(worked, knowledge, layout)
    here = Setter(layout, to, says, worked, parts_of(layout), manner(layout, to, says, worked.dance.feet),
                  diagrams=diagrams)
    above = tuple(heading(worked, knowledge, layout, to, says))
    margins = margins_of(layout)
    measure = paper.width - margins.inner - margins.outer
    table = Table(tuple(columns(layout, to, says, measure)), tuple(TABLES[layout.rows](worked, here)))
    below = tuple(keys(here.prints, says, to)) if layout.shows.key else ()
    notes = footnote_lines(here) if layout.rows is Rows.STEPS else ()
    flow: tuple[Flow, ...] = (*above, table, *notes, *below)
    foot, head = running_lines(worked, layout, says, to)
    return Story(paper, margins, to.step, flow, foot, head, printed_words(knowledge, layout).tag)


def words_story(worked: Worked, knowledge: Knowledge, layout: Layout, paper: Paper) -> Story:
    """The sheet for a form without pages, where no size has to fit: that of the largest type."""
    return script_story(worked, knowledge, layout, paper, layout.sizes_on(paper.name).most)


def used_columns(worked: Worked, layout: Layout) -> Iterator[ColumnKey]:
    """The layout's columns without those that would stand empty."""
    heads = any(p.head != Heads() for p in worked.passages) or any(
        d.step.head for part in parts_of(layout) for d in worked.steps(part)
    )
    for column in layout.columns:
        if column is not ColumnKey.HEAD or heads:
            yield column


def margins_of(layout: Layout) -> Margins:
    borders = layout.borders
    return Margins(points(borders.top), points(borders.bottom), points(borders.inner), points(borders.outer))


def running_lines(worked: Worked, layout: Layout, says: Speaker, to: Styles) -> tuple[Running, Running | None]:
    """The lines at the foot and at the head of each page."""
    values = {**template_values(worked.dance, layout, says), "page": "{page}", "pages": "{pages}"}
    lines = layout.templates
    foot = Running(fill(lines.foot_left, values), fill(lines.foot_middle, values), fill(lines.foot_right, values),
                   to.running)
    if not lines.head_left and not lines.head_right:
        return foot, None
    return foot, Running(fill(lines.head_left, values), "", fill(lines.head_right, values), to.running)


def columns(layout: Layout, to: Styles, says: Speaker, measure: float) -> Iterator[Column]:
    """The columns of the table. measure: width of the page's words in points."""
    names = {
        ColumnKey.BAR: says.phrases.column_bar,
        ColumnKey.COUNT: says.phrases.column_count,
        ColumnKey.GENT: says.wording.gent,
        ColumnKey.LADY: says.wording.lady,
        ColumnKey.HOLD: says.phrases.column_hold,
        ColumnKey.HEAD: says.phrases.column_head,
        ColumnKey.FIGURE: says.phrases.column_figure,
    }
    slot = footprint_room(to.glyph) + SLOT_GAP * to.body.size if layout.shows.glyphs else 0.0
    for which in layout.columns:
        yield _column(which, paragraph(names[which], to.label), slot, measure, layout.rows)


def _column(which: ColumnKey, head: Paragraph, slot: float, measure: float, rows: Rows) -> Column:
    match which:
        case ColumnKey.COUNT:
            return Column(which.value, replace(head, align=Align.CENTRE), gap=COLUMN_GAP)
        case ColumnKey.GENT | ColumnKey.LADY:
            return Column(which.value, head, alike="part", slot=slot, gap=COLUMN_GAP)
        case ColumnKey.HOLD | ColumnKey.HEAD:
            most = SIDE_COLUMN if rows is Rows.STEPS else BESIDE_FIGURES
            return Column(which.value, head, most=most * measure, gap=COLUMN_GAP)
        case _:
            return Column(which.value, head, gap=COLUMN_GAP)


def sections(worked: Worked, here: Setter) -> Iterator[Section]:
    """The passages: each its heading and bars, or a line that says which bars are danced again."""
    facing = all_facings(worked, here.parts)
    told: Repeat | None = None
    for passage in worked.passages:
        repeat = passage.written.repeat
        if repeat is not None and repeats_as_instruction(here.layout):
            if repeat is not told:
                yield _repeat_line(passage, repeat, here)
            told = repeat
            continue
        named = by_name(passage, here.layout)
        made = (name_block(passage, here),) if named else blocks(passage, here, facing)
        yield Section(_figure_heading(passage, here), made, tuple(_below(passage, here)))


def figure_sections(worked: Worked, here: Setter) -> Iterator[Section]:
    """A line for each passage, for a caller: its bars, the figure's name, the hold where it changes."""
    blocks_ = tuple(Block((Row(tuple(_figure_cells(passage, here))),)) for passage in worked.passages)
    yield Section(None, blocks_)


def _figure_cells(passage: DancedPassage, here: Setter) -> Iterator[Cell]:
    first, last = passage.first, passage.last
    yield Cell(ColumnKey.BAR.value, paragraph(f"{first}\u2013{last}" if last > first else str(first), here.styles.bar),
               header=True)
    words = passage.figure or " \u00b7 ".join(here.speaker.action(d.step) for d in passage.gent)
    yield Cell(ColumnKey.FIGURE.value, paragraph(words, here.styles.strong))
    said_hold = " ".join(new_hold(here, passage, ()))
    if said_hold and ColumnKey.HOLD in here.layout.columns:
        yield Cell(ColumnKey.HOLD.value, paragraph(said_hold, here.styles.small))


def bars_phrase(first: int, last: int, one: str, several: str) -> str:
    """'Bar 3', 'Bars 3–4'."""
    return filled(one if first == last else several, first=first, last=last)


def repeat_words(passage: DancedPassage, repeat: Repeat, says: Speaker) -> tuple[str, str]:
    """'Bars 5–8' and 'as bars 1–4, on opposite feet'."""
    phrases, written = says.phrases, passage.written
    again = [bars_phrase(repeat.first, repeat.last, phrases.as_bar, phrases.as_bars)]
    again += [phrases.opposite_feet] if repeat.opposite_feet else []
    again += [phrases.exchange_parts] if repeat.exchange_parts else []
    return bars_phrase(written.first, written.last, phrases.bar, phrases.bars), ", ".join(again)


def _repeat_line(passage: DancedPassage, repeat: Repeat, here: Setter) -> Section:
    bars, again = repeat_words(passage, repeat, here.speaker)
    line = fill(here.layout.templates.repeat, {"bars": bars, "again": again, "figure": passage.figure})
    cell = Cell(here.layout.columns[0].value, paragraph(line, here.styles.strong), span=len(here.layout.columns))
    return Section(None, (Block((Row((cell,), space_before=0.5),)),), tuple(_remarks(passage.written, here)))


def _figure_heading(passage: DancedPassage, here: Setter) -> Paragraph | None:
    words = passage.figure
    beside = _unplaced(passage, here)
    if not words and not beside:
        return None
    values = {"figure": words, "first": passage.first, "last": passage.last, "bars": passage.last - passage.first + 1}
    runs = (Run(fill(here.layout.templates.figure, values), here.styles.figure), *_again(passage, here))
    more = (Run(f" \u00b7 {beside}" if words else beside, here.styles.body),) if beside else ()
    return Paragraph((*runs, *more), kind="H2", space_before=here.styles.space,
                     space_after=here.styles.space / 2 if here.styles.space >= 1 else 0.0,
                     outline_level=1 if words else None)


def _unplaced(passage: DancedPassage, here: Setter) -> str:
    """Hold and head lines of a passage where the layout has no columns for them."""
    said_ = []
    if ColumnKey.HOLD not in here.layout.columns:
        said_.append(" ".join(new_hold(here, passage, ())))
    if ColumnKey.HEAD not in here.layout.columns:
        heads = " ".join(new_heads(here, passage.head, {}))
        said_.append(filled(here.speaker.phrases.heads, heads=heads) if heads else "")
    return "; ".join(filter(None, said_))


def _again(passage: DancedPassage, here: Setter) -> tuple[Run, ...]:
    """Which bars these are once more, where a repeat is written out."""
    if passage.repeated is None:
        return ()
    phrases = here.speaker.phrases
    words = bars_phrase(*passage.repeated, phrases.as_bar, phrases.as_bars)
    return (Run(f"  ({words})", here.styles.body),)


def _below(passage: DancedPassage, here: Setter) -> Iterator[Flow]:
    """The diagrams of a passage; its arms and note once, under the last of the pieces written as one."""
    if here.diagrams is not None and here.layout.shows.diagrams:
        yield from here.diagrams(passage)
    yield from called_remarks(passage, here)
    if passage.last >= passage.written.last:
        yield from _remarks(passage.written, here)


def _remarks(written: Passage, here: Setter) -> Iterator[Flow]:
    if written.arms is not None:
        yield paragraph(filled(here.speaker.phrases.arms, arms=written.arms.text), here.styles.italic, before=0.5)
    if written.note is not None and here.layout.shows.notes:
        yield paragraph(with_units(" ".join(written.note.text.split())), here.styles.italic, before=0.5)


TABLES = {Rows.STEPS: sections, Rows.FIGURES: figure_sections}
