"""Figures called by name, printed as the layout asks: written out, or by name with a footnote."""
from __future__ import annotations

from dataclasses import replace

import pytest
from setting import document, document_words, knowledge, printed_words, worked

from notation.layout import Calls, Layout, Repeats
from notation.reading.layout import load_layout, read_layout
from notation.sheet.called import footnotes

DANCE = """\
format: 1
title: Capstan Waltz
arranged by: Maud Ferrier
rhythm: old-time waltz
length: 12
feet: turned-out
start: {{position: closed, hold: closed, gent: "RF, facing LOD", lady: "LF, backing LOD"}}
sequence:
  - {{bars: 1-4, figure: Turning, gent: "natural turn, twice", lady: "natural turn, twice, from rotary half"}}
  - bars: 5-6
    gent: natural turn
    lady: {lady}
  - {{bars: 7-10, repeat: 1-4}}
  - bars: 11-12
    figure: Balances
    gent: |
      1  RF fwd
      2  LF touch
      1  LF back
      2  RF touch
    lady: opposite
"""
BY_NAME = replace(Layout(), calls=Calls.BY_NAME)


def text(layout: Layout, lady: str = "opposite") -> str:
    words = document_words(document(worked(DANCE.format(lady=lady)), layout))
    return " ".join(words).replace("\u00a0", " ")


def test_by_name_only_with_a_footnote() -> None:
    said = text(BY_NAME)
    assert said.count("natural turn, twice (1)") == 1
    assert "natural turn, twice, from rotary half (1)" in said
    assert "5–6 natural turn (1) opposite" in said
    assert said.count("(1) Natural turn: steps as in the library of figures. The feet swivel on the toes") == 1
    assert "5th front" not in said, "no step of the called figure is printed"
    assert "RF fwd" in said and "LF touch" in said, "what was written out is printed written out"
    assert "Bars 7–10: as bars 1–4" in said


def test_the_printed_page_says_name_and_footnote() -> None:
    """Read back from the PDF by poppler, name above the footnote."""
    words = printed_words(document(worked(DANCE.format(lady="opposite")), BY_NAME))
    marks = [word for word in words if word.text == "(1)"]
    assert len(marks) == 4
    assert marks[-1].y0 > max(mark.y1 for mark in marks[:-1])
    assert [word.text for word in words if word.y0 == marks[-1].y0][:4] == ["(1)", "Natural", "turn:", "steps"]


def test_written_out_as_a_rule() -> None:
    said = text(Layout())
    assert "(1)" not in said and "library of figures" not in said
    assert said.count("RF close 5th front") == 6 and "swivel" not in said


def test_repeats_are_named_where_figures_are() -> None:
    assert text(replace(BY_NAME, repeats=Repeats.WRITTEN_OUT)) == text(BY_NAME)


def test_a_part_with_lines_of_its_own_is_written_out() -> None:
    """Else the writer's line would be lost."""
    said = text(BY_NAME, "|\n      opposite\n      2.3  LF in place (softly)")
    assert "softly" in said and "1–4 natural turn, twice (1)" in said


def test_only_what_is_printed_by_name_has_a_footnote() -> None:
    of = worked(DANCE.format(lady="opposite"))
    assert footnotes(of, Layout()) == {}
    assert [(name, number) for name, (number, _) in footnotes(of, BY_NAME).items()] == [("natural turn", 1)]


def test_cautions_come_with_the_figure_once() -> None:
    said = text(load_layout("teaching"))
    assert said.count("do not twist a bent knee") == 1


@pytest.mark.parametrize(
    ("line", "rule"),
    [("calls: by nam", "unknown-choice"), ("calls: [by name]", "not-text"), ("cals: by name", "unknown-key")],
)
def test_a_mistake_in_the_layout_is_reported(line: str, rule: str) -> None:
    reading = read_layout(f"layout: mine\n{line}\n".encode(), "mine.yaml")
    assert [(f.rule, f.mark.line) for f in reading.findings] == [(rule, 2)]
    assert line != "calls: by nam" or reading.findings[0].suggestion == "by name"


def test_a_layout_file_asks_for_it() -> None:
    reading = read_layout(b"layout: mine\ncalls: by name\n", "mine.yaml")
    assert reading.findings == () and reading.layout is not None and reading.layout.calls is Calls.BY_NAME
    assert knowledge().figures.named("natural turn")
