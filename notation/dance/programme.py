"""An evening's programme: which dances, how many times through, and so when each begins.

Times are exact Fractions of seconds, of the clock from midnight.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from notation.dance.finding import Finding, Severity
from notation.dance.mark import NOWHERE, Mark, Said
from notation.dance.metre import Tempo
from notation.dance.running import SECONDS, duration_words, running_time, tempo_words
from notation.dance.script import Dance

DAY = 24 * 60 * SECONDS


@dataclass(frozen=True, slots=True)
class Item:
    """A line of a programme.

    file: of the dance, None for an interval and for what has no file. called: what is printed in place of the dance's
    title. times: through the sequence. lasts: where it is said and not reckoned. gap: silence after it.
    """

    file: Said | None
    called: str
    times: int
    lasts: Fraction | None
    gap: Fraction
    interval: bool = False
    mark: Mark = NOWHERE


@dataclass(frozen=True, slots=True)
class Programme:
    """What a programme file says. date, place: as text. starts: seconds after midnight."""

    title: str
    club: str
    date: str
    place: str
    starts: Fraction
    items: tuple[Item, ...]
    mark: Mark = NOWHERE


@dataclass(frozen=True, slots=True)
class Timed:
    """An item with its title and its times. dance: None where it has no file, or none that can be used."""

    item: Item
    title: str
    dance: Dance | None
    begins: Fraction
    lasts: Fraction

    @property
    def ends(self) -> Fraction:
        return self.begins + self.lasts

    @property
    def rhythm(self) -> str:
        return self.dance.rhythm_said.text if self.dance and self.dance.rhythm_said else ""


@dataclass(frozen=True, slots=True)
class Timetable:
    """A programme worked out. findings: why a time could not be reckoned, or what was taken for it."""

    programme: Programme
    items: tuple[Timed, ...]
    findings: tuple[Finding, ...]

    @property
    def ends(self) -> Fraction:
        return self.items[-1].ends if self.items else self.programme.starts

    @property
    def total(self) -> Fraction:
        """Seconds from the start to the end of the last item, gaps and intervals included."""
        return self.ends - self.programme.starts

    @property
    def dancing(self) -> Fraction:
        """Seconds of dancing, without gaps and intervals."""
        return sum((timed.lasts for timed in self.items if not timed.item.interval), Fraction(0))


def timetable(programme: Programme, dances: Mapping[str, Dance]) -> Timetable:
    """The programme worked out. dances: by the file as the programme names it; files that cannot be used are left out.

    A dance lasts its introduction and its sequences at the middle of its tempo; each item begins the gap of the one
    before after that ended.
    """
    at = programme.starts
    items: list[Timed] = []
    findings: list[Finding] = []
    for item in programme.items:
        dance = dances.get(item.file.text) if item.file else None
        lasts, found = _lasts(item, dance)
        items.append(Timed(item, item.called or (dance.title if dance else ""), dance, at, lasts))
        findings += found
        at += lasts + item.gap
    return Timetable(programme, tuple(items), tuple(findings))


def _lasts(item: Item, dance: Dance | None) -> tuple[Fraction, Sequence[Finding]]:
    if item.lasts is not None:
        return item.lasts, ()
    if dance is None:
        return Fraction(0), ()
    usual = dance.rhythm.tempo if dance.rhythm else None
    tempo = dance.tempo or usual
    if tempo is None:
        message = f"'{dance.title}' has no tempo; write one in its file, or 'lasts' here, such as lasts: 3:10"
        return Fraction(0), [Finding("running-time-unknown", Severity.ERROR, item.mark, message)]
    found = [] if dance.tempo else [_taken(item, dance, tempo)]
    return running_time(dance.length, dance.introduction or 0, item.times, tempo), found


def _taken(item: Item, dance: Dance, tempo: Tempo) -> Finding:
    message = f"'{dance.title}' has no tempo; {tempo_words(tempo)} bars a minute are taken, as is usual in its rhythm"
    return Finding("tempo-taken", Severity.NOTE, item.mark, message)


def clock(time: Fraction) -> tuple[int, int]:
    """Hours and minutes of the day, to the nearest minute, halves up; after midnight it begins anew."""
    return divmod(int((time + SECONDS // 2) // SECONDS) % (DAY // SECONDS), 60)


def clock_words(time: Fraction) -> str:
    """The time of day for a line of the terminal.

    >>> clock_words(Fraction(19 * 3600 + 30 * 60)), clock_words(Fraction(86370))
    ('19:30', '00:00')
    """
    hours, minutes = clock(time)
    return f"{hours:02}:{minutes:02}"


def span_words(time: Fraction) -> str:
    """A length of time; from an hour on in hours and minutes.

    >>> span_words(Fraction(7530)), span_words(Fraction(95))
    ('2 h 6 min', '1 min 35 s')
    """
    if time < 60 * SECONDS:
        return duration_words(time)
    hours, minutes = divmod(int((time + SECONDS // 2) // SECONDS), 60)
    return f"{hours} h {minutes} min" if minutes else f"{hours} h"
