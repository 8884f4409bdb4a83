"""An errata slip: the bars that changed, or the whole dance, with what is new and what was.

Nothing depends on colour: a bar at the left marks a row that changed, new words are semi-bold and underlined, and what
they replace follows, struck out, after 'was'. The words alone say it all, for who hears the sheet.
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from notation.dance.compare import BarChange, Comparison, Kind, StepChange
from notation.dance.naming import capital
from notation.dance.pairing import Bar, Turned
from notation.dance.script import PARTS, Worked
from notation.dance.words import Vocabulary
from notation.layout import Layout, Segment
from notation.page.content import (
    Align,
    Block,
    Cell,
    Column,
    Drawing,
    Flow,
    Paper,
    Paragraph,
    Row,
    Rule,
    Run,
    Running,
    Section,
    Story,
    Style,
    Table,
)
from notation.page.fonts import Faces
from notation.page.frame import Artifact, Document, Metadata, PlacedShape
from notation.page.paginate import set_story
from notation.page.path import Path
from notation.plane import Point
from notation.sheet.changes import field_name, told_besides_steps
from notation.sheet.pagewords import page_words
from notation.sheet.phrasing import filled
from notation.sheet.script import margins_of
from notation.sheet.speakers import speaker
from notation.sheet.style import Styles, paragraph, styles
from notation.sheet.telling import value_words
from notation.sheet.toldwords import ErrataWords
from notation.sheet.wording import SEGMENTS, Speaker

OF_SEGMENT = {
    Segment.STEP: ("step", "direction", "joins", "passes"), Segment.PLACE: ("place",), Segment.SIZE: ("size",),
    Segment.WEIGHT: ("weight",), Segment.TRAVEL: ("travel",), Segment.TURN: ("turn",),
    Segment.ALIGNMENT: ("alignment",), Segment.FOOTWORK: ("footwork",), Segment.RISE: ("rise",),
    Segment.BODY: ("body", "sway"), Segment.HEAD: ("head",), Segment.HOLD: ("hold", "position"),
    Segment.REMARKS: ("remarks",),
}
COLUMNS = ("mark", "bar", "count", "gent", "lady")
BAR_WIDTH = 1.4  # points
"""Width of the bar at the left of a row that changed."""


def errata_speaker(words: Vocabulary) -> Speaker:
    """Steps in shorthand, holds and heads among their words."""
    return speaker(words, Layout().wording, (), False, False)


@dataclass(frozen=True, slots=True)
class Marking:
    """How a slip is set: its styles, in which strong words are new and look it, and the words it is printed with."""

    style: Styles
    words: Vocabulary
    to: Speaker
    says: ErrataWords


def errata(found: Comparison, new: Worked, words: Vocabulary, paper: Paper, whole: bool, faces: Faces) -> Document:
    """The slip, or the whole dance marked up. words: those it is printed with. LayoutError where the paper is too
    small."""
    layout, says = Layout(), page_words(words, ErrataWords)
    size = layout.sizes_on(paper.name).most
    style = _marking(styles(layout, size, 1.28))
    by = Marking(style, words, errata_speaker(words), says)
    title = filled(says.title, title=new.dance.title)
    flow = list(_above(found, title, by))
    sections = tuple(_sections(found, whole, by))
    if sections:
        flow.append(Table(tuple(_columns(style, by.to)), sections))
    foot = Running(title, "", by.to.phrases.paging, style.running)
    story = Story(paper, margins_of(layout), style.step, tuple(flow), foot, language=words.language)
    about = Metadata(title, ", ".join(new.dance.arrangers), says.subject, language=words.tag)
    return set_story(story, about, faces)


def _above(found: Comparison, title: str, by: Marking) -> Iterator[Flow]:
    """What stands above the table: how changes are marked, and those that no row of it shows."""
    style, says = by.style, by.says
    told = [f"{capital(change.message)}." for change in told_besides_steps(found, by.words)]
    told += [says.nothing_changed] if found.alike else []
    yield Paragraph((Run(title, style.title),), kind="H1", anchor="top", outline_level=0)
    yield paragraph(says.marks, style.italic, before=0.5, after=0.5 if told else 1.0)
    for number, message in enumerate(told, 1):
        yield paragraph(message, style.body, after=1.0 if number == len(told) else 0.0)


def _marking(style: Styles) -> Styles:
    return replace(style, strong=replace(style.strong, rule=Rule.UNDERLINE))


def _gone(style: Styles) -> Style:
    return replace(style.italic, rule=Rule.STRIKEOUT)


def _columns(style: Styles, to: Speaker) -> Iterator[Column]:
    phrases, wording = to.phrases, to.wording
    heads = {"mark": "", "bar": phrases.column_bar, "count": phrases.column_count, "gent": wording.gent,
             "lady": wording.lady}
    for key in COLUMNS:
        alike = "part" if key in PARTS else ""
        slot = BAR_WIDTH + 1.0 if key == "mark" else 0.0
        yield Column(key, paragraph(heads[key], style.label), alike=alike, slot=slot, gap=9.0 if key != "bar" else 3.0)


def _sections(found: Comparison, whole: bool, by: Marking) -> Iterator[Section]:
    changed = {(id(c.old), id(c.new)): c for c in found.bars}
    figure = ""
    for one, two in found.pairs:
        change = changed.get((id(one), id(two)))
        bar = two or one
        if bar is None or (change is None and not whole):
            continue
        heading = bar.passage.figure if bar.passage.figure != figure else ""
        figure = bar.passage.figure
        runs = tuple(_heading(heading, change, by))
        above = Paragraph(runs, kind="H2", space_before=by.style.space) if runs else None
        yield Section(above, (Block(tuple(_rows(bar, change, by))),))


def _heading(figure: str, change: BarChange | None, by: Marking) -> Iterator[Run]:
    """The figure where it is another than above, and what is said of bars from here on and changed."""
    style, says = by.style, by.says
    said = {name: (old, new) for name, old, new in change.said} if change and change.old and change.new else {}
    if figure or said:
        yield Run(figure, style.figure) if figure else Run(says.from_here, style.italic)
    for number, (name, values) in enumerate(said.items()):
        old, new = (value_words(value, by.words) for value in values)
        own = name == "figure" and figure
        between = " " if number == 0 and not figure else "; "
        called = filled(says.said_of, name=field_name(name, by.words))
        yield Run("" if own else f"{between}{called}", style.body)
        yield Run("" if own else new or says.nothing, style.strong)
        yield from _was(old, by)


def _was(old: str, by: Marking) -> Iterator[Run]:
    """What stood there before, struck out."""
    before, _, after = by.says.was.partition("{old}")
    yield Run(before, by.style.body)
    yield Run(old or by.says.not_said, _gone(by.style) if old else by.style.italic)
    yield Run(after, by.style.body)


def _rows(bar: Bar, change: BarChange | None, by: Marking) -> Iterator[Row]:
    """The moments of a bar; rows that changed bear the bar."""
    moments: dict[tuple[Fraction, str], dict[str, tuple[Turned, StepChange | None]]] = {}
    steps = {id(s.new or s.old): s for s in change.steps} if change else {}
    whole = change is not None and (change.old is None or change.new is None or bool(change.called))
    for part in PARTS:
        gone = [s.old for s in steps.values() if s.part == part and s.kind is Kind.LEFT_OUT and s.old]
        for one in (*bar.steps[part], *gone):
            key = (one.danced.beat, one.danced.count)
            moments.setdefault(key, {})[part] = (one, steps.get(id(one)))
    for number, ((_, count), made) in enumerate(sorted(moments.items(), key=lambda item: item[0][0])):
        marked = whole or any(step for _, step in made.values()) or (number == 0 and change is not None and change.said)
        cells = [Cell("mark", paragraph("", by.style.body), _bar_drawing(by.style))] if marked else []
        if number == 0:
            cells.append(Cell("bar", _bar_number(bar, change, by), header=True))
        cells.append(Cell("count", paragraph(count, by.style.beat, Align.CENTRE)))
        cells += [Cell(part, _words(one, step, change, by)) for part, (one, step) in made.items()]
        yield Row(tuple(cells))


def _bar_number(bar: Bar, change: BarChange | None, by: Marking) -> Paragraph:
    was = _was_bar(change, by.says) if change is not None else ""
    return Paragraph((Run(str(bar.number), by.style.bar), *((Run(was, by.style.small),) if was else ())))


def _was_bar(change: BarChange, says: ErrataWords) -> str:
    if change.old is None:
        return says.new_bar
    if change.new is None:
        return says.old_bar
    return filled(says.was_bar, old=change.old.number) if change.old.number != change.new.number else ""


def _bar_drawing(style: Styles) -> Drawing:
    top, foot = -0.78 * style.step, 0.22 * style.step
    box = Path.polygon(Point(0.0, top), Point(BAR_WIDTH, top), Point(BAR_WIDTH, foot), Point(0.0, foot))
    return Drawing(BAR_WIDTH, 0.78 * style.step, 0.22 * style.step, (PlacedShape(box, Artifact.LAYOUT, fill=0.0),))


def _words(one: Turned, step: StepChange | None, change: BarChange | None, by: Marking) -> Paragraph:
    """A step; step: what became of it, change: of its bar."""
    style, says, said = by.style, by.says, by.to.step(one.step)
    if change is not None and change.new is None:
        return paragraph(said, _gone(style))
    if change is not None and change.old is None:
        return paragraph(said, style.strong)
    if step is not None and step.kind in (Kind.ADDED, Kind.LEFT_OUT):
        gone = step.kind is Kind.LEFT_OUT
        return Paragraph((Run(says.old_step if gone else says.new_step, style.italic),
                          Run(said, _gone(style) if gone else style.strong)))
    if step is None or step.old is None:
        return paragraph(said, style.body)
    return Paragraph(tuple(_marked(one, step, by)))


def _marked(one: Turned, change: StepChange, by: Marking) -> Iterator[Run]:
    """The step's parts in order, what is new marked, with what was there before in brackets."""
    assert change.old is not None
    first, style, to = True, by.style, by.to
    for segment in to.wording.order:
        now, was = (SEGMENTS[segment](to, turned.step) for turned in (one, change.old))
        differs = any(field in change.fields for field in OF_SEGMENT[segment]) and now != was
        if not now and not (differs and was):
            continue
        yield Run("" if first else " " if segment in to.wording.tied else to.wording.separator, style.body)
        first = False
        yield Run(now or by.says.nothing, style.strong if differs else style.body)
        if differs:
            yield from _was(was, by)
    if change.old.danced.count != one.danced.count:
        yield Run(filled(by.says.was_count, old=change.old.danced.count), style.body)
