"""The structure tree while a story is being set."""
from __future__ import annotations

from collections.abc import Sequence

from notation.page.content import Drawing
from notation.page.frame import Artifact, Element, OutlineEntry, Tag


class Tree:
    """Collects elements and the outline in reading order."""

    def __init__(self) -> None:
        self.elements: list[Element] = []
        self.outline: list[OutlineEntry] = []

    def add(self, kind: str, parent: int | None, alt: str = "", scope: str = "", columns: int = 1) -> int:
        """A new element under its parent; its key."""
        key = len(self.elements) + 1
        self.elements.append(Element(key, kind, parent, alt, scope, columns))
        return key

    def graft(self, elements: Sequence[Element], parent: int | None) -> int:
        """The elements of another tree under one of this; what is added to their keys."""
        base = len(self.elements)
        for one in elements:
            above = parent if one.parent is None else one.parent + base
            self.elements.append(Element(one.key + base, one.kind, above, one.alt, one.scope, one.columns))
        return base

    def drawing(self, drawing: Drawing, parent: int | None) -> Tag:
        """The tag of a drawing: a figure where it has words, an artifact where words beside it say the same."""
        return self.add("Figure", parent, alt=drawing.alt) if drawing.alt else Artifact.LAYOUT

    def anchor(self, name: str, text: str, level: int | None) -> str:
        """The name of an anchor, made up where there is none; a line of the outline where a level is given."""
        name = name or f"place-{len(self.outline) + 1}"
        if level is not None:
            self.outline.append(OutlineEntry(text, level, name))
        return name
