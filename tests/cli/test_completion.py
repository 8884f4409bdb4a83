"""Completion in the shells themselves, where they are installed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

PATH = f"{Path(sys.executable).parent}:{os.environ['PATH']}"
ASK = {
    "bash": 'eval "$(lodestep completion bash)"; COMP_WORDS=({words}); COMP_CWORD={at}; '
    '_lodestep_completion lodestep; printf "%s\\n" "${{COMPREPLY[@]}}"',
    "fish": 'lodestep completion fish | source; complete -C "{words}"',
}
CASES = (
    ("lodestep sh", "sheet"),
    ("lodestep sheet --layout la", "large-print"),
    ("lodestep figures whi", "whisk"),
    ("lodestep sheet --language d", "de"),
    ("lodestep schema lay", "layout"),
    ("lodestep rules bar-s", "bar-short"),
)


def in_shell(shell: str, begun: str) -> str:
    at = len(begun.split()) - 1
    script = ASK[shell].format(words=begun, at=at, at1=at + 1)
    settings = {**os.environ, "PATH": PATH}
    return subprocess.run([shell, "-c", script], capture_output=True, text=True, env=settings, check=False).stdout


@pytest.mark.parametrize("begun, offered", CASES)
def test_bash_offers_the_word(begun: str, offered: str) -> None:
    if shutil.which("bash") is None:
        pytest.skip("bash is not installed")
    assert in_shell("bash", begun).split() == [offered]


@pytest.mark.parametrize("begun, offered", CASES)
def test_fish_offers_the_word(begun: str, offered: str) -> None:
    if shutil.which("fish") is None:
        pytest.skip("fish is not installed")
    assert [line.split("\t")[0] for line in in_shell("fish", begun).splitlines()] == [offered]


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_the_lines_are_right_in_the_shell_s_own_eyes(shell: str) -> None:
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not installed")
    lines = subprocess.run([f"{Path(sys.executable).parent}/lodestep", "completion", shell], capture_output=True)
    assert lines.returncode == 0
    assert subprocess.run([shell, "-n"], input=lines.stdout, capture_output=True, check=False).returncode == 0
