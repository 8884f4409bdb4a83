"""At which size a sheet is set: the largest that fills no more pages than have to be."""
from collections.abc import Callable
from dataclasses import dataclass

from hypothesis import given
from hypothesis import strategies as st

from notation.layout import Layout
from notation.page.fonts import Faces
from notation.page.units import paper
from notation.sheet import AIRY, MOST_FITTED, SIZE_STEP, TIGHT, Fit, fitted
from notation.sheet.booked import book_dance, book_layout
from tests.sheet.setting import example, knowledge

HALVES = st.integers(8, 40)


@dataclass(frozen=True)
class Pages:
    """Stands for a sheet that is divided into pages: only their number counts."""

    pages: tuple[int, ...]
    filled: float


def heights(words: int, air: int, room: int) -> Callable[[float, float], Pages]:
    """A sheet whose pages grow in number with the size of the type and with the space above figures."""
    def at(size: float, space: float) -> Pages:
        long = int(words * size * size + air * space * size)
        return Pages((0,) * -(-long // room), long / room)

    return at


def brute(at: Callable[[float, float], Pages], least: float, most: float, wanted: int | None, panels: int) -> Fit:
    """By its definition, every size tried: the largest that reaches the goal; airy where that does too."""
    sizes = [least + SIZE_STEP * k for k in range(round((most - least) / SIZE_STEP) + 1)]
    goal = max(len(at(least, TIGHT).pages), wanted or 1)
    while goal % panels:
        goal += 1
    if len(at(most, AIRY).pages) <= goal or len(at(most, AIRY).pages) > MOST_FITTED * (wanted or 1):
        return Fit(most, AIRY)
    size = max(s for s in sizes if s == least or len(at(s, TIGHT).pages) <= goal)
    return Fit(size, AIRY if len(at(size, AIRY).pages) <= goal else TIGHT)


@given(HALVES, st.integers(0, 12), st.integers(1, 900), st.integers(0, 900), st.integers(5_000, 60_000),
       st.none() | st.integers(1, 4), st.sampled_from([1, 4, 8]))
def test_the_size_found_is_that_of_all_sizes_tried(
    least: int, more: int, words: int, air: int, room: int, wanted: int | None, panels: int
) -> None:
    low, high = least / 2, (least + more) / 2
    at = heights(words, air, room)
    made, fit = fitted(at, low, high, wanted, panels)  # type: ignore[arg-type,type-var]
    assert fit == brute(at, low, high, wanted, panels)
    assert made == at(fit.size, fit.space)


@given(st.floats(6, 20), st.floats(0, 6), st.integers(1, 900), st.integers(5_000, 60_000))
def test_no_size_is_out_of_bounds_and_none_is_set_twice(least: float, more: float, words: int, room: int) -> None:
    tried: list[tuple[float, float]] = []

    def at(size: float, space: float) -> Pages:
        tried.append((size, space))
        return heights(words, 200, room)(size, space)

    fitted(at, least, least + more, None)  # type: ignore[arg-type,type-var]
    assert all(least <= size <= least + more for size, _ in tried)
    assert len(set(tried)) == len(tried) or more < 0.001


def test_a_booked_dance_tells_its_short_words_to_the_key_of_the_book() -> None:
    layout = book_layout(Layout(), False)
    booked = book_dance(example("ferry-lane-saunter"), knowledge(), layout, paper("A5"), Faces())
    assert {("FORWARD", "action"), ("CLOSE", "action")} <= {(name.upper(), kind) for name, kind in booked.words}
