"""Positions of the feet that belong to another way of holding them, or that the feet cannot come to from the last."""
from __future__ import annotations

from collections.abc import Iterator

from notation.dance.checks.feet_run_on import where
from notation.dance.checks.rule import Rule, example, passage
from notation.dance.feet import End, Foot, Fourth, Place, TurnOut
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import PARTS, Danced, DancedPassage, Stance, Worked
from notation.dance.step import FOOTLESS, Action, Body

CROSSED = frozenset({3, 5})
PARALLEL_ONLY = {Body.TURNS_LESS: "body turns less", Body.COMPLETES_TURN: "body completes turn", Body.CBMP: "CBMP"}
"""Said where the feet are parallel: a foot that is pointed otherwise than the body, or put on the other's line."""
ORDINALS = {1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 5: "5th"}


def _steps(worked: Worked, part: str) -> Iterator[tuple[DancedPassage, Danced]]:
    return ((p, d) for p in worked.passages for d in p.part(part))


def place_words(place: Place) -> str:
    """A position of the feet in the trade's words.

    >>> place_words(Place(5, End.FRONT)), place_words(Place(4, End.REAR, Fourth.CROSSED))
    ('5th front', 'crossed 4th rear')
    """
    words = (place.fourth and place.fourth.value, ORDINALS[place.position or 1], place.end and place.end.value)
    return " ".join(filter(None, words))


def check_style(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    """Each part is told once: what is odd once is meant so, or wrong throughout."""
    feet = worked.dance.feet
    told: set[Mark] = set()
    for part in PARTS:
        odd = ((p, d, said) for p, d in _steps(worked, part) if (said := _odd(d, feet)))
        for p, d, said in odd:
            mark = where(p, d)
            if mark not in told:
                told.add(mark)
                place = f"bar {d.bar} count {d.count}"
                yield STYLE.at(mark, f"{place}: {said}", bar=d.bar, count=d.count, part=part)
            break


def _odd(danced: Danced, feet: TurnOut | None) -> str:
    step = danced.step
    if feet is TurnOut.PARALLEL and step.place is not None:
        place = step.place
        if place.position in CROSSED or place.fourth is Fourth.CROSSED:
            return (
                f"{place_words(place)} is a position of turned-out feet, but this dance says 'feet: parallel'; say"
                " 'close', 'cross' or 'lock', or 'feet: turned-out'"
            )
    said = next((words for body, words in PARALLEL_ONLY.items() if body in step.body), "")
    if feet is TurnOut.TURNED_OUT and said:
        return f"'{said}' is said of parallel feet, but this dance says 'feet: turned-out'; leave it out"
    return ""


def check_reached(worked: Worked, knowledge: Knowledge) -> Iterator[Finding]:
    seen: set[Mark] = set()
    stances: dict[str, Stance | None] = {"gent": worked.start.gent, "lady": worked.start.lady}
    for part in PARTS:
        stance = stances[part]
        stand = (stance.foot, stance.place) if stance and stance.place else None
        for p, d in _steps(worked, part):
            mark = where(p, d)
            if stand is not None and mark not in seen and _unreachable(d, *stand):
                seen.add(mark)
                yield _unreached(d, part, *stand, mark)
            stand = _standing(d, stand)


def _standing(danced: Danced, before: tuple[Foot, Place] | None) -> tuple[Foot, Place] | None:
    """The closed position in which the feet stand after a step, said of one of them."""
    step = danced.step
    if step.action in FOOTLESS:
        return before
    if step.foot in (Foot.LEFT, Foot.RIGHT) and step.place is not None and step.place.position:
        return (step.foot, step.place) if step.place.aerial is None else None
    return before if step.action is Action.IN_PLACE and not (step.turn and step.turn.eighths) else None


def _unreachable(danced: Danced, foot: Foot, place: Place) -> bool:
    """A step in place, without a turn, that ends in another position than the feet stand in: no foot has moved."""
    step = danced.step
    if step.action is not Action.IN_PLACE or step.place is None or not step.place.position or step.foot is None:
        return False
    if (step.turn and step.turn.eighths) or step.foot is Foot.BOTH:
        return False
    return _seen_from(step.foot, foot, place) != (step.place.position, step.place.end or End.FRONT)


def _seen_from(foot: Foot, said_of: Foot, place: Place) -> tuple[int | None, End]:
    """A position as said of that foot: 5th front of one foot is 5th rear of the other."""
    end = place.end or End.FRONT
    if foot is not said_of:
        end = End.REAR if end is End.FRONT else End.FRONT
    return place.position, end


def _unreached(danced: Danced, part: str, foot: Foot, place: Place, mark: Mark) -> Finding:
    step = danced.step
    assert step.foot is not None and step.place is not None
    number, end = _seen_from(step.foot, foot, place)
    now = place_words(Place(number, end))
    message = (
        f"bar {danced.bar} count {danced.count}: the {part}'s {step.foot.value} stands in {now}, and a step in place"
        f" without a turn cannot bring it to {place_words(step.place)}; close or move the foot, or say the turn"
    )
    return REACHED.at(mark, message, suggestion=now, bar=danced.bar, count=danced.count, part=part)


_OUT = "tempo: 30\nfeet: turned-out"


def _example(*lines: str, length: int = 1) -> str:
    bars = "1" if length == 1 else f"1-{length}"
    return example(passage(bars, *lines, lady="mirror"), length).replace("tempo: 30", _OUT)


def _basque(place: str) -> str:
    lines = ("1  LF side 2nd", "2  RF close 5th front", f"3  LF in place {place}")
    return _example(*lines, "1  RF side 2nd", "2  LF close 5th front", "3  RF in place 5th rear", length=2)


STYLE = Rule(
    "position-of-other-feet",
    Severity.WARNING,
    "A position of turned-out feet in a dance with parallel feet, or the reverse.",
    "3rd, 5th and crossed 4th belong to the turned-out style; a body that turns less than the foot, and CBMP, to"
    " parallel feet. Look for 'feet' in the heading, or for a step taken over from another dance.",
    example(passage("1", "1  LF fwd", "2  RF close 3rd rear", "3  hold")),
    _example("1  LF side", "2  RF close 3rd rear", "3  hold"),
    check_style,
)
REACHED = Rule(
    "position-unreachable",
    Severity.ERROR,
    "A position of the feet that cannot be reached from the last.",
    "A foot that steps in place stays where it stands: 5th front of one foot is 5th rear of the other, and only a"
    " swivel or a closing step changes that.",
    _basque("5th front"),
    _basque("5th rear"),
    check_reached,
)
RULES = (STYLE, REACHED)
