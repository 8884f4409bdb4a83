"""Metre, counts as exact beats, rhythms and tempo.

A beat is what is counted: crotchets in 3/4, 4/4 and 2/4, quavers in 6/8. Beats are exact Fractions.
"""
from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from notation.dance.mark import NOWHERE, Mark


@dataclass(frozen=True, slots=True)
class Metre:
    """A time signature: beats in a bar and the note that is one beat (4 crotchet, 8 quaver).

    >>> str(Metre(6, 8))
    '6/8'
    """

    beats: int
    unit: int

    def __str__(self) -> str:
        return f"{self.beats}/{self.unit}"


@dataclass(frozen=True, slots=True)
class Count:
    """A count as it is written, before it has a place in its bar.

    text: in its plain form ('1', '&', '1-2', '4-1', 'S'). beat: number of the beat from 1, None for S, Q and for a bare
    '&', 'e' or 'a'. part: 0, 1/4, 1/2 or 3/4 of a beat after it. until: the beat it lasts through ('1-2' gives 2), or
    None.
    letter: 'S', 'Q' or empty.
    """

    text: str
    beat: int | None = None
    part: Fraction = Fraction(0)
    until: int | None = None
    letter: str = ""
    mark: Mark = NOWHERE


@dataclass(frozen=True, slots=True)
class Tempo:
    """Bars a minute, least and greatest (the same where one figure is given).

    >>> Tempo(Fraction(42), Fraction(42)).middle
    Fraction(42, 1)
    """

    least: Fraction
    most: Fraction

    @property
    def middle(self) -> Fraction:
        return (self.least + self.most) / 2


@dataclass(frozen=True, slots=True)
class Rhythm:
    """A row of the rhythm table. tempo: usual bars a minute, None where no source gives it. source: where that stands.

    """

    name: str
    metre: Metre
    tempo: Tempo | None
    source: str
    also: tuple[str, ...] = ()
    feet: str = "parallel"
