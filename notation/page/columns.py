"""Widths of a table's columns: numbers in, numbers out.

The widths chosen give the least total height of the rows; of all that do, those that break the fewest lines, so that no
words are broken while there is white beside them; of these the least total width, so no column is wider than its words
need. The search is exact as long as it stays within EFFORT (up to three columns of free width and some hundred rows
do), and gives the best found otherwise.
"""
from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from notation.page.linebreak import Profile, fits

EFFORT = 400_000  # cells compared before the search is content with the best found
LEAST_TRIALS = 200
WORTH_A_START = 1000

Price = tuple[float, float, float]
"""What widths are judged by: height of the rows, lines of all cells, width, the least first."""


def lines_at(profile: Profile, width: float) -> float:
    """Lines needed at a width not under the profile's first.

    >>> lines_at(((10.0, 3), (20.0, 1)), 19.0)
    3
    """
    if len(profile) == 1:
        return profile[0][1]
    return profile[max(0, bisect_right(profile, (width + 0.001, math.inf)) - 1)][1]


@dataclass(slots=True)
class Group:
    """Columns that share one width. columns: how many; least, most: bounds of the width of each.

    rows: for each row of the table the profiles of its cells in these columns.
    """

    columns: int
    least: float
    most: float
    rows: Sequence[tuple[Profile, ...]]
    _known: dict[float, tuple[float, ...]] = field(default_factory=dict)
    _all: dict[float, float] = field(default_factory=dict)
    _distinct: dict[Profile, int] = field(default_factory=dict)
    _indexes: list[tuple[int, ...]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for row in self.rows:
            self._indexes.append(tuple([self._distinct.setdefault(p, len(self._distinct)) for p in row or ((),)]))

    def heights(self, width: float) -> tuple[float, ...]:
        """Lines of each row at that width, as far as these columns ask for them."""
        if width not in self._known:
            lines = [lines_at(profile, width) if profile else 0.0 for profile in self._distinct]
            self._known[width] = tuple(
                [lines[row[0]] if len(row) == 1 else max([lines[k] for k in row]) for row in self._indexes]
            )
        return self._known[width]

    def lines(self, width: float) -> float:
        """Lines of all cells together at that width."""
        if width not in self._all:
            lines = [lines_at(profile, width) if profile else 0.0 for profile in self._distinct]
            self._all[width] = sum(lines[k] for row in self._indexes for k in row)
        return self._all[width]

    def widths(self) -> list[float]:
        """The widths at which a row gets shorter, rising; the least width first."""
        steps = {width for profile in self._distinct for width, _ in profile}
        return sorted({self.least, *(w for w in steps if self.least < w and fits(w, self.most))})

    @property
    def natural(self) -> float:
        """The width at which nothing is broken, or the most allowed."""
        return self.widths()[-1]


@dataclass(slots=True)
class _Search:
    """Branch and bound over the widths of all groups but the last, which takes what is left."""

    groups: Sequence[Group]
    choices: Sequence[list[float]]
    trials: int
    price: Price = (math.inf, math.inf, math.inf)
    best: tuple[float, ...] = ()

    def run(self, taken: tuple[float, ...], heights: tuple[float, ...], left: float, lines: float = 0.0) -> None:
        at = len(taken)
        if at == len(self.groups) - 1:
            self._finish(taken, heights, left, lines)
            return
        group = self.groups[at]
        for width in self._affordable(at, left):
            higher = tuple(map(max, heights, group.heights(width)))
            rest, more = left - width * group.columns, lines + group.lines(width)
            if self._promising(at + 1, higher, rest, more):
                self.run((*taken, width), higher, rest, more)

    def _spare(self, at: int, left: float) -> float:
        """The greatest width that group may take while those after it keep their least."""
        after = sum(group.least * group.columns for group in self.groups[at + 1 :])
        return (left - after) / self.groups[at].columns

    def _affordable(self, at: int, left: float) -> Iterator[float]:
        most = self._spare(at, left)
        return (width for width in reversed(self.choices[at]) if fits(width, most))

    def _promising(self, at: int, heights: tuple[float, ...], left: float, lines: float) -> bool:
        """Whether giving each group still open all that is left could be better than the best found."""
        self.trials -= 1
        if self.trials < 0 and self.best:
            return False
        for k in range(at, len(self.groups)):
            others = sum(g.least * g.columns for g in self.groups[at:] if g is not self.groups[k])
            width = min((left - others) / self.groups[k].columns, self.choices[k][-1])
            heights = tuple(map(max, heights, self.groups[k].heights(width)))
            lines += self.groups[k].lines(width)
        return (sum(heights), lines) <= self.price[:2]

    def start(self, available: float) -> None:
        """A good choice to begin with: from the widest, narrow again and again what costs least height."""
        at = [len(listed) - 1 for listed in self.choices]
        while not fits(self._total(at), available):
            at = min((way for way in self._narrower(at)), key=self._price)
        self.best = tuple(listed[k] for listed, k in zip(self.choices, at, strict=True))
        self.price = self._price(at)

    def _narrower(self, at: list[int]) -> Iterator[list[int]]:
        return ([*at[:k], step - 1, *at[k + 1 :]] for k, step in enumerate(at) if step)

    def _price(self, at: list[int]) -> Price:
        lines = sum(g.lines(c[k]) for c, k, g in zip(self.choices, at, self.groups, strict=True))
        return self._height(at), lines, self._total(at)

    def _total(self, at: list[int]) -> float:
        return sum(c[k] * g.columns for c, k, g in zip(self.choices, at, self.groups, strict=True))

    def _height(self, at: list[int]) -> float:
        heights = (g.heights(c[k]) for c, k, g in zip(self.choices, at, self.groups, strict=True))
        return sum(map(max, *heights)) if len(self.groups) > 1 else sum(next(heights))

    def _finish(self, taken: tuple[float, ...], heights: tuple[float, ...], left: float, lines: float) -> None:
        group = self.groups[-1]
        choices = [w for w in self.choices[-1] if fits(w, left / group.columns)]
        if not choices:
            return
        least = _with(heights, group, choices[-1])
        low, high = 0, len(choices) - 1
        while low < high:
            middle = (low + high) // 2
            low, high = (low, middle) if _with(heights, group, choices[middle]) == least else (middle + 1, high)
        widths = (*taken, choices[low])
        total = sum(w * g.columns for w, g in zip(widths, self.groups, strict=True))
        price = (least[0], lines + least[1], total)
        if price < self.price:
            self.price, self.best = price, widths


def _trials(groups: Sequence[Group]) -> int:
    return max(LEAST_TRIALS, EFFORT // (1 + len(groups[0].rows) * len(groups)))


def _with(heights: tuple[float, ...], group: Group, width: float) -> tuple[float, float]:
    return sum(map(max, heights, group.heights(width))), group.lines(width)


def choose(groups: Sequence[Group], available: float) -> tuple[float, ...]:
    """A width for each group, in points. The sum of their least widths must be within `available`."""
    natural = [group.natural for group in groups]
    if fits(sum(w * g.columns for w, g in zip(natural, groups, strict=True)), available) and all(
        height <= 1 for group, width in zip(groups, natural, strict=True) for height in group.heights(width)
    ):
        return tuple(natural)
    choices = [group.widths() for group in groups]
    order = sorted(range(len(groups)), key=lambda k: len(choices[k]))
    ordered = [groups[k] for k in order]
    search = _Search(ordered, [choices[k] for k in order], _trials(groups))
    if search.trials < WORTH_A_START or sum(len(listed) > 1 for listed in choices) > 3:
        search.start(available)
    search.run((), (0.0,) * len(ordered[0].rows), available)
    found = dict(zip(order, search.best, strict=True))
    return tuple(found[k] for k in range(len(groups)))


def squeezed(wanted: Sequence[float], floors: Sequence[float], available: float) -> tuple[float, ...] | None:
    """Widths where the words do not fit: the widest are cut to one common width. None where the floors do not fit.

    >>> squeezed([10.0, 50.0, 80.0], [5, 5, 5], 90)
    (10.0, 40.0, 40.0)
    """
    if not fits(sum(floors), available):
        return None
    low, high = 0.0, max(wanted)
    for _ in range(60):
        middle = (low + high) / 2
        taken = sum(max(f, min(w, middle)) for w, f in zip(wanted, floors, strict=True))
        low, high = (middle, high) if taken <= available else (low, middle)
    return tuple(round(max(f, min(w, low)), 6) for w, f in zip(wanted, floors, strict=True))
