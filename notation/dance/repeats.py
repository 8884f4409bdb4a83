"""Bars danced before, danced again: as they were, on the opposite feet, or with the partners' parts exchanged."""
from __future__ import annotations

from dataclasses import replace

from notation.dance.partner import mirrored, mirrored_head
from notation.dance.script import Danced, DancedPassage, Heads, Passage, Repeat


def written_out(passage: Passage, repeat: Repeat, before: tuple[DancedPassage, ...]) -> tuple[DancedPassage, ...]:
    """The bars of a repeat, piece by piece as they were danced before, in the bars of `passage`.

    Bars that were themselves a repeat may be danced again. The repeated bars are taken as often as the passage asks:
    4 bars in a passage of 8 are danced twice. Bars that have not been danced yet give nothing.
    """
    bars = repeat.last - repeat.first + 1
    shifts = range(passage.first - repeat.first, passage.last - repeat.first + 1, bars)
    pieces = [piece for danced in before if (piece := _cut(danced, repeat.first, repeat.last))]
    return tuple(_again(piece, passage, repeat, shift) for shift in shifts for piece in pieces)


def _cut(danced: DancedPassage, first: int, last: int) -> DancedPassage | None:
    begin, end = max(danced.first, first), min(danced.last, last)
    if begin > end:
        return None
    return replace(
        danced,
        first=begin,
        last=end,
        gent=tuple(d for d in danced.gent if begin <= d.bar <= end),
        lady=tuple(d for d in danced.lady if begin <= d.bar <= end),
    )


def _again(piece: DancedPassage, passage: Passage, repeat: Repeat, shift: int) -> DancedPassage:
    gent, lady, head = piece.gent, piece.lady, piece.head
    if repeat.exchange_parts:
        gent, lady, head = lady, gent, Heads(head.lady, head.gent)
    if repeat.opposite_feet:
        head = Heads(mirrored_head(head.gent), mirrored_head(head.lady))
    return replace(
        piece,
        written=passage,
        first=piece.first + shift,
        last=piece.last + shift,
        gent=tuple(_moved(d, repeat, shift) for d in gent),
        lady=tuple(_moved(d, repeat, shift) for d in lady),
        position=passage.position or piece.position,
        hold=passage.hold or piece.hold,
        head=head,
        repeated=(piece.first, piece.last),
    )


def _moved(danced: Danced, repeat: Repeat, shift: int) -> Danced:
    step = mirrored(danced.step) if repeat.opposite_feet else danced.step
    return replace(danced, step=step, bar=danced.bar + shift)
