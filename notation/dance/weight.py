"""Who stands on which foot: the weight followed through the steps of one part."""
from __future__ import annotations

import enum
from collections.abc import Iterator
from dataclasses import dataclass

from notation.dance.feet import Foot
from notation.dance.script import Danced, Stance
from notation.dance.step import FOOTLESS, Action

STAYS = frozenset({Action.HOP, Action.PIVOT})
"""What is done on the foot that bears the weight already."""


class Fault(enum.Enum):
    """What cannot be danced: the standing foot steps again, moves without weight, or a hop asks for the free foot."""

    STEPS_AGAIN = "steps again"
    GESTURES = "gestures"
    HOPS_ON_FREE = "hops on the free foot"


@dataclass(frozen=True, slots=True)
class Weighed:
    """A step with the foot that bore the weight before it and bears it after it; None: both, or not known."""

    danced: Danced
    before: Foot | None
    after: Foot | None
    fault: Fault | None


def standing_at_start(stance: Stance | None) -> Foot | None:
    """The foot that bears the weight when the other is free."""
    return None if stance is None or stance.foot is Foot.BOTH else stance.foot.other


def weigh(steps: tuple[Danced, ...], standing: Foot | None) -> Iterator[Weighed]:
    """Follow the weight. After a fault it goes on from what is written, so that one mistake is found once."""
    for danced in steps:
        before = standing
        standing = _after(danced, before)
        yield Weighed(danced, before, standing, _fault(danced, before))


def _after(danced: Danced, before: Foot | None) -> Foot | None:
    step = danced.step
    if step.action in FOOTLESS or step.foot is None:
        return before
    if not step.weight:
        return before if before is not None or step.foot is Foot.BOTH else step.foot.other
    return None if step.foot is Foot.BOTH else step.foot


def _fault(danced: Danced, before: Foot | None) -> Fault | None:
    step = danced.step
    if before is None or step.foot in (None, Foot.BOTH) or step.action in FOOTLESS:
        return None
    if step.action is Action.HOP:
        return Fault.HOPS_ON_FREE if step.foot is not before else None
    if step.foot is not before or step.action in STAYS:
        return None
    return Fault.STEPS_AGAIN if step.weight else Fault.GESTURES
