"""Bars and steps of two versions of a dance paired so that the pairs are as much alike as can be.

The bars are paired over the whole dance at once: difflib's own matching takes the longest run first, and pairs the
wrong bars where a dance repeats itself, as dances do.
"""
from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import zip_longest
from typing import TypeVar

from notation.dance.script import PARTS, Danced, DancedPassage, Worked
from notation.dance.step import Step
from notation.dance.together import aligned_parts
from notation.dance.turning import Aligned

One = TypeVar("One")
Pair = tuple[One | None, One | None]
LEAST_ALIKE = 0.3
"""Likeness, from 0 to 1, from which two bars may be the same bar changed."""
SAME_NUMBER = 0.5
"""What it counts for, in likeness, that two bars of dances of one length have one number."""
LEFT_ALONE = 0.6
"""What each bar that is put in or left out costs, in likeness; else bars would seem to wander in a dance of repeats."""
MOST_PAIRS = 40_000
"""Of steps in one bar, from which they are not weighed against each other."""

FIELDS = (
    "place", "size", "weight", "travel", "footwork", "rise", "body", "sway", "head", "hold", "position", "joins",
    "passes", "direction", "remarks",
)
"""Fields of a step that are compared as they are said; foot and action, turn and alignment are compared apart."""


@dataclass(frozen=True, slots=True)
class Turned:
    """A step with its turn worked out."""

    danced: Danced
    aligned: Aligned

    @property
    def step(self) -> Step:
        return self.danced.step


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar as it is danced. passage: it stands in; source: the bar it was first written as, where it is a repeat."""

    number: int
    passage: DancedPassage
    steps: dict[str, tuple[Turned, ...]]
    source: int

    @property
    def called(self) -> dict[str, str]:
        """The calls that give this bar, by part."""
        return {called.part: called.text for called in self.passage.called}


def bars_of(worked: Worked) -> tuple[Bar, ...]:
    """The bars of a dance in order with both parts' steps. One that is written twice, an error, counts once."""
    by_bar: dict[str, dict[int, list[Turned]]] = {part: {} for part in PARTS}
    for part, aligned in aligned_parts(worked).items():
        for one in aligned:
            by_bar[part].setdefault(one.danced.bar, []).append(Turned(one.danced, one))
    found = []
    met: set[int] = set()
    for passage in worked.passages:
        for number in (n for n in range(passage.first, passage.last + 1) if n not in met):
            met.add(number)
            steps = {part: tuple(by_bar[part].get(number, ())) for part in PARTS}
            source = number if passage.repeated is None else passage.repeated[0] + number - passage.first
            found.append(Bar(number, passage, steps, source))
    return tuple(found)


def _tokens(bar: Bar) -> frozenset[tuple[object, ...]]:
    """What a bar is made of, for its likeness."""
    return frozenset(
        (part, t.danced.beat, *token) for part in PARTS for t in bar.steps[part]
        for token in (("step", t.step.foot, t.step.action), ("more", *_said_fields(t.step)), ("turn", _turn(t)))
    )


def _said_fields(step: Step) -> tuple[object, ...]:
    return tuple(plain_field(step, name) for name in FIELDS)


def plain_field(step: Step, name: str) -> object:
    value = getattr(step, name)
    return getattr(value, "text", value) if name in ("hold", "position") else value


def _turn(one: Turned) -> object:
    return (one.step.turn, one.step.alignment)


def align_bars(old: Sequence[Bar], new: Sequence[Bar]) -> Iterator[Pair[Bar]]:
    """Bars paired in order so that the pairs are most alike; equal numbers of bars left over are paired too."""
    kinds: dict[tuple[object, ...], int] = {}
    tokens = {id(bar): frozenset(kinds.setdefault(token, len(kinds)) for token in _tokens(bar)) for bar in (*old, *new)}

    @cache
    def likeness(a: frozenset[int], b: frozenset[int]) -> float:
        alike = 2 * len(a & b) / (len(a) + len(b)) if a or b else 1.0
        return alike if alike >= LEAST_ALIKE else 0.0

    def score(one: Bar, two: Bar) -> float:
        in_place = len(old) == len(new) and one.number == two.number
        return likeness(tokens[id(one)], tokens[id(two)]) + (SAME_NUMBER if in_place else 0.0)

    left: tuple[list[Bar], list[Bar]] = ([], [])
    for one, two in paired(old, new, score, LEFT_ALONE):
        if one is not None and two is not None:
            yield from _left_over(*left)
            left = ([], [])
            yield one, two
        else:
            left[0].extend([one] if one else [])
            left[1].extend([two] if two else [])
    yield from _left_over(*left)


def _left_over(old: list[Bar], new: list[Bar]) -> Iterator[Pair[Bar]]:
    if len(old) == len(new):
        yield from zip(old, new, strict=True)
        return
    yield from ((bar, None) for bar in old)
    yield from ((None, bar) for bar in new)


def pair_steps(old: Sequence[Turned], new: Sequence[Turned]) -> list[Pair[Turned]]:
    """Steps of a bar paired in order: the same foot and action count for more than the same beat.

    More steps than any bar has are paired as they come.
    """
    if len(old) * len(new) > MOST_PAIRS:
        return list(zip_longest(old, new))
    def score(one: Turned, two: Turned) -> float:
        same = (one.step.foot, one.step.action) == (two.step.foot, two.step.action)
        return 2.0 * same + (one.danced.beat == two.danced.beat)

    return paired(old, new, score)


def paired(old: Sequence[One], new: Sequence[One], score: Callable[[One, One], float], alone: float = 0.0
           ) -> list[Pair[One]]:
    """Both in order, paired so that the scores add up to the most (Needleman and Wunsch, J. Mol. Biol. 48, 1970); what
    scores nothing together is not paired. alone: what one without a partner costs. Time and room grow with the product
    of both lengths.
    """
    best = _sums(old, new, score, alone)
    found: list[Pair[One]] = []
    i = k = 0
    while i < len(old) and k < len(new):
        worth = score(old[i], new[k])
        if worth and best[i][k] == best[i + 1][k + 1] + worth:
            found.append((old[i], new[k]))
            i, k = i + 1, k + 1
        elif best[i][k] == best[i + 1][k] - alone:
            found.append((old[i], None))
            i += 1
        else:
            found.append((None, new[k]))
            k += 1
    return [*found, *((one, None) for one in old[i:]), *((None, two) for two in new[k:])]


def _sums(old: Sequence[One], new: Sequence[One], score: Callable[[One, One], float], alone: float
          ) -> list[list[float]]:
    """The best sum of scores from each place of both to their ends."""
    best = [[-alone * (len(old) - i + len(new) - k) for k in range(len(new) + 1)] for i in range(len(old) + 1)]
    for i in range(len(old) - 1, -1, -1):
        for k in range(len(new) - 1, -1, -1):
            worth = score(old[i], new[k])
            best[i][k] = max(best[i + 1][k] - alone, best[i][k + 1] - alone)
            if worth:
                best[i][k] = max(best[i][k], best[i + 1][k + 1] + worth)
    return best
