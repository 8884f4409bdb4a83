"""Whole files: the format's own example, positions of values, and bad input with one clear answer each."""
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import Foot
from notation.dance.room import Side
from notation.dance.script import Call, Derived, Written
from notation.reading.dance import Reading, read_dance
from notation.reading.knowledge import load_knowledge

EXAMPLES = sorted((Path(__file__).parent.parent.parent / "examples").glob("*.yaml"))
HEAD = "title: T\nrhythm: waltz\nlength: 1\nsequence:\n  - bars: 1\n    gent: |\n      1  LF fwd\n    lady: opposite\n"


def read(source: str | bytes) -> Reading:
    return read_dance(source.encode() if isinstance(source, str) else source, "dance.yaml", load_knowledge())


def rules(source: str | bytes) -> list[str]:
    return [f.rule for f in read(source).findings]


FORMAT_EXAMPLE = """\
format: 1
title: Lantern Quay Waltz
arranged by: [Maud Ferrier, Tom Askew]      # one name or a list
year: 2026
rhythm: old-time waltz
metre: 3/4
tempo: 42
introduction: 4
length: 16
feet: turned-out
music: any even old-time waltz
notes: |
  Free text, printed under the heading.
start:
  position: side by side
  hold: open
  gent: LF 3rd front, facing DW
  lady: RF 3rd front, facing DC
sequence:
  - bars: 1-2
    figure: Pas de valse
    gent: |
      1  LF fwd, facing LOD
      2  RF fwd, T
      3  LF close 3rd rear, TH
      1  RF fwd
      2  LF fwd, T
      3  RF close 3rd rear, TH
    lady: mirror
    head: {gent: DC, lady: DW}
  - bars: 3-4
    figure: Pas de basque
    hold: double
    gent: pas de basque, LF then RF
    lady: opposite
  - bars: 5-8
    repeat: 1-4
  - bars: 9-12
    figure: Natural turns
    position: closed
    hold: closed
    gent: natural turn, twice
    lady: |
      opposite
      2.3  LF close 5th rear      # bar 2 of this passage, count 3
  - bars: 13-16
    repeat: 9-12
    on: opposite feet
"""


def test_the_format_as_it_is_shown() -> None:
    reading = read(FORMAT_EXAMPLE)
    assert reading.findings == ()
    dance = reading.dance
    assert dance is not None
    assert dance.arrangers == ("Maud Ferrier", "Tom Askew")
    assert dance.start.gent is not None and dance.start.gent.foot is Foot.LEFT
    first, second, third, fourth, fifth = dance.passages
    assert isinstance(first.gent, Written) and len(first.gent.lines) == 6 and isinstance(first.lady, Derived)
    assert isinstance(second.gent, Call) and second.gent.modifiers[0].text == "LF then RF"
    assert third.repeat is not None and (third.repeat.first, third.repeat.last) == (1, 4)
    assert isinstance(fourth.lady, Derived) and fourth.lady.replacements[0].bar == 2
    assert fifth.repeat is not None and fifth.repeat.opposite_feet
    line = first.gent.lines[1]
    assert (line.mark.line, line.mark.column) == (24, 7)


def test_keys_with_spaces_hyphens_or_underscores() -> None:
    for key in ("arranged by", "arranged-by", "arranged_by", "Arranged By"):
        dance = read(HEAD + f"{key}: A. Writer\n").dance
        assert dance is not None and dance.arrangers == ("A. Writer",)


def test_plain_words_stay_text() -> None:
    dance = read(HEAD.replace("title: T", "title: no") + "music: 12:30\nnotes: on\n").dance
    assert dance is not None and (dance.title, dance.music, dance.notes) == ("no", "12:30", "on")


def test_one_head_line_for_both() -> None:
    dance = read(HEAD + "    head: L\n").dance
    assert dance is not None and dance.passages[0].head.lady is not None
    assert dance.passages[0].head.lady.side is Side.LEFT


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_examples_read_without_a_finding(path: Path) -> None:
    assert read(path.read_bytes()).findings == ()


ALIAS_BOMB = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{new}: &{new} [{', '.join(['*' + old] * 10)}]\n" for old, new in zip("abcdef", "bcdefg", strict=True)
)


@pytest.mark.parametrize(
    ("source", "rule"),
    [
        (b"title: \xff\xfe", "not-utf-8"),
        (b"", "file-empty"),
        (b"# only a comment\n", "file-empty"),
        (b"- a\n- b\n", "not-a-mapping"),
        (b"title: T\nsequence:\n\t- bars: 1\n", "tab-indentation"),
        (b"title: A\ntitle: B\n", "double-key"),
        (ALIAS_BOMB.encode(), "too-many-values"),
        (b"x" * 5_000_000, "file-too-large"),
        (b"[" * 5000, "too-deep"),
        (b"title: a\x00b\n", "control-character"),
        (b"title: !!python/object:os.system x\n", "tag"),
        (b"? [a, b]\n: c\n", "key-not-text"),
        (b"title: a\n---\ntitle: b\n", "several-documents"),
        (b"title: *nothing\n", "alias-unknown"),
        (b"title: [a\n", "yaml-syntax"),
    ],
)
def test_unusable_input_gets_one_clear_answer(source: bytes, rule: str) -> None:
    reading = read(source)
    assert reading.dance is None
    assert [f.rule for f in reading.findings] == [rule]


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ("bars: 1", "bars: 0", "bars-unclear"),
        ("bars: 1", "bars: -1", "bars-unclear"),
        ("bars: 1", "bars: 3-2", "bars-unclear"),
        ("length: 1", "length: 10000", "number-too-large"),
        ("length: 1", "length: -4", "number-too-small"),
        ("length: 1", "length: many", "not-a-number"),
        ("length: 1", "length: 1\ntempo: 0", "tempo-unclear"),
        ("length: 1", "length: 1\ntempo: brisk", "tempo-unclear"),
        ("length: 1", "length: 1\nmetre: 5/0", "metre-unclear"),
        ("length: 1", "length: 1\nfeet: sideways", "unknown-choice"),
        ("length: 1", "length: 1\nformat: 2", "format-unknown"),
        ("title: T", "titel: T", "unknown-key"),
        ("title: T", "title: " + "x" * 4000, "text-too-long"),
        ("title: T", "title: [a, b]", "not-text"),
        ("title: T", "title:", "value-missing"),
        ("gent: |", "repeat: 1\n    gent: |", "repeat-and-steps"),
    ],
)
def test_bad_values_are_named(old: str, new: str, rule: str) -> None:
    assert rule in rules(HEAD.replace(old, new))


def test_all_problems_are_shown_in_file_order() -> None:
    found = read(HEAD.replace("LF fwd", "LF frwd").replace("length: 1", "length: 1\ntempo: 0")).findings
    assert [f.rule for f in found] == ["tempo-unclear", "unknown-word"]


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=400))
def test_any_bytes_are_answered(source: bytes) -> None:
    reading = read(source)
    assert reading.dance is not None or reading.findings


@settings(max_examples=100, deadline=None)
@given(st.text(alphabet="abl:-[]{}&*!|>'\"#\n 1", max_size=120))
def test_any_text_under_a_dance_is_answered(tail: str) -> None:
    reading = read(HEAD + tail)
    assert all(f.mark.line >= 1 for f in reading.findings)
