"""What changed between two versions of a dance in words: for the terminal, for other programs, for an errata slip."""
from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from notation.dance.compare import BarChange, Comparison, Kind, StepChange
from notation.dance.mark import NOWHERE, Mark
from notation.dance.pairing import Turned
from notation.dance.script import PARTS
from notation.dance.step import Step
from notation.dance.words import Vocabulary
from notation.layout import Segment
from notation.sheet.figurewords import figure_speaker
from notation.sheet.pagewords import page_words
from notation.sheet.phrasing import TIE, filled
from notation.sheet.sayings import person
from notation.sheet.telling import value_words
from notation.sheet.toldwords import ErrataWords
from notation.sheet.wording import SEGMENTS, Speaker, alignment_words, bare_hold, head_words, turn_words

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


def became(name: str, old: str, new: str, says: ErrataWords) -> str:
    """What became of a field in words: 'tempo 42 becomes 44', 'footwork TH left out', 'rise added'."""
    lead = "" if (old or new).startswith(name) else filled(says.said_of, name=name)
    form = says.added if not old else says.becomes if new else says.left_out
    return filled(form, lead=lead, old=old, new=new)


def told(found: Comparison, to: Speaker, words: Vocabulary) -> Iterator[Told]:
    """All changes in the order of the sheet, what both partners do alike once. words: those they are told with."""
    yield from _told(found, words, lambda change: _merged(change, to, words))


def told_besides_steps(found: Comparison, words: Vocabulary) -> Iterator[Told]:
    """The changes that rows of steps cannot show, in the same order."""
    yield from _told(found, words, lambda change: ())


def _told(found: Comparison, words: Vocabulary, of_steps: Callable[[BarChange], Iterable[Told]]) -> Iterator[Told]:
    yield from _of_the_whole(found, words)
    told_calls: set[tuple[Mark, str]] = set()
    for change in found.bars:
        if change.old and change.new:
            yield from _of_a_passage(change, words, told_calls)
            yield from of_steps(change)
    yield from _numbers(found, words)


def _of_the_whole(found: Comparison, words: Vocabulary) -> Iterator[Told]:
    """The heading, then bars put in and left out."""
    says = page_words(words, ErrataWords)
    for name, was, now in found.heading:
        old, new = value_words(was, words), value_words(now, words)
        change = plain_words(became(field_name(name, words), old, new, says))
        yield Told(filled(says.heading, change=change), name, old, new)
    yield from _whole_bars(found, says)


def field_name(name: str, words: Vocabulary) -> str:
    """What a particular or a field of a passage is called."""
    return figure_speaker(words, False).called(name, "particular")


def _whole_bars(found: Comparison, says: ErrataWords) -> Iterator[Told]:
    """Bars put in and left out, those that stand together as one."""
    for side in (1, 0):
        run: list[BarChange] = []
        for change in [*(c for c in found.bars if (c.old, c.new)[1 - side] is None), None]:
            here = change.bar if change else None
            if run and (here is None or here.number != run[-1].bar.number + 1):
                yield _run(run, side, says)
                run = []
            run += [change] if change else []


def _run(run: list[BarChange], side: int, says: ErrataWords) -> Told:
    first, last = run[0].bar.number, run[-1].bar.number
    figures = ", ".join(dict.fromkeys(c.bar.passage.figure for c in run if c.bar.passage.figure))
    one, more = (says.bar_put_in, says.bars_put_in) if side else (says.bar_left_out, says.bars_left_out)
    bars = filled(one if first == last else more, first=first, last=last)
    message = filled(says.with_figures, bars=bars, figures=figures) if figures else bars
    old, new = ("", figures) if side else (figures, "")
    return Told(message, "bars", old, new, None if side else first, first if side else None, mark=run[0].mark)


def _numbers(found: Comparison, words: Vocabulary) -> Iterator[Told]:
    """Where bars that stayed have other numbers now."""
    says, shift = page_words(words, ErrataWords), 0
    for one, two in found.pairs:
        if one and two and two.number - one.number != shift:
            shift = two.number - one.number
            message = filled(says.renumbered if shift else says.same_number, old=one.number, new=two.number)
            yield Told(message, "number", str(one.number), str(two.number), one.number, two.number,
                       mark=two.passage.written.mark)


def _of_a_passage(change: BarChange, words: Vocabulary, told_calls: set[tuple[Mark, str]]) -> Iterator[Told]:
    """What is said from a bar on. told_calls: calls of a passage are told at its first bar."""
    assert change.old and change.new
    says, to = page_words(words, ErrataWords), figure_speaker(words, False)
    old_bar, new_bar, mark = change.old.number, change.new.number, change.new.passage.written.mark
    for name, was, now in change.said:
        old, new = value_words(was, words), value_words(now, words)
        message = filled(says.in_bar, bar=new_bar, change=became(field_name(name, words), old, new, says))
        yield Told(message, name, old, new, old_bar, new_bar, mark=mark)
    for part, before, after in change.called:
        if (mark, part) in told_calls:
            continue
        told_calls.add((mark, part))
        message = filled(says.called, bar=new_bar, dancer=to.within(person(to, part)), old=before, new=after)
        yield Told(message, "call", before, after, old_bar, new_bar, part=part, mark=mark)


def _merged(change: BarChange, to: Speaker, words: Vocabulary) -> Iterator[Told]:
    """What both do alike at one count is told once, of both."""
    says = page_words(words, ErrataWords)
    found = [one for step in change.steps for one in _step(step, change, to, says)]
    for one in found:
        alike = [o for o in found if _without_part(o) == _without_part(one)]
        if len(alike) < len(PARTS):
            yield one
        elif one is alike[0]:
            message = one.message.replace(f"{one.part}'s", "both partners'").replace(f"{one.part}:", "both:")
            yield Told(message, one.field, one.old, one.new, one.old_bar, one.new_bar, one.count, "both", one.mark)


def _without_part(one: Told) -> str:
    return one.message.replace(f"{one.part}'s", "").replace(f"{one.part}:", "")


def _step(step: StepChange, change: BarChange, to: Speaker, says: ErrataWords) -> Iterator[Told]:
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
        yield Told(f"{where}: {step.part}'s {became(name, was, now, says)}", name, was, now, *numbers)


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
