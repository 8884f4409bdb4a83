"""Counts as they are written become exact places in the bars of a passage.

Numbers name beats; '&', 'e' and 'a' stand half, a quarter and three quarters of a beat after the number before them; a
range lasts through its second number and may run over the bar line. S and Q follow one another by their lengths and
may run over it too. A count that is not later than the one before it opens the next bar.
"""
from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from notation.dance.metre import Count, Metre
from notation.dance.script import Danced
from notation.dance.step import BarLine, Step

HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class SlowQuick:
    """Lengths of S and Q in beats. settled: whether the trade agrees on them in that metre."""

    slow: Fraction
    quick: Fraction
    settled: bool


def slow_quick(metre: Metre) -> SlowQuick:
    """S and Q in that metre.

    4/4: two beats and one (study cards for a UK teaching examination, freezingblue.com 275670 and 272224). 2/4: one
    and a half (calendar-uk.co.uk, '2/4'). Elsewhere nothing is settled: in 3/4 they are read as two and one, in quavers
    as a dotted crotchet and half of it (our choice, no source).

    >>> slow_quick(Metre(2, 4)).quick
    Fraction(1, 2)
    """
    if metre.unit >= 8:
        return SlowQuick(Fraction(3), Fraction(3, 2), False)
    if metre.beats == 2:
        return SlowQuick(Fraction(1), HALF, metre.unit == 4)
    return SlowQuick(Fraction(2), Fraction(1), metre == Metre(4, 4))


@dataclass(frozen=True, slots=True)
class Counted:
    """A step in its place in a passage. bar: from 1; beat: from 0 in that bar; onset: beats since the passage began.

    end: the beat since the passage began at which its count says that it ends, None where it lasts until the next one.
    disordered: its count goes back in its bar, or opens a bar elsewhere than at its beginning with nothing running on.
    """

    step: Step
    bar: int
    beat: Fraction
    onset: Fraction
    end: Fraction | None = None
    disordered: bool = False


@dataclass(frozen=True, slots=True)
class Cursor:
    """How far the counting has come. beat: of the last count in this bar, None where the bar has just been opened.

    number: beats since the beginning to the last whole number said. last: the step counted last, if any. lettered: it
    was counted in S and Q. back: a bar line has gone back.
    """

    bar: int = 1
    beat: Fraction | None = None
    number: Fraction | None = None
    last: Counted | None = None
    lettered: bool = False
    back: bool = False


def count_lines(lines: tuple[Step | BarLine, ...], metre: Metre) -> tuple[Counted, ...]:
    """The steps of a passage in their places, bars counted from 1. Nothing is refused here: the checks judge."""
    cursor = Cursor()
    counted: list[Counted] = []
    for line in lines:
        if isinstance(line, BarLine):
            cursor = _at_bar(cursor, line.number)
            continue
        placed = _place(line, cursor, metre)
        if counted:
            counted[-1] = _cut(counted[-1], placed)
        counted.append(placed)
        cursor = _moved(cursor, placed, metre)
    return tuple(counted)


def danced(counted: tuple[Counted, ...], metre: Metre, first: int, bars: int) -> tuple[Danced, ...]:
    """The steps as danced from bar `first` of the sequence in a passage of so many bars.

    A step lasts as long as its count says, else until the next one begins, the last one to the end of the passage.
    """
    following = [c.onset for c in counted[1:]]
    if counted:
        following.append(Fraction(max(bars, counted[-1].bar) * metre.beats))
    return tuple(_danced(c, nxt, first) for c, nxt in zip(counted, following, strict=True))


def _danced(counted: Counted, following: Fraction, first: int) -> Danced:
    end = following if counted.end is None else counted.end
    lasts = max(end - counted.onset, Fraction(0))
    return Danced(counted.step, first + counted.bar - 1, counted.beat, lasts, counted.step.count.text)


def _at_bar(cursor: Cursor, number: int) -> Cursor:
    if number == cursor.bar:
        return cursor
    return replace(cursor, bar=number, beat=None, number=None, lettered=False, back=number < cursor.bar)


def _place(step: Step, cursor: Cursor, metre: Metre) -> Counted:
    count = step.count
    if count.letter:
        return _lettered(step, cursor, metre)
    if count.beat is None:
        return _between(step, cursor, metre)
    return _numbered(step, count, count.beat, cursor, metre)


def _numbered(step: Step, count: Count, number: int, cursor: Cursor, metre: Metre) -> Counted:
    beat = number - 1 + count.part
    opens = cursor.beat is not None and beat <= cursor.beat
    bar = cursor.bar + 1 if opens else cursor.bar
    start = Fraction((bar - 1) * metre.beats)
    end = None if count.until is None else start + _through(number, count.until, metre)
    disordered = cursor.back or (opens and beat > 0 and not _runs_past(cursor.last, start))
    return Counted(step, bar, beat, start + beat, end, disordered)


def _through(number: int, until: int, metre: Metre) -> int:
    return until if until >= number else metre.beats + until


def _runs_past(last: Counted | None, start: Fraction) -> bool:
    return last is not None and last.end is not None and last.end > start


def _between(step: Step, cursor: Cursor, metre: Metre) -> Counted:
    """'&', 'e' or 'a' alone: after the last number, or out of the S or Q before it."""
    last, part = cursor.last, step.count.part
    if cursor.lettered and last is not None and last.end is not None:
        taken = (last.end - last.onset) * HALF if part == HALF else 1 - part
        return _at(step, last.end - taken, metre, last.end)
    number = cursor.number if cursor.number is not None else Fraction((cursor.bar - 1) * metre.beats)
    onset = number + part
    late = cursor.number is None or (last is not None and onset <= last.onset)
    return replace(_at(step, onset, metre, None), disordered=cursor.back or late)


def _lettered(step: Step, cursor: Cursor, metre: Metre) -> Counted:
    lengths = slow_quick(metre)
    onset = _next_onset(cursor, metre)
    end = onset + (lengths.slow if step.count.letter == "S" else lengths.quick)
    return replace(_at(step, onset, metre, end), disordered=cursor.back)


def _next_onset(cursor: Cursor, metre: Metre) -> Fraction:
    if cursor.beat is None or cursor.last is None:
        return Fraction((cursor.bar - 1) * metre.beats)
    if cursor.last.end is not None:
        return cursor.last.end
    return (cursor.number if cursor.number is not None else cursor.last.onset) + 1


def _at(step: Step, onset: Fraction, metre: Metre, end: Fraction | None) -> Counted:
    bars, beat = divmod(onset, metre.beats)
    return Counted(step, int(bars) + 1, beat, onset, end)


def _cut(before: Counted, after: Counted) -> Counted:
    """A step gives up its end to the '&', 'e' or 'a' that is taken out of it."""
    taken = after.step.count.beat is None and not after.step.count.letter
    if taken and before.end is not None and before.onset < after.onset < before.end:
        return replace(before, end=after.onset)
    return before


def _moved(cursor: Cursor, placed: Counted, metre: Metre) -> Cursor:
    count = placed.step.count
    number = cursor.number
    if count.beat is not None:
        start = (placed.bar - 1) * metre.beats
        number = Fraction(start + (count.beat if count.until is None else _through(count.beat, count.until, metre)) - 1)
    lettered = bool(count.letter) or (count.beat is None and cursor.lettered)
    return Cursor(placed.bar, placed.beat, number, placed, lettered)
