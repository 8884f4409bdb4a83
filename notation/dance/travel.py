"""What `check` says of the floor: how far a sequence progresses, how far apart the partners stand, how it closes."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from notation.dance.floor import Floor, Shown
from notation.dance.hall import EMPRESS, Hall, corners
from notation.dance.script import GENT, LADY, PARTS
from notation.dance.stepping import Dancer
from notation.dance.turning import turn_words
from notation.plane import Vector

QUARTER = 2
UNSPOKEN = 0.5
"""Metres that are not spoken of: places are estimates from steps of usual length."""


@dataclass(frozen=True, slots=True)
class Travel:
    """Estimated progress of one sequence in metres. along: the line of dance; to_centre: negative towards the wall."""

    along: float
    to_centre: float


def travel_of(floor: Floor) -> Travel:
    """The progress of the couple's middle from the beginning of a sequence to its end."""
    moved = floor.travel
    return Travel(moved.x / 1000.0, moved.y / 1000.0)


@dataclass(frozen=True, slots=True)
class Progress:
    """What is told of it. along, to_centre: as of Travel, 0 where it is too little to speak of. times: sequences once
    round the hall, None where it does not go along the line of dance."""

    along: float
    to_centre: float
    times: int | None


def progress(travel: Travel, hall: Hall = EMPRESS) -> Progress:
    along, aside = (0.0 if abs(metres) < UNSPOKEN else metres for metres in (travel.along, travel.to_centre))
    times = max(1, round(hall.circuit / 1000.0 / travel.along)) if along > 0 else None
    return Progress(along, aside, times)


def travel_sentence(travel: Travel, hall: Hall = EMPRESS) -> str:
    """One sentence for the writer.

    >>> travel_sentence(Travel(0.1, 0.0))
    'the sequence ends about where it begins, with steps of usual length'
    >>> travel_sentence(Travel(-2.0, 0.9))
    'one sequence travels about 2.0 m along ALOD and 0.9 m to centre with steps of usual length'
    """
    told = progress(travel, hall)
    aside = _aside(told.to_centre)
    if not told.along:
        where = f" along the line of dance, and{aside.removeprefix(' and')}" if aside else ""
        return f"the sequence ends about where it begins{where}, with steps of usual length"
    way = "LOD" if told.along > 0 else "ALOD"
    said = f"one sequence travels about {abs(told.along):.1f} m along {way}{aside} with steps of usual length"
    if told.times is None:
        return said
    return f"{said}; once round a hall of {hall_words(hall)} is {told.times} of them"


def _aside(metres: float) -> str:
    return "" if not metres else f" and {abs(metres):.1f} m to {'centre' if metres > 0 else 'wall'}"


def hall_words(hall: Hall) -> str:
    return f"{hall.length / 1000:g} by {hall.breadth / 1000:g} m"


def corner_sentence(floor: Floor, hall: Hall) -> str:
    """In which bars the corners of a hall come; empty where the sequence does not go round it."""
    found = corners(floor, hall)
    if not found:
        return ""
    said = [f"bar {bar} of sequence {sequence}" for sequence, bar in found]
    begun = "begun half-way along a long side, the corners come in"
    return f"{begun} {', '.join(said[:-1])} and {said[-1]}"


def furthest(floor: Floor) -> Shown | None:
    """The first moment at which the partners stand furthest apart."""
    return max(floor.moments, key=lambda shown: round(shown.apart), default=None)


def apart_sentence(floor: Floor) -> str:
    """How near and how far the partners stand, and where the greatest distance is."""
    far = furthest(floor)
    if far is None:
        return ""
    near, most = (f"{apart / 1000:.2f}" for apart in (min(shown.apart for shown in floor.moments), far.apart))
    reach = far.hold.reach if far.hold else None
    holds = f", where {article(far.hold.name)} hold reaches {reach / 1000:.2f} m" if far.hold and reach else ""
    if near == most:
        return f"the partners' bodies are {most} m apart throughout{holds}"
    count = next(iter(far.landings.values())).aligned.danced.count
    return f"the partners' bodies are {near} to {most} m apart, furthest in bar {far.bar} count {count}{holds}"


def article(name: str) -> str:
    """The name after 'a' or 'an'."""
    return f"a{'n' if name[0] in 'aeiou' else ''} {name}"


def lady_from_gent(dancers: Mapping[str, Dancer]) -> Vector:
    """Her place from his in millimetres, x ahead of him and y to his left; where they face within a quarter of each
    other, as on the two diagonals of the turned-out start, ahead is midway between them."""
    gent, lady = dancers[GENT], dancers[LADY]
    between = gent.facing.eighths_to(lady.facing)
    ahead = gent.facing.degrees + (22.5 * between if abs(between) <= QUARTER else 0.0)
    return (lady.centre - gent.centre).turned(-ahead)


def closing_sentence(floor: Floor) -> str:
    """How the end of the sequence meets its beginning: the turn that is missing, and the lady's place."""
    if not floor.moments:
        return ""
    end = floor.moments[-1].dancers
    off = (lady_from_gent(end) - lady_from_gent(floor.start)).length / 1000.0
    turns = {p: end[p].facing.eighths_to(floor.start[p].facing) for p in PARTS}
    lacking = [f"the {p} lacks {turn_words(eighths)}" for p, eighths in turns.items() if eighths]
    faced = f"{' and '.join(lacking)} of how they began facing" if lacking else "both face as they began"
    return f"at the end {faced}, and the lady is {off:.2f} m from her place beside the gent"
