"""A programme file: the particulars of an evening, its dances in their order, its intervals."""
from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from notation import bounds
from notation.dance.finding import Finding
from notation.dance.mark import Said
from notation.dance.programme import Item, Programme
from notation.reading.fields import Fields, Findings, expect_fields, shown
from notation.reading.keyed import read_keyed
from notation.reading.nodes import Node, Scalar, Sequence

KEYS = ("format", "title", "club", "date", "place", "starts", "times", "gap", "dances")
ITEM_KEYS = ("dance", "called", "times", "gap", "lasts", "interval")
MINUTES, S = r"(?P<minutes>\d{1,5})\s*min(?:ute)?s?", r"(?P<seconds>\d{1,5})\s*s(?:ec(?:ond)?s?)?"
DURATIONS = (r"(?P<minutes>\d{1,4}):(?P<seconds>[0-5]\d)", r"(?P<minutes>\d{1,5})", MINUTES, S, rf"{MINUTES}\s*{S}")
USUAL_TIMES = 5
USUAL_GAP = Fraction(60)
"""Seconds from the end of a dance to the next one's introduction; no source, a value that the file can change."""


@dataclass(frozen=True, slots=True)
class ProgrammeReading:
    """What a programme file gave. programme: None where it cannot be used. lines: of the file, to show findings."""

    programme: Programme | None
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Usual:
    """What holds for items that say nothing else."""

    times: int
    gap: Fraction


def read_programme(source: bytes, file: str) -> ProgrammeReading:
    """Read a programme file. file: its name as findings show it. Raises nothing: what is wrong is in the findings."""
    return ProgrammeReading(*read_keyed(source, file, "a programme", KEYS, _programme))


def _programme(fields: Fields) -> Programme | None:
    """The programme; None where there is nothing to time."""
    top = fields.top
    for key, example in (("title", "Autumn Tea Dance"), ("starts", "19:30"), ("dances", "[first.yaml, second.yaml]")):
        if key not in fields.values:
            message = f"the programme has no '{key}'; write one, such as '{key}: {example}'"
            fields.findings.error("key-missing", top, message)
    times = fields.number("times", 1, bounds.TIMES, "times") or USUAL_TIMES
    gap = _duration(fields, "gap")
    items = _items(fields, _Usual(times, USUAL_GAP if gap is None else gap))
    starts = _clock(fields)
    if not items or starts is None:
        return None
    line = {key: fields.line(key) for key in ("club", "date", "place")}
    title = fields.line("title", bounds.TITLE)
    return Programme(title, line["club"], line["date"], line["place"], starts, items, top)


def _items(fields: Fields, usual: _Usual) -> tuple[Item, ...]:
    node = fields.values.get("dances")
    if node is None:
        return ()
    if not isinstance(node, Sequence) or not node.items:
        fields.findings.error("not-a-list", node.mark, "'dances' must be a list: each line begins with a dash")
        return ()
    if len(node.items) > bounds.ITEMS.most:
        fields.findings.error("too-many-items", node.mark, bounds.ITEMS.words)
    read = (_item(item, usual, fields.findings) for item in node.items[: bounds.ITEMS.most])
    return tuple(item for item in read if item is not None)


def _item(node: Node, usual: _Usual, findings: Findings) -> Item | None:
    """A line: the name of a file alone, or keys."""
    if isinstance(node, Scalar) and node.text.strip():
        return Item(Said(node.text.strip(), node.mark), "", usual.times, None, usual.gap, mark=node.mark)
    fields = expect_fields(node, "a line of 'dances'", ITEM_KEYS, findings)
    if fields is None:
        return None
    if "interval" in fields.values:
        return _interval(fields)
    said, lasts = fields.said("dance"), _duration(fields, "lasts")
    called = fields.line("called", bounds.TITLE)
    if said is None and (not called or lasts is None):
        message = "this line names no 'dance'; without its file, write 'called' and how long it 'lasts'"
        findings.error("dance-missing", fields.mark, message)
        return None
    gap = _duration(fields, "gap")
    times = fields.number("times", 1, bounds.TIMES, "times") or usual.times
    return Item(said, called, times, lasts, usual.gap if gap is None else gap, mark=fields.mark)


def _interval(fields: Fields) -> Item | None:
    for key in ("dance", "times", "lasts"):
        if key in fields.values:
            message = f"an interval has no '{key}'; give each a line of its own"
            fields.findings.error("interval-and-dance", fields.values[key].mark, message)
    lasts, gap = _duration(fields, "interval"), _duration(fields, "gap")
    called = fields.line("called", bounds.TITLE) or "Interval"
    return Item(None, called, 1, lasts, gap or Fraction(0), True, fields.mark) if lasts is not None else None


def _duration(fields: Fields, key: str) -> Fraction | None:
    scalar = fields.text(key)
    found = parse_duration(scalar.text) if scalar else None
    if scalar and found is None:
        message = f"'{key}' is a length of time such as 20 min, 90 s or 3:10, not '{shown(scalar.text)}'"
        fields.findings.error("duration-unclear", scalar.mark, message)
    elif scalar and found is not None and found > 60 * bounds.LASTING.most:
        fields.findings.error("number-too-large", scalar.mark, bounds.LASTING.words)
        return None
    return found


def parse_duration(text: str) -> Fraction | None:
    """Seconds of '3:10', '20 min', '90 s', '2 min 30 s'; a bare number is minutes. None where it is none of them.

    >>> [int(parse_duration(text) or 0) for text in ("3:10", "20 min", "90 s", "2 min 30 s", "2")]
    [190, 1200, 90, 150, 120]
    """
    said = text.strip().lower()
    for form in DURATIONS:
        found = re.fullmatch(form, said, re.ASCII)
        if found:
            parts = {"minutes": "0", "seconds": "0"} | found.groupdict()
            return Fraction(int(parts["minutes"]) * 60 + int(parts["seconds"]))
    return None


def _clock(fields: Fields) -> Fraction | None:
    scalar = fields.text("starts")
    found = parse_clock(scalar.text) if scalar else None
    if scalar and found is None:
        message = f"'starts' is a time of day such as 19:30, not '{shown(scalar.text)}'"
        fields.findings.error("time-unclear", scalar.mark, message)
    return found


def parse_clock(text: str) -> Fraction | None:
    """Seconds after midnight of '19:30', '19.30' or '7:30 pm'; None where it is no time of day.

    >>> parse_clock("7.30 pm") == parse_clock("19:30"), parse_clock("25:00")
    (True, None)
    """
    found = re.fullmatch(r"(\d{1,2})[:.]([0-5]\d)\s*([ap])?\.?(?:m\.?)?", text.strip().lower(), re.ASCII)
    if not found:
        return None
    hours, half = int(found[1]), found[3]
    if hours > (12 if half else 23) or (half and hours == 0):
        return None
    hours = hours % 12 + (12 if half == "p" else 0) if half else hours
    return Fraction(hours * 3600 + int(found[2]) * 60)
