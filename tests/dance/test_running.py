"""Running time and tempo against published figures."""
from fractions import Fraction

import pytest

from notation.dance.metre import Tempo
from notation.dance.running import duration_words, metronome, running_sentence, seconds, times_through


def tempo(bars: float) -> Tempo:
    return Tempo(Fraction(bars), Fraction(bars))


# DTV Turnier- und Sportordnung, May 2023, table of tournament dances: bars a minute, beats counted in a bar, metronome.
FEDERATION = {
    "waltz": (28, 30, 3, 84, 90),
    "tango": (31, 33, 4, 124, 132),
    "viennese waltz": (58, 60, 3, 174, 180),
    "slow foxtrot": (28, 30, 4, 112, 120),
    "quickstep": (50, 52, 4, 200, 208),
    "samba": (50, 52, 2, 100, 104),
    "cha-cha": (30, 32, 4, 120, 128),
    "rumba": (25, 27, 4, 100, 108),
    "paso doble": (60, 62, 2, 120, 124),
    "jive": (42, 44, 4, 168, 176),
}


@pytest.mark.parametrize("name", FEDERATION)
def test_bars_times_beats_is_the_metronome(name: str) -> None:
    least, most, beats, low, high = FEDERATION[name]
    assert metronome(Tempo(Fraction(least), Fraction(most)), beats) == Tempo(Fraction(low), Fraction(high))


@pytest.mark.parametrize(
    ("bars", "at", "expected"),
    [(16, 31, "31 s"), (16, 42, "23 s"), (16, 28, "34 s"), (16, 48, "20 s"), (32, 50, "38 s")],
)
def test_seconds_of_a_sequence(bars: int, at: int, expected: str) -> None:
    """16 bars at 31 last 31 s: qbds.ca, Tempo; the others by arithmetic."""
    assert duration_words(seconds(bars, tempo(at))) == expected


def test_sequences_in_a_recording() -> None:
    """A track of 2 min 35 s holds five sequences of 16 bars at 31: qbds.ca, Tempo."""
    assert times_through(Fraction(155), 16, 0, tempo(31)) == 5


def test_introduction_and_six_sequences_are_100_bars() -> None:
    """Four bars of introduction, then five or six sequences of sixteen: Wikipedia, 'Sequence dance'."""
    assert times_through(seconds(100, tempo(42)), 16, 4, tempo(42)) == 6
    assert times_through(seconds(99, tempo(42)), 16, 4, tempo(42)) == 5


def test_the_sentence_of_the_sheet() -> None:
    assert running_sentence(16, 4, tempo(42)) == "16 bars at 42: 23 s; five times through with 4 bars in: 2 min"
    assert "with 1 bar in" in running_sentence(16, 1, tempo(42))
    assert "in:" not in running_sentence(16, None, tempo(42))
