"""How a dancer stands before a called figure, and what does not run on into it: weight, position or alignment."""
from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from notation.dance.call import Wanted, shortened
from notation.dance.feet import Foot
from notation.dance.figure import Figure, Library, plain_name
from notation.dance.finding import Finding, Severity
from notation.dance.metre import Metre
from notation.dance.room import Alignment, Mode, Room
from notation.dance.script import Danced, Passage, Stance
from notation.dance.step import Body, Step
from notation.dance.turning import align, room_words, turn_words
from notation.dance.weight import standing_at_start, weigh

NEAR = 1
"""Eighths by which a dancer may face otherwise than the call says: the first step makes them up."""
PROMENADES = {Body.PP: "promenade", Body.CPP: "counter promenade"}


@dataclass(frozen=True, slots=True)
class Standing:
    """How a dancer stands: the foot that bears the weight, where the toes point; None where it is not known.

    last: the step danced last.
    """

    bears: Foot | None
    feet: Room | None
    last: Danced | None = None

    @property
    def free(self) -> Foot | None:
        return self.bears.other if self.bears is not None else None

    def after(self, steps: tuple[Danced, ...]) -> Standing:
        """How the dancer stands after these steps; after none at all the weight is not known."""
        if not steps:
            return Standing(None, self.feet, self.last)
        bears = self.bears
        for weighed in weigh(steps, bears):
            bears = weighed.after
        return Standing(bears, align(steps, _stance(self.feet))[-1].feet, steps[-1])


def _stance(feet: Room | None) -> Stance | None:
    return None if feet is None else Stance(Foot.BOTH, None, Alignment(Mode.FACING, feet))


def at_start(stance: Stance | None) -> Standing:
    """How a dancer stands before the first step."""
    feet = stance.alignment.toward if stance is not None and stance.alignment else None
    return Standing(standing_at_start(stance), feet)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a call stands: its passage and part, the position in force, how the dancer stands, metre and library.

    heads: the figure's own head line is wanted, since the passage says none. derived: it follows from the partner's
    call, which has been asked already whether it runs on.
    """

    passage: Passage
    part: str
    position: str
    stands: Standing
    metre: Metre
    library: Library
    heads: bool = True
    derived: bool = False


def standing_position(said: str, last: Step) -> str:
    """The position after a step: promenade where the step says so, else as it was said."""
    return next((name for body, name in PROMENADES.items() if body in last.body), said)


def _fault(rule: str, wanted: Wanted, at: Place, message: str, suggestion: str | None = None) -> Finding:
    mark = wanted.call.mark
    return Finding(rule, Severity.ERROR, mark, message, suggestion, bar=at.passage.first, part=at.part)


def _since(at: Place) -> str:
    last = at.stands.last
    return f"after bar {last.bar}" if last else "at the start"


def foot_fault(wanted: Wanted, own: Foot, foot: Foot, at: Place) -> Finding | None:
    """A foot that the figure does not begin on, or that is not free. own: the figure's; foot: the one it begins on."""
    figure, free = wanted.figure, at.stands.free
    if foot is not own and figure.mirror_name:
        message = f"'{figure.name}' begins with {own.value}; on {foot.value} it is the {figure.mirror_name}"
        return _fault("figure-wrong-foot", wanted, at, message, figure.mirror_name)
    if free is None or foot is free:
        return None
    instead = _instead(figure, foot)
    message = (
        f"'{figure.name}' begins with {foot.value}, but the {at.part}'s {free.value} is free {_since(at)}; change the"
        f" weight before it, or call '{instead}'"
    )
    return _fault("figure-wrong-foot", wanted, at, message, instead)


def _instead(figure: Figure, foot: Foot) -> str:
    """What can be called from the foot that is free."""
    return figure.mirror_name or f"{figure.name}, {foot.other.value}"


def facing_fault(wanted: Wanted, at: Place) -> Finding | None:
    """An alignment in the call that is not where the dancer stands."""
    feet, facing = at.stands.feet, wanted.facing
    if facing is None or feet is None or at.derived or abs(feet.eighths_to(facing)) <= NEAR:
        return None
    message = (
        f"'{wanted.figure.name}' is called facing {room_words(facing)}, but the {at.part}'s toes point"
        f" {room_words(feet)} {_since(at)}; the alignment does not run on: {turn_words(feet.eighths_to(facing))} is"
        f" missing"
    )
    return _fault("figure-does-not-join", wanted, at, message)


def position_fault(wanted: Wanted, at: Place) -> Finding | None:
    """A figure that is danced in a position in which the partners do not stand."""
    figure = wanted.figure
    if not figure.positions or not at.position or at.derived or _among(at.position, figure.positions):
        return None
    message = (
        f"'{figure.name}' is danced in {' or '.join(figure.positions)} position, but the partners stand in"
        f" {shortened(at.position)} here; the position does not run on: write 'position: {figure.positions[0]}' over"
        f" these steps, or lead into it"
    )
    return _fault("figure-does-not-join", wanted, at, message, f"position: {figure.positions[0]}")


def _among(position: str, names: tuple[str, ...]) -> bool:
    return plain_name(position) in map(plain_name, names)


def weight_fault(wanted: Wanted, foot: Foot, stands: Standing, at: Place) -> Finding | None:
    """A figure danced again at once, whose end does not leave the foot free that it begins with."""
    if stands.free is None or stands.free is foot:
        return None
    message = (
        f"'{wanted.figure.name}' cannot be danced again at once: it begins with {foot.value}, but after it the"
        f" {at.part}'s {stands.free.value} is free; the weight does not run on"
    )
    return _fault("figure-does-not-join", wanted, at, message)


def length_fault(wanted: Wanted, beats: Fraction, at: Place) -> Finding | None:
    """A call that takes more or fewer bars than its passage has. beats: of one time."""
    bars = at.passage.last - at.passage.first + 1
    takes = beats * wanted.times / at.metre.beats
    if takes == bars:
        return None
    often = bars * at.metre.beats / beats
    part = wanted.figure.part(at.part)
    again = wanted.figure.either or part.free is part.start.foot
    hint = f"; danced {often} times it fills them" if again and often.denominator == 1 and often > 1 else ""
    has = f"{bars} bar{'s' if bars > 1 else ''}"
    message = f"'{shortened(wanted.call.name.text)}' as called takes {_bars(takes)}, but the passage has {has}{hint}"
    return _fault("figure-does-not-fit", wanted, at, message)


def _bars(bars: Fraction) -> str:
    whole, rest = divmod(bars, 1)
    words = " ".join([*([str(whole)] if whole else []), *([str(rest)] if rest else [])])
    return f"{words} bar{'s' if bars > 1 else ''}"
