"""Turn and alignment of both partners against the published charts."""
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import Foot
from notation.dance.metre import Count
from notation.dance.room import Alignment, Mode, Room, Turn
from notation.dance.script import Danced, Stance
from notation.dance.step import Action, Step
from notation.dance.turning import Aligned, align, total
from tests.dance.worked import steps

NATURAL_MAN = ("RF", "DW", """
1 RF fwd, commence to turn R
2 LF side, 1/4 R
3 RF close, 1/8 R
1 LF back, commence to turn R
2 RF side, pointing DC, 3/8 R, body turns less
3 LF close, body completes turn""", [-45, -135, 180, 180, 45, 45], [-45, -135, 180, 180, 90, 45])
NATURAL_LADY = ("LF", "DCA", """
1 LF back, commence to turn R
2 RF side, pointing LOD, 3/8 R, body turns less
3 LF close, body completes turn
1 RF fwd, commence to turn R
2 LF side, 1/4 R
3 RF close, 1/8 R""", [135, 0, 0, 0, -90, -135], [135, 45, 0, 0, -90, -135])
REVERSE_MAN = ("LF", "DC", """
1 LF fwd, commence to turn L
2 RF side, 1/4 L
3 LF close, 1/8 L
1 RF back, commence to turn L
2 LF side, pointing DW, 3/8 L, body turns less
3 RF close, body completes turn""", [45, 135, 180, 180, -45, -45], [45, 135, 180, 180, -90, -45])
REVERSE_LADY = ("RF", "DWA", """
1 RF back, commence to turn L
2 LF side, pointing LOD, 3/8 L, body turns less
3 RF close, body completes turn
1 LF fwd, commence to turn L
2 RF side, 1/4 L
3 LF close, 1/8 L""", [-135, 0, 0, 0, 90, 135], [-135, -45, 0, 0, 90, 135])
SPIN_MAN = ("LF", "ALOD", """
1 LF back, 1/2 R, THT
2 RF fwd, HT
3 LF side, 3/8 R, TH""", [0, 0, -135], [0, 0, -135])
SPIN_LADY = ("RF", "LOD", """
1 RF fwd, 1/2 R
2 LF back
3 RF diag fwd, 3/8 R""", [180, 180, 45], [180, 180, 45])
WHISK_LADY = ("RF", "DCA", """
1 RF back
2 LF diag back, pointing DC, 1/4 R, body turns less
3 RF cross behind, facing DC""", [135, 45, 45], [135, 90, 45])
IMPETUS_MAN = ("LF", "ALOD", """
1 LF back
2 RF close, 3/8 R
3 LF side, 1/4 R
1 RF back
2 LF fwd, pointing DC, 1/4 L, body turns less
3 RF fwd, facing DC""", [180, 45, -45, -45, 45, 45], [180, 45, -45, -45, 0, 45])
CHASSE_LADY = ("LF", "DC", """
1 LF fwd
2 RF side, 1/8 L
& LF close, 1/8 L
3 RF side""", [45, 90, 135, 135], [45, 90, 135, 135])
WHISK_MAN = ("LF", "DW", """
1 LF fwd, HT
2 RF side, T
3 LF cross behind, PP, facing DW, TH""", [-45, -45, -45], [-45, -45, -45])
CHASSE_MAN = ("RF", "DW", """
1 RF fwd, PP, CBMP, moving LOD, HT
2 LF side, T
& RF close, T
3 LF side, TH""", [-45, -45, -45, -45], [-45, -45, -45, -45])
LOCK_MAN = ("RF", "DW", """
S RF fwd, CBMP, OP, HT
Q LF diag fwd, T
Q RF lock behind, T
S LF diag fwd, TH""", [-45, -45, -45, -45], [-45, -45, -45, -45])
LOCK_LADY = ("LF", "DCA", """
S LF back, backing DW, CBMP, TH
Q RF back, T
Q LF lock in front, T
S RF diag back, backing DW, TH""", [135, 135, 135, 135], [135, 135, 135, 135])
RF_CHANGE_MAN = ("RF", "DC", "1 RF fwd, HT\n2 LF side, T\n3 RF close, facing DC, TH", [45] * 3, [45] * 3)
RF_CHANGE_LADY = ("LF", "DWA", "1 LF back, TH\n2 RF side, T\n3 LF close, backing DC, TH", [-135] * 3, [-135] * 3)
LF_CHANGE_MAN = ("LF", "DW", "1 LF fwd, HT\n2 RF side, T\n3 LF close, facing DW, TH", [-45] * 3, [-45] * 3)
LF_CHANGE_LADY = ("RF", "DCA", "1 RF back, TH\n2 LF side, T\n3 RF close, backing DW, TH", [135] * 3, [135] * 3)
CHARTS = {
    "whisk, man": WHISK_MAN, "chasse from promenade, man": CHASSE_MAN,
    "quickstep forward lock, man": LOCK_MAN, "quickstep forward lock, lady": LOCK_LADY,
    "RF closed change, man": RF_CHANGE_MAN, "RF closed change, lady": RF_CHANGE_LADY,
    "LF closed change, man": LF_CHANGE_MAN, "LF closed change, lady": LF_CHANGE_LADY,
    "natural, man": NATURAL_MAN, "natural, lady": NATURAL_LADY, "reverse, man": REVERSE_MAN,
    "reverse, lady": REVERSE_LADY, "spin turn, man": SPIN_MAN, "spin turn, lady": SPIN_LADY,
    "whisk, lady": WHISK_LADY, "closed impetus and feather finish, man": IMPETUS_MAN,
    "chasse from promenade, lady": CHASSE_LADY,
}


def placed(made: tuple[Step, ...]) -> tuple[Danced, ...]:
    return tuple(Danced(s, 1 + n // 3, Fraction(n % 3), Fraction(1), s.count.text) for n, s in enumerate(made))


def standing(foot: str, room: str) -> Stance:
    return Stance(Foot(foot), None, Alignment(Mode.FACING, Room[room]))


@pytest.mark.parametrize("chart", CHARTS.values(), ids=CHARTS.keys())
def test_feet_and_body_are_those_of_the_chart(chart: tuple[str, str, str, list[float], list[float]]) -> None:
    """Degrees from the line of dance. Turns: Moore 2002; Wikipedia 'Natural and reverse turns', 'Whisk', 'Chasse
    (waltz)'; magicdanceworld.com natural spin turn; dancecentral.info closed impetus and quickstep forward lock (also
    ballroomdancers.com); closed changes: study cards freezingblue.com 258609. The body is an eighth less far
    round than the foot where a chart says 'body turns less'; Moore says so of the man's fifth step (points DC, body
    faces centre). The lady's natural 4-6 is the mirror of her reverse 4-6."""
    foot, room, text, feet, body = chart
    aligned = align(placed(steps(text)), standing(foot, room))
    assert [a.feet.degrees for a in aligned if a.feet] == feet
    assert [a.body.degrees for a in aligned if a.body] == body
    assert not any(a.against for a in aligned)


def test_waltz_practice_order_closes_in_six_bars() -> None:
    """Natural turn, RF change, reverse turn, LF change (Wikipedia, 'Change step'): by addition 18 changes of weight,
    -6/8 and +6/8, from RF free facing DW to the same."""
    order = (NATURAL_MAN, RF_CHANGE_MAN, REVERSE_MAN, LF_CHANGE_MAN)
    danced = placed(tuple(s for chart in order for s in steps(chart[2])))
    aligned = align(danced, standing("RF", "DW"))
    assert len(danced) == 18 and all(d.step.weight for d in danced)
    assert total(aligned) == 0 and aligned[-1].feet is Room.DW and not any(a.against for a in aligned)
    assert [a.eighths for a in aligned if a.eighths] == [-2, -1, -3, 2, 1, 3]
    assert danced[-1].step.foot is Foot.LEFT


def test_alignments_that_are_not_written_are_filled_in() -> None:
    """Moore 2002, 'Alignment': facing for forward work, backing for backward work; what is written stays."""
    aligned = align(placed(steps("1 RF fwd, 1/4 R\n2 LF back, 1/8 R\n3 RF side, pointing LOD\n1 hold")),
                    standing("RF", "LOD"))
    assert [a.alignment for a in aligned] == [
        Alignment(Mode.FACING, Room.WALL), Alignment(Mode.BACKING, Room.DC), Alignment(Mode.POINTING, Room.LOD), None,
    ]
    assert align(placed(steps("1 RF fwd")), None)[0].alignment is None


def test_a_contradicted_alignment_is_told_and_followed() -> None:
    """Common practice, no source: what is written as the end of a movement holds for what follows."""
    found = align(placed(steps("1 RF fwd, 1/4 R, facing centre\n2 LF fwd")), standing("RF", "LOD"))
    assert (found[0].against, found[0].feet, found[1].feet) == (Room.WALL, Room.CENTRE, Room.CENTRE)


def test_no_turn_contradicts_another_alignment_and_commencing_does_not() -> None:
    """Common practice, no source."""
    first, second = (
        align(placed(steps(f"1 RF fwd, facing wall, {turn}")), standing("RF", "LOD"))[0]
        for turn in ("no turn", "commence to turn R")
    )
    assert first.against is Room.LOD and second.against is None


eighths = st.lists(st.integers(-8, 8), min_size=1, max_size=12)


def turning(turns: list[int]) -> tuple[Danced, ...]:
    return placed(tuple(Step(Count("1", 1), Action.IN_PLACE, Foot.LEFT, True, turn=Turn(t)) for t in turns))


def followed(turns: list[int]) -> tuple[Aligned, ...]:
    return align(turning(turns), standing("LF", "LOD"))


@settings(max_examples=50)
@given(eighths, st.integers(0, 12))
def test_total_turn_does_not_depend_on_grouping(turns: list[int], cut: int) -> None:
    """By arithmetic."""
    whole = followed(turns)
    assert total(whole) == total(whole[:cut]) + total(whole[cut:]) == sum(turns)
    assert whole[-1].feet is Room.LOD.turned(sum(turns))


@settings(max_examples=50)
@given(eighths)
def test_mirrored_turns_end_mirrored(turns: list[int]) -> None:
    """By arithmetic: a mirror along the line of dance exchanges wall and centre."""
    there = followed([-t for t in turns])
    assert [a.feet.mirrored for a in there if a.feet] == [a.feet for a in followed(turns)]
