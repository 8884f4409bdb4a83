"""Where layout ends: pages of placed items, plus the structure tree they belong to.

Coordinates are points from the upper left corner of the page, y downwards. Items are listed in the order they are
painted and read. A painter (pdf, svg) computes no position. Nothing here knows of dances or of a file format.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass, field
from datetime import date

from notation.page.path import Path
from notation.plane import Affine, Point, Rect


class Artifact(enum.Enum):
    """What is no content: a reader for the blind passes over it."""

    LAYOUT = "layout"  # rules, glyphs that repeat what words say
    HEADER = "header"  # column heads repeated on a later page
    FOOTER = "footer"  # running foot


Tag = int | Artifact
"""The key of the Element an item is content of, or an Artifact."""


@dataclass(frozen=True, slots=True)
class PlacedText:
    """A run of text in one face on one line.

    x, y: where its baseline begins, in points. adjust: kerning after each character in thousandths of the size
    (empty: none). ink: grey from 0 (black) to 1 (white). turned: it stands on its head, as on a panel that is folded
    over.
    """

    x: float
    y: float
    text: str
    face: str
    size: float
    tag: Tag
    adjust: tuple[float, ...] = ()
    ink: float = 0.0
    turned: bool = False


@dataclass(frozen=True, slots=True)
class PlacedShape:
    """An outline: filled, stroked or both. fill, stroke: grey from 0 to 1 or None. line_width, dash: points.

    dx, dy: how far the path is moved on the page, so that a shape drawn many times shares one path.
    """

    path: Path
    tag: Tag
    fill: float | None = None
    stroke: float | None = None
    line_width: float = 0.5
    dash: tuple[float, ...] = ()
    dx: float = 0.0
    dy: float = 0.0

    @property
    def outline(self) -> Path:
        """The path where it stands on the page."""
        return self.path.mapped(Affine.translation(self.dx, self.dy)) if self.dx or self.dy else self.path

    @property
    def bounds(self) -> Rect:
        """The rectangle around it on the page."""
        box = self.path.bounds
        return Rect(box.x0 + self.dx, box.y0 + self.dy, box.x1 + self.dx, box.y1 + self.dy)


@dataclass(frozen=True, slots=True)
class PlacedPicture:
    """A raster picture (the bytes of a PNG or JPEG file) that fills the rectangle."""

    box: Rect
    data: bytes
    tag: Tag


@dataclass(frozen=True, slots=True)
class PlacedLink:
    """An area that leads to a web address, or to the Anchor of that name where target begins with '#'."""

    box: Rect
    target: str
    text: str
    tag: Tag


@dataclass(frozen=True, slots=True)
class Anchor:
    """A place that links and the outline lead to."""

    name: str
    at: Point


Item = PlacedText | PlacedShape | PlacedPicture | PlacedLink | Anchor


@dataclass(frozen=True, slots=True)
class Frame:
    """One page: its size in points and what stands on it. label: its printed page number, or empty."""

    width: float
    height: float
    items: tuple[Item, ...]
    label: str = ""


@dataclass(frozen=True, slots=True)
class Element:
    """A node of the structure tree, by the standard structure types of ISO 32000-1, 14.8.4.

    key: its number, unique in the document. parent: key of the element above, None under the root `Document`.
    Elements are listed in reading order, a parent before its children. scope: 'Column' or 'Row' on a TH.
    columns: how many columns a TH or TD spans. alt: the words for a Figure.
    """

    key: int
    kind: str
    parent: int | None
    alt: str = ""
    scope: str = ""
    columns: int = 1


@dataclass(frozen=True, slots=True)
class OutlineEntry:
    """A line of the outline (bookmarks): level 0 is the outermost; anchor: the name of an Anchor."""

    text: str
    level: int
    anchor: str


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file carried inside the document (the source it was set from)."""

    name: str
    data: bytes
    media_type: str = "application/yaml"
    description: str = ""


@dataclass(frozen=True, slots=True)
class Metadata:
    """Particulars of the document.

    language: a BCP 47 tag. creator: the program it was set with. written: the day the source bears, if any (never the
    day of printing, so that the same source gives the same file on any day).
    """

    title: str
    author: str = ""
    subject: str = ""
    keywords: tuple[str, ...] = ()
    language: str = "en-GB"
    creator: str = "Lodestep"
    written: date | None = None


@dataclass(frozen=True, slots=True)
class Document:
    """Pages ready to be painted. tagged: False for sheets that are cut or imposed, where a tag tree would be untrue."""

    pages: tuple[Frame, ...]
    metadata: Metadata
    elements: tuple[Element, ...] = ()
    outline: tuple[OutlineEntry, ...] = ()
    attachments: tuple[Attachment, ...] = field(default=())
    tagged: bool = True
