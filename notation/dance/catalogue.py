"""A catalogue of dances: what is worth listing of each, and finding those that are sought."""
from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from notation.dance.finding import Finding, Severity
from notation.dance.metre import Rhythm
from notation.dance.running import tempo_words
from notation.dance.script import Worked


@dataclass(frozen=True, slots=True)
class Entry:
    """One file of a catalogue. bars, tempo (bars a minute, in words): None and empty where they are not known.

    figures: headings and figures of the library, each once, in the order of the dance. errors, warnings, notes: how
    many were found. fault: why the file gives no dance, empty where it does.
    """

    file: str
    title: str = ""
    arrangers: tuple[str, ...] = ()
    rhythm: str = ""
    metre: str = ""
    bars: int | None = None
    tempo: str = ""
    figures: tuple[str, ...] = ()
    errors: int = 0
    warnings: int = 0
    notes: int = 0
    fault: str = ""

    @property
    def found(self) -> str:
        """'2 errors, 1 note'; empty where nothing was found.

        >>> Entry("a.yaml", errors=2, notes=1).found
        '2 errors, 1 note'
        """
        counted = (("error", self.errors), ("warning", self.warnings), ("note", self.notes))
        return ", ".join(f"{number} {word}{'s' if number > 1 else ''}" for word, number in counted if number)


def entry_of(file: str, worked: Worked | None, findings: Sequence[Finding]) -> Entry:
    """The entry of a file. worked: None where it gives no dance."""
    errors, warnings, notes = (sum(f.severity is severity for f in findings) for severity in Severity)
    if worked is None:
        fault = findings[0].message if findings else "it gives no dance"
        return Entry(file, errors=errors, warnings=warnings, notes=notes, fault=fault)
    dance = worked.dance
    return Entry(
        file, dance.title, dance.arrangers, dance.rhythm_said.text if dance.rhythm_said else "", str(worked.metre),
        dance.length, tempo_words(dance.tempo) if dance.tempo else "", figures_of(worked), errors, warnings, notes,
    )  # fmt: skip


def figures_of(worked: Worked) -> tuple[str, ...]:
    """The headings of the passages and the figures that are called by name, each once whatever its capitals."""
    named: dict[str, str] = {}
    for passage in worked.passages:
        for name in (passage.figure, *(called.figure for called in passage.called)):
            if name:
                named.setdefault(name.casefold(), name)
    return tuple(named.values())


@dataclass(frozen=True, slots=True)
class Sought:
    """What a dance must have to be listed. words: anywhere in title, arrangers, rhythm or figures; figure: in the name
    of a figure; rhythm: a name of the table or part of the dance's own words. Capitals and hyphens do not matter."""

    words: tuple[str, ...] = ()
    figure: str = ""
    rhythm: str = ""


def matching(entries: Iterable[Entry], sought: Sought, rhythms: Sequence[Rhythm]) -> list[Entry]:
    """The entries that have all that is sought; files that give no dance match nothing but an empty search."""
    return [entry for entry in entries if _matches(entry, sought, rhythms)]


def _plain(text: str) -> str:
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


def _matches(entry: Entry, sought: Sought, rhythms: Sequence[Rhythm]) -> bool:
    everything = _plain(" ".join((entry.title, *entry.arrangers, entry.rhythm, *entry.figures)))
    if not all(_plain(word) in everything for word in sought.words):
        return False
    if sought.figure and not any(_plain(sought.figure) in _plain(figure) for figure in entry.figures):
        return False
    return not sought.rhythm or _same_rhythm(sought.rhythm, entry.rhythm, rhythms)


def _same_rhythm(sought: str, said: str, rhythms: Sequence[Rhythm]) -> bool:
    """Whether both are names of one row; a name that no row has is looked for in the words of the dance."""
    row = next((r for r in rhythms if _plain(sought) in map(_plain, (r.name, *r.also))), None)
    if row is None:
        return bool(said) and _plain(sought) in _plain(said)
    return _plain(said) in map(_plain, (row.name, *row.also))


def in_title_order(entries: Iterable[Entry]) -> list[Entry]:
    """By title without a leading article; files that give no dance last, by name."""
    return sorted(entries, key=lambda e: (bool(e.fault), sorting_title(e.title), e.file))


def sorting_title(title: str) -> str:
    """A title as it is sorted: without its article, letters with marks as those without (DIN 5007), numbers by their
    size.

    >>> sorting_title("The Tinsmiths' Two-Step"), sorting_title("Waltz No. 9") < sorting_title("Waltz No. 10")
    ('tinsmiths two step', True)
    >>> sorting_title("Ännchens Walzer")
    'annchens walzer'
    """
    letters = (letter for letter in unicodedata.normalize("NFD", title) if not unicodedata.combining(letter))
    plain = _plain("".join(letters).replace("'", "").replace("\u2019", ""))
    plain = re.sub(r"\d+", lambda found: found[0].zfill(8), plain)
    return plain.removeprefix("the ").removeprefix("an ").removeprefix("a ")
