"""A figure of the library: its steps for one or both partners, and how it is begun, ended, halved and varied.

The steps themselves are data (figures/*.yaml) with their sources. On the other foot a figure is its mirror image.
"""
from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Protocol

from notation.dance.counting import count_lines
from notation.dance.feet import Foot, TurnOut
from notation.dance.mark import NOWHERE, Mark
from notation.dance.metre import Metre
from notation.dance.room import Room
from notation.dance.script import GENT, Derivation, Replacement, Stance
from notation.dance.step import BarLine, HeadLine, Step
from notation.dance.turning import turn_words

VULGAR = {"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}
FAMILIES = ("turned-out", "old-time", "modern", "Latin")


@dataclass(frozen=True, slots=True)
class FigurePart:
    """What one partner does.

    start: free foot, its place, alignment before the first step. turn: of the feet over the whole figure in eighths,
    positive to the left. free: the foot that is free at the end, None where both bear weight. head: all through.
    """

    lines: tuple[Step | BarLine, ...]
    start: Stance
    turn: int
    free: Foot | None
    head: HeadLine | None = None


@dataclass(frozen=True, slots=True)
class Half:
    """A stretch of whole bars with a name of its own ('rotary half'). first, last: bars of the figure, from 1."""

    name: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Variant:
    """Another way to dance it: lines that take the place of those at the same bar and count."""

    name: str
    gent: tuple[Replacement, ...]
    lady: tuple[Replacement, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure.

    bars: its length, in halves where S and Q run over a bar line. either: it is begun on whichever foot is free.
    mirror_name: what it is called on the other foot, where it has another name there. lady: None where both partners
    dance the gent's steps; lady_head: her head line then. opposite: what the partner dances in a facing hold where
    `lady` is None: a derivation, or the name of the half to begin from. ways: directions of the toes from which it is
    danced as it stands, besides that of the start. positions: those it is danced in; none where any will do. joins:
    names of figures that follow it. hints: bar, count and what a teacher says of that step. sources: by what they are
    the source of.
    """

    name: str
    also: tuple[str, ...]
    family: str
    rhythms: tuple[str, ...]
    metre: Metre
    bars: Fraction
    feet: TurnOut
    gent: FigurePart
    lady: FigurePart | None
    opposite: Derivation | str
    lady_head: HeadLine | None = None
    either: bool = False
    mirror_name: str = ""
    ways: tuple[Room, ...] = ()
    positions: tuple[str, ...] = ()
    halves: tuple[Half, ...] = ()
    variants: tuple[Variant, ...] = ()
    joins: tuple[str, ...] = ()
    arms: str = ""
    note: str = ""
    cautions: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    hints: tuple[tuple[int, str, str], ...] = ()
    sources: tuple[tuple[str, str], ...] = ()
    mark: Mark = NOWHERE

    def part(self, name: str) -> FigurePart:
        """The part of 'gent' or 'lady'."""
        return self.gent if name == GENT or self.lady is None else self.lady

    @property
    def beats(self) -> Fraction:
        return self.bars * self.metre.beats


class Unusable(Exception):
    """A figure's file cannot be used; the text says where and why."""


class Library(Protocol):
    """Figures by name. A name may stand for several figures of different rhythms."""

    def names(self) -> tuple[str, ...]:
        """All names and other names."""

    def named(self, name: str) -> tuple[Figure, ...]:
        """The figures of that name or other name, spaces, hyphens and capitals being alike. Raises Unusable."""

    def figures(self) -> tuple[Figure, ...]:
        """All figures. Raises Unusable."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """A library of figures that are at hand."""

    held: tuple[Figure, ...] = ()

    def names(self) -> tuple[str, ...]:
        return tuple(name for figure in self.held for name in (figure.name, *figure.also))

    def named(self, name: str) -> tuple[Figure, ...]:
        return tuple(f for f in self.held if plain_name(name) in map(plain_name, (f.name, *f.also)))

    def figures(self) -> tuple[Figure, ...]:
        return self.held


def plain_name(name: str) -> str:
    """A name without what does not tell names apart.

    >>> plain_name("Pas-de-Valse "), plain_name("Chassé")
    ('pas de valse', 'chasse')
    """
    lower = name.lower().replace("é", "e").replace("’", "'").replace("-", " ").replace("_", " ")
    return " ".join(lower.split())


def length_words(figure: Figure) -> str:
    """How long a figure lasts: '2 bars of 3/4', '1½ bars of 4/4', 'half a bar of 2/4'."""
    whole, rest = divmod(figure.bars, 1)
    half = "½" if rest else ""
    bars = "half a bar" if figure.bars == Fraction(1, 2) else f"{whole}{half} bar{'s' if figure.bars > 1 else ''}"
    return f"{bars} of {figure.metre}"


def end_words(of: FigurePart) -> str:
    """How a part ends: 'LF free, turned ¾ to L', 'RF free, no turn'."""
    free = f"{of.free.value} free" if of.free else "on both feet"
    words = turn_words(of.turn)
    for fraction, sign in VULGAR.items():
        words = words.replace(f"1 {fraction}", f"1{sign}").replace(fraction, sign)
    if of.turn % 8:
        return f"{free}, turned {words}"
    return f"{free}, {words.replace(' to', ' turn to' if abs(of.turn) == 8 else ' turns to')}"


def varied(
    lines: tuple[Step | BarLine, ...], changes: tuple[Replacement, ...], metre: Metre
) -> tuple[Step | BarLine, ...]:
    """The lines with those of a variant in the place of the ones at the same bar and count."""
    if not changes:
        return lines
    bars = iter([counted.bar for counted in count_lines(lines, metre)])
    by_place = {(change.bar or 1, change.step.count.text): change.step for change in changes}
    return tuple(line if isinstance(line, BarLine) else _changed(line, next(bars), by_place) for line in lines)


def _changed(step: Step, bar: int, by_place: dict[tuple[int, str], Step]) -> Step:
    change = by_place.get((bar, step.count.text))
    return replace(change, count=step.count) if change else step
