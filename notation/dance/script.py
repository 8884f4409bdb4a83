"""A dance as it is written, and as it is danced.

`Dance` holds what the file says. `Worked` holds what the partners do: repeats written out, the derived part made,
every step in its bar.
"""
from __future__ import annotations

import enum
from dataclasses import dataclass, field
from fractions import Fraction

from notation.dance.feet import Foot, Place, TurnOut
from notation.dance.finding import Finding
from notation.dance.mark import NOWHERE, Mark, Said
from notation.dance.metre import Metre, Rhythm, Tempo
from notation.dance.room import Alignment
from notation.dance.step import BarLine, HeadLine, Step

GENT, LADY = "gent", "lady"
PARTS = (GENT, LADY)


class Derivation(enum.Enum):
    """How a part follows from the partner's."""

    OPPOSITE = "opposite"
    MIRROR = "mirror"
    SAME = "same"


@dataclass(frozen=True, slots=True)
class Written:
    """A part given as step lines."""

    lines: tuple[Step | BarLine, ...]
    mark: Mark


@dataclass(frozen=True, slots=True)
class Replacement:
    """A line under a derivation: it takes the place of the derived step at that bar of the passage and that count.

    bar: from 1 within the passage; None where the line names none (then bar 1).
    """

    bar: int | None
    step: Step


@dataclass(frozen=True, slots=True)
class Derived:
    """A part that follows from the partner's, with lines that differ."""

    how: Derivation
    replacements: tuple[Replacement, ...]
    mark: Mark


@dataclass(frozen=True, slots=True)
class Call:
    """A part given by the name of a figure of the library, and what is said after it between commas."""

    name: Said
    modifiers: tuple[Said, ...]
    mark: Mark


Part = Written | Derived | Call


@dataclass(frozen=True, slots=True)
class Repeat:
    """Bars danced before, danced again. first, last: their numbers."""

    first: int
    last: int
    opposite_feet: bool
    exchange_parts: bool
    mark: Mark


@dataclass(frozen=True, slots=True)
class Heads:
    """Head lines of the two partners; None where none is said."""

    gent: HeadLine | None = None
    lady: HeadLine | None = None


@dataclass(frozen=True, slots=True)
class Passage:
    """Some bars of the sequence as written. marks: where each key's value was written, by key."""

    first: int
    last: int
    figure: Said | None = None
    gent: Part | None = None
    lady: Part | None = None
    position: Said | None = None
    hold: Said | None = None
    head: Heads = Heads()
    arms: Said | None = None
    note: Said | None = None
    repeat: Repeat | None = None
    mark: Mark = NOWHERE
    marks: tuple[tuple[str, Mark], ...] = ()

    def mark_of(self, key: str) -> Mark:
        return dict(self.marks).get(key, self.mark)


@dataclass(frozen=True, slots=True)
class Stance:
    """How a partner begins: the free foot, its place against the other foot, the alignment of the body."""

    foot: Foot
    place: Place | None
    alignment: Alignment | None
    mark: Mark = NOWHERE


@dataclass(frozen=True, slots=True)
class Start:
    """The beginning. lady: None where hers follows from the gent's and the position."""

    position: Said | None = None
    hold: Said | None = None
    gent: Stance | None = None
    lady: Stance | None = None
    mark: Mark = NOWHERE


@dataclass(frozen=True, slots=True)
class Dance:
    """What a dance file says.

    rhythm_said: the words of the file; rhythm: its row of the table, None where there is none. metre: said or the
    rhythm's, None where neither is known. introduction, length: bars. marks: where each key's value was written.
    """

    title: str
    arrangers: tuple[str, ...]
    year: int | None
    rhythm_said: Said | None
    rhythm: Rhythm | None
    metre: Metre | None
    tempo: Tempo | None
    introduction: int | None
    length: int
    feet: TurnOut | None
    music: str
    notes: str
    start: Start
    passages: tuple[Passage, ...]
    mark: Mark = NOWHERE
    marks: tuple[tuple[str, Mark], ...] = ()

    def mark_of(self, key: str) -> Mark:
        return dict(self.marks).get(key, self.mark)


@dataclass(frozen=True, slots=True)
class Danced:
    """A step in its place. bar: number in the sequence from 1; beat: where it begins, 0 at the beginning of the bar;
    lasts: beats. count: as printed.
    """

    step: Step
    bar: int
    beat: Fraction
    lasts: Fraction
    count: str


@dataclass(frozen=True, slots=True)
class Called:
    """A part that was given by the name of a figure. text: the call as written; figure: the figure's own name."""

    part: str
    figure: str
    text: str
    arms: str = ""
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DancedPassage:
    """A passage with both parts' steps in their places.

    written: the passage of the file that these bars stand in; for a repeat the steps are written out here and
    `repeated` names the bars they come from. position, hold: in force at its beginning, as said last.
    called: the parts that a figure of the library gave.
    """

    written: Passage
    first: int
    last: int
    figure: str
    gent: tuple[Danced, ...]
    lady: tuple[Danced, ...]
    position: Said | None
    hold: Said | None
    head: Heads = Heads()
    repeated: tuple[int, int] | None = None
    called: tuple[Called, ...] = ()

    def part(self, name: str) -> tuple[Danced, ...]:
        """The steps of 'gent' or 'lady'."""
        return self.gent if name == GENT else self.lady


@dataclass(frozen=True, slots=True)
class Worked:
    """A dance worked out. start: with the lady's stance filled in. findings: what could not be worked out, and why."""

    dance: Dance
    start: Start
    metre: Metre
    passages: tuple[DancedPassage, ...]
    findings: tuple[Finding, ...] = field(default=())

    def steps(self, part: str) -> tuple[Danced, ...]:
        """All steps of 'gent' or 'lady' in order."""
        return tuple(step for passage in self.passages for step in passage.part(part))
