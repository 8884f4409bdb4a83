"""How wide the columns of a table have to be for its words, and where each then stands."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from notation.page.columns import Group, choose, squeezed
from notation.page.content import Cell, Column, Row, Table
from notation.page.fault import LayoutError
from notation.page.flow import Setting
from notation.page.linebreak import Profile, fits, profile
from notation.page.text import Measured, line_steps, measured, opened, widest_syllable

SHORT_WORD = 3.0  # ems; about seven letters
WIDEST_GAP = 1.6  # white left over widens the gaps to at most so many times what was asked


@dataclass(frozen=True, slots=True)
class Place:
    """A column on the page: x of its left edge, width of its slot and of its words, all in points."""

    x: float
    slot: float
    width: float

    @property
    def words(self) -> float:
        """x of the words."""
        return self.x + self.slot

    @property
    def right(self) -> float:
        return self.x + self.slot + self.width


@dataclass(frozen=True, slots=True)
class _Want:
    """What a column asks for: bounds of its width by its words, in points; cells: by row, None for none."""

    column: Column
    least: float
    natural: float
    cells: Sequence[Cell | None]

    def texts(self, to: Setting) -> list[Measured]:
        return [measured(cell.content, to.faces) for cell in self.cells if cell is not None]


def table_rows(table: Table) -> Iterator[Row]:
    for section in table.sections:
        for block in section.blocks:
            yield from block.rows


def _column_cells(table: Table) -> dict[str, list[Cell | None]]:
    """The cells of each column row by row, its head first; cells that span columns are left out."""
    words: dict[str, list[Cell | None]] = {c.key: [Cell(c.key, c.head)] for c in table.columns}
    for number, row in enumerate(table_rows(table), 2):
        for cell in row.cells:
            if cell.span == 1 and cell.column in words:
                words[cell.column].append(cell)
        for listed in words.values():
            if len(listed) < number:
                listed.append(None)
    return words


def _want(column: Column, cells: Sequence[Cell | None], to: Setting) -> _Want:
    texts = [measured(cell.content, to.faces) for cell in cells if cell is not None]
    least = max(column.least, max(t.widest for t in texts))
    natural = max(least, max(t.natural for t in texts))
    return _Want(column, min(least, column.most), max(min(natural, column.most), column.least), cells)


def _profile(cell: Cell | None, least: float, to: Setting) -> Profile:
    """Height in steps by width, without the lines that run down beside other rows; empty where one line does at the
    least width."""
    if cell is None:
        return ()
    text = measured(cell.content, to.faces)
    pitch = line_steps(cell.content, to.step)
    if not text.atoms or (fits(text.natural, least) and pitch <= 1):
        return ()
    if not fits(text.widest, least):
        text = opened(text, least, to.faces, to.language)
    key = (text.number, least, pitch)
    known = to.faces.memory.get(key)
    if known is None:
        steps = profile(text.breakable, least)
        known = to.faces.remember(key, tuple((width, lines * pitch) for width, lines in steps))
    return tuple(known) if cell.deep == 1 else _beside(tuple(known), (cell.deep - 1) * pitch, pitch)


def _beside(known: Profile, spare: float, least: float) -> Profile:
    """The profile of a cell with so many steps to run down in."""
    found: list[tuple[float, float]] = []
    for width, steps in known:
        left = max(least, steps - spare)
        if not found or left < found[-1][1]:
            found.append((width, left))
    return tuple(found)


def _group(wants: Sequence[_Want], to: Setting) -> Group:
    """Columns of one width. Rows in which nothing can be broken are all alike and stand as rows of one line."""
    least, most = max(w.least for w in wants), max(w.natural for w in wants)
    rows = []
    for cells in zip(*(w.cells for w in wants), strict=True):
        rows.append(tuple(p for p in (_profile(cell, least, to) for cell in cells) if p))
    return Group(len(wants), least, most, rows)


def _only_breakable(groups: Sequence[Group]) -> list[Group]:
    """The groups without the rows that no width changes."""
    kept = [k for k in range(len(groups[0].rows)) if any(group.rows[k] for group in groups)]
    return [Group(g.columns, g.least, g.most, [g.rows[k] for k in kept]) for g in groups]


def _grouped(wants: Sequence[_Want]) -> list[list[int]]:
    """The columns by their word for `alike`."""
    groups: dict[str, list[int]] = {}
    for number, want in enumerate(wants):
        groups.setdefault(want.column.alike or f"\0{number}", []).append(number)
    return list(groups.values())


def _widths(wants: Sequence[_Want], available: float, to: Setting) -> list[float]:
    """Whole words in equal columns; else whole words; else words divided at syllables; else anywhere."""
    apart = [[k] for k in range(len(wants))]
    found = _searched(wants, _grouped(wants), available, to) or _searched(wants, apart, available, to)
    if found is None:
        narrower = [_divided(want, to) for want in wants]
        found = _searched(narrower, _grouped(wants), available, to) or _searched(narrower, apart, available, to)
    return found or _crushed(wants, available, to)


def _searched(wants: Sequence[_Want], numbers: Sequence[Sequence[int]], available: float,
              to: Setting) -> list[float] | None:
    """The widths of least height, with columns of one width as `numbers` groups them. None where they do not fit."""
    if not fits(sum(len(group) * max(wants[k].least for k in group) for group in numbers), available):
        return None
    groups = _only_breakable([_group([wants[k] for k in group], to) for group in numbers])
    chosen = choose(groups, available)
    widths = {k: width for group, width in zip(numbers, chosen, strict=True) for k in group}
    return [widths[k] for k in range(len(wants))]


def _divided(want: _Want, to: Setting) -> _Want:
    """The same column, content with the width of its widest syllable, but not narrower than some short words need."""
    texts = want.texts(to)
    syllable = max(widest_syllable(text, to.faces, to.language) for text in texts)
    short = SHORT_WORD * max(atom.style.size for text in texts for atom in text.atoms) if any(
        text.atoms for text in texts) else 0.0
    return replace(want, least=max(want.column.least, min(want.least, max(syllable, short))))


def _crushed(wants: Sequence[_Want], available: float, to: Setting) -> list[float]:
    """Widths where words have to be broken."""
    found = squeezed([w.least for w in wants], [_widest_letter(w, to) for w in wants], available)
    if found is None:
        raise LayoutError(
            f"{len(wants)} columns do not fit side by side on this paper; take larger paper, hold it sideways, "
            "use smaller type or leave columns out"
        )
    return list(found)


def _widest_letter(want: _Want, to: Setting) -> float:
    """Points; the least width at which the column can be set at all."""
    widest = 0.0
    for text in want.texts(to):
        for atom in text.atoms:
            for shaped in atom.shaped:
                advances = to.faces.face(shaped.face).advances
                widest = max(widest, max(map(advances.__getitem__, shaped.text)) * atom.style.size / 1000)
    return widest + 0.01


def _slots(table: Table) -> dict[str, float]:
    """The slot of each column, at least as wide as its widest drawing."""
    slots = {column.key: column.slot for column in table.columns}
    for row in table_rows(table):
        for cell in row.cells:
            if cell.drawing is not None and cell.column in slots:
                slots[cell.column] = max(slots[cell.column], cell.drawing.width)
    return slots


def places(table: Table, to: Setting) -> tuple[Place, ...]:
    """Where each column stands. LayoutError where they cannot stand side by side at all."""
    cells, slots = _column_cells(table), _slots(table)
    wants = [_want(column, cells[column.key], to) for column in table.columns]
    gaps = [0.0, *(column.gap for column in table.columns[1:])]
    available = to.width - sum(gaps) - sum(slots.values())
    widths = _widths(wants, available, to)
    white = _gap_factor(available - sum(widths), sum(gaps))
    found, x = [], 0.0
    for want, gap, width in zip(wants, gaps, widths, strict=True):
        place = Place(x + gap * white, slots[want.column.key], width)
        found.append(place)
        x = place.right
    return tuple(found)


def _gap_factor(left: float, gaps: float) -> float:
    return min(WIDEST_GAP, 1 + max(0.0, left) / gaps) if gaps else 1.0
