"""A part of a passage: step lines, a derivation from the partner's, or a call of a library figure."""
from __future__ import annotations

from notation.dance.mark import Said
from notation.dance.script import Call, Derivation, Derived, Part, Replacement, Written
from notation.reading import bounds
from notation.reading.counts import parse_count
from notation.reading.nodes import Scalar, TextRow
from notation.reading.stepline import Reader, read_line, read_replacement


def read_part(scalar: Scalar, reader: Reader) -> Part | None:
    """The part a text says; None with a finding where it has too many lines or none."""
    rows = tuple(row for row in scalar.rows if row.text.strip() and not row.text.lstrip().startswith("#"))
    if not rows:
        reader.findings.error("value-missing", scalar.mark, "this part has no lines")
        return None
    if len(rows) > bounds.STEP_LINES.most:
        reader.findings.error("too-many-lines", scalar.mark, bounds.STEP_LINES.words)
        return None
    how = _derivation(rows[0], reader)
    if how is not None:
        return _derived(how, rows[1:], scalar, reader)
    if len(rows) == 1 and not _begins_with_count(rows[0]):
        return _call(rows[0], scalar)
    lines = tuple(line for row in rows if (line := read_line(row, reader)) is not None)
    return Written(lines, scalar.mark)


def _derivation(row: TextRow, reader: Reader) -> Derivation | None:
    word = row.text.partition("#")[0].strip().rstrip(":")
    named = reader.lexicon.phrases.get((word.lower(),), ())
    return next((Derivation(w.name) for w in named if w.kind == "derivation"), None)


def _derived(how: Derivation, rows: tuple[TextRow, ...], scalar: Scalar, reader: Reader) -> Derived:
    read = (read_replacement(row, reader) for row in rows)
    return Derived(how, tuple(Replacement(bar, step) for bar, step in filter(None, read)), scalar.mark)


def _begins_with_count(row: TextRow) -> bool:
    first = row.text.split()[0]
    return parse_count(first, row.mark()) is not None or first.lower() == "bar"


def _call(row: TextRow, scalar: Scalar) -> Call:
    text = row.text.partition(" #")[0]
    pieces, start = [], 0
    for piece in text.split(","):
        lead = len(piece) - len(piece.lstrip())
        pieces.append(Said(piece.strip(), row.mark(start + lead, start + len(piece.rstrip()))))
        start += len(piece) + 1
    return Call(pieces[0], tuple(p for p in pieces[1:] if p.text), scalar.mark)


