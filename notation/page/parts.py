"""A document in parts that are set one after the other, and what must be known of it before its first page."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from notation.page.frame import Attachment, Element, Frame, Metadata, OutlineEntry
from notation.plane import Point

Places = Mapping[str, tuple[int, Point]]
"""Anchors by name: page (from 0) and place on it in PDF coordinates, from its lower left corner."""


@dataclass(frozen=True, slots=True)
class Part:
    """Whole pages and the elements of what stands on them: keys and parents are those of this part alone. Elements
    without a parent stand under the root."""

    pages: tuple[Frame, ...]
    elements: tuple[Element, ...] = ()


@dataclass(frozen=True, slots=True)
class Prospect:
    """A document before its pages. pages, elements: how many there will be."""

    metadata: Metadata
    pages: int
    elements: int
    places: Places
    outline: tuple[OutlineEntry, ...] = ()
    attachments: tuple[Attachment, ...] = ()
    tagged: bool = True
