"""How far a sequence progresses, and how many of them go round a hall."""
from __future__ import annotations

from dataclasses import dataclass

from notation.dance.floor import Floor

HALL = (33_500.0, 57_600.0)
"""Millimetres: the Empress Ballroom in Blackpool, 110 by 189 feet (en.wikipedia.org, 'Winter Gardens, Blackpool')."""
ASIDE = 2_000.0
"""Millimetres from the line of dance to the edge of the floor; an estimate."""


@dataclass(frozen=True, slots=True)
class Travel:
    """Estimated progress of one sequence in metres. along: the line of dance; to_centre: negative towards the wall."""

    along: float
    to_centre: float


def travel_of(floor: Floor) -> Travel:
    """The progress of the couple's middle from the beginning of a sequence to its end."""
    moved = floor.travel
    return Travel(moved.x / 1000.0, moved.y / 1000.0)


def line_of_dance(hall: tuple[float, float] = HALL, aside: float = ASIDE) -> float:
    """Metres once round a hall of that breadth and length in millimetres, that far from its edges."""
    return 2.0 * (hall[0] + hall[1] - 4.0 * aside) / 1000.0


def travel_sentence(travel: Travel, hall: tuple[float, float] = HALL) -> str:
    """One sentence for the writer.

    >>> travel_sentence(Travel(0.1, 0.0))
    'the sequence ends about where it begins, with steps of usual length'
    """
    if abs(travel.along) < 0.5:
        return "the sequence ends about where it begins, with steps of usual length"
    way = "LOD" if travel.along > 0 else "ALOD"
    said = f"one sequence travels about {abs(travel.along):.1f} m along {way} with steps of usual length"
    if travel.along < 0:
        return said
    times = round(line_of_dance(hall) / travel.along)
    return f"{said}; once round a hall of {hall[0] / 1000:g} by {hall[1] / 1000:g} m is {times} of them"
