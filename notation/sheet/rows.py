"""Bars as rows: what both partners do at the same moment stands side by side.

A bar is a block. Its number stands on its first row only; holds and head lines are printed where they change.
"""
from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import partial

from notation.dance.feet import TurnOut
from notation.dance.room import Room
from notation.dance.script import GENT, LADY, Danced, DancedPassage, Heads, Worked
from notation.dance.step import HeadLine
from notation.dance.turning import aligned_step
from notation.kept import SHORT, Kept, Same
from notation.layout import ColumnKey, Layout
from notation.page.content import Align, Block, Cell, Drawing, Flow, Paragraph, Row, Run
from notation.sheet.footprint import Footprint, footprint
from notation.sheet.sayings import count_runs, head_pieces
from notation.sheet.style import Styles, paragraph
from notation.sheet.tracks import facings, footprint_of
from notation.sheet.wording import Held, Speaker, Used, changed_hold

Diagrams = Callable[[DancedPassage], tuple[Flow, ...]]
Facings = dict[str, dict[tuple[int, Fraction], Room]]
"""Where each dancer faces at the end of each step, by part, bar and beat."""
PART_COLUMNS = {ColumnKey.GENT: GENT, ColumnKey.LADY: LADY}


@dataclass(frozen=True, slots=True)
class Moment:
    """What happens at one count: a step of either partner or of both. facing: where each ends, by part."""

    bar: int
    beat: Fraction
    count: str
    steps: dict[str, Danced]
    facing: dict[str, Room]


@dataclass(slots=True)
class Setter:
    """What setting rows needs, and what it has printed so far.

    manner: as of `manner`. hold, head: last printed. prints: the footprints drawn, in order, for the key. diagrams:
    what is drawn under a passage where the layout shows diagrams.
    """

    layout: Layout
    styles: Styles
    speaker: Speaker
    worked: Worked
    parts: tuple[str, ...]
    manner: object
    hold: Held = (None, None)
    head: tuple[str, ...] = ()
    prints: dict[Footprint, None] = field(default_factory=dict)
    diagrams: Diagrams | None = None


def manner(layout: Layout, to: Styles, says: Speaker, feet: TurnOut | None) -> object:
    """Stands for what rows depend on besides their passage and what was printed before them: the same object for equal
    values. feet: how the dance turns them out."""
    voice = (says.wording, says.phrases, Same(says.words), Same(says.names), says.held_apart, says.head_apart)
    return MANNERS.get((layout, replace(to, space=0.0), feet, voice), object)


def parts_of(layout: Layout) -> tuple[str, ...]:
    """The parts that have a column."""
    return tuple(PART_COLUMNS[key] for key in layout.columns if key in PART_COLUMNS)


def all_facings(worked: Worked, parts: Sequence[str]) -> Facings:
    """Where each dancer faces at the end of each step, by part, bar and beat."""
    stances = {GENT: worked.start.gent, LADY: worked.start.lady}
    return {
        part: {(d.bar, d.beat): room for d, room in zip(worked.steps(part), facings(worked.steps(part), stances[part]),
                                                        strict=True)}
        for part in parts
    }


def moments(passage: DancedPassage, parts: Sequence[str], facing: Facings
            ) -> list[Moment]:
    """The counts of a passage in order; partners whose counts differ at one beat have a row each."""
    found: dict[tuple[int, Fraction, str], Moment] = {}
    for part in parts:
        for danced in passage.part(part):
            key = (danced.bar, danced.beat, danced.count)
            moment = found.setdefault(key, Moment(*key, {}, {}))
            moment.steps[part] = danced
            moment.facing[part] = facing[part][danced.bar, danced.beat]
    return sorted(found.values(), key=lambda m: (m.bar, m.beat))


@dataclass(frozen=True, slots=True)
class _Printed:
    """The bars of a passage as blocks, and what printing them leaves behind in a Setter and its speaker."""

    blocks: tuple[Block, ...]
    hold: Held
    head: tuple[str, ...]
    prints: dict[Footprint, None]
    used: Used


MANNERS: Kept[object] = Kept(64)
PRINTED: Kept[_Printed] = Kept(160)
"""Passages as they were printed last, in several sizes."""


def blocks(passage: DancedPassage, here: Setter, facing: Facings) -> tuple[Block, ...]:
    """The bars of a passage as blocks; steps written beyond its last bar have theirs too."""
    steps = [(part, danced) for part in here.parts for danced in passage.part(part)]
    rooms = tuple(facing[part][danced.bar, danced.beat] for part, danced in steps)
    key = (Same(passage), rooms, here.hold, here.head, here.manner)
    make = partial(_print, passage, here, facing)
    made = PRINTED.get(key, make) if len(steps) <= SHORT else make()
    here.hold, here.head = made.hold, made.head
    here.prints.update(made.prints)
    here.speaker.used.update(made.used)
    return made.blocks


def _print(passage: DancedPassage, here: Setter, facing: Facings) -> _Printed:
    """The same with nothing changed here."""
    apart = replace(here, speaker=here.speaker.apart(), prints={})
    by_bar: dict[int, list[Moment]] = {bar: [] for bar in range(passage.first, passage.last + 1)}
    for moment in moments(passage, apart.parts, facing):
        by_bar.setdefault(moment.bar, []).append(moment)
    made = tuple(Block(tuple(_bar_rows(bar, by_bar[bar], passage, apart))) for bar in sorted(by_bar))
    return _Printed(made, apart.hold, apart.head, apart.prints, apart.speaker.used)


def _bar_rows(bar: int, found: Sequence[Moment], passage: DancedPassage, here: Setter) -> Iterator[Row]:
    """The rows of a bar; what changes in hold and head runs down beside the rows below, so that no row grows for it."""
    first = (bar_cell(str(bar), here),) if ColumnKey.BAR in here.layout.columns else ()
    if not found:
        yield Row((*first, *_held(here)))
        return
    opens = [passage if k == 0 and bar == passage.first else None for k in range(len(found))]
    sides = [
        _spread(key, [words(moment, opened, here) for moment, opened in zip(found, opens, strict=True)], here)
        for key, words in SIDES.items()
        if key in here.layout.columns
    ]
    for number, moment in enumerate(found):
        beside = (cell for column in sides for cell in column[number])
        yield Row((*(first if number == 0 else ()), *_moment_cells(moment, here), *beside))


def _spread(key: ColumnKey, said: Sequence[tuple[str, ...]], here: Setter) -> list[list[Cell]]:
    """Cells of one column, a list a row: each may run down beside the rows in which nothing new is said."""
    cells: list[list[Cell]] = []
    for number, pieces in enumerate(said):
        deep = next((k for k in range(1, len(said) - number) if said[number + k]), len(said) - number)
        words = paragraph(" ".join(pieces), here.styles.body)
        cells.append([Cell(key.value, words, deep=deep)] if pieces else [])
    return cells


def bar_cell(text: str, here: Setter) -> Cell:
    return Cell(ColumnKey.BAR.value, paragraph(text, here.styles.bar), header=True)


def _held(here: Setter) -> Iterator[Cell]:
    """A bar in which nothing begins, because the last step lasts through it."""
    for part in here.parts[:1]:
        yield Cell(part, paragraph(here.speaker.phrases.held, here.styles.italic))


def _moment_cells(moment: Moment, here: Setter) -> Iterator[Cell]:
    for key in here.layout.columns:
        if key is ColumnKey.COUNT:
            yield Cell(key.value, count_paragraph(moment.count, here))
        elif key in PART_COLUMNS:
            yield from _part_cell(moment, PART_COLUMNS[key], here)


def count_paragraph(count: str, here: Setter) -> Paragraph:
    """The count centred, '&', 'e' and 'a' smaller."""
    styles = here.styles
    runs = tuple(Run(text, styles.count if small else styles.beat) for text, small in count_runs(count))
    return Paragraph(runs, Align.CENTRE)


def _part_cell(moment: Moment, part: str, here: Setter) -> Iterator[Cell]:
    danced = moment.steps.get(part)
    if danced is None:
        return
    facing = moment.facing[part]
    step = aligned_step(danced.step, facing) if here.layout.shows.alignments else danced.step
    words = here.speaker.step(step)
    yield Cell(part, paragraph(words, here.styles.body), _drawing(danced, facing, here))


def _drawing(danced: Danced, facing: Room, here: Setter) -> Drawing | None:
    if not here.layout.shows.glyphs:
        return None
    shown = footprint_of(danced.step, facing, here.worked.dance.feet)
    if shown is None:
        return None
    here.prints[shown] = None
    return footprint(shown, here.styles.glyph)


def _hold_words(moment: Moment, opened: DancedPassage | None, here: Setter) -> tuple[str, ...]:
    return new_hold(here, opened, tuple(moment.steps.values()))


def new_hold(here: Setter, opened: DancedPassage | None, steps: Sequence[Danced]) -> tuple[str, ...]:
    """What is new in position and hold at the beginning of a passage or on steps."""
    position, hold = before = here.hold
    if opened is not None:
        position, hold = opened.position or position, opened.hold or hold
    for danced in steps:
        position, hold = danced.step.position or position, danced.step.hold or hold
    here.hold = (position, hold)
    return changed_hold(here.speaker, before, here.hold)


def _head_words(moment: Moment, opened: DancedPassage | None, here: Setter) -> tuple[str, ...]:
    own = {part: danced.step.head for part, danced in moment.steps.items()}
    return new_heads(here, opened.head if opened is not None else Heads(), own)


def new_heads(here: Setter, heads: Heads, own: Mapping[str, HeadLine | None]) -> tuple[str, ...]:
    """Head lines that differ from those printed last. own: said on steps, by part."""
    gent = (own.get(GENT) or heads.gent) if GENT in here.parts else None
    lady = (own.get(LADY) or heads.lady) if LADY in here.parts else None
    words = head_pieces(here.speaker, gent, lady, alone=len(here.parts) == 1)
    if not words or words == here.head:
        return ()
    here.head = words
    return words


SIDES = {ColumnKey.HOLD: _hold_words, ColumnKey.HEAD: _head_words}
