"""Breaking a paragraph into lines: numbers in, numbers out.

A paragraph is a row of atoms that are never divided. Where a line may end after an atom is said by a penalty.
Of all ways with the fewest lines the one with the least raggedness is taken: the sum over the lines of the squared
share of the width left empty, and of the penalties; the last line may be short at no cost, unless it is so short that
a word stands alone.
"""
from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

NEVER = math.inf
TOLERANCE = 0.001
LEAST_LAST = 0.3  # of the width; a last line that is shorter counts by the share it lacks. Common practice, no source

Profile = tuple[tuple[float, float], ...]
"""What height a paragraph needs: (least width, lines or steps), widths rising, the last with one line."""


def fits(needed: float, width: float) -> bool:
    """The one place that says whether a length is within another; both in points."""
    return needed <= width + TOLERANCE


@dataclass(frozen=True, slots=True)
class Breakable:
    """Atoms laid out on one endless line, all in points.

    starts, ends: where each atom begins and ends. extras: the width a hyphen adds when the line ends after the atom.
    penalties: what ending a line there costs, NEVER where it is not allowed; the last atom's counts for nothing.
    """

    starts: tuple[float, ...]
    ends: tuple[float, ...]
    extras: tuple[float, ...]
    penalties: tuple[float, ...]

    def legal(self) -> list[int]:
        """Atoms a line may end with."""
        last = len(self.ends) - 1
        return [k for k, penalty in enumerate(self.penalties) if penalty < NEVER or k == last]

    def width(self, first: int, last: int) -> float:
        """Width of a line from one atom to another, both included."""
        return self.ends[last] - self.starts[first] + self.extras[last]

    def widest_group(self) -> float:
        """The least width at which no line runs over."""
        first, widest = 0, 0.0
        for last in self.legal():
            widest, first = max(widest, self.width(first, last)), last + 1
        return widest


def _reaches(text: Breakable) -> tuple[list[int], list[float]]:
    """The breaks worth making when lines are few, and where each ends; one that a later break undercuts is left out."""
    kept: list[int] = []
    reach: list[float] = []
    for k in text.legal():
        end = text.ends[k] + text.extras[k]
        while reach and reach[-1] > end:
            kept.pop()
            reach.pop()
        kept.append(k)
        reach.append(end)
    return kept, reach


def _filled(starts: Sequence[float], kept: Sequence[int], reach: Sequence[float], width: float) -> tuple[int, float]:
    """How many lines are needed at that width, and the least greater width at which some line takes in more."""
    lines, first, at, wider = 0, 0, 0, math.inf
    while at < len(kept):
        origin = starts[first]
        upto = max(at, bisect_right(reach, origin + width + TOLERANCE) - 1)
        if upto + 1 < len(kept):
            wider = min(wider, reach[upto + 1] - origin)
        lines, first, at = lines + 1, kept[upto] + 1, upto + 1
    return lines, wider


def profile(text: Breakable, least: float) -> Profile:
    """The widths from `least` up at which fewer lines are needed."""
    kept, reach = _reaches(text)
    width = max(least, text.widest_group())
    steps: list[tuple[float, float]] = []
    while True:
        lines, wider = _filled(text.starts, kept, reach, width)
        if not steps or lines < steps[-1][1]:
            steps.append((width, lines))
        if lines <= 1 or wider <= width:
            return tuple(steps)
        width = wider


def breaks(text: Breakable, width: float, balanced: bool = False) -> list[int]:
    """The last atom of each line. A group wider than the width stands on a line of its own and runs over.

    balanced: the last line counts like the others, as in a centred heading.
    """
    legal = text.legal()
    origins = [0.0, *(text.starts[k + 1] for k in legal[:-1])]
    reaches = [text.ends[k] + text.extras[k] for k in legal]
    penalties = [text.penalties[k] for k in legal]
    penalties[-1] = 0.0
    slack = max(text.extras)
    lines, costs, befores = [0], [0.0], [-1]
    for at, reach in enumerate(reaches):
        full = LEAST_LAST if at == len(legal) - 1 and not balanced else 1.0
        count, cost, before = _best_line(origins, at, reach, width, slack, lines, costs, full * width)
        lines.append(count)
        costs.append(cost + penalties[at])
        befores.append(before)
    return _traced(befores, legal)


def _best_line(origins: Sequence[float], at: int, reach: float, width: float, slack: float,
               lines: Sequence[int], costs: Sequence[float], full: float) -> tuple[int, float, int]:
    """The least (lines, cost, break before it) of all lines that end at that place. full: from what length in points a
    line costs nothing."""
    short = max(0.0, full - reach + origins[at]) / full
    count, cost, found = lines[at] + 1, costs[at] + short * short, at
    room = width + TOLERANCE
    for before in range(at - 1, -1, -1):
        needed = reach - origins[before]
        if needed > room:
            if needed > room + slack:
                break
            continue
        short = (full - needed) / full if needed < full else 0.0
        new, dear = lines[before] + 1, costs[before] + short * short
        if new < count or (new == count and dear < cost):
            count, cost, found = new, dear, before
    return count, cost, found


def _traced(befores: Sequence[int], legal: Sequence[int]) -> list[int]:
    ends, at = [], len(befores) - 1
    while at > 0:
        ends.append(legal[at - 1])
        at = befores[at]
    return ends[::-1]
