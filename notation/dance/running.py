"""How long a sequence lasts, and how many fit a recording. Times are exact Fractions of seconds."""
from __future__ import annotations

from fractions import Fraction

from notation.dance.metre import Tempo

SECONDS = 60
USUAL_TIMES = (5, 6)
"""Sequences to a record: five or six (Wikipedia, 'Sequence dance')."""

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def seconds(bars: int, tempo: Tempo) -> Fraction:
    """Seconds that so many bars last at the middle of the tempo.

    >>> seconds(16, Tempo(Fraction(42), Fraction(42)))
    Fraction(160, 7)
    """
    return Fraction(bars * SECONDS) / tempo.middle


def running_time(length: int, introduction: int, times: int, tempo: Tempo) -> Fraction:
    """Seconds of a dance with its introduction, so many times through.

    >>> running_time(16, 4, 5, Tempo(Fraction(42), Fraction(42)))
    Fraction(120, 1)
    """
    return seconds(introduction + times * length, tempo)


def metronome(tempo: Tempo, beats: int) -> Tempo:
    """Beats a minute of a tempo in bars a minute, with so many beats counted in a bar.

    >>> metronome(Tempo(Fraction(28), Fraction(30)), 3).most
    Fraction(90, 1)
    """
    return Tempo(tempo.least * beats, tempo.most * beats)


def times_through(recording: Fraction, length: int, introduction: int, tempo: Tempo) -> int:
    """How many whole sequences fit a recording of so many seconds after the introduction.

    >>> times_through(Fraction(155), 16, 0, Tempo(Fraction(31), Fraction(31)))
    5
    """
    bars = recording * tempo.middle / SECONDS - introduction
    return max(int(bars // length), 0)


def duration_words(time: Fraction) -> str:
    """A duration rounded to the second.

    >>> duration_words(Fraction(160, 7)), duration_words(Fraction(120)), duration_words(Fraction(155))
    ('23 s', '2 min', '2 min 35 s')
    """
    minutes, rest = divmod(round(time), SECONDS)
    parts = ([f"{minutes} min"] if minutes else []) + ([f"{rest} s"] if rest or not minutes else [])
    return " ".join(parts)


def number_words(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def tempo_words(tempo: Tempo) -> str:
    """'42' or '40-44', with decimals only where there are some."""
    ends = dict.fromkeys(f"{float(t):g}" for t in (tempo.least, tempo.most))
    return "–".join(ends)


def running_sentence(length: int, introduction: int | None, tempo: Tempo, times: int = USUAL_TIMES[0]) -> str:
    """How long it runs, for `check`.

    >>> running_sentence(16, 4, Tempo(Fraction(42), Fraction(42)))
    '16 bars at 42: 23 s; five times through with 4 bars in: 2 min'
    """
    once = duration_words(seconds(length, tempo))
    through = duration_words(seconds(length * times + (introduction or 0), tempo))
    lead = f" with {introduction} bar{'s' if introduction > 1 else ''} in" if introduction else ""
    bars = f"{length} bar{'s' if length != 1 else ''}"
    return f"{bars} at {tempo_words(tempo)}: {once}; {number_words(times)} times through{lead}: {through}"


def recording_sentence(recording: Fraction, length: int, introduction: int | None, tempo: Tempo) -> str:
    """How many sequences fit a recording, for `check`."""
    times = times_through(recording, length, introduction or 0, tempo)
    often = "once" if times == 1 else f"{number_words(times)} times"
    return f"a recording of {duration_words(recording)} holds the sequence {often}"
