"""The room: line of dance, wall and centre, and turning by eighths.

The line of dance runs anticlockwise seen from above; a dancer facing it has the wall on the right and the centre on
the left. Directions are counted in eighths of a turn to the left of the line of dance (Alex Moore, Ballroom Dancing,
10th ed. 2002, 'Alignment'; the alignment diagram of dancecentral.info).
"""
from __future__ import annotations

import enum
from dataclasses import dataclass

EIGHTHS = 8


class Room(enum.Enum):
    """The eight directions; the value is the eighths of a turn to the left of the line of dance.

    eighths: the value. degrees: from the line of dance, positive to the left, -135 to 180.
    """

    LOD = 0
    DC = 1
    CENTRE = 2
    DCA = 3
    ALOD = 4
    DWA = 5
    WALL = 6
    DW = 7

    def __init__(self, eighths: int) -> None:
        self.eighths = eighths
        self.degrees = (eighths if eighths <= EIGHTHS // 2 else eighths - EIGHTHS) * 45.0

    def turned(self, eighths: int) -> Room:
        """The direction that many eighths further to the left (negative: to the right).

        >>> Room.LOD.turned(-1)
        <Room.DW: 7>
        """
        return ROOMS[(self.eighths + eighths) % EIGHTHS]

    @property
    def backing(self) -> Room:
        """The direction behind a dancer who faces this one."""
        return self.turned(EIGHTHS // 2)

    @property
    def mirrored(self) -> Room:
        """The direction seen in a mirror that stands along the line of dance: wall and centre change places."""
        return ROOMS[-self.eighths % EIGHTHS]

    def eighths_to(self, other: Room) -> int:
        """The shortest turn from here to there in eighths, positive to the left; half a turn counts as +4.

        >>> Room.DW.eighths_to(Room.DC)
        2
        """
        left = (other.eighths - self.eighths) % EIGHTHS
        return left if left <= EIGHTHS // 2 else left - EIGHTHS


ROOMS = tuple(Room)


class Side(enum.Enum):
    """A side of the body, or the sense of a turn: the value is +1 to the left, -1 to the right."""

    LEFT = 1
    RIGHT = -1

    @property
    def other(self) -> Side:
        return Side(-self.value)


class Mode(enum.Enum):
    """How an alignment relates the foot to the room (Moore 2002, 'Alignment'). 'moving' is kept as a step's travel."""

    FACING = "facing"
    BACKING = "backing"
    POINTING = "pointing"


@dataclass(frozen=True, slots=True)
class Alignment:
    """An alignment as it is said: of the feet, at the end of the movement."""

    mode: Mode
    room: Room

    @property
    def toward(self) -> Room:
        """Where the toes point: backing the wall is facing the centre.

        >>> Alignment(Mode.BACKING, Room.DW).toward
        <Room.DCA: 3>
        """
        return self.room.backing if self.mode is Mode.BACKING else self.room


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn said on a step: eighths made since the last step, positive to the left; 0 for 'no turn'.

    commence: the sense, where the step only commences to turn (its eighths are then 0 and made on the next steps).
    """

    eighths: int
    commence: Side | None = None

    @property
    def mirrored(self) -> Turn:
        return Turn(-self.eighths, self.commence.other if self.commence else None)
