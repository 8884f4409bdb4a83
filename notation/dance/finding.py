"""What a check or the reader found, and how grave it is."""
from __future__ import annotations

import enum
from dataclasses import dataclass

from notation.bounds import FINDINGS
from notation.dance.mark import Mark


class Severity(enum.Enum):
    """error: cannot be danced or read as written. warning: unusual, look again. note: for information."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Finding:
    """One message to the writer.

    rule: its name in words ('bar-short'). message: what is wrong, in her words; what to do. suggestion: the words to
    write instead, or None. bar: number in the sequence, count: as written, part: 'gent' or 'lady'; None where they do
    not apply.
    """

    rule: str
    severity: Severity
    mark: Mark
    message: str
    suggestion: str | None = None
    bar: int | None = None
    count: str | None = None
    part: str | None = None


def in_file_order(findings: list[Finding]) -> list[Finding]:
    """The findings as a reader of the file meets them, each once."""
    return sorted(dict.fromkeys(findings), key=lambda f: (f.mark.file, f.mark.line, f.mark.column, f.rule))


def at_most(findings: list[Finding]) -> list[Finding]:
    """The findings up to the bound; one more, as grave as the gravest of the others, says that there are others."""
    kept, others = findings[: FINDINGS.most], findings[FINDINGS.most :]
    if not others:
        return findings
    gravest = min((f.severity for f in others), key=list(Severity).index)
    return [*kept, Finding("too-many-findings", gravest, others[0].mark, FINDINGS.words)]
