"""A layout as plain data: what a sheet shows, in which order, how large and in which words.

The shipped layouts are files of the folder `layouts`; a writer's own file has the same form. Lengths are points
unless their names say otherwise.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass, field


class ColumnKey(enum.Enum):
    """What a column of the table can show."""

    BAR = "bar"
    COUNT = "count"
    GENT = "gent"
    LADY = "lady"
    HOLD = "hold"
    HEAD = "head"
    FIGURE = "figure"


class Rows(enum.Enum):
    """What a row of the table is: a step, or a whole figure (for a caller)."""

    STEPS = "steps"
    FIGURES = "figures"


class Repeats(enum.Enum):
    """How bars danced again are printed."""

    INSTRUCTION = "instruction"
    WRITTEN_OUT = "written out"


class Calls(enum.Enum):
    """How a figure that is called by name is printed under its heading."""

    WRITTEN_OUT = "written out"
    BY_NAME = "by name"


class Segment(enum.Enum):
    """The parts of a step's words, in an order that the layout gives."""

    STEP = "step"
    PLACE = "place"
    SIZE = "size"
    WEIGHT = "weight"
    TRAVEL = "travel"
    TURN = "turn"
    ALIGNMENT = "alignment"
    FOOTWORK = "footwork"
    RISE = "rise"
    BODY = "body"
    HEAD = "head"
    HOLD = "hold"
    REMARKS = "remarks"


@dataclass(frozen=True, slots=True)
class Sizes:
    """Type size of the steps in points, least and most; and the baseline step as a multiple of the size."""

    least: float = 8.5
    most: float = 9.5
    leading: float = 1.28


@dataclass(frozen=True, slots=True)
class FaceNames:
    """Faces of the fonts folder, by their use."""

    regular: str = "SourceSans3-Regular"
    semibold: str = "SourceSans3-SemiBold"
    bold: str = "SourceSans3-Bold"
    italic: str = "SourceSans3-Italic"


@dataclass(frozen=True, slots=True)
class Borders:
    """Margins of the page in millimetres."""

    top: float = 13.0
    bottom: float = 15.5
    inner: float = 15.0
    outer: float = 14.0


@dataclass(frozen=True, slots=True)
class Wording:
    """How a step is put into words.

    order: its parts; those in `tied` follow the part before after a space instead of the separator.
    """

    shorthand: bool = True
    gent: str = "Gent"
    lady: str = "Lady"
    order: tuple[Segment, ...] = tuple(Segment)
    tied: tuple[Segment, ...] = (Segment.PLACE, Segment.REMARKS)
    separator: str = ", "


@dataclass(frozen=True, slots=True)
class Phrases:
    """Words of the sheet that belong to no step. `{name}` is filled in."""

    turn: str = "{amount} to {side}"
    turn_short: str = "{amount} {side}"
    commence: str = "{commence} {side}"
    heads: str = "head {heads}"
    only_hold: str = "{hold} hold"
    free: str = "free"
    held: str = "(held)"
    rhythm: str = "Rhythm"
    time: str = "Time"
    tempo: str = "Tempo"
    length: str = "Length"
    introduction: str = "Introduction"
    music: str = "Music"
    year: str = "Year"
    running: str = "Running time"
    start: str = "Start"
    tempo_value: str = "{tempo} bars a minute"
    bars_value: str = "{bars} bars"
    bar_value: str = "{bars} bar"
    running_value: str = "{bars} bars at {tempo}: {once}"
    running_through: str = "{times} times through with {introduction} bars in: {all}"
    arrangers: str = "Arranged by {names}"
    and_: str = "and"
    bars: str = "Bars {first}\u2013{last}"
    bar: str = "Bar {first}"
    as_bars: str = "as bars {first}\u2013{last}"
    as_bar: str = "as bar {first}"
    opposite_feet: str = "on opposite feet"
    exchange_parts: str = "parts exchanged"
    arms: str = "Arms: {arms}"
    called_note: str = "({number}) {figure}: steps as in the library of figures"
    line_of_dance: str = "LOD"
    start_drawing: str = "Start: {gent_name} {gent}; {lady_name} {lady}. Up the page is the line of dance."
    column_bar: str = "Bar"
    column_count: str = "Count"
    column_hold: str = "Hold"
    column_head: str = "Head"
    column_figure: str = "Figure"
    key: str = "Footprints: up the page is the line of dance, the wall is at the right"
    words_key: str = "Short words"
    key_drawing: str = "footprint"
    key_left: str = "left foot"
    key_right: str = "right foot"
    key_both: str = "both feet"
    key_weight: str = "bears weight"
    key_touch: str = "no weight"
    key_air: str = "off the floor"
    key_ball: str = "toe or ball bears"
    key_heel: str = "heel bears"
    key_inside: str = "inside edge bears"
    key_outside: str = "outside edge bears"
    key_touch_ball: str = "toe touches"
    key_touch_heel: str = "heel touches"
    key_course: str = "moves that way"
    key_close: str = "closes to the other foot"
    key_cross_front: str = "crosses in front"
    key_cross_behind: str = "crosses behind"
    key_place: str = "in place"
    key_spring: str = "springs or hops"
    key_circle: str = "circles"
    key_turn: str = "turns as far as the arc"


@dataclass(frozen=True, slots=True)
class Templates:
    """Lines that are filled in from the dance. `{title}`, `{arranger}`, `{page}`, `{pages}` and the like are put in as
    they stand; a line with `{{` or `{%` is a Jinja template and runs in a sandbox."""

    title: str = "{title}"
    arranger: str = "{arranger}"
    figure: str = "{figure}"
    repeat: str = "{bars}: {again}"
    foot_left: str = "{title}"
    foot_middle: str = "{arranger}"
    foot_right: str = "page {page} of {pages}"
    head_left: str = ""
    head_right: str = ""


@dataclass(frozen=True, slots=True)
class Shows:
    """What stands on a sheet besides its table."""

    arranger: bool = True
    particulars: bool = True
    start: bool = True
    glyphs: bool = True
    notes: bool = True
    key: bool = True
    diagrams: bool = False
    cautions: bool = False
    source: bool = True


@dataclass(frozen=True, slots=True)
class Layout:
    """How a dance is set.

    sizes: by the name of a paper, '' for any other. pages: pages wanted, None for as few as the sizes allow.
    glyph: height of the footprints as a multiple of the type size. small: size of labels and keys, likewise. grey: ink
    of labels from 0, black, to 1, white (at 0.32 the contrast is 8:1; WCAG 2.2, 1.4.3 asks for 4.5:1).
    """

    name: str = "script"
    summary: str = "The standard sheet: both parts side by side."
    paper: str = "A4"
    landscape: bool = False
    columns: tuple[ColumnKey, ...] = (
        ColumnKey.BAR, ColumnKey.COUNT, ColumnKey.GENT, ColumnKey.LADY, ColumnKey.HOLD, ColumnKey.HEAD
    )
    rows: Rows = Rows.STEPS
    repeats: Repeats = Repeats.INSTRUCTION
    calls: Calls = Calls.WRITTEN_OUT
    pages: int | None = None
    sizes: tuple[tuple[str, Sizes], ...] = (("", Sizes()), ("A5", Sizes(7.5, 8.5)), ("A6", Sizes(7.0, 8.0, 1.25)))
    faces: FaceNames = FaceNames()
    borders: Borders = Borders()
    wording: Wording = Wording()
    phrases: Phrases = field(default_factory=Phrases)
    templates: Templates = Templates()
    shows: Shows = Shows()
    glyph: float = 0.93
    small: float = 0.86
    grey: float = 0.32

    def sizes_on(self, paper: str) -> Sizes:
        """The bounds of the type size on that paper."""
        named = dict(self.sizes)
        return named.get(paper, named.get("", Sizes()))
