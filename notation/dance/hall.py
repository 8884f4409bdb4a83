"""A line of dance that curves at the corners of a hall, and a dance laid along it.

In sequence dancing the line of dance follows a rectangle with rounded corners and turns a quarter to the left at each
("Reading Ballroom Dance Scripts", dance.plussed.net, pp.20-22). Millimetres; the hall's middle at the origin, its
length along x; the line begins half-way along the long side at the bottom and runs anticlockwise.
"""
from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

from notation.dance.floor import Floor
from notation.dance.geometry import Placed
from notation.dance.script import GENT, LADY
from notation.dance.stepping import Dancer
from notation.plane import Point, Vector

ASIDE = 2_000.0
"""From the line of dance to the edge of the floor; an estimate."""
CORNER = 3_000.0
"""Radius in which a couple goes round a corner; an estimate."""
LEAST = 4_000.0
"""The narrowest hall in which a line of dance can be followed."""


@dataclass(frozen=True, slots=True)
class Hall:
    """A floor by its length and breadth. aside, corner: of the line of dance; smaller in a small hall."""

    length: float
    breadth: float

    @property
    def aside(self) -> float:
        return min(ASIDE, self.breadth / 5)

    @property
    def corner(self) -> float:
        return min(CORNER, self.breadth / 2 - self.aside)

    @property
    def straights(self) -> tuple[float, float]:
        """The straight stretches of the line, along the length and across."""
        less = 2.0 * (self.aside + self.corner)
        return self.length - less, self.breadth - less

    @property
    def circuit(self) -> float:
        """Once round along the line of dance."""
        return 2.0 * sum(self.straights) + 2.0 * math.pi * self.corner


EMPRESS = Hall(57_600.0, 33_500.0)
"""The Empress Ballroom in Blackpool, 189 by 110 feet (en.wikipedia.org, 'Winter Gardens, Blackpool')."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of the line: where it begins on the line and in the hall, its heading there in degrees, its length and
    how far it turns to the left."""

    begins: float
    at: Point
    heading: float
    length: float
    turns: float = 0.0


def stretches(hall: Hall) -> tuple[Stretch, ...]:
    """The line once round, from the middle of the long side: straights and quarter circles in turn."""
    along, across = hall.straights
    bend = math.pi / 2 * hall.corner
    lengths = [(along / 2, 0.0), *[(bend, 90.0), (across, 0.0), (bend, 90.0), (along, 0.0)] * 2]
    lengths[-1] = (along / 2, 0.0)
    made: list[Stretch] = []
    begins, at, heading = 0.0, Point(0.0, hall.aside - hall.breadth / 2), 0.0
    for length, turns in lengths:
        made.append(Stretch(begins, at, heading, length, turns))
        chord = 2.0 * hall.corner * math.sin(math.radians(turns / 2)) if turns else length
        begins, at = begins + length, at + Vector.polar(chord, heading + turns / 2)
        heading += turns
    return tuple(made)


def frame_at(hall: Hall, distance: float) -> tuple[Point, float]:
    """The place of the line that far along it, and its heading there in degrees."""
    rest = distance % hall.circuit
    piece = next(s for s in reversed(stretches(hall)) if s.begins <= rest + 1e-9)
    share = (rest - piece.begins) / piece.length if piece.length else 0.0
    turned = piece.turns * share
    if not turned:
        return piece.at + Vector.polar(piece.length * share, piece.heading), piece.heading
    chord = 2.0 * hall.corner * math.sin(math.radians(turned / 2))
    return piece.at + Vector.polar(chord, piece.heading + turned / 2), piece.heading + turned


def in_hall(dancers: Mapping[str, Dancer], hall: Hall, begins: float = 0.0) -> dict[str, Dancer]:
    """The couple as it stands in the hall, where its sequence begins that far along the line of dance.

    The couple is carried as a whole, so that its feet, distances and facings towards each other stay as they are;
    `facing` stays that of the line of dance, which is straight to who dances along it.
    """
    middle = dancers[GENT].centre.midpoint(dancers[LADY].centre)
    at, heading = frame_at(hall, begins + middle.x)
    foot = Point(middle.x, 0.0)

    def carried(point: Point) -> Point:
        return at + (point - foot).turned(heading)

    return {part: _carried(dancer, carried, heading) for part, dancer in dancers.items()}


def _carried(dancer: Dancer, carried: Callable[[Point], Point], heading: float) -> Dancer:
    feet = {foot: Placed(carried(placed.heel), placed.degrees + heading) for foot, placed in dancer.feet.items()}
    going = None if dancer.going is None else dancer.going + heading
    return replace(dancer, centre=carried(dancer.centre), feet=feet, going=going)


def round_the_hall(floor: Floor, hall: Hall, times: int = 1) -> Iterator[tuple[int, int, dict[str, Dancer]]]:
    """Sequence (from 1), bar and the couple in the hall after every moment of so many sequences."""
    for sequence in range(times):
        for shown in floor.moments:
            yield sequence + 1, shown.bar, in_hall(shown.dancers, hall, sequence * floor.travel.x)


def corners(floor: Floor, hall: Hall) -> tuple[tuple[int, int], ...]:
    """Sequence and bar in which the couple comes to each corner, once round; none where it does not progress."""
    if floor.travel.x < 1.0:
        return ()
    times = math.ceil(hall.circuit / floor.travel.x)
    bends = [s.begins for s in stretches(hall) if s.turns]
    found: list[tuple[int, int]] = []
    for sequence in range(times):
        for shown in floor.moments:
            middle = shown.dancers[GENT].centre.midpoint(shown.dancers[LADY].centre).x + sequence * floor.travel.x
            while len(found) < len(bends) and middle >= bends[len(found)]:
                found.append((sequence + 1, shown.bar))
    return tuple(found)
