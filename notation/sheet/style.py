"""Type of a sheet: every size follows from the size of the steps, every space from the baseline step."""
from __future__ import annotations

from dataclasses import dataclass

from notation.layout import FaceNames, Layout
from notation.page.content import Align, Paragraph, Run, Style

USUAL = FaceNames()
REGULAR, SEMIBOLD, ITALIC = USUAL.regular, USUAL.semibold, USUAL.italic
"""Faces of the pages that no layout is for: cards, programmes, catalogues, floor diagrams."""

LARGEST_TITLE = 21.0  # points, unless that is little against the steps
LEAST_TITLE = 1.5  # of the size of the steps
LARGEST_RUNNING = 11.0  # points, where a layout sets small type at all


@dataclass(frozen=True, slots=True)
class Styles:
    """The styles of a sheet. step: the baseline step in points; glyph: height of footprints in points. space:
    baseline steps above a figure."""

    body: Style
    strong: Style
    italic: Style
    small: Style
    label: Style
    count: Style
    beat: Style
    bar: Style
    figure: Style
    title: Style
    arranger: Style
    running: Style
    step: float
    glyph: float
    space: float


def styles(layout: Layout, size: float, leading: float, space: float = 1.0) -> Styles:
    """The styles where the steps are set at that size in points."""
    faces, small = layout.faces, layout.small * size
    title = max(LEAST_TITLE * size, min(2.2 * size, LARGEST_TITLE))
    running = small if layout.small >= 1 else max(7.0, min(small, LARGEST_RUNNING))
    return Styles(
        body=Style(faces.regular, size),
        strong=Style(faces.semibold, size),
        italic=Style(faces.italic, size),
        small=Style(faces.regular, small),
        label=Style(faces.semibold, small, layout.grey),
        count=Style(faces.regular, 0.93 * small if layout.small < 1 else small),
        beat=Style(faces.regular, size),
        bar=Style(faces.semibold, 1.16 * size),
        figure=Style(faces.semibold, 1.1 * size),
        title=Style(faces.semibold, title),
        arranger=Style(faces.regular, 1.1 * size),
        running=Style(faces.regular, running, layout.grey),
        step=leading * size,
        glyph=layout.glyph * size,
        space=space,
    )


def paragraph(text: str, style: Style, align: Align = Align.LEFT, before: float = 0.0, after: float = 0.0) -> Paragraph:
    """Words in one style. before, after: baseline steps."""
    return Paragraph((Run(text, style),), align, space_before=before, space_after=after)
