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


WHISK_GENT = "1 LF fwd, facing DW, HT\n2 RF side, facing DW, T, sway L\n3 LF cross behind, PP, facing DW, TH, sway L"
WHISK_LADY = """
1  RF back, backing DW, TH
2  LF diag back, 1/4 R, pointing DC, body turns less, T, sway R
3  RF cross behind, PP, facing DC, TH, sway R
"""
CHASSE_GENT = """
1  RF fwd, PP, CBMP, facing DW, moving LOD, HT
2  LF side, facing DW, T
&  RF close, facing DW, T
3  LF side, facing DW, TH
"""
CHASSE_LADY = """
1  LF fwd, PP, CBMP, facing DC, moving LOD, HT
2  RF side, 1/8 L, backing wall, T
&  LF close, 1/8 L, backing DW, T
3  RF side, backing DW, TH
"""
LOCK_GENT = """
S  RF fwd, facing DW, CBMP, OP, HT
Q  LF diag fwd, facing DW, T
Q  RF lock behind, facing DW, T
S  LF diag fwd, facing DW, TH
"""
LOCK_LADY = """
S  LF back, backing DW, CBMP, PO, TH
Q  RF back, backing DW, T
Q  LF lock in front, backing DW, T
S  RF diag back, backing DW, TH
"""
FEATHER_GENT = "S RF fwd, HT\nQ LF fwd, T\nQ RF fwd, CBMP, OP, TH"
THREE_STEP_GENT = "S LF fwd\nQ RF fwd\nQ LF fwd"
SPIN_GENT = "1 LF back, 1/2 R, THT\n2 RF fwd, facing LOD, HT\n3 LF side, 3/8 R, backing DC, TH"
SPIN_LADY = "1 RF fwd, 1/2 R, HT\n2 LF back, backing LOD, T\n3 RF diag fwd, 3/8 R, facing DC, TH"


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


DIFFERENT = {
    # (gent, lady, steps of hers and of his that cannot be derived, since the partners turn differently there)
    "whisk": (WHISK_GENT, WHISK_LADY, {LADY: [1], GENT: [1, 2]}),
    "chasse from promenade": (CHASSE_GENT, CHASSE_LADY, {LADY: [1, 2], GENT: [1, 2]}),
    "quickstep forward lock": (LOCK_GENT, LOCK_LADY, {LADY: [1], GENT: [1]}),
}


@pytest.mark.parametrize("name", DIFFERENT)
@pytest.mark.parametrize("part", [LADY, GENT])
def test_charts_in_which_some_steps_do_not_follow(name: str, part: str) -> None:
    """Wikipedia 'Whisk', 'Chasse (waltz)'; dancecentral.info and ballroomdancers.com, forward lock (PO beside her CBMP
    is ours). All steps but those named are the chart's; foot, count and footwork are on every one."""
    gent, lady, own = DIFFERENT[name]
    given_, wanted = (steps(gent), steps(lady)) if part == LADY else (steps(lady), steps(gent))
    made, printed = bare(partner_steps(given_, Derivation.OPPOSITE, part)), bare(wanted)
    assert [n for n, pair in enumerate(zip(made, printed, strict=True)) if pair[0] != pair[1]] == own[part]
    assert [(s.foot, s.count, s.footwork) for s in made] == [(s.foot, s.count, s.footwork) for s in printed]


def test_feather_and_three_step_of_the_lady() -> None:
    """Feather: man RF LF RF, the third outside partner (Wikipedia, 'Feather'); three step: man L R L (princetonballroom
    wiki), the lady back R L R, by the rule."""
    feather = partner_steps(steps(FEATHER_GENT), Derivation.OPPOSITE, LADY)
    assert [(s.foot, s.action) for s in feather] == [(f, Action.BACK) for f in (Foot.LEFT, Foot.RIGHT, Foot.LEFT)]
    assert feather[2].body == (Body.CBMP, Body.PO) and feather[0].footwork is not None
    assert bare(partner_steps(feather, Derivation.OPPOSITE, GENT))[2].body == bare(steps(FEATHER_GENT))[2].body
    three = partner_steps(steps(THREE_STEP_GENT), Derivation.OPPOSITE, LADY)
    assert [(s.foot, s.action) for s in three] == [(f, Action.BACK) for f in (Foot.RIGHT, Foot.LEFT, Foot.RIGHT)]


def test_spin_turn_of_either_from_the_other() -> None:
    """magicdanceworld.com, natural spin turn, steps 4 to 6: feet, turn and alignments; his 5th and her 6th step brush
    and go diagonally, which no derivation gives."""
    for given_, wanted, part in ((SPIN_GENT, SPIN_LADY, LADY), (SPIN_LADY, SPIN_GENT, GENT)):
        made, printed = partner_steps(steps(given_), Derivation.OPPOSITE, part), steps(wanted)
        assert [s.foot for s in made] == [s.foot for s in printed]
        assert [s.turn for s in made] == [s.turn for s in printed]
        assert [s.alignment and s.alignment.toward for s in made] == [
            s.alignment and s.alignment.toward for s in printed
        ]
        assert made[0].footwork is printed[0].footwork


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
