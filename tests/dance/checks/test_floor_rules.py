"""Rules of the floor: what they find, with which numbers, and what they leave alone.

Where nothing else is said the values are common practice, no source.
"""
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.bodies import CHEST, body, hull
from notation.dance.checks import RULES, check
from notation.dance.checks.held_twice import twice
from notation.dance.checks.rule import example, passage
from notation.dance.finding import Finding, Severity
from notation.dance.geometry import overlap
from notation.dance.script import GENT, LADY
from notation.dance.work import work_out
from notation.plane import ORIGIN, Point
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge

OUT = ("tempo: 30", "tempo: 30\nfeet: turned-out")


def found(text: str, rule: str) -> tuple[Finding, ...]:
    """The findings of that rule."""
    reading = read_dance(text.encode(), "example.yaml", load_knowledge())
    assert reading.dance is not None, reading.findings
    return tuple(f for f in check(work_out(reading.dance, load_knowledge()), load_knowledge()) if f.rule == rule)


def lines(*said: str, lady: str = "opposite", more: str = "", bars: str = "1", length: int = 1) -> str:
    return example(passage(bars, *said, lady=lady).replace("    gent", f"{more}    gent", 1), length)


def test_hands_of_every_hold_of_the_table_are_held_once() -> None:
    """A hold that needs a hand twice would be a fault of the table."""
    assert [hold.name for hold in load_knowledge().holds if twice([hold])] == []


@pytest.mark.parametrize(("hold", "hands"), [
    ("right hands and closed", {"gent's right hand", "lady's right hand"}),
    ("double and allemande", {"gent's right hand", "gent's left hand", "lady's right hand", "lady's left hand"}),
    ("open and left open", set()),
    ("double, open", set()),
])
def test_two_holds_at_once(hold: str, hands: set[str]) -> None:
    """By counting hands: right hands join R to R, closed joins L to R and R to L; open and left open together are the
    double hold."""
    said = found(lines("1 LF fwd", "2 RF side", "3 hold", more=f"    hold: {hold}\n"), "hand-held-twice")
    assert bool(said) is bool(hands) and all(hand in said[0].message for hand in hands)


def test_partners_who_say_different_holds_at_one_moment() -> None:
    text = lines("1 LF fwd, hold open", "2 RF side", "3 hold", lady="|\n      1 RF back, hold left hands\n"
                 "      2 LF side\n      3 hold")
    (one,) = found(text, "hand-held-twice")
    assert "lady's left hand" in one.message and one.bar == 1 and one.part == LADY


def test_clapping_in_a_hold() -> None:
    """A clap takes both hands; the hold said on a step lasts through the passage."""
    (one,) = {f.message for f in found(lines("1 LF fwd", "2 RF side", "3 clap"), "hand-held-twice") if f.part == GENT}
    assert "both hands are joined" in one
    assert found(lines("1 LF fwd, hold none", "2 RF side", "3 clap"), "hand-held-twice") == ()


@pytest.mark.parametrize(("lady", "more", "severity"), [
    ("mirror", "", Severity.ERROR),
    ("same", "    hold: none\n", None),
    ("mirror", "    position: facing\n    hold: double\n", None),
    ("opposite", "", None),
])
def test_a_derived_part_in_a_closed_hold(lady: str, more: str, severity: Severity | None) -> None:
    """Both forward in a closed hold cannot be danced; in a double hold there is room to come together."""
    said = found(lines("1 LF fwd", "2 RF side", "3 hold", lady=lady, more=more), "derived-part-not-in-hold")
    assert [f.severity for f in said] == ([severity] if severity else [])
    if said:
        assert said[0].suggestion == "opposite"
        assert "gent forward and the lady forward in bar 1 count 1" in said[0].message


def test_opposite_side_by_side_goes_apart() -> None:
    text = lines("1 LF fwd", "2 RF fwd", "1 LF fwd", "2 RF fwd", bars="1-2", length=2).replace(
        "  position: closed\n  hold: closed\n  gent: LF, facing LOD\n  lady: RF, backing LOD",
        "  position: side by side\n  hold: open\n  gent: LF, facing LOD\n  lady: RF, facing LOD",
    )
    (one,) = found(text, "derived-part-not-in-hold")
    assert one.suggestion == "mirror" and "did you mean 'mirror'" in one.message
    assert one.severity is Severity.WARNING, "an open hold reaches a step"
    (one,) = found(text.replace("hold: open", "hold: skaters"), "derived-part-not-in-hold")
    assert one.severity is Severity.ERROR and "they cannot" in one.message


@pytest.mark.parametrize(("place", "eighths", "told"), [
    ("3rd front", "1/8 R", False), ("3rd front", "1/4 R", True), ("5th front", "1/4 R", False),
    ("5th front", "3/8 R", True), ("5th rear", "1/2 L", True),
])
def test_swivels(place: str, eighths: str, told: bool) -> None:
    """pedagorg.dreamhosters.com, dancex.htm: an eighth from 3rd to 3rd, a quarter from 5th to 5th."""
    text = lines("1 LF side 2nd", f"2 RF in place {place}, {eighths}", "3 LF touch").replace(*OUT)
    assert bool(found(text, "swivel-too-far")) is told


@pytest.mark.parametrize(("feet", "line", "told"), [
    ("parallel", "2 RF close 3rd rear", True),
    ("parallel", "2 RF close 5th front", True),
    ("parallel", "2 RF fwd crossed 4th", True),
    ("parallel", "2 RF close 1st", False),
    ("parallel", "2 RF side, 3/8 R, pointing DC, body turns less", False),
    ("turned-out", "2 RF close 5th front", False),
    ("turned-out", "2 RF side, body turns less", True),
    ("turned-out", "2 RF fwd, CBMP", True),
])
def test_positions_of_other_feet(feet: str, line: str, told: bool) -> None:
    """3rd, 5th and crossed 4th as turned-out positions: the French manuals (about 1797, Rameau 1725). Body turns less
    and CBMP belong to the modern style: Moore 2002; Wikipedia, 'Contra body movement'."""
    text = lines("1 LF fwd", line, "3 LF touch").replace("tempo: 30", f"tempo: 30\nfeet: {feet}")
    said = found(text, "position-of-other-feet")
    assert bool(said) is told and all(f.severity is Severity.WARNING for f in said)


@pytest.mark.parametrize(("third", "told"), [
    ("LF in place 5th rear", False), ("LF in place 5th front", True), ("LF in place 3rd rear", True),
    ("LF in place 2nd", True), ("LF in place 5th front, 1/4 R", False), ("LF in place", False),
])
def test_a_foot_in_place_stays_where_it_stands(third: str, told: bool) -> None:
    """By definition: after RF closed to 5th front, LF stands in 5th rear."""
    said = found(lines("1 LF side 2nd", "2 RF close 5th front", f"3 {third}").replace(*OUT), "position-unreachable")
    assert {f.severity for f in said} == ({Severity.ERROR} if told else set())
    assert all("stands in 5th" in f.message for f in said)


def test_a_figure_that_misses_its_turn() -> None:
    """The library's left square turn makes 1/2 to L in two bars, a whole turn in four."""
    bars = [line for _ in range(4) for line in ("S LF fwd", "S RF side, {turn}")]
    for turn, told in (("1/4 L", False), ("1/4 R", True), ("no turn", True)):
        text = example(passage("1-4", *(line.format(turn=turn) for line in bars))
                       .replace("    gent", "    figure: Left square turn\n    gent", 1), 4, "foxtrot")
        said = found(text, "figure-turn-does-not-close")
        assert {f.part for f in said} == ({GENT} if told else set()), "her part follows from his"
        assert all("makes 1 to L" in f.message and "2 times" in f.message for f in said)


def test_far_apart_is_told_with_both_distances() -> None:
    """By arithmetic: from 0.25 m, four steps back each of 0.65 m and given back up to 0.35 m by the hold."""
    lady = "|\n      " + "\n      ".join(("1 RF back", "2 LF back", "3 RF back", "1 LF back", "2 RF touch", "3 hold"))
    gent = ("1 LF back", "2 RF back", "3 LF back", "1 RF back", "2 LF touch", "3 hold")
    (one,) = found(lines(*gent, lady=lady, bars="1-2", length=2), "partners-too-far")
    assert "m apart" in one.message and "a closed hold reaches 0.7 m" in one.message and "in bar 1" in one.message


def test_a_position_out_of_reach_is_told_with_the_distance() -> None:
    """By arithmetic: from 0.25 m three steps and one more back, 0.65 m each for both: 0.25 + 8 * 0.65 = 5.45 m."""
    (rule,) = (rule for rule in RULES if rule.name == "position-out-of-reach")
    (one,) = found(rule.wrong, rule.name)
    assert "in bar 3" in one.message and "5.5 m apart" in one.message and "closed position" in one.message


def test_partners_who_come_through_each_other() -> None:
    both = "|\n      1 RF fwd\n      2 LF fwd\n      3 hold"
    (one,) = found(lines("1 LF fwd", "2 RF fwd", "3 hold", lady=both), "partners-overlap")
    assert "0.2 m into each other" in one.message and one.severity is Severity.WARNING
    assert found(lines("1 LF fwd", "2 RF fwd", "3 hold"), "partners-overlap") == ()


@pytest.mark.parametrize("hold", ['"our own hold"', "none"])
def test_walking_together_is_no_clash_whatever_the_hold(hold: str) -> None:
    """A step back is put 50 mm shorter than one forward (table of lengths): over ten steps that is no collision."""
    walks = [f"{1 + n % 3} {'LF' if n % 2 == 0 else 'RF'} fwd" for n in range(12)]
    text = lines(*walks, bars="1-4", length=4, more=f"    hold: {hold}\n")
    assert found(text, "partners-overlap") == ()


coordinate = st.integers(-900, 900).map(float)


@settings(max_examples=60, deadline=None)
@given(coordinate, coordinate, coordinate, coordinate)
def test_a_swept_body_is_shapelys(a: float, b: float, c: float, d: float) -> None:
    """shapely's convex hull and intersection are the reference."""
    shapely = pytest.importorskip("shapely")
    outlines = [*body(Point(a, b), CHEST[LADY]), *body(Point(c, d), CHEST[LADY])]
    swept, still = hull(outlines), body(ORIGIN, CHEST[GENT])
    theirs = shapely.MultiPoint([(p.x, p.y) for p in outlines]).convex_hull
    assert shapely.Polygon([(p.x, p.y) for p in swept]).symmetric_difference(theirs).area < 1.0
    area = theirs.intersection(shapely.Polygon([(p.x, p.y) for p in still])).area
    depth = overlap(still, swept)
    assert (area > 1.0) <= (depth > 0.0) and (depth > 0.01) <= (area > 0.0)


def test_a_body_is_as_deep_as_the_chest() -> None:
    """ANSUR II means: 254 and 247 mm."""
    for part, depth in ((GENT, 254.0), (LADY, 247.0)):
        xs = [p.x for p in body(ORIGIN, CHEST[part])]
        assert max(xs) - min(xs) == pytest.approx(depth)
