"""What changed between two versions of a dance, as it is danced.

Both versions are worked out first, so that a repeat written out or a figure called by name changes nothing.
"""
from __future__ import annotations

import enum
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from notation.dance.entry import IN_THE_DANCE, dance_particular
from notation.dance.facts import Term, counted
from notation.dance.hold import Hold, Position
from notation.dance.knowledge import Knowledge
from notation.dance.mark import NOWHERE, Mark, Said
from notation.dance.naming import named
from notation.dance.pairing import FIELDS, Bar, Turned, align_bars, bars_of, pair_steps, plain_field
from notation.dance.script import GENT, LADY, PARTS, Call, Worked


class Kind(enum.Enum):
    """What became of a step or of bars."""

    CHANGED = "changed"
    ADDED = "added"
    LEFT_OUT = "left out"
    MOVED = "moved"


@dataclass(frozen=True, slots=True)
class StepChange:
    """A step of one part. old, new: None where it is added or left out. fields: those of Step that differ, and 'step'
    for foot and action; empty where it is only moved."""

    kind: Kind
    part: str
    old: Turned | None
    new: Turned | None
    fields: tuple[str, ...] = ()

    @property
    def beat(self) -> Fraction:
        one = self.new or self.old
        assert one is not None
        return one.danced.beat


@dataclass(frozen=True, slots=True)
class BarChange:
    """A pair of bars that differ. old, new: None for bars put in or left out. steps: in order of time.

    said: what is said of the passage and differs from here on: field, old and new value. called: parts whose call of a
    figure is another, with both texts; their steps are not told one by one.
    """

    old: Bar | None
    new: Bar | None
    steps: tuple[StepChange, ...] = ()
    said: tuple[tuple[str, object, object], ...] = ()
    called: tuple[tuple[str, str, str], ...] = ()

    @property
    def bar(self) -> Bar:
        one = self.new or self.old
        assert one is not None
        return one

    @property
    def mark(self) -> Mark:
        """Where it is written in the new version; in the old one where the bar is left out."""
        marks = [s.new.step.mark for s in self.steps if s.new and s.new.step.mark != NOWHERE]
        return marks[0] if len(self.steps) == 1 and marks else self.bar.passage.written.mark


@dataclass(frozen=True, slots=True)
class Comparison:
    """heading: particulars that differ: name, old and new value. bars: in order. pairs: all bars, as aligned."""

    heading: tuple[tuple[str, object, object], ...]
    bars: tuple[BarChange, ...]
    pairs: tuple[tuple[Bar | None, Bar | None], ...]

    @property
    def alike(self) -> bool:
        return not self.heading and not self.bars


def compare(old: Worked, new: Worked, knowledge: Knowledge) -> Comparison:
    """All that changed. A change within bars that are danced again is told once, where the bars are written."""
    ones, others = bars_of(old), bars_of(new)
    pairs = tuple(align_bars(ones, others))
    return Comparison(tuple(_heading(old, new)), tuple(_changes(pairs, knowledge)), pairs)


def _changes(pairs: Sequence[tuple[Bar | None, Bar | None]], knowledge: Knowledge) -> Iterator[BarChange]:
    sources = {(one.number, two.number) for one, two in pairs if one and two}
    told: dict[str, tuple[object, object]] = {}
    for one, two in pairs:
        if one is None or two is None:
            yield BarChange(one, two)
            continue
        said = tuple(_new_words(one, two, told, knowledge))
        if _told_before(one, two, sources):
            continue
        called = tuple(_other_calls(one, two))
        steps = tuple(c for part in PARTS if part not in {name for name, *_ in called}
                      for c in step_changes(one.steps[part], two.steps[part], part))
        if steps or said or called:
            yield BarChange(one, two, tuple(sorted(steps, key=lambda c: (c.beat, c.part))), said, called)


def _told_before(one: Bar, two: Bar, sources: set[tuple[int, int]]) -> bool:
    """Whether both bars are repeats, in the same manner, of bars that are a pair themselves."""
    again, too = one.passage.written.repeat, two.passage.written.repeat
    if again is None or too is None:
        return False
    manner = (again.opposite_feet, again.exchange_parts) == (too.opposite_feet, too.exchange_parts)
    return manner and (one.source, two.source) in sources


def _other_calls(one: Bar, two: Bar) -> Iterator[tuple[str, str, str]]:
    """Parts that another figure gives: the steps themselves would all differ."""
    for part in PARTS:
        written, new = getattr(one.passage.written, part), getattr(two.passage.written, part)
        old_text, new_text = one.called.get(part, ""), two.called.get(part, "")
        both = isinstance(written, Call) and isinstance(new, Call) and old_text != new_text
        if both and list(step_changes(one.steps[part], two.steps[part], part)):
            yield part, old_text, new_text


def _new_words(
    one: Bar, two: Bar, told: dict[str, tuple[object, object]], knowledge: Knowledge
) -> Iterator[tuple[str, object, object]]:
    """What is said of the passages and differs, each difference where it begins."""
    for name, said in SAID.items():
        pair = said(one, knowledge), said(two, knowledge)
        if pair[0] != pair[1] and told.get(name) != pair:
            yield name, *pair
        told[name] = pair


def _position(bar: Bar, knowledge: Knowledge) -> object:
    return _term(bar.passage.position, "position", knowledge.positions)


def _hold(bar: Bar, knowledge: Knowledge) -> object:
    return _term(bar.passage.hold, "hold", knowledge.holds)


def _term(said: Said | None, kind: str, table: Sequence[Position] | Sequence[Hold]) -> Term | None:
    """By the name of its row, so that two names of one hold are no change."""
    rows: list[Position | Hold] = [*table]
    row = named(said, rows)
    return Term(kind, row.name) if row else _own(said, kind)


def _own(said: Said | None, kind: str) -> Term | None:
    """As the writer put it."""
    return Term("own" if said.free else kind, said.text) if said else None


def _text(bar: Bar, name: str) -> object:
    said = getattr(bar.passage.written, name)
    return " ".join(said.text.split()) if said else None


SAID: dict[str, Callable[[Bar, Knowledge], object]] = {
    "figure": lambda bar, _: bar.passage.figure or None,
    "position": _position,
    "hold": _hold,
    "gent's head": lambda bar, _: bar.passage.head.gent,
    "lady's head": lambda bar, _: bar.passage.head.lady,
    "arms": lambda bar, _: _text(bar, "arms"),
    "note": lambda bar, _: _text(bar, "note"),
}


def step_changes(old: Sequence[Turned], new: Sequence[Turned], part: str) -> Iterator[StepChange]:
    """The steps of a part in one bar that differ."""
    for one, two in pair_steps(old, new):
        if one is None or two is None:
            yield StepChange(Kind.ADDED if one is None else Kind.LEFT_OUT, part, one, two)
            continue
        fields = tuple(_fields(one, two))
        moved = one.danced.beat != two.danced.beat or one.danced.count != two.danced.count
        if fields or moved:
            yield StepChange(Kind.MOVED if moved else Kind.CHANGED, part, one, two, fields)


def _fields(one: Turned, two: Turned) -> Iterator[str]:
    if (one.step.foot, one.step.action) != (two.step.foot, two.step.action):
        yield "step"
    if _turn_differs(one, two):
        yield "turn"
    if _alignment_differs(one, two):
        yield "alignment"
    yield from (name for name in FIELDS if plain_field(one.step, name) != plain_field(two.step, name))


def _turn_differs(one: Turned, two: Turned) -> bool:
    """By what is said; where only one says it, by the turn worked out; where neither does, it follows from others."""
    said = one.step.turn, two.step.turn
    if said[0] and said[1]:
        return said[0] != said[1]
    if not said[0] and not said[1]:
        return False
    only = said[0] or said[1]
    return bool(only and only.commence) or one.aligned.eighths != two.aligned.eighths


def _alignment_differs(one: Turned, two: Turned) -> bool:
    said = one.step.alignment, two.step.alignment
    if said[0] and said[1]:
        return said[0] != said[1]
    return bool(said[0] or said[1]) and one.aligned.feet is not two.aligned.feet


def _heading(old: Worked, new: Worked) -> Iterator[tuple[str, object, object]]:
    one, two = dict(particulars(old)), dict(particulars(new))
    for name in dict.fromkeys((*one, *two)):
        if one.get(name) != two.get(name):
            yield name, one.get(name), two.get(name)


def particulars(worked: Worked) -> Iterator[tuple[str, object]]:
    """The heading of a dance as plain values; None for what is not said."""
    dance, start = worked.dance, worked.start
    for key in IN_THE_DANCE:
        value = dance_particular(worked, key)
        yield key, " ".join(value.split()) if isinstance(value, str) else value
    yield "time", str(worked.metre)
    yield "length", counted("bar", dance.length)
    yield "feet", Term("feet", dance.feet.value) if dance.feet else None
    yield "position at the start", _own(start.position, "position")
    yield "hold at the start", _own(start.hold, "hold")
    for part, stance in ((GENT, start.gent), (LADY, start.lady)):
        yield f"{part} at the start", replace(stance, mark=NOWHERE) if stance else None
