"""Feet, the five positions of the feet, and who bears weight."""
from __future__ import annotations

import enum
from dataclasses import dataclass


class Foot(enum.Enum):
    """A foot, or both."""

    LEFT = "LF"
    RIGHT = "RF"
    BOTH = "both"

    @property
    def other(self) -> Foot:
        return Foot.RIGHT if self is Foot.LEFT else Foot.LEFT if self is Foot.RIGHT else Foot.BOTH


class TurnOut(enum.Enum):
    """How a dance holds the feet: each turned out by 45 degrees in closed positions, or parallel."""

    TURNED_OUT = "turned-out"
    PARALLEL = "parallel"


class End(enum.Enum):
    """Whether the named foot stands in front of the other or behind it."""

    FRONT = "front"
    REAR = "rear"


class Fourth(enum.Enum):
    """The two kinds of fourth position."""

    OPEN = "open"
    CROSSED = "crossed"


class Aerial(enum.Enum):
    """Height of a raised foot: ankle, calf or knee of the other leg (round-dance glossary, drodd.com, 'Aerial')."""

    LOW = "low"
    MEDIUM = "medium"
    HIGH = "high"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a foot stands in relation to the other: one of the five positions, its end and kind, or its height.

    position: 1 to 5, or None where only a height is said.
    """

    position: int | None
    end: End | None = None
    fourth: Fourth | None = None
    aerial: Aerial | None = None
