"""Marked nodes: places of values however they are written, and every bound met with its own words."""
import re
from dataclasses import fields
from pathlib import Path

import pytest
import yaml

from notation import bounds
from notation.bounds import Bound
from notation.dance.mark import Mark
from notation.reading import nodes
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.nodes import Mapping, Scalar, Unreadable, read_nodes
from notation.reading.programme import read_programme
from notation.reading.rules import DANCE


def value(source: str) -> Scalar:
    """The value of the first key."""
    root = read_nodes(source.encode(), "dance.yaml")
    assert isinstance(root, Mapping) and isinstance(root.entries[0].value, Scalar)
    return root.entries[0].value


def place(source: str, word: str) -> tuple[int, int]:
    """Where a word of the first value is said to stand."""
    row = next(row for row in value(source).rows if word in row.text)
    mark = row.mark(row.text.index(word), row.text.index(word) + len(word))
    return mark.line, mark.column


def really(source: str, word: str) -> tuple[int, int]:
    """Where the word stands, counted in the text itself."""
    before = source[: source.index(word)]
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


@pytest.mark.parametrize(
    "source",
    [
        "a: one WORD two\n",
        "a:   WORD\n",
        "a: 'one WORD'\n",
        "a: 'it''s WORD'\n",
        'a: "one WORD"\n',
        'a: "\\"quoted\\" \\u00e9 WORD"\n',
        'a: "one\\n  WORD"\n',
        'a: "one\n  two\n\n  WORD three"\n',
        "a: one\n  two\n     WORD three\n",
        "a:\n  one\n  WORD\n",
        "a: |\n  one\n  WORD\n",
        "a: |\n\n  one\n\n    WORD\n\n",
        "a: |2\n    one\n     WORD\n",
        "a: |- # remark\n  one\n  two WORD\n",
        "a: &name |\n  one\n  WORD\n",
        "a: >\n  one\n  two WORD\n",
        "a: >-\n  one\n\n  two WORD three\n",
        "a: \U0001f483 \u00e9 WORD\n",
        "a: |\n  \U0001f483 WORD\n",
        "{a: WORD, b: 1}\n",
    ],
)
def test_a_word_is_where_it_is_written(source: str) -> None:
    assert place(source, "WORD") == really(source, "WORD")


def test_other_line_ends_and_a_byte_order_mark_move_nothing() -> None:
    source = "a: |\n  one\n  WORD\n"
    for ending in ("\r\n", "\r"):
        root = read_nodes(b"\xef\xbb\xbf" + source.replace("\n", ending).encode(), "dance.yaml")
        assert isinstance(root, Mapping) and isinstance(root.entries[0].value, Scalar)
        assert root.entries[0].value.rows[1].mark() == Mark("dance.yaml", 3, 3, 3, 7)


def test_every_scalar_stays_text() -> None:
    for text in ("no", "on", "1-2", "3/4", "12:30", "0x10", "~", "null", "1_000", "2026-01-01", ".inf"):
        assert value(f"a: {text}\n").text == text


def test_quotation_marks_are_remembered() -> None:
    assert [value(f"a: {t}\n").quoted for t in ("b", "'b'", '"b"')] == [False, True, True]


def test_the_byte_that_is_no_utf_8_is_named_with_its_line() -> None:
    with pytest.raises(Unreadable) as fault:
        read_nodes("a: é\nb: ".encode() + b"x\xe9\n", "dance.yaml")
    finding = fault.value.finding
    assert (finding.mark.line, finding.mark.column) == (2, 5)
    assert "0xe9" in finding.message


@pytest.mark.parametrize("loader", [yaml.Loader, nodes.LOADER], ids=["python", "c"])
def test_both_parsers_give_the_same_nodes(loader: type[yaml.Loader], monkeypatch: pytest.MonkeyPatch) -> None:
    """PyYAML's parser in Python and libyaml are independent of each other."""
    expected = read_nodes(DANCE.encode(), "dance.yaml")
    monkeypatch.setattr(nodes, "LOADER", loader)
    assert read_nodes(DANCE.encode(), "dance.yaml") == expected


def found(source: str) -> list[str]:
    return [f.message for f in read_dance(source.encode(), "dance.yaml", load_knowledge()).findings]


def with_step(line: str) -> str:
    return DANCE.replace("1  LF fwd", line)


BEYOND = {
    "FILE_BYTES": "#" * 300_001,
    "DEPTH": "a: " + "[" * 25 + "]" * 25,
    "VALUES": "a: [" + "x, " * 20_001 + "x]",
    "SCALAR": "a: " + "x " * 15_001,
    "WORD": DANCE + "notes: " + "x" * 301 + "\n",
    "LINE": with_step("1  LF fwd" + " " * 1_000 + "(x)"),
    "TITLE": DANCE.replace("title: Example", "title: " + "x" * 201),
    "NAME": DANCE.replace("any waltz", "x" * 301),
    "BARS": DANCE.replace("length: 1", "length: 129"),
    "STEP_LINES": with_step("1  LF fwd" + "\n      1  LF fwd" * 500),
    "PASSAGES": DANCE + "".join(f"  - bars: {bar}\n    repeat: 1\n" for bar in range(2, 131)),
    "TEMPO": DANCE.replace("tempo: 30", "tempo: 401"),
    "TURN": with_step("1  LF fwd, 25/8 L"),
    "YEAR": DANCE + "year: 10000\n",
    "FINDINGS": with_step("1  LF frwd" + "\n      1  LF frwd" * 201),
}


EVENING = "title: T\nstarts: 19:30\ndances:\n  - {called: A, lasts: 3 min}\n"
BEYOND_PROGRAMMES = {
    "ITEMS": EVENING + "  - {called: A, lasts: 3 min}\n" * 501,
    "TIMES": EVENING + "times: 101\n",
    "LASTING": EVENING.replace("3 min", "1441 min"),
}
ROOT = Path(__file__).parents[2]


def naming(bound: str, folder: str) -> list[Path]:
    """The files below a folder that name a bound, without the file of the bounds and this one."""
    here = (ROOT / "notation" / "bounds.py", Path(__file__))
    files = (path for path in (ROOT / folder).rglob("*.py") if path not in here)
    return [path for path in files if re.search(rf"\b{bound}\b", path.read_text())]


@pytest.mark.parametrize("name", BEYOND_PROGRAMMES)
def test_bounds_of_a_programme_are_met_in_their_own_words(name: str) -> None:
    findings = read_programme(BEYOND_PROGRAMMES[name].encode(), "p.yaml").findings
    assert any(getattr(bounds, name).words in finding.message for finding in findings)


def test_every_bound_has_a_case() -> None:
    """Bounds of dances and programmes here; those of other files where these are tested."""
    all_bounds = {name for name, bound in vars(bounds).items() if isinstance(bound, Bound)}
    for name in all_bounds - {*BEYOND, *BEYOND_PROGRAMMES}:
        assert naming(name, "tests") or not naming(name, "notation"), f"no test meets the bound {name}"
    assert {f.name for f in fields(Bound)} == {"most", "message"}


@pytest.mark.parametrize("name", BEYOND)
def test_every_bound_is_met_in_its_own_words(name: str) -> None:
    bound: Bound = getattr(bounds, name)
    assert any(bound.words in message for message in found(BEYOND[name]))
    assert f"{bound.most:,}" in bound.words


@pytest.mark.parametrize("name", BEYOND)
def test_messages_stay_short_and_in_one_line(name: str) -> None:
    assert all(len(message) < 250 and "\n" not in message for message in found(BEYOND[name]))
