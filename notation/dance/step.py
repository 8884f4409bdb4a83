"""A step as it is written: when, which foot, what it does, and all that is said of it."""
from __future__ import annotations

import enum
from dataclasses import dataclass

from notation.dance.feet import Foot, Place
from notation.dance.mark import NOWHERE, Mark, Said
from notation.dance.metre import Count
from notation.dance.room import Alignment, Room, Side, Turn


class Direction(enum.Enum):
    """Where a foot goes, seen from the dancer's own body."""

    FORWARD = "forward"
    BACK = "back"
    SIDE = "side"
    DIAGONALLY_FORWARD = "diagonally-forward"
    DIAGONALLY_BACK = "diagonally-back"
    ACROSS = "across"
    BEHIND = "behind"


class Action(enum.Enum):
    """What is done. The value is the word's name in the vocabulary."""

    FORWARD = "forward"
    BACK = "back"
    SIDE = "side"
    DIAGONALLY_FORWARD = "diagonally-forward"
    DIAGONALLY_BACK = "diagonally-back"
    CLOSE = "close"
    CROSS_IN_FRONT = "cross-in-front"
    CROSS_BEHIND = "cross-behind"
    IN_PLACE = "in-place"
    PIVOT = "pivot"
    LOCK_IN_FRONT = "lock-in-front"
    LOCK_BEHIND = "lock-behind"
    SPRING = "spring"
    HOP = "hop"
    POINT = "point"
    TOUCH = "touch"
    TAP = "tap"
    HEEL = "heel"
    TOE = "toe"
    BRUSH = "brush"
    KICK = "kick"
    SWING = "swing"
    LIFT = "lift"
    FLICK = "flick"
    CIRCLE = "circle"
    HOLD = "hold"
    CLAP = "clap"
    BOW = "bow"
    CURTSEY = "curtsey"
    TURN_UNDER = "turn-under"


TAKES_WEIGHT = frozenset(
    {
        Action.FORWARD,
        Action.BACK,
        Action.SIDE,
        Action.DIAGONALLY_FORWARD,
        Action.DIAGONALLY_BACK,
        Action.CLOSE,
        Action.CROSS_IN_FRONT,
        Action.CROSS_BEHIND,
        Action.IN_PLACE,
        Action.PIVOT,
        Action.LOCK_IN_FRONT,
        Action.LOCK_BEHIND,
        Action.SPRING,
        Action.HOP,
    }
)
"""Actions after which the foot bears the weight unless the step says otherwise."""

FOOTLESS = frozenset({Action.HOLD, Action.CLAP, Action.BOW, Action.CURTSEY, Action.TURN_UNDER})
"""What stands in place of foot and action, and moves no foot."""


class Footwork(enum.Enum):
    """Which part of the foot meets the floor, in order."""

    H = "H"
    T = "T"
    HT = "HT"
    TH = "TH"
    THT = "THT"
    B = "B"
    BF = "BF"
    BH = "BH"
    F = "F"
    WF = "WF"
    IE = "IE"
    IET = "IET"
    IEB = "IEB"
    OE = "OE"


class Rise(enum.Enum):
    """Rise and fall; the value is the word's name in the vocabulary."""

    COMMENCE = "commence-to-rise"
    CONTINUE = "continue-to-rise"
    RISE = "rise"
    UP = "up"
    LOWER = "lower"
    DOWN = "down"
    BEND = "bend"
    NO_FOOT_RISE = "no-foot-rise"


class Body(enum.Enum):
    """What is said of the body; the value is the word's name in the vocabulary."""

    CBM = "cbm"
    CBMP = "cbmp"
    PP = "pp"
    CPP = "cpp"
    OP = "op"
    PO = "po"
    TURNS_LESS = "body-turns-less"
    COMPLETES_TURN = "body-completes-turn"


class Size(enum.Enum):
    """Length of a step against the usual."""

    SMALL = "small"
    LONG = "long"


@dataclass(frozen=True, slots=True)
class HeadLine:
    """Where the head is turned: exactly one field is set.

    side: to the dancer's left or right; room: along that direction; over: over that foot; words: 'forward', 'partner',
    or free words as written.
    """

    side: Side | None = None
    room: Room | None = None
    over: Foot | None = None
    words: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One step line.

    foot: None where a footless action stands. weight: whether the foot bears weight at the end, as said or by the
    action's default. direction: of a gesture ('point fwd'). travel: 'moving LOD', 'along LOD', 'to wall'.
    joins, passes: 'to RF', 'past RF'. remarks: what stood in brackets. marks: where each field was written, by field
    name.
    """

    count: Count
    action: Action
    foot: Foot | None = None
    weight: bool = False
    direction: Direction | None = None
    place: Place | None = None
    alignment: Alignment | None = None
    travel: Room | None = None
    turn: Turn | None = None
    footwork: Footwork | None = None
    rise: tuple[Rise, ...] = ()
    body: tuple[Body, ...] = ()
    sway: Side | None = None
    size: Size | None = None
    head: HeadLine | None = None
    hold: Said | None = None
    position: Said | None = None
    joins: Foot | None = None
    passes: Foot | None = None
    remarks: tuple[str, ...] = ()
    mark: Mark = NOWHERE
    marks: tuple[tuple[str, Mark], ...] = ()

    def mark_of(self, field: str) -> Mark:
        """Where that field was written; the whole line where it was not."""
        return dict(self.marks).get(field, self.mark)


@dataclass(frozen=True, slots=True)
class BarLine:
    """A line 'bar 2': what follows is in that bar of the passage."""

    number: int
    mark: Mark = NOWHERE
