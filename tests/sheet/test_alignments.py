"""Alignments that are not written are printed where the layout asks."""
from dataclasses import replace

import pytest

from notation.reading.layout import load_layout, read_layout
from tests.sheet.setting import dance, document, document_words, passage

OF = passage("1 LF fwd, 1/4 L; 2 RF back; 3 LF side, pointing DW")


@pytest.mark.parametrize("asked", [True, False])
def test_every_step_has_its_alignment_where_asked(asked: bool) -> None:
    """Moore 2002, 'Alignment': facing for forward work, backing for backward work. By addition of turns: a quarter to
    the left of LOD is the centre."""
    layout = load_layout("script")
    shown = replace(layout, shows=replace(layout.shows, alignments=asked))
    text = " ".join(document_words(document(dance(OF), shown))).replace("\u00a0", " ")
    assert ("facing centre" in text and "backing wall" in text) is asked
    assert "pointing DW" in text


def test_a_layout_file_can_ask_for_it() -> None:
    reading = read_layout(b"format: 1\nshow: {alignments: yes}\n", "own.yaml")
    assert reading.layout is not None and reading.layout.shows.alignments and not reading.findings
    assert not load_layout("script").shows.alignments
