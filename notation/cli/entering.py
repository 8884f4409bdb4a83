"""Making, checking and numbering entries to a competition; nothing here writes a file.

An entry is a folder: judges.pdf without names, particulars.pdf with them, checklist.pdf, what they were made from, and
a manifest with digests. The same dance, rules, particulars and day give the same bytes, so an entry is checked by
making it again.
"""
from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from notation import __version__
from notation.cli.report import Report, file_report
from notation.cli.setting import faces
from notation.cli.sources import Source, load, read_source
from notation.dance.anonymity import Secrets, free_texts, secrets_of, trade_words
from notation.dance.entry import IN_THE_DANCE, TO_BE_GIVEN, Entry, EntryRules, Requirement, State, checklist
from notation.dance.facts import counted, fact
from notation.dance.finding import Finding, Severity
from notation.dance.knowledge import Knowledge
from notation.dance.mark import Mark
from notation.dance.script import Call, Worked
from notation.dance.words import Vocabulary
from notation.installed import data_folder
from notation.layout import Layout
from notation.page.frame import Attachment, Document
from notation.page.pdf import paint_pdf
from notation.page.units import paper
from notation.reading.entryrules import ParticularsReading, read_entry_rules, read_particulars
from notation.reading.knowledge import knowledge_beside
from notation.reading.layout import load_layout
from notation.sheet.entry import (
    Sheets,
    checklist_sheet,
    judges_layout,
    judges_sheets,
    judges_words,
    particulars_sheet,
    reference,
)
from notation.sheet.script import printed_words
from notation.sheet.telling import rule_words

JUDGES, PARTICULARS, CHECKLIST = "judges.pdf", "particulars.pdf", "checklist.pdf"
DANCE, RULES, ENTRANT, MANIFEST = "dance.yaml", "rules.yaml", "particulars.yaml", "manifest.txt"
FIGURES = "figures"
OF_PEOPLE = re.compile(r"\b(names?|partners?|teachers?|arrangers?|entrants?|pupils?|e-?mail)\b")
"""Particulars whose values are names, each word of which tells who it is."""


class EntryFault(Exception):
    """An entry cannot be made or used; carries the report that says why."""

    def __init__(self, report: Report) -> None:
        super().__init__(report.file)
        self.report = report


@dataclass(frozen=True, slots=True)
class Papers:
    """What an entry is made from. figures: the writer's own that the dance calls, by file name. language: that it is
    printed in, None for the layout's."""

    source: Source
    worked: Worked
    rules: EntryRules
    rules_data: bytes
    entrant: ParticularsReading
    entrant_data: bytes
    figures: dict[str, bytes]
    knowledge: Knowledge
    day: date
    allowed: tuple[str, ...]
    language: str | None = None

    @property
    def layout(self) -> Layout:
        """Of the judges' sheets."""
        found = load_layout(self.rules.layout)
        return replace(found, language=self.language) if self.language else found

    @property
    def words(self) -> Vocabulary:
        return printed_words(self.knowledge, self.layout)

    @property
    def secrets(self) -> Secrets:
        """What the judges' sheets must not tell; nothing where judges see the names."""
        if self.rules.named:
            return Secrets((), ())
        own = [(key, value) for key, value in self.entrant.values if key not in IN_THE_DANCE]
        people = [value for key, value in own if OF_PEOPLE.search(key)]
        others = [value for key, value in own if not OF_PEOPLE.search(key)]
        return secrets_of([*self.worked.dance.arrangers, *people], others, trade_words(self.knowledge, self.words),
                          self.allowed)


@dataclass(frozen=True, slots=True)
class MadeEntry:
    """files: by name within the folder. lines: the checklist. leaks: where a name would be told."""

    files: dict[str, bytes]
    lines: tuple[Requirement, ...]
    leaks: tuple[Finding, ...]


def gather(
    dance: str, rules: str, entrant: str | None, day: date, allowed: tuple[str, ...], language: str | None = None
) -> Papers:
    """Read everything. Raises EntryFault with the report of the first file that cannot be used."""
    source = load(dance)
    if source.worked is None:
        raise EntryFault(source.report)
    folder = Path(dance).parent
    knowledge = knowledge_beside(folder)
    rules_data = read_whole(rules)
    reading = read_entry_rules(rules_data, rules, knowledge)
    if reading.rules is None or reading.findings:
        raise EntryFault(Report(rules, reading.findings, reading.lines, usable=False))
    data = read_whole(entrant) if entrant else b""
    said = ParticularsReading((), (), ())
    if entrant:
        said = read_particulars(data, entrant, reading.rules.particulars)
        if not said.usable or any(f.severity is Severity.ERROR for f in said.findings):
            raise EntryFault(Report(entrant, said.findings, said.lines, usable=False))
    figures = dict(_own_figures(source.worked, folder))
    return Papers(source, source.worked, reading.rules, rules_data, said, data, figures, knowledge, day, allowed,
                  language)


def read_whole(name: str) -> bytes:
    """The bytes of a file. Raises EntryFault."""
    data = read_source(name)
    if isinstance(data, Report):
        raise EntryFault(data)
    return data


def _own_figures(worked: Worked, folder: Path) -> Iterator[tuple[str, bytes]]:
    """The files of the folder `figures` beside the dance that its calls use."""
    own = folder / FIGURES
    calls = [p for passage in worked.dance.passages for p in (passage.gent, passage.lady) if isinstance(p, Call)]
    if not calls or not own.is_dir():
        return
    from notation.reading.figures import FigureFolder

    shelf = FigureFolder(own)
    marks = {figure.mark.file for call in calls for figure in shelf.named(call.name.text)}
    for path in sorted(own.glob("*.yaml")):
        if path.name in marks:
            yield path.name, path.read_bytes()


def make(papers: Papers) -> MadeEntry:
    """The entry. Raises LayoutError and TemplateFault where its sheets cannot be set."""
    rules, worked, know = papers.rules, papers.worked, papers.knowledge
    layout, sheet, fonts = papers.layout, paper(rules.paper), faces()
    judges = judges_sheets(worked, know, layout, rules, sheet, fonts)
    faults = sum(f.severity is Severity.ERROR for f in papers.source.report.findings)
    entry = Entry(worked, dict(papers.entrant.values), faults, papers.day, len(judges.pages))
    judges_data = _painted(judges)
    leaks = leaks_of(papers, judges) or painted_leaks(papers, judges_data)
    lines = (*checklist(entry, rules, know), *_anonymous(papers, leaks))
    mark = reference(worked, know, layout, rules, sheet)
    sources = (Attachment(DANCE, papers.source.data),)
    sheets = Sheets(rules, load_layout("script"), sheet, fonts, papers.words, mark)
    files = {
        JUDGES: judges_data,
        PARTICULARS: _painted(particulars_sheet(worked, entry.entrant, sheets, sources)),
        CHECKLIST: _painted(checklist_sheet(lines, worked.dance.title, sheets)),
        DANCE: papers.source.data,
        RULES: papers.rules_data,
        **({ENTRANT: papers.entrant_data} if papers.entrant_data else {}),
        **{f"{FIGURES}/{name}": data for name, data in papers.figures.items()},
    }
    files[MANIFEST] = manifest_text(files, papers, mark).encode()
    return MadeEntry(files, lines, leaks)


def _painted(document: Document) -> bytes:
    return paint_pdf(document, data_folder("fonts"))


def leaks_of(papers: Papers, judges: Document) -> tuple[Finding, ...]:
    """Where the judges' sheets would tell a name: in the writer's words, with their place, or anywhere else."""
    secrets = papers.secrets
    found = []
    for text in free_texts(papers.worked):
        found += [_leak(hit, text.what, text.mark) for hit in secrets.hits(text.text)]
    if not found:
        layout = judges_layout(papers.layout, papers.rules, papers.words)
        words = judges_words(papers.worked, papers.knowledge, layout, paper(papers.rules.paper))
        drawn = " ".join(element.alt for element in judges.elements)
        mark = papers.worked.dance.mark
        found += [_leak(hit, "the sheet", mark) for hit in secrets.hits(f"{words}\n{drawn}")]
    return tuple(dict.fromkeys(found))


def painted_leaks(papers: Papers, pdf: bytes) -> tuple[Finding, ...]:
    """The same by the finished file, whatever wrote it there: a last look before it leaves the house."""
    from notation.page.revealed import texts_of

    secrets = papers.secrets
    hits = dict.fromkeys(hit for text in texts_of(pdf) for hit in secrets.hits(text))
    return tuple(_leak(hit, JUDGES, papers.worked.dance.mark) for hit in hits)


def _leak(hit: str, what: str, mark: Mark) -> Finding:
    message = (f"{what} tells '{hit}', which gives the arranger away to the judges; say it otherwise, or, where it is"
               f" no name there, add --allow-word {hit!r}")
    return Finding("entry-name-told", Severity.ERROR, mark, message)


def _anonymous(papers: Papers, leaks: tuple[Finding, ...]) -> Iterator[Requirement]:
    if papers.rules.named:
        return
    spared = papers.secrets.spared
    found = counted("told", len(leaks)) if leaks else fact("none_told")
    found = fact("spared", told=found, words=", ".join(spared)) if spared else found
    state = State.NOT_MET if leaks else State.MET
    yield Requirement("anonymity", fact("no_name"), found, state, papers.worked.dance.mark)


def unmet_finding(line: Requirement, papers: Papers) -> Finding:
    """What a writer is told of a rule that is not met, in the language of all findings."""
    rule, asked, found = rule_words(line, papers.knowledge.vocabulary)
    given = line.asked == TO_BE_GIVEN
    message = f"{rule} is {asked}, but {found}" if given else f"{rule}: asked is {asked}, but here {found}"
    return Finding("entry-rule-not-met", Severity.ERROR, line.mark, message)


def manifest_text(files: dict[str, bytes], papers: Papers, mark: str) -> str:
    """Digests in the form that `sha256sum --check` reads; what else is said stands behind '#'."""
    head = [f"# entry to {' '.join(papers.rules.competition.split())}", f"# reference {mark}",
            f"# day {papers.day.isoformat()}", f"# made by Lodestep {__version__}"]
    head += [f"# allowed {' '.join(word.split())}" for word in papers.allowed]
    head += [f"# language {papers.language}"] if papers.language else []
    lines = [f"{hashlib.sha256(data).hexdigest()}  {name}" for name, data in sorted(files.items())]
    return "\n".join((*head, *lines)) + "\n"


def unreadable(folder: Path, message: str) -> EntryFault:
    return EntryFault(file_report(str(folder), "entry-received", message))
