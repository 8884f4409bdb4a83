"""One part out of the other: the published waltz charts for both partners, and laws.

Charts: Wikipedia, "Natural and reverse turns" and "Change step"; magicdanceworld.com, reverse turn and natural spin
turn; Alex Moore, Ballroom Dancing, 10th ed. 2002 (natural turn, the man, and the second step of the lady); study cards
freezingblue.com 258609 (closed changes). Steps 4-6 of her natural turn mirror those of her reverse turn, by arithmetic.
"""
from dataclasses import replace

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

NATURAL_GENT = """
1  RF fwd, facing DW, commence to turn R, CBM, HT
2  LF side, 1/4 R, backing DC, T, sway R
3  RF close, 1/8 R, backing LOD, TH, sway R
1  LF back, backing LOD, commence to turn R, CBM, TH, no foot rise
2  RF side, 3/8 R, pointing DC, body turns less, T, sway L
3  LF close, body completes turn, facing DC, TH, sway L
"""
NATURAL_LADY = """
1  LF back, backing DW, commence to turn R, CBM, TH, no foot rise
2  RF side, 3/8 R, pointing LOD, body turns less, T, sway L
3  LF close, body completes turn, facing LOD, TH, sway L
1  RF fwd, facing LOD, commence to turn R, CBM, HT
2  LF side, 1/4 R, backing centre, T, sway R
3  RF close, 1/8 R, backing DC, TH, sway R
"""
REVERSE_GENT = """
1  LF fwd, facing DC, commence to turn L, CBM, HT
2  RF side, 1/4 L, backing DW, T, sway L
3  LF close, 1/8 L, backing LOD, TH, sway L
1  RF back, backing LOD, commence to turn L, CBM, TH, no foot rise
2  LF side, 3/8 L, pointing DW, body turns less, T, sway R
3  RF close, body completes turn, facing DW, TH, sway R
"""
REVERSE_LADY = """
1  RF back, backing DC, commence to turn L, CBM, TH, no foot rise
2  LF side, 3/8 L, pointing LOD, body turns less, T, sway R
3  RF close, body completes turn, facing LOD, TH, sway R
1  LF fwd, facing LOD, commence to turn L, CBM, HT
2  RF side, 1/4 L, backing wall, T, sway L
3  LF close, 1/8 L, backing DW, TH, sway L
"""
RF_CHANGE_GENT = """
1  RF fwd, facing DC, HT
2  LF side, facing DC, T
3  RF close, facing DC, TH
"""
RF_CHANGE_LADY = """
1  LF back, backing DC, TH
2  RF side, backing DC, T
3  LF close, backing DC, TH
"""
LF_CHANGE_GENT = """
1  LF fwd, facing DW, HT
2  RF side, facing DW, T
3  LF close, facing DW, TH
"""
LF_CHANGE_LADY = """
1  RF back, backing DW, TH
2  LF side, backing DW, T
3  RF close, backing DW, TH
"""
CHARTS = {
    "natural turn": (NATURAL_GENT, NATURAL_LADY),
    "reverse turn": (REVERSE_GENT, REVERSE_LADY),
    "RF closed change": (RF_CHANGE_GENT, RF_CHANGE_LADY),
    "LF closed change": (LF_CHANGE_GENT, LF_CHANGE_LADY),
}


def bare(made: tuple[Step, ...]) -> list[Step]:
    """Steps without where they were written, what is said of the body in a fixed order."""
    return [
        replace(s, mark=NOWHERE, marks=(), count=replace(s.count, mark=NOWHERE), body=tuple(sorted(s.body, key=str)))
        for s in made
    ]


@pytest.mark.parametrize("name", CHARTS)
def test_lady_from_gent_is_the_published_chart(name: str) -> None:
    gent, lady = map(steps, CHARTS[name])
    assert bare(partner_steps(gent, Derivation.OPPOSITE, LADY)) == bare(lady)


@pytest.mark.parametrize("name", CHARTS)
def test_gent_from_lady_is_the_published_chart(name: str) -> None:
    gent, lady = map(steps, CHARTS[name])
    assert bare(partner_steps(lady, Derivation.OPPOSITE, GENT)) == bare(gent)


@pytest.mark.parametrize("name", CHARTS)
def test_opposite_twice_is_the_same(name: str) -> None:
    gent = steps(CHARTS[name][0])
    lady = partner_steps(gent, Derivation.OPPOSITE, LADY)
    assert bare(partner_steps(lady, Derivation.OPPOSITE, GENT)) == bare(gent)


def test_reverse_turn_is_the_mirror_of_the_natural_turn() -> None:
    """The two charts are each other's mirror (same sources)."""
    assert bare(tuple(map(mirrored, steps(NATURAL_GENT)))) == bare(steps(REVERSE_GENT))
    assert bare(tuple(map(mirrored, steps(NATURAL_LADY)))) == bare(steps(REVERSE_LADY))


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
    gent = steps(NATURAL_GENT)
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
