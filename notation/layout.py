"""A layout as plain data: what a sheet shows, in which order, how large and in which words.

The shipped layouts are files of the folder `layouts`; a writer's own file has the same form. Lengths are points
unless their names say otherwise.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass


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

    gent, lady: what the dancers are called, '' for the language's own words. order: its parts; those in `tied`
    follow the part before after a space instead of the separator.
    """

    shorthand: bool = True
    gent: str = ""
    lady: str = ""
    order: tuple[Segment, ...] = tuple(Segment)
    tied: tuple[Segment, ...] = (Segment.PLACE, Segment.REMARKS)
    separator: str = ", "


@dataclass(frozen=True, slots=True)
class Phrases:
    """What the sheet says besides the words of its steps: texts of a language (words/*.yaml), changed where a layout
    says so. `{name}` is filled in."""

    turn: str
    turn_short: str
    commence: str
    heads: str
    only_hold: str
    free: str
    held: str
    rhythm: str
    time: str
    tempo: str
    length: str
    introduction: str
    music: str
    running: str
    start: str
    tempo_value: str
    bars_value: str
    bar_value: str
    running_value: str
    running_through: str
    arrangers: str
    and_: str
    bars: str
    bar: str
    as_bars: str
    as_bar: str
    drawn_before: str
    opposite_feet: str
    exchange_parts: str
    arms: str
    called_note: str
    line_of_dance: str
    column_bar: str
    column_count: str
    column_hold: str
    column_head: str
    column_figure: str
    key: str
    words_key: str
    key_drawing: str
    key_left: str
    key_right: str
    key_both: str
    key_touch: str
    key_air: str
    key_ball: str
    key_heel: str
    key_inside: str
    key_outside: str
    key_touch_ball: str
    key_touch_heel: str
    key_course: str
    key_close: str
    key_cross_front: str
    key_cross_behind: str
    key_place: str
    key_spring: str
    key_circle: str
    key_turn: str
    gent: str
    lady: str
    within: str
    paging: str
    subject: str
    keyword: str
    numbers: str
    decimal: str
    wall: str
    half_metre: str
    heights: str
    floor_step: str
    without_weight: str
    contents: str
    abbreviations: str
    notes_heading: str
    index_title: str
    index_arranger: str
    index_rhythm: str
    index_figure: str
    page_reference: str


@dataclass(frozen=True, slots=True)
class Templates:
    """Lines that are filled in from the dance. `{title}`, `{arranger}`, `{page}`, `{pages}` and the like are put in as
    they stand; a line with `{{` or `{%` is a Jinja template and runs in a sandbox."""

    title: str = "{title}"
    arranger: str = "{arranger}"
    figure: str = "{figure}"
    repeat: str = "{bars}: {again}"
    foot_left: str = "{title}"
    foot_middle: str = "{arrangers}"
    foot_right: str = "{paging}"
    head_left: str = ""
    head_right: str = ""


@dataclass(frozen=True, slots=True)
class Shows:
    """What stands on a sheet besides its table. alignments: also those that are not written but follow from the turn,
    in the words of every step."""

    arranger: bool = True
    particulars: bool = True
    start: bool = True
    glyphs: bool = True
    notes: bool = True
    key: bool = True
    diagrams: bool = False
    cautions: bool = False
    alignments: bool = False
    source: bool = True


@dataclass(frozen=True, slots=True)
class Layout:
    """How a dance is set.

    fold: panels of a folded card, 4 or 8; paper smaller than A4 is not folded. pages: then of panels.
    language: of the printed words. phrases: names and texts of `Phrases` that differ from the language's.
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
    fold: int | None = None
    sizes: tuple[tuple[str, Sizes], ...] = (("", Sizes()), ("A5", Sizes(7.5, 8.5)), ("A6", Sizes(7.0, 8.0, 1.25)))
    faces: FaceNames = FaceNames()
    borders: Borders = Borders()
    wording: Wording = Wording()
    language: str = "en"
    phrases: tuple[tuple[str, str], ...] = ()
    templates: Templates = Templates()
    shows: Shows = Shows()
    glyph: float = 0.93
    small: float = 0.86
    grey: float = 0.32

    def sizes_on(self, paper: str) -> Sizes:
        """The bounds of the type size on that paper."""
        named = dict(self.sizes)
        return named.get(paper, named.get("", Sizes()))
