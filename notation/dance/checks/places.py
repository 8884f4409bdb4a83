"""Where the partners stand: further apart than the hold reaches, or drifting off the line of dance."""
from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby

from notation.dance.checks.feet_run_on import where
from notation.dance.checks.rule import TWO_BARS, Rule, example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.floor import Floor, Shown, dance_floor
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import PARTS, DancedPassage, Worked
from notation.dance.step import Action
from notation.dance.travel import article, lady_from_gent, travel_of
from notation.kept import Same

TOLERANCE = 350.0
"""Millimetres beyond a hold's reach that are not spoken of: places are estimates from steps of usual length."""
ELSEWHERE = 1500.0
"""Millimetres between the lady's places beside the gent at the beginning and at the end that are not spoken of."""
STRETCH = 850.0
"""Millimetres by which each partner can be drawn to the other in one step on top of its usual length; the longest step
(common practice, no source)."""
DRIFT = 3.0
"""Metres to the wall or to the centre in one sequence that are not spoken of."""


def floor_of(worked: Worked, knowledge: Knowledge) -> Floor:
    """The floor, worked out once for all the rules that look at it."""
    return _floor_of(Same(worked), Same(knowledge))


@lru_cache(maxsize=2)
def _floor_of(worked: Same[Worked], knowledge: Same[Knowledge]) -> Floor:
    return dance_floor(worked.value, knowledge.value)


def check_reach(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    shown = floor_of(worked, knowledge).moments
    told: set[Mark] = set()
    for _, group in groupby(shown, key=lambda one: id(one.passage)):
        held = list(group)
        p, far = held[0].passage, [one for one in held if _beyond(one) > TOLERANCE]
        mark = p.written.mark_of("hold") if p.written.repeat is None else p.written.repeat.mark
        if far and mark not in told and _both(p):
            told.add(mark)
            yield _too_far(far[0], mark)


def _both(p: DancedPassage) -> bool:
    return all(p.part(part) for part in PARTS)


def _beyond(shown: Shown) -> float:
    return shown.apart - shown.hold.reach if shown.hold and shown.hold.reach else 0.0


def _too_far(shown: Shown, mark: Mark) -> Finding:
    assert shown.hold is not None and shown.hold.reach is not None
    message = (
        f"in bar {shown.bar} you are about {shown.apart / 1000:.1f} m apart, with steps of usual length;"
        f" {article(shown.hold.name)} hold reaches {shown.hold.reach / 1000:.1f} m; let go, or take steps together"
    )
    return FAR.at(mark, message, bar=shown.bar)


def check_meeting(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    """A position named where the partners stand too far from it. After a turn under, places are not followed."""
    floor = floor_of(worked, knowledge)
    apart, under = 0.0, False
    for shown in floor.moments:
        steps = [landing.aligned.danced for landing in shown.landings.values()]
        if shown.drawn > STRETCH and not under and _both(shown.passage):
            p, position = shown.passage, shown.position
            assert position is not None
            message = (
                f"in bar {shown.bar} the partners are about {apart / 1000:.1f} m apart, with steps of usual length,"
                f" when they should come to {position.name} position; one step does not bring them there: lead them"
                " together before it"
            )
            mark = where(p, steps[0]) if p.written.repeat else p.written.mark_of("position")
            yield MEET.at(mark, message, bar=shown.bar)
        under = any(d.step.action is Action.TURN_UNDER for d in steps) or (under and shown.drawn <= STRETCH)
        apart = shown.apart


def check_drift(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    travel = travel_of(floor_of(worked, knowledge))
    if abs(travel.to_centre) > DRIFT and all(_both(p) for p in worked.passages):
        way = "centre" if travel.to_centre > 0 else "wall"
        message = (
            f"one sequence carries the couple about {abs(travel.to_centre):.1f} m to {way}, with steps of usual length;"
            " give back as much, or they leave the line of dance"
        )
        yield ASIDE.at(worked.dance.mark_of("sequence"), message)


def check_end(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    floor = floor_of(worked, knowledge)
    if not floor.moments or not all(_both(p) for p in worked.passages) or worked.start.position is None:
        return
    off = lady_from_gent(floor.moments[-1].dancers) - lady_from_gent(floor.start)
    if off.length > ELSEWHERE:
        message = (
            f"at the end the lady stands about {off.length / 1000:.1f} m from her place beside the gent at the"
            " beginning, with steps of usual length; bring the partners together again"
        )
        yield END.at(where(worked.passages[-1], worked.passages[-1].lady[-1]), message, bar=floor.moments[-1].bar)


_BACK = ("1  LF back", "2  RF back", "3  LF back", "1  RF fwd", "2  LF touch", "3  hold")
_AWAY = ("1  LF back", "2  RF back", "3  LF back", "1  RF back", "2  LF back", "3  RF back")
_TOO = ("1  RF back", "2  LF back", "3  RF back", "1  LF fwd", "2  RF touch", "3  hold")
_OTHER = ("1  RF back", "2  LF back", "3  RF back", "1  LF back", "2  RF back", "3  LF back")
_SIDE = ("1  LF side", "2  RF close", "3  hold", "1  LF side", "2  RF close", "3  hold")

FAR = Rule(
    "partners-too-far",
    Severity.WARNING,
    "The partners are further apart than their hold reaches.",
    "Reach is from body to body by mean arm lengths (ANSUR II, 2012). Places are estimated from steps of usual length,"
    " so a third of a metre is allowed. Name another hold, or change a direction or the size of a step.",
    example(passage("1-2", *_BACK, lady="|\n      " + "\n      ".join(_TOO)), length=2),
    example(passage("1-2", *TWO_BARS), length=2),
    check_reach,
)
def _none(text: str) -> str:
    """The passage of an example without a hold."""
    return text.replace("    gent", "    hold: none\n    gent", 1)


def _parted(*second: str) -> str:
    """Two bars without a hold, the first apart, then two in closed position."""
    words = ("LF back", "RF back", "LF back", *second)
    gent = [f"{1 + n % 3}  {step}" for n, step in enumerate(words)]
    lady = [line.replace("LF", "lf").replace("RF", "LF").replace("lf", "RF") for line in gent]
    apart = passage("1-2", *gent, lady="|\n      " + "\n      ".join(lady))
    closed = passage("3-4", *TWO_BARS).replace("    gent", "    position: closed\n    hold: closed\n    gent")
    return example(_none(apart) + closed, length=4)


MEET = Rule(
    "position-out-of-reach",
    Severity.WARNING,
    "A position in which the partners cannot stand, so far are they apart.",
    "Where a position is named, both are taken to come into it on their next step; one step covers 0.85 m and no more."
    " Places are estimates from steps of usual length.",
    _parted("RF back", "LF touch", "hold"),
    _parted("RF fwd", "LF fwd, small", "RF fwd, small"),
    check_meeting,
)
ASIDE = Rule(
    "drift",
    Severity.WARNING,
    "A sequence carries the couple to the wall or to the centre.",
    "What one sequence drifts, the next adds to. Places are estimated from steps of usual length, so three metres are"
    " allowed.",
    example("".join(passage(f"{2 * n + 1}-{2 * n + 2}", *_SIDE) for n in range(4)), length=8),
    example(passage("1-2", *_SIDE), length=2),
    check_drift,
)


END = Rule(
    "end-place-differs",
    Severity.WARNING,
    "At the end the lady has another place beside the gent than at the beginning.",
    "The next sequence begins from where this one ends. Places are estimated from steps of usual length, so one and a"
    " half metres are allowed.",
    example(_none(passage("1-2", *_AWAY, lady="|\n      " + "\n      ".join(_OTHER))), length=2),
    example(passage("1-2", *TWO_BARS), length=2),
    check_end,
)
RULES = (FAR, MEET, ASIDE, END)
