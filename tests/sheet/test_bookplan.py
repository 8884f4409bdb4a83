"""Where the dances of a book stand: each whole, none over another, in the order of the book, sheets filled."""
from __future__ import annotations

from collections import Counter
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.book import Book, FillWith, IndexOf, Order
from notation.layout import Layout
from notation.page.fonts import Faces
from notation.page.units import paper
from notation.sheet.booked import BookedDance, book_layout
from notation.sheet.bookfront import Setup, setup
from notation.sheet.bookplan import BETWEEN, Plan, in_book_order, landmarks, notes_pages, planned
from tests.sheet.setting import knowledge

FACES = Faces()
RHYTHMS = ("saunter", "waltz", "")


def made(book: Book) -> Setup:
    return setup(book, book_layout(Layout(), False), paper("A6"), knowledge(), FACES)


def dance(number: int, pages: int, height: float, rhythm: int = 0) -> BookedDance:
    return BookedDance(f"Dance {number}", (f"A. Writer {number % 3}",), RHYTHMS[rhythm], rhythm, ("Whisk",), pages,
                       height, 1, (("fwd", "action"),), (), b"")


DANCES = st.lists(st.tuples(st.integers(1, 3), st.floats(20, 330), st.integers(0, 2)), min_size=1, max_size=25).map(
    lambda rows: [dance(number, *row) for number, row in enumerate(rows)])
BOOKS = st.builds(
    Book, title=st.just("T"), dances=st.just(()), order=st.sampled_from(Order), cover=st.booleans(),
    contents=st.booleans(), abbreviations=st.booleans(), indexes=st.sampled_from(((), tuple(IndexOf))),
    section_pages=st.booleans(), run_together=st.booleans(), notes_pages=st.integers(0, 2),
    fill=st.sampled_from((1, 2, 4, 8)), fill_with=st.sampled_from(FillWith),
)  # fmt: skip


def room(plan: Plan) -> float:
    story = plan.setup.story
    return story.paper.height - story.margins.top - story.margins.bottom


@settings(max_examples=40, deadline=None)
@given(BOOKS, DANCES)
def test_every_dance_stands_whole_and_over_no_other(book: Book, dances: list[BookedDance]) -> None:
    plan = planned(made(book), in_book_order(book, dances))
    taken: dict[int, list[tuple[float, float]]] = {}
    for section in plan.sections:
        for one in section.dances:
            here = plan.dances[one.dance]
            for page in range(one.page, one.page + here.pages):
                last = page == one.page + here.pages - 1
                taken.setdefault(page, []).append((one.down, one.down + here.height if last else room(plan)))
        assert section.page is None or section.page not in taken
    assert Counter(one.dance for section in plan.sections for one in section.dances) == Counter(range(len(dances)))
    for spans in taken.values():
        assert spans == sorted(spans) and (len(spans) == 1 or book.run_together)
        for (_, end), (begin, _) in zip(spans, spans[1:], strict=False):
            assert begin >= end + BETWEEN * plan.setup.story.step - 0.01
        assert len(spans) == 1 or spans[-1][1] <= room(plan) + 0.02
    assert plan.first <= min(taken) and max(taken) < plan.after_body


@settings(max_examples=25, deadline=None)
@given(BOOKS, DANCES)
def test_sheets_are_filled_and_every_page_is_accounted_for(book: Book, dances: list[BookedDance]) -> None:
    plan = planned(made(book), in_book_order(book, dances))
    assert plan.pages % book.fill == 0
    rest = plan.pages - plan.after_indexes
    assert book.notes_pages <= rest < book.notes_pages + book.fill
    assert notes_pages(plan) == (rest if book.fill_with is FillWith.NOTES else book.notes_pages)
    places, outline = landmarks(plan)
    pages = [places[line.anchor][0] for line in outline]
    assert pages == sorted(pages) and all(0 <= page < plan.pages for page in pages)
    assert len(places) == len(outline)


def test_the_orders_of_a_book() -> None:
    dances = [replace(dance(n, 1, 50.0, rhythm), title=title, arrangers=(name,))
              for n, (title, name, rhythm) in enumerate((
                  ("The Zither", "Maud Ferrier", 0), ("Amber", "Tom Askew", 1), ("Bell", "Nell Marlow", 0)))]
    titles = {order: [one.title for one in in_book_order(Book("T", (), order=order), dances)] for order in Order}
    assert titles[Order.LISTED] == ["The Zither", "Amber", "Bell"]
    assert titles[Order.TITLE] == ["Amber", "Bell", "The Zither"]
    assert titles[Order.ARRANGER] == ["Amber", "The Zither", "Bell"]
    assert titles[Order.RHYTHM] == ["Bell", "The Zither", "Amber"]
