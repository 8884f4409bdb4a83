"""Particulars beside a very long value, and drawings under rows: where they stand. Common practice of printers, no
source."""
from __future__ import annotations

from drawn import set_dance

from notation.page.frame import Document, PlacedText


def places(made: Document) -> dict[str, tuple[int, float, float]]:
    """Page, x and y in points of the first text of those words."""
    found: dict[str, tuple[int, float, float]] = {}
    for number, page in enumerate(made.pages):
        for item in page.items:
            if isinstance(item, PlacedText):
                found.setdefault(item.text.strip(), (number, item.x, item.y))
    return found


def test_a_very_long_value_leaves_the_others_their_columns() -> None:
    at = places(set_dance("awkward", "script", "A4"))
    assert at["Music"][2] == at["Rhythm"][2] and at["Music"][1] > at["Rhythm"][1]
    assert at["Time"][2] - at["Rhythm"][2] < at["Start"][2] - at["Music"][2]


def test_columns_are_as_few_as_the_drawing_beside_them_leaves_room_for() -> None:
    at = places(set_dance("short", "script", "A4"))
    assert at["Start"][2] == at["Rhythm"][2] and len({at[label][1] for label in ("Rhythm", "Length")}) == 1


def test_on_a_page_too_small_the_drawing_stands_under_the_particulars() -> None:
    at = places(set_dance("long", "large-print", "A5"))
    assert at["LOD"][0] == at["Lady"][0] and at["LOD"][2] > at["Lady"][2] and at["Rhythm"][0] == 0


def test_floor_diagrams_stand_on_the_page_of_their_bar() -> None:
    made = set_dance("long", "teaching", "A4")
    for page in made.pages:
        words = {item.text.strip() for item in page.items if isinstance(item, PlacedText)}
        for bar in (word.removeprefix("Bar ") for word in words if word.startswith("Bar ")):
            assert bar in words
