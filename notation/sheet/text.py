"""A story as plain text: for an e-mail, a terminal or a braille line. Nothing is drawn; every word is there."""
from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from notation.page.content import (
    Align,
    Cell,
    Column,
    Figure,
    FigureRow,
    Flow,
    Key,
    Paragraph,
    Particulars,
    Row,
    Story,
    Table,
)

GAP = "  "
LEAST_COLUMN = 8
UNDERLINES = {"H1": "=", "H2": "-"}


def story_text(story: Story, width: int = 100) -> str:
    """The words of a story in lines of at most `width` characters (longer only where a single word is)."""
    blocks = ("\n".join(_part(part, width)) for part in story.flow)
    return "\n\n".join(block for block in blocks if block.strip()) + "\n"


def plain(paragraph: Paragraph) -> str:
    """The words with common spaces, without soft hyphens."""
    return " ".join(paragraph.text.replace("\u00ad", "").split())


def _part(part: Flow, width: int) -> Iterator[str]:
    match part:
        case Paragraph():
            yield from _paragraph(part, width)
        case Particulars(pairs):
            yield from _pairs([(plain(label), plain(value)) for label, value in pairs], width)
        case Table():
            yield from _table(part, width)
        case Key(heading, entries):
            words = [(plain(one), plain(two)) for one, two in entries if isinstance(one, Paragraph)]
            if words:
                yield plain(heading)
                yield from _pairs(words, width)
        case Figure():
            yield from _figure(part, width)
        case FigureRow(figures):
            for figure in figures:
                yield from _figure(figure, width)


def _paragraph(paragraph: Paragraph, width: int) -> Iterator[str]:
    lines = textwrap.wrap(plain(paragraph), width, break_long_words=False) or [""]
    yield from lines
    if paragraph.kind in UNDERLINES:
        yield UNDERLINES[paragraph.kind] * max(map(len, lines))


def _figure(figure: Figure, width: int) -> Iterator[str]:
    words = figure.drawing.alt or (plain(figure.caption) if figure.caption else "")
    yield from textwrap.wrap(f"[{words}]", width) if words else ()


def _pairs(pairs: Sequence[tuple[str, str]], width: int) -> Iterator[str]:
    room = max((len(label) for label, _ in pairs), default=0)
    for label, value in pairs:
        lines = textwrap.wrap(value, max(LEAST_COLUMN, width - room - len(GAP)), break_long_words=False) or [""]
        yield f"{label:<{room}}{GAP}{lines[0]}".rstrip()
        yield from (" " * (room + len(GAP)) + line for line in lines[1:])


def _table(table: Table, width: int) -> Iterator[str]:
    widths = _widths(table, width)
    yield from _lines([plain(column.head) for column in table.columns], table.columns, widths)
    yield "-" * (sum(widths) + len(GAP) * (len(widths) - 1))
    for section in table.sections:
        if section.heading is not None:
            yield ""
            yield plain(section.heading)
        for block in section.blocks:
            yield from _rows(block.rows, table.columns, widths)
        for part in section.below:
            yield from _part(part, width)


def _rows(rows: Sequence[Row], columns: Sequence[Column], widths: Sequence[int]) -> Iterator[str]:
    """The rows of a block; a deep cell goes on a line in each row below, and with all that is left in its last."""
    room = dict(zip((column.key for column in columns), widths, strict=True))
    waiting: dict[str, tuple[int, list[str]]] = {}
    for number, row in enumerate(rows):
        if len(row.cells) == 1 and row.cells[0].span > 1:
            yield plain(row.cells[0].content)
            continue
        said = {cell.column: plain(cell.content) for cell in row.cells}
        for cell in (cell for cell in row.cells if cell.deep > 1):
            last = min(number + cell.deep, len(rows)) - 1
            waiting[cell.column] = (last, _tied_lines(cell, room[cell.column]))
        for key, (last, lines) in waiting.items():
            if number <= last:
                said[key] = " ".join(lines if number == last else lines[:1])
                del lines[:1]
        yield from _lines([said.get(column.key, "") for column in columns], columns, widths)


def _lines(cells: Sequence[str], columns: Sequence[Column], widths: Sequence[int]) -> Iterator[str]:
    wrapped = [textwrap.wrap(cell, room, break_long_words=False) for cell, room in zip(cells, widths, strict=True)]
    for line in zip_longest(*wrapped, fillvalue=""):
        placed = (_placed(text, column, room) for text, column, room in zip(line, columns, widths, strict=True))
        yield GAP.join(placed).rstrip()


def _placed(text: str, column: Column, room: int) -> str:
    return text.center(room) if column.head.align is Align.CENTRE else text.ljust(room)


def _natural(cell: Cell) -> int:
    """Characters that the cell wants in a line, so that it takes no more lines than it has rows to run down."""
    words = plain(cell.content)
    longest = max(map(len, cell.content.text.split(" ")))
    rooms = range(longest, len(words)) if cell.deep > 1 else ()
    return next((room for room in rooms if len(_tied_lines(cell, room)) <= cell.deep), len(words))


def _tied_lines(cell: Cell, room: int) -> list[str]:
    """The words in lines that part no tied words, where these are not longer than a line."""
    tied = cell.content.text.replace("\u00ad", "")
    lines = textwrap.wrap(tied, room, break_long_words=False)
    if any(len(line) > room for line in lines):
        return textwrap.wrap(plain(cell.content), room, break_long_words=False)
    return [line.replace("\u00a0", " ") for line in lines]


def _widths(table: Table, width: int) -> list[int]:
    """Natural widths; where they are too many, the widest columns give way."""
    found = [len(plain(column.head)) for column in table.columns]
    for section in table.sections:
        for block in section.blocks:
            for row in block.rows:
                said = {cell.column: _natural(cell) for cell in row.cells if cell.span == 1}
                found = [max(room, said.get(c.key, 0)) for room, c in zip(found, table.columns, strict=True)]
    over = sum(found) + len(GAP) * (len(found) - 1) - width
    while over > 0 and max(found) > LEAST_COLUMN:
        found[found.index(max(found))] -= 1
        over -= 1
    return found
