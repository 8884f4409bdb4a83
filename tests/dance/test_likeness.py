"""Written-out steps under the heading of a library figure: what a teacher would correct is noted, the rest left alone.

Footwork in other words (H for HT, B for T): regencydancecentre.com, glossary. What leads out of a figure is left alone:
common practice, no source.
"""
from __future__ import annotations

import pytest
from test_calls import dance, passage

from notation.dance.checks import check
from notation.reading.knowledge import load_knowledge

CHANGE = ("1  RF fwd, facing DC, HT", "2  LF side, T", "3  RF close, TH")
NATURAL = (
    "1  RF fwd, facing DW, commence to turn R, HT",
    "2  LF side, 1/4 R, backing DC, T",
    "3  RF close, 1/8 R, backing LOD, TH",
    "1  LF back, commence to turn R, TH",
    "2  RF side, 3/8 R, pointing DC, body turns less, T",
    "3  LF close, facing DC, TH",
)


def notes(steps: tuple[str, ...], figure: str, rhythm: str = "waltz", bars: str = "1", start: str = "DC") -> list[str]:
    lines = "|" + "".join(f"\n      {line}" for line in steps)
    worked = dance(passage(bars, lines, figure=figure), rhythm=rhythm, gent=f"RF, facing {start}",
                   lady=f"LF, backing {start}")
    found = check(worked, load_knowledge())
    return [f.message for f in found if f.rule == "figure-danced-differently"]


def changed(steps: tuple[str, ...], number: int, line: str) -> tuple[str, ...]:
    return (*steps[:number], line, *steps[number + 1 :])


def test_the_figure_itself_is_not_noted() -> None:
    assert notes(CHANGE, "RF closed change") == notes(NATURAL, "Natural turn", bars="1-2", start="DW") == []


@pytest.mark.parametrize(
    ("number", "line", "told"),
    [
        (1, "2  LF side, 1/8 R, facing LOD, T", "bar 1 count 2: 1/8 to R, not no turn"),
        (1, "2  LF fwd, T", "bar 1 count 2: LF forward, not LF side"),
        (1, "2  LF side, H", "bar 1 count 2: H, not T"),
        (2, "3  RF close, H", "bar 1 count 3: H, not TH"),
    ],
)
def test_what_a_teacher_would_correct_is_noted_once(number: int, line: str, told: str) -> None:
    found = notes(changed(CHANGE, number, line), "RF closed change")
    assert len(found) == 1 and found[0].endswith(f"the library's 'RF closed change' but for {told}")


def test_a_turn_the_other_way_is_noted() -> None:
    wrong = changed(changed(NATURAL, 1, "2  LF side, 1/4 L, T"), 2, "3  RF close, 1/8 L, TH")
    found = notes(changed(wrong, 4, "2  RF side, 3/8 L, T"), "Natural turn", bars="1-2", start="DW")
    assert len(found) == 1 and "bar 1 count 2: 1/4 to L, not 1/4 to R" in found[0]


@pytest.mark.parametrize(
    ("number", "line"),
    [
        (2, "3  RF touch"), (2, "3  RF side, small"), (2, "3  RF close, 1/8 R, facing LOD, TH"),
        (0, "1  RF fwd, facing DC, H"), (1, "2  LF side"),
    ],
)
def test_what_leads_out_or_says_the_same_is_left_alone(number: int, line: str) -> None:
    assert notes(changed(CHANGE, number, line), "RF closed change") == []


def test_a_walk_that_closes_at_its_end_is_left_alone() -> None:
    walk = ("S  RF fwd, facing LOD, H", "S  LF close")
    assert notes(walk, "Saunter walk", "saunter", start="LOD") == []


def test_a_turn_shared_otherwise_is_left_alone() -> None:
    shared = changed(changed(NATURAL, 1, "2  LF side, 3/8 R, backing LOD, T"), 2, "3  RF close, TH")
    assert notes(shared, "Natural turn", bars="1-2", start="DW") == []


def test_another_figure_under_that_heading_is_not_compared() -> None:
    other = ("1  RF back, facing DC", "2  LF fwd", "3  RF cross behind")
    assert notes(other, "RF closed change") == []
