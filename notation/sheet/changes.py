"""What changed between two versions of a dance in words: for the terminal, for other programs, for an errata slip."""
from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from notation.dance.compare import BarChange, Comparison, Kind, StepChange
from notation.dance.mark import NOWHERE, Mark
from notation.dance.pairing import Turned
from notation.dance.script import PARTS
from notation.dance.step import Step
from notation.layout import Segment
from notation.sheet.wording import SEGMENTS, TIE, Speaker, alignment_words, bare_hold, head_words, turn_words

PLAIN = str.maketrans({"\u215b": " 1/8", "\u00bc": " 1/4", "\u215c": " 3/8", "\u00bd": " 1/2", "\u215d": " 5/8",
                       "\u00be": " 3/4", "\u215e": " 7/8", TIE: " ", "\u2013": "-"})
"""Fractions as a writer types them."""


@dataclass(frozen=True, slots=True)
class Told:
    """One change. old_bar, new_bar: numbers, None where there is no such bar. field: what differs. old, new: words,
    empty where there are none. message: the whole in one sentence. mark: where it is written."""

    message: str
    field: str
    old: str
    new: str
    old_bar: int | None = None
    new_bar: int | None = None
    count: str | None = None
    part: str | None = None
    mark: Mark = NOWHERE


def plain_words(text: str) -> str:
    """Words for a terminal.

    >>> plain_words("1\u00bd R")
    '1 1/2 R'
    """
    return " ".join(text.translate(PLAIN).split())


def became(name: str, old: str, new: str) -> str:
    """What became of a field in words.

    >>> became("tempo", "42", "44"), became("footwork", "TH", ""), became("rise", "", "rise")
    ('tempo 42 becomes 44', 'footwork TH left out', 'rise added')
    """
    lead = "" if (old or new).startswith(name) else f"{name} "
    if not old:
        return f"{lead}{new} added"
    return f"{lead}{old} becomes {new}" if new else f"{lead}{old} left out"


def told(found: Comparison, to: Speaker) -> Iterator[Told]:
    """All changes in the order of the sheet, what both partners do alike once."""
    for name, old, new in found.heading:
        yield Told(f"heading: {plain_words(became(name, old, new))}", name, old, new)
    yield from _whole_bars(found)
    told_calls: set[tuple[Mark, str]] = set()
    for change in found.bars:
        if change.old and change.new:
            yield from _bar(change, to, told_calls)
    yield from _numbers(found)


def _whole_bars(found: Comparison) -> Iterator[Told]:
    """Bars put in and left out, those that stand together as one."""
    for side, word in ((1, "put in"), (0, "left out")):
        run: list[BarChange] = []
        for change in [*(c for c in found.bars if (c.old, c.new)[1 - side] is None), None]:
            here = change.bar if change else None
            if run and (here is None or here.number != run[-1].bar.number + 1):
                yield _run(run, side, word)
                run = []
            run += [change] if change else []


def _run(run: list[BarChange], side: int, word: str) -> Told:
    first, last = run[0].bar.number, run[-1].bar.number
    figures = ", ".join(dict.fromkeys(c.bar.passage.figure for c in run if c.bar.passage.figure))
    which = f"bar {first}" if first == last else f"bars {first}-{last}"
    of_old = "" if side else " of the old version"
    message = f"{which}{of_old} {word}" + (f": {figures}" if figures else "")
    old, new = ("", figures) if side else (figures, "")
    return Told(message, "bars", old, new, None if side else first, first if side else None, mark=run[0].mark)


def _numbers(found: Comparison) -> Iterator[Told]:
    """Where bars that stayed have other numbers now."""
    shift = 0
    for one, two in found.pairs:
        if one and two and two.number - one.number != shift:
            shift = two.number - one.number
            now = f"is now bar {two.number}" if shift else "keeps its number again, as those after it do"
            yield Told(f"bar {one.number} of the old version {now}", "number", str(one.number),
                       str(two.number), one.number, two.number, mark=two.passage.written.mark)


def _bar(change: BarChange, to: Speaker, told_calls: set[tuple[Mark, str]]) -> Iterator[Told]:
    """told_calls: calls of a passage are told at its first bar."""
    assert change.old and change.new
    old_bar, new_bar, mark = change.old.number, change.new.number, change.new.passage.written.mark
    for name, old, new in change.said:
        yield Told(f"bar {new_bar}: {became(name, old, new)}", name, old, new, old_bar, new_bar, mark=mark)
    for part, old, new in change.called:
        if (mark, part) in told_calls:
            continue
        told_calls.add((mark, part))
        yield Told(f"bar {new_bar}: {part} dances '{new}' instead of '{old}'", "call", old, new, old_bar, new_bar,
                   part=part, mark=mark)
    yield from _merged(change, to)


def _merged(change: BarChange, to: Speaker) -> Iterator[Told]:
    """What both do alike at one count is told once, of both."""
    found = [one for step in change.steps for one in _step(step, change, to)]
    for one in found:
        alike = [o for o in found if _without_part(o) == _without_part(one)]
        if len(alike) < len(PARTS):
            yield one
        elif one is alike[0]:
            message = one.message.replace(f"{one.part}'s", "both partners'").replace(f"{one.part}:", "both:")
            yield Told(message, one.field, one.old, one.new, one.old_bar, one.new_bar, one.count, "both", one.mark)


def _without_part(one: Told) -> str:
    return one.message.replace(f"{one.part}'s", "").replace(f"{one.part}:", "")


def _step(step: StepChange, change: BarChange, to: Speaker) -> Iterator[Told]:
    assert change.old and change.new
    one = step.new or step.old
    assert one is not None
    bar, count = change.new.number, one.danced.count
    exact = f"{count} (beat {float(one.danced.beat + 1):g})" if count in ("S", "Q", "&") else count
    where, mark = f"bar {bar}, count {exact}", one.step.mark if step.new else change.new.passage.written.mark
    numbers = (change.old.number, bar, count, step.part, mark)
    if step.kind in (Kind.ADDED, Kind.LEFT_OUT):
        words = plain_words(to.step(one.step))
        added = step.kind is Kind.ADDED
        yield Told(f"{where}: {step.part}: step {step.kind.value}: {words}", "step", "" if added else words,
                   words if added else "", *numbers)
        return
    assert step.old and step.new
    if step.kind is Kind.MOVED:
        old = step.old.danced.count
        yield Told(f"{where}: {step.part}'s step {plain_words(to.action(one.step))} moved from count {old}", "count",
                   old, count, *numbers)
    said: set[tuple[str, str]] = set()
    for name in step.fields:
        was, now = plain_words(field_words(name, step.old, to)), plain_words(field_words(name, step.new, to))
        if (was, now) in said:
            continue
        said.add((was, now))
        yield Told(f"{where}: {step.part}'s {became(name, was, now)}", name, was, now, *numbers)


def _turn(one: Turned, to: Speaker) -> str:
    """The turn that is said, else the one worked out."""
    from notation.dance.room import Turn

    return turn_words(to, one.step.turn or Turn(one.aligned.eighths))


BY_SEGMENT: dict[str, Segment] = {
    "step": Segment.STEP, "place": Segment.PLACE, "size": Segment.SIZE, "weight": Segment.WEIGHT,
    "travel": Segment.TRAVEL, "footwork": Segment.FOOTWORK, "rise": Segment.RISE, "body": Segment.BODY,
    "sway": Segment.BODY, "remarks": Segment.REMARKS, "joins": Segment.STEP, "passes": Segment.STEP,
    "direction": Segment.STEP,
}
OTHERS: dict[str, Callable[[Speaker, Step], str]] = {
    "head": lambda to, step: head_words(to, step.head),
    "hold": lambda to, step: bare_hold(to, None, step.hold),
    "position": lambda to, step: bare_hold(to, step.position, None),
}


def field_words(name: str, one: Turned, to: Speaker) -> str:
    """What a step says in one field."""
    if name == "turn":
        return _turn(one, to)
    if name == "alignment":
        return alignment_words(to, one.aligned.alignment)
    if name in OTHERS:
        return OTHERS[name](to, one.step)
    said = SEGMENTS[BY_SEGMENT[name]](to, one.step)
    if name == "weight" and not said:
        return "with weight" if one.step.weight else "no weight"
    return said
