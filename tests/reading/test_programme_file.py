"""Programme files: what is read, and what is said where it cannot be."""
from __future__ import annotations

from fractions import Fraction

import pytest

from notation.reading.programme import ProgrammeReading, parse_clock, parse_duration, read_programme

GOOD = """\
title: Autumn Evening
club: The Ropewalk Sequence Club
date: Saturday 14 November
starts: 19:30
times: 4
gap: 90 s
dances:
  - first.yaml
  - dance: second.yaml
    times: 6
    gap: 2 min
  - interval: 20 min
    called: Tea
  - called: Any waltz
    lasts: 3:10
"""


def read(text: str) -> ProgrammeReading:
    return read_programme(text.encode(), "evening.yml")


def test_all_of_it_is_read() -> None:
    reading = read(GOOD)
    found = reading.programme
    assert found and reading.findings == ()
    assert (found.title, found.date, found.starts) == ("Autumn Evening", "Saturday 14 November", 70_200)
    first, second, tea, free = found.items
    assert (first.file and first.file.text, first.times, first.gap) == ("first.yaml", 4, 90)
    assert (second.times, second.gap, second.mark.line) == (6, 120, 9)
    assert (tea.interval, tea.lasts, tea.called, tea.gap) == (True, 1200, "Tea", 0)
    assert (free.file, free.lasts, free.called) == (None, 190, "Any waltz")


@pytest.mark.parametrize(
    ("old", "new", "line", "rule", "words"),
    [
        ("starts: 19:30", "starts: half past", 4, "time-unclear", "such as 19:30"),
        ("starts: 19:30\n", "", 1, "key-missing", "'starts: 19:30'"),
        ("gap: 90 s", "gap: short", 6, "duration-unclear", "20 min, 90 s or 3:10"),
        ("times: 6", "times: often", 10, "not-a-number", "whole number"),
        ("times: 6", "tims: 6", 10, "unknown-key", "did you mean 'times'?"),
        ("times: 4", "times: 1000", 5, "number-too-large", "100 times"),
        ("    called: Tea", "    dance: tea.yaml", 13, "interval-and-dance", "a line of its own"),
        ("    lasts: 3:10\n", "", 14, "dance-missing", "'lasts'"),
        ("interval: 20 min", "interval: 9000 min", 12, "number-too-large", "1,440 minutes"),
    ],
)
def test_faults_are_named_where_they_stand(old: str, new: str, line: int, rule: str, words: str) -> None:
    finding = read(GOOD.replace(old, new, 1)).findings[0]
    assert (finding.mark.line, finding.rule) == (line, rule) and words in finding.message


@pytest.mark.parametrize("text", ["", "a: [", "- x", "title: T\nstarts: 9:00\ndances: x", "dances: []"])
def test_what_is_no_programme(text: str) -> None:
    reading = read(text)
    assert reading.programme is None and reading.findings


def test_lengths_and_times_of_day() -> None:
    assert [parse_duration(t) for t in ("1:05", "3 min", "2min 5s", "45 sec", "0")] == [65, 180, 125, 45, Fraction(0)]
    assert [parse_duration(t) for t in ("", "s", "min", "3:70", "-2", "1 h", "٣")] == [None] * 7
    assert [parse_clock(t) for t in ("00:00", "12:15 am", "12:15 pm", "7.05pm")] == [0, 900, 44_100, 68_700]
    assert [parse_clock(t) for t in ("24:00", "13:00 pm", "0:30 am", "19", "19:60", "1930")] == [None] * 6
