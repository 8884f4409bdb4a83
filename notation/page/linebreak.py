"""Breaking a paragraph into lines: numbers in, numbers out.

A paragraph is a row of atoms that are never divided. Where a line may end after an atom is said by a penalty.
Of all ways with the fewest lines the one with the least raggedness is taken: the sum over the lines of the squared
share of the width left empty, and of the penalties; the last line may be short at no cost.
"""
from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

NEVER = math.inf
TOLERANCE = 0.001

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


def _cost(text: Breakable, first: int, last: int, width: float, final: bool) -> float:
    if final:
        return 0.0
    short = (width - text.width(first, last)) / width
    return short * short + text.penalties[last]


def breaks(text: Breakable, width: float, balanced: bool = False) -> list[int]:
    """The last atom of each line. A group wider than the width stands on a line of its own and runs over.

    balanced: the last line counts like the others, as in a centred heading.
    """
    legal = text.legal()
    best: list[tuple[int, float, int]] = [(0, 0.0, -1)]
    slack = max(text.extras) + TOLERANCE
    for at, last in enumerate(legal):
        final = at == len(legal) - 1 and not balanced
        best.append(_best_line(text, legal, best, at, last, width, slack, final))
    return _traced(best, legal)


def _best_line(text: Breakable, legal: Sequence[int], best: Sequence[tuple[int, float, int]], at: int, last: int,
               width: float, slack: float, final: bool) -> tuple[int, float, int]:
    """The least (lines, cost, place of the break before) of all ways to end a line after atom `last`."""
    found = (best[at][0] + 1, best[at][1] + _cost(text, _after(legal, at), last, width, final), at)
    for before in range(at - 1, -1, -1):
        first = _after(legal, before)
        needed = text.width(first, last)
        if not fits(needed, width + slack):
            break
        if fits(needed, width):
            lines, cost, _ = best[before]
            found = min(found, (lines + 1, cost + _cost(text, first, last, width, final), before))
    return found


def _after(legal: Sequence[int], at: int) -> int:
    return legal[at - 1] + 1 if at else 0


def _traced(best: Sequence[tuple[int, float, int]], legal: Sequence[int]) -> list[int]:
    ends, at = [], len(best) - 1
    while at > 0:
        ends.append(legal[at - 1])
        at = best[at][2]
    return ends[::-1]
