"""What changed between two versions of a dance, as it is danced.

Both versions are worked out first, so that a repeat written out or a figure called by name changes nothing.
"""
from __future__ import annotations

import enum
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from notation.dance.knowledge import Knowledge
from notation.dance.mark import NOWHERE, Mark
from notation.dance.naming import named
from notation.dance.pairing import FIELDS, Bar, Turned, align_bars, bars_of, pair_steps, plain_field
from notation.dance.room import Room
from notation.dance.script import GENT, LADY, PARTS, Call, Worked

ORDINALS = ("", "1st", "2nd", "3rd", "4th", "5th")


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

    said: what is said of the passage and differs from here on: field, old and new words. called: parts whose call of a
    figure is another, with both texts; their steps are not told one by one.
    """

    old: Bar | None
    new: Bar | None
    steps: tuple[StepChange, ...] = ()
    said: tuple[tuple[str, str, str], ...] = ()
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
    """heading: particulars that differ: name, old and new words. bars: in order. pairs: all bars, as aligned."""

    heading: tuple[tuple[str, str, str], ...]
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
    told: dict[str, tuple[str, str]] = {}
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
    one: Bar, two: Bar, told: dict[str, tuple[str, str]], knowledge: Knowledge
) -> Iterator[tuple[str, str, str]]:
    """What is said of the passages and differs, each difference where it begins."""
    for name, words in SAID.items():
        pair = words(one, knowledge), words(two, knowledge)
        if pair[0] != pair[1] and told.get(name) != pair:
            yield name, *pair
        told[name] = pair


def _position(bar: Bar, knowledge: Knowledge) -> str:
    row = named(bar.passage.position, knowledge.positions)
    return row.name if row else bar.passage.position.text if bar.passage.position else ""


def _hold(bar: Bar, knowledge: Knowledge) -> str:
    row = named(bar.passage.hold, knowledge.holds)
    return row.name if row else bar.passage.hold.text if bar.passage.hold else ""


def _words(bar: Bar, name: str) -> str:
    said = getattr(bar.passage.written, name)
    return " ".join(said.text.split()) if said else ""


SAID: dict[str, Callable[[Bar, Knowledge], str]] = {
    "figure": lambda bar, _: bar.passage.figure,
    "position": _position,
    "hold": _hold,
    "gent's head": lambda bar, _: _head_words(bar.passage.head.gent),
    "lady's head": lambda bar, _: _head_words(bar.passage.head.lady),
    "arms": lambda bar, _: _words(bar, "arms"),
    "note": lambda bar, _: _words(bar, "note"),
}


def _head_words(head: object) -> str:
    from notation.dance.step import HeadLine

    if not isinstance(head, HeadLine):
        return ""
    named_ = (head.side.name[0] if head.side else "", room_words(head.room) if head.room else "",
              f"over {head.over.value}" if head.over else "", head.words)
    return next(filter(None, named_), "")


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


def room_words(room: Room) -> str:
    """As a writer writes it: 'DW', 'wall'."""
    return room.name.lower() if room in (Room.WALL, Room.CENTRE) else room.name


def _text(value: object) -> str:
    from notation.dance.facts import Fact, Term
    from notation.dance.metre import Tempo
    from notation.dance.running import tempo_words

    if isinstance(value, Fact):
        return f"{dict(value.of)['number']} bars"
    if isinstance(value, tuple):
        return ", ".join(value)
    if isinstance(value, Tempo):
        return tempo_words(value)
    return value.name if isinstance(value, Term) else str(value or "")


def _heading(old: Worked, new: Worked) -> Iterator[tuple[str, str, str]]:
    one, two = dict(particulars(old)), dict(particulars(new))
    for name in dict.fromkeys((*one, *two)):
        if one.get(name, "") != two.get(name, ""):
            yield name, one.get(name, ""), two.get(name, "")


def particulars(worked: Worked) -> Iterator[tuple[str, str]]:
    """The heading of a dance in plain words."""
    from notation.dance.entry import IN_THE_DANCE, dance_particular

    dance, start = worked.dance, worked.start
    for key in IN_THE_DANCE:
        yield key, " ".join(_text(dance_particular(worked, key)).split())
    yield "time", str(worked.metre)
    yield "length", f"{dance.length} bars"
    yield "feet", dance.feet.value if dance.feet else ""
    yield "position at the start", start.position.text if start.position else ""
    yield "hold at the start", start.hold.text if start.hold else ""
    for part, stance in ((GENT, start.gent), (LADY, start.lady)):
        place = stance.place if stance else None
        words = [stance.foot.value] if stance else []
        words += [f"{ORDINALS[place.position or 0]} {place.end.value if place.end else ''}".strip()] if place else []
        to = stance.alignment if stance else None
        words += [f"{to.mode.value} {room_words(to.room)}"] if to else []
        yield f"{part} at the start", ", ".join(words)

