"""The rules of a competition for new dances, and what of them a dance meets.

A rule that a competition does not state asks nothing.
"""
from __future__ import annotations

import enum
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from notation.dance.facts import Fact, Term, counted, fact
from notation.dance.hold import Hold, Position
from notation.dance.knowledge import Knowledge
from notation.dance.mark import NOWHERE, Mark, Said
from notation.dance.metre import Tempo
from notation.dance.naming import named, plain
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
    def asks(self) -> bool:
        return bool(self.only or self.barred)


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


NOT_WRITTEN, AS_ASKED, TO_BE_GIVEN = fact("none_written"), fact("as_asked"), fact("to_be_given")


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
    asked: Fact
    found: Fact
    state: State
    mark: Mark = NOWHERE


@dataclass(frozen=True, slots=True)
class Entry:
    """What is entered. entrant: particulars besides the dance's own, by name. faults: errors the checks found.

    day: on which it is sent. pages: of the judges' sheets.
    """

    worked: Worked
    entrant: Mapping[str, str]
    faults: int
    day: date
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


def _closing(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.closing is not None:
        yield Requirement("closing date", fact("by_day", day=rules.closing), fact("on_day", day=entry.day),
                          _state(entry.day <= rules.closing), _file(entry.worked))


def _danceable(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    found = counted("error", entry.faults) if entry.faults else fact("nothing_found")
    yield Requirement("checks", fact("no_errors"), found, _state(not entry.faults), _file(entry.worked))


def _length(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance = entry.worked.dance
    if rules.lengths:
        asked = counted("bar", rules.lengths[0]) if len(rules.lengths) == 1 else fact("bars", number=rules.lengths)
        yield Requirement("length", asked, counted("bar", dance.length), _state(dance.length in rules.lengths),
                          dance.mark_of("length"))


def _rhythm(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance = entry.worked.dance
    if rules.rhythms:
        name = dance.rhythm.name if dance.rhythm else ""
        said = name or (dance.rhythm_said.text if dance.rhythm_said else "")
        asked = fact("named", name=tuple(Term("rhythm", one) for one in rules.rhythms))
        found = fact("named", name=Term("rhythm", said)) if said else NOT_WRITTEN
        yield Requirement("rhythm", asked, found, _state(name in rules.rhythms), dance.mark_of("rhythm"))


def _tempo(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance, tempi = entry.worked.dance, dict(rules.tempi)
    asked = tempi.get(dance.rhythm.name if dance.rhythm else "", tempi.get(""))
    if asked is None:
        return
    tempo = dance.tempo
    met = tempo is not None and asked.least <= tempo.least and tempo.most <= asked.most
    found = fact("bars_a_minute", tempo=tempo) if tempo else NOT_WRITTEN
    yield Requirement("tempo", fact("bars_a_minute", tempo=asked), found, _state(met), dance.mark_of("tempo"))


def _introduction(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    dance = entry.worked.dance
    if rules.introduction is not None:
        found = NOT_WRITTEN if dance.introduction is None else counted("bar", dance.introduction)
        yield Requirement("introduction", counted("bar", rules.introduction), found,
                          _state(dance.introduction == rules.introduction), dance.mark_of("introduction"))


AT_START = fact("at_start")


def _in_bar(bar: int) -> Fact:
    return fact("in_bar", bar=bar)


def _holds(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    said = [(entry.worked.start.hold, AT_START), *_places(entry.worked, "hold")]
    yield from _names(("holds", "hold"), rules.holds, said, knowledge.holds, entry.worked)


def _positions(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    said = [(entry.worked.start.position, AT_START), *_places(entry.worked, "position")]
    yield from _names(("positions", "position"), rules.positions, said, knowledge.positions, entry.worked)


def _places(worked: Worked, field: str) -> Iterator[tuple[Said | None, Fact]]:
    """Where a position or a hold is taken: on passages and on single steps."""
    for passage in worked.passages:
        yield getattr(passage, field), _in_bar(passage.first)
        for part in PARTS:
            yield from ((getattr(d.step, field), _in_bar(d.bar)) for d in passage.part(part))


def _allowed(allowance: Allowance, kind: str) -> Fact:
    """What an allowance asks."""
    only = fact("only", names=tuple(fact("named", name=Term(kind, name)) for name in allowance.only))
    barred = fact("all", all=tuple(fact("barred", name=Term(kind, name)) for name in allowance.barred))
    if allowance.only and allowance.barred:
        return fact("only_and_barred", only=only, barred=barred)
    return only if allowance.only else barred


def _met_with(found: Mapping[Term, tuple[Fact, Mark]]) -> Fact:
    """Where each of these is met with first."""
    return fact("all", all=tuple(fact("where", name=name, place=place) for name, (place, _) in found.items()))


def _names(
    rule: tuple[str, str], allowance: Allowance, said: Iterable[tuple[Said | None, Fact]],
    table: tuple[Hold, ...] | tuple[Position, ...], worked: Worked,
) -> Iterator[Requirement]:
    """Whether names of a table are allowed. rule: its name and the kind of the table. Words of the writer's own that no
    table has are left to a person."""
    if not allowance.asks:
        return
    name, kind = rule
    refused: dict[Term, tuple[Fact, Mark]] = {}
    unknown: dict[Term, tuple[Fact, Mark]] = {}
    for one, where in said:
        row = named(one, table)
        if one is not None and row is None:
            unknown.setdefault(Term("own", one.text), (where, one.mark))
        elif one is not None and row is not None and allowance.refuses(row.name):
            refused.setdefault(Term(kind, row.name), (where, one.mark))
    found = refused or unknown
    state = State.NOT_MET if refused else State.BY_HAND if unknown else State.MET
    mark = next((mark for _, mark in found.values()), worked.dance.mark)
    yield Requirement(name, _allowed(allowance, kind), _met_with(found) if found else AS_ASKED, state, mark)


def _figures(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    """Figures by the headings and the calls; a passage with neither can only be judged by a person."""
    if not rules.figures.asks:
        return
    refused: dict[Term, tuple[Fact, Mark]] = {}
    nameless: tuple[Fact, Mark] | None = None
    for passage in entry.worked.passages:
        called = [one.figure for one in passage.called]
        names = called or ([passage.written.figure.text] if passage.written.figure else [])
        where, mark = _in_bar(passage.first), passage.written.mark_of("figure")
        if not names and passage.repeated is None:
            nameless = nameless or (where, mark)
        for name in names:
            if rules.figures.refuses(name):
                refused.setdefault(Term("figure", name), (where, mark))
    asked = _allowed(rules.figures, "figure")
    if refused:
        yield Requirement("figures", asked, _met_with(refused), State.NOT_MET, next(iter(refused.values()))[1])
    elif nameless:
        yield Requirement("figures", asked, fact("nameless", place=nameless[0]), State.BY_HAND, nameless[1])
    else:
        yield Requirement("figures", asked, AS_ASKED, State.MET)


def dance_particular(worked: Worked, key: str) -> object:
    """A particular of the dance file: text, a term, a tempo, a year, a fact; None where it is not written."""
    dance = worked.dance
    values: dict[str, object] = {
        "title": dance.title.strip(), "arranged by": _everyone(dance.arrangers), "year": dance.year,
        "music": dance.music.strip(),
        "rhythm": Term("rhythm", dance.rhythm_said.text) if dance.rhythm_said else None, "tempo": dance.tempo,
        "introduction": None if dance.introduction is None else counted("bar", dance.introduction),
        "notes": dance.notes.strip(),
    }
    return values.get(key) or None


def _everyone(names: tuple[str, ...]) -> Fact | None:
    return fact("all", all=tuple(fact("named", name=name) for name in names)) if names else None


def _particulars(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    for key in dict.fromkeys(("arranged by", *rules.particulars)):
        own = key in IN_THE_DANCE
        given = dance_particular(entry.worked, key) if own else entry.entrant.get(key)
        where = "dance_file" if own else "particulars"
        mark = entry.worked.dance.mark_of(key) if given else _file(entry.worked)
        yield Requirement(key, TO_BE_GIVEN, fact(f"in_{where}" if given else f"not_in_{where}"), _state(bool(given)),
                          mark)


def _pages(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.pages is not None:
        asked = counted("at_most_page", rules.pages, paper=rules.paper)
        yield Requirement("pages", asked, counted("page", entry.pages), _state(entry.pages <= rules.pages),
                          _file(entry.worked))


def _copies(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.copies is not None:
        asked = fact("copy" if rules.copies == 1 else "copies", number=rules.copies)
        yield Requirement("copies", asked, fact("print", number=rules.copies, paper=rules.paper), State.BY_HAND)


def _declaration(entry: Entry, rules: EntryRules, knowledge: Knowledge) -> Iterator[Requirement]:
    if rules.declaration:
        yield Requirement("declaration", fact("signed"), fact("sign"), State.BY_HAND)
