"""How the partners begin: what is said of one says how the other stands."""
from __future__ import annotations

from dataclasses import replace

from notation.dance.knowledge import Knowledge
from notation.dance.room import Alignment, Mode
from notation.dance.script import Dance, Derivation, Derived, Stance, Start


def start_of(dance: Dance, knowledge: Knowledge) -> Start:
    """The start with the lady's stance filled in, and the gent's where only hers is said."""
    start = dance.start
    how = start_derivation(dance, knowledge)
    if start.lady is None and start.gent is not None:
        return replace(start, lady=_stance(start.gent, how))
    if start.gent is None and start.lady is not None:
        return replace(start, gent=_stance(start.lady, how))
    return start


def start_derivation(dance: Dance, knowledge: Knowledge) -> Derivation:
    """How the lady begins against the gent: by the position's feet, else as her first derived part, else opposite."""
    said = dance.start.position.text.lower() if dance.start.position else ""
    for position in knowledge.positions:
        if said in (position.name, *position.also):
            return Derivation(position.feet.value)
    derived = (p for passage in dance.passages for p in (passage.lady, passage.gent) if isinstance(p, Derived))
    first = next(derived, None)
    return first.how if first else Derivation.OPPOSITE


def _stance(stance: Stance, how: Derivation) -> Stance:
    if how is Derivation.SAME:
        return stance
    aligned = stance.alignment
    if aligned is not None and how is Derivation.MIRROR:
        aligned = replace(aligned, room=aligned.room.mirrored)
    elif aligned is not None:
        aligned = Alignment(Mode.BACKING if aligned.mode is Mode.FACING else Mode.FACING, aligned.room)
    return replace(stance, foot=stance.foot.other, alignment=aligned)
