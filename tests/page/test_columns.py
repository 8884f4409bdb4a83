"""The column search against trying every choice of widths."""
import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.page.columns import Group, choose, lines_at, squeezed
from notation.page.linebreak import Profile, fits


@st.composite
def profiles(draw: st.DrawFn, least: float) -> Profile:
    steps = sorted(draw(st.sets(st.integers(0, 60), max_size=3)))
    widths = [least, *(least + s + 1 for s in steps)]
    return tuple((float(w), float(len(widths) - k)) for k, w in enumerate(widths))


@st.composite
def tables(draw: st.DrawFn) -> tuple[list[Group], float]:
    rows = draw(st.integers(1, 4))
    groups = []
    for _ in range(draw(st.integers(1, 4))):
        least, columns = float(draw(st.integers(5, 20))), draw(st.integers(1, 2))
        cells = [tuple(draw(profiles(least)) for _ in range(columns)) for _ in range(rows)]
        groups.append(Group(columns, least, 1000.0, cells))
    least = sum(g.least * g.columns for g in groups)
    return groups, least + draw(st.integers(0, 150))


def value(groups: list[Group], widths: tuple[float, ...]) -> tuple[float, float, float]:
    """Height of the rows, lines of all cells, width; counted from the profiles, not by the group."""
    cells = [[[lines_at(p, w) for p in row] for row in g.rows] for g, w in zip(groups, widths, strict=True)]
    height = sum(max(max(row) for row in rows) for rows in zip(*cells, strict=True))
    lines = sum(line for rows in cells for row in rows for line in row)
    return height, lines, sum(g.columns * w for g, w in zip(groups, widths, strict=True))


@settings(max_examples=150, deadline=None)
@given(tables())
def test_equals_brute_force(table: tuple[list[Group], float]) -> None:
    groups, available = table
    every = itertools.product(*(group.widths() for group in groups))
    best = min(
        value(groups, widths)
        for widths in every
        if fits(sum(g.columns * w for g, w in zip(groups, widths, strict=True)), available)
    )
    assert value(groups, choose(groups, available)) == best


@given(st.lists(st.tuples(st.integers(5, 100), st.integers(1, 5)), min_size=1, max_size=6), st.integers(0, 300))
def test_squeezed_widths(bounds: list[tuple[int, int]], room: int) -> None:
    wanted, floors = [float(w) for w, _ in bounds], [float(f) for _, f in bounds]
    found = squeezed(wanted, floors, room)
    if sum(floors) > room:
        assert found is None
        return
    assert found is not None and sum(found) <= room + 0.01
    assert all(f - 0.001 <= w <= m + 0.001 for w, f, m in zip(found, floors, wanted, strict=True))
    assert sum(found) == pytest.approx(min(sum(wanted), room), abs=0.01)


def test_words_are_not_broken_beside_white_even_in_a_row_that_is_two_lines_high() -> None:
    """The first column cannot do with one line in the room there is; the second can, and is not narrowed in vain."""
    first = Group(1, 20.0, 500.0, [(((20.0, 2.0), (300.0, 1.0)),)])
    second = Group(1, 20.0, 500.0, [(((20.0, 2.0), (60.0, 1.0)),)])
    assert choose([first, second], 150.0) == (20.0, 60.0)
    assert choose([second, first], 150.0) == (60.0, 20.0)
