"""Every rule of the reader has an example that meets it, an example that does not, and is named nowhere else."""
import ast
import re
from pathlib import Path

import pytest

import notation.reading
from notation import bounds
from notation.dance.checks import RULES as CHECKS
from notation.dance.checks import Rule
from notation.reading.dance import read_dance
from notation.reading.knowledge import load_knowledge
from notation.reading.otherrules import OTHER_RULES
from notation.reading.rules import DANCE, RULES

OTHER_FILES = {"layout", "programme", "book", "entryrules", "schema", "shapes"}
"""Readers of files that are no dances."""
MAKERS = {
    "error", "warning", "note", "fault", "complain", "_unreadable", "Finding", "Trouble", "trouble", "file_report",
}
NAME = re.compile(r"[a-z]+(-[a-z]+)*|not-utf-8")
UNSHOWN = {
    "not-utf-8": b"title: \xff",
    "control-character": b"title: a\x00b\n",
    "file-empty": b"",
    "file-too-large": b"#" * (bounds.FILE_BYTES.most + 1),
    "too-many-values": b"a: [" + b"x, " * bounds.VALUES.most + b"x]\n",
    "too-many-lines": DANCE.replace("3  hold", "3  hold\n      " * (bounds.STEP_LINES.most + 1)).encode(),
    "too-many-passages": (DANCE + "  - bars: 1\n    repeat: 1\n" * bounds.PASSAGES.most).encode(),
    "too-many-findings": DANCE.replace("3  hold", "1  LF frwd\n      " * (bounds.FINDINGS.most + 1)).encode(),
    "text-too-long": DANCE.replace("title: Example", "title: " + "x" * (bounds.TITLE.most + 1)).encode(),
}
"""What meets the rules whose examples cannot be shown."""


def found(source: bytes) -> list[str]:
    return [f.rule for f in read_dance(source, "dance.yaml", load_knowledge()).findings]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_the_wrong_example_meets_the_rule(rule: Rule) -> None:
    assert rule.name in found(rule.wrong.encode() or UNSHOWN[rule.name])


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_the_right_example_is_read_without_a_finding(rule: Rule) -> None:
    assert found(rule.right.encode()) == []


def test_only_what_cannot_be_shown_is_not_shown() -> None:
    assert {rule.name for rule in RULES if not rule.wrong} == set(UNSHOWN)


@pytest.mark.parametrize("rule", [r for r in RULES if r.wrong], ids=lambda rule: rule.name)
def test_one_mistake_is_one_finding(rule: Rule) -> None:
    """No finding but that of the rule; a key that is misspelt or is no key is missing besides."""
    besides = {"unknown-key": ["key-missing"]}.get(rule.name, [])
    assert found(rule.wrong.encode()) == [*besides, rule.name]


def named_in(path: Path) -> set[str]:
    """Rule names that a file of the reader uses: the first text among the first two arguments of error(...) etc."""
    calls = (node for node in ast.walk(ast.parse(path.read_text())) if isinstance(node, ast.Call) and node.args)
    made = (arg for call in calls if ast.unparse(call.func).split(".")[-1] in MAKERS for arg in call.args[:2])
    return {str(arg.value) for arg in made if isinstance(arg, ast.Constant) and NAME.fullmatch(str(arg.value))}


def test_every_rule_that_is_used_is_listed_once() -> None:
    folder = Path(notation.reading.__file__).parent
    used = set().union(*(named_in(path) for path in folder.glob("*.py") if path.stem not in OTHER_FILES))
    listed = [rule.name for rule in RULES]
    assert used == set(listed)
    assert len(listed) == len(set(listed))
    assert not set(listed) & {rule.name for rule in CHECKS}


def test_every_rule_of_other_files_is_told_of() -> None:
    """What readers of other files and the commands name; none is told of that is not used."""
    package = Path(notation.reading.__file__).parent.parent
    files = [package / "reading" / f"{stem}.py" for stem in OTHER_FILES]
    files += [*(package / "cli").glob("*.py"), package / "dance" / "programme.py", package / "dance" / "entry.py"]
    used = set().union(*(named_in(path) for path in files if path.exists())) | DYNAMIC
    told = {rule.name for rule in OTHER_RULES}
    assert used - {rule.name for rule in RULES} <= told, used - told
    assert told <= used, told - used
    assert not told & ({rule.name for rule in RULES} | {rule.name for rule in CHECKS})


DYNAMIC = {"file-unreadable", "output", "page-too-small", "layout-template", "running-time-unknown", "tempo-taken"}
"""Named by a variable, or further on in a call."""
