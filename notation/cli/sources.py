"""Dance files named on the command line: read, worked out and checked."""
from __future__ import annotations

import sys
from dataclasses import dataclass, replace
from pathlib import Path

from notation.bounds import FILE_BYTES
from notation.cli.report import Report, file_report
from notation.dance.checks import check
from notation.dance.finding import in_file_order
from notation.dance.knowledge import Knowledge
from notation.dance.script import Worked
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.knowledge import knowledge_beside, load_knowledge

STANDARD_INPUT = "-"


@dataclass(frozen=True, slots=True)
class Source:
    """A dance file: its name, its bytes, the dance worked out (None where it cannot be) and what was found."""

    name: str
    data: bytes
    worked: Worked | None
    report: Report


def load(name: str, checked: bool = True) -> Source:
    """Read a file, or standard input for '-'; what goes wrong is in the report. checked: by all rules."""
    data = read_source(name)
    if isinstance(data, Report):
        return Source(name, b"", None, data)
    made = worked_source if checked else unchecked_source
    return made("<standard input>" if name == STANDARD_INPUT else name, data)


def read_source(name: str) -> bytes | Report:
    """The bytes of a file, or of standard input for '-'; or the report of why it cannot be read."""
    try:
        return _bytes(name)
    except IsADirectoryError:
        return _unread(name, f"'{name}' is a folder; name dance files, such as {name.rstrip('/')}/*.yaml")
    except FileNotFoundError:
        return _unread(name, f"there is no file '{name}'; look at its name and folder")
    except (OSError, ValueError) as fault:
        return _unread(name, f"'{name}' cannot be read: {getattr(fault, 'strerror', None) or fault}")


def worked_source(name: str, data: bytes) -> Source:
    """The dance in these bytes, worked out and checked."""
    knowledge = _knowledge(name)
    source = _worked_out(name, data, knowledge)
    if source.worked is None:
        return source
    findings = in_file_order([*source.report.findings, *check(source.worked, knowledge)])
    return replace(source, report=replace(source.report, findings=tuple(findings)))


def unchecked_source(name: str, data: bytes) -> Source:
    """The dance in these bytes, worked out; only what the reader found is in the report."""
    return _worked_out(name, data, _knowledge(name))


def _worked_out(name: str, data: bytes, knowledge: Knowledge) -> Source:
    reading = read_dance(data, name, knowledge)
    if reading.dance is None:
        return Source(name, data, None, Report(name, reading.findings, reading.lines, usable=False))
    return Source(name, data, work_out(reading.dance, knowledge), Report(name, reading.findings, reading.lines))


def _knowledge(name: str) -> Knowledge:
    return load_knowledge() if name.startswith("<") else knowledge_beside(Path(name).parent)


def _bytes(name: str) -> bytes:
    """At most one byte more than is read anyway: the reader says that it is too large."""
    if name == STANDARD_INPUT:
        return sys.stdin.buffer.read(FILE_BYTES.most + 1)
    with Path(name).open("rb") as file:
        return file.read(FILE_BYTES.most + 1)


def _unread(name: str, message: str) -> Report:
    return file_report(name, "file-unreadable", message)
