"""Folded cards: the pages of a document as the panels of larger sheets, printed on one side and folded.

Unlike an imposed print the sheet stays a document: its tags, links and attachments are those of the pages, read in the
order of the pages.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from notation.page.content import Paper
from notation.page.frame import (
    Anchor,
    Artifact,
    Document,
    Frame,
    Item,
    PlacedLink,
    PlacedPicture,
    PlacedShape,
    PlacedText,
)
from notation.page.imposition import Order, Panel, card_order
from notation.page.path import Path
from notation.plane import Affine, Point, Rect

FOLD_INK, FOLD_WIDTH, FOLD_DASH = 0.55, 0.3, (1.0, 4.0)


def panel_paper(paper: Paper, panels: int) -> Paper:
    """The paper of one panel of a card, without a name of its own. Raises LayoutError for a fold that is not known."""
    order = card_order(panels, 1)
    return Paper(f"{paper.name}/{panels}", paper.width / order.columns, paper.height / order.rows)


def folded(document: Document, paper: Paper, panels: int) -> Document:
    """The document's pages, each as large as a panel, on sheets of that paper; a fold is a broken hairline."""
    pages = document.pages
    cards = [pages[first : first + panels] for first in range(0, len(pages), panels)]
    return replace(document, pages=tuple(_sheet(card, paper, panels, k) for k, card in enumerate(cards, 1)))


def _sheet(pages: Sequence[Frame], paper: Paper, panels: int, number: int) -> Frame:
    order = card_order(panels, len(pages))
    shown = sorted((p for p in order.sides[0].panels if p.page is not None), key=lambda p: p.page or 0)
    items = [item for panel in shown for item in _panel(pages[(panel.page or 1) - 1], panel)]
    return Frame(paper.width, paper.height, (*_folds(paper, order), *items), str(number))


def _panel(page: Frame, panel: Panel) -> Iterator[Item]:
    left, top = panel.column * page.width, panel.row * page.height
    way = Affine.translation(left, top)
    if panel.turned:
        way = Affine(-1.0, 0.0, 0.0, -1.0, left + page.width, top + page.height)
    return (_moved(item, way, panel.turned) for item in page.items)


def _moved(item: Item, way: Affine, turned: bool) -> Item:
    match item:
        case PlacedText():
            at = way(Point(item.x, item.y))
            return replace(item, x=at.x, y=at.y, turned=turned)
        case PlacedShape():
            if turned:
                return replace(item, path=item.outline.mapped(way), dx=0.0, dy=0.0)
            at = way(Point(item.dx, item.dy))
            return replace(item, dx=at.x, dy=at.y)
        case PlacedLink() | PlacedPicture():
            corners = (way(Point(item.box.x0, item.box.y0)), way(Point(item.box.x1, item.box.y1)))
            return replace(item, box=Rect.around(corners))
        case Anchor():
            return replace(item, at=way(item.at))


def _folds(paper: Paper, order: Order) -> Iterator[PlacedShape]:
    for column in range(1, order.columns):
        x = paper.width * column / order.columns
        yield _fold(Point(x, 0.0), Point(x, paper.height))
    for row in range(1, order.rows):
        y = paper.height * row / order.rows
        yield _fold(Point(0.0, y), Point(paper.width, y))


def _fold(one: Point, two: Point) -> PlacedShape:
    return PlacedShape(Path.line(one, two), Artifact.LAYOUT, None, FOLD_INK, FOLD_WIDTH, FOLD_DASH)
