"""The rhythm table against the published tempi it cites."""
from fractions import Fraction

import pytest

from notation.dance.metre import Tempo
from notation.reading.rhythms import find_rhythm, load_rhythms, parse_metre, parse_tempo

# qbds.ca/Dancing/Tempo.htm, bars a minute.
SEQUENCE = {
    "old-time waltz": ("3/4", 40, 44),
    "two-step": ("6/8", 44, 56),
    "saunter": ("4/4", 27, 29),
    "blues": ("4/4", 29, 31),
    "swing": ("4/4", 45, 50),
    "old-time tango": ("2/4", 30, 33),
    "slow waltz": ("3/4", 29, 31),
    "foxtrot": ("4/4", 28, 31),
    "quickstep": ("4/4", 45, 50),
    "tango": ("2/4", 30, 34),
    "viennese waltz": ("3/4", 56, 64),
    "rumba": ("4/4", 26, 32),
    "cha-cha": ("4/4", 31, 33),
    "samba": ("2/4", 48, 54),
    "jive": ("4/4", 35, 46),
    "paso doble": ("2/4", 58, 62),
}


@pytest.mark.parametrize("name", SEQUENCE)
def test_published_tempi(name: str) -> None:
    metre, least, most = SEQUENCE[name]
    rhythm = find_rhythm(name, load_rhythms())
    assert rhythm is not None
    assert (str(rhythm.metre), rhythm.tempo) == (metre, Tempo(Fraction(least), Fraction(most)))


@pytest.mark.parametrize("name", ["gavotte", "mazurka", "military two-step"])
def test_no_tempo_is_made_up_where_none_was_found(name: str) -> None:
    rhythm = find_rhythm(name, load_rhythms())
    assert rhythm is not None and rhythm.tempo is None and "no published" in rhythm.source


def test_names_stand_once() -> None:
    names = [name for r in load_rhythms() for name in (r.name, *r.also)]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("text", ["5/0", "0/4", "3", "3/5", "x/4", "13/8", "3/4/4"])
def test_metres_that_cannot_be_danced(text: str) -> None:
    assert parse_metre(text) is None


@pytest.mark.parametrize("text", ["0", "-3", "fast", "44-40", "40-44-48", "1e9", ""])
def test_tempi_that_are_none(text: str) -> None:
    assert parse_tempo(text) is None


# DTV Turnier- und Sportordnung, May 2023, table of tournament dances: bars a minute, metronome, beats counted in a bar.
FEDERATION = {
    "waltz": (28, 30, 84, 90, 3),
    "tango": (31, 33, 124, 132, 4),
    "viennese waltz": (58, 60, 174, 180, 3),
    "foxtrot": (28, 30, 112, 120, 4),
    "quickstep": (50, 52, 200, 208, 4),
    "samba": (50, 52, 100, 104, 2),
    "cha-cha": (30, 32, 120, 128, 4),
    "rumba": (25, 27, 100, 108, 4),
    "paso doble": (60, 62, 120, 124, 2),
    "jive": (42, 44, 168, 176, 4),
}
COUNTED_DOUBLE = {"tango": 2}
"""The federation counts four quavers in the bar of 2/4."""


@pytest.mark.parametrize("name", FEDERATION)
def test_bars_and_beats_of_the_table_give_the_federations_metronome(name: str) -> None:
    """The federation's bars a minute, read as a tempo and multiplied by our beats in a bar, are its metronome's."""
    least, most, slow, quick, counted = FEDERATION[name]
    rhythm, tempo = find_rhythm(name, load_rhythms()), parse_tempo(f"{least}-{most}")
    assert rhythm is not None and tempo is not None
    beats = rhythm.metre.beats * COUNTED_DOUBLE.get(name, 1)
    assert beats == counted
    assert (tempo.least * beats, tempo.most * beats) == (slow, quick)


@pytest.mark.parametrize(
    ("text", "least", "most"),
    [("42", 42, 42), ("40-44", 40, 44), ("40 – 44", 40, 44), ("40 to 44", 40, 44), ("42 bars a minute", 42, 42)],
)
def test_tempi_as_they_are_written(text: str, least: int, most: int) -> None:
    assert parse_tempo(text) == Tempo(Fraction(least), Fraction(most))


TURNED_OUT = {"old-time waltz", "veleta", "two-step", "military two-step", "gavotte", "mazurka", "schottische"}
PARALLEL = {"saunter", "blues", "swing", "old-time tango", "stroll", "waltz", "foxtrot", "quickstep", "rumba"}


def test_feet_turned_out_or_parallel() -> None:
    """sequencedanceuk.com, 'What is sequence dancing': the old-time dances turned out, the others parallel."""
    feet = {rhythm.name: rhythm.feet for rhythm in load_rhythms()}
    assert {feet[name] for name in TURNED_OUT} == {"turned-out"}
    assert {feet[name] for name in PARALLEL} == {"parallel"}
