"""The rules of a competition for new dances, and what of them a dance meets.

A rule that a competition does not state asks nothing.
"""
from __future__ import annotations

import enum
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from notation.dance.finding import Finding, Severity
from notation.dance.hold import Hold, Position
from notation.dance.knowledge import Knowledge
from notation.dance.mark import NOWHERE, Mark, Said
from notation.dance.metre import Tempo
from notation.dance.naming import named, plain
from notation.dance.running import tempo_words
from notation.dance.script import PARTS, Worked

IN_THE_DANCE = ("title", "arranged by", "year", "rhythm", "tempo", "introduction", "music", "notes")
"""Particulars that stand in the dance file; all others are the entrant's own."""


@dataclass(frozen=True, slots=True)
class Allowance:
    """Names that alone are allowed, and names that are barred. Empty: nothing is asked."""

    only: tuple[str, ...] = ()
    barred: tuple[str, ...] = ()

    def refuses(self, name: str) -> bool:
        wanted = plain(name)
        return wanted in map(plain, self.barred) or bool(self.only) and wanted not in map(plain, self.only)

    @property
    def words(self) -> str:
        only = f"only {', '.join(self.only)}" if self.only else ""
        return "; ".join(filter(None, (only, f"no {', no '.join(self.barred)}" if self.barred else "")))


@dataclass(frozen=True, slots=True)
class EntryRules:
    """What a competition asks.

    lengths: bars of one sequence, any of them. rhythms: names of the rhythm table. tempi: bars a minute by rhythm, ''
    for any other. introduction: bars. pages: most pages of the judges' sheets. copies: how many of them are handed in.
    named: whether judges see the names. entries: most entries of one arranger. declaration: what the arranger signs.
    """

    competition: str
    organiser: str = ""
    section: str = ""
    closing: date | None = None
    lengths: tuple[int, ...] = ()
    rhythms: tuple[str, ...] = ()
    tempi: tuple[tuple[str, Tempo], ...] = ()
    introduction: int | None = None
    particulars: tuple[str, ...] = ()
    holds: Allowance = Allowance()
    positions: Allowance = Allowance()
    figures: Allowance = Allowance()
    layout: str = "entry"
    paper: str = "A4"
    pages: int | None = None
    copies: int | None = None
    named: bool = False
    entries: int | None = None
    declaration: str = ""


GIVEN = "to be given"
"""What is asked of a particular."""


class State(enum.Enum):
    """Whether a rule is met; BY_HAND: no program can tell, a person sees to it."""

    MET = "met"
    NOT_MET = "not met"
    BY_HAND = "by hand"


@dataclass(frozen=True, slots=True)
class Requirement:
    """A line of the checklist: a rule, what it asks, what is there, and whether that meets it.

    mark: where in the dance or the particulars it stands.
    """

    rule: str
    asked: str
    found: str
    state: State
    mark: Mark = NOWHERE

    @property
    def finding(self) -> Finding:
        """What a writer is told where it is not met."""
        asked = f"is {GIVEN}, but" if self.asked == GIVEN else f"asked is {self.asked}, but here"
        message = f"{self.rule}{' ' if self.asked == GIVEN else ': '}{asked} {self.found}"
        return Finding("entry-rule-not-met", Severity.ERROR, self.mark, message)


@dataclass(frozen=True, slots=True)
class Entry:
    """What is entered. entrant: particulars besides the dance's own, by name. faults: errors the checks found.

    day: on which it is sent; stated: where that date comes from. pages: of the judges' sheets.
    """

    worked: Worked
    entrant: Mapping[str, str]
    faults: int
    day: date
    stated: str
    pages: int


def checklist(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> tuple[Requirement, ...]:
    """Every rule that is stated with what the entry says to it, in the order of the printed rules."""
    checks: tuple[Callable[[Entry, EntryRules, Knowledge], Iterable[Requirement]], ...] = (
        _closing, _danceable, _length, _rhythm, _tempo, _introduction, _holds, _positions, _figures, _particulars,
        _pages, _copies, _declaration,
    )
    return tuple(requirement for one in checks for requirement in one(entry, rules, knowledge))


def unmet(lines: Iterable[Requirement]) -> tuple[Requirement, ...]:
    return tuple(line for line in lines if line.state is State.NOT_MET)


def _state(met: bool) -> State:
    return State.MET if met else State.NOT_MET


def _file(worked: Worked) -> Mark:
    """The dance file as a whole."""
    return Mark(worked.dance.mark.file, 1, 1, 1, 1)


def day_words(day: date) -> str:
    """A date in words that read alike everywhere.

    >>> day_words(date(2027, 3, 31))
    '31 March 2027'
    """
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")


def _closing(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.closing is not None:
        found = f"{day_words(entry.day)} ({entry.stated})"
        yield Requirement("closing date", f"by {day_words(rules.closing)}", found, _state(entry.day <= rules.closing),
                          _file(entry.worked))


def _danceable(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    found = "nothing of severity error" if not entry.faults else f"{entry.faults} error{'s' * (entry.faults > 1)}"
    yield Requirement("checks", "a dance without errors", found, _state(not entry.faults), _file(entry.worked))


def _length(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance = entry.worked.dance
    if rules.lengths:
        asked = f"{' or '.join(map(str, rules.lengths))} bars"
        yield Requirement("length", asked, f"{dance.length} bars", _state(dance.length in rules.lengths),
                          dance.mark_of("length"))


def _rhythm(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance = entry.worked.dance
    if rules.rhythms:
        name = dance.rhythm.name if dance.rhythm else ""
        said = name or (dance.rhythm_said.text if dance.rhythm_said else "none is written")
        yield Requirement("rhythm", " or ".join(rules.rhythms), said, _state(name in rules.rhythms),
                          dance.mark_of("rhythm"))


def _tempo(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance, tempi = entry.worked.dance, dict(rules.tempi)
    asked = tempi.get(dance.rhythm.name if dance.rhythm else "", tempi.get(""))
    if asked is None:
        return
    tempo = dance.tempo
    met = tempo is not None and asked.least <= tempo.least and tempo.most <= asked.most
    found = f"{tempo_words(tempo)} bars a minute" if tempo else "none is written"
    yield Requirement("tempo", f"{tempo_words(asked)} bars a minute", found, _state(met), dance.mark_of("tempo"))


def _introduction(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance = entry.worked.dance
    if rules.introduction is not None:
        found = "none is written" if dance.introduction is None else f"{dance.introduction} bars"
        yield Requirement("introduction", f"{rules.introduction} bars", found,
                          _state(dance.introduction == rules.introduction), dance.mark_of("introduction"))


def _holds(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    said = [(entry.worked.start.hold, "the start"), *_places(entry.worked, "hold")]
    yield from _names("holds", rules.holds, said, knowledge.holds, entry.worked)


def _positions(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    said = [(entry.worked.start.position, "the start"), *_places(entry.worked, "position")]
    yield from _names("positions", rules.positions, said, knowledge.positions, entry.worked)


def _places(worked: Worked, field: str) -> Iterator[tuple[Said | None, str]]:
    """Where a position or a hold is taken: on passages and on single steps."""
    for passage in worked.passages:
        yield getattr(passage, field), f"bar {passage.first}"
        for part in PARTS:
            yield from ((getattr(d.step, field), f"bar {d.bar}") for d in passage.part(part))


def _names(
    rule: str, allowance: Allowance, said: Iterable[tuple[Said | None, str]],
    table: tuple[Hold, ...] | tuple[Position, ...], worked: Worked,
) -> Iterator[Requirement]:
    """Whether names of a table are allowed. Words of the writer's own that no table has are left to a person."""
    if not allowance.words:
        return
    refused: dict[str, tuple[str, Mark]] = {}
    unknown: dict[str, tuple[str, Mark]] = {}
    for one, where in said:
        row = named(one, table)
        if one is not None and row is None:
            unknown.setdefault(one.text, (where, one.mark))
        elif one is not None and row is not None and allowance.refuses(row.name):
            refused.setdefault(row.name, (where, one.mark))
    found = refused or unknown
    state = State.NOT_MET if refused else State.BY_HAND if unknown else State.MET
    words = ", ".join(f"{name} ({where})" for name, (where, _) in found.items()) or "as asked"
    mark = next((mark for _, mark in found.values()), worked.dance.mark)
    yield Requirement(rule, allowance.words, words, state, mark)


def _figures(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    """Figures by the headings and the calls; a passage with neither can only be judged by a person."""
    if not rules.figures.words:
        return
    refused: dict[str, tuple[str, Mark]] = {}
    nameless: tuple[str, Mark] | None = None
    for passage in entry.worked.passages:
        called = [one.figure for one in passage.called]
        names = called or ([passage.written.figure.text] if passage.written.figure else [])
        where, mark = f"bar {passage.first}", passage.written.mark_of("figure")
        if not names and passage.repeated is None:
            nameless = nameless or (where, mark)
        for name in names:
            if rules.figures.refuses(name):
                refused.setdefault(name, (where, mark))
    if refused:
        words = ", ".join(f"{name} ({where})" for name, (where, _) in refused.items())
        yield Requirement("figures", rules.figures.words, words, State.NOT_MET, next(iter(refused.values()))[1])
    elif nameless:
        words = f"{nameless[0]} names no figure"
        yield Requirement("figures", rules.figures.words, words, State.BY_HAND, nameless[1])
    else:
        yield Requirement("figures", rules.figures.words, "as asked", State.MET)


def dance_particular(worked: Worked, key: str) -> str:
    """A particular of the dance file in words; empty where it is not written."""
    dance = worked.dance
    values: dict[str, object] = {
        "title": dance.title, "arranged by": ", ".join(dance.arrangers), "year": dance.year or "",
        "rhythm": dance.rhythm_said.text if dance.rhythm_said else "", "music": dance.music, "notes": dance.notes,
        "tempo": tempo_words(dance.tempo) if dance.tempo else "",
        "introduction": "" if dance.introduction is None else f"{dance.introduction} bars",
    }
    return str(values.get(key, "")).strip()


def _particulars(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    for key in dict.fromkeys(("arranged by", *rules.particulars)):
        own = key in IN_THE_DANCE
        found = dance_particular(entry.worked, key) if own else entry.entrant.get(key, "")
        where = "the dance file" if own else "the particulars"
        mark = entry.worked.dance.mark_of(key) if found else _file(entry.worked)
        yield Requirement(key, GIVEN, f"in {where}" if found else f"{where} do{'es' * own} not say it",
                          _state(bool(found)), mark)


def _pages(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.pages is not None:
        asked = f"at most {rules.pages} page{'s' * (rules.pages > 1)} of {rules.paper}"
        found = f"{entry.pages} page{'s' * (entry.pages > 1)}"
        yield Requirement("pages", asked, found, _state(entry.pages <= rules.pages), _file(entry.worked))


def _copies(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.copies is not None:
        asked = f"{rules.copies} cop{'ies' if rules.copies > 1 else 'y'} of the judges' sheets"
        yield Requirement("copies", asked, f"print judges.pdf {rules.copies} times on {rules.paper}", State.BY_HAND)


def _declaration(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.declaration:
        yield Requirement("declaration", "signed", "sign the particulars sheet", State.BY_HAND)
