"""The breaker against trying every way to break."""
import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.page.columns import lines_at
from notation.page.linebreak import LEAST_LAST, NEVER, Breakable, breaks, fits, profile


def laid_out(widths: list[float], gaps: list[float], penalties: list[float], extras: list[float]) -> Breakable:
    starts, x = [], 0.0
    for width, gap in zip(widths, gaps, strict=True):
        starts.append(x)
        x += width + gap
    ends = tuple(s + w for s, w in zip(starts, widths, strict=True))
    return Breakable(tuple(starts), ends, (*extras[:-1], 0.0), tuple(penalties))


@st.composite
def texts(draw: st.DrawFn) -> Breakable:
    count = draw(st.integers(1, 9))
    widths = draw(st.lists(st.integers(2, 30).map(float), min_size=count, max_size=count))
    soft = draw(st.lists(st.sampled_from(["space", "soft", "never"]), min_size=count, max_size=count))
    gaps = [3.0 if kind == "space" else 0.0 for kind in soft]
    penalties = [{"space": 0.0, "soft": 0.2, "never": NEVER}[kind] for kind in soft]
    return laid_out(widths, gaps, penalties, [2.0 if kind == "soft" else 0.0 for kind in soft])


def ways(text: Breakable, width: float) -> list[list[int]]:
    """All ways to break of which no line is too wide."""
    *inner, last = text.legal()
    found = []
    for chosen in itertools.product([False, True], repeat=len(inner)):
        ends = [k for k, take in zip(inner, chosen, strict=True) if take] + [last]
        firsts = [0, *(k + 1 for k in ends[:-1])]
        if all(fits(text.width(a, b), width) for a, b in zip(firsts, ends, strict=True)):
            found.append(ends)
    return found


def cost(text: Breakable, ends: list[int], width: float, balanced: bool) -> tuple[int, float]:
    firsts = [0, *(k + 1 for k in ends[:-1])]
    lines = list(zip(firsts, ends, strict=True))
    full = [width] * (len(lines) - 1) + [width if balanced else LEAST_LAST * width]
    ragged = sum((max(0.0, most - text.width(a, b)) / most) ** 2 for most, (a, b) in zip(full, lines, strict=True))
    return len(ends), ragged + sum(text.penalties[k] for k in ends[:-1])


@settings(max_examples=150, deadline=None)
@given(texts(), st.integers(0, 60), st.booleans())
def test_equals_brute_force(text: Breakable, more: int, balanced: bool) -> None:
    width = text.widest_group() + more
    best = min(cost(text, way, width, balanced) for way in ways(text, width))
    assert cost(text, breaks(text, width, balanced), width, balanced) == pytest.approx(best)


@settings(max_examples=150, deadline=None)
@given(texts(), st.integers(0, 80))
def test_profile_gives_the_fewest_lines(text: Breakable, more: int) -> None:
    steps = profile(text, 0.0)
    width = steps[0][0] + more
    assert lines_at(steps, width) == min(len(way) for way in ways(text, width))
    for at, lines in steps[1:]:
        assert min(len(way) for way in ways(text, at)) == lines
        assert min(len(way) for way in ways(text, at - 0.01)) > lines


def test_too_wide_a_group_stands_alone() -> None:
    text = laid_out([10, 90, 10], [3, 3, 3], [0, 0, 0], [0, 0, 0])
    assert breaks(text, 50) == [0, 1, 2]


def test_worked_example() -> None:
    """Words of 3 2 2 5, spaces of 1, lines of 6, worked by hand: filling each line first leaves 0 and 4 (squares 16),
    the even way 3 and 1 (squares 10); the last line is free. The task is that of Knuth and Plass, "Breaking paragraphs
    into lines", Software: Practice and Experience 11 (1981), without stretch."""
    text = laid_out([3, 2, 2, 5], [1, 1, 1, 1], [0, 0, 0, 0], [0, 0, 0, 0])
    assert breaks(text, 6) == [0, 2, 3]


def test_penalty_moves_a_break() -> None:
    widths, gaps = [20.0, 20.0, 20.0], [0.0, 3.0, 3.0]
    free = laid_out(widths, gaps, [0.0, 0.0, 0.0], [0, 0, 0])
    dear = laid_out(widths, gaps, [math.inf, 0.0, 0.0], [0, 0, 0])
    assert breaks(free, 45) == [1, 2] == breaks(dear, 45)
    assert breaks(dear, 44) == [1, 2]


def test_the_last_word_does_not_stand_alone_where_the_line_before_can_spare_one() -> None:
    """Five words of 10 and one of 4, spaces of 1, lines of 45: the last line takes a word from the first. Common
    practice of printers, no source."""
    text = laid_out([10, 10, 10, 10, 4], [1] * 5, [0] * 5, [0] * 5)
    assert breaks(text, 45) == [2, 4]
