"""A called figure danced: from the foot that is free, turned to where the dancer stands, as often as asked.

Weight, position and alignment run on from what was danced before; what does not is told.
"""
from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from notation.dance.call import Wanted
from notation.dance.counting import count_lines, danced
from notation.dance.feet import Foot
from notation.dance.figure import Figure, FigurePart, Half, varied
from notation.dance.finding import Finding
from notation.dance.joining import (
    Place,
    Standing,
    facing_fault,
    foot_fault,
    length_fault,
    position_fault,
    weight_fault,
)
from notation.dance.metre import Metre
from notation.dance.partner import mirrored, mirrored_head
from notation.dance.room import Room
from notation.dance.script import GENT, Call, Danced
from notation.dance.step import HeadLine, Step
from notation.dance.turning import align


@dataclass(frozen=True, slots=True)
class Piece:
    """What is danced once: steps counted from bar 1, the beats they last, the foot and the toes' direction before it.

    ways: directions from which it is danced as it stands.
    """

    steps: tuple[Danced, ...]
    beats: Fraction
    foot: Foot
    feet: Room | None
    ways: tuple[Room, ...]
    head: HeadLine | None

    @property
    def mirrored(self) -> Piece:
        """On the other foot. A head line to a side goes with the foot; one along the room is the dancer's own."""
        steps = tuple(replace(d, step=mirrored(d.step)) for d in self.steps)
        feet = self.feet.mirrored if self.feet is not None else None
        own = self.head is None or self.head.room is not None
        head = self.head if own else mirrored_head(self.head)
        return Piece(steps, self.beats, self.foot.other, feet, tuple(way.mirrored for way in self.ways), head)

    def turned(self, eighths: int) -> Piece:
        """Danced from a direction that far to the left."""
        return replace(self, steps=tuple(replace(d, step=turned(d.step, eighths)) for d in self.steps))


def turned(step: Step, eighths: int) -> Step:
    """The step danced from another alignment: all directions of the room that far to the left."""
    aligned, head = step.alignment, step.head
    if eighths == 0:
        return step
    return replace(
        step,
        alignment=replace(aligned, room=aligned.room.turned(eighths)) if aligned else None,
        travel=step.travel.turned(eighths) if step.travel is not None else None,
        head=replace(head, room=head.room.turned(eighths)) if head and head.room is not None else head,
    )


def piece_of(wanted: Wanted, part: str) -> Piece:
    """What a call asks to be danced each time, from the figure's own foot and alignment."""
    figure, of = wanted.figure, wanted.figure.part(part)
    changes = (wanted.variant.gent if part == GENT else wanted.variant.lady) if wanted.variant else ()
    counted = count_lines(varied(of.lines, changes, figure.metre), figure.metre)
    steps = _ended(danced(counted, figure.metre, 1, math.ceil(figure.bars)), figure)
    feet = of.start.alignment.toward if of.start.alignment else None
    head = of.head if part == GENT or figure.lady is not None else figure.lady_head
    whole = Piece(steps, figure.beats, of.start.foot, feet, figure.ways, head)
    return _halved(whole, wanted.half, wanted.only, of, figure.metre) if wanted.half else whole


def _ended(steps: tuple[Danced, ...], figure: Figure) -> tuple[Danced, ...]:
    """The last step cut where the figure ends within a bar."""
    if not steps:
        return ()
    last = steps[-1]
    rest = figure.beats - (last.bar - 1) * figure.metre.beats - last.beat
    return (*steps[:-1], replace(last, lasts=min(last.lasts, rest)))


def _halved(whole: Piece, half: Half, only: bool, of: FigurePart, metre: Metre) -> Piece:
    """The half asked for, and what goes round to it where the figure only begins there."""
    shift = Fraction(-(half.first - 1) * metre.beats)
    before = tuple(d for d in whole.steps if d.bar < half.first)
    steps = _moved(tuple(d for d in whole.steps if half.first <= d.bar <= half.last), shift, metre)
    if not only:
        after = tuple(d for d in whole.steps if d.bar > half.last)
        steps += _moved(after, shift, metre) + _moved(before, whole.beats + shift, metre)
    beats = Fraction((half.last - half.first + 1) * metre.beats) if only else whole.beats
    if not before:
        return replace(whole, steps=steps, beats=beats)
    foot = next((d.step.foot for d in steps if d.step.foot is not None), whole.foot)
    return replace(whole, steps=steps, beats=beats, foot=foot, feet=align(before, of.start)[-1].feet, ways=())


def _moved(steps: tuple[Danced, ...], beats: Fraction, metre: Metre) -> tuple[Danced, ...]:
    """The steps that much later."""
    onsets = [(d.bar - 1) * metre.beats + d.beat + beats for d in steps]
    places = [divmod(onset, metre.beats) for onset in onsets]
    return tuple(replace(d, bar=int(bar) + 1, beat=beat) for d, (bar, beat) in zip(steps, places, strict=True))


@dataclass(frozen=True, slots=True)
class Made:
    """A call danced: its steps in the bars of the passage; the eighths by which it was turned; what does not run on."""

    wanted: Wanted
    steps: tuple[Danced, ...]
    turned: int
    findings: tuple[Finding, ...]


def dance_out(wanted: Wanted, at: Place) -> Made:
    """The steps of a call. At most one finding: the first thing that does not run on."""
    piece, stands = piece_of(wanted, at.part), at.stands
    first = _foot(wanted, piece.foot, stands, 0)
    faults = [position_fault(wanted, at), foot_fault(wanted, piece.foot, first, at), facing_fault(wanted, at)]
    steps: tuple[Danced, ...] = ()
    eighths = 0
    for time in range(wanted.times):
        foot = _foot(wanted, piece.foot, stands, time)
        one = piece if foot is piece.foot else piece.mirrored
        by = _eighths(one, stands, None if time else wanted.facing)
        eighths = eighths if time else by
        faults.append(weight_fault(wanted, foot, stands, at) if time else None)
        made = _placed(one.turned(by), time, wanted, at)
        stands = stands.after(made)
        steps += made
    faults.append(length_fault(wanted, piece.beats, at))
    found = next((fault for fault in faults if fault), None)
    return Made(wanted, steps, eighths, (found,) if found else ())


def _foot(wanted: Wanted, own: Foot, stands: Standing, time: int) -> Foot:
    """The foot a repetition begins on: as named, else for a figure of either foot the free one, else its own."""
    named, either = wanted.feet, wanted.figure.either
    if len(named) > 1 or (named and not (either and time)):
        return named[time % len(named)]
    return stands.free if either and stands.free is not None else own


def _eighths(piece: Piece, stands: Standing, facing: Room | None) -> int:
    """How far a piece is turned so that it begins where the dancer faces."""
    to = facing if facing is not None else stands.feet
    if to is None or piece.feet is None or (to in piece.ways and facing is None):
        return 0
    return piece.feet.eighths_to(to)


def _placed(piece: Piece, time: int, wanted: Wanted, at: Place) -> tuple[Danced, ...]:
    """The steps in their bars, each standing in the file where the call stands."""
    onset = (at.passage.first - 1) * at.metre.beats + piece.beats * time
    steps = _moved(piece.steps, onset, at.metre)
    made = [replace(d, step=_as_called(d.step, wanted.call)) for d in steps]
    if made and at.heads and piece.head is not None and made[0].step.head is None:
        made[0] = replace(made[0], step=replace(made[0].step, head=piece.head))
    return tuple(made)


def _as_called(step: Step, call: Call) -> Step:
    return replace(step, mark=call.mark, marks=(), count=replace(step.count, mark=call.mark))


def partner_wanted(made: Made, call: Call, part: str) -> Wanted | None:
    """What the partner dances in a facing hold: her own part of the figure, or the half that it names.

    None where the steps follow one for one by a derivation.
    """
    wanted, figure = made.wanted, made.wanted.figure
    half = wanted.half
    if figure.lady is None:
        half = _half_against(wanted)
        if half is None:
            return None
    hers = replace(wanted, call=call, half=half, feet=tuple(foot.other for foot in wanted.feet), facing=None)
    piece = piece_of(hers, part)
    if hers.feet and hers.feet[0] is not piece.foot:
        piece = piece.mirrored
    return replace(hers, facing=piece.feet.turned(made.turned) if piece.feet is not None else None)


def _half_against(wanted: Wanted) -> Half | None:
    """The half that the partner begins with while this one is danced."""
    halves = wanted.figure.halves
    against = next((half for half in halves if half.name == wanted.figure.opposite), None)
    if against is None or wanted.half is None:
        return against
    return against if wanted.half.first != against.first else next(h for h in halves if h.first != against.first)
