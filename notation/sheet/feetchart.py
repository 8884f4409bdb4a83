"""The positions of the feet drawn from their geometry: for cards, and a chart of all five on one page."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import reduce

from notation.dance.feet import End, Foot, Fourth, Place, TurnOut
from notation.dance.geometry import MEANS, FootSize, Placed, position_of_feet
from notation.dance.script import GENT
from notation.dance.words import Vocabulary
from notation.page.content import (
    Align,
    Drawing,
    Figure,
    FigureRow,
    Flow,
    Margins,
    Paper,
    Paragraph,
    Run,
    Running,
    Story,
    Style,
)
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.plane import ORIGIN, Affine, Rect
from notation.sheet.pagewords import CardWords, ChartWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.sole import TO_PAGE, sole
from notation.sheet.style import REGULAR, SEMIBOLD

OTHER = 0.62  # grey of the foot that a position is not said of
IN_A_ROW = 3
CAPTION = 1.75  # widths of a drawing that the words under it may take, and a little
LENGTH, MARGIN, GAP = 40.0, 45.0, 14.0  # points: of a foot on the chart, round the page, between drawings
POSITIONS = (
    (Place(1), "first", "first"), (Place(2), "second", "second"), (Place(3, End.FRONT), "third", "third"),
    (Place(4, End.FRONT, Fourth.OPEN), "fourth_open", "fourth"),
    (Place(4, End.FRONT, Fourth.CROSSED), "fourth_crossed", ""), (Place(5, End.FRONT), "fifth", "fifth"),
)
"""Place, and what it is called with turned-out and with parallel feet, of which there is one fourth only.

Sources: a French manual of about 1797 (OBTIC corpus, 'Des positions'), Rameau 1725, Blasis 1820, 'Jeux et exercices des
jeunes filles' p.237; parallel: eijkhout.net/rad/data/foot_positions.html.
"""


def position_drawing(place: Place, foot: Foot, out: TurnOut, length: float, alt: str) -> Drawing:
    """Both feet of a position from above, the body facing up the page. length: of a foot, in points."""
    size = MEANS[GENT]
    scale = length / size.length
    both = position_of_feet(place, foot, out, size)
    shapes = [shape for which in (foot.other, foot) for shape in _foot(which, both[which], size, scale, which is foot)]
    box = reduce(Rect.union, (shape.path.bounds for shape in shapes))
    move = Affine.translation(-box.x0, -box.y1)
    moved = tuple(replace(shape, path=shape.path.mapped(move)) for shape in shapes)
    return Drawing(box.x1 - box.x0, box.y1 - box.y0, 0.0, moved, alt)


def _foot(foot: Foot, placed: Placed, size: FootSize, scale: float, named: bool) -> list[PlacedShape]:
    """The foot the position is said of in black, the other in grey, so that both are seen where they touch."""
    heel = placed.heel - ORIGIN
    on_floor = Affine.translation(heel.x, heel.y).after(Affine.rotation(placed.degrees))
    on_page = Affine.scaling(scale, scale).after(TO_PAGE.after(on_floor))
    outline = sole(foot, size.length, size.breadth).outline.mapped(on_page)
    return [PlacedShape(outline, Artifact.LAYOUT, fill=0.0 if named else OTHER, stroke=0.0, line_width=0.5)]


def level(figures: Sequence[Figure]) -> Iterator[Figure]:
    """The figures made equally high, so that the words under them stand on one line."""
    height = max((f.drawing.ascent + f.drawing.descent for f in figures), default=0.0)
    for figure in figures:
        drawing = figure.drawing
        items = tuple(_raised(item, drawing.descent) for item in drawing.items)
        yield replace(figure, drawing=replace(drawing, ascent=height, descent=0.0, items=items))


def _raised(item: PlacedShape | PlacedText, by: float) -> PlacedShape | PlacedText:
    return replace(item, y=item.y - by) if isinstance(item, PlacedText) else replace(item, dy=item.dy - by)


def positions_story(paper: Paper, words: Vocabulary) -> Story:
    """The chart of the five positions, turned-out and parallel, on one page. words: those it is printed with."""
    says, title = page_words(words, ChartWords), Style(SEMIBOLD, 20.0)
    width = ((paper.width - 2 * MARGIN - (IN_A_ROW - 1) * GAP) / IN_A_ROW - 1.0) / CAPTION
    flow: tuple[Flow, ...] = (
        Paragraph((Run(says.title, title),), kind="H1", space_after=0.5),
        _words(says.seen),
        *_set(TurnOut.TURNED_OUT, says, width),
        _words(says.turned_out_note),
        *_set(TurnOut.PARALLEL, says, width),
        _heading(says.care),
        Paragraph((Run(page_words(words, CardWords).turn_out, Style(SEMIBOLD, 10.0)),), space_after=0.5),
        Paragraph((Run(says.sources, Style(REGULAR, 8.0, 0.3)),), space_before=0.5),
    )
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    return Story(paper, margins, 13.5, flow, Running(says.title, "", ""), language=words.tag)


def _words(text: str) -> Paragraph:
    return Paragraph((Run(text, Style(REGULAR, 10.0)),), space_after=0.5)


def _heading(text: str) -> Paragraph:
    return Paragraph((Run(text, Style(SEMIBOLD, 13.0)),), kind="H2", space_before=1.0, space_after=0.5)


def _set(out: TurnOut, says: ChartWords, width: float) -> Iterator[Flow]:
    turned = out is TurnOut.TURNED_OUT
    name = says.turned_out if turned else says.parallel
    yield _heading(name)
    rows = [(place, one if turned else other) for place, one, other in POSITIONS if turned or other]
    figures = [_position(place, key, out, says, width) for place, key in rows]
    for first in range(0, len(figures), IN_A_ROW):
        yield FigureRow(tuple(level(figures[first : first + IN_A_ROW])), gap=GAP, space_after=0.5)


def _position(place: Place, key: str, out: TurnOut, says: ChartWords, width: float) -> Figure:
    turned = out is TurnOut.TURNED_OUT
    name, words = (str(getattr(says, f"{of}_{key}")) for of in ("name", "turned_out" if turned else "parallel"))
    called = says.turned_out if turned else says.parallel
    alt = filled(says.position, name=name, set=called[:1].lower() + called[1:], words=words)
    drawing = position_drawing(place, Foot.RIGHT, out, LENGTH, alt)
    wide = replace(drawing, width=max(drawing.width, width), items=_centred(drawing, width))
    runs = (Run(f"{name}. ", Style(SEMIBOLD, 9.5)), Run(words, Style(REGULAR, 9.5)))
    return Figure(wide, Paragraph(runs, Align.CENTRE), Align.CENTRE)


def _centred(drawing: Drawing, width: float) -> tuple[PlacedShape, ...]:
    shift = Affine.translation(max(0.0, (width - drawing.width) / 2), 0.0)
    return tuple(replace(i, path=i.path.mapped(shift)) for i in drawing.items if isinstance(i, PlacedShape))
