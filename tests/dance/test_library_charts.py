"""Figures of the library against published charts, step by step for both partners, and the turned-out set.

Sources of the charts stand beside them here and in charts.py.
"""
from __future__ import annotations

from fractions import Fraction

import charts
import pytest
from charts import chart

from notation.dance.call import Wanted
from notation.dance.calling import piece_of
from notation.dance.feet import Aerial, End, Foot, Place
from notation.dance.figure import Figure
from notation.dance.mark import NOWHERE, Said
from notation.dance.partner import mirrored
from notation.dance.room import Room, Side
from notation.dance.script import GENT, LADY, Call, Danced
from notation.dance.step import Action, Body, Footwork, HeadLine, Rise, Step
from notation.dance.turning import align
from notation.reading.figures import FOLDER, load_figure

H, Q = Fraction(1, 2), Fraction(1, 4)

WHISK_GENT = chart("""
1 LF forward | F DW | | HT |
2 RF side | F DW | | T | sway-L
3 LF cross-behind | F DW | | TH | pp sway-L
""")
"""Wikipedia, Whisk; sway of the man to L."""
WHISK_LADY = chart("""
1 RF back | B DW | | TH |
2 LF diagonally-back | P DC | 2 R | T | body-turns-less sway-R
3 RF cross-behind | F DC | | TH | pp body-completes-turn sway-R
""")
"""Wikipedia, Whisk; her sway is the opposite of his."""
CHASSE_GENT = chart("""
1 RF forward | F DW | | HT | pp cbmp
2 LF side | F DW | | T |
& RF close | F DW | | T |
3 LF side | F DW | | TH |
""")
CHASSE_LADY = chart("""
1 LF forward | F DC | | HT | pp
2 RF side | B WALL | 1 L | T |
& LF close | B DW | 1 L | T |
3 RF side | B DW | | TH |
""")
"""Wikipedia, Chasse (waltz)."""
SPIN_GENT = chart("""
2 RF forward | F LOD | | HT |
3 LF side | B DC | 3 R | TH |
""")
SPIN_LADY = chart("""
2 LF back | B LOD | | T |
3 RF diagonally-forward | F DC | 3 R | TH |
""")
"""magicdanceworld.com, natural spin turn, steps 5 and 6; step 4 is told apart below: a pivot's alignment is
its end."""
IMPETUS_GENT = chart("""
S LF back | B LOD | begin R | TH |
Q RF close | F DC | 3 R | HT |
Q LF side | B DCA | 2 R | TH |
""")
FEATHER_FINISH_GENT = chart("""
S RF back | B DCA | begin L | THT |
Q LF side | P DC | 2 L | T | body-turns-less
Q RF forward | F DC | | TH | cbmp op body-completes-turn
""")
"""dancecentral.info, closed impetus and feather finish (man)."""

CHARTS = [
    ("natural-turn-waltz", GENT, charts.NATURAL_GENT), ("natural-turn-waltz", LADY, charts.NATURAL_LADY),
    ("reverse-turn-waltz", GENT, charts.REVERSE_GENT), ("reverse-turn-waltz", LADY, charts.REVERSE_LADY),
    ("rf-closed-change", GENT, charts.RF_CHANGE_GENT), ("rf-closed-change", LADY, charts.RF_CHANGE_LADY),
    ("lf-closed-change", GENT, charts.LF_CHANGE_GENT), ("lf-closed-change", LADY, charts.LF_CHANGE_LADY),
    ("forward-lock", GENT, charts.LOCK_GENT), ("back-lock", LADY, charts.LOCK_GENT),
    ("whisk", GENT, WHISK_GENT), ("whisk", LADY, WHISK_LADY),
    ("chasse-from-promenade", GENT, CHASSE_GENT), ("chasse-from-promenade", LADY, CHASSE_LADY),
]
COMPARED = ("foot", "action", "alignment", "turn", "footwork", "sway")


def figure(name: str) -> Figure:
    return load_figure(FOLDER / f"{name}.yaml")


def danced(name: str, part: str = GENT, **more: object) -> tuple[Danced, ...]:
    of = figure(name)
    return piece_of(Wanted(of, Call(Said(of.name), (), NOWHERE), **more), part).steps  # type: ignore[arg-type]


def steps(name: str, part: str = GENT) -> list[Step]:
    return [one.step for one in danced(name, part)]


def said(step: Step) -> dict[str, object]:
    """What a chart says of a step; rise and CBM of steps 4 and on are compared where it prints them."""
    return {field: getattr(step, field) for field in COMPARED} | {
        "count": step.count.text,
        "body": {body for body in step.body},
        "rise": {rise for rise in step.rise if rise is Rise.NO_FOOT_RISE},
    }


@pytest.mark.parametrize(("name", "part", "of"), CHARTS, ids=lambda value: value if isinstance(value, str) else "")
def test_figure_equals_its_chart(name: str, part: str, of: tuple[Step, ...]) -> None:
    assert [said(step) for step in steps(name, part)] == [said(step) for step in of]


def test_lady_of_the_forward_lock() -> None:
    """dancecentral.info and ballroomdancers.com: LF back in CBMP, RF back (not diagonally), LF in front, RF
    diag back."""
    back = charts.LOCK_LADY[1]
    expected = [said(step) for step in charts.LOCK_LADY]
    expected[1] = said(back) | {"action": Action.BACK}
    assert [said(step) for step in steps("forward-lock", LADY)] == expected
    assert [said(step) for step in steps("back-lock", GENT)] == expected


@pytest.mark.parametrize(
    ("part", "first", "rest"),
    [(GENT, charts.NATURAL_GENT[:3], SPIN_GENT), (LADY, charts.NATURAL_LADY[:3], SPIN_LADY)],
)
def test_spin_turn(part: str, first: tuple[Step, ...], rest: tuple[Step, ...]) -> None:
    """1-3 as the natural turn, then a pivot of 4/8, 5 and 6 as printed (magicdanceworld.com); CBMP of 5 is no
    chart's."""
    found = steps("natural-spin-turn", part)
    assert [said(step) for step in found[:3]] == [said(step) for step in first]
    assert [said(s) | {"body": set()} for s in found[4:]] == [said(s) for s in rest]
    pivot = found[3]
    assert pivot.turn is not None and pivot.turn.eighths == -4
    expected = (Foot.LEFT, Action.BACK, Footwork.THT) if part == GENT else (Foot.RIGHT, Action.FORWARD, Footwork.HT)
    assert (pivot.foot, pivot.action, pivot.footwork) == expected
    of = figure("natural-spin-turn").part(part)
    before = align(danced("natural-spin-turn", part), of.start)[2].feet
    assert before is (Room.ALOD if part == GENT else Room.LOD)


@pytest.mark.parametrize(("name", "of"), [("closed-impetus", IMPETUS_GENT), ("feather-finish",
FEATHER_FINISH_GENT)])
def test_impetus_and_feather_finish(name: str, of: tuple[Step, ...]) -> None:
    """The chart prints no CBM; the library's is said to be from memory."""
    found = [said(step) for step in steps(name)]
    assert [one | {"body": one["body"] - {Body.CBM}} for one in found] == [said(step) for step in of]  # type: ignore[operator]


def test_impetus_leads_into_the_feather_finish() -> None:
    """dancecentral.info: six steps SQQ SQQ, the end of one the beginning of the other."""
    first, second = figure("closed-impetus"), figure("feather-finish")
    for part in (GENT, LADY):
        end = align(danced("closed-impetus", part), first.part(part).start)[-1].feet
        start = second.part(part).start
        assert start.alignment is not None and end is start.alignment.toward
        assert start.foot is first.part(part).free


def test_feather_and_three_step() -> None:
    """Wikipedia, Feather: RF first, third step outside partner; footwork HT T TH: ballroomdancers.com thread.
    Three step:
    always the man's LF first (princetonballroom wiki, Feather Step). SQQ = 2 1 1: study cards freezingblue.com
    275670."""
    feather, three = steps("feather-step"), steps("three-step")
    assert [s.foot for s in feather] == [Foot.RIGHT, Foot.LEFT, Foot.RIGHT]
    assert [s.footwork for s in feather] == [Footwork.HT, Footwork.T, Footwork.TH]
    assert {Body.CBMP, Body.OP} <= set(feather[2].body)
    assert [s.foot for s in three] == [Foot.LEFT, Foot.RIGHT, Foot.LEFT]
    assert {s.action for s in feather + three} == {Action.FORWARD}
    assert [s.foot for s in steps("three-step", LADY)] == [Foot.RIGHT, Foot.LEFT, Foot.RIGHT]
    assert {s.action for s in steps("three-step", LADY)} == {Action.BACK}
    for name in ("feather-step", "three-step"):
        assert [one.lasts for one in danced(name)] == [2, 1, 1]


@pytest.mark.parametrize(
    ("name", "lasts"),
    [
        ("chasse-from-promenade", [1, H, H, 1]),
        ("forward-lock", [2, 1, 1, 2]),
        ("progressive-chasse", [2, 1, 1, 2]),
        ("cha-cha-chasse", [H, H, 1]),
        ("cha-cha-basic", [1, 1, H, H, 1, 1, 1, H, H, 1]),
        ("rumba-box", [2, 1, 1, 2, 1, 1]),
        ("jive-chasse", [3 * Q, Q, 1]),
        ("samba-whisk", [3 * Q, Q, 1]),
        ("pas-de-basque-six-eight", [2, 1, 3]),
        ("slow-turning-two-step", [2, 1, 3, 2, 1, 3]),
        ("canter", [2, 1]),
    ],
)
def test_timing(name: str, lasts: list[Fraction]) -> None:
    """Waltz chasse and locks: study cards freezingblue.com 258609, 275670; cha-cha: 125675; box:
    latinamericandances.com;
    'a' takes the last quarter of a beat: Roundalab/URDC Common Glossary 2001; pas de basque in quavers:
    Society of Folk
    Dance Historians 1987; Lamb's two-step 12-3-456: kickery.com; canter: Lloyd Shaw cue sheets."""
    assert [one.lasts for one in danced(name)] == lasts


def test_spot_turn() -> None:
    """aidadance.org syllabus, long-steps.com, dancecentral.info: 1/4, 1/2, 1/4, the man to L and the lady to R."""
    for name in ("spot-turn-rumba", "spot-turn-cha-cha"):
        assert [s.turn.eighths for s in steps(name)[:3] if s.turn] == [2, 4, 2]
        assert [mirrored(s).turn.eighths for s in steps(name)[:3] if s.turn] == [-2, -4, -2]  # type: ignore[union-attr]


def test_half_a_turn_to_every_bar_or_two() -> None:
    """Polka: Routledge's Manual of Etiquette, Cellarius 1858; two-step: kickery.com; step-hops: Gilbert 1890,
    half each."""
    for name, bars in (("turning-polka", 1), ("turning-two-step", 1), ("slow-turning-two-step", 2)):
        turns = [(one.bar, one.step.turn.eighths) for one in danced(name) if one.step.turn]
        for first in range(1, int(figure(name).bars), bars):
            assert sum(e for bar, e in turns if first <= bar < first + bars) == -4
    assert [s.turn.eighths for s in steps("step-hops") if s.turn] == [-4, -4]


# The turned-out set: common practice, no source; each value is one of the style's rules of thumb.


def feet_and_places(name: str) -> list[tuple[Foot | None, Action, int | None, End | None]]:
    return [
        (s.foot, s.action, s.place.position if s.place else None, s.place.end if s.place else None)
        for s in steps(name)
    ]


def test_pas_de_basque() -> None:
    """Side to 2nd, the other closes to 5th in front, in place; three changes of weight; up, toe, heel; the
    head to the side
    away from the sweeping foot (RF: L, LF: R). Common practice, no source."""
    assert feet_and_places("pas-de-basque") == [
        (Foot.LEFT, Action.SIDE, 2, None), (Foot.RIGHT, Action.CLOSE, 5, End.FRONT),
        (Foot.LEFT, Action.IN_PLACE, None, None),
    ]
    of = figure("pas-de-basque")
    assert of.either and of.gent.free is Foot.RIGHT and of.gent.turn == 0
    assert of.gent.head == HeadLine(side=Side.RIGHT)
    call = Wanted(of, Call(Said(of.name), (), NOWHERE))
    assert piece_of(call, GENT).mirrored.head == HeadLine(side=Side.LEFT)
    assert [s.rise for s in steps("pas-de-basque")] == [(Rise.RISE,), (Rise.UP,), (Rise.LOWER,)]


def test_pas_de_valse() -> None:
    """Forward along LOD, forward past the other foot on the toe, close to 3rd rear; the head keeps the
    dancer's own diagonal:
    gent DC, lady DW, on either foot. Start LF in front and body DW (lady RF, DC). Common practice, no source."""
    assert feet_and_places("pas-de-valse") == [
        (Foot.LEFT, Action.FORWARD, None, None), (Foot.RIGHT, Action.FORWARD, None, None),
        (Foot.LEFT, Action.CLOSE, 3, End.REAR),
    ]
    of = figure("pas-de-valse")
    assert of.gent.free is Foot.RIGHT and of.gent.head == HeadLine(room=Room.DC)
    assert of.lady_head == HeadLine(room=Room.DW)
    call = Wanted(of, Call(Said(of.name), (), NOWHERE))
    assert piece_of(call, GENT).mirrored.head == HeadLine(room=Room.DC)
    assert steps("pas-de-valse")[1].footwork is Footwork.T and steps("pas-de-valse")[1].passes is Foot.LEFT
    assert of.gent.start.alignment is not None and of.gent.start.alignment.room is Room.DW


def test_turned_out_natural_turn() -> None:
    """Two bars, six steps, RF free before and after; forward half 4/8 and backward half 4/8 to R; feet and
    places by step;
    step 2 goes to DW on the toe, 5 is 5th rear; faces LOD, ALOD, LOD. Common practice, no source."""
    assert feet_and_places("natural-turn") == [
        (Foot.RIGHT, Action.FORWARD, None, None),
        (Foot.LEFT, Action.FORWARD, None, None),
        (Foot.RIGHT, Action.CLOSE, 5, End.FRONT),
        (Foot.LEFT, Action.BACK, None, None),
        (Foot.RIGHT, Action.CLOSE, 5, End.REAR),
        (Foot.LEFT, Action.IN_PLACE, None, None),
    ]
    of = figure("natural-turn")
    aligned = align(danced("natural-turn"), of.gent.start)
    assert sum(one.eighths for one in aligned[:3]) == -4 == sum(one.eighths for one in aligned[3:])
    assert (aligned[0].feet, aligned[2].feet, aligned[5].feet) == (Room.LOD, Room.ALOD, Room.LOD)
    assert of.gent.start.foot is Foot.RIGHT is of.gent.free
    assert steps("natural-turn")[1].travel is Room.DW and steps("natural-turn")[1].footwork is Footwork.T
    assert steps("natural-turn")[3].footwork is Footwork.IE


def test_turned_out_reverse_turn_is_the_mirror_image() -> None:
    """LF first, DC for DW, to L. Common practice, no source."""
    natural, reverse = steps("natural-turn"), steps("reverse-turn")
    fields = ("foot", "action", "place", "turn", "alignment", "travel", "footwork", "rise", "passes")
    for one, other in zip(natural, reverse, strict=True):
        assert [getattr(mirrored(one), f) for f in fields] == [getattr(other, f) for f in fields]
    for name, knee in (("natural-turn", "centre"), ("reverse-turn", "wall")):
        assert [text for bar, count, text in figure(name).hints if (bar, count) == (2, "2")] == [
            f"The bent knee points to {knee}."
        ]


def test_turn_danced_solo_reaches_not_across() -> None:
    """Danced solo, step 4 goes straight back along LOD. Common practice, no source."""
    of = figure("natural-turn")
    solo = danced("natural-turn", variant=of.variants[0])
    assert of.variants[0].name == "solo"
    assert (solo[3].step.action, solo[3].step.travel, solo[3].step.remarks) == (Action.BACK, Room.LOD, ())
    assert [one.step for one in solo[:3]] == steps("natural-turn")[:3]


def test_turns_belong_to_waltz_time_only() -> None:
    """Not to tango or saunter. Common practice, no source."""
    for name in ("natural-turn", "reverse-turn"):
        assert "old-time waltz" in figure(name).rhythms
        assert not {"saunter", "old-time tango", "tango"} & set(figure(name).rhythms)


def test_gavotte_step() -> None:
    """Forward, close to 3rd rear turned out, forward with 1/8 turn (gent DW to LOD) or none, the other foot
    through 1st to
    4th front low aerial without weight; the head on its diagonal, then over the raised foot. Common practice,
    no source."""
    found = steps("gavotte-step")
    assert [(s.foot, s.weight) for s in found] == [
        (Foot.LEFT, True), (Foot.RIGHT, True), (Foot.LEFT, True), (Foot.RIGHT, False),
    ]
    of = figure("gavotte-step")
    aligned = align(danced("gavotte-step"), of.gent.start)
    assert [one.eighths for one in aligned] == [0, 0, 1, 0] and aligned[2].feet is Room.LOD
    last = found[3]
    assert last.place == Place(4, End.FRONT, aerial=Aerial.LOW)
    assert last.head == HeadLine(over=Foot.RIGHT)
    without = danced("gavotte-step", variant=of.variants[0])
    assert sum(one.eighths for one in align(without, of.gent.start)) == 0
