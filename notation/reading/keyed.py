"""Files that are lines of 'key: value': how each of them is read, whatever it is about."""
from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from notation.dance.finding import Finding, in_file_order
from notation.reading.fields import Fields, Findings, expect_fields
from notation.reading.nodes import Node, Unreadable, lines_to_show, read_nodes

Made = TypeVar("Made")
Read = tuple[Made | None, tuple[Finding, ...], tuple[str, ...]]
"""What a file gave, or None where it cannot be used; the findings in file order; its lines, for showing findings."""


def _any(root: Node) -> Finding | None:
    return None


def read_keyed(
    source: bytes,
    file: str,
    what: str,
    keys: tuple[str, ...],
    made: Callable[[Fields], Made | None],
    other_kind: Callable[[Node], Finding | None] = _any,
) -> Read[Made]:
    """Read a file of known keys. Raises nothing: what is wrong is among the findings.

    file: its name as findings show it. what: what it is, in words. other_kind: the finding that says that the file is
    about something else, and then the only one.
    """
    lines = lines_to_show(source)
    try:
        root = read_nodes(source, file)
    except Unreadable as fault:
        return None, (fault.finding,), lines
    mistaken = other_kind(root)
    if mistaken is not None:
        return None, (mistaken,), lines
    findings = Findings()
    fields = expect_fields(root, what, keys, findings)
    if fields is None:
        return None, tuple(findings.found), lines
    fields.check_format()
    value = made(fields)
    return value, tuple(in_file_order(findings.found)), lines
