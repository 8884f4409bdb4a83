"""Text and HTML of a sheet, templates, missing letters."""
from __future__ import annotations

from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest

from notation.bounds import TEMPLATE
from notation.dance.step import Action
from notation.layout import Layout
from notation.page.units import paper
from notation.sheet import sheet_metadata
from notation.sheet.html import story_html
from notation.sheet.missing import missing_letters
from notation.sheet.script import script_story
from notation.sheet.templates import TemplateFault, fill
from notation.sheet.text import story_text
from tests.sheet.setting import NAMES, dance, document, document_words, example, knowledge, passage


def story(of: object) -> object:
    return script_story(of, knowledge(), Layout(), paper("A4"), 9.5)  # type: ignore[arg-type]


class Words(HTMLParser):
    """Collects the words outside drawings and styles, and the tags."""

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.skipping = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self.skipping += tag in ("svg", "style", "title")

    def handle_endtag(self, tag: str) -> None:
        self.skipping -= tag in ("svg", "style", "title")

    def handle_data(self, data: str) -> None:
        if not self.skipping:
            self.said.extend(data.split())


def parsed(of: object) -> Words:
    words = Words()
    words.feed(story_html(story(of), sheet_metadata(of, knowledge(), Layout())))  # type: ignore[arg-type]
    return words


@pytest.mark.parametrize("name", NAMES)
def test_html_says_every_word_of_the_page_in_its_order(name: str) -> None:
    """The words of the PDF's own items, without its running feet and repeated heads."""
    words = parsed(example(name))
    drawn = {"page", "of", "gent", "lady"}
    printed = {w.strip(",") for w in document_words(document(example(name))) if not w.isdigit()}
    missing = printed - {w.strip(",") for w in words.said} - drawn
    assert not missing
    assert [tag for tag, _ in words.tags].count("h1") == 1


def test_html_is_a_table_with_header_cells_and_hidden_drawings() -> None:
    """Header cells with scope: WCAG 2.2, technique H63; decorative drawings hidden: ARIA 1.2, aria-hidden."""
    words = parsed(example("tinsmiths-two-step"))
    heads = [a for tag, a in words.tags if tag == "th"]
    assert [a["scope"] for a in heads[:6]] == ["col"] * 6
    assert sum(a["scope"] == "rowgroup" for a in heads) == 12
    drawings = [a for tag, a in words.tags if tag == "svg"]
    assert drawings and all(a.get("aria-hidden") == "true" or a.get("aria-label") for a in drawings)
    assert dict(words.tags)["html"]["lang"] == "en-GB"


def test_html_nests_well_and_rows_are_full() -> None:
    html = story_html(story(example("lantern-quay-waltz")), sheet_metadata(
        example("lantern-quay-waltz"), knowledge(), Layout()))  # type: ignore[arg-type]
    tree = ElementTree.fromstring(html.split("<body>")[1].split("</body>")[0])
    for body in tree.iter("tbody"):
        rows = list(body)
        for number, row in enumerate(rows):
            width = sum(int(cell.get("colspan", "1")) for cell in row)
            deep = [(int(cell.get("rowspan", "1")), above) for above in range(number) for cell in rows[above]]
            spanned = sum(rows_down > number - above for rows_down, above in deep)
            assert width + spanned == 6


def test_markup_in_names_is_text() -> None:
    of = dance(passage("1 LF fwd; 2 RF fwd; 3 LF close"), title="'<script>alert(1)</script> & Co'")
    html = story_html(story(of), sheet_metadata(of, knowledge(), Layout()))  # type: ignore[arg-type]
    assert "<script" not in html and "&lt;script&gt;" in html


def test_text_keeps_every_step_and_its_lines_are_short() -> None:
    text = story_text(story(example("lantern-quay-waltz")), 80)  # type: ignore[arg-type]
    assert all(len(line) <= 80 for line in text.splitlines())
    flat = " ".join(text.split())
    assert "Lantern Quay Waltz =====" in flat and "Bars 5–6: as bars 1–2" in flat
    steps = [d.step for p in example("lantern-quay-waltz").passages if p.written.repeat is None
             for d in (*p.gent, *p.lady)]
    assert text.count("place") == sum(s.action is Action.IN_PLACE for s in steps)


def test_places_of_a_template() -> None:
    assert fill("{title}, {bars} {unknown}", {"title": "A", "bars": 16}) == "A, 16 {unknown}"
    assert fill("{{ title|upper }}{% if bars > 9 %}!{% endif %}", {"title": "a", "bars": 16}) == "A!"


@pytest.mark.parametrize("template", [
    "{{ title.__class__.__mro__ }}",
    "{{ ''.__class__.__base__.__subclasses__() }}",
    "{{ self._TemplateReference__context }}{{ cycler.__init__.__globals__ }}",
    "{% for i in range(100000000) %}x{% endfor %}",
    "{{ 'x' * 100000000 }}",
    "{{ 9 ** 999999 }}",
    "{{ '%1000000000d' % 1 }}",
    "{% for i in range(900) %}{% for j in range(900) %}xxxxxxxxxx{% endfor %}{% endfor %}",
    "{% include '/etc/passwd' %}",
    "{{ nothing_of_that_name }}",
    "{% if %}",
    "{{ title * 1000000000 }}",
    "{{ (title ~ title) * 1000000000 }}",
    "{{ lipsum(n=100000) }}",
    "{{ 'x'|center(999999999) }}",
    "{% set a = title ~ title %}",
    "{% for i in range(900) %}{% for j in range(900) %}{% endfor %}{% endfor %}",
    "{% for i in range(900) %}{% if 1 %}{% for j in range(900) %}{% endfor %}{% endif %}{% endfor %}",
    "{{ title.format(1) }}",
    "{{ '{:>999999999}'.format(1) }}",
    "{% macro a() %}{% endmacro %}{{ a() }}",
    "{{ title|default('x' * 10**8) }}",
    "{{" + "(" * 3000 + "}}",
    "{{ title|replace('A', title)|join(title) }}",
    "{{ title" + "|upper" * 1000 + " }}",
])
def test_templates_cannot_escape_or_run_on(template: str) -> None:
    with pytest.raises(TemplateFault) as fault:
        fill(template, {"title": "A"})
    assert len(str(fault.value)) < TEMPLATE.most


def test_a_missing_letter_is_named_with_its_place() -> None:
    found, = missing_letters({"\U0001f483"}, ("title: A", "notes: a \U0001f483 b"), "x.yaml")
    assert (found.mark.line, found.mark.column) == (2, 10)
    assert "U+1F483 (dancer)" in found.message
