"""One part out of the other's against published charts, and the laws of mirroring."""
from __future__ import annotations

from dataclasses import replace

import charts
import pytest
from building import align, lines
from hypothesis import given
from hypothesis import strategies as st

from notation.dance.feet import End, Foot, Fourth, Place, TurnOut
from notation.dance.mark import NOWHERE
from notation.dance.metre import Count
from notation.dance.partner import mirrored, partner_steps
from notation.dance.room import Alignment, Mode, Room, Side, Turn
from notation.dance.script import Derivation
from notation.dance.step import Action, Body, Footwork, HeadLine, Step

PAIRS = [
    ("natural turn", charts.NATURAL_GENT, charts.NATURAL_LADY),
    ("reverse turn", charts.REVERSE_GENT, charts.REVERSE_LADY),
    ("closed change on RF", charts.RF_CHANGE_GENT, charts.RF_CHANGE_LADY),
    ("closed change on LF", charts.LF_CHANGE_GENT, charts.LF_CHANGE_LADY),
]


def unmarked(steps: tuple[Step, ...]) -> list[Step]:
    return [replace(step, mark=NOWHERE, marks=()) for step in steps]


@pytest.mark.parametrize(("gent", "lady"), [p[1:] for p in PAIRS], ids=[p[0] for p in PAIRS])
def test_the_lady_from_the_gent_is_the_published_chart(gent: tuple[Step, ...], lady: tuple[Step, ...]) -> None:
    """Footwork, foot rise, alignment, turn, 'body turns less' and sway: sources in charts.py."""
    assert unmarked(partner_steps(gent, Derivation.OPPOSITE, "lady")) == unmarked(lady)


@pytest.mark.parametrize(("gent", "lady"), [p[1:] for p in PAIRS], ids=[p[0] for p in PAIRS])
def test_the_gent_from_the_lady_is_the_published_chart(gent: tuple[Step, ...], lady: tuple[Step, ...]) -> None:
    """The same charts the other way."""
    assert unmarked(partner_steps(lady, Derivation.OPPOSITE, "gent")) == unmarked(gent)


def test_the_quickstep_lock_step_is_the_published_chart_but_for_one_direction() -> None:
    """dancecentral.info and ballroomdancers.com: her second step is back where his is diagonally forward. The derived
    step also says partner outside, which the chart leaves to his 'outside partner'."""
    lady = list(unmarked(partner_steps(charts.LOCK_GENT, Derivation.OPPOSITE, "lady")))
    assert lady[0].body == (Body.CBMP, Body.PO)
    lady[0] = replace(lady[0], body=(Body.CBMP,))
    printed = unmarked(charts.LOCK_LADY)
    assert [replace(lady[1], action=Action.BACK)] == printed[1:2]
    assert [lady[0], *lady[2:]] == [printed[0], *printed[2:]]


def test_promenade_goes_forward_a_quarter_apart() -> None:
    """Third step of the whisk and first of the chasse from promenade: Wikipedia 'Whisk', 'Chasse (waltz)'."""
    whisk = replace(step("3 LF cross-behind"), alignment=align("F DW"), body=(Body.PP,), footwork=Footwork.TH)
    across = replace(step("1 RF forward"), alignment=align("F DW"), body=(Body.PP, Body.CBMP), footwork=Footwork.HT)
    lady = partner_steps((whisk, across), Derivation.OPPOSITE, "lady")
    assert [(s.foot, s.action, s.alignment, s.footwork) for s in lady] == [
        (Foot.RIGHT, Action.CROSS_BEHIND, align("F DC"), Footwork.TH),
        (Foot.LEFT, Action.FORWARD, align("F DC"), Footwork.HT),
    ]


def test_feather_finish_lady_goes_outside_the_turn() -> None:
    """His second step points DC, 2/8 L, body less (dancecentral.info, 'Feather Finish'): hers by the rule."""
    finish = charts.chart("""
    1 RF back | B DCA | begin L | TH |
    2 LF side | P DC | 2 L | T | body-turns-less
    3 RF forward | F DC | | TH | cbmp op
    """)
    lady = partner_steps(finish, Derivation.OPPOSITE, "lady")
    assert [(s.alignment, s.turn) for s in lady[1:]] == [(align("B LOD"), Turn(1)), (align("B DC"), Turn(1))]


def test_a_spin_turn_pivot_is_toe_heel_toe_for_who_goes_back() -> None:
    """Natural spin turn, step 4: lady RF forward HT with 4/8 to R, man THT (magicdanceworld.com)."""
    lady = replace(step("1 RF forward"), turn=Turn(-4), footwork=Footwork.HT)
    (gent,) = partner_steps((lady,), Derivation.OPPOSITE, "gent")
    assert (gent.action, gent.footwork) == (Action.BACK, Footwork.THT)


def test_turned_out_turns_have_no_body_turns_less() -> None:
    """In the turned-out style the feet stand by their turn-out, not pointed: common practice, no source."""
    lady = partner_steps(charts.NATURAL_GENT[:3], Derivation.OPPOSITE, "lady", TurnOut.TURNED_OUT)
    assert [s.alignment for s in lady] == [align("B DW"), align("F DC"), align("F LOD")]
    assert not any(Body.TURNS_LESS in s.body for s in lady)


def test_mirror_keeps_travel_and_exchanges_sides() -> None:
    given_ = replace(
        step("1 LF forward"), alignment=align("F DW"), travel=Room.LOD, turn=Turn(-1), head=HeadLine(room=Room.DC),
        place=Place(3, End.FRONT), joins=Foot.RIGHT,
    )
    made = mirrored(given_)
    assert (made.foot, made.action, made.travel) == (Foot.RIGHT, Action.FORWARD, Room.LOD)
    assert made.alignment == align("F DC")
    assert (made.turn, made.head, made.place) == (Turn(1), HeadLine(room=Room.DW), Place(3, End.FRONT))
    assert made.joins is Foot.LEFT


def test_opposite_head_looks_the_same_way_along_the_room() -> None:
    """Partners who face each other and both look along the line of dance: common practice, no source."""
    (made,) = partner_steps((replace(step("1 LF side"), head=HeadLine(side=Side.LEFT)),), Derivation.OPPOSITE, "lady")
    assert made.head == HeadLine(side=Side.RIGHT)


def test_same_is_identical() -> None:
    assert partner_steps(charts.NATURAL_GENT, Derivation.SAME, "lady") == charts.NATURAL_GENT


def step(text: str) -> Step:
    (made,) = lines(text)
    assert isinstance(made, Step)
    return made


ALIGNMENTS = st.builds(Alignment, st.sampled_from(Mode), st.sampled_from(Room))
HEADS = st.one_of(
    st.builds(HeadLine, side=st.sampled_from(Side)), st.builds(HeadLine, room=st.sampled_from(Room)),
    st.builds(HeadLine, over=st.sampled_from([Foot.LEFT, Foot.RIGHT])), st.just(HeadLine(words="forward")),
)
PLACES = st.builds(Place, st.integers(1, 5), st.none() | st.sampled_from(End), st.none() | st.just(Fourth.OPEN))
STEPS = st.builds(
    Step, count=st.just(Count("1", 1)), action=st.sampled_from(Action), foot=st.sampled_from(Foot),
    weight=st.booleans(), place=st.none() | PLACES,
    alignment=st.none() | ALIGNMENTS, travel=st.none() | st.sampled_from(Room),
    turn=st.none() | st.builds(Turn, st.integers(-8, 8)), sway=st.none() | st.sampled_from(Side),
    head=st.none() | HEADS, joins=st.none() | st.sampled_from(Foot),
    body=st.lists(st.sampled_from([b for b in Body if "body" not in b.value]), unique=True, max_size=1).map(tuple),
)


@given(st.lists(STEPS, max_size=6).map(tuple))
def test_mirror_twice_is_the_identity(steps: tuple[Step, ...]) -> None:
    once = partner_steps(steps, Derivation.MIRROR, "lady")
    assert partner_steps(once, Derivation.MIRROR, "gent") == steps


@given(st.lists(STEPS, max_size=8).map(tuple))
def test_opposite_twice_is_the_identity(steps: tuple[Step, ...]) -> None:
    """Footwork is left out: a forward step on the toe lowering has no single counterpart."""
    once = partner_steps(steps, Derivation.OPPOSITE, "lady")
    twice = partner_steps(once, Derivation.OPPOSITE, "gent")
    assert [plain(s) for s in twice] == [plain(s) for s in steps]


def plain(step: Step) -> Step:
    """No turn and a turn of nothing said alike; the order of body remarks does not matter."""
    return replace(step, turn=step.turn if step.turn and (step.turn.eighths or step.turn.commence) else None)
