"""The script sheet, read back from the PDF by poppler, and its story."""
from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest

from notation.layout import ColumnKey, Layout, Repeats, Shows, Sizes
from notation.page.content import Figure, Key, Particulars, Section, Table
from notation.page.fonts import Faces
from notation.page.frame import Attachment, PlacedText
from notation.page.paginate import set_story
from notation.page.units import paper
from notation.sheet import set_sheet, sheet_metadata
from notation.sheet.script import script_story
from tests.sheet.setting import (
    NAMES,
    Word,
    dance,
    document,
    document_words,
    example,
    knowledge,
    passage,
    printed_words,
)

PAPERS = [("A4", False), ("A4", True), ("A5", False), ("Letter", False), ("Letter", True)]


def table(of: object, layout: Layout | None = None) -> Table:
    story = script_story(of, knowledge(), layout or Layout(), paper("A4"), 9.5)  # type: ignore[arg-type]
    return next(part for part in story.flow if isinstance(part, Table))


def cells(found: Table, column: str) -> list[str]:
    rows = (row for section in found.sections for block in section.blocks for row in block.rows)
    return [cell.content.text.replace("\u00a0", " ") for row in rows for cell in row.cells if cell.column == column]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("on", "landscape"), PAPERS)
def test_every_word_of_the_steps_is_on_the_page_once(name: str, on: str, landscape: bool) -> None:
    layout = replace(Layout(), repeats=Repeats.WRITTEN_OUT)
    said = Counter(w for part in ("gent", "lady") for text in cells(table(example(name), layout), part)
                   for w in text.split())
    rest = replace(layout, columns=(ColumnKey.BAR, ColumnKey.COUNT))
    printed = Counter(w.text for w in printed_words(document(example(name), layout, on, landscape)))
    without = Counter(document_words(document(example(name), rest, on, landscape)))
    heads = {"Gent", "Lady", "Hold", "Head"}
    counted = {word: printed[word] for word in said if word not in without and word not in heads}
    key = Counter(w for w in key_words(example(name), layout) if w in counted)
    assert counted == {word: said[word] + key[word] for word in counted}
    assert len(counted) > 8


def key_words(of: object, layout: Layout) -> list[str]:
    story = script_story(of, knowledge(), layout, paper("A4"), 9.5)  # type: ignore[arg-type]
    keys = [part for part in story.flow if isinstance(part, Key)]
    sides = [part for column in ("hold", "head") for part in cells(table(of, layout), column)]
    texts = [side.text for key in keys for entry in key.entries for side in entry if hasattr(side, "text")]
    heading = [key.heading.text for key in keys]
    above = [p.text for part in story.flow if isinstance(part, Particulars) for pair in part.pairs for p in pair]
    figures = [s.heading.text for s in table(of, layout).sections if s.heading]
    plain = [part.text for part in story.flow if hasattr(part, "text")]
    below = [p.text for s in table(of, layout).sections for p in s.below if hasattr(p, "text")]
    return " ".join([*sides, *texts, *heading, *above, *figures, *plain, *below]).split()


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("on", "landscape"), PAPERS)
def test_words_stay_within_their_columns_and_margins(name: str, on: str, landscape: bool) -> None:
    made = document(example(name), None, on, landscape)
    words = printed_words(made)
    heads = column_heads(words, 1)
    room = heads["Lady"].x0 - 16  # the footprints of the lady's column stand at its left
    for page in range(1, len(made.pages) + 1):
        lines = [w for w in words if w.page == page and w.text in ("LF", "RF") and w.x0 >= heads["Gent"].x0 - 0.5]
        starts = Counter(round(w.x0, 1) for w in lines)
        assert any(abs(x - heads["Gent"].x0) < 0.6 for x in starts) or not lines
    below_heads = heads["Gent"].y1
    rows = [w for w in words if w.page == 1 and w.y0 > below_heads and heads["Gent"].x0 - 0.5 <= w.x0 < room]
    steps = [w for w in rows if _is_step_line(w, words)]
    assert steps and all(w.x1 < room + 0.5 for w in steps)
    width = made.pages[0].width
    assert all(w.x0 >= 34 and w.x1 <= width - 34 for w in words)  # 12 mm, what printers need


def column_heads(words: list[Word], page: int) -> dict[str, Word]:
    """The words on the line of the column head 'Count'."""
    line = next(w.y0 for w in words if w.page == page and w.text == "Count")
    return {w.text: w for w in words if w.page == page and abs(w.y0 - line) < 0.5}


def _is_step_line(word: Word, words: list[Word]) -> bool:
    """Whether the line also has a step of the lady: then it is a row of the table."""
    return any(w.page == word.page and abs(w.y0 - word.y0) < 0.5 and w.text in ("LF", "RF")
               and w.x0 > word.x1 for w in words)


def test_column_heads_repeat_and_pages_are_numbered() -> None:
    made = document(example("harbour-bell-waltz"))
    words = printed_words(made)
    assert len(made.pages) == 3
    for page in (1, 2, 3):
        heads = column_heads(words, page)
        assert set(heads) == {"Bar", "Count", "Gent", "Lady", "Hold"}
        assert [w.text for w in words if w.page == page and w.y0 > 790 and w.x0 > 480] == ["page", str(page), "of", "3"]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("on", "landscape"), PAPERS)
def test_no_figure_heading_is_last_on_a_page(name: str, on: str, landscape: bool) -> None:
    made = document(example(name), None, on, landscape)
    size = Counter(i.size for i in made.pages[0].items if isinstance(i, PlacedText)).most_common(1)[0][0]
    for page in made.pages:
        texts = [i for i in page.items if isinstance(i, PlacedText)]
        headings = [t for t in texts if t.face.endswith("SemiBold") and size < t.size < 15 and len(t.text) > 3]
        for heading in headings:
            assert any(heading.y < t.y < heading.y + 4 * size for t in texts)


def test_a_bar_number_stands_on_the_first_row_only_and_is_larger() -> None:
    found = table(example("lantern-quay-waltz"))
    numbers = [cell for s in found.sections for b in s.blocks for n, row in enumerate(b.rows) for cell in row.cells
               if cell.column == "bar" and cell.span == 1 and (n > 0) is False]
    later = [cell for s in found.sections for b in s.blocks for row in b.rows[1:] for cell in row.cells
             if cell.column == "bar"]
    assert [c.content.text for c in numbers] == [str(n) for n in written_bars("lantern-quay-waltz")] and not later
    assert numbers[0].content.runs[0].style.size > 9.5 and all(c.header for c in numbers)


def written_bars(name: str) -> list[int]:
    """The bars that are no repeat."""
    return [bar for p in example(name).passages if p.written.repeat is None for bar in range(p.first, p.last + 1)]


def test_steps_of_one_beat_share_a_row_and_others_have_their_own() -> None:
    of = dance(passage("1 LF fwd; 2 RF fwd; 3 LF close", "1-2 RF back; 3 LF close"))
    rows = [row for s in table(of).sections for b in s.blocks for row in b.rows]
    shown = [(cell_of(r, "count"), bool(cell_of(r, "gent")), bool(cell_of(r, "lady"))) for r in rows]
    assert shown == [("1", True, False), ("1–2", False, True), ("2", True, False), ("3", True, True)]


def cell_of(row: object, column: str) -> str:
    return "".join(c.content.text for c in row.cells if c.column == column)  # type: ignore[attr-defined]


def test_holds_and_heads_are_printed_where_they_change() -> None:
    found = table(example("tinsmiths-two-step"))
    assert cells(found, "hold") == ["side by side, open hold", "facing, double hold", "closed"]
    assert cells(found, "head") == ["gent R, lady L", "to partner"]


def test_a_head_column_without_words_is_left_out() -> None:
    assert "head" not in [c.key for c in table(example("harbour-bell-waltz")).columns]


def test_holds_without_a_column_stand_in_the_heading() -> None:
    narrow = replace(Layout(), columns=(ColumnKey.BAR, ColumnKey.COUNT, ColumnKey.GENT, ColumnKey.LADY))
    headings = [s.heading.text.replace("\u00a0", " ") for s in table(example("tinsmiths-two-step"), narrow).sections
                if s.heading]
    assert headings[0] == "Pas de basque · side by side, open hold; head gent R, lady L"


def test_a_repeat_is_a_line_or_is_written_out() -> None:
    line = table(example("lantern-quay-waltz"))
    assert "Bars 5–6: as bars 1–2" in cells(line, "bar")
    out = table(example("lantern-quay-waltz"), replace(Layout(), repeats=Repeats.WRITTEN_OUT))
    assert "Pas de valse  (as bars 1–2)" in headings_of(out.sections)
    assert [c for c in cells(out, "bar") if c.isdigit()] == [str(n) for n in range(1, 17)]


def headings_of(sections: tuple[Section, ...]) -> list[str]:
    return [s.heading.text.replace("\u00a0", " ") for s in sections if s.heading]


def test_a_repeat_on_opposite_feet_says_so() -> None:
    of = dance(passage("1 LF fwd; 2 RF fwd; 3 LF fwd"), "  - {bars: 2, repeat: 1, on: opposite feet}\n", length=2)
    assert cells(table(of), "bar")[-1] == "Bar 2: as bar 1, on opposite feet"


def test_the_key_has_only_what_is_used() -> None:
    of = dance(passage("1 LF fwd; 2 RF side; 3 LF close", "1 RF back; 2 LF side; 3 RF close"))
    story = script_story(of, knowledge(), Layout(), paper("A4"), 9.5)
    drawn, words = [part for part in story.flow if isinstance(part, Key)]
    assert [e[1].text for e in drawn.entries] == ["left foot", "right foot", "moves that way",
                                                  "closes to the other foot"]
    assert [e[0].text for e in words.entries] == ["LF", "RF", "fwd", "bk", "LOD"]  # type: ignore[union-attr]


def test_heading_takes_less_than_a_fifth_of_an_a4_page() -> None:
    for name in ("ferry-lane-saunter", "lantern-quay-waltz", "tinsmiths-two-step"):
        made = document(example(name))
        first = next(i for i in made.pages[0].items if isinstance(i, PlacedText) and i.text == "Gent" and i.y > 120)
        assert first.y < made.pages[0].height * 0.2 + 14


def test_a_sixteen_bar_dance_of_average_wording_fits_one_page() -> None:
    assert len(document(example("ferry-lane-saunter")).pages) == 1
    assert len(document(example("tinsmiths-two-step")).pages) == 1


def test_the_type_is_the_largest_that_fits() -> None:
    of, wide = example("ferry-lane-saunter"), (("", Sizes(6.0, 9.5, 1.28)),)
    made = document(of, replace(Layout(), sizes=wide))
    size = Counter(i.size for i in made.pages[0].items if isinstance(i, PlacedText)).most_common(1)[0][0]
    larger = script_story(of, knowledge(), Layout(), paper("A4"), size + 0.5, 0.5)
    assert len(made.pages) == 1 and size < 9.5
    assert len(set_story(larger, sheet_metadata(of, knowledge(), Layout()), Faces()).pages) == 2


def test_letters_that_no_face_has_are_drawn_as_a_box_and_named() -> None:
    faces = Faces()
    of = dance(passage("1 LF fwd (\U0001f483 turn); 2 RF fwd; 3 LF close"))
    set_sheet(of, knowledge(), Layout(), paper("A4"), faces)
    assert faces.missing == {"\U0001f483"}


def test_a_word_of_three_hundred_letters_stays_on_the_page() -> None:
    made = document(dance(passage(f"1 LF fwd ({'w' * 290}); 2 RF fwd; 3 LF close"), title="T" * 190))
    words = printed_words(made)
    assert max(w.x1 for w in words) < made.pages[0].width - 34
    assert sum(w.text.count("w") for w in words) >= 290 * 2


def test_the_source_is_attached_and_the_judges_sheet_names_nobody() -> None:
    source = Attachment("dance.yaml", b"arranged by: Maud Ferrier")
    of = example("lantern-quay-waltz")
    open_ = set_sheet(of, knowledge(), Layout(), paper("A4"), Faces(), source)
    assert open_.attachments == (source,) and open_.metadata.author == "Maud Ferrier, Tom Askew"
    shut = replace(Layout(), shows=Shows(arranger=False, source=False))
    judged = set_sheet(of, knowledge(), shut, paper("A4"), Faces(), source)
    assert not judged.attachments and not judged.metadata.author
    assert not {"Maud", "Ferrier", "Askew"} & set(document_words(judged))


def test_start_is_drawn_only_where_it_is_known() -> None:
    story = script_story(example("lantern-quay-waltz"), knowledge(), Layout(), paper("A4"), 9.5)
    block = next(part for part in story.flow if isinstance(part, Particulars))
    assert [pair[0].text for pair in block.pairs][-3:] == ["Start", "Gent", "Lady"]
    figures = [part for part in block.beside if isinstance(part, Figure)]
    assert [f.drawing.alt for f in figures] == [
        "Start side by side, open hold; Gent LF 3rd front, facing DW; Lady RF 3rd front, facing DC"
    ]
    strange = replace(example("lantern-quay-waltz"), start=replace(example("lantern-quay-waltz").start, position=None))
    story = script_story(strange, knowledge(), Layout(), paper("A4"), 9.5)
    assert not next(part for part in story.flow if isinstance(part, Particulars)).beside


def test_reading_order_is_the_order_of_the_dance() -> None:
    words = document_words(document(example("tinsmiths-two-step")))
    places = [words.index(w) for w in ("Tinsmiths'", "Rhythm", "Running", "Bar", "basque", "walks", "Turning", "Short")]
    assert all(a < b for a, b in pairwise(places))
