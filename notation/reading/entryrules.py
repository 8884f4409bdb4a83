"""The rules of a competition, and an entrant's particulars, each from a YAML file, with findings as for a dance."""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from notation import bounds
from notation.dance.entry import Allowance, EntryRules
from notation.dance.finding import Finding, in_file_order
from notation.dance.knowledge import Knowledge
from notation.dance.metre import Tempo
from notation.dance.naming import plain
from notation.dance.suggest import did_you_mean
from notation.reading.fields import Fields, Findings, expect_fields, expect_number, expect_text, shown
from notation.reading.keyed import read_keyed
from notation.reading.layout import PAPERS, layout_names
from notation.reading.nodes import Mapping, Scalar, Unreadable, lines_to_show, plain_key, read_nodes
from notation.reading.rhythms import find_rhythm, parse_tempo

KEYS = (
    "format", "competition", "organiser", "section", "closing date", "length", "rhythms", "tempo", "introduction",
    "particulars", "holds", "positions", "figures", "layout", "paper", "pages", "copies", "judges see names",
    "entries", "declaration",
)
ALLOWANCE_KEYS = ("only", "not")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
ISO_DAY = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)
LONG_DAY = re.compile(r"(\d{1,2})\.? +([A-Za-z]+) +(\d{4})", re.ASCII)


@dataclass(frozen=True, slots=True)
class RulesReading:
    """rules: None only where the file is unusable. lines: of the file, for showing findings."""

    rules: EntryRules | None
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]


def read_entry_rules(source: bytes, file: str, knowledge: Knowledge) -> RulesReading:
    """The rules in these bytes. file: its name for marks. Raises nothing."""
    return RulesReading(
        *read_keyed(source, file, "the rules of a competition", KEYS, lambda fields: _rules(fields, knowledge))
    )


def _rules(fields: Fields, knowledge: Knowledge) -> EntryRules:
    if "competition" not in fields.values:
        fields.findings.error("key-missing", fields.mark, "the rules have no 'competition'; write its name")
    return EntryRules(
        competition=fields.line("competition"),
        organiser=fields.words("organiser"),
        section=fields.words("section"),
        closing=_day(fields),
        lengths=tuple(_lengths(fields)),
        rhythms=tuple(name for scalar in fields.texts("rhythms") if (name := _rhythm(scalar, knowledge, fields))),
        tempi=tuple(_tempi(fields, knowledge)),
        introduction=fields.number("introduction", 0, bounds.BARS, "bars"),
        particulars=tuple(dict.fromkeys(plain_key(scalar.text) for scalar in fields.texts("particulars"))),
        holds=_allowance(fields, "holds", knowledge),
        positions=_allowance(fields, "positions", knowledge),
        figures=_allowance(fields, "figures", knowledge),
        layout=_layout(fields),
        paper=fields.choice("paper", PAPERS) or "A4",
        pages=fields.number("pages", 1, bounds.ENTRY_PAGES, "pages"),
        copies=fields.number("copies", 1, bounds.COPIES, "copies"),
        named=fields.switch("judges see names"),
        entries=fields.number("entries", 1, bounds.COPIES, "entries"),
        declaration=fields.line("declaration", bounds.SCALAR),
    )


def parse_day(text: str) -> date | None:
    """A date; None where it is none.

    >>> parse_day("31 March 2027") == parse_day("2027-03-31") == date(2027, 3, 31)
    True
    """
    iso, long = ISO_DAY.fullmatch(text.strip()), LONG_DAY.fullmatch(text.strip())
    try:
        if iso:
            return date(int(iso[1]), int(iso[2]), int(iso[3]))
        if long and long[2].lower()[:3] in MONTHS:
            return date(int(long[3]), MONTHS.index(long[2].lower()[:3]) + 1, int(long[1]))
    except ValueError:
        return None
    return None


def _day(fields: Fields) -> date | None:
    scalar = fields.text("closing date")
    day = parse_day(scalar.text) if scalar else None
    if scalar and day is None:
        message = f"'closing date' is a day such as 2027-03-31 or 31 March 2027, not '{shown(scalar.text)}'"
        fields.findings.error("date-unclear", scalar.mark, message)
    return day


def _lengths(fields: Fields) -> Iterator[int]:
    for scalar in fields.texts("length"):
        bars = expect_number(scalar, "length", 1, bounds.BARS, "bars", fields.findings)
        if bars is not None:
            yield bars


def _rhythm(scalar: Scalar, knowledge: Knowledge, fields: Fields) -> str | None:
    row = find_rhythm(scalar.text, knowledge.rhythms)
    if row is None:
        names = [name for r in knowledge.rhythms for name in (r.name, *r.also)]
        hint, near = did_you_mean(scalar.text, names)
        message = f"there is no rhythm '{shown(scalar.text)}'{hint or '; lodestep terms lists them'}"
        fields.findings.error("rhythm-unknown", scalar.mark, message, near)
    return row.name if row else None


def _tempi(fields: Fields, knowledge: Knowledge) -> Iterator[tuple[str, Tempo]]:
    """One tempo for all, or one each by rhythm."""
    node = fields.values.get("tempo")
    if not isinstance(node, Mapping):
        scalar = fields.text("tempo")
        tempo = _tempo(scalar, fields) if scalar else None
        if tempo:
            yield "", tempo
        return
    for entry in node.entries:
        name, value = _rhythm(entry.key, knowledge, fields), expect_text(entry.value, "tempo", fields.findings)
        tempo = _tempo(value, fields) if value else None
        if name and tempo:
            yield name, tempo


def _tempo(scalar: Scalar, fields: Fields) -> Tempo | None:
    tempo = parse_tempo(scalar.text)
    if tempo is None or tempo.most > bounds.TEMPO.most:
        message = f"'tempo' is bars a minute, such as 42 or 40-44, not '{shown(scalar.text)}'"
        fields.findings.error("tempo-unclear", scalar.mark, message)
        return None
    return tempo


def _allowance(fields: Fields, key: str, knowledge: Knowledge) -> Allowance:
    """Names that alone are allowed, one or a list; or a mapping with 'only' and 'not'."""
    node = fields.values.get(key)
    if not isinstance(node, Mapping):
        return Allowance(only=tuple(_names(fields.texts(key), key, knowledge, fields.findings)))
    each = expect_fields(node, f"'{key}'", ALLOWANCE_KEYS, fields.findings)
    assert each is not None
    only, barred = (tuple(_names(each.texts(k), key, knowledge, fields.findings)) for k in ALLOWANCE_KEYS)
    return Allowance(only, barred)


def _names(scalars: tuple[Scalar, ...], key: str, knowledge: Knowledge, findings: Findings) -> Iterator[str]:
    """The names as the tables have them; one that is in no table is told."""
    rows: dict[str, str] = {}
    if key == "figures":
        rows = {plain(name): name for name in knowledge.figures.names()}
    else:
        table = knowledge.holds if key == "holds" else knowledge.positions
        rows = {plain(name): row.name for row in table for name in (row.name, *row.also)}
    for scalar in scalars:
        name = rows.get(plain(scalar.text))
        if name is None:
            hint, near = did_you_mean(scalar.text, rows.values())
            message = f"there is no '{shown(scalar.text)}' among the {key}{hint}"
            findings.error("unknown-choice", scalar.mark, message, near)
        else:
            yield name


def _layout(fields: Fields) -> str:
    scalar = fields.text("layout")
    name = scalar.text.strip() if scalar else "entry"
    if scalar and name not in layout_names():
        hint, near = did_you_mean(name, layout_names())
        message = f"there is no layout '{shown(name)}'{hint or '; lodestep layouts lists them'}"
        fields.findings.error("unknown-layout", scalar.mark, message, near)
        return "entry"
    return name


@dataclass(frozen=True, slots=True)
class ParticularsReading:
    """An entrant's particulars by plain key, in the file's order."""

    values: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]
    usable: bool = True


def read_particulars(source: bytes, file: str, wanted: tuple[str, ...]) -> ParticularsReading:
    """Lines of 'key: value' with any keys. wanted: those that the rules ask for; one that is nearly so is told."""
    findings = Findings()
    try:
        root = read_nodes(source, file)
    except Unreadable as fault:
        return ParticularsReading((), (fault.finding,), lines_to_show(source), usable=False)
    keys = tuple(plain_key(entry.key.text) for entry in root.entries) if isinstance(root, Mapping) else ()
    fields = expect_fields(root, "the particulars", keys, findings)
    values = tuple((key, text) for key in keys if fields and (text := fields.words(key, bounds.SCALAR)))
    for entry in root.entries if isinstance(root, Mapping) else ():
        missing = [key for key in wanted if key not in keys]
        hint, near = did_you_mean(plain_key(entry.key.text), missing)
        if near and plain_key(entry.key.text) not in wanted:
            message = f"'{shown(entry.key.text)}' is not asked for{hint}"
            findings.warning("unknown-key", entry.key.mark, message, near)
    return ParticularsReading(values, tuple(in_file_order(findings.found)), lines_to_show(source), fields is not None)
