"""Where every foot stands on the floor after each step, for both partners in one frame.

Millimetres; x along the line of dance, y towards the centre; the gent's body at the origin when the dance begins. The
lengths of steps are usual ones, so that places are estimates; partners in a close hold fit their steps to each other,
and where the writer names another position or hold they come together in it, whatever the estimate was before.
"""
from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache

from notation.dance.feet import Foot, Place, TurnOut
from notation.dance.geometry import MEANS, FootSize, position_of_feet
from notation.dance.hold import Hold, Position
from notation.dance.knowledge import Knowledge
from notation.dance.naming import named
from notation.dance.room import Room
from notation.dance.script import GENT, LADY, PARTS, DancedPassage, Stance, Worked
from notation.dance.step import Body
from notation.dance.stepping import Dancer, Landing, after_step
from notation.dance.together import Moment, moments
from notation.dance.turning import facing_at_start
from notation.plane import ORIGIN, Point, Vector

ADJUST = 350.0
"""Millimetres by which one step is made longer, shorter or aside to stay with the partner."""
OPENS = {Body.PP: "promenade", Body.CPP: "counter promenade"}
CLOSE = 700.0
"""A hold that reaches no further keeps the bodies in their place to each other."""


@dataclass(frozen=True, slots=True)
class Shown:
    """The floor after a moment. landings: by part, the steps made now. dancers: both, as they then stand.

    position, hold: those in force, None where they are not known. drawn: millimetres by which who travels was drawn
    to the partner, on top of the usual length of the step.
    """

    passage: DancedPassage
    bar: int
    landings: Mapping[str, Landing]
    dancers: Mapping[str, Dancer]
    position: Position | None
    hold: Hold | None
    drawn: float = 0.0

    @property
    def apart(self) -> float:
        """Millimetres between the middles of the two bodies."""
        return self.dancers[GENT].centre.distance(self.dancers[LADY].centre)


@dataclass(frozen=True, slots=True)
class Floor:
    """The start, every moment of the sequence in order, and the sizes it was worked out for."""

    start: Mapping[str, Dancer]
    moments: tuple[Shown, ...]
    sizes: Mapping[str, FootSize]

    def landings(self, part: str) -> tuple[Landing, ...]:
        """The steps of 'gent' or 'lady' in order."""
        return tuple(shown.landings[part] for shown in self.moments if part in shown.landings)

    def bars(self, bars: range) -> Floor:
        """Those bars alone, begun as the partners stand before them."""
        first = next((n for n, shown in enumerate(self.moments) if shown.bar in bars), 0)
        start = self.moments[first - 1].dancers if first else self.start
        return replace(self, start=start, moments=tuple(shown for shown in self.moments if shown.bar in bars))

    @property
    def travel(self) -> Vector:
        """From the middle of the couple at the start to its middle at the end."""
        end = self.moments[-1].dancers if self.moments else self.start
        return _middle(end) - _middle(self.start)


def _middle(dancers: Mapping[str, Dancer]) -> Point:
    return dancers[GENT].centre.midpoint(dancers[LADY].centre)


def dance_floor(worked: Worked, knowledge: Knowledge, sizes: Mapping[str, FootSize] = MEANS) -> Floor:
    """Follow both partners' feet. Where no alignment is known, a partner is taken to face the line of dance."""
    start = _at_start(worked, knowledge, sizes)
    out = worked.dance.feet or TurnOut.PARALLEL
    dancers: Mapping[str, Dancer] = start
    shown: list[Shown] = []
    last: tuple[Position | None, Hold | None] = (None, None)
    position_of = cache(lambda said: named(said, knowledge.positions))
    hold_of = cache(lambda said: named(said, knowledge.holds))
    rows = {row.name: row for row in knowledge.positions}
    for moment in moments(worked):
        position, hold = position_of(moment.position), hold_of(moment.hold)
        landings = {p: after_step(dancers[p], one, out, sizes[p]) for p, one in moment.steps.items()}
        limit = ADJUST if (position, hold) == last else math.inf
        usual = landings
        landings, met = _fitted(dancers, usual, _opened(moment, position, rows), hold, limit)
        last = (position, hold) if met or not shown else last
        dancers = {**dancers, **{p: landing.after for p, landing in landings.items()}}
        drawn = max((usual[p].after.centre.distance(landings[p].after.centre) for p in landings), default=0.0)
        shown.append(Shown(moment.passage, moment.bar, landings, dancers, position, hold, drawn))
    return Floor(start, tuple(shown), sizes)


def _at_start(worked: Worked, knowledge: Knowledge, sizes: Mapping[str, FootSize]) -> dict[str, Dancer]:
    stances = {GENT: worked.start.gent, LADY: worked.start.lady}
    out = worked.dance.feet or TurnOut.PARALLEL
    position = named(worked.start.position, knowledge.positions)
    gent = facing_at_start(stances[GENT]) or Room.LOD
    lady = facing_at_start(stances[LADY]) or gent.turned(position.turn if position else 0)
    apart = place_of_lady(gent, lady, position) if position else Vector(0.0, -CLOSE)
    places = {GENT: (ORIGIN, gent), LADY: (ORIGIN + apart, lady)}
    return {part: standing(stances[part], part, *places[part], out, sizes[part]) for part in PARTS}


def place_of_lady(gent: Room, lady: Room, position: Position) -> Vector:
    """From his body to hers in the room. Partners who open to each other by a quarter or less stand to the direction
    midway between them, as on the two diagonals of the turned-out start."""
    between = gent.turned(position.turn).eighths_to(lady)
    return position.lady_at.turned(gent.degrees + (22.5 * between if abs(between) <= 2 else 0.0))


def standing(stance: Stance | None, part: str, at: Point, facing: Room, out: TurnOut, size: FootSize) -> Dancer:
    """A dancer before the first step, in the position that is said, or in first."""
    foot = stance.foot if stance and stance.foot is not Foot.BOTH else Foot.LEFT
    place = stance.place if stance and stance.place else Place(1)
    feet = position_of_feet(place, foot, out, size)
    placed = {f: p.turned_about_origin(facing.degrees).moved(at - ORIGIN) for f, p in feet.items()}
    return Dancer(part, at, facing, placed, foot.other)


def _fitted(
    before: Mapping[str, Dancer],
    landings: dict[str, Landing],
    positions: tuple[Position, ...],
    hold: Hold | None,
    limit: float,
) -> tuple[dict[str, Landing], bool]:
    """The partners' steps fitted to each other where the hold is close or does not reach: shared by who travels, each
    by no more than the limit. Also whether they could be fitted now. positions: those that may fit, likeliest first."""
    after = {**before, **{p: landing.after for p, landing in landings.items()}}
    movers = [p for p, landing in landings.items() if landing.travels]
    position = next((one for one in positions if _faces(after, one)), None)
    if position is None or not movers:
        return landings, False
    wanted = place_of_lady(after[GENT].facing, after[LADY].facing, position)
    off = _off(after[LADY].centre - after[GENT].centre, wanted, hold)
    share = off * (1.0 / len(movers))
    share = share * min(1.0, limit / share.length) if share.length else share
    return {p: _shifted(n, share if p == LADY else -share) if p in movers else n for p, n in landings.items()}, True


def _opened(moment: Moment, position: Position | None, rows: Mapping[str, Position]) -> tuple[Position, ...]:
    """The position in force; promenade where a step says PP; closed too while partners close from promenade."""
    said = {body for one in moment.steps.values() for body in one.danced.step.body}
    names = [name for body, name in OPENS.items() if body in said]
    if position is not None and not names:
        names = [position.name, *(["closed"] if position.name in OPENS.values() else [])]
    return tuple(rows[name] for name in names if name in rows) if position is not None else ()


def _faces(dancers: Mapping[str, Dancer], position: Position) -> bool:
    off = dancers[GENT].facing.turned(position.turn).eighths_to(dancers[LADY].facing)
    return abs(off) <= 1


def _off(apart: Vector, wanted: Vector, hold: Hold | None) -> Vector:
    """What the lady's place against the gent's lacks: all of it in a close hold, or where a position is named and the
    hold is not known; else what the hold does not reach."""
    if hold is None:
        return wanted - apart
    if hold.reach is None:
        return Vector(0.0, 0.0)
    if hold.reach <= CLOSE:
        return wanted - apart
    if apart.length > hold.reach:
        return apart * (hold.reach / apart.length - 1.0)
    return wanted - apart if hold.least is not None and apart.length < hold.least else Vector(0.0, 0.0)


def _shifted(landing: Landing, by: Vector) -> Landing:
    """The step made longer, shorter or aside."""
    after = landing.after
    feet = dict(after.feet) | {landing.foot: after.feet[landing.foot].moved(by)} if landing.foot else after.feet
    moved = Dancer(after.part, after.centre + by, after.facing, feet, after.weight, after.height, after.going)
    return Landing(landing.aligned, landing.before, moved, landing.foot, landing.travels)

