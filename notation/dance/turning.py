"""Which way the feet and the body point after every step of one part.

Turn adds up from step to step in whole eighths. Alignment and amount of turn are read from the feet; on the inside of
a turn a foot points an eighth further round than the body, which completes on the next step (Alex Moore, Ballroom
Dancing, 10th ed. 2002, 'Alignment', 'Amount of Turn').
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from notation.dance.room import Alignment, Mode, Room, Side
from notation.dance.script import Danced, Stance
from notation.dance.step import Action, Body, Step

HALF = 4
LAG = 1
"""Eighths by which the body turns less than the foot on the inside of a turn."""


@dataclass(frozen=True, slots=True)
class Aligned:
    """A step with the turn worked out.

    before, feet: where the toes point before and after it; None while no alignment is known. body: where the body
    faces. eighths: turn of the feet on this step, positive to the left. said: the alignment was written. against:
    where the feet would point by the turn that is written, where that contradicts the written alignment.
    """

    danced: Danced
    before: Room | None
    feet: Room | None
    body: Room | None
    eighths: int
    said: bool
    against: Room | None = None

    @property
    def alignment(self) -> Alignment | None:
        """As written, or filled in."""
        return aligned_step(self.danced.step, self.feet).alignment


def aligned_step(step: Step, feet: Room | None) -> Step:
    """The step with its alignment filled in from where the toes point: backing for backward work, else facing
    (Moore 2002, 'Alignment'). What moves no foot, and what is aligned already, is left."""
    if step.alignment is not None or feet is None or step.foot is None:
        return step
    back = step.action in (Action.BACK, Action.DIAGONALLY_BACK)
    return replace(step, alignment=Alignment(Mode.BACKING, feet.backing) if back else Alignment(Mode.FACING, feet))


def align(steps: tuple[Danced, ...], stance: Stance | None) -> tuple[Aligned, ...]:
    """Follow the turn through a part. After a contradiction it goes on from the alignment that is written."""
    return tuple(_followed(steps, stance))


def _followed(steps: tuple[Danced, ...], stance: Stance | None) -> Iterator[Aligned]:
    feet = body = facing_at_start(stance)
    sense: Side | None = None
    for danced in steps:
        one = _aligned(danced, feet, body, sense)
        yield one
        feet, body = one.feet, one.body
        turn = danced.step.turn
        sense = turn.commence if turn is not None and turn.commence else None


def facing_at_start(stance: Stance | None) -> Room | None:
    """Where a partner's body faces at the start, if that is said."""
    return stance.alignment.toward if stance is not None and stance.alignment else None


def _aligned(danced: Danced, feet: Room | None, body: Room | None, sense: Side | None) -> Aligned:
    step = danced.step
    turn = step.turn.eighths if step.turn else 0
    worked = feet.turned(turn) if feet is not None else None
    written = step.alignment.toward if step.alignment else None
    after = written or worked
    eighths = turn if written in (None, worked) else _between(feet, written, turn, sense)
    contradicted = worked if _contradicts(step, worked, written) else None
    return Aligned(danced, feet, after, _body(step, after, body, eighths), eighths, written is not None, contradicted)


def _contradicts(step: Step, worked: Room | None, written: Room | None) -> bool:
    """A turn that is said, 'no turn' included, and not merely commenced, must lead to the alignment that is said."""
    if step.turn is None or step.turn.commence is not None or worked is None or written is None:
        return False
    return worked is not written


def _between(feet: Room | None, written: Room | None, turn: int, sense: Side | None) -> int:
    """The turn that leads to a written alignment: the shortest; half a turn in the sense that is said."""
    if feet is None or written is None:
        return turn
    eighths = feet.eighths_to(written)
    to_right = turn < 0 or (turn == 0 and sense is Side.RIGHT)
    return -HALF if abs(eighths) == HALF and to_right else eighths


def _body(step: Step, feet: Room | None, body: Room | None, eighths: int) -> Room | None:
    if feet is None:
        return body
    if Body.TURNS_LESS in step.body and eighths:
        return feet.turned(-LAG if eighths > 0 else LAG)
    if step.alignment is not None and step.alignment.mode is Mode.POINTING and body is not None:
        return body
    return feet


def total(aligned: tuple[Aligned, ...]) -> int:
    """Turn of all the steps together in eighths, positive to the left; it does not depend on how they are grouped."""
    return sum(one.eighths for one in aligned)


def turn_words(eighths: int) -> str:
    """A turn as the trade says it.

    >>> turn_words(-3), turn_words(4), turn_words(0)
    ('3/8 to R', '1/2 to L', 'no turn')
    """
    if eighths == 0:
        return "no turn"
    whole, rest = divmod(abs(eighths), 8)
    part = {0: "", 2: "1/4", 4: "1/2", 6: "3/4"}.get(rest, f"{rest}/8")
    amount = " ".join(filter(None, (str(whole) if whole else "", part)))
    return f"{amount} to {'L' if eighths > 0 else 'R'}"


ROOM_WORDS = {Room.LOD: "LOD", Room.ALOD: "ALOD", Room.CENTRE: "centre", Room.WALL: "wall"}


def room_words(room: Room) -> str:
    """A direction of the room in shorthand."""
    return ROOM_WORDS.get(room, room.name)
