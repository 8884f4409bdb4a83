"""Contents and indexes: page numbers at the right edge, dots under each other, groups that keep together."""
from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from notation.page.content import Margins, Paragraph, Run, Story, Style
from notation.page.flow import Setting
from notation.page.fonts import Faces
from notation.page.lines import Line
from notation.page.listing import Listed, Reference, listing_slabs
from notation.page.paginate import page_breaks, setting_of
from notation.page.slab import Area, Slab
from notation.page.units import paper

STYLE = Style("SourceSans3-Regular", 9.0)
FACES = Faces()


def setting() -> Setting:
    return setting_of(Story(paper("A6"), Margins(30, 30, 30, 30), 12.0, ()), FACES)


def line(words: str, *pages: int, indent: float = 0.0) -> Listed:
    text = Paragraph((Run(words, STYLE),))
    return Listed(text, tuple(Reference(str(page), f"p{page}", f"{words}, page {page}") for page in pages), indent)


def texts(slab: Slab) -> list[tuple[float, float, str]]:
    """Left, right and words of each line of a slab."""
    return [(s.x, s.x + s.what.width, "".join(p.text for p in s.what.pieces))
            for s in slab.spots if isinstance(s.what, Line)]


@settings(max_examples=60, deadline=None)
@given(st.text("abcdefgh ", min_size=1, max_size=90).filter(str.strip), st.lists(st.integers(1, 9999), max_size=30))
def test_words_and_numbers_stand_within_the_width_and_clear_of_each_other(words: str, pages: list[int]) -> None:
    to = setting()
    (slab,) = listing_slabs([line(words, *pages)], STYLE, "Index", to)
    found = [(round(s.y, 3), left, right, text) for s, (left, right, text) in zip(
        (s for s in slab.spots if isinstance(s.what, Line)), texts(slab), strict=True)]
    assert all(left >= -0.01 and right <= to.width + 0.01 for _, left, right, _ in found)
    numbers = [text.rstrip(",") for _, _, _, text in found if text.rstrip(",").isdecimal()]
    assert numbers == [str(page) for page in pages]
    for y in {y for y, *_ in found}:
        row = sorted((left, right) for at, left, right, _ in found if at == y)
        assert all(one[1] <= two[0] + 0.01 for one, two in zip(row, row[1:], strict=False))


def test_dots_stand_under_each_other_and_are_not_read() -> None:
    slabs = listing_slabs([line("Amber", 3), line("Bell and candle", 12)], STYLE, "TOC", setting())
    starts = [left for slab in slabs for left, _, text in texts(slab) if text.startswith("..")]
    pitch = 0.55 * STYLE.size
    assert len(starts) == 2 and all(abs(x / pitch - round(x / pitch)) < 1e-6 for x in starts)
    dots = [s for slab in slabs for s in slab.spots if isinstance(s.what, Line) and s.what.pieces[0].text[:2] == ".."]
    assert all(not isinstance(spot.tag, int) for spot in dots)


def test_a_line_with_one_number_leads_there_as_a_whole() -> None:
    to = setting()
    (slab,) = listing_slabs([line("Amber", 3)], STYLE, "TOC", to)
    (area,) = [s.what for s in slab.spots if isinstance(s.what, Area)]
    assert (area.width, area.target, area.text) == (to.width, "#p3", "Amber, page 3")
    (slab,) = listing_slabs([line("Whisk", 3, 5)], STYLE, "Index", to)
    assert [s.what.target for s in slab.spots if isinstance(s.what, Area)] == ["#p3", "#p5"]


@settings(max_examples=80, deadline=None)
@given(st.lists(st.integers(1, 9), min_size=1, max_size=12))
def test_groups_keep_their_heading_and_end_in_company(groups: list[int]) -> None:
    entries: list[Listed] = []
    for size in groups:
        entries += [line("Head"), *(line("Dance", n + 1, indent=9.0) for n in range(size))]
    to = setting()
    pile = listing_slabs(entries, STYLE, "Index", to)
    heads = [n for n, entry in enumerate(entries) if not entry.references]
    for _, end in list(page_breaks(pile, to.capacity))[:-1]:
        assert entries[end - 1].references
        lengths = dict(zip(heads, groups, strict=True))
        begins = max(head for head in heads if head < end)
        last = begins + lengths[begins] + 1
        assert end == last or (end - begins >= 3 and last - end >= 2)
