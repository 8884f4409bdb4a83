"""The lines of a YAML text, each with its place in the file, character by character where need be."""
from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from notation.dance.mark import Mark

UNIT = {
    '"': re.compile(r"\\(?:x..|u....|U........|\r?\n[ \t]*|.)|.", re.DOTALL),
    "'": re.compile(r"''|.", re.DOTALL),
}
PLAIN = re.compile(".", re.DOTALL)


@dataclass(frozen=True, slots=True)
class TextRow:
    """One line of a text and where it begins in the file (line and column from 1).

    places: line and column of each character, where they do not simply follow each other; else empty.
    """

    text: str
    file: str
    line: int
    column: int
    places: tuple[tuple[int, int], ...] = ()

    def mark(self, start: int = 0, end: int | None = None) -> Mark:
        """The mark of its characters from start up to end (the end of the line by default)."""
        stop = len(self.text) if end is None else end
        if self.places:
            line, column = self.places[min(start, len(self.places) - 1)]
            last, after = self.places[min(max(stop - 1, start), len(self.places) - 1)]
            return Mark(self.file, line, column, last, after + 1)
        return Mark(self.file, self.line, self.column + start, self.line, self.column + stop)


def rows_of(
    value: str, style: str | None, source: str, lines: list[str], mark: Mark
) -> tuple[tuple[TextRow, ...], bool]:
    """The lines of a scalar, and whether several lines of the file were run together into one of them.

    style: '|', '>', a quotation mark or nothing. source: the scalar as it is written. lines: of the whole file.
    """
    if style == "|":
        return tuple(_literal(value, lines, mark)), False
    quotes = 1 if style in UNIT else 0
    if len(source) == len(value) + 2 * quotes and "\n" not in value:
        return (TextRow(value, mark.file, mark.line, mark.column + quotes),), False
    units = _units(source, style, mark)
    rows = tuple(_folded(value, units, mark))
    last = max((line for row in rows for line, _ in row.places), default=mark.line)
    first = min((line for row in rows for line, _ in row.places), default=mark.line)
    return rows, last > first and len(rows) <= last - first


def _literal(value: str, lines: list[str], mark: Mark) -> Iterator[TextRow]:
    """The lines of a '|' block, each on its own line of the file."""
    for line, row in enumerate(value.rstrip("\n").split("\n"), mark.line + 1):
        whole = lines[line - 1] if line <= len(lines) else row
        yield TextRow(row, mark.file, line, max(len(whole) - len(row), 0) + 1)


def _units(source: str, style: str | None, mark: Mark) -> list[tuple[str, int, int]]:
    """The characters of a scalar as they are written, an escape being one, each with its line and column.

    A folded block's first line holds its sign only, a quoted text's first and last character are its marks.
    """
    line, begun, found = mark.line, 1 - mark.column, []
    for unit in UNIT.get(style or "", PLAIN).finditer(source):
        found.append((unit.group(), line, unit.start() - begun + 1))
        if "\n" in unit.group():
            line, begun = line + 1, unit.end()
    if style == ">":
        return [u for u in found if u[1] > mark.line]
    return found[1:-1] if style in UNIT else found


def _folded(value: str, units: list[tuple[str, int, int]], mark: Mark) -> Iterator[TextRow]:
    """The lines of a text whose characters do not simply follow each other in the file."""
    at = 0
    for row in value.rstrip("\n").split("\n"):
        places = []
        for letter in row:
            if not letter.isspace():
                at = _past_space(units, at)
            places.append(units[min(at, len(units) - 1)][1:] if units else (mark.line, mark.column))
            at += 1 if not letter.isspace() or (at < len(units) and _is_space(units[at][0])) else 0
        line, column = places[0] if places else (mark.line, mark.column)
        yield TextRow(row, mark.file, line, column, tuple(places))


def _past_space(units: list[tuple[str, int, int]], at: int) -> int:
    """The next character that is no white space; a folded line break is white space, however deep the next line."""
    while at < len(units) and _is_space(units[at][0]):
        at += 1
    return at


def _is_space(unit: str) -> bool:
    return unit.isspace() or unit in ("\\n", "\\t", "\\ ") or unit.startswith(("\\\n", "\\\r"))
