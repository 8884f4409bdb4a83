"""The positions of the feet drawn from their geometry: for cards, and a chart of all five on one page."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import reduce

from notation.dance.feet import End, Foot, Fourth, Place, TurnOut
from notation.dance.geometry import MEANS, FootSize, Placed, position_of_feet
from notation.dance.script import GENT
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
from notation.sheet.sole import TO_PAGE, sole

REGULAR, SEMIBOLD = "SourceSans3-Regular", "SourceSans3-SemiBold"
OTHER = 0.62  # grey of the foot that a position is not said of
IN_A_ROW = 3
CAPTION = 1.75  # widths of a drawing that the words under it may take, and a little
LENGTH, MARGIN, GAP = 40.0, 45.0, 14.0  # points: of a foot on the chart, round the page, between drawings
TURN_OUT_CAUTION = (
    "Turn out only as far as it comes from the hips, the knees over the toes; never force it. Warm up first. Where"
    " there is pain, stop: a teacher or a doctor decides."
)
"""Forced turn-out goes with injuries of back and legs (J Orthop Sports Phys Ther 2002;32(11):579-84)."""

POSITIONS = (
    (Place(1), "1st", "Heels together, both feet turned out alike.", "Feet together."),
    (Place(2), "2nd", "To the side, the heels a foot's length apart and level.", "Apart to the side."),
    (Place(3, End.FRONT), "3rd", "The front heel at the hollow of the rear foot.",
     "The heel at the hollow of the other foot."),
    (Place(4, End.FRONT, Fourth.OPEN), "4th open", "Straight ahead of the other heel, a foot's length away.",
     "A walking step ahead."),
    (Place(4, End.FRONT, Fourth.CROSSED), "4th crossed", "As 3rd, with a foot's breadth between.", ""),
    (Place(5, End.FRONT), "5th", "The front heel at the toe of the rear foot.", "The toe behind the heel."),
)
"""Place, name, words for turned-out feet and for parallel ones (empty: the parallel set has no such position).

Sources: a French manual of about 1797 (OBTIC corpus, 'Des positions'), Rameau 1725, Blasis 1820, 'Jeux et exercices des
jeunes filles' p.237; parallel: eijkhout.net/rad/data/foot_positions.html.
"""
ORDINALS = {1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 5: "5th"}


def place_name(place: Place) -> str:
    """'3rd front', 'crossed 4th rear'."""
    kind = f"{place.fourth.value} " if place.fourth else ""
    end = f" {place.end.value}" if place.end else ""
    return f"{kind}{ORDINALS.get(place.position or 0, '')}{end}"


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


def positions_story(paper: Paper) -> Story:
    """The chart of the five positions, turned-out and parallel, on one page."""
    title = Style(SEMIBOLD, 20.0)
    width = ((paper.width - 2 * MARGIN - (IN_A_ROW - 1) * GAP) / IN_A_ROW - 1.0) / CAPTION
    flow: tuple[Flow, ...] = (
        Paragraph((Run("The five positions of the feet", title),), kind="H1", space_after=0.5),
        _words("Seen from above, the dancer facing up the page. Black: the foot that the position is said of, here RF"
               " in front; said of the grey foot it is the same position to the rear. With LF it is the mirror image."),
        *_set("Turned-out", TurnOut.TURNED_OUT, 2, width),
        _words("45 degrees of each foot from the direction the body faces, 90 between them (Highland dance theory,"
               " grade 1; Physie tip 99). Manuals differ about 4th: open or crossed, a foot's length or its breadth."),
        *_set("Parallel", TurnOut.PARALLEL, 3, width),
        _heading("Turn-out with care"),
        Paragraph((Run(TURN_OUT_CAUTION, Style(SEMIBOLD, 10.0)),), space_after=0.5),
        Paragraph((Run("Sources: a French manual of about 1797 (OBTIC corpus, Des positions); Rameau 1725; Blasis 1820;"
                       " Jeux et exercices des jeunes filles, p. 237; eijkhout.net (parallel set). Feet to the scale of"
                       " 271 by 102 mm (ANSUR II, 2012).", Style(REGULAR, 8.0, 0.3)),), space_before=0.5),
    )
    margins = Margins(MARGIN, MARGIN, MARGIN, MARGIN)
    return Story(paper, margins, 13.5, flow, Running("The five positions of the feet", "", ""))


def _words(text: str) -> Paragraph:
    return Paragraph((Run(text, Style(REGULAR, 10.0)),), space_after=0.5)


def _heading(text: str) -> Paragraph:
    return Paragraph((Run(text, Style(SEMIBOLD, 13.0)),), kind="H2", space_before=1.0, space_after=0.5)


def _set(name: str, out: TurnOut, column: int, width: float) -> Iterator[Flow]:
    yield _heading(name)
    rows = [row for row in POSITIONS if row[column]]
    figures = [_position(row[0], _called(row[1], out), str(row[column]), out, width) for row in rows]
    for first in range(0, len(figures), IN_A_ROW):
        yield FigureRow(tuple(level(figures[first : first + IN_A_ROW])), gap=GAP, space_after=0.5)


def _called(name: str, out: TurnOut) -> str:
    """Parallel feet have one 4th only."""
    return name if out is TurnOut.TURNED_OUT else name.split()[0]


def _position(place: Place, name: str, words: str, out: TurnOut, width: float) -> Figure:
    alt = f"{name} position, {out.value}: {words}"
    drawing = position_drawing(place, Foot.RIGHT, out, LENGTH, alt)
    wide = replace(drawing, width=max(drawing.width, width), items=_centred(drawing, width))
    runs = (Run(f"{name}. ", Style(SEMIBOLD, 9.5)), Run(words, Style(REGULAR, 9.5)))
    return Figure(wide, Paragraph(runs, Align.CENTRE), Align.CENTRE)


def _centred(drawing: Drawing, width: float) -> tuple[PlacedShape, ...]:
    shift = Affine.translation(max(0.0, (width - drawing.width) / 2), 0.0)
    return tuple(replace(i, path=i.path.mapped(shift)) for i in drawing.items if isinstance(i, PlacedShape))
