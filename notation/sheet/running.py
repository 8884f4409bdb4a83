"""How long a dance runs, in words for the heading."""
from __future__ import annotations

from notation.dance.running import USUAL_TIMES, duration_words, seconds
from notation.dance.script import Dance
from notation.sheet.phrasing import filled, tied, with_units
from notation.sheet.sayings import number_word, tempo_range
from notation.sheet.wording import Speaker


def running_words(dance: Dance, speaker: Speaker) -> str:
    """'16 bars at 42: 23 s; five times through with 4 bars in: 2 min'; empty where the tempo is not known."""
    tempo = dance.tempo
    if tempo is None or tempo.middle <= 0:
        return ""
    once = filled(
        speaker.phrases.running_value,
        bars=dance.length, tempo=tempo_range(speaker, tempo), once=tied(duration_words(seconds(dance.length, tempo))),
    )
    if not dance.introduction:
        return with_units(once)
    times = USUAL_TIMES[0]
    whole = seconds(dance.introduction + times * dance.length, tempo)
    through = filled(
        speaker.phrases.running_through,
        times=number_word(speaker, times), introduction=dance.introduction, all=tied(duration_words(whole)),
    )
    return with_units(f"{once}; {through}")
