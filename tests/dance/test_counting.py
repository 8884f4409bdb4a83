"""Counts against published timings, and places and lengths against music21 for the same rhythm."""
from __future__ import annotations

from fractions import Fraction as Fr

import pytest
from building import count, lines, walk
from hypothesis import given
from hypothesis import strategies as st

from notation.dance.counting import count_lines, danced, slow_quick
from notation.dance.metre import Metre

COMMON, WALTZ, MARCH, QUAVERS = Metre(4, 4), Metre(3, 4), Metre(2, 4), Metre(6, 8)


def places(counts: str, metre: Metre, bars: int) -> list[tuple[int, Fr, Fr]]:
    """Bar, beat from 0 and length of a step on each count."""
    return [(d.bar, d.beat, d.lasts) for d in danced(count_lines(lines(walk(counts)), metre), metre, 1, bars)]


def lengths(counts: str, metre: Metre, bars: int = 1) -> list[Fr]:
    return [place[2] for place in places(counts, metre, bars)]


PUBLISHED = [
    ("S Q Q", COMMON, 1, "2 1 1", "foxtrot SQQ: study cards for a UK teaching examination, freezingblue.com 275670"),
    ("S Q Q S S", COMMON, 2, "2 1 1 2 2", "progressive chasse SQQS 2 1 1 2 (and a walk): freezingblue.com 272224"),
    ("S S Q Q", MARCH, 2, "1 1 1/2 1/2", "2/4: calendar-uk.co.uk; danceplaza tid-bits #136"),
    ("1 2 3", WALTZ, 1, "1 1 1", "waltz: freezingblue.com 258609"),
    ("1 2 & 3", WALTZ, 1, "1 1/2 1/2 1", "chasse in waltz, 12&3: freezingblue.com 258609"),
    ("1 2 3 1 2 & 3", WALTZ, 2, "1 1 1 1 1/2 1/2 1", "whisk and chasse, 123 12&3: freezingblue.com 258609"),
    ("2 3 4 & 1", COMMON, 2, "1 1 1/2 1/2 4", "cha-cha 2 3 4 & 1: freezingblue.com 125675 (the last lasts on, alone)"),
    ("2 3 4-1 2 3 4-1", COMMON, 2, "1 1 2 1 1 2", "rumba 2 3 4-1: dancecentral.info rumba spot turns; aidadance.org"),
    ("Q Q S", COMMON, 1, "1 1 2", "latinamericandances.com; wikibooks Social Ballroom Dancing"),
    ("1 a 2", MARCH, 1, "3/4 1/4 1", "'a' a quarter: Roundalab/URDC Common Glossary, October 2001, 'a'"),
    ("Q a Q Q Q", COMMON, 1, "3/4 1/4 1 1 1", "jive QaQ, by the rule for 'a' of the same glossary"),
    ("1 3 4", QUAVERS, 1, "2 1 3", "pas de basque: Society of Folk Dance Historians 1987, Boston Two-Step"),
    ("1 4", QUAVERS, 1, "3 3", "walks of the same dance"),
    ("1 & 2", MARCH, 1, "1/2 1/2 1", "two-step and polka bar: kickery.com, cross-step polka"),
    ("1 3 1", WALTZ, 2, "2 1 3", "slow two-step over two bars, 1, 3, 4 of six: kickery.com, Waltz Two-Step"),
    ("1 3", WALTZ, 1, "2 1", "step on 1, draw on 3: cue sheets of lloydshaw.org"),
    ("S & Q Q", COMMON, 1, "1 1 1 1", "'&' out of the S: freezingblue.com 258609; half of it is our format's rule"),
    ("Q & Q S", COMMON, 1, "1/2 1/2 1 2", "the same rule for Q"),
    ("1 e & a 2", MARCH, 1, "1/4 1/4 1/4 1/4 1", "common practice, no source"),
]


@pytest.mark.parametrize(("counts", "metre", "bars", "beats", "source"), PUBLISHED, ids=[p[4][:40] for p in PUBLISHED])
def test_published_timings(counts: str, metre: Metre, bars: int, beats: str, source: str) -> None:
    """Each row names its own source."""
    assert lengths(counts, metre, bars) == [Fr(b) for b in beats.split()], source


MUSIC21 = [
    ("1 2 3 1 2 & 3", WALTZ, "c4 c4 c4 c4 c8 c8 c4"),
    ("S Q Q Q Q S", COMMON, "c2 c4 c4 c4 c4 c2"),
    ("S Q Q S S Q Q S", COMMON, "c2 c4 c4 c2 c2 c4 c4 c2"),
    ("Q S Q S S", COMMON, "c4 c2 c4 c2 c2"),
    ("S Q Q 1 & 2", MARCH, "c4 c8 c8 c8 c8 c4"),
    ("1 3 4 1 4", QUAVERS, "c4 c8 c4. c4. c4."),
    ("1 a 2 3 & 4", COMMON, "c8. c16 c4 c8 c8 c4"),
    ("1-3 4-2 3 4", COMMON, "c2. c2. c4 c4"),
    ("1-2 & 3 1-3", WALTZ, "c4. c8 c4 c2."),
]


@pytest.mark.parametrize(("counts", "metre", "rhythm"), MUSIC21)
def test_places_and_lengths_agree_with_music21(counts: str, metre: Metre, rhythm: str) -> None:
    """The same rhythm as notes: music21 gives each note's offset and length in crotchets, and the bars' boundaries."""
    from music21 import converter

    notes = list(converter.parse(f"tinynotation: {metre} {rhythm}").flatten().notes)
    tied = [n for n in notes if n.tie is None or n.tie.type == "start"]
    unit = Fr(metre.unit, 4)
    expected = [Fr(n.offset).limit_denominator(64) * unit for n in tied]
    total = sum(Fr(n.quarterLength).limit_denominator(64) for n in notes) * unit
    ends = [*expected[1:], total]
    ours = places(counts, metre, int(total / metre.beats))
    assert [(b - 1) * metre.beats + beat for b, beat, _ in ours] == expected
    assert [lasts for _, _, lasts in ours] == [e - s for s, e in zip(expected, ends, strict=True)]


def test_bars_agree_with_music21_across_the_bar_line() -> None:
    """SQQS SQQS fills three bars of 4/4: each note's bar and beat as music21 makes the measures."""
    from music21 import converter

    stream = converter.parse("tinynotation: 4/4 c2 c4 c4 c2 c2 c4 c4 c2").makeMeasures()
    expected = [(n.measureNumber, Fr(n.beat) - 1) for n in stream.recurse().notes]
    assert [(b, beat) for b, beat, _ in places("S Q Q S S Q Q S", COMMON, 3)] == expected


def test_a_bar_line_opens_the_bar_it_names() -> None:
    got = count_lines(lines("1 LF forward; bar 2; 2 RF forward; 3 LF close"), WALTZ)
    assert [(c.bar, c.beat) for c in got] == [(1, 0), (2, 1), (2, 2)]


def test_a_hold_lets_a_count_pass() -> None:
    counted = count_lines(lines("1 LF forward; 2 RF close; 3 hold"), WALTZ)
    assert [d.lasts for d in danced(counted, WALTZ, 5, 1)] == [1, 1, 1]


def test_bars_are_numbered_in_the_sequence() -> None:
    got = danced(count_lines(lines(walk("1 2 3 1 2 3")), WALTZ), WALTZ, 7, 2)
    assert [d.bar for d in got] == [7, 7, 7, 8, 8, 8]


@pytest.mark.parametrize("counts", ["1 3 2", "1 2 3 2 3", "1 a &", "&"])
def test_counts_that_go_back_are_seen(counts: str) -> None:
    assert [c.disordered for c in count_lines(lines(walk(counts)), COMMON)].count(True) == 1


@pytest.mark.parametrize("counts", ["2 3 4-1 2 3 4-1", "1 2 3 1", "1 3-1 2", "S Q Q S"])
def test_counts_that_run_on_are_in_order(counts: str) -> None:
    assert not any(c.disordered for c in count_lines(lines(walk(counts)), COMMON))


@pytest.mark.parametrize(("metre", "settled"), [(COMMON, True), (MARCH, True), (WALTZ, False), (QUAVERS, False)])
def test_where_slow_and_quick_are_settled(metre: Metre, settled: bool) -> None:
    """In waltz-time cribs 'SSQQS' fills four bars, which 2 2 1 1 2 does not (Pride of Erin, ceilidhminogue.co.uk)."""
    assert slow_quick(metre).settled is settled


@given(st.lists(st.sampled_from(["S", "Q"]), min_size=1, max_size=24), st.sampled_from([COMMON, MARCH, WALTZ, QUAVERS]))
def test_slows_and_quicks_follow_without_gap(letters: list[str], metre: Metre) -> None:
    got = count_lines(lines(walk(" ".join(letters))), metre)
    assert all(a.end == b.onset for a, b in zip(got, got[1:], strict=False))


@given(st.lists(st.lists(st.integers(1, 4), min_size=1, max_size=4, unique=True).map(sorted), min_size=1, max_size=6))
def test_lengths_add_up_to_the_bars(bars: list[list[int]]) -> None:
    """Bars that each begin on 1, whatever counts follow, last exactly as long as the bars."""
    counts = " ".join(str(c) for bar in bars for c in sorted({1, *bar}))
    assert sum(lengths(counts, COMMON, len(bars))) == 4 * len(bars)


def test_count_helper_reads_what_the_tests_write() -> None:
    assert count("4-1").until == 1 and count("2&").part == Fr(1, 2)
