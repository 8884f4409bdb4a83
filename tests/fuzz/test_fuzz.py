"""Whatever is in a file: findings in words, never a traceback, never a hang. Bounded; `run_hostile.py` runs on."""
from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from contained import run_contained, warmed
from hostile import KINDS_OF_TEXT, hostile, patterns
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from killing import killed_at_random

from notation.bounds import FINDINGS, TEMPLATE
from notation.cli.output import write_whole
from notation.dance.checks import check
from notation.dance.finding import Finding
from notation.dance.work import work_out
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.layout import read_layout
from notation.sheet.templates import TemplateFault, fill

QUICK = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
FORKS = pytest.mark.skipif(sys.platform == "win32", reason="children are forked")

PLAIN = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=30)
STEP_WORDS = st.sampled_from((
    "LF", "RF", "both", "fwd", "back", "side", "close", "cross", "in front", "point", "3rd", "front", "rear", "4th",
    ",", "1/8 L", "1/4 turn to R", "facing", "LOD", "DW", "HT", "rise", "CBM", "hold", "(x)", "hop", "pivot", "circle",
    "open",
))  # fmt: skip
COUNT = st.sampled_from(("1", "2", "3", "&", "S", "Q", "1-2", "2&", "a", "bar 2", "4", "6"))
STEP = st.builds(lambda count, words: f"{count}  {' '.join(words)}", COUNT, st.lists(STEP_WORDS, max_size=6))
PART = st.one_of(
    st.lists(STEP, min_size=1, max_size=6).map("\n      ".join).map(lambda lines: f"|\n      {lines}"),
    st.sampled_from(("opposite", "mirror", "same", "natural turn", "pas de basque, LF then RF", "whisk, twice")),
)
PASSAGE = st.builds(
    lambda bars, gent, lady, more: f"  - bars: {bars}\n    gent: {gent}\n    lady: {lady}\n{more}",
    st.sampled_from(("1", "1-2", "2", "3-4", "0", "5-1")), PART, PART,
    st.sampled_from(("", "    hold: double\n", "    position: closed\n", "    repeat: 1\n", "    head: L\n")),
)  # fmt: skip
DANCE = st.builds(
    lambda title, rhythm, length, passages: (
        f"format: 1\ntitle: {title!r}\nrhythm: {rhythm}\nlength: {length}\nstart:\n  position: closed\n  hold: closed\n"
        f"  gent: LF, facing LOD\nsequence:\n{''.join(passages)}"
    ),
    PLAIN, st.sampled_from(("waltz", "tango", "old-time waltz", "two-step", "none")),
    st.sampled_from(("1", "2", "4", "16", "-1", "x")), st.lists(PASSAGE, max_size=4),
)  # fmt: skip


def findings_of(source: bytes) -> tuple[Finding, ...]:
    knowledge = load_knowledge()
    reading = read_dance(source, "d.yaml", knowledge)
    if reading.dance is None:
        assert reading.findings
        return reading.findings
    return (*reading.findings, *check(work_out(reading.dance, knowledge), knowledge))


@QUICK
@given(st.binary(max_size=300))
def test_any_bytes_are_read_as_a_dance_or_refused(source: bytes) -> None:
    for finding in findings_of(source):
        assert finding.message and "\n" not in finding.message and finding.mark.line >= 1


@QUICK
@given(DANCE)
def test_any_dance_like_text_is_worked_out_or_refused(source: str) -> None:
    found = findings_of(source.encode())
    assert len(found) <= 2 * FINDINGS.most + 2
    assert all(finding.message and finding.rule for finding in found)


@QUICK
@given(st.sampled_from(patterns("layout")), st.integers(0, 3000), st.integers(0, 200), st.binary(max_size=12))
def test_any_layout_is_read_or_refused(source: bytes, at: int, cut: int, put: bytes) -> None:
    reading = read_layout(source[:at] + put + source[at + cut :], "l.yaml")
    assert reading.layout is not None or reading.findings


@QUICK
@given(st.text(st.sampled_from("{}%|~.()'ab01 forinsetxAif_range"), max_size=60))
def test_any_template_is_filled_or_refused(template: str) -> None:
    try:
        assert len(fill(template, {"title": "A", "bars": 16})) <= max(TEMPLATE.most, len(template))
    except TemplateFault as fault:
        assert str(fault)


@FORKS
def test_a_sample_of_hostile_files_ends_as_it_should() -> None:
    """Forty of those that `run_hostile.py` runs by the thousand, all the kinds among them."""
    warmed()
    kinds = set()
    for seed in range(40):
        what = hostile(seed)
        kinds.add(what.kind)
        outcome = run_contained(what)
        assert not [fault for fault in outcome.faults if not fault.endswith(" s")], (seed, what.words, outcome)
    assert kinds >= set(KINDS_OF_TEXT) - {"rules", "programme"}


@FORKS
def test_killed_at_random_moments_of_writing_nothing_is_lost(tmp_path: Path) -> None:
    outcomes = killed_at_random(tmp_path, 12)
    assert outcomes["mixed"] == 0 and outcomes["old"] > 0


@FORKS
def test_two_processes_that_write_one_file_never_mix(tmp_path: Path) -> None:
    out = tmp_path / "o.pdf"
    texts = (b"a" * 200_000, b"b" * 150_000)
    out.write_bytes(texts[0])
    children = []
    for text in texts:
        child = os.fork()
        if child == 0:
            for _ in range(25):
                write_whole(out, text)
            os._exit(0)
        children.append(child)
    for _ in range(200):
        assert out.read_bytes() in texts
    assert [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children] == [0, 0]
    assert out.read_bytes() in texts and list(tmp_path.iterdir()) == [out]
