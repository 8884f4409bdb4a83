"""What a catalogue lists of a dance, and how it is searched."""
from __future__ import annotations

import pytest

from notation.dance.catalogue import Entry, Sought, in_title_order, matching
from notation.reading.knowledge import load_knowledge

WALTZ = Entry("w.yaml", "Harbour Bell Waltz", ("Ines Calloway",), "waltz", "3/4", 32, "30", ("Natural turn", "Whisk"))
STEP = Entry("t.yaml", "The Tinsmiths' Two-Step", ("Tom Askew",), "two-step", "2/4", 16, "48", ("Pas de basque",))
OLD = Entry("o.yaml", "Alder Old-Time Waltz", ("Maud Ferrier",), "old-time waltz", "3/4", 16, "42", ("Natural turns",))
BAD = Entry("b.yaml", errors=1, fault="this is not YAML")
ALL = (WALTZ, STEP, BAD, OLD)


@pytest.mark.parametrize(
    ("sought", "found"),
    [
        (Sought(), ALL),
        (Sought(figure="natural turn"), (WALTZ, OLD)),
        (Sought(figure="NATURAL-TURN", rhythm="waltz"), (WALTZ,)),
        (Sought(rhythm="two step"), (STEP,)),
        (Sought(rhythm="time"), (OLD,)),
        (Sought(words=("tom", "basque")), (STEP,)),
        (Sought(words=("tom", "whisk")), ()),
    ],
)
def test_searching(sought: Sought, found: tuple[Entry, ...]) -> None:
    assert tuple(matching(ALL, sought, load_knowledge().rhythms)) == found


def test_titles_are_sorted_without_their_article_and_faulty_files_come_last() -> None:
    assert in_title_order(ALL) == [OLD, WALTZ, STEP, BAD]
