"""An errata slip: the bars that changed, or the whole dance, with what is new and what was.

Nothing depends on colour: a bar at the left marks a row that changed, new words are semi-bold and underlined, and what
they replace follows, struck out, after 'was'. The words alone say it all, for who hears the sheet.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from notation.dance.compare import BarChange, Comparison, Kind, StepChange
from notation.dance.knowledge import Knowledge
from notation.dance.pairing import Bar, Turned
from notation.dance.script import PARTS, Worked
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
from notation.sheet.changes import Told
from notation.sheet.script import margins_of
from notation.sheet.speakers import speaker
from notation.sheet.style import Styles, paragraph, styles
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


def errata_speaker(knowledge: Knowledge) -> Speaker:
    """Steps in shorthand, holds and heads among their words."""
    return speaker(knowledge.vocabulary, Layout().wording, (), False, False)


def errata(
    found: Comparison, new: Worked, knowledge: Knowledge, changes: Sequence[Told], paper: Paper, whole: bool,
    faces: Faces,
) -> Document:
    """The slip, or the whole dance marked up. LayoutError where the paper is too small."""
    layout, to = Layout(), errata_speaker(knowledge)
    size = layout.sizes_on(paper.name).most
    style = _marking(styles(layout, size, 1.28))
    title = f"{new.dance.title}: changes"
    flow: list[Flow] = [Paragraph((Run(title, style.title),), kind="H1", anchor="top", outline_level=0)]
    flow.append(paragraph("A bar at the left marks a row that changed; new words are underlined, what they replace "
                          "is struck out after 'was'.", style.italic, before=0.5, after=0.5))
    flow += [paragraph(change.message[:1].upper() + change.message[1:] + ".", style.body) for change in changes
             if change.count is None]
    if not changes:
        flow.append(paragraph("Nothing changed.", style.body))
    flow[-1] = replace(flow[-1], space_after=1.0) if isinstance(flow[-1], Paragraph) else flow[-1]
    sections = tuple(_sections(found, whole, to, style))
    if sections:
        flow.append(Table(tuple(_columns(style, to)), sections))
    foot = Running(title, "", "page {page} of {pages}", style.running)
    story = Story(paper, margins_of(layout), style.step, tuple(flow), foot, language=knowledge.vocabulary.language)
    author = ", ".join(new.dance.arrangers)
    return set_story(story, Metadata(title=title, author=author, subject="Changes to a sequence dance"), faces)


def _marking(style: Styles) -> Styles:
    """Styles in which strong words are new, and look it."""
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


def _sections(found: Comparison, whole: bool, to: Speaker, style: Styles) -> Iterator[Section]:
    changed = {(id(c.old), id(c.new)): c for c in found.bars}
    figure = ""
    for one, two in found.pairs:
        change = changed.get((id(one), id(two)))
        bar = two or one
        if bar is None or (change is None and not whole):
            continue
        heading = bar.passage.figure if bar.passage.figure != figure else ""
        figure = bar.passage.figure
        runs = tuple(_heading(heading, change, style))
        above = Paragraph(runs, kind="H2", space_before=style.space) if runs else None
        yield Section(above, (Block(tuple(_rows(bar, change, to, style))),))


def _heading(figure: str, change: BarChange | None, style: Styles) -> Iterator[Run]:
    """The figure where it is another than above, and what is said of bars from here on and changed."""
    said = {name: (old, new) for name, old, new in change.said} if change and change.old and change.new else {}
    if figure or said:
        yield Run(figure, style.figure) if figure else Run("From here on", style.italic)
    for number, (name, (old, new)) in enumerate(said.items()):
        own = name == "figure" and figure
        between = " " if number == 0 and not figure else "; "
        yield Run("" if own else f"{between}{name} ", style.body)
        yield Run("" if own else new or "nothing", style.strong)
        yield Run(" (was ", style.body)
        yield Run(old or "not said", _gone(style) if old else style.italic)
        yield Run(")", style.body)


def _rows(bar: Bar, change: BarChange | None, to: Speaker, style: Styles) -> Iterator[Row]:
    """The moments of a bar; rows that changed bear the bar."""
    moments: dict[tuple[Fraction, str], dict[str, tuple[Turned, StepChange | None]]] = {}
    steps = {id(s.new or s.old): s for s in change.steps} if change else {}
    whole = change is not None and (change.old is None or change.new is None or bool(change.called))
    for part in PARTS:
        gone = [s.old for s in steps.values() if s.part == part and s.kind is Kind.LEFT_OUT and s.old]
        for one in (*bar.steps[part], *gone):
            key = (one.danced.beat, one.danced.count)
            moments.setdefault(key, {})[part] = (one, steps.get(id(one)))
    word = "" if change is None or (change.old and change.new) else "left out" if change.new is None else "new"
    for number, ((_, count), made) in enumerate(sorted(moments.items(), key=lambda item: item[0][0])):
        marked = whole or any(step for _, step in made.values()) or (number == 0 and change is not None and change.said)
        cells = [Cell("mark", paragraph("", style.body), _bar_drawing(style))] if marked else []
        if number == 0:
            cells.append(Cell("bar", _bar_number(bar, change, word, style), header=True))
        cells.append(Cell("count", paragraph(count, style.beat, Align.CENTRE)))
        cells += [Cell(part, _words(one, step, word, to, style)) for part, (one, step) in made.items()]
        yield Row(tuple(cells))


def _bar_number(bar: Bar, change: BarChange | None, word: str, style: Styles) -> Paragraph:
    moved = change is not None and change.old and change.new and change.old.number != change.new.number
    was = f" (was {change.old.number})" if moved and change and change.old else f" {word}" if word else ""
    return Paragraph((Run(str(bar.number), style.bar), *((Run(was, style.small),) if was else ())))


def _bar_drawing(style: Styles) -> Drawing:
    top, foot = -0.78 * style.step, 0.22 * style.step
    box = Path.polygon(Point(0.0, top), Point(BAR_WIDTH, top), Point(BAR_WIDTH, foot), Point(0.0, foot))
    return Drawing(BAR_WIDTH, 0.78 * style.step, 0.22 * style.step, (PlacedShape(box, Artifact.LAYOUT, fill=0.0),))


def _words(one: Turned, change: StepChange | None, word: str, to: Speaker, style: Styles) -> Paragraph:
    if word or (change and change.kind in (Kind.ADDED, Kind.LEFT_OUT)):
        gone = word == "left out" or (change is not None and change.kind is Kind.LEFT_OUT)
        label = "left out: " if gone else "added: "
        looks = _gone(style) if gone else style.strong
        return Paragraph((Run("" if word else label, style.italic), Run(to.step(one.step), looks)))
    if change is None or change.old is None:
        return paragraph(to.step(one.step), style.body)
    return Paragraph(tuple(_marked(one, change, to, style)))


def _marked(one: Turned, change: StepChange, to: Speaker, style: Styles) -> Iterator[Run]:
    """The step's parts in order, what is new bold, with what was there before in brackets."""
    assert change.old is not None
    first = True
    for segment in to.wording.order:
        now, was = (SEGMENTS[segment](to, turned.step) for turned in (one, change.old))
        differs = any(field in change.fields for field in OF_SEGMENT[segment]) and now != was
        if not now and not (differs and was):
            continue
        yield Run("" if first else " " if segment in to.wording.tied else to.wording.separator, style.body)
        first = False
        yield Run(now or "nothing", style.strong if differs else style.body)
        if differs:
            yield Run(" (was ", style.body)
            yield Run(was or "not said", _gone(style) if was else style.italic)
            yield Run(")", style.body)
    if change.old.danced.count != one.danced.count:
        yield Run(f" (was on count {change.old.danced.count})", style.body)
