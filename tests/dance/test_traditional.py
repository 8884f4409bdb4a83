"""Whole dances published before 1927 (cue sheets named at the head of each file): bars, weight, closure."""
from fractions import Fraction

import pytest
from worked import TRADITIONAL, found, work

from notation.dance.feet import Foot
from notation.dance.room import Room
from notation.dance.script import GENT, Worked
from notation.dance.turning import align
from notation.dance.weight import standing_at_start, weigh

# Changes of weight of the gent in one sequence, added up from the published step lists.
WEIGHT_CHANGES = {
    "veleta": 40,
    "boston-two-step": 40,
    "latonka": 20,
    "gay-gordons": 36,
    "military-schottische": 6 + 4,
    "waltz-two-step": 2 * (2 + 3 * 3),
}
CLEAN = (*WEIGHT_CHANGES, "st-bernards-waltz")


def gent_turn(worked: Worked) -> int:
    """Eighths of turn that the gent makes in a sequence, positive to the left."""
    return sum(d.step.turn.eighths for d in worked.steps(GENT) if d.step.turn)


@pytest.mark.parametrize("name", CLEAN)
def test_nothing_is_found(name: str) -> None:
    assert found(work(TRADITIONAL / f"{name}.yaml")) == ()


@pytest.mark.parametrize("name", CLEAN)
def test_bars_are_full(name: str) -> None:
    worked = work(TRADITIONAL / f"{name}.yaml")
    for part in ("gent", "lady"):
        assert sum(d.lasts for d in worked.steps(part)) == worked.dance.length * worked.metre.beats


@pytest.mark.parametrize(("name", "changes"), WEIGHT_CHANGES.items())
def test_changes_of_weight(name: str, changes: int) -> None:
    """Veleta 40, Boston Two-Step 40 (of 42 items), La Tonka 20: by addition from the cited step lists."""
    gent = work(TRADITIONAL / f"{name}.yaml").steps(GENT)
    assert sum(d.step.weight and d.step.action.value != "hop" for d in gent) == changes


@pytest.mark.parametrize("name", CLEAN)
def test_left_foot_free_at_both_ends(name: str) -> None:
    worked = work(TRADITIONAL / f"{name}.yaml")
    start = standing_at_start(worked.start.gent)
    last = list(weigh(worked.steps(GENT), start))[-1]
    assert start is Foot.RIGHT and last.after is Foot.RIGHT


@pytest.mark.parametrize(
    ("name", "bars", "eighths"),
    [
        ("veleta", (9, 10), 8),
        ("veleta", (13, 16), 16),
        ("boston-two-step", (13, 16), 16),
        ("latonka", (3, 4), 16),
        ("st-bernards-waltz", (13, 16), 16),
        ("waltz-two-step", (3, 8), 12),
        ("waltz-two-step", (11, 16), 12),
    ],
)
def test_natural_turns(name: str, bars: tuple[int, int], eighths: int) -> None:
    """One natural turn in two bars of waltz, two in four; four half turns of two-step; all to the right."""
    gent = work(TRADITIONAL / f"{name}.yaml").steps(GENT)
    turned = sum(d.step.turn.eighths for d in gent if d.step.turn and bars[0] <= d.bar <= bars[1])
    assert turned == -eighths


def test_military_schottische_turns_twice_in_four_step_hops() -> None:
    """libraryofdance.org; Gilbert, Round Dancing, 1890: four step-hops of half a turn each; the quarter before them
    closes the hold."""
    gent = work(TRADITIONAL / "military-schottische.yaml").steps(GENT)
    hops = [d.step.turn.eighths for d in gent if d.bar >= 3 and d.step.action.value == "hop" and d.step.turn]
    assert hops == [-4] * 4


def test_waltz_two_step_leaves_the_right_foot_free_at_the_half() -> None:
    """kickery.com: after eight bars it begins again on the opposite foot; by addition an odd number of steps."""
    gent = work(TRADITIONAL / "waltz-two-step.yaml").steps(GENT)
    half = [d for d in gent if d.bar <= 8]
    assert list(weigh(tuple(half), Foot.RIGHT))[-1].after is Foot.LEFT


def test_veleta_ends_a_quarter_from_its_beginning() -> None:
    """Lloyd Shaw cue sheet: 8/8 and 16/8 in the waltz turns end facing partner and wall; opening a quarter to the left
    resets to the line of dance."""
    worked = work(TRADITIONAL / "veleta.yaml")
    end = align(worked.steps(GENT), worked.start.gent)[-1].feet
    assert end is Room.WALL and end.eighths_to(Room.LOD) == 2


def test_gay_gordons_half_turns_cancel() -> None:
    gent = work(TRADITIONAL / "gay-gordons.yaml").steps(GENT)
    assert [d.step.turn.eighths for d in gent if d.step.turn and d.bar <= 8] == [-4, 4]


def test_pas_de_basque_in_quavers() -> None:
    """Quavers 2-1-3, counts 1, 3, 4 (Society of Folk Dance Historians, Folk Dance Problem Solver 1987)."""
    gent = work(TRADITIONAL / "boston-two-step.yaml").steps(GENT)
    assert [d.lasts for d in gent if d.bar == 1] == [Fraction(2), Fraction(1), Fraction(3)]


def test_the_crib_that_does_not_run_on_is_flagged_at_bar_9_and_only_there() -> None:
    """The longer crib of the scottish-country-dancing-dictionary page: his left in bars 7-8, his right in 9-10."""
    findings = found(work(TRADITIONAL / "st-bernards-crib.yaml"))
    assert {(f.rule, f.bar) for f in findings} == {("same-foot-twice", 9)}
