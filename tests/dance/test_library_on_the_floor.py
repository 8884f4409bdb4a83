"""Every figure of the library danced once by a couple: no rule of the floor finds fault with it.

By the figures' own files, whose sources stand in them; holds as the positions ask.
"""
from __future__ import annotations

import pytest

from notation.dance.checks import check
from notation.dance.figure import Figure
from notation.dance.script import Derivation, Stance
from notation.dance.turning import room_words
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.figures import FOLDER, load_figure
from notation.reading.knowledge import load_knowledge

WHOLE = [f for path in sorted(FOLDER.glob("*.yaml")) if (f := load_figure(path)).bars.denominator == 1]
HOLDS = {"closed": "closed", "promenade": "closed", "counter promenade": "closed", "side by side": "open"}
RULES = {
    "partners-too-far", "partners-overlap", "position-out-of-reach", "position-unreachable", "position-of-other-feet",
    "derived-part-not-in-hold", "hand-held-twice", "facing-does-not-fit-position", "alignment-contradicts-turn",
    "figure-turn-does-not-close", "swivel-too-far", "cbm-on-side-step",
}
ORDINALS = ("", "1st", "2nd", "3rd", "4th", "5th")


def stance_words(stance: Stance) -> str:
    place, aligned = stance.place, stance.alignment
    where = (ORDINALS[place.position or 0], place.end.value if place.end else "") if place else ()
    words = (stance.foot.value, *where)
    facing = f", {aligned.mode.value} {room_words(aligned.room)}" if aligned else ""
    return " ".join(filter(None, words)) + facing


def lady_words(of: Figure) -> str:
    if of.lady is not None:
        return of.name
    return of.opposite.value if isinstance(of.opposite, Derivation) else f"{of.name}, from {of.opposite}"


def couple(of: Figure) -> str:
    beside = of.opposite is Derivation.MIRROR and of.lady is None
    position = of.positions[0] if of.positions else "side by side" if beside else "closed"
    lady = f"  lady: \"{stance_words(of.lady.start)}\"\n" if of.lady is not None else ""
    return (
        f"format: 1\ntitle: A Figure\narranged by: A. Writer\nrhythm: {of.rhythms[0]}\nintroduction: 4\n"
        f"length: {of.bars}\nfeet: {of.feet.value}\nstart:\n  position: {position}\n"
        f"  hold: {HOLDS.get(position, 'double')}\n  gent: \"{stance_words(of.gent.start)}\"\n{lady}"
        f"sequence:\n  - bars: 1-{of.bars}\n    gent: {of.name}\n    lady: {lady_words(of)}\n"
    )


@pytest.mark.parametrize("of", WHOLE, ids=lambda of: of.name)
def test_no_rule_of_the_floor_finds_fault(of: Figure) -> None:
    reading = read_dance(couple(of).encode(), "figure.yaml", load_knowledge())
    assert reading.dance is not None and not reading.findings, (couple(of), reading.findings)
    worked = work_out(reading.dance, load_knowledge())
    found = [f for f in check(worked, load_knowledge()) if f.rule in RULES]
    assert worked.passages[0].gent and worked.passages[0].lady and found == []
