"""Passages that leave the same footprints are drawn once, and later ones say which bars they are like."""
from __future__ import annotations

import itertools
import math
from functools import cache

import pytest
from setting import dance as dance_of
from setting import example, knowledge, passage

from notation.dance.floor import Floor, dance_floor
from notation.dance.script import PARTS, DancedPassage, Worked
from notation.page.content import FigureRow, Paragraph
from notation.reading.layout import load_layout
from notation.sheet.diagram import prints_of
from notation.sheet.floor import passage_figures
from notation.sheet.prints import Print
from notation.sheet.script import sheet_speaker

AS_MUCH = 3.0  # millimetres on the floor; a quarter of a point on the page


@cache
def floor_of(dance: Worked) -> Floor:
    return dance_floor(dance, knowledge())


def under(dance: Worked) -> dict[tuple[int, int], str]:
    """By first and last bar what stands under a passage: 'drawn', or the line that stands there instead."""
    drawn = passage_figures(dance, floor_of(dance), sheet_speaker(dance, knowledge(), load_layout("teaching")))
    found = {}
    for one in dance.passages:
        for what in drawn(one):
            assert isinstance(what, FigureRow | Paragraph)
            said = "drawn" if isinstance(what, FigureRow) else "".join(run.text for run in what.runs)
            found[one.first, one.last] = said
    return found


def left(dance: Worked, one: DancedPassage) -> list[Print]:
    bars = [range(bar, bar + 1) for bar in range(one.first, one.last + 1)]
    return [mark for bar in bars for mark in prints_of(floor_of(dance), bar, PARTS, ("low", "mid", "high"))]


def same_floor(ones: list[Print], others: list[Print]) -> bool:
    """Whether the feet fall alike, wherever in the room: worked out from the places of the feet, not from drawings."""
    if [(p.part, p.foot, p.count) for p in ones] != [(p.part, p.foot, p.count) for p in others]:
        return False
    at, to = ones[0].placed.heel, others[0].placed.heel
    for one, other in zip(ones, others, strict=True):
        apart = math.dist((one.placed.heel.x - at.x, one.placed.heel.y - at.y),
                          (other.placed.heel.x - to.x, other.placed.heel.y - to.y))
        turned = abs((one.placed.degrees - other.placed.degrees + 180) % 360 - 180)
        if apart > AS_MUCH or turned > 1:
            return False
    return True


@pytest.mark.parametrize("name", ["harbour-bell-waltz", "ferry-lane-saunter"])
def test_what_is_not_drawn_falls_on_the_floor_like_the_bars_it_names_and_nothing_else_does(name: str) -> None:
    dance = example(name)
    said = under(dance)
    by_bars = {f"{p.first}" if p.first == p.last else f"{p.first}\u2013{p.last}": p for p in dance.passages}
    for one in dance.passages:
        words = said.get((one.first, one.last), "drawn")
        if words != "drawn":
            before = by_bars[words.removesuffix(".").split()[-1]]
            assert said[before.first, before.last] == "drawn" and before.first < one.first
            assert same_floor(left(dance, one), left(dance, before))
    drawn = [one for one in dance.passages if said.get((one.first, one.last)) == "drawn"]
    for one, two in itertools.combinations(drawn, 2):
        assert not same_floor(left(dance, one), left(dance, two))


def test_a_figure_that_begins_elsewhere_or_bears_otherwise_is_drawn() -> None:
    walk = "1 LF fwd, HT; 2 RF fwd, HT; 3 LF close, TH"
    back = "1 RF fwd, HT; 2 LF fwd, HT; 3 RF close, TH"
    toes = "1 LF fwd, T; 2 RF fwd, T; 3 LF close, T"
    turns = (walk, back, walk, back, walk, back, toes, back)
    bars = [passage(steps, bars=str(n), figure=f"Walk {n}") for n, steps in enumerate(turns, 1)]
    said = under(dance_of(*bars, length=8))
    assert said[2, 2] == said[3, 3] == said[7, 7] == "drawn"
    assert said[5, 5] == "On the floor as bar 3." and said[4, 4] == said[6, 6] == "On the floor as bar 2."
