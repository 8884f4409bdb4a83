"""Teaching cards: one figure each, with its steps in shorthand and in words, footprints, positions, rise and care."""
from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from notation.dance.call import Wanted
from notation.dance.calling import piece_of
from notation.dance.feet import Foot, Place, TurnOut
from notation.dance.figure import Figure as Dancing
from notation.dance.floor import dance_floor
from notation.dance.knowledge import Knowledge
from notation.dance.mark import NOWHERE, Said
from notation.dance.metre import Metre
from notation.dance.naming import capital
from notation.dance.script import GENT, LADY, PARTS, Call, Dance, Danced, DancedPassage, Passage, Start, Worked
from notation.dance.words import Vocabulary
from notation.page.content import (
    Align,
    Block,
    Cell,
    Column,
    Drawing,
    Figure,
    FigureRow,
    Flow,
    Margins,
    PageBreak,
    Paper,
    Paragraph,
    Particulars,
    Row,
    Run,
    Running,
    Section,
    Story,
    Style,
    Table,
)
from notation.sheet.cardwords import foot_in_place, heading_words, particulars, rise_words
from notation.sheet.diagram import floor_diagram
from notation.sheet.feetchart import level, position_drawing
from notation.sheet.figurewords import figure_speaker, step_words
from notation.sheet.floorwords import described, lettered
from notation.sheet.footprint import footprint, footprint_room
from notation.sheet.pagewords import CardWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.riseline import rise_drawing
from notation.sheet.sayings import count_runs, person
from notation.sheet.style import ITALIC, REGULAR, SEMIBOLD
from notation.sheet.tracks import facings, footprint_of
from notation.sheet.wording import Speaker

TITLE, SUB, BODY, SMALL = Style(SEMIBOLD, 17.0), Style(REGULAR, 9.5, 0.32), Style(REGULAR, 9.0), Style(REGULAR, 8.0)
STRONG, LABEL, GREY = Style(SEMIBOLD, 9.5), Style(SEMIBOLD, 8.0, 0.32), Style(REGULAR, 8.0, 0.25)
STEP = 12.0
GLYPH = 13.0
FOOT_LENGTH = 27.0
MARGIN = 40.0
LETTERING = (SEMIBOLD, 7.0, 0.055)  # face, size in points, points for a millimetre
GAP, LETTER = 16.0, 4.0  # points: between drawings, and for a letter of the words under them
UNSAID = ("as the steps", "no source found", "the usual ones")
"""Words of a file about values that the card does not show, or whose source it has named already."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A figure with what each part of it dances. words: those it is printed with."""

    figure: Dancing
    steps: dict[str, tuple[Danced, ...]]
    knowledge: Knowledge
    words: Vocabulary

    @property
    def says(self) -> CardWords:
        return page_words(self.words, CardWords)

    @property
    def speaker(self) -> Speaker:
        return figure_speaker(self.words, False)

    @property
    def metre(self) -> Metre:
        return self.figure.metre


def shown(figure: Dancing, knowledge: Knowledge, words: Vocabulary) -> Shown:
    """The figure as it is danced from its own foot and alignment."""
    wanted = Wanted(figure, Call(Said(figure.name), (), NOWHERE))
    parts = PARTS if figure.lady is not None else (GENT,)
    return Shown(figure, {part: piece_of(wanted, part).steps for part in parts}, knowledge, words)


def card_story(cards: Sequence[tuple[Flow, ...]], paper: Paper, breaks: Sequence[bool], words: Vocabulary) -> Story:
    """Cards one after the other. breaks: whether each begins a new page. words: those they are printed with."""
    flow: list[Flow] = []
    for card, new_page in zip(cards, breaks, strict=True):
        flow += [PageBreak()] if new_page and flow else []
        flow += card
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    foot = Running("", "", page_words(words, CardWords).paging)
    return Story(paper, margins, STEP, tuple(flow), foot, language=words.tag)


def card(figure: Dancing, knowledge: Knowledge, measure: float, words: Vocabulary) -> tuple[Flow, ...]:
    """One card. measure: its width in points. words: those it is printed with."""
    this = shown(figure, knowledge, words)
    return tuple((*_heading(this), _steps(this, measure), *_pictures(this, measure), *_care(this)))


def _say(text: str, style: Style = BODY, before: float = 0.0, after: float = 0.0) -> Paragraph:
    return Paragraph((Run(text, style),), space_before=before, space_after=after)


def title_of(figure: Dancing) -> str:
    return capital(figure.name)


def _heading(this: Shown) -> Iterator[Flow]:
    figure = this.figure
    yield Paragraph((Run(title_of(figure), TITLE),), kind="H1", space_before=1.0, anchor=_anchor(figure),
                    outline_level=0)
    yield _say(heading_words(figure, this.words), SUB)
    said = particulars(figure, tuple(this.steps), this.words)
    pairs = tuple((_say(label, LABEL), _say(text)) for label, text in said)
    yield Particulars(pairs, space_before=0.5, space_after=0.5)
    for label, text in ((this.says.arms, figure.arms), (this.says.note, figure.note)):
        if text:
            yield Paragraph((Run(f"{label}  ", LABEL), Run(text.rstrip(".") + ".", BODY)), space_after=0.5)


def _anchor(figure: Dancing) -> str:
    return f"card-{'-'.join(figure.name.lower().split())}-{'-'.join(figure.rhythms[:1])}".replace(" ", "-")


def _steps(this: Shown, measure: float) -> Table:
    """A row of shorthand for each count, and under it the same in words."""
    narrow = len(this.steps) > 1
    room = (measure - 60.0) / len(this.steps) - 12.0
    names = {part: person(this.speaker, part) if narrow else this.says.steps for part in this.steps}
    columns = (
        Column("count", Paragraph((Run(this.speaker.phrases.column_count, LABEL),), Align.CENTRE), least=34.0, gap=4.0),
        *(Column(part, _say(name, LABEL), least=min(150.0, room), most=room, alike="part" if narrow else "",
                 slot=footprint_room(GLYPH) + 3.0, gap=8.0) for part, name in names.items()),
    )
    blocks = tuple(Block(tuple(_bar(this, bar))) for bar in range(1, math.ceil(this.figure.bars) + 1))
    return Table(columns, (Section(None, blocks),))


def _bar(this: Shown, bar: int) -> Iterator[Row]:
    moments: dict[tuple[Fraction, str], dict[str, Danced]] = {}
    for part, steps in this.steps.items():
        for one in steps:
            if one.bar == bar:
                moments.setdefault((one.beat, one.count), {})[part] = one
    feet = {part: _facing(this, part) for part in this.steps}
    for (_, count), made in sorted(moments.items(), key=lambda item: item[0][0]):
        runs = tuple(Run(text, SMALL if small else STRONG) for text, small in count_runs(count))
        cells = [Cell(part, _said(this, one, part), feet[part](one)) for part, one in made.items()]
        yield Row((Cell("count", Paragraph(runs, Align.CENTRE), header=True), *cells), space_before=0.5)


def _said(this: Shown, one: Danced, part: str) -> Paragraph:
    """The step in shorthand, then in words, then what a teacher says of it."""
    short, words = (step_words(one.step, this.words, shorthand) for shorthand in (True, False))
    hints = _hints(this, one, part)
    hinted = (Run(f" {' '.join(hints)}", Style(ITALIC, 8.0)),) if hints else ()
    return Paragraph((Run(f"{short}. ", STRONG), Run(f"{words}.", GREY), *hinted))


def _hints(this: Shown, one: Danced, part: str) -> list[str]:
    """What a teacher says of the first step on that count; what is said of the gent stands with his steps only."""
    first = next(d for d in this.steps[part] if (d.bar, d.count) == (one.bar, one.count))
    said = [text for bar, count, text in this.figure.hints if (bar, count) == (one.bar, one.count) and one is first]
    return [text for text in said if part == GENT or "gent" not in text.lower()]


def _facing(this: Shown, part: str) -> Callable[[Danced], Drawing | None]:
    rooms = dict(zip(map(id, this.steps[part]), facings(this.steps[part], this.figure.part(part).start), strict=True))

    def drawn(one: Danced) -> Drawing | None:
        print_ = footprint_of(one.step, rooms[id(one)], this.figure.feet)
        return footprint(print_, GLYPH) if print_ else None

    return drawn


def _pictures(this: Shown, measure: float) -> Iterator[Flow]:
    """The positions of the feet, and the line of rise and fall."""
    figures = [_place_figure(place, foot, this) for place, foot in _places(this)]
    for part, steps in this.steps.items():
        alt = rise_words(steps, this.words)
        line = rise_drawing(steps, this.metre.beats, Style(REGULAR, 8.0), measure / 2 - 12.0, alt)
        if line is not None and (part == GENT or not _same_rise(this)):
            figures.append(Figure(line, _say(_rise_of(this, part), SMALL)))
    floor = tuple(_on_floor(this))
    together = sum(map(_width, (*figures, *floor))) <= measure
    for row in ((*figures, *floor),) if together else (tuple(figures), floor):
        if row:
            yield FigureRow(tuple(level(row)), gap=GAP, space_before=0.5)


def _rise_of(this: Shown, part: str) -> str:
    """The words under the line of a part, which is named where the two differ."""
    if len(this.steps) == 1 or _same_rise(this):
        return this.says.rise
    return filled(this.says.rise_of_part, dancer=this.speaker.within(person(this.speaker, part)))


def _width(figure: Figure) -> float:
    """Points that a figure takes in its row, its words included."""
    words = len(figure.caption.text) * LETTER if figure.caption else 0.0
    return max(figure.drawing.width, words) + GAP


def _on_floor(this: Shown) -> Iterator[Figure]:
    """Where the feet go on the floor, bar by bar."""
    worked, parts = as_dance(this), tuple(this.steps)
    floor, says, to = dance_floor(worked, this.knowledge), this.says, this.speaker
    for bar in range(1, worked.dance.length + 1):
        alt = f"{filled(to.phrases.bar, first=bar)}: {described(floor, bar, to, parts)}"
        drawing = floor_diagram(floor, range(bar, bar + 1), parts, lettered(to.phrases, *LETTERING), alt)
        if drawing is not None:
            form = says.bar_on_floor if worked.dance.length > 1 else says.on_floor
            yield Figure(drawing, _say(filled(form, bar=bar), SMALL))


def as_dance(this: Shown) -> Worked:
    """The figure as a dance of its own, for what is worked out of a dance."""
    figure, last = this.figure, math.ceil(this.figure.bars)
    lady = figure.lady.start if figure.lady is not None else None
    position = Said(figure.positions[0] if figure.positions else "closed")
    start = Start(position if lady else None, None, figure.gent.start, lady)
    dance = Dance(figure.name, (), None, None, None, figure.metre, None, None, last, figure.feet, "", "", start, ())
    steps = {part: this.steps.get(part, ()) for part in PARTS}
    passage = DancedPassage(Passage(1, last), 1, last, figure.name, steps[GENT], steps[LADY], start.position, None)
    return Worked(dance, start, figure.metre, (passage,))


def _same_rise(this: Shown) -> bool:
    lines = [[(one.bar, one.beat, [r for r in one.step.rise if r.value != "no-foot-rise"]) for one in steps]
             for steps in this.steps.values()]
    return all(line == lines[0] for line in lines)


def _places(this: Shown) -> Iterator[tuple[Place, Foot]]:
    """The positions of the feet that the start and the steps name, each once."""
    start = this.figure.gent.start
    named = [(start.place, start.foot), *((one.step.place, one.step.foot) for one in this.steps[GENT])]
    seen: dict[tuple[Place, Foot], None] = {}
    for place, foot in named:
        if place is not None and place.position and foot in (Foot.LEFT, Foot.RIGHT) and place.aerial is None:
            seen.setdefault((place, foot))
    yield from seen


def _place_figure(place: Place, foot: Foot, this: Shown) -> Figure:
    name = foot_in_place(place, foot, this.words)
    return Figure(position_drawing(place, foot, this.figure.feet, FOOT_LENGTH, name), _say(name, SMALL))


def _care(this: Shown) -> Iterator[Flow]:
    """What goes wrong and what to take care of. Forced turn-out goes with injuries of back and legs (J Orthop Sports
    Phys Ther 2002;32(11):579-84)."""
    figure, says = this.figure, this.says
    cautions = (*figure.cautions, says.turn_out if figure.feet is TurnOut.TURNED_OUT else says.health)
    for heading, texts in ((says.faults, figure.faults), (says.care, cautions)):
        if texts:
            runs = [Run(f"{heading}. ", Style(SEMIBOLD, 8.5))]
            runs += [Run(text.rstrip(".") + ". ", Style(REGULAR, 8.5)) for text in texts]
            yield Paragraph(tuple(runs), space_before=0.5)
    said = "; ".join(f"{what}: {where}" for what, where in figure.sources if not where.startswith(UNSAID))
    yield _say(filled(says.sources, sources=said), Style(REGULAR, 7.0, 0.3), 0.5, 1.0)


def with_breaks(
    cards: Sequence[tuple[Flow, ...]], fits: Callable[[Sequence[tuple[Flow, ...]]], bool]
) -> tuple[bool, ...]:
    """Which cards begin a new page so that none is parted: fits(cards) says whether cards stand on one page."""
    breaks: list[bool] = []
    page: list[tuple[Flow, ...]] = []
    for one in cards:
        room = not page or fits([*page, one])
        page = [*page, one] if room else [one]
        breaks.append(not room)
    return tuple(breaks)

