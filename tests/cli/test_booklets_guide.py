"""Every command of the guide to booklets that needs no book, and its programme file, do what is said there."""
from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from invoking import EXAMPLES, run, said

from notation.reading.programme import read_programme

GUIDE = (EXAMPLES.parent / "docs" / "booklets.md").read_text()
COMMANDS = re.findall(r"^ {4}lodestep ((?:impose|programme|index|sheet) .*)$", GUIDE, re.MULTILINE)


def test_the_commands_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for path in EXAMPLES.glob("*.y*ml"):
        shutil.copy(path, tmp_path)
    shutil.move("autumn-evening.yml", "evening.yml")
    assert run("sheet", "harbour-bell-waltz.yaml", "-o", "season.pdf", "--paper", "A5").exit_code == 0
    assert len(COMMANDS) >= 10
    for command in COMMANDS:
        result = run(*shlex.split(command))
        assert result.exit_code == 0, (command, said(result))


def test_the_programme_is_read_without_findings() -> None:
    block = re.search(r"```yaml\n(format: 1\n[^`]*?starts: .*?)```", GUIDE, re.DOTALL)
    assert block
    reading = read_programme(block[1].encode(), "evening.yml")
    assert reading.programme and reading.findings == () and len(reading.programme.items) == 4
