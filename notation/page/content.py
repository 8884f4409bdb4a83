"""What layout takes: words, drawings, rows and columns, before anything has a place on a page.

All lengths are points. Drawings have their origin where they meet the baseline at the left, y downwards (what stands
above the baseline has negative y). Spaces between things are counted in baseline steps, so that every line of text
of a sheet sits on one grid.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass, field

from notation.page.frame import PlacedShape, PlacedText


class Align(enum.Enum):
    """How lines stand in their width."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class Rule(enum.Enum):
    """A rule along words, where their face says it belongs."""

    UNDERLINE = "underline"
    STRIKEOUT = "strikeout"


@dataclass(frozen=True, slots=True)
class Style:
    """How words look. face: name of a face of the fonts folder, e.g. 'SourceSans3-Regular'; size: points; ink: grey.

    rule: drawn along the words, spaces included; a mere picture, so words must say the same.
    """

    face: str
    size: float
    ink: float = 0.0
    rule: Rule | None = None


@dataclass(frozen=True, slots=True)
class Run:
    """Words in one style. A no-break space (U+00A0) ties two words; a soft hyphen (U+00AD) allows a break."""

    text: str
    style: Style


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Runs set one after the other and broken to a width. kind: its structure type ('P', 'H1', 'H2', ...).

    space_before, space_after: baseline steps. line_steps: steps from one baseline to the next.
    anchor, outline_level: where set, the paragraph is a target and a line of the outline.
    """

    runs: tuple[Run, ...]
    align: Align = Align.LEFT
    kind: str = "P"
    space_before: float = 0.0
    space_after: float = 0.0
    line_steps: float = 1.0
    anchor: str = ""
    outline_level: int | None = None

    @property
    def text(self) -> str:
        return "".join(run.text for run in self.runs)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A small picture in vector. ascent, descent: its height above and below the baseline.

    items: shapes and texts in the drawing's own coordinates; their tags are replaced where it is placed. alt: the words
    for a reader who does not see it; empty: an artifact, because words beside it say the same.
    """

    width: float
    ascent: float
    descent: float
    items: tuple[PlacedShape | PlacedText, ...]
    alt: str = ""


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    key: what cells name it by. head: its heading. least, most: bounds of its width. alike: columns with the same
    non-empty word here get equal widths where the words allow. slot: width kept at the left of the words for a cell's
    drawing. gap: white space at its left (ignored on the first column).
    """

    key: str
    head: Paragraph
    least: float = 0.0
    most: float = 1000.0
    alike: str = ""
    slot: float = 0.0
    gap: float = 8.0


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one column of a row; span: how many columns it covers. header: it names its row (a bar number).

    deep: how many rows of its block, its own included, its lines may run down beside before a row grows for it.
    """

    column: str
    content: Paragraph
    drawing: Drawing | None = None
    span: int = 1
    header: bool = False
    deep: int = 1


@dataclass(frozen=True, slots=True)
class Row:
    """Cells side by side, first lines on one baseline. space_before: baseline steps."""

    cells: tuple[Cell, ...]
    space_before: float = 0.0


@dataclass(frozen=True, slots=True)
class Block:
    """Rows that stay together on a page unless they are taller than one: a bar.

    ruled: a hairline above the first row. A block taller than a page is split between rows, then between lines.
    """

    rows: tuple[Row, ...]
    ruled: bool = True


@dataclass(frozen=True, slots=True)
class Section:
    """A heading over all columns and its blocks; the heading stays with the first block. heading: None for none.

    below: drawings and words set under the blocks over the full width (floor diagrams, cautions).
    """

    heading: Paragraph | None
    blocks: tuple[Block, ...]
    below: tuple[Flow, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """Columns with their sections; the column heads repeat on each page."""

    columns: tuple[Column, ...]
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class Particulars:
    """Pairs of label and value in as many columns as fit, read down; at the right, if given, something beside them."""

    pairs: tuple[tuple[Paragraph, Paragraph], ...]
    beside: tuple[Paragraph | Figure, ...] = ()
    space_before: float = 0.0
    space_after: float = 0.0


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing that stands by itself, with words under it."""

    drawing: Drawing
    caption: Paragraph | None = None
    align: Align = Align.LEFT
    space_before: float = 0.0
    space_after: float = 0.0


@dataclass(frozen=True, slots=True)
class FigureRow:
    """Drawings side by side, wrapped to the width, each with its caption below."""

    figures: tuple[Figure, ...]
    gap: float = 12.0
    space_before: float = 0.0
    space_after: float = 0.0


@dataclass(frozen=True, slots=True)
class Key:
    """A legend: small drawings or short words, each with what it means, in as many columns as fit; kept together.

    An entry's first part is a Drawing or a Paragraph.
    """

    heading: Paragraph
    entries: tuple[tuple[Drawing | Paragraph, Paragraph], ...]
    space_before: float = 0.0


@dataclass(frozen=True, slots=True)
class PageBreak:
    """What follows begins a new page."""


Flow = Paragraph | Particulars | Figure | FigureRow | Key | Table | PageBreak


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper: width and height in points as it is held, and its name."""

    name: str
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Margins:
    """Points. inner and outer change sides on left-hand pages of a bound book where `mirrored`."""

    top: float
    bottom: float
    inner: float
    outer: float
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class Running:
    """A line at the foot or head of every page: left, middle and right; '{page}' and '{pages}' are filled in."""

    left: str = ""
    middle: str = ""
    right: str = ""
    style: Style = Style("SourceSans3-Regular", 8.0, 0.35)


@dataclass(frozen=True, slots=True)
class Story:
    """All that is set in one flow of pages. step: the baseline step in points. language: for hyphenation (BCP 47)."""

    paper: Paper
    margins: Margins
    step: float
    flow: tuple[Flow, ...]
    foot: Running = field(default_factory=Running)
    head: Running | None = None
    language: str = "en-GB"
