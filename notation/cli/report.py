"""Findings as text with the line and a caret, or as JSON; and the exit status they ask for."""
from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from notation.dance.finding import Finding, Severity
from notation.dance.mark import Mark

WINDOW = 100
"""Characters of a line that are shown around the place of a finding."""

NOWHERE = (1, 1, 1, 1)
"""Line and column, first and last, of what concerns a file as a whole."""

UNUSABLE = 2
FAULTY = 1


@dataclass(frozen=True, slots=True)
class Report:
    """What was found in one file.

    lines: its lines. usable: whether there was a dance to work out at all. written: the files made from it.
    """

    file: str
    findings: tuple[Finding, ...]
    lines: tuple[str, ...]
    usable: bool = True
    written: tuple[str, ...] = ()

    @property
    def has_errors(self) -> bool:
        return any(f.severity is Severity.ERROR for f in self.findings)


def exit_status(reports: Iterable[Report]) -> int:
    """0 where nothing of severity error was found, 1 where something was, 2 where a file could not be used."""
    status = 0
    for report in reports:
        if not report.usable:
            return UNUSABLE
        status = max(status, FAULTY if report.has_errors else 0)
    return status


def file_report(file: str, rule: str, message: str) -> Report:
    """The report of a file that could not be read or written; its finding has no place within the file."""
    mark = Mark(file, *NOWHERE)
    return Report(file, (Finding(rule, Severity.ERROR, mark, message),), (), usable=False)


def printable(text: str) -> str:
    """Text that cannot do anything to a terminal: control and direction characters by their code."""
    return "".join(c if unicodedata.category(c)[0] != "C" else f"\\u{ord(c):04x}" for c in text)


def report_text(report: Report) -> str:
    """All findings of a report, each with its line and a caret."""
    return "\n".join(finding_text(finding, report.lines) for finding in report.findings)


def finding_text(finding: Finding, lines: Sequence[str]) -> str:
    """`file:line:col: severity: message  [rule]`, then the line and a caret under the place."""
    mark = finding.mark
    place = f"{printable(mark.file)}:{mark.line}:{mark.column}"
    head = f"{place}: {finding.severity.value}: {printable(finding.message)}  [{finding.rule}]"
    placed = (mark.line, mark.column, mark.end_line, mark.end_column) != NOWHERE
    if not placed or not 1 <= mark.line <= len(lines) or not lines[mark.line - 1].strip():
        return head
    return "\n".join((head, *_shown(mark, lines[mark.line - 1])))


def _shown(mark: Mark, line: str) -> tuple[str, str]:
    """The line, cut to a window around the place where it is long, and the caret."""
    at = max(mark.column - 1, 0)
    start = max(0, at - WINDOW // 2) if len(line) > WINDOW else 0
    before, rest = line[start:at], line[at : start + WINDOW]
    end = mark.end_column - mark.column if mark.end_line == mark.line else len(rest)
    caret = " " * _cells(printable(before)) + "^" * max(1, min(_cells(printable(rest[:end])), WINDOW))
    return f"    {printable(before + rest)}", f"    {caret}"


def _cells(text: str) -> int:
    """Columns that a text takes in a terminal."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def reports_json(reports: Iterable[Report]) -> str:
    """All findings as a JSON array."""
    return json.dumps([_record(f) for r in reports for f in r.findings], indent=2)


def _record(finding: Finding) -> dict[str, object]:
    mark = finding.mark
    return {
        "file": mark.file,
        "line": mark.line,
        "column": mark.column,
        "end_line": mark.end_line,
        "end_column": mark.end_column,
        "severity": finding.severity.value,
        "rule": finding.rule,
        "message": finding.message,
        "suggestion": finding.suggestion,
        "bar": finding.bar,
        "count": finding.count,
        "part": finding.part,
    }


def tally(findings: Sequence[Finding]) -> str:
    """'2 errors, 1 warning', or 'nothing found'."""
    words = []
    for severity in Severity:
        number = sum(f.severity is severity for f in findings)
        if number:
            words.append(f"{number} {severity.value}{'s' if number > 1 else ''}")
    return ", ".join(words) or "nothing found"
