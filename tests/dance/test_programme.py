"""Start times of an evening against arithmetic done by hand."""
from __future__ import annotations

from fractions import Fraction

from notation.dance.mark import Said
from notation.dance.metre import Metre, Rhythm, Tempo
from notation.dance.programme import Item, Programme, clock_words, span_words, timetable
from notation.dance.script import Dance, Start

EVENING = Fraction(19 * 3600 + 30 * 60)


def dance(title: str, tempo: int | None, length: int = 16, introduction: int | None = 4,
          rhythm: Rhythm | None = None) -> Dance:
    beat = Tempo(Fraction(tempo), Fraction(tempo)) if tempo else None
    return Dance(title, (), None, None, rhythm, Metre(3, 4), beat, introduction, length, None, "", "", Start(), ())


def item(file: str, times: int = 5, gap: int = 60, lasts: int | None = None) -> Item:
    return Item(Said(file), "", times, Fraction(lasts) if lasts is not None else None, Fraction(gap))


def programme(*items: Item) -> Programme:
    return Programme("Evening", "", "", "", EVENING, items)


def test_start_times_by_hand() -> None:
    """4 + 5 x 16 = 84 bars at 42: 2 min. 4 + 6 x 16 = 100 bars at 25: 4 min. 32 x 3 = 96 bars at 32: 3 min.

    19:30:00 to 19:32:00, a minute; 19:33:00 to 19:37:00, two minutes; interval 19:39:00 to 19:59:00; 19:59:00 to
    20:02:00. Dancing 2 + 4 + 3 = 9 minutes, in all 32.
    """
    tea = Item(None, "Tea", 1, Fraction(1200), Fraction(0), interval=True)
    known = {"a": dance("A", 42), "b": dance("B", 25), "c": dance("C", 32, 32, None)}
    made = timetable(programme(item("a"), item("b", 6, 120), tea, item("c", 3)), known)
    assert [clock_words(timed.begins) for timed in made.items] == ["19:30", "19:33", "19:39", "19:59"]
    assert [clock_words(timed.ends) for timed in made.items] == ["19:32", "19:37", "19:59", "20:02"]
    assert (made.dancing, made.total, clock_words(made.ends)) == (540, 1920, "20:02")
    assert made.findings == ()


def test_seconds_are_not_lost_by_rounding() -> None:
    """Ten dances of 16 bars at 48, once, without introduction or gap, last 20 s each: 200 s, not ten half minutes."""
    made = timetable(programme(*[item("a", 1, 0)] * 10), {"a": dance("A", 48, 16, 0)})
    assert made.total == 200 and clock_words(made.ends) == "19:33"


def test_a_recording_that_lasts_is_taken_as_said() -> None:
    made = timetable(programme(item("a", lasts=190)), {"a": dance("A", None)})
    assert made.total == 190 and made.findings == ()


def test_without_a_tempo_the_usual_one_is_taken_and_told() -> None:
    usual = Rhythm("waltz", Metre(3, 4), Tempo(Fraction(28), Fraction(32)), "")
    known = {"a": dance("A", None, 26, 4, usual), "b": dance("B", None)}
    made = timetable(programme(item("a", 1), item("b", 1)), known)
    assert made.items[0].lasts == 60
    assert [finding.rule for finding in made.findings] == ["tempo-taken", "running-time-unknown"]


def test_midnight_passes() -> None:
    assert clock_words(Fraction(24 * 3600 + 600)) == "00:10"
    assert span_words(Fraction(3600)) == "1 h"
