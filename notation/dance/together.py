"""Both partners side by side in time: which way each faces after every moment of the dance."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import groupby

from notation.dance.mark import Said
from notation.dance.room import Room
from notation.dance.script import GENT, LADY, PARTS, DancedPassage, Worked
from notation.dance.turning import Aligned, align, facing_at_start
from notation.kept import Same


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment at which one of the partners, or both, has finished a step.

    bar, beat: when the step began. steps: by part, those made now. feet: by part, where the toes point after it.
    position, hold: in force at it, as said last.
    """

    passage: DancedPassage
    bar: int
    beat: Fraction
    steps: dict[str, Aligned]
    feet: dict[str, Room | None]
    position: Said | None = None
    hold: Said | None = None


def aligned_parts(worked: Worked) -> Mapping[str, tuple[Aligned, ...]]:
    """The turn followed through both parts."""
    return _aligned_parts(Same(worked))


@lru_cache(maxsize=2)
def _aligned_parts(key: Same[Worked]) -> Mapping[str, tuple[Aligned, ...]]:
    worked = key.value
    return {GENT: align(worked.steps(GENT), worked.start.gent), LADY: align(worked.steps(LADY), worked.start.lady)}


def moments(worked: Worked) -> tuple[Moment, ...]:
    """Every moment in order of time, passage by passage."""
    return _moments(Same(worked))


@lru_cache(maxsize=2)
def _moments(key: Same[Worked]) -> tuple[Moment, ...]:
    return tuple(_in_time(key.value))


def by_passage(worked: Worked) -> Iterator[tuple[DancedPassage, tuple[Moment, ...]]]:
    """The moments of each passage that has any."""
    for _, group in groupby(moments(worked), key=lambda moment: id(moment.passage)):
        held = tuple(group)
        yield held[0].passage, held


def _in_time(worked: Worked) -> Iterator[Moment]:
    rows = {part: iter(made) for part, made in aligned_parts(worked).items()}
    feet = {GENT: facing_at_start(worked.start.gent), LADY: facing_at_start(worked.start.lady)}
    for passage in worked.passages:
        position, hold = passage.position, passage.hold
        at: dict[tuple[int, Fraction], dict[str, Aligned]] = {}
        for part in PARTS:
            for danced in passage.part(part):
                at.setdefault((danced.bar, danced.beat), {})[part] = next(rows[part])
        for (bar, beat), steps in sorted(at.items(), key=lambda item: item[0]):
            feet = feet | {part: one.feet for part, one in steps.items()}
            said = [one.danced.step for one in steps.values()]
            position = next((s.position for s in said if s.position), position)
            hold = next((s.hold for s in said if s.hold), hold)
            yield Moment(passage, bar, beat, steps, feet, position, hold)
