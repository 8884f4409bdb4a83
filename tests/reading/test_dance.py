"""Whole files: the format's own example, positions of values, and bad input with one clear answer each."""
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notation.dance.feet import End, Foot, Place, TurnOut
from notation.dance.mark import Mark, Said
from notation.dance.metre import Metre, Tempo
from notation.dance.room import Alignment, Mode, Room, Side
from notation.dance.script import Call, Derivation, Derived, Heads, Written
from notation.dance.step import HeadLine, Step
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
rhythm: old-time waltz        # a row of the rhythm table: gives metre and usual tempo
metre: 3/4                    # only where it differs from the rhythm's
tempo: 42                     # bars a minute, or a range 40-44
introduction: 4               # bars of music before bar 1
length: 16                    # bars in one sequence
feet: turned-out              # or parallel
music: any even old-time waltz
notes: |
  Free text, printed under the heading.
start:
  position: side by side      # how the two bodies stand
  hold: open                  # where the hands are
  gent: LF 3rd front, facing DW
  lady: RF 3rd front, facing DC
sequence:
  - bars: 1-2
    figure: Pas de valse      # heading over these rows; when it names a library figure, see below
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
    lady: natural turn, twice, from rotary half
  - bars: 13-16
    repeat: 9-12
    on: opposite feet
"""


def test_the_format_as_it_is_shown() -> None:
    reading = read(FORMAT_EXAMPLE)
    assert reading.findings == ()
    dance = reading.dance
    assert dance is not None
    assert (dance.title, dance.year, dance.length, dance.introduction) == ("Lantern Quay Waltz", 2026, 16, 4)
    assert dance.arrangers == ("Maud Ferrier", "Tom Askew")
    assert dance.rhythm is not None and dance.rhythm.name == "old-time waltz"
    assert (dance.metre, dance.tempo) == (Metre(3, 4), Tempo(Fraction(42), Fraction(42)))
    assert dance.feet is TurnOut.TURNED_OUT
    assert dance.notes == "Free text, printed under the heading."


def test_the_start_of_the_format_example() -> None:
    dance = read(FORMAT_EXAMPLE).dance
    assert dance is not None
    gent, lady = dance.start.gent, dance.start.lady
    assert gent is not None and lady is not None
    assert (gent.foot, gent.place, gent.alignment) == (
        Foot.LEFT, Place(3, End.FRONT), Alignment(Mode.FACING, Room.DW),
    )
    assert (lady.foot, lady.alignment) == (Foot.RIGHT, Alignment(Mode.FACING, Room.DC))
    assert dance.start.hold == Said("open", Mark("dance.yaml", 16, 9, 16, 13))


def test_the_sequence_of_the_format_example() -> None:
    dance = read(FORMAT_EXAMPLE).dance
    assert dance is not None
    first, second, third, fourth, fifth = dance.passages
    assert isinstance(first.gent, Written) and len(first.gent.lines) == 6 and isinstance(first.lady, Derived)
    assert first.head == Heads(HeadLine(room=Room.DC), HeadLine(room=Room.DW))
    assert isinstance(second.gent, Call) and second.gent.name.text == "pas de basque"
    assert [said.text for said in second.gent.modifiers] == ["LF then RF"]
    assert third.repeat is not None and (third.repeat.first, third.repeat.last) == (1, 4)
    assert isinstance(fourth.lady, Call)
    assert [said.text for said in fourth.lady.modifiers] == ["twice", "from rotary half"]
    assert fifth.repeat is not None and fifth.repeat.opposite_feet and not fifth.repeat.exchange_parts


def test_the_marks_of_the_format_example() -> None:
    """Steps stand in the 23rd to the 28th line of the text, and their marks say so."""
    dance = read(FORMAT_EXAMPLE).dance
    assert dance is not None and isinstance(dance.passages[0].gent, Written)
    lines = FORMAT_EXAMPLE.split("\n")
    for step, row in zip(dance.passages[0].gent.lines, lines[22:28], strict=True):
        assert isinstance(step, Step)
        assert lines[step.mark.line - 1] == row
        assert row[step.mark_of("foot").column - 1 :].startswith(("LF", "RF"))
        assert row[step.count.mark.column - 1] == step.count.text
    assert dance.mark_of("tempo").line == 1 + next(i for i, row in enumerate(lines) if row.startswith("tempo"))


DERIVED = """\
    lady: |
      opposite
      2.3  LF close 5th rear      # bar 2 of this passage, count 3
"""


def test_lines_under_a_derivation() -> None:
    dance = read(HEAD.replace("    lady: opposite\n", DERIVED)).dance
    assert dance is not None and isinstance(dance.passages[0].lady, Derived)
    derived = dance.passages[0].lady
    (replaced,) = derived.replacements
    assert (derived.how, replaced.bar, replaced.step.count.text) == (Derivation.OPPOSITE, 2, "3")
    assert replaced.step.place == Place(5, End.REAR)


@pytest.mark.parametrize("word", ["opposite", "mirror", "same", "Opposite", "mirror  # as he does"])
def test_derivations(word: str) -> None:
    dance = read(HEAD.replace("lady: opposite", f"lady: {word}")).dance
    assert dance is not None and isinstance(dance.passages[0].lady, Derived)


@pytest.mark.parametrize(("word", "near"), [("oposite", "opposite"), ("mirrow", "mirror"), ("opposites", "opposite")])
def test_a_derivation_misspelt_is_no_call(word: str, near: str) -> None:
    reading = read(HEAD.replace("lady: opposite", f"lady: {word}"))
    assert [(f.rule, f.suggestion, f.mark.line, f.mark.column) for f in reading.findings] == [
        ("unknown-word", near, 8, 11)
    ]
    assert reading.dance is not None and isinstance(reading.dance.passages[0].lady, Derived)


@pytest.mark.parametrize(
    "name",
    ["natural turn", "pas de basque, LF then RF", "three step", "RF closed change", "pivot, twice", "S turn", "galop"],
)
def test_names_of_figures_are_calls(name: str) -> None:
    dance = read(HEAD.replace("lady: opposite", f"lady: {name}")).dance
    assert dance is not None and isinstance(dance.passages[0].lady, Call)


@pytest.mark.parametrize("line", ["LF fwd", "RF close 3rd rear, TH", "hold", "1/2 LF fwd", "SQQ LF fwd", "&1 LF fwd"])
def test_a_single_step_without_a_count_is_no_call(line: str) -> None:
    assert rules(HEAD.replace("1  LF fwd", line)) == ["count-missing"]


def test_step_lines_that_yaml_runs_together() -> None:
    for sign in ("", ">"):
        assert rules(HEAD.replace("gent: |", f"gent: {sign}").replace("1  LF fwd", "1  LF fwd\n      2  RF side")) == [
            "lines-run-together"
        ]


def test_a_dance_without_a_length_is_still_read() -> None:
    reading = read(HEAD.replace("length: 1\n", "").replace("bars: 1", "bars: 1-3"))
    assert reading.dance is not None and reading.dance.length == 3
    assert [f.rule for f in reading.findings] == ["key-missing"]


def test_an_unknown_rhythm_is_left_to_the_checks() -> None:
    reading = read(HEAD.replace("waltz", "wlatz"))
    assert reading.findings == () and reading.dance is not None
    assert reading.dance.rhythm is None and reading.dance.rhythm_said is not None


def test_units_may_be_written() -> None:
    source = HEAD.replace("length: 1", "length: 1 bar") + "introduction: 4 bars\ntempo: 42 bars a minute\n"
    dance = read(source).dance
    assert dance is not None
    assert (dance.length, dance.introduction, dance.tempo) == (1, 4, Tempo(Fraction(42), Fraction(42)))


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


VALUES = st.sampled_from(
    ["", "x", "1-2", "0", "LF", "[a, b]", "{gent: L}", "|\n      1  LF fwd", "'1'", "opposite", "~", "*a", "&a b", "-"]
)
KEYS = st.sampled_from(
    ["bars", "gent", "lady", "head", "hold", "position", "figure", "repeat", "on", "exchange", "note", "arms", "gnet"]
)

SHORTHAND = [
    "1", "2", "&", "LF", "RF", "fwd", "back", "1/4", "L", "R", "facing", "LOD", ",", "T", "(", ")", "#", "hold", "head",
    "to", "3rd", "front",
]


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(KEYS, VALUES, max_size=6))
def test_any_passage_is_answered_in_file_order(passage: dict[str, str]) -> None:
    lines = "".join(f"    {key}: {value}\n" for key, value in passage.items())
    reading = read(HEAD + "  - bars: 2\n" + lines)
    places = [(f.mark.line, f.mark.column) for f in reading.findings]
    assert places == sorted(places)
    assert all(1 <= line <= len(reading.lines) for line, _ in places)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.sampled_from(SHORTHAND)))
def test_any_words_of_the_shorthand_are_answered_within_their_line(words: list[str]) -> None:
    line = " ".join(words)
    reading = read(HEAD.replace("1  LF fwd", "1  LF fwd\n      " + line))
    for finding in reading.findings:
        assert finding.mark.line == 8
        assert 7 <= finding.mark.column < finding.mark.end_column <= 7 + len(line)


def test_reading_loads_nothing_that_draws_or_talks() -> None:
    code = "import sys, notation.reading.dance, notation.reading.knowledge; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not {"reportlab", "jinja2", "uharfbuzz", "rich", "click", "pypdf", "PIL", "notation.page"} & set(loaded)
