"""The JSON Schemas against the readers: whatever a reader refuses for its form the schema refuses, and no more.

The validator is the `jsonschema` package (draft 2020-12). Plain scalars are typed as an editor types them, by the core
schema of YAML 1.2 (yaml.org/spec/1.2.2, 10.3.2).
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from notation.dance.checks import RULES
from notation.dance.finding import Finding
from notation.installed import data_folder
from notation.reading.book import read_book
from notation.reading.dance import read_dance
from notation.reading.entryrules import read_entry_rules
from notation.reading.figures import read_figure
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import read_layout
from notation.reading.nodes import Mapping, Node, Scalar, Unreadable, read_nodes
from notation.reading.programme import read_programme
from notation.reading.rules import RULES as FILE_RULES
from notation.reading.schema import SCHEMAS, schema

EXAMPLES = Path(__file__).parents[2] / "examples"
OF_FORM = {
    "unknown-key",
    "not-a-mapping",
    "not-text",
    "value-missing",
    "text-too-long",
    "not-a-number",
    "number-too-small",
    "number-too-large",
    "unknown-choice",
    "key-missing",
    "not-a-list",
    "bars-unclear",
    "metre-unclear",
    "tempo-unclear",
    "format-unknown",
    "repeat-missing",
    "repeat-and-steps",
    "no-columns",
    "number-out-of-range",
    "unknown-layout",
}
"""Rules of the readers that are about the form of a file."""
BEYOND = re.compile("run backwards|larger than the most")
"""What compares two values, which a schema cannot."""
CORE = ((re.compile(r"[-+]?\d+"), int), (re.compile(r"[-+]?(\.\d+|\d+(\.\d*)?)([eE][-+]?\d+)?"), float))
WORDS = {"true": True, "false": False, "null": None, "~": None, "": None}

DANCE = """format: 1
title: Harbour Lights
arranged by: Maud Ferrier
year: 2026
rhythm: waltz
metre: 3/4
tempo: 30
introduction: 4
length: 2
feet: parallel
music: any
start: {position: closed, hold: closed, gent: "LF, facing LOD", lady: "RF, backing LOD"}
sequence:
  - bars: 1
    figure: Box
    gent: |
      1 LF fwd
      2 RF side
      3 LF close
    lady: opposite
    head: {gent: L, lady: R}
  - bars: 2
    repeat: 1
    on: opposite feet
"""
CHANGES = (
    ("title: Harbour Lights", "titel: Harbour Lights"),
    ("title: Harbour Lights\n", ""),
    ("title: Harbour Lights", "title:"),
    ("title: Harbour Lights", "Title: 12"),
    ("title: Harbour Lights", "title: [a, b]"),
    ("arranged by: Maud Ferrier", "arranged_by: [Maud Ferrier, Tom Askew]"),
    ("arranged by: Maud Ferrier", "Arranged-By: Maud"),
    ("arranged by: Maud Ferrier", "arranged by: [[a]]"),
    ("arranged by: Maud Ferrier", "arranged by: {a: b}"),
    ("year: 2026", "year: soon"),
    ("year: 2026", "year: 0"),
    ("year: 2026", "year: 10000"),
    ("rhythm: waltz\n", ""),
    ("rhythm: waltz\nmetre: 3/4\n", ""),
    ("metre: 3/4", "metre: three"),
    ("metre: 3/4", "metre: 3/5"),
    ("metre: 3/4", "metre: 13/4"),
    ("tempo: 30", "tempo: fast"),
    ("tempo: 30", "tempo: 29-31"),
    ("tempo: 30", "tempo: 0"),
    ("tempo: 30", "tempo: 28.5 bars a minute"),
    ("tempo: 30", "tempo: 401"),
    ("introduction: 4", "introduction: -1"),
    ("introduction: 4", "introduction: 4 bars"),
    ("introduction: 4", "introduction: 4.5"),
    ("length: 2\n", ""),
    ("length: 2", "length: 129"),
    ("length: 2", "length: yes"),
    ("feet: parallel", "feet: Turned Out"),
    ("feet: parallel", "feet: flat"),
    ("format: 1", "format: 2"),
    ("start: {", "start: {colour: red, "),
    ("start: {", "start: [a]\nunstart: {"),
    ("bars: 1\n", "bars: one\n"),
    ("bars: 1\n", "bars: 1-2-3\n"),
    ("  - bars: 1\n    figure", "  - figure"),
    ("    figure: Box", "    figur: Box"),
    ("{gent: L, lady: R}", "fwd"),
    ("{gent: L, lady: R}", "[L, R]"),
    ("{gent: L, lady: R}", "{gent: L, man: R}"),
    ("    repeat: 1\n", ""),
    ("on: opposite feet", "on: the other foot"),
    ("on: opposite feet", "exchange: parts"),
    ("    repeat: 1\n", "    repeat: 1\n    gent: |\n      1 LF fwd\n"),
    ("    repeat: 1\n", "    repeat: no\n"),
    ("sequence:", "sequence: []\nmore:"),
    ("music: any", "music: true"),
    ("music: any", "music: 3.5"),
    ("music: any", "notes: |\n  A line.\n\n  Another."),
    ("music: any", "music: ''"),
)
LAYOUT = "format: 1\nlayout: mine\nbase: script\npaper: A5\ncolumns: [bar, count, gent]\n"
LAYOUT_CHANGES = (
    "",
    "rows: figures\n",
    "rows: bars\n",
    "repeats: Written-Out\n",
    "pages: 0\n",
    "pages: 2\n",
    "glyph: 1.2\n",
    "glyph: 4\n",
    "grey: 0\n",
    "grey: 0.5\n",
    "small: none\n",
    "language: de\n",
    "language: fr\n",
    "sizes: {A5: {least: 8, most: 9}}\n",
    "sizes: {B5: {least: 8}}\n",
    "sizes: {other: {least: 80}}\n",
    "margins: {top: 4}\n",
    "margins: {inner: 15}\n",
    "wording: {form: words, gent: Leader}\n",
    "wording: {form: prose}\n",
    "wording: {tied: [place, place]}\n",
    "templates: {arranger: ''}\n",
    "templates: {top: x}\n",
    "phrases: {column bar: ''}\n",
    "phrases: {column bar: Bars}\n",
    "show: {key: no}\n",
    "show: {key: true}\n",
    "show: {key: perhaps}\n",
    "orientation: sideways\n",
    "colour: red\n",
    "wording: []\n",
    "templates: {title: [a]}\n",
    "calls: sung\n",
)
BOOK = "format: 1\ntitle: Winter Season\ndances: [a.yaml, dances/*.yaml]\n"
BOOK_CHANGES = (
    "",
    "order: rhythm\n",
    "order: colour\n",
    "contents: yes\n",
    "contents: true\n",
    "contents: maybe\n",
    "indexes: [title, figure]\n",
    "indexes: no\n",
    "indexes: [titles]\n",
    "notes pages: 4 pages\n",
    "notes-pages: 201\n",
    "fill: 0\n",
    "fill with: Notes\n",
    "paper: B5\n",
    "paper: a5\n",
    "orientation: landscape\n",
    "clubs: x\n",
    "picture: []\n",
)
ENTRY = "format: 1\ncompetition: The Harbour Cup\n"
ENTRY_CHANGES = (
    "",
    "length: 16\n",
    "length: [16, 24, 32]\n",
    "length: long\n",
    "length: 0\n",
    "tempo: 40-44\n",
    "tempo: quick\n",
    "tempo: {waltz: 29-31}\n",
    "rhythms: [waltz, saunter]\n",
    "holds: {only: [closed, double]}\n",
    "holds: {some: closed}\n",
    "holds: closed\n",
    "pages: 2\n",
    "pages: 0\n",
    "copies: 101\n",
    "paper: B4\n",
    "judges see names: no\n",
    "judges-see-names: never\n",
    "layout: entry\n",
    "organizer: X\n",
    "declaration: It is mine.\n",
    "particulars: [name, club]\n",
)
PROGRAMME = "format: 1\ntitle: Tea Dance\nstarts: '19:30'\ndances:\n  - a.yaml\n  - {dance: b.yaml, times: 6}\n"
PROGRAMME_CHANGES = ("", "club: X\n", "times: 5\n", "time: 5\n", "place: [a]\n")


def typed(node: Node) -> Any:
    """The node as an editor sees it."""
    if isinstance(node, Mapping):
        return {entry.key.text: typed(entry.value) for entry in node.entries}
    if not isinstance(node, Scalar):
        return [typed(item) for item in node.items]
    if node.quoted or "\n" in node.text:
        return node.text
    if node.text in WORDS:
        return WORDS[node.text]
    return next((kind(node.text) for form, kind in CORE if form.fullmatch(node.text)), node.text)


@cache
def validator(kind: str) -> Draft202012Validator:
    return Draft202012Validator(schema(kind))


def refused(kind: str, source: str) -> list[str]:
    return [error.message[:200] for error in validator(kind).iter_errors(typed(read_nodes(source.encode(), "x.yaml")))]


def faults(findings: tuple[Finding, ...]) -> list[str]:
    """What the reader finds wrong with the form."""
    return [f.message for f in findings if f.rule in OF_FORM and not BEYOND.search(f.message)]


def agree(kind: str, source: str, findings: tuple[Finding, ...]) -> None:
    found, said = faults(findings), refused(kind, source)
    assert bool(found) == bool(said), (found, said, source)


@pytest.mark.parametrize("kind", SCHEMAS)
def test_a_schema_is_a_schema(kind: str) -> None:
    Draft202012Validator.check_schema(schema(kind))


@pytest.mark.parametrize("old, new", CHANGES)
def test_reader_and_schema_agree_on_a_dance_with_one_change(old: str, new: str) -> None:
    assert old in DANCE
    source = DANCE.replace(old, new, 1)
    agree("dance", source, read_dance(source.encode(), "x.yaml", load_knowledge()).findings)


def test_the_dance_of_these_tests_is_right() -> None:
    assert read_dance(DANCE.encode(), "x.yaml", load_knowledge()).findings == ()
    assert refused("dance", DANCE) == []


@pytest.mark.parametrize("change", LAYOUT_CHANGES)
def test_reader_and_schema_agree_on_a_layout(change: str) -> None:
    agree("layout", LAYOUT + change, read_layout((LAYOUT + change).encode(), "mine.yaml").findings)


@pytest.mark.parametrize("change", BOOK_CHANGES)
def test_reader_and_schema_agree_on_a_book(change: str) -> None:
    agree("book", BOOK + change, read_book((BOOK + change).encode(), "book.yaml").findings)


@pytest.mark.parametrize("change", ENTRY_CHANGES)
def test_reader_and_schema_agree_on_the_rules_of_a_competition(change: str) -> None:
    reading = read_entry_rules((ENTRY + change).encode(), "rules.yaml", load_knowledge())
    agree("rules", ENTRY + change, reading.findings)


@pytest.mark.parametrize("change", PROGRAMME_CHANGES)
def test_reader_and_schema_agree_on_a_programme(change: str) -> None:
    agree("programme", PROGRAMME + change, read_programme((PROGRAMME + change).encode(), "p.yaml").findings)


@pytest.mark.parametrize("rule", [rule for rule in (*RULES, *FILE_RULES) if rule.wrong], ids=lambda rule: rule.name)
def test_reader_and_schema_agree_on_the_examples_of_every_rule(rule: Any) -> None:
    for source in (rule.wrong, rule.right):
        if source and is_yaml(source):
            agree("dance", source, read_dance(source.encode(), "x.yaml", load_knowledge()).findings)


def is_yaml(source: str) -> bool:
    """Whether there is something that a schema can be held against."""
    try:
        read_nodes(source.encode(), "x.yaml")
    except Unreadable:
        return False
    return True


TOLD_BY = {"sequence": "dance", "starts": "programme", "dances": "book", "competition": "rules", "columns": "layout"}
"""What kind of file it is, by a key that only that kind has."""


def test_shipped_files_are_accepted() -> None:
    folders = {
        "layout": data_folder("layouts"),
        "figure": Path(str(data_folder("layouts"))).parent / "notation/figures",
    }
    for kind, folder in folders.items():
        for path in sorted(folder.glob("*.yaml")):
            assert refused(kind, path.read_text()) == [], path.name
    for path in sorted((*EXAMPLES.rglob("*.yaml"), *EXAMPLES.rglob("*.yml"))):
        text = path.read_text()
        kinds = [kind for key, kind in TOLD_BY.items() if f"\n{key}:" in text][:1]
        for kind in kinds:
            assert refused(kind, text) == [], path.name


FIGURE = """format: 1
name: stroll
family: modern
rhythms: [waltz]
metre: 3/4
bars: 1
start: "LF, facing LOD"
steps: |
  1 LF fwd
  2 RF fwd
  3 LF close
turn: no turn
free: RF
"""


@pytest.mark.parametrize(
    "old, new",
    [
        ("", ""),
        ("name: stroll\n", ""),
        ("family: modern", "family: jazz"),
        ("metre: 3/4", "metre: x"),
        ("bars: 1", "bars: 1.5"),
        ("bars: 1", "bars: 0.7"),
        ("bars: 1", "bars: none"),
        ("free: RF", "free: RF\ncolour: red"),
        ("turn: no turn\n", ""),
        ("rhythms: [waltz]", "rhythms: waltz"),
        ("free: RF", "free: RF\nfeet: flat"),
    ],
)
def test_reader_and_schema_agree_on_a_figure(old: str, new: str) -> None:
    source = FIGURE.replace(old, new, 1)
    try:
        read_figure(source.encode(), "x.yaml")
        wrong = False
    except Exception as fault:
        wrong = "bar" not in str(fault).split(":")[-1] or "how many bars" in str(fault)
    assert wrong == bool(refused("figure", source)), source


def test_a_comment_that_names_the_schema_is_read() -> None:
    """`# yaml-language-server: $schema=` is the open convention by which a file names its schema to an editor."""
    source = "# yaml-language-server: $schema=dance.schema.json\n" + DANCE
    assert read_dance(source.encode(), "x.yaml", load_knowledge()).findings == ()
