"""How long a dance runs, in words for the heading."""
from __future__ import annotations

from fractions import Fraction

from notation.dance.script import Dance
from notation.sheet.wording import Speaker, filled, tempo_range, tied

TIMES_THROUGH = 5  # a recording of sequence music has five or six sequences (Wikipedia, 'Sequence dance')
NUMBERS = ("", "once", "twice", "three", "four", "five", "six", "seven", "eight")


def seconds(bars: int, tempo: Fraction) -> Fraction:
    """How long that many bars take at a tempo in bars a minute.

    >>> float(round(seconds(16, Fraction(42)), 2))
    22.86
    """
    return Fraction(bars * 60) / tempo


def clock(time: Fraction) -> str:
    """Whole seconds up to a minute and a half, then minutes and seconds.

    >>> clock(Fraction(2286, 100)), clock(Fraction(120)), clock(Fraction(155))
    ('23 s', '2 min', '2 min 35 s')
    """
    whole = int(time + Fraction(1, 2))
    if whole < 90:
        return f"{whole} s"
    minutes, rest = divmod(whole, 60)
    return f"{minutes} min {rest} s" if rest else f"{minutes} min"


def running_words(dance: Dance, speaker: Speaker) -> str:
    """'16 bars at 42: 23 s; five times through with 4 bars in: 2 min'; empty where the tempo is not known."""
    if dance.tempo is None or dance.tempo.middle <= 0:
        return ""
    tempo = dance.tempo.middle
    phrases = speaker.phrases
    once = filled(phrases.running_value, bars=dance.length, tempo=tempo_range(dance.tempo),
                  once=clock(seconds(dance.length, tempo)))
    if not dance.introduction:
        return tied(once)
    whole = clock(seconds(dance.introduction + TIMES_THROUGH * dance.length, tempo))
    through = filled(phrases.running_through, times=NUMBERS[TIMES_THROUGH], introduction=dance.introduction, all=whole)
    return f"{once}; {through}"
