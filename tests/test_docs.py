"""The guides: every command that they show runs, what it is said to answer it answers, and tables are current.

Shell blocks are those set in by four spaces. A YAML block whose first line names a file is written to it; a text block
after a command holds lines of its answer.
"""
from __future__ import annotations

import glob
import importlib.util
import re
import shlex
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

import pytest
from click.testing import CliRunner

from notation.cli.main import lodestep
from notation.reading import dance, passage

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"
GUIDES = sorted(DOCS.glob("*.md"))
PIECE = re.compile(
    r"```(?P<kind>\w*)\n(?P<block>.*?)```|^    (?P<command>(?:lodestep|python3?|pip|cp|\.) [^\n]*)$",
    re.DOTALL | re.MULTILINE,
)
FILE_LINE = re.compile(r"# ([\w./-]+\.ya?ml)\n")
OTHERWISE = {
    "python3 -m venv": "installs; .ci/run installs in a fresh environment",
    ". lodestep-env": "installs",
    "pip install": "installs",
    "lodestep desk": "starts a server that does not end; tests/desk",
    "lodestep watch": "waits for changes until it is stopped",
    "python docs/make.py": "writes into the repository",
}
"""Beginnings of commands that are not run here, and why."""
BEFORE: dict[str, tuple[str, ...]] = {
    "booklets.md": (
        "lodestep sheet lantern-quay-waltz.yaml -o season.pdf --paper A5", "cp autumn-evening.yml evening.yml",
    ),
}
"""What a reader of that guide has done already."""


def pieces(guide: Path) -> Iterator[tuple[str, str]]:
    """Commands, files to write and answers, in their order."""
    for found in PIECE.finditer(guide.read_text(encoding="utf-8")):
        if found["command"] is not None:
            yield "command", found["command"]
        elif found["kind"] == "yaml":
            yield "file", found["block"]
        elif found["kind"] == "text":
            yield "answer", found["block"]


@dataclass(frozen=True, slots=True)
class Done:
    """What a command came to. said: on both streams."""

    status: int
    said: str


def run(command: str) -> Done:
    """Run it in this folder: the tool in this process, anything else by the shell."""
    words = shlex.split(command, comments=True)
    if words[0] != "lodestep":
        made = subprocess.run(command, shell=True, capture_output=True, text=True, check=False)
        return Done(made.returncode, made.stdout + made.stderr)
    spread = [found for word in words[1:] for found in (sorted(glob.glob(word)) if "*" in word else [word])]
    result = CliRunner().invoke(lodestep, spread)
    return Done(result.exit_code, result.output)


def seeded(folder: Path) -> None:
    """The examples, both where a reader has copied them to and where they came from; folders that are named."""
    shutil.copytree(ROOT / "examples", folder, dirs_exist_ok=True)
    shutil.copytree(ROOT / "examples", folder / "examples")
    for name in ("found", "sheets", "pictures"):
        (folder / name).mkdir(exist_ok=True)


@pytest.mark.parametrize("guide", GUIDES, ids=lambda path: path.name)
def test_every_command_of_a_guide_runs(guide: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    seeded(tmp_path)
    monkeypatch.chdir(tmp_path)
    for command in BEFORE.get(guide.name, ()):
        assert run(command).status == 0, command
    made: Done | None = None
    parts = list(pieces(guide))
    for number, (kind, text) in enumerate(parts):
        if kind == "file" and (named := FILE_LINE.match(text)):
            (tmp_path / named[1]).parent.mkdir(exist_ok=True)
            (tmp_path / named[1]).write_text(text, encoding="utf-8")
        elif kind == "command" and not text.startswith(tuple(OTHERWISE)):
            made = run(text)
            answer = next(iter(parts[number + 1:]), ("", ""))
            wrong = answer[0] == "answer" and "error:" in answer[1]
            assert made.status == (1 if wrong else 0), (text, made.said)
        elif kind == "answer":
            assert made is not None
            for line in filter(str.strip, text.splitlines()):
                assert line in made.said, line


def test_commands_are_found() -> None:
    """The check above looks at something."""
    assert {path.name for path in GUIDES} >= {"tutorial.md", "format.md", "gallery.md", "recipes.md", "extending.md"}
    found = [text for guide in GUIDES for kind, text in pieces(guide) if kind == "command"]
    assert len(found) > 30 and all(shlex.split(text) for text in found)


def make_script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_docs", DOCS / "make.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_guide_to_the_format_is_current() -> None:
    text = (DOCS / "format.md").read_text(encoding="utf-8")
    assert make_script().filled(text) == text, "run python docs/make.py"


def test_the_guide_to_the_format_names_every_key() -> None:
    text = (DOCS / "format.md").read_text(encoding="utf-8")
    for key in (*dance.KEYS, *dance.START_KEYS, *passage.KEYS):
        assert re.search(rf"`[^`]*\b{key}\b[^`]*`", text), key


@pytest.mark.parametrize("guide", [*GUIDES, ROOT / "README.md"], ids=lambda path: path.name)
def test_links_and_pictures_are_there(guide: Path) -> None:
    for target in re.findall(r"\]\((?!https?:)([^)#]+)(?:#[^)]*)?\)", guide.read_text(encoding="utf-8")):
        assert (guide.parent / target).exists(), target


def test_pictures_are_small() -> None:
    sizes = [path.stat().st_size for path in (DOCS / "pictures").glob("*.png")]
    assert len(sizes) >= 12 and max(sizes) < 150_000 and sum(sizes) < 1_000_000
