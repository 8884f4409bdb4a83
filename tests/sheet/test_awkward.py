"""Dances that are short of everything or too full of it: the sheet is set all the same, within its margins."""
from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from notation.page.frame import Document, PlacedText
from notation.reading.layout import layout_names, load_layout
from tests.sheet.setting import dance, document, document_words, passage, printed_words, worked

BARE = """format: 1
title: Bare
rhythm: waltz
length: 2
sequence:
  - bars: 1-2
    gent: |
      1-3  LF fwd
      bar 2
      1  RF fwd
    lady: opposite
"""
LASTING = """format: 1
title: Lasting
rhythm: waltz
length: 3
sequence:
  - bars: 1
    gent: 1-3 LF fwd
    lady: |
      1 RF back
      2 LF back
      3 RF back
  - bars: 2-3
    hold: "hands on hips, thumbs back"
    arms: at the sides
    note: Easy now.
    gent: |
      1 RF fwd
      bar 2
      1 LF fwd, head L, hold double
    lady: |
      1 LF back
      bar 2
      1 RF back
"""


def text_boxes(of: Document) -> list[tuple[int, PlacedText]]:
    return [(n, i) for n, page in enumerate(of.pages) for i in page.items if isinstance(i, PlacedText)]


def test_a_bare_dance_has_a_sheet() -> None:
    words = document_words(document(worked(BARE)))
    assert {"Bare", "waltz", "3/4", "LF", "bk"} <= set(words)
    assert not {"Tempo", "Running", "Introduction", "Start"} & set(words)


def test_every_bar_has_its_number_even_where_nothing_begins() -> None:
    text = worked("format: 1\ntitle: Long\nrhythm: waltz\nlength: 3\nsequence:\n  - bars: 1-3\n    gent: |\n"
                  "      1 LF fwd\n      bar 3\n      1 RF fwd\n    lady: opposite\n")
    words = document_words(document(text))
    assert "(held)" in words and {"1", "2", "3"} <= set(words)


def test_steps_beyond_their_passage_are_not_lost() -> None:
    """A draft may be wrong; its sheet still shows all that was written."""
    beyond = LASTING.replace("      bar 2\n", "      bar 3\n")
    assert "double hold" in " ".join(document_words(document(worked(beyond))))


def test_what_changes_on_a_step_and_free_words_are_printed_once() -> None:
    words = " ".join(document_words(document(worked(LASTING))))
    for once in ("hands on hips, thumbs back", "double hold", "Arms: at the sides", "Easy now."):
        assert words.replace("\u00a0", " ").count(once) == 1


@pytest.mark.parametrize("layout", layout_names())
def test_every_layout_sets_bare_and_lasting_dances(layout: str) -> None:
    for text in (BARE, LASTING):
        assert document(worked(text), load_layout(layout), load_layout(layout).paper).pages


WORDS = st.text("abcdefgh iklmnop-", min_size=1, max_size=60).map(str.strip).filter(bool)
FEET = st.sampled_from((
    "LF fwd",
    "RF back, small",
    "LF side, 3/8 R, pointing DC",
    "RF close 5th rear, TH, rise, sway L",
    "LF point fwd, low aerial",
    "hold",
    "RF cross behind, PP, facing DCA, CBMP, body turns less",
))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.tuples(FEET, WORDS), min_size=1, max_size=9), WORDS, st.sampled_from(["A4", "A5", "A6", "Letter"]))
def test_nothing_leaves_the_margins_and_no_word_is_lost(steps: list[tuple[str, str]], title: str, on: str) -> None:
    lines = "; ".join(f"{1 + n % 3} {said} ({words})" for n, (said, words) in enumerate(steps))
    bars = (len(steps) + 2) // 3
    made = document(dance(passage(lines, bars=f"1-{bars}"), length=bars, title=f"'T {title}'"), on=on)
    words = printed_words(made)
    for word in words:
        page = made.pages[word.page - 1]
        assert word.x0 > 30 and word.x1 < page.width - 30 and word.y1 < page.height
    letters = "".join(w.text for w in words)
    for _, said in steps:
        assert "".join(said.split())[:3] in letters


@pytest.mark.parametrize("layout", ["script", "teaching"])
def test_the_note_of_a_repeat_is_printed_once(layout: str) -> None:
    walk, change = passage("1 LF fwd; 2 RF fwd; 3 LF close"), passage("1 RF fwd; 2 LF fwd; 3 RF close", bars="2")
    again = "  - {bars: 3-4, repeat: 1-2, note: Mind the corner.}\n"
    words = " ".join(document_words(document(dance(walk, change, again, length=4), load_layout(layout))))
    assert words.count("Mind the corner.") == 1
