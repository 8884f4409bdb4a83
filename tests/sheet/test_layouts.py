"""Layouts: the shipped files are read without findings and can set every example; a writer's own is checked."""
from __future__ import annotations

from collections import Counter
from dataclasses import fields

import pytest

from notation import bounds
from notation.dance.finding import Severity
from notation.layout import ColumnKey, Layout, Repeats, Segment
from notation.page.frame import PlacedText
from notation.reading.layout import layout_names, load_layout, read_layout, unknown_layout
from tests.sheet.setting import NAMES, document, document_words, example

LARGE_PRINT = 16.0
"""Points: the Royal National Institute of Blind People's Clear Print guidance calls 16 to 18 points large print
(value from memory)."""


@pytest.mark.parametrize("layout", layout_names())
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("on", ["A4", "A5", "Letter"])
def test_every_layout_sets_every_example(layout: str, name: str, on: str) -> None:
    made = document(example(name), load_layout(layout), on)
    for page in made.pages:
        for item in page.items:
            if isinstance(item, PlacedText):
                assert 0 <= item.x < page.width and 0 < item.y < page.height


def test_the_standard_sheet_is_the_file_and_the_code() -> None:
    shipped = load_layout("script")
    assert {f.name for f in fields(Layout) if getattr(shipped, f.name) != getattr(Layout(), f.name)} <= {"summary"}


@pytest.mark.parametrize("name", NAMES)
def test_large_print_is_large_throughout(name: str) -> None:
    made = document(example(name), load_layout("large-print"))
    texts = [i for page in made.pages for i in page.items if isinstance(i, PlacedText)]
    assert min(t.size for t in texts) >= LARGE_PRINT
    assert {t.ink for t in texts} == {0.0}
    assert {t.face for t in texts} <= {"AtkinsonHyperlegibleNext-Regular", "AtkinsonHyperlegibleNext-Bold",
                                       "SourceSans3-Regular"}


@pytest.mark.parametrize("layout", layout_names())
def test_ink_and_type_are_readable(layout: str) -> None:
    """Contrast at least 4.5:1 (WCAG 2.2, success criterion 1.4.3; formula of its relative luminance). No type under
    5.5 points: common practice, no source."""
    made = document(example("ferry-lane-saunter"), load_layout(layout), load_layout(layout).paper)
    for item in (i for page in made.pages for i in page.items if isinstance(i, PlacedText)):
        luminance = ((item.ink + 0.055) / 1.055) ** 2.4 if item.ink > 0.04045 else item.ink / 12.92
        assert 1.05 / (luminance + 0.05) >= 4.5
        assert item.size >= 5.5


def test_one_part_has_one_part() -> None:
    gent, lady = (set(document_words(document(example("tinsmiths-two-step"), load_layout(name))))
                  for name in ("one-part", "one-part-lady"))
    assert "Gent" in gent and "Gent" in lady  # the start says both
    assert ColumnKey.LADY not in load_layout("one-part").columns
    assert load_layout("one-part").repeats is Repeats.WRITTEN_OUT


def test_prompt_has_figures_and_bars_only() -> None:
    words = Counter(document_words(document(example("lantern-quay-waltz"), load_layout("prompt"))))
    assert words["1–2"] == 1 and words["Balances"] == 1 and "LF" not in words


def test_entry_names_nobody() -> None:
    made = document(example("lantern-quay-waltz"), load_layout("entry"))
    assert not {"Maud", "Ferrier", "Tom", "Askew"} & set(document_words(made)) and not made.metadata.author


def read(text: str) -> tuple[Layout | None, dict[str, int]]:
    reading = read_layout(text.encode(), "mine.yaml")
    return reading.layout, {f.rule: f.mark.line for f in reading.findings}


def test_a_faulty_fold_is_told_with_its_line() -> None:
    reading = read_layout(b"base: pocket\nlayout: mine\nfold: 3\n", "mine.yaml")
    (finding,) = reading.findings
    assert (finding.mark.line, finding.mark.column) == (3, 7)
    assert finding.severity is Severity.ERROR and "fold" in finding.message and "3" in finding.message


def test_a_writers_own_layout_starts_from_another() -> None:
    layout, findings = read("base: one-part\nlayout: mine\nwording: {gent: Leader, form: shorthand}\n"
                            "phrases: {tempo value: '{tempo} bpm'}\nsizes: {A4: {least: 9, most: 12}}\n")
    assert not findings and layout is not None
    assert (layout.name, layout.wording.gent, layout.wording.shorthand) == ("mine", "Leader", True)
    assert layout.phrases == (("tempo value", "{tempo} bpm"),)
    assert (layout.sizes_on("A4").least, layout.sizes_on("A5").most) == (9.0, 10.0)


@pytest.mark.parametrize(("text", "rule", "line"), [
    ("layot: x\n", "unknown-key", 1),
    ("base: skript\n", "unknown-layout", 1),
    ("\npaper: B5\n", "unknown-choice", 2),
    ("columns: [bar, steps]\n", "unknown-choice", 1),
    ("columns: []\n", "no-columns", 1),
    ("sizes: {A4: {least: 12, most: 9}}\n", "number-out-of-range", 1),
    ("sizes: {A4: {least: 0}}\n", "number-out-of-range", 1),
    ("grey: 0.9\n", "number-out-of-range", 1),
    ("margins: {top: 1}\n", "number-out-of-range", 1),
    ("wording: {order: [step, turn]}\n", "order-incomplete", 1),
    ("show: {key: maybe}\n", "unknown-choice", 1),
    ("templates: {titel: x}\n", "unknown-key", 1),
    ("pages: none\n", "not-a-number", 1),
    ("- a\n", "not-a-mapping", 1),
    ("a: [\n", "yaml-syntax", 2),
])
def test_mistakes_are_found_where_they_stand(text: str, rule: str, line: int) -> None:
    assert read(text)[1] == {rule: line}


def test_nothing_but_shipped_layouts_can_be_a_base() -> None:
    for name in ("../script", "/etc/passwd", "script.yaml"):
        assert "unknown-layout" in read(f"base: {name}\n")[1]


def test_a_wrong_name_gets_the_nearest() -> None:
    assert unknown_layout("larg-print") == "there is no layout 'larg-print': did you mean 'large-print'?"
    with pytest.raises(KeyError):
        load_layout("larg-print")


def test_the_order_in_the_files_names_every_part_of_a_step() -> None:
    for name in layout_names():
        assert set(load_layout(name).wording.order) == set(Segment)
        assert load_layout(name).summary


def test_more_pages_than_any_sheet_has_are_refused() -> None:
    """By the bound's own words."""
    most = bounds.WANTED_PAGES
    found = read_layout(f"layout: mine\npages: {most.most + 1}\n".encode(), "mine.yaml").findings
    assert [f.rule for f in found] == ["number-too-large"] and most.words in found[0].message
