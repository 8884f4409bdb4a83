"""One part out of the other: the published waltz charts for both partners, and laws.

The charts and their sources stand in charts.py.
"""
from dataclasses import replace

import charts
import pytest
from hypothesis import given
from hypothesis import strategies as st
from worked import EXAMPLES, steps

from notation.dance.feet import Foot, TurnOut
from notation.dance.mark import NOWHERE
from notation.dance.partner import mirrored, partner_steps
from notation.dance.room import Alignment, Mode, Room, Side, Turn
from notation.dance.script import GENT, LADY, Derivation
from notation.dance.step import TAKES_WEIGHT, Action, Body, HeadLine, Step
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge

CHARTS = {
    "natural turn": (charts.NATURAL_GENT, charts.NATURAL_LADY),
    "reverse turn": (charts.REVERSE_GENT, charts.REVERSE_LADY),
    "RF closed change": (charts.RF_CHANGE_GENT, charts.RF_CHANGE_LADY),
    "LF closed change": (charts.LF_CHANGE_GENT, charts.LF_CHANGE_LADY),
}


def bare(made: tuple[Step, ...]) -> list[Step]:
    """Steps without where they were written, what is said of the body in a fixed order."""
    return [
        replace(s, mark=NOWHERE, marks=(), count=replace(s.count, mark=NOWHERE), body=tuple(sorted(s.body, key=str)))
        for s in made
    ]


@pytest.mark.parametrize("name", CHARTS)
def test_lady_from_gent_is_the_published_chart(name: str) -> None:
    gent, lady = CHARTS[name]
    assert bare(partner_steps(gent, Derivation.OPPOSITE, LADY)) == bare(lady)


@pytest.mark.parametrize("name", CHARTS)
def test_gent_from_lady_is_the_published_chart(name: str) -> None:
    gent, lady = CHARTS[name]
    assert bare(partner_steps(lady, Derivation.OPPOSITE, GENT)) == bare(gent)


@pytest.mark.parametrize("name", CHARTS)
def test_opposite_twice_is_the_same(name: str) -> None:
    gent, _ = CHARTS[name]
    lady = partner_steps(gent, Derivation.OPPOSITE, LADY)
    assert bare(partner_steps(lady, Derivation.OPPOSITE, GENT)) == bare(gent)


def test_reverse_turn_is_the_mirror_of_the_natural_turn() -> None:
    """The two charts are each other's mirror (same sources)."""
    assert bare(tuple(map(mirrored, charts.NATURAL_GENT))) == bare(charts.REVERSE_GENT)
    assert bare(tuple(map(mirrored, charts.NATURAL_LADY))) == bare(charts.REVERSE_LADY)


def ends(made: tuple[Step, ...]) -> list[tuple[str, str, str | None]]:
    """Foot, action and front or rear of steps."""
    return [(s.foot.value if s.foot else "", s.action.value, s.place.end.value if s.place and s.place.end else None)
            for s in made]


def opposed(text: str) -> list[tuple[str, str, str | None]]:
    return ends(partner_steps(steps(text), Derivation.OPPOSITE, LADY, TurnOut.TURNED_OUT))


def test_facing_partners_both_close_in_front_in_a_pas_de_basque() -> None:
    """The foot sweeps to 2nd and the other closes in front, for either partner: common practice, no source."""
    assert opposed("1 LF side 2nd\n2 RF close 5th front\n3 LF in place 5th rear") == [
        ("RF", "side", None), ("LF", "close", "front"), ("RF", "in-place", "rear"),
    ]


def test_who_goes_back_closes_in_front_where_the_other_closes_behind() -> None:
    """Old-time waltz turn: forward, to the side, close in front; back, close behind (pedagorg.dreamhosters.com,
    dancex.htm). A balance forward closes behind, one back in front: common practice, no source."""
    assert opposed("1 LF fwd\n2 RF side 2nd\n3 LF close 5th front")[2] == ("RF", "close", "rear")
    assert opposed("1 LF fwd\n2 RF touch 3rd rear\n1 RF back\n2 LF touch 3rd front") == [
        ("RF", "back", None), ("LF", "touch", "front"), ("LF", "forward", None), ("RF", "touch", "rear"),
    ]


def test_outside_partner_is_partner_outside_for_who_goes_back() -> None:
    """The two abbreviations of the trade: OP and PO."""
    (lady,) = partner_steps(steps("1 RF fwd, OP"), Derivation.OPPOSITE, LADY)
    assert lady.body == (Body.PO,)
    assert partner_steps((lady,), Derivation.OPPOSITE, GENT)[0].body == (Body.OP,)


def test_same_is_identical() -> None:
    gent = charts.NATURAL_GENT
    assert partner_steps(gent, Derivation.SAME, LADY) == gent


def test_mirror_side_by_side() -> None:
    """Pas de valse: the lady's head keeps her diagonal to the wall when his keeps that to the centre
    (common practice, no source)."""
    gent = steps("1  LF fwd, facing DC, 1/8 L, sway L, head DC")
    lady = steps("1  RF fwd, facing DW, 1/8 R, sway R, head DW")
    assert bare(partner_steps(gent, Derivation.MIRROR, LADY, TurnOut.TURNED_OUT)) == bare(lady)


ALIGNED = st.none() | st.builds(Alignment, st.sampled_from(Mode), st.sampled_from(Room))
STEP = st.builds(
    Step,
    count=st.just(steps("1 LF fwd")[0].count),
    action=st.sampled_from(sorted(TAKES_WEIGHT, key=str) + [Action.POINT, Action.TOUCH]),
    foot=st.sampled_from(Foot),
    alignment=ALIGNED,
    travel=st.none() | st.sampled_from(Room),
    turn=st.none() | st.builds(Turn, st.integers(-8, 8)),
    sway=st.none() | st.sampled_from(Side),
)


@given(STEP)
def test_mirror_twice_is_the_identity(step: Step) -> None:
    assert mirrored(mirrored(step)) == step


def test_a_head_line_said_for_the_gent_gives_that_of_a_derived_lady() -> None:
    """Pas de valse side by side: gent DC, lady DW (common practice, no source)."""
    text = (EXAMPLES / "lantern-quay-waltz.yaml").read_text()
    reading = read_dance(text.replace("{gent: DC, lady: DW}", "{gent: DC}").encode(), "d", load_knowledge())
    assert reading.dance is not None
    assert work_out(reading.dance, load_knowledge()).passages[0].head.lady == HeadLine(room=Room.DW)
