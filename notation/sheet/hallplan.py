"""A plan of the hall: its walls, the line of dance with its curved corners, and the way of both partners round it."""
from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from notation.dance.floor import Floor
from notation.dance.hall import Hall, frame_at, in_hall, round_the_hall
from notation.dance.script import GENT, LADY
from notation.dance.words import Vocabulary
from notation.page.content import Drawing
from notation.page.frame import Artifact, PlacedShape, PlacedText
from notation.page.path import Path
from notation.plane import Point, Vector
from notation.sheet.figurewords import figure_speaker
from notation.sheet.floorwords import metres_words
from notation.sheet.footprint import arrow_head, disc
from notation.sheet.pagewords import FloorWords, page_words
from notation.sheet.phrasing import filled
from notation.sheet.stance import label_width
from notation.sheet.style import SEMIBOLD

SIZE = 8.0  # points, of what is written on a plan
MOST = 220.0
"""Points of height of a plan at most."""
LINE, GREY = 0.75, 0.45
FINE = 60
"""Pieces in which the line of dance is drawn."""
FIVE_METRES = 5_000.0
ONCE = 12
"""Sequences drawn at most."""
LAYOUT = Artifact.LAYOUT
_Map = Callable[[Point], Point]


def hall_plan(floor: Floor, hall: Hall, width: float, alt: str, words: Vocabulary) -> Drawing:
    """The plan, its length across the page, `width` points wide at most, baseline at its foot."""
    scale = min(width / hall.length, MOST / hall.breadth)
    middle = Point(hall.length * scale / 2, -hall.breadth * scale / 2)

    def at(place: Point) -> Point:
        return middle + Vector(place.x * scale, -place.y * scale)

    shapes = (*_room(hall, at, words), *_ways(floor, hall, at), *_scale(hall, scale, words))
    return Drawing(hall.length * scale, hall.breadth * scale + 1.0, 1.6 * SIZE, shapes, alt)


def _room(hall: Hall, at: _Map, words: Vocabulary) -> Iterator[PlacedShape | PlacedText]:
    centre, lod = page_words(words, FloorWords).plan_centre, figure_speaker(words, False).phrases.line_of_dance
    x, y = hall.length / 2, hall.breadth / 2
    walls = (Point(-x, -y), Point(x, -y), Point(x, y), Point(-x, y))
    yield PlacedShape(Path.polygon(*map(at, walls)), LAYOUT, stroke=0.0, line_width=1.2)
    line = [at(frame_at(hall, hall.circuit * n / FINE)[0]) for n in range(FINE + 1)]
    yield PlacedShape(Path.line(*line), LAYOUT, stroke=LINE, line_width=0.5)
    yield PlacedText(at(Point(0.0, 0.0)).x - label_width(centre, SIZE) / 2, at(Point(0.0, 0.0)).y + SIZE / 3,
                     centre, SEMIBOLD, SIZE, LAYOUT, (), GREY)
    start = at(Point(-0.16 * hall.length, -y)) + Vector(0.0, -0.5 * SIZE)
    tip = start + Vector(5.0 * SIZE, 0.0)
    yield PlacedShape(Path.line(start, tip), LAYOUT, stroke=0.0, line_width=0.6)
    yield PlacedShape(arrow_head(tip + Vector(0.7 * SIZE, 0.0), 0.0, 0.8 * SIZE), LAYOUT, fill=0.0)
    yield PlacedText(start.x - label_width(f"{lod} ", SIZE), start.y + SIZE / 3, lod, SEMIBOLD, SIZE, LAYOUT)


def _ways(floor: Floor, hall: Hall, at: _Map) -> Iterator[PlacedShape | PlacedText]:
    """Both partners' bodies from moment to moment, once round or as long as the sequences take to get there."""
    along = floor.travel.x
    times = min(ONCE, max(1, math.ceil(hall.circuit / along))) if along > 1.0 else 1
    first = in_hall(floor.start, hall)
    couples = [first, *(couple for _, _, couple in round_the_hall(floor, hall, times))]
    for part, dash in ((LADY, (1.6, 1.2)), (GENT, ())):
        way = Path.line(*(at(couple[part].centre) for couple in couples))
        yield PlacedShape(way, LAYOUT, stroke=0.0, line_width=0.7, dash=dash)
    for number in range(times):
        place, heading = frame_at(hall, number * along)
        inwards = Vector.polar(hall.aside * 0.45, heading + 90.0)
        spot, label = at(place), at(place + inwards)
        yield PlacedShape(disc(spot, 1.8), LAYOUT, fill=0.0)
        text = str(number + 1)
        yield PlacedText(label.x - label_width(text, SIZE) / 2, label.y + SIZE / 3, text, SEMIBOLD, SIZE, LAYOUT)


def _scale(hall: Hall, scale: float, words: Vocabulary) -> Iterator[PlacedShape | PlacedText]:
    long = min(FIVE_METRES, hall.length / 2)
    right, y = long * scale, 1.1 * SIZE
    ends = (Point(0.0, y - 2.0), Point(0.0, y), Point(right, y), Point(right, y - 2.0))
    yield PlacedShape(Path.line(*ends), LAYOUT, stroke=0.0, line_width=0.6)
    said = filled(page_words(words, FloorWords).plan_scale, metres=metres_words(long, words))
    yield PlacedText(right + 2.0, y, said, SEMIBOLD, SIZE, LAYOUT)
