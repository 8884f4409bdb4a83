"""Page breaks against trying every way to break."""
from __future__ import annotations

import itertools
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.page.paginate import page_breaks, space_between
from notation.page.slab import Slab

CAPACITY = 10.0
slabs = st.builds(
    lambda height, before, stick, cost: Slab(height, (), before, stick=stick, cost=cost),
    st.sampled_from([0.5, 1.0, 2.0, 3.0, 5.0, 10.0]), st.sampled_from([0.0, 0.5, 1.0]), st.booleans(),
    st.sampled_from([0.0, 0.05, 0.5]))


def height(page: list[Slab]) -> float:
    return sum(s.height for s in page) + sum(space_between(a, b) for a, b in itertools.pairwise(page))


def ways(pile: list[Slab]) -> Iterator[list[list[Slab]]]:
    """All divisions into pages of which none runs over."""
    for chosen in itertools.product([False, True], repeat=len(pile) - 1):
        cuts = [0, *(k for k, cut in enumerate(chosen, 1) if cut), len(pile)]
        pages = [pile[a:b] for a, b in itertools.pairwise(cuts)]
        if all(height(page) <= CAPACITY + 0.001 for page in pages):
            yield pages


def price(pages: list[list[Slab]]) -> tuple[int, int, float]:
    """Ties broken, pages, unevenness and what the breaks cost."""
    ends = [page[-1] for page in pages[:-1]]
    empty = sum(((CAPACITY - height(page)) / CAPACITY) ** 2 for page in pages)
    return sum(end.stick for end in ends), len(pages), empty + sum(end.cost for end in ends)


@settings(max_examples=150, deadline=None)
@given(st.lists(slabs, min_size=1, max_size=8))
def test_equals_brute_force(pile: list[Slab]) -> None:
    found = [pile[a:b] for a, b in page_breaks(pile, CAPACITY)]
    best = min(price(pages) for pages in ways(pile))
    assert price(found) == pytest.approx(best)
