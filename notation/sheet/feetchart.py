"""The positions of the feet drawn from their geometry: for cards, and a chart of all five on one page."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import reduce

from notation.dance.feet import End, Foot, Fourth, Place, TurnOut
from notation.dance.geometry import MEANS, FootSize, position_of_feet
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
from notation.page.frame import PlacedShape
from notation.plane import Affine, Point, Rect
from notation.sheet.footprint import Footprint, foot_shapes
from notation.sheet.sole import TO_PAGE

REGULAR, SEMIBOLD, ITALIC = "SourceSans3-Regular", "SourceSans3-SemiBold", "SourceSans3-Italic"
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
    shapes = [s for which, placed in position_of_feet(place, foot, out, size).items()
              for s in _foot(which, placed.along(size.length / 2), placed.degrees, size, scale)]
    box = reduce(Rect.union, (shape.path.bounds for shape in shapes))
    move = Affine.translation(-box.x0, -box.y1)
    moved = tuple(replace(shape, path=shape.path.mapped(move)) for shape in shapes)
    return Drawing(box.x1 - box.x0, box.y1 - box.y0, 0.0, moved, alt)


def _foot(foot: Foot, middle: Point, degrees: float, size: FootSize, scale: float) -> list[PlacedShape]:
    at = Affine.scaling(scale, scale)(TO_PAGE(middle))
    return foot_shapes(Footprint(foot, degrees), foot, size.length * scale, at)


def positions_story(paper: Paper) -> Story:
    """The chart of the five positions, turned-out and parallel, on one page."""
    title = Style(SEMIBOLD, 20.0)
    flow: tuple[Flow, ...] = (
        Paragraph((Run("The five positions of the feet", title),), kind="H1", space_after=0.5),
        _words("Seen from above, the dancer facing up the page. Where one foot is in front it is the right one here; the"
               " same with the left in front is the mirror image. Position of the working foot: front or rear."),
        *_set("Turned-out", TurnOut.TURNED_OUT, 2),
        _words("45 degrees of each foot from the direction the body faces, 90 between them (Highland dance theory,"
               " grade 1; Physie tip 99). Manuals differ about 4th: open or crossed, a foot's length or breadth apart."),
        *_set("Parallel", TurnOut.PARALLEL, 3),
        _heading("Turn-out with care"),
        Paragraph((Run(TURN_OUT_CAUTION, Style(SEMIBOLD, 10.0)),), space_after=0.5),
        Paragraph((Run("Sources: a French manual of about 1797 (OBTIC corpus, Des positions); Rameau 1725; Blasis 1820;"
                       " Jeux et exercices des jeunes filles, p. 237; eijkhout.net (parallel set). Feet to the scale of"
                       " 271 by 102 mm (ANSUR II, 2012).", Style(REGULAR, 8.0, 0.3)),), space_before=0.5),
    )
    margins = Margins(45.0, 45.0, 45.0, 45.0)
    return Story(paper, margins, 13.5, flow, Running("The five positions of the feet", "", ""))


def _words(text: str) -> Paragraph:
    return Paragraph((Run(text, Style(REGULAR, 10.0)),), space_after=0.5)


def _heading(text: str) -> Paragraph:
    return Paragraph((Run(text, Style(SEMIBOLD, 13.0)),), kind="H2", space_before=1.0, space_after=0.5)


def _set(name: str, out: TurnOut, column: int) -> Iterator[Flow]:
    yield _heading(name)
    figures = tuple(_position(row[0], row[1], str(row[column]), out) for row in POSITIONS if row[column])
    yield FigureRow(figures, gap=26.0, space_after=0.5)


def _position(place: Place, name: str, words: str, out: TurnOut) -> Figure:
    alt = f"{name} position, {out.value}: {words}"
    drawing = position_drawing(place, Foot.RIGHT, out, 66.0, alt)
    wide = replace(drawing, width=max(drawing.width, 128.0), items=_centred(drawing, 128.0))
    runs = (Run(f"{name}. ", Style(SEMIBOLD, 9.5)), Run(words, Style(REGULAR, 9.5)))
    return Figure(wide, Paragraph(runs, Align.CENTRE), Align.CENTRE)


def _centred(drawing: Drawing, width: float) -> tuple[PlacedShape, ...]:
    shift = Affine.translation(max(0.0, (width - drawing.width) / 2), 0.0)
    return tuple(replace(i, path=i.path.mapped(shift)) for i in drawing.items if isinstance(i, PlacedShape))
